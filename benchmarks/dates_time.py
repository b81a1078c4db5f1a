"""A programme of many jobs that share few people: how soon it is good, and how good that is proven to be.

Prints a table; nothing here passes or fails. ``python benchmarks/dates_time.py``.
"""

from __future__ import annotations

import random
import sys
import time
from datetime import date, timedelta
from pathlib import Path

sys.path.insert(0, str(Path(__file__).parent))

from running import how_busy

from rodbook.dates import Person, Stage, Task, Wait, Work, breaches, make_calendar, make_schedule
from rodbook.dates.programme import make_programme

EFFORTS = (0.0, 0.1, 0.3)


def jobs(count: int, seed: int, apart: int) -> tuple[list[Task], list[Work]]:
    """Invented jobs of one to five rooms each, each beginning so many days after the one before."""
    draw = random.Random(seed)
    tasks: list[Task] = []
    works: list[Work] = []
    for n in range(count):
        job = f"job {n + 1}"
        first = date(2026, 12, 1) + timedelta(days=apart * n)
        works.append(Work(job, job, earliest=first, due=first + timedelta(days=draw.randint(40, 70))))

        def add(name, stage, quarters, *waits, job=job, **more):
            key = f"{job}: {name}"
            tasks.append(Task(key, f"{name}, {job}", job, stage, quarters, waits=tuple(waits), **more))
            return key

        measure = add("measure", Stage.MEASURE, draw.randint(4, 16))
        order = add("order", Stage.ORDER, 4, Wait(measure))
        lead = draw.choice([5, 10, 12, 15])
        deliver = add("deliver", Stage.DELIVER, 4, Wait(order, days=lead, supplier="a workshop"), hands=2)
        check = add("check", Stage.CHECK, draw.randint(2, 8), Wait(deliver))
        adjusted = []
        for room in range(draw.randint(1, 5)):
            place = f"{job}, room {room + 1}"
            size = draw.randint(1, 4)
            linings = add(f"linings {room}", Stage.LININGS, 5 * size, Wait(check), place=place)
            leaves = add(
                f"leaves {room}", Stage.LEAVES, 3 * size, Wait(linings), place=place, hands=draw.choice([1, 2])
            )
            trims = add(f"trims {room}", Stage.TRIMS, 4 * size, Wait(leaves), place=place)
            coat = add(f"decorate {room}", Stage.DECORATE, 2 * size, Wait(trims), place=place)
            adjusted.append(add(f"adjust {room}", Stage.ADJUST, size, Wait(coat, drying=16), place=place))
        add("hand over", Stage.HAND_OVER, 4, *map(Wait, adjusted))
    return tasks, works


def main() -> None:
    """Plan 20 jobs with 4 people at several efforts."""
    print(how_busy())
    print(
        "Cost: ends of all jobs and ten times their lateness, in working days for each job; bound: the least it can be."
    )
    print(
        f"{'jobs':>5}{'apart':>7}{'tasks':>7}{'people':>8}{'effort':>8}{'seconds':>9}{'cost':>9}{'bound':>9}{'gap':>8}  late jobs"
    )
    crew = [Person(name) for name in ("Ada", "Ben", "Cleo", "Dan")]
    calendar = make_calendar(date(2026, 12, 1))
    for count, apart in ((1, 0), (5, 3), (20, 3), (20, 1)):
        tasks, works = jobs(count, 7, apart)
        for effort in EFFORTS:
            started = time.perf_counter()
            schedule = make_schedule(tasks, crew, works, calendar, effort=effort)
            taken = time.perf_counter() - started
            assert not breaches(schedule, tasks, crew, works, calendar)
            unit = calendar.quarters * count
            gap = (schedule.cost - schedule.bound) / schedule.cost
            late = sum(finish.late_days > 0 for finish in schedule.finishes)
            print(
                f"{count:>5}{apart:>7}{len(tasks):>7}{len(crew):>8}{effort:>8.1f}{taken:>9.2f}{schedule.cost / unit:>9.2f}"
                f"{schedule.bound / unit:>9.2f}{gap:>8.1%}  {late}"
            )
    started = time.perf_counter()
    make_programme(tasks, crew, works, calendar, effort=0.1)
    print(
        f"The whole programme of {count} jobs, with order-by days, late deliveries and 4000 plays, at effort 0.1: "
        f"{time.perf_counter() - started:.2f} s."
    )


if __name__ == "__main__":
    main()
