"""Plans for the desk: parts at once, layouts, costs and dates by workers of their own, kept by what they were made from.

A worker is a process that lives as long as the desk. It is told one job at a time, tells how far it is, and can be stopped:
it is then ended and another takes its place.

Every wait has an end. The thread that listens to a worker gives it up after a while; and as a thread may itself be stuck in
half a message, or never have begun, whoever looks how far a work is ends it where its time is over.
"""

from __future__ import annotations

import contextlib
import hashlib
import json
import multiprocessing
import os
import pickle
import sys
import threading
import time
from collections import OrderedDict
from collections.abc import Sequence
from dataclasses import dataclass, field, replace
from enum import StrEnum
from multiprocessing.connection import Connection
from multiprocessing.process import BaseProcess
from typing import Literal

from rodbook import __version__
from rodbook.boards import BarPlan, SheetPlan
from rodbook.dates import Programme
from rodbook.errors import Fault, InputError, Message, RodbookError
from rodbook.job import Book, Job
from rodbook.plan import Plan, as_found, make_plan, plan_parts
from rodbook.plan.analyses.resting import rests_on
from rodbook.plan.schedule.dates import WantedDates, plan_dates

__all__ = ["Planner", "Work", "brought_up", "content_key", "dates_key", "planner", "shown_key"]

KEPT_BYTES = 512 * 2**20
"""Memory for plans and dates that are done, the least lately used going first: over three hundred jobs like the samples."""

IN_MEMORY = 5
"""A plan takes so many times what it takes packed (measured on the samples: 4.2 and 4.9)."""

KEPT_WORKS = 1000
"""Works known at a time, those that are done, failed or stopped: of the last two little is kept."""

KEPT_PARTS = 200
"""Plans as far as their parts, which are made at once, the least lately used going first."""

KEPT_SHOWN = 400
"""Places of which it is known what they showed last, a plan and dates for each of two hundred jobs."""

KEPT_LAYOUTS = 100
"""Layouts of single boards and sections that a worker keeps, the oldest going first."""

WORKERS = 2
"""Layouts worked out at the same time."""

EFFORT = 0.1
"""How much the search for dates may do, by its own count: a few seconds, and more where the machine is busy."""

SILENCE_S = 600.0
"""A worker that tells nothing for so long is ended (house assumption: each board has ten seconds)."""

LONGEST_S = 3600.0
"""A work that takes so long in all is ended, whatever it tells (house assumption: three hundred boards at ten seconds)."""

GRACE_S = 10.0
"""So much later whoever looks ends what the listening thread should have ended. [s]"""


class Ended(StrEnum):
    """How a work broke off, as the catalogue of sentences has it."""

    OUTSIDE = "desk.work_ended_from_outside"
    SILENT = "desk.work_silent"
    TOO_LONG = "desk.work_too_long"
    NOT_STARTED = "desk.work_not_started"
    UNFORESEEN = "desk.work_failed"


def why_it_ended(end: Ended, *, dates: bool = False, reason: str = "") -> Message:
    """How a work broke off, to be said.

    Parameters
    ----------
    end : Ended
    dates : bool
        Whether dates were worked out; else layouts.
    reason : str
        For what was not foreseen: the kind of fault.
    """
    what = Message("desk.the_dates" if dates else "desk.the_layouts")
    return Message(end.value, what=what, reason=reason, silence_s=SILENCE_S, longest_min=LONGEST_S / 60)


State = Literal["waiting", "running", "done", "failed", "stopped"]


def content_key(job: Job, book: Book) -> str:
    """What a plan is kept by: the version that made it, the job without price and dates, and what it rests on in the book."""
    of_job = job.model_dump_json(exclude={"price", "dates"})
    text = "\0".join((__version__, of_job, json.dumps(rests_on(job, book))))
    return hashlib.sha256(text.encode()).hexdigest()


def shown_key(job: Job, book: Book) -> str:
    """What pages and papers made from a plan are kept by: they show more of the book than the plan rests on."""
    text = "\0".join((content_key(job, book), book.model_dump_json(exclude={"dates"})))
    return hashlib.sha256(text.encode()).hexdigest()


def brought_up(plan: Plan, job: Job, book: Book) -> Plan:
    """A plan that is kept, with what it is kept without: the job's price and dates, and the book's."""
    return replace(plan, job=job, book=as_found(book, job))


def dates_key(jobs: Sequence[Job], book: Book, wanted: WantedDates) -> str:
    """What dates are kept by: the content of the plans of their jobs, what the jobs say of dates, and what is wanted."""
    answer = (content_key(job, book) + job.dates.model_dump_json() for job in jobs)
    return hashlib.sha256("\0".join(("dates", *answer, repr(wanted))).encode()).hexdigest()


def _size(answer: Plan | Programme) -> int:
    """About how much memory an answer takes. [bytes]"""
    return IN_MEMORY * len(pickle.dumps(answer, protocol=pickle.HIGHEST_PROTOCOL))


@dataclass
class Work:
    """A plan on its way, or a programme of dates.

    Parameters
    ----------
    key : str
    state : str
    what : str
        What is being worked out just now.
    done, total : int
        Steps.
    plan : Plan, optional
        When done.
    programme : Programme, optional
        When done, where it is one of dates.
    faults : tuple of Fault
        When failed.
    broke_off : bool
        Whether it failed for a reason that may be gone the next time; a fault of the job stays one.
    dates : bool
        Whether it is one on dates.
    """

    key: str
    state: State = "waiting"
    what: str = "waiting for its turn"
    done: int = 0
    total: int = 1
    plan: Plan | None = None
    programme: Programme | None = None
    faults: tuple[Fault, ...] = ()
    broke_off: bool = False
    dates: bool = False
    size: int = 0
    """Memory that its answer takes. [bytes]"""
    heard: float = field(default_factory=time.monotonic, repr=False)
    """When something was told of it last, by a clock that only goes forward. [s]"""
    began: float | None = field(default=None, repr=False)
    """When a worker took it, by the same clock; None while it waits. [s]"""
    _process: BaseProcess | None = field(default=None, repr=False)
    _lock: threading.RLock = field(default_factory=threading.RLock, repr=False, compare=False)

    @property
    def over(self) -> bool:
        """Whether nothing more will come."""
        return self.state in ("done", "failed", "stopped")

    @property
    def stopped(self) -> bool:
        """Whether somebody stopped it, perhaps only just now."""
        return self.state == "stopped"

    @property
    def again(self) -> bool:
        """Whether it can be begun again although nothing in the job has changed."""
        return self.state == "stopped" or (self.state == "failed" and self.broke_off)

    def break_off(self, end: Ended, *, reason: str = "") -> None:
        """Fail, unless it is over already."""
        self.break_off_with(why_it_ended(end, dates=self.dates, reason=reason))

    def break_off_with(self, answer: Message) -> None:
        """Fail with what its worker told, unless it is over already."""
        with self._lock:
            if not self.over:
                self.faults, self.broke_off, self.state = (Fault("", answer),), True, "failed"

    def stop(self) -> None:
        """Stop it, unless it is over already; its worker is ended while it is still this work's."""
        with self._lock:
            if not self.over:
                self.state, self.what = "stopped", "stopped"
                self._end_worker()

    def taken(self, process: BaseProcess) -> bool:
        """Whether a worker may begin with it; not where it was stopped meanwhile."""
        with self._lock:
            if self.over:
                return False
            self._process, self.state, self.what = process, "running", "starting"
            self.began = self.heard = time.monotonic()
            return True

    def let_go(self) -> None:
        """Nothing that happens to this work reaches its worker any more."""
        with self._lock:
            self._process = None

    def hear(self, kind: str, value: object) -> None:
        """Take in what its worker tells; what makes no sense breaks it off."""
        with self._lock:
            if self.over:
                return
            self.heard = time.monotonic()
            if kind == "step" and isinstance(value, tuple):
                self.what, self.done, self.total = value
            elif kind == "done" and isinstance(value, Plan):
                self.size = _size(value)
                self.plan, self.state, self.done = value, "done", self.total
            elif kind == "done" and isinstance(value, Programme):
                self.size = _size(value)
                self.programme, self.state, self.done = value, "done", self.total
            elif kind == "failed" and isinstance(value, tuple):
                self.faults, self.state = value, "failed"
            elif kind == "broke off" and isinstance(value, Message):
                self.break_off_with(value)
            else:
                self.break_off(Ended.UNFORESEEN, reason=kind)

    def out_of_time(self, now: float, moved: float) -> Ended | None:
        """Why it should have ended long ago; None where it may go on.

        Parameters
        ----------
        now : float
            By the clock that only goes forward. [s]
        moved : float
            When anything was told last of whatever else is worked out: what waits for its turn waits for that. [s]
        """
        silent_since = self.heard if self.began is not None else max(self.heard, moved)
        if now - silent_since > SILENCE_S + GRACE_S:
            return Ended.SILENT
        if self.began is not None and now - self.began > LONGEST_S + GRACE_S:
            return Ended.TOO_LONG
        return None

    def give_up(self, end: Ended) -> None:
        """Break it off, and end its worker."""
        with self._lock:
            self.break_off(end)
            self._end_worker()

    def _end_worker(self) -> None:
        if self._process is not None:
            self._process.kill()


def _labour(line: Connection) -> None:
    """A worker's life: take what is asked, tell of progress, answer, and wait for the next."""
    with contextlib.suppress(OSError, AttributeError):
        os.nice(5)  # pages come before layouts where the machine has too little for both
    kept = _Layouts()
    with contextlib.suppress(OSError), open(os.devnull, "w") as nowhere:  # noqa: PTH123
        os.dup2(nowhere.fileno(), sys.stdout.fileno() if sys.stdout else 1)
    while True:
        try:
            first, second = line.recv()
        except (EOFError, OSError, KeyboardInterrupt):
            return
        try:
            answer: tuple[str, object] = ("done", _worked_out(first, second, line, kept))
        except InputError as error:
            answer = ("failed", error.faults)
        except RodbookError as error:
            answer = ("broke off", error.message)
        except Exception as error:
            code = "desk.dates_not_worked_out" if isinstance(second, WantedDates) else "desk.layouts_not_worked_out"
            answer = ("broke off", Message(code, reason=type(error).__name__))
        with contextlib.suppress(OSError):
            line.send(answer)


class _Layouts(OrderedDict[str, SheetPlan | BarPlan]):
    """Layouts of boards and sections by what was asked, so that a change elsewhere does not lay them out again.

    The oldest go first; one that the clock broke off is not kept, for worked out again it may come out better.
    """

    def __setitem__(self, key: str, answer: SheetPlan | BarPlan) -> None:
        """Keep one more."""
        if answer.ended in ("time", "cancelled"):
            return
        super().__setitem__(key, answer)
        while len(self) > KEPT_LAYOUTS:
            self.popitem(last=False)


def _worked_out(first: object, second: object, line: Connection, kept: _Layouts) -> Plan | Programme:
    """A plan of a job and a book, or dates of plans and what is wanted."""

    def tell(*step: object) -> None:
        line.send(("step", step))

    if isinstance(second, WantedDates):
        assert isinstance(first, tuple)
        return plan_dates(first, second, effort=EFFORT, on_stage=tell)
    assert isinstance(first, Job)
    assert isinstance(second, Book)
    return make_plan(first, second, kept=kept, on_stage=tell, outlook=True)


class _Worker:
    def __init__(self) -> None:
        context = multiprocessing.get_context("spawn")
        self.line, other = context.Pipe()
        self.process = context.Process(target=_labour, args=(other,), daemon=True, name="rodbook-layouts")
        self.process.start()
        other.close()

    def end(self) -> None:
        self.process.kill()  # it holds nothing that is kept, and one that hangs does not hear anything gentler
        self.process.join(timeout=2)
        self.line.close()

    def told(self, seconds: float) -> tuple[str, object]:
        """What it tells next; TimeoutError where it is silent for so long, EOFError or OSError where it is gone."""
        if not self.line.poll(seconds):
            raise TimeoutError
        kind, value = self.line.recv()
        return kind, value


class Planner:
    """Plans, kept by content; safe to be asked from several threads."""

    def __init__(self) -> None:
        """Start no worker before one is wanted."""
        self._lock = threading.Lock()
        self._parts: OrderedDict[str, Plan | InputError] = OrderedDict()
        self._works: OrderedDict[str, Work] = OrderedDict()
        self._last: OrderedDict[tuple[str, int], object] = OrderedDict()
        self._idle: list[_Worker] = []
        self._room = threading.BoundedSemaphore(WORKERS)

    def parts(self, job: Job, book: Book) -> Plan:
        """Sizes, set-out and schedule, at once.

        Raises
        ------
        InputError
            With every fault.
        """
        key = content_key(job, book)
        wrong = shown_key(job, book)  # a fault may name what else there is in the book
        with self._lock:
            result = self._parts.get(key, self._parts.get(wrong))
            if result is not None:
                self._parts.move_to_end(key if key in self._parts else wrong)
        if result is None:
            try:
                result = plan_parts(job, book)
            except InputError as error:
                result, key = error, wrong
            with self._lock:
                self._parts[key] = result
                while len(self._parts) > KEPT_PARTS:
                    self._parts.popitem(last=False)
        if isinstance(result, InputError):
            raise result
        return brought_up(result, job, book)

    def remember(self, place: tuple[str, int], result: object) -> None:
        """Keep what a page shows, by what it is of, until something newer is shown there."""
        with self._lock:
            self._last[place] = result
            self._last.move_to_end(place)
            while len(self._last) > KEPT_SHOWN:
                self._last.popitem(last=False)

    def remembered(self, place: tuple[str, int]) -> object:
        """What a page showed last; None where nothing is known of that."""
        with self._lock:
            return self._last.get(place)

    def whole(self, job: Job, book: Book, *, start: bool = True) -> Work | None:
        """The work on a whole plan; begun where there is none and `start` says so."""
        return self._begun(content_key(job, book), (job, book), start=start)

    def dates(
        self, jobs: Sequence[Job], book: Book, wanted: WantedDates, plans: Sequence[Plan], *, start: bool = True
    ) -> Work | None:
        """The work on dates of jobs that are laid out and costed; begun where there is none and `start` says so."""
        return self._begun(dates_key(jobs, book, wanted), (tuple(plans), wanted), start=start)

    def _begun(self, key: str, asked: tuple[object, object], *, start: bool) -> Work | None:
        with self._lock:
            self._end_overdue()
            work = self._works.get(key)
            if work is not None and not (start and work.again):
                self._works.move_to_end(key)
                return work
            if not start:
                return work
            work = self._works[key] = Work(key, dates=isinstance(asked[1], WantedDates))
            self._make_room()
        try:
            threading.Thread(target=self._see_to, args=(work, asked), daemon=True).start()
        except RuntimeError:  # the machine gives no further thread; else everybody would wait for it without end
            work.break_off(Ended.NOT_STARTED)
        return work

    def _make_room(self) -> None:
        """Let the least lately used answers go while all take too much; none that is waited for goes, nor the last that came."""
        room = sum(work.size for work in self._works.values())
        for key in [key for key, work in self._works.items() if work.over][:-1]:
            if room <= KEPT_BYTES and len(self._works) <= KEPT_WORKS:
                return
            room -= self._works.pop(key).size

    def _end_overdue(self) -> None:
        """Give up what should be over, whatever became of the thread that listens to its worker."""
        now, moved = time.monotonic(), max((work.heard for work in self._works.values()), default=0.0)
        for work in self._works.values():
            if not work.over and (why := work.out_of_time(now, moved)):
                work.give_up(why)

    def stop(self, key: str) -> Work | None:
        """Stop a work that is not over yet."""
        with self._lock:
            work = self._works.get(key)
        if work is not None:
            work.stop()
        return work

    def warm(self) -> None:
        """Start a worker in the background, so that the first layouts need not wait for it."""
        with contextlib.suppress(RuntimeError):
            threading.Thread(target=lambda: self._give_back(_Worker()), daemon=True).start()

    def close(self) -> None:
        """End every worker: this process would else wait at its end for one that hears nothing."""
        with self._lock:
            idle, self._idle = self._idle, []
            works = list(self._works.values())
        for work in works:
            work.stop()
        for worker in idle:
            worker.end()

    def _give_back(self, worker: _Worker) -> None:
        with self._lock:
            if len(self._idle) < WORKERS:
                self._idle.append(worker)
                return
        worker.end()

    def _take(self) -> _Worker:
        while True:
            with self._lock:
                worker = self._idle.pop() if self._idle else None
            if worker is None:
                return _Worker()
            if worker.process.is_alive():
                return worker

    def _see_to(self, work: Work, asked: tuple[object, object]) -> None:
        with self._room:
            if work.stopped:
                return
            try:
                worker = self._take()
            except OSError:
                work.break_off(Ended.NOT_STARTED)
                return
            except Exception as error:
                work.break_off(Ended.UNFORESEEN, reason=type(error).__name__)
                raise
            if not work.taken(worker.process):
                self._give_back(worker)
                return
            try:
                worker.line.send(asked)
                self._listen(work, worker)
            except TimeoutError:  # before OSError, of which it is one
                work.break_off(Ended.TOO_LONG if time.monotonic() - work.heard < SILENCE_S else Ended.SILENT)
            except (EOFError, OSError):
                work.break_off(Ended.OUTSIDE)
            except Exception as error:  # else everybody would wait for it without end
                work.break_off(Ended.UNFORESEEN, reason=type(error).__name__)
                raise
            finally:
                work.let_go()
                if work.again:
                    worker.end()
                else:
                    self._give_back(worker)

    @staticmethod
    def _listen(work: Work, worker: _Worker) -> None:
        """Take in what a worker tells until the work is over; TimeoutError where that takes too long."""
        end = time.monotonic() + LONGEST_S
        while not work.over:
            if (left := end - time.monotonic()) <= 0:
                raise TimeoutError
            work.hear(*worker.told(min(SILENCE_S, left)))


planner = Planner()
"""The desk's own."""
