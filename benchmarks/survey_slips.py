"""What the survey says of slips: none, one, two, in readings of simulated old houses. Prints a table.

``python benchmarks/survey_slips.py [openings]``. The houses are those of `survey_calibration`, which says what they are; nothing
of how they are made or read is the survey's own. A slip may be in any reading, either way; "10 to 200" is drawn evenly in its
logarithm.
"""

from __future__ import annotations

import math
import sys
from dataclasses import replace

import numpy as np

from rodbook.errors import RodbookError
from rodbook.survey import Reading, survey_opening

from survey_calibration import SETS, House  # isort: skip

SLIPS = {"none": (), "one of 10": ((10, 10),), "one of 10 to 200": ((10, 200),), "two": ((10, 200), (10, 200))}
"""Least and greatest size of each slip. [mm]"""

COLUMNS = ("right", "among", "nothing", "sound alone", "refused")
"""Named right: all slips, and nothing else, each by name. Named among others: left open between several, all slips among them.
Sound alone: a reading without a slip is named by itself, as if it were settled; its opening would be made without it."""


def with_slips(
    readings: list[Reading], sizes: tuple[tuple[float, float], ...], draw: np.random.Generator
) -> tuple[list[Reading], set[str]]:
    """The readings with slips planted, and the names of those that have one."""
    taken = list(readings)
    rows = draw.choice(len(taken), len(sizes), replace=False)
    for row, (least, most) in zip(rows, sizes, strict=True):
        size = math.exp(draw.uniform(math.log(least), math.log(most))) * draw.choice([-1, 1])
        taken[row] = replace(taken[row], value_mm=taken[row].value_mm + float(size))
    return taken, {taken[row].name for row in rows}


def outcome(readings: list[Reading], slipped: set[str]) -> str:
    """Which column an opening goes to; empty for none of them."""
    try:
        suspects = survey_opening(readings).suspects
    except RodbookError:
        return "refused"
    alone = {s.retakes[0].name for s in suspects if s.is_settled}
    named = {retake.name for s in suspects for retake in s.retakes}
    if alone - slipped:
        return "sound alone"
    if not named:
        return "nothing"
    if named == slipped and all(s.is_settled for s in suspects):
        return "right"
    return "among" if slipped and slipped <= named else ""


def table(openings: int) -> None:
    """Print it."""
    print(f"{openings} openings of an old house each, per cent")
    print(f"{'readings':<10}{'slips, mm':<18}" + "".join(f"{column:>13}" for column in COLUMNS))
    for count, make in SETS.items():
        for kind, sizes in SLIPS.items():
            draw = np.random.default_rng(count)
            counts = dict.fromkeys((*COLUMNS, ""), 0)
            for _ in range(openings):
                readings = House.old(draw).read(make(), draw)
                counts[outcome(*with_slips(readings, sizes, draw))] += 1
            print(f"{count:<10}{kind:<18}" + "".join(f"{counts[c] / openings:>13.1%}" for c in COLUMNS))


if __name__ == "__main__":
    table(int(sys.argv[1]) if len(sys.argv) > 1 else 500)
