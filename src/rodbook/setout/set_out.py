"""Setting out a front of any family, level or raked: the family's own set-out, then what all families share."""

from __future__ import annotations

from dataclasses import replace

from rodbook.errors import Infeasible
from rodbook.job.book import AnyBuildUp
from rodbook.setout.asked import Frame, Stock
from rodbook.setout.assembly import Joinery
from rodbook.setout.end_panels import with_end_panels
from rodbook.setout.families import family_of
from rodbook.setout.figures import given, thickness_of
from rodbook.setout.finish import finished
from rodbook.setout.fittings import fitted
from rodbook.setout.floor import over_plinth
from rodbook.setout.linings import Clear, outer_around
from rodbook.setout.meeting import met
from rodbook.setout.model import SetOut
from rodbook.setout.raked.line import RakedFrame
from rodbook.setout.widths import EQUAL
from rodbook.working import Measure

__all__ = ["outer_size_wanted", "set_out"]


def set_out(build_up: AnyBuildUp, stock: Stock, frame: Frame | RakedFrame) -> SetOut:
    """Set out a front of any family.

    Parameters
    ----------
    build_up : AnyBuildUp
    stock : Stock
        What it is made from.
    frame : Frame or RakedFrame
        Lining size, leaves, hand and sill.

    Returns
    -------
    SetOut

    Raises
    ------
    Infeasible
        If there is no room for it.
    """
    frame = _without_leaves(build_up, frame)
    result = met(build_up, stock.strip, frame.hand, _of_family(build_up, stock, frame))
    result = over_plinth(build_up, stock, frame, result)
    if isinstance(frame, Frame):
        result = with_end_panels(build_up, stock, frame, result)
    result = finished(build_up, fitted(build_up, stock.handle, stock.catch, result), sill=frame.sill)
    return replace(result, joinery=_joinery(build_up))


def _joinery(build_up: AnyBuildUp) -> Joinery:
    return Joinery(
        within=family_of(build_up).within,
        housing=build_up.housing if build_up.head_joint == "housed" else 0.0,
        mitred=build_up.trim_joint == "mitred",
        plinth_set_back=build_up.plinth_set_back,
    )


def _without_leaves(build_up: AnyBuildUp, frame: Frame | RakedFrame) -> Frame | RakedFrame:
    """Rows that are none of leaves are as wide as one leaf would be; under a raked head there are none."""
    if isinstance(frame, RakedFrame):
        if build_up.apron_top or build_up.apron_bottom:
            raise Infeasible("setout.apron_under_raked_head", build_up=build_up.name)
        return frame
    if frame.rows and all(row.kind != "leaves" for row in frame.rows):
        return replace(frame, leaves=1, wanted=EQUAL)
    return frame


def _of_family(build_up: AnyBuildUp, stock: Stock, frame: Frame | RakedFrame) -> SetOut:
    family = family_of(build_up)
    if not isinstance(frame, RakedFrame):
        return family.set_out(build_up, stock, frame)
    if family.set_out_raked is None:
        raise Infeasible("setout.family_under_raked_head", family=build_up.family)
    return family.set_out_raked(build_up, stock, frame)


def _with_aprons(build_up: AnyBuildUp, leaf: Measure) -> Measure:
    """Height of a front whose leaves are that high, with the aprons of its build-up. [mm]"""
    for height, name in (
        (build_up.apron_top, "apron over the leaves"),
        (build_up.apron_bottom, "apron under the leaves"),
    ):
        if height:
            gap = given(build_up, build_up.meeting_gap, "gap between rows")
            leaf = (leaf + given(build_up, height, name) + gap).named("front height")
    return leaf


def outer_size_wanted(
    build_up: AnyBuildUp,
    stock: Stock,
    *,
    leaves: int,
    sill: bool,
    leaf_mm: tuple[float, float] | None,
    clear_mm: tuple[float, float] | None,
) -> tuple[Measure, Measure]:
    """Outer size of the lining that gives a wanted leaf, or a wanted clear size.

    Parameters
    ----------
    build_up, stock
        From the book.
    leaves : int
    sill : bool
    leaf_mm, clear_mm : tuple of float, optional
        Width and height; one of the two is given. [mm]

    Returns
    -------
    tuple of Measure
        Width and height. [mm]
    """
    if leaf_mm is not None:
        leaf = (
            Measure(leaf_mm[0], "leaf width wanted", source="job"),
            _with_aprons(build_up, Measure(leaf_mm[1], "leaf height wanted", source="job")),
        )
        clear = family_of(build_up).clear_for(build_up, stock, leaf, leaves=leaves, sill=sill)
    else:
        assert clear_mm is not None, "the checks let no planned opening through without a wanted size"
        clear = Clear(
            Measure(clear_mm[0], "clear width", source="job"), Measure(clear_mm[1], "clear height", source="job")
        )
    thickness = thickness_of(stock.lining, "lining thickness")
    return outer_around(clear, thickness=thickness, sill=sill)
