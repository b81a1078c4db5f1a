"""How a lining is packed in its opening: one source for every thickness, and the places that the book's packers don't reach."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass, replace
from functools import lru_cache
from typing import Literal

from rodbook.errors import Infeasible
from rodbook.job import AnyBuildUp
from rodbook.setout import PartKind, SetOut
from rodbook.sizes import Packers
from rodbook.survey import FrontFit, Packer, Shape, fit_front, fixings
from rodbook.working import Measure

__all__ = ["OutOfRange", "foot_stations", "out_of_range", "packers_of", "wall_fit"]

SAID_MM = 0.05
"""A packer beyond the book's range by less is not told: it is written down to the tenth."""

_ON_THE_FLOOR_MM = 1.0
"""An upright whose foot is no higher than this stands on the floor."""


@dataclass(frozen=True)
class OutOfRange:
    """A place where the gap is less or more than the book's packers fill.

    Parameters
    ----------
    packer : Packer
    least_mm, most_mm : float
        What the build-up allows. [mm]
    """

    packer: Packer
    least_mm: float
    most_mm: float

    @property
    def sentence(self) -> str:
        """What is wrong, where, and what to do, in words."""
        side, at, size = self.packer.side, self.packer.at_mm, self.packer.size_mm
        where = f"over the head, {at:.0f} mm from the left" if side == "head" else f"at the {side}, {at:.0f} mm up"
        if size > self.most_mm:
            return (
                f"The packer {where} would be {size:.1f} mm, more than the {self.most_mm:g} mm of the build-up: "
                "pack the structure out there first, or choose more sizes."
            )
        return (
            f"The packer {where} would be {size:.1f} mm, less than the {self.least_mm:g} mm of the build-up: "
            "cut the structure back there, or choose more sizes."
        )


def foot_stations(set_out: SetOut, width_mm: float) -> tuple[float, ...]:
    """Where timber stands on the floor: under each leg and each upright; all along where there is a sill. [mm from the left]"""
    stations = {
        round(sum(body.across) / 2, 1)
        for body in set_out.assembly.bodies
        if body.kind.facts.on_floor and body.up[0] < _ON_THE_FLOOR_MM
    }
    if set_out.assembly.of(PartKind.LINING_SILL):
        stations |= set(fixings(width_mm))
    return tuple(sorted(x for x in stations if 0 <= x <= width_mm))


@lru_cache(maxsize=2048)
def wall_fit(
    shape: Shape, width_mm: float, height_mm: float | tuple[float, float], *, foot: tuple[float, ...] | None = None
) -> FrontFit | None:
    """A lining set into its opening: packers at every fixing, and where the structure must be cut back.

    Packers over a raked head are square to its slope, as they are cut.

    Parameters
    ----------
    shape : Shape
    width_mm : float
        Outer width of the lining. [mm]
    height_mm : float or pair of float
        Outer height, or under a raked head those of its left and right leg. [mm]
    foot : tuple of float, optional
        Where timber stands on the floor; as over the head where left out. [mm]

    Returns
    -------
    FrontFit or None
        None where nothing upright fits between the sides.
    """
    return _fit(shape, width_mm, height_mm, foot=foot)


def _fit(
    shape: Shape,
    width_mm: float,
    height_mm: float | tuple[float, float],
    *,
    heights: Sequence[float] | None = None,
    stations: Sequence[float] | None = None,
    foot: Sequence[float] | None = None,
) -> FrontFit | None:
    try:
        head: Literal["level", "raked"] = "raked" if isinstance(height_mm, tuple) else "level"
        fit = fit_front(
            shape,
            width_mm=width_mm,
            height_mm=height_mm,
            head=head,
            fixing_heights_mm=heights,
            fixing_stations_mm=stations,
            foot_stations_mm=foot,
        )
    except Infeasible:
        return None
    rise = (fit.right_height_mm - fit.left_height_mm) / fit.width_mm
    share = 1 / math.hypot(1, rise)
    packers = [
        replace(p, size_mm=p.size_mm * share, error_mm=p.error_mm * share) if p.side == "head" else p
        for p in fit.packers
    ]
    return replace(fit, packers=tuple(packers))


def packers_of(
    shape: Shape, width: Measure, height: float | tuple[float, float], *, side: Measure, head: Measure
) -> Packers | None:
    """The packers at foot, middle and head of both legs, and over the head at left, middle and right.

    They are those of `wall_fit` at other places: the same lining, standing where it stands there.

    Parameters
    ----------
    shape : Shape
    width : Measure
        Outer width of the lining. [mm]
    height : float or pair of float
        Outer height, or those of its legs. [mm]
    side, head : Measure
        Least packing on each side and over the head, with its working. [mm]

    Returns
    -------
    Packers or None
        None where nothing upright fits between the sides.
    """
    legs = height if isinstance(height, tuple) else (height, height)
    each = {
        leg: _fit(
            shape,
            width.value,
            height,
            heights=(0.0, leg / 2, leg),
            stations=(0.0, width.value / 2, width.value),
            foot=(),
        )
        for leg in set(legs)
    }
    first, second = (each[leg] for leg in legs)
    if first is None or second is None:
        return None
    left, right, over = first.packers_at("left"), second.packers_at("right"), first.packers_at("head")
    return Packers(side, head, _sizes(left), _sizes(right), _sizes(over))


def _sizes(packers: Sequence[Packer]) -> tuple[float, ...]:
    return tuple(round(packer.size_mm, 3) for packer in packers)


def out_of_range(wall: FrontFit, build_up: AnyBuildUp) -> tuple[OutOfRange, ...]:
    """Every fixing at the sides and over the head whose gap the build-up's packers don't fill; what must be cut back apart.

    Parameters
    ----------
    wall : FrontFit
    build_up : AnyBuildUp
    """
    ranges = {
        "left": (build_up.packer_least, build_up.packer_most),
        "right": (build_up.packer_least, build_up.packer_most),
        "head": (build_up.head_packer_least, build_up.head_packer_most),
    }
    return tuple(
        OutOfRange(packer, *ranges[packer.side])
        for packer in wall.packers
        if packer.side in ranges
        and not ranges[packer.side][0] - SAID_MM <= packer.size_mm <= ranges[packer.side][1] + SAID_MM
    )
