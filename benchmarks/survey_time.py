"""Times and hit rates of the survey, printed as tables; nothing here passes or fails. ``python benchmarks/survey_time.py``.

Openings are made up with a known outline, read with the errors of their instruments, and some readings get a slip. The
tests of the survey make theirs up by geometry of their own; here the survey's own is good enough.
"""

from __future__ import annotations

import sys
import time
from dataclasses import replace

import numpy as np

from rodbook.survey import (
    INSTRUMENTS,
    Reading,
    adjust_shape,
    bow,
    diagonal,
    fit_front,
    height,
    level,
    one_more_reading,
    plumb,
    rectangle_from_shape,
    survey_opening,
    upright_rectangle,
    width,
)
from rodbook.survey.observing import Touching, observe
from rodbook.survey.outline import Outline

POINTS = Outline("AFBRCHDL")
SLIPS = ("10", "15", "20", "10 to 200")


def eight(by: str) -> list[Reading]:
    """Three widths, three heights, two diagonals."""
    widths = [width(1, place, by=by) for place in ("foot", "middle", "head")]
    heights = [height(1, place, by=by) for place in ("left", "middle", "right")]
    return [*widths, *heights, diagonal(1, "foot left", by=by), diagonal(1, "foot right", by=by)]


def twelve(by: str) -> list[Reading]:
    """The eight, both sides against the plumb line, floor and head against the level."""
    return [*eight(by), plumb("left", 0), plumb("right", 0), level("floor", 0), level("head", 0)]


def twenty(by: str) -> list[Reading]:
    """The twelve, and every middle against line and straight edge."""
    middles = [plumb("left", 0, "middle"), plumb("right", 0, "middle")]
    middles += [level("floor", 0, "middle"), level("head", 0, "middle")]
    return [*twelve(by), *middles, *(bow(part, 0) for part in ("left", "right", "floor", "head"))]


SETS = {"8 readings": eight, "12 readings": twelve, "20 readings": twenty}


def made_up(
    draw: np.random.Generator, *, bowed: bool, wide: float | None = None, high: float | None = None
) -> list[float]:
    """A true outline, as a flat list: leaning some 5 mm, out of level some 4 mm, bowed some 3 mm; of any size, or of this one."""
    wide = draw.uniform(600, 1800) if wide is None else wide
    high = draw.uniform(1900, 2500) if high is None else high
    lean = draw.normal(0, 5)
    a, b = np.array([0.0, 0.0]), np.array([wide, draw.normal(0, 4)])
    d, c = np.array([lean, high]), np.array([wide + lean + draw.normal(0, 4), high + draw.normal(0, 5)])
    f, r, h, s = draw.normal(0, 3, 4) * bowed
    middles = (a + b) / 2 + [0, f], (b + c) / 2 + [r, 0], (d + c) / 2 + [0, h], (a + d) / 2 + [s, 0]
    return np.concatenate([a, middles[0], b, middles[1], c, middles[2], d, middles[3]]).tolist()


def read(readings: list[Reading], flat: list[float], draw: np.random.Generator) -> list[Reading]:
    """Readings of a true outline, each out by its instrument's error."""
    touching = Touching.of(flat, POINTS)
    taken = []
    for reading in readings:
        value, _ = observe(reading, flat, POINTS, touching)
        size = flat[13] if "side" in reading.part else flat[4]
        share = 0.5 if reading.at == "middle" and reading.kind in ("plumb", "level") else 1.0
        error = INSTRUMENTS[reading.by].standard_error(size * share)
        taken.append(replace(reading, value_mm=value + float(draw.normal(0, error))))
    return taken


def times(openings: int) -> None:
    """Seconds for so many openings, by set of readings and by step."""
    print(f"\n{openings} openings, seconds of processor time")
    print(f"{'readings':<14}{'shape':>9}{'survey':>9}{'+ packers':>11}{'+ one more':>12}")
    for name, make in SETS.items():
        draw = np.random.default_rng(5)
        taken = [read(make("tape"), made_up(draw, bowed=make is twenty), draw) for _ in range(openings)]
        row = []
        for step in (
            adjust_shape,
            survey_opening,
            lambda readings: fit_front(survey_opening(readings).shape),
            lambda readings: (survey_opening(readings), one_more_reading(readings)),
        ):
            started = time.process_time()
            for readings in taken:
                step(readings)
            row.append(time.process_time() - started)
        print(f"{name:<14}{row[0]:>9.2f}{row[1]:>9.2f}{row[2]:>11.2f}{row[3]:>12.2f}")


def slip(kind: str, draw: np.random.Generator) -> float:
    """A slip of this size, either way. [mm]"""
    low, _, high = kind.partition(" to ")
    size = float(np.exp(draw.uniform(np.log(float(low)), np.log(float(high))))) if high else float(low)
    return size * float(draw.choice([-1, 1]))


def hits(openings: int) -> None:
    """How often one planted slip is noticed, named first, and named alone."""
    print(f"\none planted slip in each of {openings} openings, per cent; any reading may have it")
    print(f"{'readings':<14}{'by':<8}{'slip, mm':<12}{'noticed':>9}{'first':>9}{'alone':>9}{'among':>9}")
    for name, make in SETS.items():
        for by in ("tape", "laser"):
            for kind in SLIPS:
                draw = np.random.default_rng(9)
                counts = np.zeros(4)
                for _ in range(openings):
                    readings = read(make(by), made_up(draw, bowed=make is twenty), draw)
                    row = int(draw.integers(len(readings)))
                    readings[row] = replace(readings[row], value_mm=readings[row].value_mm + slip(kind, draw))
                    result = survey_opening(readings).suspects
                    names = [retake.name for retake in result[0].retakes] if result else []
                    wanted = readings[row].name
                    counts += [bool(names), names[:1] == [wanted], names == [wanted], wanted in names]
                print(f"{name:<14}{by:<8}{kind:<12}" + "".join(f"{c / openings:>9.1%}" for c in counts))


def nearness(openings: int) -> None:
    """Root mean square error of the upright width, the eight readings as they stand against least squares."""
    print(f"\nerror of the upright width in {openings} openings with straight sides, mm (root mean square)")
    draw = np.random.default_rng(13)
    errors: dict[str, list[float]] = {"8, as they stand": [], "8, adjusted": [], "12, adjusted": [], "20, adjusted": []}
    for _ in range(openings):
        flat = made_up(draw, bowed=False)
        readings = read(twenty("tape"), flat, draw)
        (ax, _, _, _, bx, _, _, _, cx, _, _, _, dx, *_) = flat
        truth = min(bx, cx) - max(ax, dx)
        values = [r.value_mm for r in readings]
        stood = upright_rectangle(tuple(values[:3]), tuple(values[3:6]), diagonals_mm=tuple(values[6:8]))
        errors["8, as they stand"].append(stood.width.value - truth)
        for count in (8, 12, 20):
            result = rectangle_from_shape(adjust_shape(readings[:count])).width.value
            errors[f"{count}, adjusted"].append(result - truth)
    for name, row in errors.items():
        print(f"{name:<20}{float(np.sqrt(np.mean(np.square(row)))):>7.2f}")


if __name__ == "__main__":
    count = int(sys.argv[1]) if len(sys.argv) > 1 else 500
    times(count)
    nearness(count)
    hits(count)
