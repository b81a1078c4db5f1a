"""Workers that die, hang or fail: told in one sentence, begun again, and another worker takes their place."""

import os
import signal
import time
from dataclasses import replace
from decimal import Decimal

import pytest

from rodbook.boards import Piece, Sheet, lay_out
from rodbook.desk import planning
from rodbook.desk.planning import Planner, Work
from rodbook.errors import Fault
from rodbook.job.files import parse_book, parse_job, sample_book_text, sample_text

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


def _until(so, seconds=30):
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
    assert [fault.what for fault in work.faults] == [planning.ENDED]
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
    assert [fault.what for fault in work.faults] == [planning.SILENT]
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
    assert [fault.what for fault in work.faults] == [planning.NOT_STARTED]
    assert work.again


@pytest.mark.filterwarnings("ignore::pytest.PytestUnhandledThreadExceptionWarning")
@pytest.mark.parametrize("where", ["_take", "_hear"])
def test_whatever_goes_wrong_nobody_waits_without_end(known, monkeypatch, where):
    """A failure that nobody thought of is told as any other, and shown in the log."""

    def failing(*_):
        raise ArithmeticError("one and one is three")

    planner = Planner()
    monkeypatch.setattr(planner, where, failing)
    work = planner.whole(*known)
    _until(lambda: work.over)
    assert [fault.what for fault in work.faults] == [planning.UNFORESEEN.format(reason="ArithmeticError")]
    assert work.again
    monkeypatch.undo()
    again = planner.whole(*known)
    _until(lambda: again.over)
    assert again.plan is not None
    planner.close()


def test_the_page_offers_to_try_again_what_broke_off(inside, store_job, monkeypatch):
    planner = Planner()
    for place in ("common", "money"):
        monkeypatch.setattr(f"rodbook.desk.views.{place}.planner", planner)
    with monkeypatch.context() as meanwhile:
        meanwhile.setattr(planning, "_Worker", _refused)
        address = f"/jobs/{store_job}/work/"
        inside.post(address + "start/", {"after": "boards"}, headers=HTMX)
        (work,) = planner._works.values()
        _until(lambda: work.over)
    page = inside.get(address, {"after": "boards"}, headers=HTMX).content.decode()
    assert planning.NOT_STARTED in page
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
    monkeypatch.setattr("rodbook.desk.views.common.planner", planner)
    monkeypatch.setattr(
        planner, "whole", lambda *_, start: Work("", "failed", faults=(Fault("door of C1", "it fits no sheet"),))
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
