"""Trims around a raked head: mitred on the bisector of each corner, or the head over the legs, with the saw's angles.

The corner at the lower side is wider than square by the slope, that at the higher side is narrower by it::

         .-'''-.         corner at the low side   90 + slope
    __.-' .-''''|        corner at the high side  90 - slope
   | .-'`` __   |        mitre = 90 - corner / 2, turned from square
   | | sight |  |
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

from rodbook.errors import Message
from rodbook.job.book import AnyBuildUp, Section
from rodbook.job.kinds import PartKind
from rodbook.setout.cuts import Cut, Side, cut_words, mitre
from rodbook.setout.edges import seen_edges
from rodbook.setout.model import Part, Placed, Point
from rodbook.setout.raked.line import SlopingLine
from rodbook.setout.raked.linings import CUT_STEP_MM
from rodbook.working import Measure, greatest

__all__ = ["SAW_SCALE_DEGREES", "RakedSight", "raked_trims", "trim_outlines"]

SAW_SCALE_DEGREES = 50.0
"""Saws' scales end somewhere from 45 to 60 degrees (common practice); a steeper mitre is said to need a jig."""


@dataclass(frozen=True)
class RakedSight:
    """Inside of a trim under a raked head.

    Parameters
    ----------
    x : Measure
        From the lining's left outer face. [mm]
    width : Measure
        [mm]
    left, right : Measure
        Height of its sides, from its foot. [mm]
    base : Measure, optional
        Its foot above the floor, where the trim goes all round; else it runs down to the floor. [mm]
    """

    x: Measure
    width: Measure
    left: Measure
    right: Measure
    base: Measure | None


def trim_outlines(sight: RakedSight, trim: float, line: SlopingLine, *, mitred: bool) -> dict[str, tuple[Point, ...]]:
    """Corners of left leg, right leg and head as they stand, x and y as in an elevation. [mm]

    Parameters
    ----------
    sight : RakedSight
    trim : float
        Face width. [mm]
    line : SlopingLine
        For the slope.
    mitred : bool
        Else the head lies over the legs, its ends plumb.
    """
    foot = sight.base.value if sight.base else 0.0
    x0, x1 = sight.x.value, sight.x.value + sight.width.value
    low = foot - trim if sight.base and mitred else foot
    slope, up = line.slope, trim * line.stretch.value / 1000

    def inner(x: float) -> float:
        return foot + sight.left.value + slope * (x - x0)

    a, b = x0 - trim, x1 + trim
    rise = up if mitred else 0.0
    left = ((a, low), (x0, foot), (x0, inner(x0)), (a, inner(a) + rise))
    right = ((x1, foot), (b, low), (b, inner(b) + rise), (x1, inner(x1)))
    ends = (x0, x1) if mitred else (a, b)
    head = ((ends[0], inner(ends[0])), (ends[1], inner(ends[1])), (b, inner(b) + up), (a, inner(a) + up))
    return {"left": left, "right": right, "head": head}


def _lying(corners: tuple[Point, ...], line: SlopingLine) -> tuple[Point, ...]:
    """A sloping head's corners in its own frame: y along it from the left end, x across from the lower edge."""
    k = line.stretch.value / 1000
    along = [(x + line.slope * y) / k for x, y in corners]
    across = [(y - line.slope * x) / k for x, y in corners]
    return tuple((c - min(across), a - min(along)) for a, c in zip(along, across, strict=True))


def _standing(corners: tuple[Point, ...]) -> tuple[Point, ...]:
    left, top = min(x for x, _ in corners), max(y for _, y in corners)
    return tuple((x - left, top - y) for x, y in corners)


def _degrees(corner: float, line: SlopingLine, words: str) -> Measure:
    slope = line.degrees
    sign = "+" if corner > 90 else "−"
    return Measure(mitre(corner), words, "°", expression=f"90° − (90° {sign} {slope.term()}) ÷ 2", parts=(slope,))


def raked_trims(
    build_up: AnyBuildUp, section: Section, sight: RakedSight, line: SlopingLine, *, sill: bool
) -> tuple[tuple[Placed, ...], list[Message]]:
    """Legs and heads of the trim as parts, and what has to be said of their cuts."""
    width = Measure(section.width, "trim width", source="book")
    mitred = build_up.trim_joint == "mitred"
    shapes = trim_outlines(sight, section.width, line, mitred=mitred)
    slope = line.degrees.value
    low = line.falls_to
    corner: dict[Side, float] = {side: 90 + slope if side == low else 90 - slope for side in ("left", "right")}

    def part(
        kind: PartKind,
        length: Measure,
        outline: tuple[Point, ...],
        cuts: tuple[Cut, ...],
        hand: Literal["", "left", "right"],
    ) -> Part:
        words = f"{cut_words(cuts)}; length to the long point" + ("s" if len(cuts) > 1 else "") if cuts else ""
        return Part(
            kind,
            section.name,
            sectional=True,
            length=length,
            width=width,
            thickness=Measure(section.thickness, "trim thickness", source="book"),
            hand=hand,
            ends=words,
            finish=build_up.finish,
            coats=build_up.coats,
            outline=outline,
            cuts=cuts,
            planed=section.planed,
            edges=seen_edges(kind, free_ends=("left", "right") if kind is PartKind.TRIM_HEAD and not mitred else ()),
        )

    placed: list[Placed] = []
    for side in ("left", "right"):
        inner = sight.left if side == "left" else sight.right
        change = (width * line.fall / 1000).named("fall over the trim's width")
        outer = inner - change if side == low else inner + change
        if mitred:
            outer = outer + line.along(width).named("trim width, plumb under the slope")
            cuts: tuple[Cut, ...] = (
                Cut("top", _degrees(corner[side], line, "mitre at the head"), "face", "outer edge"),
            )
            if sill:
                outer = outer + width
                cuts = (*cuts, Cut("foot", Measure(45.0, "mitre at the foot", "°"), "face", "outer edge"))
        else:
            edge = "outer edge" if side != low else "inner edge"
            cuts = (Cut("top", line.degrees, "face", edge),) if line.fall.value else ()
        length = greatest(inner, outer.named("outer edge of the trim leg"), name="trim leg length").rounded_up(
            CUT_STEP_MM
        )
        placed.append(Placed(part(PartKind.TRIM_LEG, length, _standing(shapes[side]), cuts, side), 1))
    level = (sight.width + 2 * width).named("level width over the trim")
    along = line.along(level)
    if not mitred and line.fall.value:
        along = along + width * line.fall / 1000
    high: Side = "left" if low == "right" else "right"
    if mitred:
        head_cuts = tuple(
            Cut(side, _degrees(corner[side], line, f"mitre at the {side}"), "face", "outer edge")
            for side in ("left", "right")
        )
    elif line.fall.value:
        edges: dict[Side, str] = {high: "lower edge", low: "upper edge"}
        head_cuts = tuple(Cut(side, line.degrees, "face", edges[side]) for side in ("left", "right"))
    else:
        head_cuts = ()
    placed.append(
        Placed(
            part(
                PartKind.TRIM_HEAD,
                along.named("trim head length").rounded_up(CUT_STEP_MM),
                _lying(shapes["head"], line),
                head_cuts,
                "",
            ),
            1,
        )
    )
    if sill:
        foot_cuts = (
            tuple(Cut(side, Measure(45.0, "mitre", "°"), "face", "outer edge") for side in ("left", "right"))
            if mitred
            else ()
        )
        placed.append(Placed(part(PartKind.TRIM_HEAD, level.named("trim foot length"), (), foot_cuts, ""), 1))
    return tuple(placed), _steep(mitred=mitred, steepest=mitre(corner[high]))


def _steep(*, mitred: bool, steepest: float) -> list[Message]:
    if not mitred or steepest <= SAW_SCALE_DEGREES:
        return []
    return [Message("setout.mitre_beyond_saw", mitre_deg=steepest, most_deg=SAW_SCALE_DEGREES)]
