"""Openings as they offer themselves, and the sizes worth looking at: each as large as some of the openings allow.

A size can always be made larger until one of the openings that it serves is packed at its least, in width and in height, without
serving fewer; so only such tight sizes have to be looked at, and the choice among them is still exact.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from rodbook.errors import Infeasible, InputError

__all__ = [
    "SLACK_MM",
    "Candidate",
    "Offer",
    "PackerRange",
    "clusters_of",
    "down_to_step",
    "refuse_unserved",
    "tight_candidates",
]

SLACK_MM = 1e-6
"""Two lengths closer than this are the same: far below anything that can be measured."""


@dataclass(frozen=True)
class PackerRange:
    """Thinnest and thickest packing allowed at each side and over the head. [mm]"""

    side_least: float
    side_most: float
    head_least: float
    head_most: float

    def __post_init__(self) -> None:
        """Refuse a range that is upside down."""
        if not (0 <= self.side_least <= self.side_most and 0 <= self.head_least <= self.head_most):
            raise InputError.at("packers", "sizes.packing_out_of_order")

    def serves(self, offer: Offer, width: float, height: float) -> bool:
        """Whether a lining of this outer size can be packed into that opening. [mm]"""
        across, over = offer.width - width, offer.height - height
        return (
            2 * self.side_least - SLACK_MM <= across <= 2 * self.side_most + SLACK_MM
            and self.head_least - SLACK_MM <= over <= self.head_most + SLACK_MM
        )


@dataclass(frozen=True)
class Offer:
    """The upright rectangle that an opening offers; only openings of one `group` may share a size. [mm]"""

    name: str
    width: float
    height: float
    group: tuple[str | int | float, ...] = ()


@dataclass(frozen=True)
class Candidate:
    """An outer lining size, and which openings it could serve, by their number. [mm]"""

    width: float
    height: float
    served: frozenset[int]


def down_to_step(value: float, step: float) -> float:
    """Round down to a multiple of the step. [mm]"""
    return math.floor(value / step + SLACK_MM) * step


def tight_candidates(offers: Sequence[Offer], packers: PackerRange, step: float) -> list[Candidate]:
    """Every size that is as wide and as high as the openings that it serves allow, with those openings."""
    widths = np.array([down_to_step(o.width - 2 * packers.side_least, step) for o in offers])
    heights = np.array([down_to_step(o.height - packers.head_least, step) for o in offers])
    across, over = np.array([o.width for o in offers]), np.array([o.height for o in offers])

    def fits(offered: np.ndarray, size: float, least: float, most: float) -> np.ndarray:
        return (offered - size >= least - SLACK_MM) & (offered - size <= most + SLACK_MM)

    rows = {w: fits(across, w, 2 * packers.side_least, 2 * packers.side_most) for w in sorted(set(widths))}
    columns = {h: fits(over, h, packers.head_least, packers.head_most) for h in sorted(set(heights))}
    results: list[Candidate] = []
    for w, in_width in rows.items():
        for h, in_height in columns.items():
            served = np.flatnonzero(in_width & in_height)
            if len(served) and widths[served].min() == w and heights[served].min() == h:
                results.append(Candidate(float(w), float(h), frozenset(served.tolist())))
    return results


def refuse_unserved(offers: Sequence[Offer], candidates: Sequence[Candidate]) -> None:
    """Refuse openings that no candidate serves, by name."""
    served = frozenset[int]().union(*(c.served for c in candidates))
    missing = [o.name for i, o in enumerate(offers) if i not in served]
    if missing:
        raise Infeasible("sizes.no_whole_size", openings=tuple(missing), items=missing)


def clusters_of(candidates: Sequence[Candidate]) -> list[list[Candidate]]:
    """Candidates whose openings hang together; each cluster can be solved by itself."""
    clusters: list[tuple[set[int], list[Candidate]]] = []
    for candidate in candidates:
        touching = [c for c in clusters if c[0] & candidate.served]
        openings = set(candidate.served).union(*(c[0] for c in touching))
        members = [m for c in touching for m in c[1]] + [candidate]
        clusters = [c for c in clusters if c not in touching] + [(openings, members)]
    return [members for _, members in clusters]
