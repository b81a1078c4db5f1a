"""Time of the choice of sizes: the fewest, the openings that spoil it, the trade-off up to 13 sizes more, and all of it.

Openings are drawn around four true sizes with a standard deviation of 5 mm in width and 4 mm in height. Prints a table of
seconds by the clock; nothing here passes or fails. ``python benchmarks/sizes_time.py``.
"""

from __future__ import annotations

import random
import sys
import time
from collections.abc import Callable

from rodbook.sizes import Offer, PackerRange, fewest_sizes, spoilers, trade_off

TRUE = ((842, 2030), (1012, 2032), (524, 2030), (610, 2100))
PACKERS = PackerRange(4, 16, 4, 20)


def drawn(openings: int, *, seed: int = 1) -> list[Offer]:
    """Openings around the true sizes."""
    draw = random.Random(seed)
    results = []
    for number in range(openings):
        width, height = draw.choice(TRUE)
        results.append(Offer(f"C{number}", width + draw.gauss(0, 5), height + draw.gauss(0, 4)))
    return results


def _taken[T](work: Callable[[], T]) -> tuple[float, T]:
    began = time.perf_counter()
    answer = work()
    return time.perf_counter() - began, answer


def main() -> None:
    """Print the table."""
    lines = [
        "| openings | fewest sizes | s | spoil it | s | numbers of sizes weighed | s | all of them | s |",
        "|---|---|---|---|---|---|---|---|---|",
    ]
    for openings in (14, 200, 500):
        offers = drawn(openings)
        first, choice = _taken(lambda o=offers: fewest_sizes(o, PACKERS))
        second, spoiling = _taken(lambda o=offers: spoilers(o, PACKERS))
        third, trades = _taken(lambda o=offers: trade_off(o, PACKERS, more=13))
        fourth, whole = _taken(lambda o=offers: trade_off(o, PACKERS))
        cells = (
            openings,
            len(choice.sizes),
            f"{first:.2f}",
            len(spoiling),
            f"{second:.2f}",
            len(trades),
            f"{third:.2f}",
            len(whole),
            f"{fourth:.2f}",
        )
        lines.append(f"| {' | '.join(map(str, cells))} |")
    sys.stdout.write("\n" + "\n".join(lines) + "\n")


if __name__ == "__main__":
    main()
