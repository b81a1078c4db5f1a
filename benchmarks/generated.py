"""A made-up job of any number of openings, the same for the same seed."""

from __future__ import annotations

import math
import random
from datetime import date

from rodbook.job import Job

__all__ = ["generated_job"]


def generated_job(openings: int, *, seed: int = 1) -> Job:
    """Openings of a few true sizes, each read with a tape's errors, standing a little out of square."""
    draw = random.Random(seed)
    rows = []
    for number in range(1, openings + 1):
        leaves, width = draw.choice([(1, 480), (1, 525), (1, 600), (2, 845), (2, 1010), (2, 1180), (3, 1400)])
        height = draw.choice([2030, 2100])
        widths = [width + draw.choice([-2, -1, 0, 1, 2]) + draw.gauss(0, 3) for _ in range(3)]
        heights = [height + draw.choice([-2, -1, 0, 1, 2]) for _ in range(3)]
        lean = draw.gauss(0, 2)
        rows.append(
            {
                "mark": f"N{number}",
                "leaves": leaves,
                "hand": draw.choice(["left", "right"]),
                "depth": 450,
                "widths": [round(w) for w in widths],
                "heights": heights,
                "diagonals": [
                    round(math.hypot(lean + widths[2], heights[2])),
                    round(math.hypot(widths[0] - lean, heights[0])),
                ],
            }
        )
    header = {"name": f"Generated, {openings} openings", "date": date(2026, 11, 2), "build_up": "inset, painted"}
    return Job.model_validate({"format": 1, "job": header, "openings": rows})
