"""Random fronts put together in three dimensions: how many parts and pairs, and how many of them are in one place.

Prints a table by sort of front; the check shares no code with the set-out. ``python benchmarks/assembled.py [fronts] [runs]``.
"""

from __future__ import annotations

import random
import sys
import time
from collections import Counter
from pathlib import Path

sys.path.insert(0, str(Path(__file__).parents[1] / "tests" / "independent"))

from assembled import assembled, clashes, misplaced, row_of_fronts
from random_fronts import random_front, random_run

from rodbook.job.files import parse_book, parse_job, sample_book_text, sample_text

SEED = 20261130


def main(fronts: int, runs: int) -> None:
    """Print the table."""
    book = parse_book(sample_book_text())
    galley = parse_job(sample_text("galley"), book)
    counts: dict[str, Counter[str]] = {}
    texts: list[str] = []
    rng, began = random.Random(SEED), time.perf_counter()

    def count(sort: str, number: int, solids: list, results: list, other: list[str]) -> None:
        pairs = len(solids) * (len(solids) - 1) // 2
        row = {
            "fronts": number,
            "parts": len(solids),
            "pairs": pairs,
            "in one place": len(results),
            "elsewhere": len(other),
        }
        counts.setdefault(sort, Counter()).update(row)
        texts.extend([*map(str, results), *other])

    for _ in range(fronts):
        made = random_front(rng, book)
        solids = assembled(made.front, made.build_up)
        count(made.sort, 1, solids, clashes(solids), misplaced(made.front, made.build_up))
    for _ in range(runs):
        members, build_up, between = random_run(rng, book, galley)
        solids = row_of_fronts(members, build_up, between)
        count(f"{build_up.family}, in runs", len(members), solids, clashes(solids), [])
    total = sum(counts.values(), Counter())
    columns = ("fronts", "parts", "pairs", "in one place", "elsewhere")
    print(f"{'sort of front':36}" + "".join(f"{name:>14}" for name in columns))
    for sort in sorted(counts):
        print(f"{sort:36}" + "".join(f"{counts[sort][name]:>14}" for name in columns))
    print(f"{'all':36}" + "".join(f"{total[name]:>14}" for name in columns))
    print(
        f"seed {SEED}, {time.perf_counter() - began:.0f} s; pairs: of parts of one front, in runs of all fronts of the run;"
    )
    print("elsewhere: parts whose size or place is not that of the elevation")
    for line in dict.fromkeys(texts):
        print(line)


if __name__ == "__main__":
    main(int(sys.argv[1]) if len(sys.argv) > 1 else 2000, int(sys.argv[2]) if len(sys.argv) > 2 else 200)
