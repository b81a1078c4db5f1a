"""Before a leaf is cut: what asks for its hinges and what they carry, whether cups come through, what damp does to margins.

Each answer is worked out when somebody looks at it, from the front as it is set out; nothing here changes a size.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from functools import lru_cache

from rodbook.accuracy import BUILDINGS, Air, MarginYear, board_travel, year_of_margin
from rodbook.accuracy import Piece as Moving
from rodbook.hinges import (
    HingeLoad,
    HingeNumber,
    PlateFit,
    Skin,
    Spread,
    hinge_load,
    hinge_number,
    plate_fits,
    skin_under,
)
from rodbook.job import Book
from rodbook.job.book import Board, HingeType
from rodbook.plan.model import OpeningPlan
from rodbook.plan.stages.bored import hole_clashes
from rodbook.plan.stages.swings import FrontSwing, front_swing, leaf_names, leaf_words
from rodbook.setout import Body, DimensionName, LeafHanging, LeafSize, Part, PartKind, SetOut, family_named, hangings

__all__ = [
    "DEPTH_TOLERANCE_MM",
    "MADE_IN",
    "POINT_MM",
    "THICKNESS_TOLERANCE_MM",
    "FreeGap",
    "LeafCheck",
    "LeafChecks",
    "leaf_checks",
    "plate_for",
]

MADE_IN = Air("as made", 45, 20)
"""The air of the workshop where parts are made (house assumption)."""

DEPTH_TOLERANCE_MM = 0.3
"""A cup comes out so much deeper or shallower than set (house assumption). [mm]"""

THICKNESS_TOLERANCE_MM = 0.2
"""A board is so much thicker or thinner than it is called (a maker's sheet for such boards, quoted). [mm]"""

POINT_MM = 2.5
"""A cup drill's point goes so much deeper than its cup (from memory; grind it where the skin is thin). [mm]"""


@dataclass(frozen=True)
class LeafCheck:
    """What there is to know of one leaf before it is made.

    Parameters
    ----------
    name, word : str
        In a sentence, such as "the left leaf"; and before a figure, such as "left": empty for a single leaf.
    size : LeafSize
    hanging : LeafHanging
        What it hangs on.
    number : HingeNumber
        How many hinges, and whether height or mass asks for them.
    load : HingeLoad
        What they carry.
    plate : PlateFit
        Arm and plate that bring the leaf to its lap, from those in common use.
    """

    name: str
    word: str
    size: LeafSize
    hanging: LeafHanging
    number: HingeNumber
    load: HingeLoad
    plate: PlateFit


@dataclass(frozen=True)
class FreeGap:
    """A gap at the free edge of one leaf, or between the free edges of two, through the year.

    Parameters
    ----------
    name : str
        "meeting gap", or the margin's name.
    leaves : tuple of int
        Leaves that it lies at, from the left, counted from 1.
    year : MarginYear, optional
        None where the book does not say how a board moves.
    """

    name: str
    leaves: tuple[int, ...]
    year: MarginYear | None


@dataclass(frozen=True)
class LeafChecks:
    """What there is to know of the leaves of a front before they are made.

    Parameters
    ----------
    leaves : tuple of LeafCheck
        From the left.
    skin : Skin
        What is left under the cups.
    too_near : tuple of str
        Holes that leave too little wood, each a sentence.
    swing : FrontSwing
        How far the leaves open.
    gaps : tuple of FreeGap
        Where leaves move with damp, from the left.
    unmoved : str
        The board of which the book does not say how it moves.
    """

    leaves: tuple[LeafCheck, ...]
    skin: Skin
    too_near: tuple[str, ...]
    swing: FrontSwing
    gaps: tuple[FreeGap, ...]
    unmoved: str

    @property
    def warnings(self) -> tuple[str, ...]:
        """Sentences about what is amiss; none where all is well."""
        results = [
            f"{leaf.name[:1].upper()}{leaf.name[1:]}: {remark}" if leaf.word else remark
            for leaf in self.leaves
            for remark in (leaf.load.remark, leaf.plate.remark)
            if remark
        ]
        results += [self.skin.remark] if self.skin.remark else []
        results += [*self.too_near, *self.swing.amiss]
        results += [str(remark) for gap in self.gaps if gap.year for remark in gap.year.remarks]
        return tuple(dict.fromkeys(results))


def leaf_checks(entry: OpeningPlan, book: Book, building: str) -> LeafChecks | None:
    """Look at the leaves of a front.

    Parameters
    ----------
    entry : OpeningPlan
    book : Book
    building : str
        How the building is kept, one of `BUILDINGS`.

    Returns
    -------
    LeafChecks or None
        None where the front is not set out or has no leaves.
    """
    swing = front_swing(entry, book)
    set_out = entry.set_out
    if swing is None or set_out is None:
        return None
    build_up = book.build_up(entry.build_up)
    leaf, hinge = book.board(build_up.leaf_board), book.hinge(build_up.hinge)
    lining = book.board(build_up.lining_board)
    unmoved = next((board.name for board in (leaf, lining) if board.moves_as is None), "")
    too_near = dict.fromkeys(answer for placed in set_out.parts for answer in _holes_too_near(placed.part))
    return LeafChecks(
        _each(set_out, book, hinge),
        _skin(leaf.thickness, hinge.cup_depth),
        tuple(too_near),
        swing,
        _gaps(set_out, leaf, lining, building),
        unmoved,
    )


def _each(set_out: SetOut, book: Book, hinge: HingeType) -> tuple[LeafCheck, ...]:
    """Every leaf by its own size, mass and hinges, on what it hangs on."""
    doors = _doors(set_out)
    hung = [hanging for hanging in hangings(set_out) if hanging.what is PartKind.DOOR]
    names, words = leaf_names(len(doors)), leaf_words(len(doors))
    results = []
    for name, word, size, door, hanging in zip(names, words, set_out.leaf_sizes, doors, hung, strict=True):
        height = size.left if size.side == "left" else size.right
        number = hinge_number(height.value, size.mass.high, table=book.hinge_counts, source=book.hinge_counts_source)
        apart = max(door.hinge_ys) - min(door.hinge_ys)
        load = hinge_load(size.mass, size.width.value, distance_mm=apart, count=size.hinges)
        results.append(LeafCheck(name, word, size, hanging, number, load, plate_for(hanging, hinge)))
    return tuple(results)


def plate_for(hanging: LeafHanging, hinge: HingeType) -> PlateFit:
    """Arm and plate for a leaf or a flap on what it hangs on, its cups bored where the book's hinge wants them."""
    return plate_fits(hanging.lap_mm, boring_distances=(hinge.cup_edge,), most=1)[0]


def _doors(set_out: SetOut) -> list[Body]:
    return [body for body in set_out.assembly.of(PartKind.DOOR) if body.side]


def _holes_too_near(part: Part) -> tuple[str, ...]:
    """Holes of a part that come too near to one another or to an edge, each a sentence that names the part."""
    return tuple(f"In the {part.kind} {clash}." for clash in hole_clashes(part))


@lru_cache(maxsize=64)
def _skin(thickness: float, depth: float) -> Skin:
    return skin_under(Spread(thickness, THICKNESS_TOLERANCE_MM), Spread(depth, DEPTH_TOLERANCE_MM), point_mm=POINT_MM)


def _gaps(set_out: SetOut, leaf: Board, lining: Board, building: str) -> tuple[FreeGap, ...]:
    """Hinges hold each hinge edge where it is, so what a leaf moves shows at its free edge.

    The head carries what two leaves hang on apart, or what a leaf hangs on from the leg at its free edge: only so much of it
    opens that gap.
    """
    doors = _doors(set_out)
    hung = [hanging for hanging in hangings(set_out) if hanging.what is PartKind.DOOR]
    legs = set_out.assembly.of(PartKind.LINING_LEG)
    beside = set_out.dimension(family_named(set_out.family).surround.beside)
    inner = (min(leg.across[1] for leg in legs), max(leg.across[0] for leg in legs))
    results: list[FreeGap] = []
    for n in range(len(doors) + 1):
        before, after = (doors[n - 1] if n else None), (doors[n] if n < len(doors) else None)
        moving = [k for k, door, side in ((n - 1, before, "left"), (n, after, "right")) if door and door.side == side]
        if not moving:
            continue
        if before and after:
            name, fitted = str(DimensionName.MEETING_GAP), after.face[0] - before.face[2]
        else:
            name, fitted = beside.name, beside.value
        held = (hung[n - 1].at_mm if before else inner[0], hung[n].at_mm if after else inner[1])
        widths = [doors[k].face[2] - doors[k].face[0] for k in moving]
        year = _year(round(fitted, 6), widths, held[1] - held[0], leaf, lining, building)
        results.append(FreeGap(name, tuple(k + 1 for k in moving), year))
    return tuple(results)


def _year(
    fitted_mm: float, widths_mm: Sequence[float], head_mm: float, leaf: Board, lining: Board, building: str
) -> MarginYear | None:
    if leaf.moves_as is None or lining.moves_as is None:
        return None
    return year_of_margin(
        fitted_mm,
        leaves=[Moving("leaf", width, board_travel(leaf.moves_as)) for width in widths_mm],
        carriers=[Moving(str(PartKind.LINING_HEAD), head_mm, board_travel(lining.moves_as))],
        made_in=MADE_IN,
        seasons=BUILDINGS[building],
    )
