"""Fault lists name every fault at its own place, link it there, and fold nothing."""

import html
import re

from rodbook.desk.book.uses import entry_used, used_in_jobs
from rodbook.desk.models import Folder
from rodbook.desk.platform import store
from rodbook.desk.platform.faults import spot_of
from rodbook.desk.platform.job_state import standing_of
from rodbook.errors import Fault
from rodbook.plan import plan_parts


def _bad(pk, count):
    folder = Folder.objects.get(pk=pk)
    book = store.book_now()[2]
    raw = store.as_document(store.job_now(folder)[1])
    for opening in raw["openings"][:count]:
        opening["widths"] = [700, 844, 846]
    store.save(folder, folder.head, lambda _: store.read_job_document(raw, book), who="Ann", book=book)
    return store.job_now(folder)[1], book


def test_every_opening_that_stands_aside_is_named_and_linked_to_its_row(inside, store_job):
    job, book = _bad(store_job, 10)
    plan = plan_parts(job, book)
    faults = [fault for one in plan.aside for fault in one.faults]
    assert len(faults) >= 10
    page = html.unescape(inside.get(f"/jobs/{store_job}/parts/").content.decode())
    for fault in faults:
        assert f'href="/jobs/{store_job}/openings/#{spot_of(fault)}"' in page
        assert fault.what in page
    openings = inside.get(f"/jobs/{store_job}/openings/").content.decode()
    assert {f'id="r{n}"' for n in range(10)} <= set(re.findall(r'id="r\d+"', openings))
    assert " more faults" not in page


def test_with_nothing_left_every_fault_is_named_too(inside, store_job):
    job = _bad(store_job, 14)[0]
    page = html.unescape(inside.get(f"/jobs/{store_job}/").content.decode())
    assert all(f"{opening.mark}, widths: 700, 844, 846 differ" in page for opening in job.openings)
    assert f'href="/jobs/{store_job}/openings/#r13"' in page


def test_what_stands_names_all_marks(inside, store_job):
    job = store.job_now(Folder.objects.get(pk=store_job))[1]
    bare = job.model_copy(update={"openings": tuple(o.model_copy(update={"depth": None}) for o in job.openings)})
    found = standing_of(bare, plan_parts(bare, store.book_now()[2]), (), None)
    (need,) = (need for need in found.needs if "no depth" in need.sentence)
    assert need.sentence == f"14 openings have no depth: {', '.join(o.mark for o in job.openings)}."


def test_every_use_of_an_entry_is_named():
    job = {"openings": [{"mark": f"C{n}", "build_up": "x"} for n in range(9)]}
    used = used_in_jobs([(f"J{k}", job) for k in range(7)], "build_ups", "x")
    said = str(entry_used("x", used))
    assert all(f"for C{n}" in said for n in range(9))
    assert all(f"the job J{k} " in said for k in range(7))
    assert "more" not in said


def test_the_spot_of_a_fault_is_its_row():
    places = (("openings", 2, "widths"), ("panels", 0), ("runs", 1, "piers"), ("job", "name"), ())
    assert [spot_of(Fault(at, "field.empty")) for at in places] == ["r2", "p0", "t1", "", ""]


def test_weeks_and_dates_of_several_jobs_say_what_they_are_without(inside, store_job):
    import time

    from rodbook.desk.platform.job_page import job_page

    _bad(store_job, 2)
    page = job_page(store_job, start=True)
    while not page.work.over:
        time.sleep(0.05)
    assert "It is counted without what stands aside: C1, C2." in inside.get("/weeks/").content.decode()
    assert "without what stands aside: C1, C2" in inside.get("/dates/").content.decode()
