"""From readings to parts: hundreds of openings surveyed, sized and set out, each run in a process of its own.

Prints a table; nothing here passes or fails. ``python benchmarks/survey_to_setout.py [openings] [runs]``.

Openings are made up with a known outline and read with the errors of their instruments, as in `survey_time.py`; in the last
row one opening in twenty has a reading that is misread by 10 to 25 mm.
"""

from __future__ import annotations

import json
import resource
import statistics
import subprocess
import sys
import time
from collections.abc import Callable
from datetime import date
from pathlib import Path
from typing import Any

sys.path.insert(0, str(Path(__file__).parent))

CASES = ("8 readings", "12 readings", "20 readings", "12, some misread")
STEPS = {
    "survey_of": "survey",
    "rectangle_of": "packers",
    "wall_fit": "packers",
    "fewest_sizes": "sizes",
    "set_out": "set out",
}
HEADS = (
    "survey",
    "packers",
    "sizes",
    "set out",
    "rest",
    "all",
    "CPU s",
    "peak MB",
    "parts",
    "standard sizes",
    "misread, named",
    "can't tell",
)
NAMES = {
    "width at foot": ("widths", 0),
    "width at middle": ("widths", 1),
    "width at head": ("widths", 2),
    "height at left": ("heights", 0),
    "height at middle": ("heights", 1),
    "height at right": ("heights", 2),
    "diagonal foot left to head right": ("diagonals", 0),
    "diagonal foot right to head left": ("diagonals", 1),
}


def surveyed_job(openings: int, case: str, *, seed: int = 3) -> Any:
    """A job of openings near a few true sizes, with every reading of the set under its name in a job document."""
    import numpy as np
    from survey_time import SETS, made_up, read

    from rodbook.job import Job
    from rodbook.job.readings import USUAL
    from rodbook.plan.stages.surveying import reading_called

    further = {reading_called(n): n for n in (*USUAL, "level-floor-middle", "level-head-middle")}
    draw = np.random.default_rng(seed)
    make = SETS[case.replace(", some misread", " readings")]
    rows = []
    for number in range(openings):
        leaves, wide = [(1, 480), (1, 600), (2, 845), (2, 1010), (2, 1180), (3, 1400)][int(draw.integers(6))]
        flat = made_up(draw, bowed=case == "20 readings", wide=wide, high=[2030, 2100][int(draw.integers(2))])
        row: dict[str, Any] = {"mark": f"S{number + 1}", "leaves": leaves, "hand": "left", "depth": 450, "readings": {}}
        taken = read(make("tape"), flat, draw)
        misread = int(draw.integers(len(taken))) if case.endswith("misread") and number % 20 == 0 else None
        for at, reading in enumerate(taken):
            slip = float(draw.uniform(10, 25)) if at == misread else 0.0
            field, place = NAMES.get(reading.what, ("", 0))
            if field:
                row.setdefault(field, [0] * (2 if field == "diagonals" else 3))[place] = round(reading.value_mm + slip)
            else:
                row["readings"][further[reading.what]] = round((reading.value_mm + slip) * 2) / 2
        rows.append(row)
    header = {"name": f"{openings} openings, {case}", "date": date(2026, 11, 2), "build_up": "inset, painted"}
    return Job.model_validate({"format": 1, "job": header, "openings": rows})


def timed(function: Callable[..., Any], spent: dict[str, float], step: str) -> Callable[..., Any]:
    """The function, with its seconds added to its step."""

    def run(*given: Any, **named: Any) -> Any:
        started = time.perf_counter()
        try:
            return function(*given, **named)
        finally:
            spent[step] += time.perf_counter() - started

    return run


def one(openings: int, case: str) -> None:
    """Run one case in this process and print its figures."""
    from rodbook.job.files import parse_book, sample_book_text
    from rodbook.plan import plan_parts
    from rodbook.plan.stages import openings as stage

    book, job = parse_book(sample_book_text()), surveyed_job(openings, case)
    spent = dict.fromkeys(STEPS.values(), 0.0)
    for name, step in STEPS.items():
        setattr(stage, name, timed(getattr(stage, name), spent, step))
    started, processor = time.perf_counter(), time.process_time()
    plan = plan_parts(job, book)
    total = time.perf_counter() - started
    figures = {
        **spent,
        "rest": total - sum(spent.values()),
        "all": total,
        "CPU s": time.process_time() - processor,
        "peak MB": resource.getrusage(resource.RUSAGE_SELF).ru_maxrss / 1024,
        "parts": sum(line.quantity for line in plan.schedule),
        "standard": len(plan.sizes.sizes) if plan.sizes else 0,
        "named": sum(e.survey is not None and e.survey.is_settled and bool(e.survey.suspects) for e in plan.openings),
        "open": sum(e.survey is not None and not e.survey.is_settled for e in plan.openings),
    }
    print("FIGURES " + json.dumps(figures))


def main() -> None:
    """Run every case several times and print medians."""
    from running import how_busy

    given = [int(word) for word in sys.argv[1:]]
    openings, runs = (given + [500, 3][len(given) :])[:2]
    print(f"{openings} openings surveyed, sized and set out; median of {runs} runs, each in a fresh process; seconds.")
    print(how_busy())
    print(f"{'readings':<18}" + "".join(f"{head:>{max(9, len(head) + 2)}}" for head in HEADS))
    for case in CASES:
        rows = []
        for _ in range(runs):
            done = subprocess.run(
                [sys.executable, __file__, "--one", str(openings), case],
                capture_output=True,
                text=True,
                check=True,
                timeout=600,
            )
            rows.append(json.loads(next(x for x in done.stdout.splitlines() if x.startswith("FIGURES "))[8:]))
        median = {key: statistics.median(row[key] for row in rows) for key in rows[0]}
        cells = [f"{value:.0f}" if n > 6 else f"{value:.2f}" for n, value in enumerate(median.values())]
        print(f"{case:<18}" + "".join(f"{c:>{max(9, len(h) + 2)}}" for c, h in zip(cells, HEADS, strict=True)))


if __name__ == "__main__":
    if "--one" in sys.argv:
        at = sys.argv.index("--one")
        one(int(sys.argv[at + 1]), sys.argv[at + 2])
    else:
        main()
