"""The families of build-ups: one face over `inset`, `lay_on`, `lay_on_plain` and `raked`."""

from __future__ import annotations

from dataclasses import replace

from rodbook.errors import Infeasible
from rodbook.job.book import AnyBuildUp, InsetBuildUp, LayOnBuildUp, PlainLayOnBuildUp
from rodbook.setout import inset, lay_on, lay_on_plain
from rodbook.setout.end_panels import with_end_panels
from rodbook.setout.figures import given, thickness_of
from rodbook.setout.finish import finished
from rodbook.setout.fittings import fitted
from rodbook.setout.floor import over_plinth
from rodbook.setout.hanging import Frame, Stock
from rodbook.setout.linings import Clear, outer_around
from rodbook.setout.meeting import met
from rodbook.setout.model import SetOut
from rodbook.setout.raked.family import set_out_raked
from rodbook.setout.raked.line import RakedFrame
from rodbook.setout.widths import EQUAL
from rodbook.working import Measure

__all__ = ["Frame", "Stock", "outer_size_wanted", "set_out"]


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
    return finished(build_up, fitted(build_up, stock.handle, stock.catch, result), sill=frame.sill)


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
    if isinstance(frame, RakedFrame):
        if isinstance(build_up, PlainLayOnBuildUp):
            raise Infeasible("setout.family_under_raked_head", family=build_up.family)
        return set_out_raked(build_up, stock, frame)
    if isinstance(build_up, InsetBuildUp):
        return inset.set_out_inset(build_up, stock, frame)
    if isinstance(build_up, LayOnBuildUp):
        return lay_on.set_out_lay_on(build_up, stock, frame)
    return lay_on_plain.set_out_plain(build_up, stock, frame)


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
        leaf = (Measure(leaf_mm[0], "leaf width wanted", source="job"),
                _with_aprons(build_up, Measure(leaf_mm[1], "leaf height wanted", source="job")))  # fmt: skip
        if isinstance(build_up, InsetBuildUp):
            clear = inset.clear_for(build_up, leaf, leaves=leaves, sill=sill)
        elif isinstance(build_up, LayOnBuildUp):
            clear = lay_on.clear_for(build_up, stock, leaf, leaves=leaves, sill=sill)
        else:
            clear = lay_on_plain.clear_for_plain(build_up, stock, leaf, leaves=leaves, sill=sill)
    else:
        assert clear_mm is not None, "the checks let no planned opening through without a wanted size"
        clear = Clear(
            Measure(clear_mm[0], "clear width", source="job"), Measure(clear_mm[1], "clear height", source="job")
        )
    thickness = thickness_of(stock.lining, "lining thickness")
    return outer_around(clear, thickness=thickness, sill=sill)
