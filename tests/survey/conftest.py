"""Made-up openings with a known outline, and readings of them; geometry of its own, none of the survey's."""

from __future__ import annotations

from dataclasses import dataclass, replace

import numpy as np
import pytest

from rodbook.survey import Reading, bow, diagonal, height, level, plumb, width

ERRORS = {"tape": (1.5, 0.0), "laser": (1.0, 0.0), "level": (0.5, 0.5), "plumb": (0.5, 0.5)}
"""Written out again on purpose: the tests' noise must not follow a change of the survey's table."""


@dataclass(frozen=True)
class MadeUp:
    """The eight points A F B R C H D L of an outline that is known."""

    points: dict[str, tuple[float, float]]

    @classmethod
    def at_random(cls, rng: np.random.Generator, *, raked: bool = False, bowed: bool = True) -> MadeUp:
        wide, high = rng.uniform(600, 1800), rng.uniform(1900, 2500)
        lean, rise = rng.normal(0, 5), rng.uniform(150, 500) if raked else 0.0
        a, b = (0.0, 0.0), (wide, rng.normal(0, 4))
        d, c = (lean, high), (wide + lean + rng.normal(0, 4), high + rise + rng.normal(0, 5))
        bows = rng.normal(0, 3, 4) * bowed

        def middle(p, q, dx, dy):
            return (p[0] + q[0]) / 2 + dx, (p[1] + q[1]) / 2 + dy

        return cls(
            {
                "A": a,
                "F": middle(a, b, 0, bows[0]),
                "B": b,
                "R": middle(b, c, bows[1], 0),
                "C": c,
                "H": middle(d, c, 0, bows[2]),
                "D": d,
                "L": middle(a, d, bows[3], 0),
            }
        )

    @property
    def outline(self) -> list[tuple[float, float]]:
        return [self.points[name] for name in "AFBRCHDL"]

    def side(self, names: str, at: float, *, level: bool) -> float:
        """Where a level or plumb line meets the points of one side."""
        own, along = (0, 1) if level else (1, 0)
        points = sorted((self.points[name] for name in names), key=lambda p: p[along])
        return float(np.interp(at, [p[along] for p in points], [p[own] for p in points]))

    def value(self, reading: Reading) -> float:
        """What a perfect reading says."""
        p = self.points
        low, high = max(p["A"][1], p["B"][1]), min(p["D"][1], p["C"][1])
        left, right = max(p["A"][0], p["D"][0]), min(p["B"][0], p["C"][0])
        match reading.kind:
            case "width":
                at = {"foot": low, "middle": (low + high) / 2, "head": high}.get(reading.at, reading.at)
                return self.side("BRC", at, level=True) - self.side("ALD", at, level=True)
            case "height":
                at = {"left": left, "middle": (left + right) / 2, "right": right}.get(reading.at, reading.at)
                return self.side("DHC", at, level=False) - self.side("AFB", at, level=False)
            case "diagonal":
                return float(np.hypot(*np.subtract(*(p[n] for n in ("AC" if "foot left" in reading.part else "BD")))))
            case "plumb":
                ends = {"left side": "ALD", "right side": "BRC"}[reading.part]
                return p[ends[2 if reading.at == "head" else 1]][0] - p[ends[0]][0]
            case "level":
                ends = {"floor": "AFB", "head": "DHC"}[reading.part]
                return p[ends[2 if reading.at == "right" else 1]][1] - p[ends[0]][1]
            case _:
                p1, p2, m = {"left side": "DAL", "right side": "BCR", "floor": "ABF", "head": "CDH"}[reading.part]
                u, v = np.subtract(p[p2], p[p1]), np.subtract(p[m], p[p1])
                return float((u[0] * v[1] - u[1] * v[0]) / np.hypot(*u))

    def error(self, reading: Reading) -> float:
        fixed, per_metre = ERRORS[reading.by]
        p = self.points
        size = p["D"][1] if "side" in reading.part else p["B"][0]
        share = 0.5 if reading.at == "middle" and reading.kind in ("plumb", "level") else 1.0
        return fixed + per_metre * size * share / 1000

    def read(self, readings: list[Reading], rng: np.random.Generator | None = None) -> list[Reading]:
        """Readings with their values, and with the errors of their instruments if there is chance."""
        return [
            replace(r, value_mm=self.value(r) + (float(rng.normal(0, self.error(r))) if rng else 0.0)) for r in readings
        ]


def eight() -> list[Reading]:
    return [
        *(width(1, place) for place in ("foot", "middle", "head")),
        *(height(1, place) for place in ("left", "middle", "right")),
        diagonal(1, "foot left"),
        diagonal(1, "foot right"),
    ]


def full(*, by: str = "tape") -> list[Reading]:
    """Twenty readings: the eight, each side against plumb line and straight edge, floor and head against the level."""
    return [
        *(replace(r, by=by) for r in eight()),
        *(plumb(side, 0, at) for side in ("left", "right") for at in ("middle", "head")),
        *(level(part, 0, at) for part in ("floor", "head") for at in ("middle", "right")),
        *(bow(part, 0) for part in ("left", "right", "floor", "head")),
    ]


@dataclass(frozen=True)
class Making:
    """What a test needs to make openings up."""

    opening = staticmethod(MadeUp.at_random)
    eight = staticmethod(eight)
    full = staticmethod(full)


@pytest.fixture(scope="session")
def making() -> Making:
    return Making()
