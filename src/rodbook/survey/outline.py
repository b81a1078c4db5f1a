"""An opening's outline as four chains of points, and where a level or plumb line meets them, with slopes.

Points go round from A (foot left) over the floor to B (foot right), up to C (head right) and back over the head to D
(head left); between two corners there may be one point in the middle. A flat list holds x and y of each in that order.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from functools import cache
from typing import Literal

from rodbook.errors import Infeasible

__all__ = ["CORNERS", "MIDDLES", "Chain", "Outline", "crossing", "is_simple"]

Chain = Literal["left side", "right side", "floor", "head"]
CORNERS = {"A": "foot left", "B": "foot right", "C": "head right", "D": "head left"}
MIDDLES: dict[str, Chain] = {"F": "floor", "R": "right side", "H": "head", "L": "left side"}
"""Middle points and what they are the middle of."""

_ROUND = "AFBRCHDL"
_CHAINS: dict[Chain, str] = {"left side": "ALD", "right side": "BRC", "floor": "AFB", "head": "DHC"}
_SHORTEST_MM = 1e-6

type Terms = list[tuple[int, float]]
"""Slopes with regard to single coordinates: place in the flat list, slope."""


@dataclass(frozen=True)
class Outline:
    """Which points an outline has, and where each chain runs.

    Parameters
    ----------
    names : str
        Points in order, such as "ABRCHD".
    """

    names: str

    @classmethod
    def with_middles(cls, middles: set[str]) -> Outline:
        """The four corners and these middle points."""
        return cls("".join(name for name in _ROUND if name in CORNERS or name in middles))

    def x(self, name: str) -> int:
        """Where the x of a point stands in the flat list; its y stands next."""
        return _places(self.names)[name]

    def has_middle(self, part: str) -> bool:
        """Whether a side, floor or head has a middle point; where it has none it is straight, and a bow says nothing."""
        return any(chain == part and name in self.names for name, chain in MIDDLES.items())

    def chain(self, chain: Chain) -> tuple[int, ...]:
        """Where the x of each point of a chain stands, left to right or foot to head."""
        return _chain_places(self.names, chain)


@cache
def _places(names: str) -> dict[str, int]:
    return {name: 2 * place for place, name in enumerate(names)}


@cache
def _chain_places(names: str, chain: Chain) -> tuple[int, ...]:
    return tuple(_places(names)[name] for name in _CHAINS[chain] if name in names)


def crossing(flat: Sequence[float], chain: Sequence[int], at: float, *, plumb: bool) -> tuple[float, Terms, float]:
    """Where a line meets a chain: a level line meets a side (x), or a plumb line floor or head (y).

    Parameters
    ----------
    flat : sequence of float
        Coordinates. [mm]
    chain : sequence of int
        Points of the chain, by the place of their x.
    at : float
        Height of the level line, or station of the plumb line; beyond the ends the last piece is carried on. [mm]
    plumb : bool
        Whether the line is plumb.

    Returns
    -------
    tuple
        The coordinate, its slopes with regard to the points, its slope with regard to `at`.

    Raises
    ------
    Infeasible
        If the piece of the chain has no extent.
    """
    own, across = (1, 0) if plumb else (0, 1)
    piece = 0
    while piece < len(chain) - 2 and at > flat[chain[piece + 1] + across]:
        piece += 1
    p, q = chain[piece], chain[piece + 1]
    start, extent = flat[p + across], flat[q + across] - flat[p + across]
    if abs(extent) < _SHORTEST_MM:
        raise Infeasible("survey.corners_fall_together")
    slope = (flat[q + own] - flat[p + own]) / extent
    share = (at - start) / extent
    terms = [
        (p + own, 1 - share),
        (q + own, share),
        (p + across, -slope * (1 - share)),
        (q + across, -slope * share),
    ]
    return flat[p + own] + slope * (at - start), terms, slope


def is_simple(points: Sequence[tuple[float, float]]) -> bool:
    """Whether an outline goes once round, anticlockwise, without crossing or touching itself.

    >>> is_simple([(0, 0), (8, 0), (8, 20), (0, 20)]), is_simple([(0, 0), (8, 20), (8, 0), (0, 20)])
    (True, False)
    """
    count = len(points)
    edges = [(points[i], points[(i + 1) % count]) for i in range(count)]
    area = sum(a[0] * b[1] - b[0] * a[1] for a, b in edges)
    if area <= 0:
        return False
    return not any(
        _cross(*edges[i], *edges[j])
        for i in range(count)
        for j in range(i + 2, count)
        if not (i == 0 and j == count - 1)
    )


def _turn(a: tuple[float, float], b: tuple[float, float], c: tuple[float, float]) -> float:
    return (b[0] - a[0]) * (c[1] - a[1]) - (b[1] - a[1]) * (c[0] - a[0])


def _cross(a: tuple[float, float], b: tuple[float, float], c: tuple[float, float], d: tuple[float, float]) -> bool:
    if max(a[0], b[0]) < min(c[0], d[0]) or max(c[0], d[0]) < min(a[0], b[0]):
        return False
    if max(a[1], b[1]) < min(c[1], d[1]) or max(c[1], d[1]) < min(a[1], b[1]):
        return False
    return _turn(a, b, c) * _turn(a, b, d) <= 0 and _turn(c, d, a) * _turn(c, d, b) <= 0
