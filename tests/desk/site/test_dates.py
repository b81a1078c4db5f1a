"""The pages of dates: who does what when, of one job and of all, and what is said of people, days and tasks."""

import datetime
import time

import icalendar
import pytest
from django.test import Client

from rodbook.dates import Person, headline, hundred, slip_said
from rodbook.desk.entrance import people
from rodbook.desk.models import Folder, GivenOut
from rodbook.desk.platform import store
from rodbook.desk.platform.job_page import date_now, job_page
from rodbook.desk.platform.planning import Work, content_key, dates_key, planner
from rodbook.plan import make_plan
from rodbook.plan.schedule.dates import dates_faults, plan_dates, wanted_by

HTMX = {"HX-Request": "true"}
ROWS = {"person-TOTAL_FORMS": 2, "person-INITIAL_FORMS": 0, "supplier-TOTAL_FORMS": 0, "supplier-INITIAL_FORMS": 0}
FIRM = ROWS | {"person-0-name": "Ada", "person-1-name": "Ben", "days": ["mon", "tue"], "holidays": "", "closed": ""}


ABOUT = ("dtstart", "dtend", "summary", "description")


def _long(day):
    return f"{day.day} {day:%B %Y}"


def _documents(pk):
    return store.job_now(Folder.objects.get(pk=pk))[1], store.book_now()[2]


@pytest.fixture(scope="module")
def kept():
    """Plans and programmes worked out once for this module, by content."""
    return {}


@pytest.fixture
def laid_out(store_job, kept, monkeypatch):
    """The converted store with its layouts, as a worker would have handed them in."""
    job, book = _documents(store_job)
    key = content_key(job, book)
    if key not in kept:
        kept[key] = make_plan(job, book, seconds=1.0)
    monkeypatch.setitem(planner._works, key, Work(key, "done", plan=kept[key]))
    return store_job


@pytest.fixture
def dated(laid_out, kept, monkeypatch):
    """The same with its dates."""
    job, book = _documents(laid_out)
    wanted = wanted_by(book, [job], today=date_now())
    key = dates_key([job], book, wanted)
    if key not in kept:
        kept[key] = plan_dates([job_page(laid_out).whole], wanted, effort=0.1)
    monkeypatch.setitem(planner._works, key, Work(key, "done", programme=kept[key], dates=True))
    return kept[key]


@pytest.fixture
def no_worker(monkeypatch):
    """Nothing is begun; what would have been is listed."""
    begun = []
    monkeypatch.setattr(planner, "_see_to", lambda work, asked: begun.append((work.key, asked)))
    return begun


def test_dates_wait_for_layouts(inside, store_job, monkeypatch):
    monkeypatch.delitem(planner._works, content_key(*_documents(store_job)), raising=False)
    page = inside.get(f"/jobs/{store_job}/dates/").content.decode()
    assert f'action="/jobs/{store_job}/work/start/"' in page
    assert '<input type="hidden" name="after" value="dates">' in page
    assert "Work out the dates" not in page


def test_dates_are_worked_out_by_a_worker_told_of_and_stopped(inside, laid_out, monkeypatch):
    address = f"/jobs/{laid_out}/dates/"
    assert "Work out the dates" in inside.get(address).content.decode()
    job, book = _documents(laid_out)
    key = dates_key([job], book, wanted_by(book, [job], today=date_now()))
    monkeypatch.setitem(planner._works, key, Work(key, "running", "who does what when", 1, 3, dates=True))
    told = inside.get(f"{address}work/", headers=HTMX).content.decode()
    assert 'max="3" value="1"' in told
    assert "<html" not in told
    assert inside.post(f"{address}stop/").status_code == 302
    assert "It was stopped" in inside.get(address).content.decode()


def test_a_whole_programme_by_a_real_worker(inside, laid_out):
    inside.post(f"/jobs/{laid_out}/dates/days/", {"base": _base(laid_out), "start": "2027-05-03", "by": ""})
    job, book = _documents(laid_out)
    work = planner.dates([job], book, wanted_by(book, [job], today=date_now()), [], start=False)
    end = time.monotonic() + 240
    while not work.over and time.monotonic() < end:
        time.sleep(0.2)
        work_done = inside.get(f"/jobs/{laid_out}/dates/work/", headers=HTMX)
    assert work.state == "done", work.faults
    assert work_done.status_code == 200
    assert headline(work.programme, _long) in inside.get(f"/jobs/{laid_out}/dates/").content.decode()


def test_the_page_says_who_does_what_when_and_by_when_to_order(inside, laid_out, dated):
    page = inside.get(f"/jobs/{laid_out}/dates/").content.decode()
    assert headline(dated, _long) in page
    for entry in dated.schedule.placed:
        tight = dated.floats[entry.task.key] < dated.calendar.quarters
        told = f"<strong>{entry.task.name}</strong>" if tight else f"<span>{entry.task.name}"
        assert page.count(told) == 1 + len(entry.people)
    for order in dated.orders:
        assert order.supplier in page
    for finish in dated.chance.jobs.values():
        assert f"{hundred(finish.holds)}%" in page
    assert page.count('<svg role="img"') >= 2
    assert "style=" not in page


def test_the_strip_says_by_when_to_order(inside, laid_out, dated):
    page = " ".join(inside.get(f"/jobs/{laid_out}/parts/").content.decode().split())
    order = dated.orders[0]
    assert f"Order from {order.supplier} by {order.latest.day} {order.latest:%B}." in page
    assert f'<a href="/jobs/{laid_out}/dates/">Order from' in page


def test_a_late_delivery_moves_what_the_core_says(inside, laid_out, dated):
    for days in (0, 5):
        page = inside.get(f"/jobs/{laid_out}/dates/?late={days}").content.decode()
        for slip in dated.late_by(days):
            assert slip_said(slip, lambda day: f"{day:%a} {day.day} {day:%b}") in page
    assert dated.late_by(3) == dated.slips
    assert "from 0 to 60 are taken" in inside.get(f"/jobs/{laid_out}/dates/?late=soon").content.decode()


def test_paper_and_calendars(inside, laid_out, dated):
    address = f"/jobs/{laid_out}/dates/file/"
    assert inside.get(f"{address}?name=dates.pdf").content.startswith(b"%PDF")
    everybody = icalendar.Calendar.from_ical(inside.get(f"{address}?name=dates.ics").content)
    ada = icalendar.Calendar.from_ical(inside.get(f"{address}?name=1-ada.ics").content)
    assert 0 < len(ada.walk("VEVENT")) < len(everybody.walk("VEVENT"))
    assert inside.get(f"{address}?name=../dates.pdf").status_code == 404


def test_a_save_raises_the_sequence_of_the_events_that_it_changes(inside, laid_out, dated, kept, monkeypatch):
    address = f"/jobs/{laid_out}/dates/file/?name=dates.ics"
    first = inside.get(address).content
    assert inside.get(address).content == first
    typed = {"base": _base(laid_out), "start": "", "by": "2030-03-01"}
    monkeypatch.setattr(planner, "_see_to", lambda work, asked: None)
    assert inside.post(f"/jobs/{laid_out}/dates/days/", typed).status_code == 302
    job, book = _documents(laid_out)
    wanted = wanted_by(book, [job], today=date_now())
    found = plan_dates([job_page(laid_out).whole], wanted, effort=0.1)
    key = dates_key([job], book, wanted)
    monkeypatch.setitem(planner._works, key, Work(key, "done", programme=found, dates=True))
    second = inside.get(address).content
    old, new = _numbers(first), _numbers(second)
    told = [
        {str(e["uid"]): [e.decoded(what) for what in ABOUT] for e in icalendar.Calendar.from_ical(one).walk("VEVENT")}
        for one in (first, second)
    ]
    changed = {uid for uid in old if told[0][uid] != told[1][uid]}
    assert old.keys() == new.keys()
    assert 0 < len(changed) < len(old), "a later wanted day leaves more time to order, and the tasks as they were"
    for uid, (number, stamp, _off) in old.items():
        assert new[uid][0] == number + (uid in changed)
        assert new[uid][1] >= stamp if uid in changed else new[uid][1] == stamp  # stamps are of whole seconds


def _numbers(content):
    """Of every event: its sequence, its stamp, and whether it is called off."""
    return {
        str(e["uid"]): (int(e["sequence"]), e.decoded("dtstamp"), e.get("status") == "CANCELLED")
        for e in icalendar.Calendar.from_ical(content).walk("VEVENT")
    }


def _shown(pk, monkeypatch):
    """The job with its layouts and dates as it stands, worked out."""
    job, book = _documents(pk)
    key = content_key(job, book)
    monkeypatch.setitem(planner._works, key, Work(key, "done", plan=make_plan(job, book, seconds=0.5)))
    wanted = wanted_by(book, [job], today=date_now())
    found = plan_dates([job_page(pk).whole], wanted, effort=0.0)
    key = dates_key([job], book, wanted)
    monkeypatch.setitem(planner._works, key, Work(key, "done", programme=found, dates=True))


def test_what_is_gone_from_a_job_is_called_off_in_the_next_file(inside, laid_out, dated, no_worker, monkeypatch):
    address = f"/jobs/{laid_out}/dates/file/?name="
    first, ben = (inside.get(f"{address}{name}").content for name in ("dates.ics", "2-ben.ics"))
    folder, state = Folder.objects.get(pk=laid_out), store.job_now(Folder.objects.get(pk=laid_out))[0]
    keep = tuple(o for o in _documents(laid_out)[0].openings if o.room == _documents(laid_out)[0].openings[0].room)
    store.save(
        folder, state.number, lambda raw: _documents(laid_out)[0].model_copy(update={"openings": keep}), who="Ann"
    )
    book_folder, revision, book = store.book_now()
    crew = book.dates.model_copy(update={"crew": tuple(p for p in book.dates.crew if p.name != "Ben")})
    store.save(book_folder, revision.number, lambda _: book.model_copy(update={"dates": crew}), who="Ann")
    _shown(laid_out, monkeypatch)
    before, after = _numbers(first), _numbers(inside.get(f"{address}dates.ics").content)
    gone = {uid for uid, (_, _, off) in after.items() if off}
    assert gone
    assert before.keys() - after.keys() == set(), "nothing is left standing in anybody's calendar"
    for uid in gone:
        assert after[uid][0] > before[uid][0]
        assert after[uid][1] >= before[uid][1]
    page = inside.get(f"/jobs/{laid_out}/dates/").content.decode()
    name = next(one for one in ("2-ben.ics", "3-ben.ics", "4-ben.ics") if one in page)
    assert "Ben <small>called off</small>" in " ".join(page.split())
    ended = _numbers(inside.get(f"{address}{name}").content)
    assert ended.keys() == _numbers(ben).keys()
    assert all(off for _, _, off in ended.values())
    assert GivenOut.objects.filter(folder=folder).count() == 2


def test_the_last_file_is_kept_once(inside, laid_out, dated):
    inside.get(f"/jobs/{laid_out}/dates/file/?name=dates.ics")
    inside.get(f"/jobs/{laid_out}/dates/file/?name=dates.ics")
    assert [(one.folder_id, one.whose) for one in GivenOut.objects.all()] == [(laid_out, "")]


def test_dates_that_are_older_stay_to_be_read_and_say_so(inside, laid_out, dated, no_worker):
    address = f"/jobs/{laid_out}/dates/"
    assert "Older:" not in inside.get(address).content.decode()
    typed = {"base": _base(laid_out), "start": "2027-01-11", "by": ""}
    assert inside.post(f"{address}days/", typed).status_code == 302
    page = inside.get(address).content.decode()
    assert '<p class="older" role="note"><strong>Older:</strong>' in page
    assert headline(dated, _long) in page
    assert "dates-work" in page
    assert "dates.ics" not in page, "nothing older is taken away"
    assert inside.get(f"{address}file/?name=dates.ics").status_code == 302


def _base(pk):
    return Folder.objects.get(pk=pk).head


def test_start_and_wanted_day_become_a_revision(inside, laid_out, no_worker):
    typed = {"base": _base(laid_out), "start": "2027-01-11", "by": "2027-03-01"}
    assert inside.post(f"/jobs/{laid_out}/dates/days/", typed).status_code == 302
    job, book = _documents(laid_out)
    assert (job.dates.start, job.dates.by) == (datetime.date(2027, 1, 11), datetime.date(2027, 3, 1))
    assert len(no_worker) == 1, "the layouts stand, only dates are begun"
    assert wanted_by(book, [job], today=date_now()).start == datetime.date(2027, 1, 11)
    newest = Folder.objects.get(pk=laid_out).revisions.latest("number")
    assert "dates: start nothing → 2027-01-11" in newest.said


def test_days_at_fault_are_told_beside_their_fields(inside, laid_out):
    before = _base(laid_out)
    reply = inside.post(f"/jobs/{laid_out}/dates/days/", {"base": before, "start": "soon", "by": ""})
    assert reply.status_code == 422
    assert 'id="fault-start"' in reply.content.decode()
    typed = {"base": before, "start": "2027-01-11", "by": "2027-01-08"}
    page = inside.post(f"/jobs/{laid_out}/dates/days/", typed).content.decode()
    assert "2027-01-08 is before the start, 2027-01-11; choose a later day" in page
    assert _base(laid_out) == before


def _number(pk, name):
    """Number of a task's row in the form."""
    page = job_page(pk)
    from rodbook.plan.schedule.tasks import tasks_of

    return [t.name for t in tasks_of(page.whole, key="1", people=3).named].index(name) + 1


def test_time_and_turn_of_a_task(inside, laid_out, no_worker):
    n = _number(laid_out, "hand over")
    typed = {"base": _base(laid_out), f"hours-{n}": "2,5", "after-2": "read openings once more"}
    assert inside.post(f"/jobs/{laid_out}/dates/tasks/", typed).status_code == 302
    job, book = _documents(laid_out)
    assert [(t.name, t.hours) for t in job.dates.tasks][-1] == ("hand over", 2.5)
    wanted = wanted_by(book, [job], today=date_now())
    placed = plan_dates([job_page(laid_out).whole], wanted, effort=0.0).schedule.placed
    assert next(e.task.quarters for e in placed if e.task.stage == "hand over") == 10


def test_tasks_at_fault_are_told_beside_their_fields(inside, laid_out):
    before = _base(laid_out)
    n = _number(laid_out, "hand over")
    typed = {"base": before, "hours-1": "-3", f"hours-{n}": "long", f"after-{n}": "hand ovr", "after-1": "hand over"}
    reply = inside.post(f"/jobs/{laid_out}/dates/tasks/", typed)
    page = reply.content.decode()
    assert reply.status_code == 422
    assert '<p class="fault" id="fault-hours-1">-3 hours won&#x27;t do; from 0 to 2000 are taken</p>' in page
    assert f'id="fault-hours-{n}">&#x27;long&#x27; is not a number of hours' in page
    assert f'id="fault-after-{n}">there is no task &#x27;hand ovr&#x27;; did you mean hand over?' in page
    assert _base(laid_out) == before


def test_a_circle_is_told_beside_the_wait_that_closes_it(inside, laid_out):
    before = _base(laid_out)
    reply = inside.post(f"/jobs/{laid_out}/dates/tasks/", {"base": before, "after-1": "hand over"})
    page = reply.content.decode()
    assert reply.status_code == 422
    assert "a circle that can never begin; take one wait out of it" in page.split('id="fault-after-1">')[1][:900]
    assert _base(laid_out) == before


def test_people_and_days_become_a_revision_of_the_book(inside, laid_out, no_worker):
    base = store.the_book_folder().head
    typed = FIRM | {
        "base": base,
        "person-1-off": "2026-12-24..2027-01-06, 2027-02-01",
        "person-0-trades": "joinery",
        "holidays": "at",
    }
    assert inside.post(f"/jobs/{laid_out}/dates/firm/", typed).status_code == 302
    firm = store.book_now()[2].dates
    assert [m.name for m in firm.crew] == ["Ada", "Ben"]
    assert firm.holidays == "AT"
    assert firm.days == ("mon", "tue")
    wanted = wanted_by(store.book_now()[2], [], today=date_now())
    assert [type(p) for p in wanted.people] == [Person, Person]
    assert [str(a.last) for a in wanted.people[1].off] == ["2027-01-06", "2027-02-01"]
    assert len(no_worker) == 1


def test_days_of_suppliers_become_a_revision_of_the_book(inside, laid_out, no_worker):
    page = inside.get(f"/jobs/{laid_out}/dates/").content.decode()
    assert 'name="supplier-0-supplier" value="the merchant"' in page
    assert 'name="supplier-1-supplier" value="Quarry Lane Workshop"' in page
    typed = FIRM | {
        "base": store.the_book_folder().head,
        "supplier-0-supplier": "the merchant",
        "supplier-0-open": "mon-sat",
        "supplier-0-country_of": "none",
        "supplier-1-supplier": "Quarry Lane Workshop",
        "supplier-1-open": "",
        "supplier-1-country_of": "",
        "supplier-1-shut": "2026-12-21..2027-01-08",
        "supplier-TOTAL_FORMS": 2,
    }
    assert inside.post(f"/jobs/{laid_out}/dates/firm/", typed).status_code == 302
    merchant, workshop = store.book_now()[2].dates.suppliers
    assert (merchant.days[-1], merchant.holidays, workshop.holidays) == ("sat", "", None)
    assert str(workshop.closed[0].last) == "2027-01-08"
    wanted = wanted_by(store.book_now()[2], [], today=date_now())
    assert [one.name for one in wanted.suppliers] == ["the merchant", "Quarry Lane Workshop"]
    page = inside.get(f"/jobs/{laid_out}/dates/").content.decode()
    assert 'value="mon,tue,wed,thu,fri,sat"' in page
    assert 'value="2026-12-21..2027-01-08"' in page
    # whoever saves a form that does not show them leaves them as they are
    assert inside.post("/dates/firm/", FIRM | {"base": store.the_book_folder().head}).status_code == 302
    assert len(store.book_now()[2].dates.suppliers) == 2
    wrong = typed | {
        "base": store.the_book_folder().head,
        "supplier-0-open": "mon-fry",
        "supplier-1-country_of": "ZZ",
        "supplier-0-shut": "soon",
    }
    reply = inside.post(f"/jobs/{laid_out}/dates/firm/", wrong)
    page = reply.content.decode()
    assert reply.status_code == 422
    assert 'id="fault-supplier-0-open">&#x27;fry&#x27; is not a day of the week' in page
    assert 'id="fault-supplier-1-country_of">no holidays are known for &#x27;ZZ&#x27;' in page
    assert 'id="fault-supplier-0-shut"' in page


def test_people_and_days_at_fault(inside, laid_out):
    base = store.the_book_folder().head
    off = {"person-0-name": "", "person-0-off": "2026-12-24"}
    typed = ROWS | off | {"base": base, "holidays": "ZZ", "closed": "2027-01-06..2026-12-24"}
    reply = inside.post("/dates/firm/", typed)
    page = reply.content.decode()
    assert reply.status_code == 422
    for said in (
        "there is nobody to do the work; name at least one person",
        "there is no working day in the week; choose at least one",
        "no holidays are known for &#x27;ZZ&#x27;",
        "ends before it begins; write the earlier day first",
    ):
        assert said in page
    assert store.the_book_folder().head == base


def test_a_crew_of_nobody(inside, laid_out, monkeypatch):
    folder, revision, book = store.book_now()
    store.save(
        folder, revision.number, lambda _: book.model_copy(update={"dates": type(book.dates)()}), who="x", book=None
    )
    page = inside.get(f"/jobs/{laid_out}/dates/").content.decode()
    assert "The book names nobody who works" in page
    inside.post(f"/jobs/{laid_out}/dates/start/")
    assert job_page(laid_out).dates is None
    said = [
        f.what for f in dates_faults([job_page(laid_out).whole], wanted_by(store.book_now()[2], [], today=date_now()))
    ]
    assert said == ["there is nobody to do the work; name at least one person"]


def test_all_jobs_are_planned_together(inside, laid_out, no_worker, monkeypatch):
    reply = inside.post("/jobs/sample/", {"sample": "stair"})
    stair = int(reply.headers["Location"].rstrip("/").rsplit("/", 1)[1])
    monkeypatch.delitem(planner._works, content_key(*_documents(stair)), raising=False)
    page = inside.get("/dates/").content.decode()
    assert "Work out the dates" in page
    assert "Stair at the chapel cottage</a>: its layouts and costs are not worked out" in page
    assert inside.get(reply.headers["Location"]).status_code == 200
    assert inside.post("/dates/start/").status_code == 302
    assert [len(asked[0]) for _, asked in no_worker] == [1]


def _came_as(client, settings, role):
    """The browser of somebody of that role, on a desk that is shared."""
    settings.SHARED = True
    people.add_person(f"{role}-here", role, "seven larch boards")
    assert client.post("/login/", {"username": f"{role}-here", "password": "seven larch boards"}).status_code == 302
    return client


@pytest.mark.parametrize("role", ["maker", "reader"])
def test_what_each_role_may(laid_out, dated, no_worker, settings, role):
    client = _came_as(Client(), settings, role)
    page = client.get(f"/jobs/{laid_out}/dates/").content.decode()
    assert headline(dated, _long) in page
    assert client.get(f"/jobs/{laid_out}/dates/file/?name=dates.ics").status_code == 200
    assert "Save in the book" not in page
    firm = FIRM | {"base": store.the_book_folder().head}
    assert client.post(f"/jobs/{laid_out}/dates/firm/", firm).status_code == 403
    assert client.post("/dates/firm/", firm).status_code == 403
    may = role == "maker"
    assert ("Save the tasks" in page) == may
    days = {"base": _base(laid_out), "start": "2027-01-11", "by": ""}
    assert client.post(f"/jobs/{laid_out}/dates/days/", days).status_code == (302 if may else 403)
    assert client.post(f"/jobs/{laid_out}/dates/start/").status_code == (302 if may else 403)
    assert client.post("/dates/stop/").status_code == (302 if may else 403)
