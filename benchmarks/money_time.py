"""Times of what money works out: make or buy with 10,000 draws, and the capacity programme.

Prints tables; nothing here passes or fails. ``python benchmarks/money_time.py``.
"""

from __future__ import annotations

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
    from rodbook.money import MaterialUsage
    from rodbook.setout import ScheduleLine

type Laid = tuple[Sequence[ScheduleLine], Sequence[MaterialUsage], Book, Job]


def sample(name: str) -> Laid:
    """A sample with its parts laid out, and the sample book with invented spreads."""
    from rodbook.boards import Saw
    from rodbook.job.book import Rate
    from rodbook.job.files import parse_book, parse_job, sample_book_text, sample_text
    from rodbook.job.models import Making
    from rodbook.money import bar_usage, sheet_usage
    from rodbook.plan import plan_parts
    from rodbook.plan.materials import lay_out_lines

    book = parse_book(sample_book_text())
    job = parse_job(sample_text(name), book)
    lines = plan_parts(job, book).schedule
    saw = Saw(kerf=book.saw.kerf, edge_trim=book.saw.edge_trim)
    usage = [
        sheet_usage(book.board(m.stock), m.sheets, saw) if m.sheets else bar_usage(book.section(m.stock), m.lengths)
        for m in lay_out_lines(
            lines, job, book, Making.SITE, seconds=3, seed=0, kept=None, on_board=lambda _stock: None
        )
        if m.sheets or m.lengths
    ]
    since, source = book.rates[0].since, "invented for this benchmark"
    rates = [
        rate.model_copy(update={"nine_in_ten": rate.value * 1.5}) if rate.unit.startswith("minutes/") else rate
        for rate in book.rates
    ]
    for entry, value, unit, nine in (
        ("interruptions", 7, "minutes/hour of work", 15), ("lead time", 1, "times what is said", 1.4),
        ("rejects, all on site", 0.04, "share of parts", None),
        ("rejects, cut on site, finished by the workshop", 0.03, "share of parts", None),
        ("rejects, bought cut", 0.03, "share of parts", None),
        ("rejects, bought finished and bored", 0.02, "share of parts", None),
        ("painter's preparation, all on site", 6, "minutes/m2", 10),
    ):  # fmt: skip
        rates.append(Rate(name=entry, value=value, unit=unit, since=since, source=source, nine_in_ten=nine))
    return lines, usage, book.model_copy(update={"rates": tuple(rates)}), job


def time_chances(runs: int) -> None:
    """Make or buy of the 14-opening sample with 10,000 draws, first with everything still to be loaded."""
    lines, usage, book, job = sample("converted-store")
    times = []
    for _ in range(runs):
        started = time.perf_counter()
        from rodbook.money import chances

        found = chances(lines, usage, book, job.job.date, book.workshops[0], job.making)
        times.append(time.perf_counter() - started)
    openings, kinds = len(job.openings), len(found.kinds)
    print(
        f"Make or buy, {openings} openings, {kinds} kinds, {sum(len(k.ways) for k in found.kinds)} ways, "
        f"{found.draws} draws of {len(found.varying)} rates and of rejects: "
        f"{times[0]:.2f} s at first (libraries are loaded), then {statistics.median(times[1:]):.2f} s."
    )
    off = max(abs(w.cost.drawn_mean - w.cost.mean) / w.cost.mean for k in found.kinds for w in k.ways if w.cost.mean)
    print(f"Means of the draws differ from the closed forms by {100 * Decimal(off):.3f} % at the most.")


def main() -> None:
    """Time all of it."""
    runs = int(sys.argv[1]) if len(sys.argv) > 1 else 5
    print(how_busy())
    time_chances(runs)


if __name__ == "__main__":
    main()
