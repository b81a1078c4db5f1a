"""Workers that die, hang or fail: told in one sentence, begun again, and another worker takes their place."""

import html
import json
import os
import re
import signal
import threading
import time
from dataclasses import replace
from decimal import Decimal

import pytest

from rodbook.boards import Piece, Sheet, lay_out
from rodbook.desk.models import Folder
from rodbook.desk.platform import planning, store
from rodbook.desk.platform.planning import Planner, Work
from rodbook.errors import Fault, Message
from rodbook.job.files import parse_book, parse_job, sample_book_text, sample_text
from rodbook.plan import plan_parts

HTMX = {"HX-Request": "true"}


@pytest.fixture(scope="module")
def known():
    book = parse_book(sample_book_text())
    return parse_job(sample_text("stair"), book), book


@pytest.fixture
def held():
    """A planner with one worker that stands still, as one would in the middle of a long search."""
    found = Planner()
    found.warm()
    _until(lambda: found._idle)
    os.kill(found._idle[0].process.pid, signal.SIGSTOP)
    yield found
    found.close()


def _until(so, seconds=120):
    for _ in range(int(seconds / 0.02)):
        if so():
            return
        time.sleep(0.02)
    raise AssertionError("it never came to that")


def _refused():
    raise BlockingIOError("no more processes")


def _held_work(planner, job, book):
    """A work in the hands of the worker that stands still."""
    held = planner._idle[0].process
    work = planner.whole(job, book)
    _until(lambda: work.state == "running")
    assert work._process is held
    return work


def test_a_worker_that_is_killed_is_told_in_a_sentence_and_the_next_try_succeeds(held, known):
    work = _held_work(held, *known)
    os.kill(work._process.pid, signal.SIGKILL)
    _until(lambda: work.over)
    assert (work.state, work.again) == ("failed", True)
    assert [fault.what for fault in work.faults] == [str(planning.why_it_ended(planning.Ended.OUTSIDE))]
    assert held.whole(*known, start=False) is work
    again = held.whole(*known)
    assert again is not work
    _until(lambda: again.over)
    assert again.plan is not None
    assert held.whole(*known) is again


def test_a_worker_that_dies_while_idle_is_never_asked(held, known):
    os.kill(held._idle[0].process.pid, signal.SIGKILL)
    _until(lambda: not held._idle[0].process.is_alive())
    work = held.whole(*known)
    _until(lambda: work.over)
    assert work.plan is not None


def test_a_worker_that_hangs_is_ended_where_somebody_stops_it(held, known):
    work = _held_work(held, *known)
    process = work._process
    assert held.stop(work.key) is work
    _until(lambda: not process.is_alive())
    assert work.again


def test_a_worker_that_is_silent_is_given_up(held, known, monkeypatch):
    monkeypatch.setattr(planning, "SILENCE_S", 0.2)
    process = held._idle[0].process
    work = held.whole(*known)
    _until(lambda: work.over)
    assert [fault.what for fault in work.faults] == [str(planning.why_it_ended(planning.Ended.SILENT))]
    _until(lambda: not process.is_alive())
    monkeypatch.undo()
    again = held.whole(*known)
    _until(lambda: again.over)
    assert again.plan is not None


def test_where_no_worker_can_be_started_it_is_said(known, monkeypatch):
    planner = Planner()
    monkeypatch.setattr(planning, "_Worker", _refused)
    work = planner.whole(*known)
    _until(lambda: work.over)
    assert [fault.what for fault in work.faults] == [str(planning.why_it_ended(planning.Ended.NOT_STARTED))]
    assert work.again


@pytest.mark.filterwarnings("ignore::pytest.PytestUnhandledThreadExceptionWarning")
@pytest.mark.parametrize("where", ["_take", "_listen"])
def test_whatever_goes_wrong_nobody_waits_without_end(known, monkeypatch, where):
    """A failure that nobody thought of is told as any other, and shown in the log."""

    def failing(*_):
        raise ArithmeticError("one and one is three")

    planner = Planner()
    monkeypatch.setattr(planner, where, failing)
    work = planner.whole(*known)
    _until(lambda: work.over)
    assert [fault.what for fault in work.faults] == [
        str(planning.why_it_ended(planning.Ended.UNFORESEEN, reason="ArithmeticError"))
    ]
    assert work.again
    monkeypatch.undo()
    again = planner.whole(*known)
    _until(lambda: again.over)
    assert again.plan is not None
    planner.close()


def test_where_no_thread_can_be_started_it_is_said_and_nobody_waits(known, monkeypatch):
    def refused(_):
        raise RuntimeError("can't start new thread")

    planner = Planner()
    with monkeypatch.context() as meanwhile:
        meanwhile.setattr(planning.threading.Thread, "start", refused)
        planner.warm()
        work = planner.whole(*known)
    assert work.over
    assert [fault.what for fault in work.faults] == [str(planning.why_it_ended(planning.Ended.NOT_STARTED))]
    again = planner.whole(*known)
    _until(lambda: again.over)
    assert again.plan is not None
    planner.close()


def test_an_answer_that_makes_no_sense_ends_the_wait(known, monkeypatch):
    planner = Planner()
    monkeypatch.setattr(planning._Worker, "told", lambda *_: ("done", None))
    work = planner.whole(*known)
    _until(lambda: work.over)
    assert [fault.what for fault in work.faults] == [
        str(planning.why_it_ended(planning.Ended.UNFORESEEN, reason="done"))
    ]
    planner.close()


def test_a_work_that_tells_on_and_on_has_an_end(known, monkeypatch):
    def told(*_):
        time.sleep(0.02)
        return "step", ("board", 1, 9)

    planner = Planner()
    monkeypatch.setattr(planning, "LONGEST_S", 0.3)
    monkeypatch.setattr(planning._Worker, "told", told)
    work = planner.whole(*known)
    _until(lambda: work.over)
    assert [fault.what for fault in work.faults] == [str(planning.why_it_ended(planning.Ended.TOO_LONG))]
    planner.close()


def test_who_looks_ends_a_work_whose_listener_is_stuck(known, monkeypatch):
    """As in half a message: the thread that listens does not come back, and what waits behind it would wait for ever."""
    planner, held = Planner(), threading.Event()
    job, book = known
    other = job.model_copy(update={"job": job.job.model_copy(update={"name": "another"})})
    monkeypatch.setattr(planning._Worker, "told", lambda *_: held.wait(60) and ("done", None))
    monkeypatch.setattr(planning, "WORKERS", 1)
    planner._room = threading.BoundedSemaphore(1)
    first, second = planner.whole(job, book), planner.whole(other, book)
    _until(lambda: "running" in (first.state, second.state))
    stuck, behind = (first, second) if first.state == "running" else (second, first)
    process = stuck._process
    assert behind.state == "waiting"
    monkeypatch.setattr(planning, "SILENCE_S", 0.1)
    monkeypatch.setattr(planning, "GRACE_S", 0.1)
    time.sleep(0.3)
    planner.whole(job, book, start=False)
    for work in (stuck, behind):
        assert work.over
        assert [fault.what for fault in work.faults] == [str(planning.why_it_ended(planning.Ended.SILENT))]
    _until(lambda: not process.is_alive())
    held.set()
    planner.close()


def test_what_is_stopped_as_it_ends_never_ends_the_next_work(known):
    """A worker that has gone back to the others is out of reach of the work that it did before."""
    planner = Planner()
    work = planner.whole(*known)
    _until(lambda: work.over)
    _until(lambda: planner._idle)
    process = planner._idle[0].process
    planner.stop(work.key)
    work.state = "running"  # as it stood to whoever looked a moment ago
    work.stop()
    assert process.is_alive()
    planner.close()


def test_a_desk_that_ends_does_not_wait_for_a_worker_that_stands_still(held, known):
    work = _held_work(held, *known)
    process = work._process
    held.close()
    _until(lambda: not process.is_alive(), 5)


def test_the_browser_gives_up_an_answer_that_never_comes(inside):
    """Else a page that asks how far the work is asks once, loses the answer on its way, and waits for ever."""
    said = json.loads(html.unescape(re.search(r"htmx-config\" content='([^']+)'", inside.get("/").content.decode())[1]))
    assert 5_000 <= said["timeout"] <= 60_000


def test_the_page_of_a_change_does_not_begin_anew_what_broke_off_while_it_waits(inside, store_job, monkeypatch):
    planner = Planner()
    for place in ("platform.job_page", "money.change_views"):
        monkeypatch.setattr(f"rodbook.desk.{place}.planner", planner)
    monkeypatch.setattr(planning, "_Worker", _refused)
    now = store.job_now(Folder.objects.get(pk=store_job))[1].job.model_dump(mode="json", exclude_defaults=True)
    reply = inside.post(f"/jobs/{store_job}/header/", {**now, "note": "another", "base": "1"})
    assert reply.status_code == 302
    address = f"/jobs/{store_job}/change/?from=1&what=x"
    inside.get(address)
    works = list(planner._works.values())
    assert works
    _until(lambda: all(work.over for work in works))
    page = inside.get(address, headers=HTMX).content.decode()
    assert str(planning.why_it_ended(planning.Ended.NOT_STARTED))[:30] in html.unescape(page)
    assert 'hx-trigger="load' not in page
    assert list(planner._works.values()) == works
    inside.get(address)  # whoever opens it again tries again
    assert list(planner._works.values()) != works
    planner.close()


def test_the_page_offers_to_try_again_what_broke_off(inside, store_job, monkeypatch):
    planner = Planner()
    for place in ("platform.job_page", "make.choice_views"):
        monkeypatch.setattr(f"rodbook.desk.{place}.planner", planner)
    with monkeypatch.context() as meanwhile:
        meanwhile.setattr(planning, "_Worker", _refused)
        address = f"/jobs/{store_job}/work/"
        inside.post(address + "start/", {"after": "boards"}, headers=HTMX)
        (work,) = planner._works.values()
        _until(lambda: work.over)
    page = inside.get(address, {"after": "boards"}, headers=HTMX).content.decode()
    assert str(planning.why_it_ended(planning.Ended.NOT_STARTED)) in page
    assert "<button>Try again</button>" in page
    assert "hx-trigger" not in page
    inside.post(address + "start/", {"after": "boards"}, headers=HTMX)
    (again,) = planner._works.values()
    assert again is not work
    _until(lambda: again.over)
    assert inside.get(address, headers=HTMX).headers["HX-Redirect"] == f"/jobs/{store_job}/make-or-buy/"
    planner.close()


def test_a_fault_of_the_job_is_not_offered_again(inside, store_job, monkeypatch):
    planner = Planner()
    monkeypatch.setattr("rodbook.desk.platform.job_page.planner", planner)
    monkeypatch.setattr(
        planner,
        "whole",
        lambda *_, start: Work("", "failed", faults=(Fault("door of C1", "plain.text", text="it fits no sheet"),)),
    )
    page = inside.get(f"/jobs/{store_job}/boards/").content.decode()
    assert "it fits no sheet" in page
    assert "Try again" not in page
    assert "work/start" not in page


def test_a_worker_keeps_layouts_but_none_that_the_clock_broke_off(monkeypatch):
    monkeypatch.setattr(planning, "KEPT_LAYOUTS", 2)
    plan = lay_out([Piece("shelf", 500, 300)], [Sheet("s", 1300, 700, Decimal(1))])
    kept = planning._Layouts()
    kept["late"] = replace(plan, ended="time")
    kept["off"] = replace(plan, ended="cancelled")
    assert not kept
    for key in "abc":
        kept[key] = plan
    assert list(kept) == ["b", "c"]


def _settled(key, size=0, state="done"):
    return Work(key, state, size=size)


def test_sixty_jobs_keep_their_plans(known, monkeypatch):
    """With a bound of 48 plans the pages of all jobs lost twelve of sixty, and beginning those lost twelve others."""
    job, book = known
    planner = Planner()
    monkeypatch.setattr(planner, "_see_to", lambda work, asked: None)
    jobs = [job.model_copy(update={"job": job.job.model_copy(update={"name": f"Job {n}"})}) for n in range(60)]
    for one in jobs:
        work = planner.whole(one, book)
        work.taken(None)
        work.hear("done", _plan_of(one, book))
        planner.remember(("plan", jobs.index(one)), work.plan)
    assert all(planner.whole(one, book, start=False).plan is not None for one in jobs)
    assert all(planner.remembered(("plan", n)) is not None for n in range(60))
    assert 0 < sum(work.size for work in planner._works.values()) < planning.KEPT_BYTES


_made = {}


def _plan_of(job, book):
    """The plan of the first job, for all of them: what is kept is looked at here, not what is in it."""
    if not _made:
        _made["plan"] = plan_parts(job, book)
    return _made["plan"]


def test_plans_go_where_they_take_too_much_and_none_that_is_waited_for(known, monkeypatch):
    monkeypatch.setattr(planning, "KEPT_BYTES", 100)
    planner = Planner()
    for key, size, state in (
        ("a", 60, "done"),
        ("b", 0, "running"),
        ("c", 30, "done"),
        ("d", 0, "failed"),
        ("e", 40, "done"),
    ):
        planner._works[key] = _settled(key, size, state)
    planner._make_room()
    assert list(planner._works) == ["b", "c", "d", "e"], "the least lately used goes, and only as far as it must"
    planner._works["f"] = _settled("f", 500)
    planner._make_room()
    assert list(planner._works) == ["b", "f"], "one that is too large by itself stays until another comes"


def test_dates_that_broke_off_are_called_so_and_what_a_worker_told_stays_as_it_is():
    work = Work("a", dates=True)
    work.break_off(planning.Ended.OUTSIDE)
    assert work.faults[0].what.startswith("the dates broke off")
    told = Work("b", dates=True)
    told.hear("broke off", Message("file.there_already", path="{x}"))
    assert told.faults[0].what == "{x} is there already; choose another name, nothing was written."
