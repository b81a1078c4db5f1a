"""Does the survey keep what it states? Old houses made up, read, surveyed, and held against the truth. Prints tables.

``python benchmarks/survey_calibration.py [openings]``; 2,000 openings for each set of readings where no number is given.

What the simulated old house is. Nothing here is taken from `rodbook.survey` but the readings that go in and the results that
come out: each opening is a closed line of some 250 points, widths and heights are read off it by interpolation, and the
largest upright front is found on those points. All spreads are standard deviations.

- 600 to 1,800 mm wide and 1,900 to 2,500 mm high, evenly.
- Both sides lean together, as a house racks: 1.9 mm in a metre, double exponential; and each for itself, up to 2.4 mm in a metre
  either way, evenly. A side is then out of plumb by 2.35 mm in a metre.
- Floor and head slope together, as a house settles: 2.6 mm in a metre, double exponential; and each for itself, up to 3 mm
  in a metre either way, evenly. Either is then out of level by 3.1 mm in a metre.
- Each side, floor and head is an arc, its highest place anywhere between three and seven tenths of its length; the arc's rise
  is double exponential, 1.6 mm for each metre of length.
- Each is rippled besides, by two waves of 200 to 700 mm, together 0.4 mm.
- A reading is out by its instrument's standard error, normally distributed, and is written down in whole millimetres (tape)
  or halves (level, plumb line, straight edge).

The survey's own assumptions are normal, independent of each other, and know straight pieces between corners and middles only.
What both have in common are the spreads of an old house, and nothing else: neither the distributions, nor what leans or
slopes together, nor the curves.
"""

from __future__ import annotations

import math
import sys
from collections.abc import Callable
from dataclasses import dataclass, replace

import numpy as np
from numpy.typing import NDArray

from rodbook.errors import RodbookError
from rodbook.survey import Reading, bow, diagonal, fit_front, height, level, plumb, survey_opening, upright_front, width

type Array = NDArray[np.float64]

POINTS = 61
"""Points of each of the four lines."""

ERRORS = {"tape": (1.5, 0.0), "level": (0.5, 0.5), "plumb": (0.5, 0.5)}
"""Fixed share, and share for each metre. Written out again on purpose. [mm]"""

SPARE_MM = (12.0, 10.0)
"""A lining is so much smaller than the front that is stated, in width and in height: play for packers. [mm]"""


def double_exponential(draw: np.random.Generator, spread: float) -> float:
    """A figure with this standard deviation and heavy ends."""
    return float(draw.laplace(0, spread / math.sqrt(2)))


@dataclass(frozen=True)
class House:
    """One opening of an old house: four lines, x to the right and y up from the foot of the left side."""

    left: Array
    right: Array
    floor: Array
    head: Array

    @classmethod
    def old(cls, draw: np.random.Generator) -> House:
        """Draw one."""
        wide, high = draw.uniform(600, 1800), draw.uniform(1900, 2500)
        racked, settled = double_exponential(draw, 1.9), double_exponential(draw, 2.6)
        lean = [(racked + draw.uniform(-2.4, 2.4)) * high / 1000 for _ in range(2)]
        slope = [(settled + draw.uniform(-3, 3)) * wide / 1000 for _ in range(2)]
        a, b = np.zeros(2), np.array([wide, slope[0]])
        d = np.array([lean[0], high])
        c = np.array([wide + lean[1], high + slope[1]])
        return cls(
            cls._line(draw, a, d, across=0),
            cls._line(draw, b, c, across=0),
            cls._line(draw, a, b, across=1),
            cls._line(draw, d, c, across=1),
        )

    @staticmethod
    def _line(draw: np.random.Generator, start: Array, end: Array, *, across: int) -> Array:
        """An arc with ripples from one corner to the other, out of its chord level (sides) or plumb (floor, head)."""
        length = float(np.hypot(*(end - start)))
        share = np.linspace(0, 1, POINTS)
        peak = draw.uniform(0.3, 0.7)
        bend = math.log(0.5) / math.log(peak)
        rise = double_exponential(draw, 1.6) * length / 1000
        out = rise * np.sin(np.pi * share**bend)
        for _ in range(2):
            wave = np.sin(2 * np.pi * (share * length / draw.uniform(200, 700) + draw.uniform()))
            out = out + 0.4 * (wave - wave[0] - share * (wave[-1] - wave[0]))
        points = start + share[:, None] * (end - start)
        points[:, across] += out
        return points

    def side(self, name: str, y: float) -> float:
        """Where a level line meets a side."""
        points = self.left if name == "left" else self.right
        return float(np.interp(y, points[:, 1], points[:, 0]))

    def lid(self, name: str, x: float) -> float:
        """Where a plumb line meets floor or head."""
        points = self.floor if name == "floor" else self.head
        return float(np.interp(x, points[:, 0], points[:, 1]))

    def truth(self, reading: Reading) -> float:
        """What a perfect reading says."""
        a, d, b, c = self.left[0], self.left[-1], self.right[0], self.right[-1]
        match reading.kind:
            case "width":
                low, high = max(a[1], b[1]), min(c[1], d[1])
                y = {"foot": low, "middle": (low + high) / 2, "head": high}[str(reading.at)]
                return self.side("right", y) - self.side("left", y)
            case "height":
                low, high = max(a[0], d[0]), min(b[0], c[0])
                x = {"left": low, "middle": (low + high) / 2, "right": high}[str(reading.at)]
                return self.lid("head", x) - self.lid("floor", x)
            case "diagonal":
                return float(np.hypot(*(c - a if "foot left" in reading.part else d - b)))
            case "plumb" | "level":
                own = 0 if reading.kind == "plumb" else 1
                points = self._named(reading.part)
                end = points[-1, own] if reading.at in ("head", "right") else points[POINTS // 2, own]
                return float(end - points[0, own])
            case _:
                points = self._named(reading.part)
                (px, py), (qx, qy), (mx, my) = points[0], points[-1], points[POINTS // 2]
                turned = ((qx - px) * (my - py) - (qy - py) * (mx - px)) / math.hypot(qx - px, qy - py)
                return float(turned * {"left side": -1, "right side": 1, "floor": 1, "head": -1}[reading.part])

    def _named(self, part: str) -> Array:
        return {"left side": self.left, "right side": self.right, "floor": self.floor, "head": self.head}[part]

    def read(self, readings: list[Reading], draw: np.random.Generator) -> list[Reading]:
        """The readings as somebody takes them."""
        taken = []
        for reading in readings:
            fixed, per_metre = ERRORS[reading.by]
            size = float(np.ptp(self.left[:, 1])) if "side" in reading.part else float(np.ptp(self.floor[:, 0]))
            share = 0.5 if reading.at == "middle" and reading.kind in ("plumb", "level") else 1.0
            step = 1.0 if reading.by == "tape" else 0.5
            answer = self.truth(reading) + draw.normal(0, fixed + per_metre * size * share / 1000)
            taken.append(replace(reading, value_mm=float(np.round(answer / step) * step)))
        return taken

    def front(self) -> tuple[float, float, float, float]:
        """Left, right, foot and head of the largest upright front."""
        low, high = float(self.floor[:, 1].min()), float(self.head[:, 1].max())
        left = right = 0.0
        for _ in range(20):
            left = _most(self.left, low, high, own=0)
            right = -_most(self.right * [-1, 1], low, high, own=0)
            low = _most(self.floor, left, right, own=1)
            high = -_most(self.head * [1, -1], left, right, own=1)
        return left, right, low, high


def _most(points: Array, start: float, end: float, *, own: int) -> float:
    """Greatest coordinate of a line between two places, ends included."""
    along = points[:, 1 - own]
    inside = points[(along > start) & (along < end), own]
    ends = np.interp([start, end], along, points[:, own])
    return float(max(inside.max(initial=-math.inf), *ends))


def eight() -> list[Reading]:
    """Three widths, three heights, two diagonals."""
    return [
        *(width(1, place) for place in ("foot", "middle", "head")),
        *(height(1, place) for place in ("left", "middle", "right")),
        diagonal(1, "foot left"),
        diagonal(1, "foot right"),
    ]


def twelve() -> list[Reading]:
    """The eight, both sides against the plumb line, floor and head against the level."""
    return [*eight(), plumb("left", 0), plumb("right", 0), level("floor", 0), level("head", 0)]


def twenty() -> list[Reading]:
    """The twelve, and every middle against line and straight edge."""
    middles = [plumb("left", 0, "middle"), plumb("right", 0, "middle")]
    middles += [level("floor", 0, "middle"), level("head", 0, "middle")]
    return [*twelve(), *middles, *(bow(part, 0) for part in ("left", "right", "floor", "head"))]


SETS: dict[int, Callable[[], list[Reading]]] = {8: eight, 12: twelve, 20: twenty}


@dataclass
class Kept:
    """Errors and stated standard errors of one quantity."""

    out: list[float]
    stated: list[float]

    def row(self) -> str:
        """How often it is within 1.96 stated errors, the true error, the stated one, and what it is out by on average."""
        out, stated = np.array(self.out), np.array(self.stated)
        within = np.mean(np.abs(out) <= 1.96 * stated)
        square = float(np.sqrt(np.mean(out**2)))
        return f"{within:>10.1%}{square:>10.2f}{np.sqrt(np.mean(stated**2)):>10.2f}{out.mean():>10.2f}"


def survey_one(house: House, readings: list[Reading], kept: dict[str, Kept]) -> None:
    """Survey one opening and note how far each result is out, and what is stated for it."""
    shape = survey_opening(readings).shape
    front = upright_front(shape)
    left, right, foot, head = house.front()
    _note(kept, "upright width", front.width.value - (right - left), front.width_error_mm)
    _note(kept, "upright height", front.height.value - (head - foot), front.left_height_error_mm)
    _note(kept, "lean of the left side", shape.vertex("D").x_mm - house.left[-1, 0], shape.vertex("D").x_error_mm)
    wide, tall = front.width.value - SPARE_MM[0], front.height.value - SPARE_MM[1]
    fit = fit_front(shape, width_mm=wide, height_mm=tall)
    stands = (left + right) / 2 - wide / 2
    on = _most(house.floor, stands, stands + wide, own=1)
    for packer in fit.packers:
        match packer.side:
            case "left":
                true = stands - house.side("left", on + packer.at_mm)
            case "right":
                true = house.side("right", on + packer.at_mm) - stands - wide
            case "head":
                true = house.lid("head", stands + packer.at_mm) - on - tall
            case _:
                true = on - house.lid("floor", stands + packer.at_mm)
        name = {"left": "packers at the sides", "right": "packers at the sides", "head": "packers over the head"}
        _note(kept, name.get(packer.side, "packers under the foot"), packer.size_mm - true, packer.error_mm)


def _note(kept: dict[str, Kept], name: str, out: float, stated: float) -> None:
    one = kept.setdefault(name, Kept([], []))
    one.out.append(out)
    one.stated.append(stated)


def calibration(openings: int) -> None:
    """Print the table: for each set of readings and each quantity, how often it is within what is stated."""
    print(f"{openings} openings of an old house each; share within 1.96 stated errors; errors in mm")
    print(f"{'readings':<10}{'':<24}{'within':>10}{'is out':>10}{'stated':>10}{'mean':>10}")
    for count, make in SETS.items():
        draw = np.random.default_rng(count)
        kept: dict[str, Kept] = {}
        refused = 0
        for _ in range(openings):
            house = House.old(draw)
            readings = house.read(make(), draw)
            try:
                survey_one(house, readings, kept)
            except RodbookError:
                refused += 1
        for name, one in kept.items():
            print(f"{count:<10}{name:<24}{one.row()}")
        if refused:
            print(f"{count:<10}no shape in {refused}")


if __name__ == "__main__":
    calibration(int(sys.argv[1]) if len(sys.argv) > 1 else 2000)
