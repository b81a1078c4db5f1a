"""Times of what money works out: make or buy with 10,000 draws, and the capacity programme.

Prints tables; nothing here passes or fails. ``python benchmarks/money_time.py``.
"""

from __future__ import annotations

import random
import statistics
import sys
import time
from decimal import Decimal
from pathlib import Path
from typing import TYPE_CHECKING

sys.path.insert(0, str(Path(__file__).parent))

from running import how_busy

if TYPE_CHECKING:
    from collections.abc import Sequence

    from rodbook.job import Book, Job
    from rodbook.money import JobWanted, MaterialUsage, WeekDays
    from rodbook.setout import ScheduleLine

type Laid = tuple[Sequence[ScheduleLine], Sequence[MaterialUsage], Book, Job]


def sample(name: str) -> Laid:
    """A sample with its parts laid out, and the sample book."""
    from rodbook.job.files import parse_book, parse_job, sample_book_text, sample_text
    from rodbook.plan import laid_out

    book = parse_book(sample_book_text())
    job = parse_job(sample_text(name), book)
    lines, usage = laid_out(job, book, seconds=3)
    return lines, usage, book, job


def time_chances(runs: int) -> None:
    """Make or buy of the 14-opening sample with 10,000 draws, first with everything still to be loaded."""
    lines, usage, book, job = sample("converted-store")
    times = []
    for _ in range(runs):
        started = time.perf_counter()
        from rodbook.money import chances

        result = chances(lines, usage, book, job.job.date, book.workshops[0], job.making)
        times.append(time.perf_counter() - started)
    openings, kinds = len(job.openings), len(result.kinds)
    print(
        f"Make or buy, {openings} openings, {kinds} kinds, {sum(len(k.ways) for k in result.kinds)} ways, "
        f"{result.draws} draws of {len(result.varying)} rates and of rejects: "
        f"{times[0]:.2f} s at first (libraries are loaded), then {statistics.median(times[1:]):.2f} s."
    )
    off = max(abs(w.cost.drawn_mean - w.cost.mean) / w.cost.mean for k in result.kinds for w in k.ways if w.cost.mean)
    print(f"Means of the draws differ from the closed forms by {100 * Decimal(off):.3f} % at the most.")


def board_of_jobs(jobs: int, weeks: int, seed: int) -> tuple[list[JobWanted], list[WeekDays]]:
    """Invented jobs whose parts are made or bought, more than the crew has days for; half of them may be left."""
    from rodbook.money import JobWanted, Offered, TaskWanted, WeekDays

    rng = random.Random(seed)
    results = []
    for number in range(1, jobs + 1):
        first = rng.randint(1, weeks - 5)
        last = min(weeks, first + rng.randint(3, 7))
        scale, tasks = rng.uniform(0.5, 2.5), []
        for kind in ("doors", "lining legs", "lining heads", "trims", "panels", "divisions"):
            if kind in ("panels", "divisions") and rng.random() < 0.5:
                continue
            days, material = scale * rng.uniform(0.3, 2.5), scale * rng.uniform(60, 250)
            saved = days * 304 * rng.uniform(0.3, 1.2)
            ways = [
                Offered(name, Decimal(round(material + share * saved)), round(days * own, 2), ordered, wait)
                for name, share, own, ordered, wait in (
                    ("all on site", 0.0, 1.0, None, 0),
                    ("finished out", 0.5, 0.5, Decimal(round(0.5 * saved)), 1),
                    ("bought cut", 0.55, 0.55, Decimal(round(material + 0.55 * saved)), 2),
                    ("bought finished", 1.0, 0.0, Decimal(round(material + saved)), 0),
                )
            ]
            tasks.append(TaskWanted(kind, tuple(ways), first, last))
        fitting = Offered("by the crew", Decimal(0), round(scale * rng.uniform(1, 3), 1))
        tasks.append(TaskWanted("fitting", (fitting,), min(last, first + 2), last))
        income = Decimal(round(1.1 * sum(float(t.ways[-1].cost) for t in tasks) + scale * 700))
        results.append(JobWanted(f"J{number}", income, tuple(tasks), rng.random() < 0.5, Decimal(85), Decimal(250)))
    return results, [WeekDays(6.0)] * weeks


def time_capacity(boards: int) -> None:
    """Thirty jobs over twenty-six weeks, proven within a hundredth."""
    from rodbook.money import MoreDays, capacity

    times, gaps, proven = [], [], 0
    overtime = [MoreDays("overtime", Decimal(420), dict.fromkeys(range(1, 27), 1.0))]
    for seed in range(boards):
        jobs, weeks = board_of_jobs(30, 26, seed)
        started = time.perf_counter()
        result = capacity(jobs, weeks, currency="EUR", more=overtime, gap=0.01, seconds=10)
        times.append(time.perf_counter() - started)
        gaps.append((result.bound - result.earned) / result.earned)
        proven += result.proven
    print(
        f"Capacity, 30 jobs over 26 weeks, {boards} boards: {proven} proven within 1%, median {statistics.median(times):.2f} s, "
        f"slowest {max(times):.2f} s, widest gap {100 * max(gaps):.2f} %."
    )
    started = time.perf_counter()
    result = capacity(jobs, weeks, currency="EUR", more=overtime, gap=0.002, value_weeks=None, seconds=10)
    values = [week.one_more_day for week in result.weeks]
    print(
        f"One more day valued in all 26 weeks of the last, each solved again to 0.2%: {time.perf_counter() - started:.1f} s, "
        f"EUR {min(values)} to {max(values)}."
    )


def main() -> None:
    """Time all of it."""
    runs = int(sys.argv[1]) if len(sys.argv) > 1 else 5
    print(how_busy())
    time_chances(runs)
    time_capacity(20)


if __name__ == "__main__":
    main()
