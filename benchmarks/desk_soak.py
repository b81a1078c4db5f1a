"""Plans and dates by the thousand, under load: how many are answered, and whether anybody ever waits without an end.

    python benchmarks/desk_soak.py [--number N] [--longest S] [--seed N]

A planner as the desk has it is asked for layouts of a small job that is changed a little each time, and for dates of what came
out, by several threads at once. Meanwhile workers are killed, made to stand still, and works stopped in the middle, each by
chance. An answer is done, a fault of the job, stopped, or a sentence that says what broke off. What is not over after
`--longest` seconds hangs; the exit status is then 1. By default 2,000 are asked for.
"""

from __future__ import annotations

import argparse
import os
import random
import signal
import statistics
import sys
import threading
import time
from collections import Counter
from dataclasses import dataclass, field
from datetime import date as Date  # noqa: N812

from running import how_busy

from rodbook.desk.platform import planning
from rodbook.desk.platform.planning import Planner, Work
from rodbook.job import Book, Job
from rodbook.job.files import parse_book, parse_job, sample_book_text, sample_text
from rodbook.plan.schedule.dates import wanted_by

ASKERS = 6
"""Threads that ask at the same time."""

KILLED, HELD, STOPPED = 0.03, 0.01, 0.05
"""Of so many works the worker is killed, made to stand still, or they are stopped."""


@dataclass
class Soak:
    """What is asked, and what came of it."""

    number: int
    longest: float
    draw: random.Random
    job: Job
    book: Book
    planner: Planner = field(default_factory=Planner)
    ends: Counter[str] = field(default_factory=Counter)
    took: list[float] = field(default_factory=list)
    harmed: Counter[str] = field(default_factory=Counter)
    asked: int = 0
    lock: threading.Lock = field(default_factory=threading.Lock)

    def next(self) -> int:
        """Number of the next that is asked for; 0 when it is enough."""
        with self.lock:
            if self.asked >= self.number:
                return 0
            self.asked += 1
            return self.asked

    def harm(self, work: Work) -> None:
        """Kill its worker, make it stand still, or stop it; mostly nothing."""
        with self.lock:
            chance, pause = self.draw.random(), self.draw.random()
        if chance > KILLED + HELD + STOPPED:
            return
        began = time.monotonic()
        while work.state == "waiting" and time.monotonic() - began < self.longest:
            time.sleep(0.02)
        time.sleep(pause)
        with work._lock:
            process = work._process
            if work.over or process is None:
                return
            what = "killed" if chance < KILLED else "held" if chance < KILLED + HELD else "stopped"
            self.harmed[what] += 1
            if what == "stopped":
                work.stop()
            else:
                os.kill(process.pid, signal.SIGKILL if what == "killed" else signal.SIGSTOP)

    def see(self, ask: str, begin) -> Work:
        """Ask as a page does: look again and again until it is over."""
        began = time.monotonic()
        work = begin(start=True)
        self.harm(work)
        while not work.over and time.monotonic() - began < self.longest:
            time.sleep(0.05)
            begin(start=False)
        end = work.state if work.over else "hangs"
        if work.over and work.broke_off:
            end = "broke off, said so"
        with self.lock:
            self.ends[f"{ask}: {end}"] += 1
            self.took.append(time.monotonic() - began)
        return work

    def run(self) -> None:
        """Ask until it is enough: layouts, and dates of what came out."""
        while number := self.next():
            header = self.job.job.model_copy(update={"name": f"Soak {number}"})
            job = self.job.model_copy(update={"job": header})
            work = self.see("layouts", lambda *, start, job=job: self.planner.whole(job, self.book, start=start))
            if work.plan is None or not self.next():
                continue
            wanted = wanted_by(self.book, [job], today=Date(2031, 4, 2))
            self.see(
                "dates",
                lambda *, start, job=job, work=work, wanted=wanted: self.planner.dates(
                    [job], self.book, wanted, [work.plan], start=start
                ),
            )


def main() -> int:
    """Print what came of it."""
    parser = argparse.ArgumentParser(description=__doc__.partition("\n")[0])
    parser.add_argument("--number", type=int, default=2000)
    parser.add_argument("--longest", type=float, default=300.0, help="seconds after which one counts as hanging")
    parser.add_argument("--silence", type=float, default=60.0, help="seconds after which a silent worker is given up")
    parser.add_argument("--seed", type=int, default=1)
    asked = parser.parse_args()
    planning.SILENCE_S = asked.silence
    book = parse_book(sample_book_text())
    soak = Soak(asked.number, asked.longest, random.Random(asked.seed), parse_job(sample_text("stair"), book), book)
    began = time.monotonic()
    threads = [threading.Thread(target=soak.run, daemon=True) for _ in range(ASKERS)]
    for thread in threads:
        thread.start()
    for thread in threads:
        thread.join()
    soak.planner.close()
    print(f"asked for {sum(soak.ends.values())} by {ASKERS} at once in {time.monotonic() - began:.0f} s; {how_busy()}")
    for end, count in sorted(soak.ends.items()):
        print(f"{end:32}{count:7}")
    for what, count in sorted(soak.harmed.items()):
        print(f"{'harmed: ' + what:32}{count:7}")
    took = sorted(soak.took)
    print(f"seconds: middle {statistics.median(took):.1f}, longest {took[-1]:.1f}")
    hang = sum(count for end, count in soak.ends.items() if end.endswith("hangs"))
    print(f"{'hang':32}{hang:7}")
    return 1 if hang else 0


if __name__ == "__main__":
    sys.exit(main())
