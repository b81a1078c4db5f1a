"""Edges, machining and the finish's film: what a part is cut to, and the gaps as they will be seen.

A lipping or a tape either comes off the core, so that the finished size stays, or is put on over it; and every coat on
an edge takes its film off the gap beside it, once from each side::

    core | lipping | film | gap as seen | film | lining
         |<------- finished size        |
"""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

from rodbook.errors import Infeasible, Message
from rodbook.job.book import AnyBuildUp
from rodbook.job.kinds import Edging, PartKind
from rodbook.late import late_library
from rodbook.setout.dimensions import Dimension, DimensionName
from rodbook.setout.family import family_of
from rodbook.setout.figures import given
from rodbook.setout.model import EdgeWork, Part, SeenGap, SetOut
from rodbook.working import Measure

if TYPE_CHECKING:
    import shapely
else:
    shapely = late_library("shapely")

__all__ = ["film_of", "finished", "inset_outline", "worked"]


def film_of(build_up: AnyBuildUp) -> Measure:
    """Dry film of all coats on one face. [mm]

    >>> from types import SimpleNamespace
    >>> print(film_of(SimpleNamespace(name="painted", film=60.0, coats=3)).working())
    film on each face = coats 3.0 × film of a coat 60.0 ÷ 1000 = 0.18
    """
    coats = Measure(build_up.coats, "coats", "", source=f"build-up {build_up.name}")
    film = coats * Measure(build_up.film, "film of a coat", "µm", source=f"build-up {build_up.name}") / 1000
    return replace(film.named("film on each face"), unit="mm")


def _edge_work(build_up: AnyBuildUp, kind: PartKind) -> EdgeWork | None:
    if kind.facts.edging is Edging.LEAF:
        way, thick, name = build_up.leaf_edge, build_up.leaf_edge_thickness, "edging of the leaf"
    elif kind.facts.edging is Edging.LINING:
        way, thick, name = build_up.lining_edge, build_up.lining_edge_thickness, "edging of the lining"
    else:
        return None
    if way == "raw":
        return None
    return EdgeWork(way, given(build_up, thick, name) if thick else None, build_up.edging_taken_off)


def inset_outline(outline: tuple[tuple[float, float], ...], by: float) -> tuple[float, float]:
    """Length and width of the rectangle around an outline that is drawn in all round. [mm]

    >>> inset_outline(((0, 0), (600, 0), (600, 2000), (0, 2000)), 5)
    (1990.0, 590.0)
    """
    left, top, right, foot = shapely.Polygon(outline).buffer(-by, join_style="mitre").bounds
    return round(foot - top, 6), round(right - left, 6)


def _core(part: Part, work: EdgeWork) -> tuple[Measure, Measure]:
    """Length and width before the edging goes on."""
    assert work.thickness is not None
    if part.outline and len(part.edges) == 4:
        sizes = inset_outline(part.outline, work.thickness.value)
        source = f"its outline drawn in by {work.thickness}"
        return Measure(sizes[0], "core length", source=source), Measure(sizes[1], "core width", source=source)
    sides = sum(part.along(edge) for edge in part.edges)
    ends = len(part.edges) - sides
    length = part.length - ends * work.thickness if ends else part.length
    width = part.width - sides * work.thickness if sides else part.width
    return length.named("core length"), width.named("core width")


def worked(build_up: AnyBuildUp, part: Part) -> Part:
    """A part with its edging and what it is cut to."""
    work = _edge_work(build_up, part.kind) if part.edges else None
    core: tuple[Measure, Measure] | None = None
    if work is not None and work.thickness is not None:
        core = _core(part, work) if work.taken_off else (part.length, part.width)
    allowance = given(build_up, build_up.machining, "machining allowance")
    cut = core
    if allowance.value and not part.sectional:
        length, width = core or (part.length, part.width)
        cut = (length + allowance).named("cut length"), (width + allowance).named("cut width")
    return replace(part, edge_work=work, core=core, cut=cut) if work or cut else part


_BETWEEN = (DimensionName.MEETING_GAP, DimensionName.ROW_GAP)
"""Gaps with a leaf on either side."""


def _asked(build_up: AnyBuildUp, gap: Dimension, *, sill: bool) -> Measure | None:
    """What the build-up asks of a gap; what is the family's own, the family says."""
    if gap.key in _BETWEEN:
        return given(build_up, build_up.meeting_gap, gap.name)
    if gap.key is DimensionName.GAP_UNDER and not sill:
        return given(build_up, build_up.floor_clearance, "floor clearance")
    return family_of(build_up).asked(build_up, gap.key)


def _seen(build_up: AnyBuildUp, gap: Dimension, *, sill: bool) -> SeenGap:
    """A gap with everything on it: film on both its faces, and edging that is put on over the leaf's size."""
    film = film_of(build_up)
    seen: Measure = gap
    faces = 1 if gap.key is DimensionName.GAP_UNDER and not sill else 2
    if film.value:
        seen = seen - film if faces == 1 else seen - 2 * film
    if build_up.leaf_edge_thickness and not build_up.edging_taken_off:
        edging = given(build_up, build_up.leaf_edge_thickness, "edging of the leaf")
        seen = seen - 2 * edging if gap.key in _BETWEEN else seen - edging
    if seen is not gap:
        seen = seen.named(f"{gap.name}, as it will be seen")
    return SeenGap(gap.key, gap.name, _asked(build_up, gap, sill=sill), gap, seen)


def finished(build_up: AnyBuildUp, result: SetOut, *, sill: bool) -> SetOut:
    """Add edging, cores, cut sizes and the gaps as they will be seen to a set-out of any family.

    Raises
    ------
    Infeasible
        If a gap would be closed, or less than the least that the build-up allows; all of them in one sentence.
    """
    parts = tuple(replace(placed, part=worked(build_up, placed.part)) for placed in result.parts)
    seen = tuple(_seen(build_up, gap, sill=sill) for gap in result.gaps)
    tight = [
        Message("setout.gap_would_be", gap=gap.name, seen_mm=gap.seen)
        for gap in seen
        if gap.seen.value < build_up.gap_least - 1e-9 or (gap.seen.value <= 0 < gap.made.value)
    ]
    if tight:
        if build_up.gap_least:
            raise Infeasible("setout.gap_too_small", gaps=tight, least_mm=build_up.gap_least)
        raise Infeasible("setout.gap_closes", gaps=tight)
    return replace(result, parts=parts, seen=seen)
