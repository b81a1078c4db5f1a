"""Linings under a raked head: legs of unlike height, a sloping head with plumb ends, hinge linings bevelled to it."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Literal

from rodbook.errors import Infeasible
from rodbook.hinges import Boring, plate_borings
from rodbook.job.book import AnyBuildUp
from rodbook.job.kinds import PartKind
from rodbook.setout.asked import Stock
from rodbook.setout.cuts import Cut, Side, cut_words
from rodbook.setout.edges import seen_edges
from rodbook.setout.family import family_of
from rodbook.setout.figures import given, thickness_of
from rodbook.setout.model import NO_JOINTS, Joint, Part, Placed
from rodbook.setout.raked.leaves import RakedLeaf
from rodbook.setout.raked.line import RakedFrame, SlopingLine
from rodbook.working import Measure

__all__ = ["CUT_STEP_MM", "RakedLining", "raked_carriers", "raked_linings"]

CUT_STEP_MM = 0.1
"""Lengths that come out of a slope are told to this (house assumption): no stop on a saw is set finer."""


@dataclass(frozen=True)
class RakedLining:
    """What the linings of a raked front are made to.

    Parameters
    ----------
    build_up : AnyBuildUp
    stock : Stock
    frame : RakedFrame
    outer, under : SlopingLine
        Upper face and underside of the head.
    thickness : Measure
        Of the lining. [mm]
    floor : Measure, optional
        Upper face of the sill; none where the lining stands on the floor. [mm]
    """

    build_up: AnyBuildUp
    stock: Stock
    frame: RakedFrame
    outer: SlopingLine
    under: SlopingLine
    thickness: Measure
    floor: Measure | None

    @property
    def over(self) -> bool:
        """Whether the head lies over the legs."""
        return self.build_up.head_joint == "over"

    def part(self, kind: PartKind, length: Measure, width: Measure, **more: object) -> Part:
        """A part of the lining's board."""
        board, build_up = self.stock.lining, self.build_up
        return Part(
            kind,
            board.name,
            sectional=False,
            length=length,
            width=width,
            thickness=thickness_of(board, f"{kind} thickness"),
            grain=board.grain,
            edges=seen_edges(kind),
            finish=build_up.finish,
            coats=build_up.coats,
            **more,  # type: ignore[arg-type]
        )


@dataclass(frozen=True)
class _Upright:
    """A board that stands plumb with its top bevelled to the slope: both faces' lengths. [mm]"""

    side: Side
    outer: Measure
    inner: Measure
    bevel: Measure

    @property
    def length(self) -> Measure:
        return (self.outer if self.outer.value >= self.inner.value else self.inner).rounded_down(CUT_STEP_MM)

    @property
    def cuts(self) -> tuple[Cut, ...]:
        if self.outer.value == self.inner.value:
            return ()
        face = "outer face" if self.outer.value > self.inner.value else "inner face"
        return (Cut("top", self.bevel, "thickness", face),)


def _upright(
    line: SlopingLine, side: Side, faces: tuple[Measure, Measure], foot: Measure | None, name: str
) -> _Upright:
    results = []
    for face, x in zip(("outer", "inner"), faces, strict=True):
        height = line.at(x, f"top of the {side} {name} at its {face} face")
        results.append((height - foot if foot else height).named(f"{side} {name} length, {face} face"))
    return _Upright(side, results[0], results[1], line.degrees)


def _faces(lining: RakedLining, side: Side, inward: Measure | None) -> tuple[Measure, Measure]:
    """Outer and inner face of the board that stands `inward` of a leg's outer face, from the lining's left face."""
    t, width = lining.thickness, lining.frame.width
    start = inward if inward is not None else Measure(0.0, "lining's face")
    far = (start + t).named("inner face") if inward is not None else t
    if side == "left":
        return start, far
    return (width - start).named("outer face"), (width - far).named("inner face")


def raked_linings(lining: RakedLining, leaves: Sequence[RakedLeaf], foot: Measure) -> tuple[Placed, ...]:
    """Legs, head and, where asked, sill."""
    build_up, frame = lining.build_up, lining.frame
    depth = given(build_up, build_up.lining_depth, "lining depth")
    line = lining.under if lining.over else lining.outer
    placed: list[Placed] = []
    for side in ("left", "right"):
        leg = _upright(line, side, _faces(lining, side, None), None, "leg")
        bores: tuple[Boring, ...] = ()
        if not build_up.hinge_lining:
            further = thickness_of(lining.stock.leaf, "leaf thickness") if family_of(build_up).within else None
            bores = _plates(lining, leg, leaves, depth, foot, further)
        placed.append(Placed(lining.part(PartKind.LINING_LEG, leg.length, depth, **_described(lining, leg, bores)), 1))
    placed.append(Placed(_head(lining, depth), 1))
    if frame.sill:
        clear = (frame.width - 2 * lining.thickness).named("clear width")
        if build_up.head_joint == "housed":
            clear = clear + 2 * given(build_up, build_up.housing, "housing")
        placed.append(Placed(lining.part(PartKind.LINING_SILL, clear.named("sill length"), depth), 1))
    return tuple(placed)


def _described(
    lining: RakedLining, board: _Upright, bores: tuple[Boring, ...], *, leg: bool = True
) -> dict[str, object]:
    """Hand, ends, cuts and borings of an upright board."""
    words, joints = cut_words(board.cuts), NO_JOINTS
    sizes: tuple[float, ...] = ()
    if leg and lining.build_up.head_joint == "housed":
        joints, sizes = (Joint.HOUSED,), (lining.build_up.housing,) * (2 if lining.frame.sill else 1)
        housed = f"housed {lining.build_up.housing:g} mm for the head" + (" and the sill" if lining.frame.sill else "")
        words = f"{words}; {housed} along the slope" if words else housed
    if board.cuts:
        words += "; length to the long point"
    face: Literal["", "inner"] = "inner" if bores else ""
    return {
        "hand": board.side,
        "ends": words,
        "joints": joints,
        "joint_sizes": sizes,
        "cuts": board.cuts,
        "borings": bores,
        "bored_face": face,
        "datum": "foot",
    }


def _head(lining: RakedLining, depth: Measure) -> Part:
    """The sloping head: its ends are plumb, so both are bevelled by the slope, parallel to each other."""
    frame, build_up, t = lining.frame, lining.build_up, lining.thickness
    level = frame.width - 2 * t
    if lining.over:
        level = frame.width
    elif build_up.head_joint == "housed":
        level = level + 2 * given(build_up, build_up.housing, "housing")
    along = lining.outer.along(level.named("level length of the head"))
    fall = lining.outer.fall
    length = (along + t * fall / 1000 if fall.value else along).named("head length").rounded_down(CUT_STEP_MM)
    cuts: tuple[Cut, ...] = ()
    if fall.value:
        high: Side = "left" if lining.outer.falls_to == "right" else "right"
        # Plumb ends: at the high end the underside reaches further, at the low end the upper face.
        ends: dict[Side, str] = {high: "underside", lining.outer.falls_to: "upper face"}
        cuts = tuple(Cut(side, lining.outer.degrees, "thickness", ends[side]) for side in ("left", "right"))
    words = f"{cut_words(cuts)}; both ends plumb; length over the long points" if cuts else ""
    return lining.part(PartKind.LINING_HEAD, length, depth, ends=words, cuts=cuts)


def raked_carriers(lining: RakedLining, leaves: Sequence[RakedLeaf], foot: Measure) -> tuple[Placed, ...]:
    """Hinge linings, where the build-up has them."""
    build_up = lining.build_up
    if not build_up.hinge_lining:
        return ()
    depth = given(build_up, build_up.lining_depth, "lining depth")
    across = depth.named("hinge lining width")
    behind = across
    if family_of(build_up).within:
        behind = (depth - thickness_of(lining.stock.leaf, "leaf thickness")).named("depth behind the leaf")
        across = behind.named("hinge lining width")
    if build_up.hinge_lining_width is not None:
        if build_up.hinge_lining_width > behind.value:
            raise Infeasible("setout.hinge_lining_too_wide", width_mm=build_up.hinge_lining_width, behind_mm=behind)
        across = given(build_up, build_up.hinge_lining_width, "hinge lining width")
    if across.value <= lining.stock.hinge.plate_set_back:
        raise Infeasible("setout.hinge_lining_too_narrow", width_mm=across, in_mm=lining.stock.hinge.plate_set_back)
    placed: list[Placed] = []
    for side in ("left", "right"):
        board = _upright(lining.under, side, _faces(lining, side, lining.thickness), lining.floor, "hinge lining")
        on_it = (foot - lining.floor if lining.floor else foot).named("leaf's foot above the hinge lining's")
        bores = _plates(lining, board, leaves, across, on_it, None)
        described = _described(lining, board, bores, leg=False)
        placed.append(Placed(lining.part(PartKind.HINGE_LINING, board.length, across, **described), 1))
    return tuple(placed)


def _plates(
    lining: RakedLining,
    board: _Upright,
    leaves: Sequence[RakedLeaf],
    width: Measure,
    foot: Measure,
    further: Measure | None,
) -> tuple[Boring, ...]:
    """Plate holes on the inner face of what carries the leaf of that side, from the foot up."""
    outermost = leaves[0] if board.side == "left" else leaves[-1]
    if outermost.size.side != board.side:
        return ()
    ups = [(up + foot).named("hinge above the part's foot") for up in outermost.ups]
    downs = [(board.length - up).named("hinge below the part's long point") for up in ups]
    hinge = lining.stock.hinge
    highest = ups[0].value + hinge.plate_spacing / 2 + hinge.plate_diameter
    if highest > board.inner.value:
        raise Infeasible("setout.plate_above_raked_side", up_mm=ups[0], side=board.side, inner_mm=board.inner)
    return plate_borings(hinge, downs, width, front=board.side, further_back=further)
