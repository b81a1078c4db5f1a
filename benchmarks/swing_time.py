"""Time of the swing of many leaves: each among linings, trims, a side wall, a radiator, its neighbour and a slope.

Prints a table; nothing here passes or fails. ``python benchmarks/swing_time.py [leaves]``.
"""

from __future__ import annotations

import random
import statistics
import sys
import time

from rodbook.hinges.swing import (
    FixedPivot,
    Leaf,
    Obstacle,
    SlopingPlane,
    block,
    cup_hinge_path,
    high_spot,
    inset_frame,
    lay_on_frame,
    swing,
)


def case(rng: random.Random, *, pinned: bool) -> tuple[object, ...]:
    """One leaf and what stands around it; sizes drawn from what is common."""
    width, thickness = rng.uniform(280, 620), rng.choice([18.0, 19.0, 22.0, 25.0])
    hand = rng.choice(["left", "right"])
    front = 2 * width + 3
    path = FixedPivot(0.0, 4.0) if pinned else cup_hinge_path(thickness)
    at = (0.0, 0.0) if hand == "left" else (front, 0.0)
    leaf = Leaf(width, thickness, hand, at, bottom=10, top=2000)
    other = Leaf(width, thickness, "right" if hand == "left" else "left", (front - at[0], 0.0), bottom=10, top=2000)
    if pinned:
        frame = inset_frame(front, margins=3, lining_thickness=18, lining_depth=100, trim=(70, 15), trim_set_back=6)
    else:
        frame = lay_on_frame(
            front,
            leaf_thickness=thickness,
            lap=16,
            margins=rng.uniform(2, 6),
            lining_thickness=18,
            lining_depth=100,
            trim=(70, thickness),
        )
    away = rng.uniform(20, 400)
    obstacles = [
        *frame,
        Obstacle("the other leaf", other.standing(path, 0.0)),
        block("the wall", (-away - 100, -away), (20, 2500)),
        block("the radiator", (front * 0.3, front * 0.6), (rng.uniform(300, 700), 800), bottom=100, top=700),
        high_spot("a high spot", (rng.uniform(0, front), rng.uniform(50, 500)), rng.uniform(0, 20)),
    ]
    slope = SlopingPlane("the slope", "ceiling", rng.uniform(2000, 2400), slope_y=-rng.uniform(0, 0.6))
    return leaf, path, obstacles, slope


def main() -> None:
    """Time both sorts of hinges."""
    leaves = int(sys.argv[1]) if len(sys.argv) > 1 else 500
    print(f"{leaves} leaves, 8 obstacles and a slope each; one process, processor time.")
    print(f"{'hinges':<12}{'total s':>9}{'median ms':>11}{'worst ms':>10}{'stopped short':>15}")
    for name, pinned in (("cup", False), ("fixed pivot", True)):
        rng = random.Random(7)
        times, short = [], 0
        for leaf, path, obstacles, slope in [case(rng, pinned=pinned) for _ in range(leaves)]:
            started = time.process_time()
            result = swing(leaf, path, obstacles, planes=[slope])  # type: ignore[arg-type]
            times.append(time.process_time() - started)
            short += not result.enough
        print(
            f"{name:<12}{sum(times):>9.2f}{statistics.median(times) * 1e3:>11.2f}{max(times) * 1e3:>10.1f}{short:>15}"
        )


if __name__ == "__main__":
    main()
