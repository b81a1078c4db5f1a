"""Before a leaf is cut: what asks for its hinges and what they carry, whether cups come through, what damp does to margins.

Each answer is worked out when somebody looks at it, from the front as it is set out; nothing here changes a size.
"""

from __future__ import annotations

from dataclasses import dataclass
from functools import lru_cache

from rodbook.accuracy import BUILDINGS, Air, MarginYear, board_travel, year_of_margin
from rodbook.accuracy import Piece as Moving
from rodbook.hinges import (
    FaceHole,
    HingeLoad,
    HingeNumber,
    PartSize,
    PlateFit,
    Skin,
    Spread,
    clashes,
    hinge_load,
    hinge_number,
    plate_fits,
    skin_under,
)
from rodbook.job import AnyBuildUp, Book, LayOnBuildUp, PlainLayOnBuildUp
from rodbook.job.book import Board
from rodbook.plan.model import OpeningPlan
from rodbook.plan.swings import FrontSwing, front_swing
from rodbook.setout import Part, PartKind, SetOut

__all__ = [
    "DEPTH_TOLERANCE_MM", "MADE_IN", "POINT_MM", "THICKNESS_TOLERANCE_MM", "LeafChecks", "hinge_lap", "leaf_checks",
]  # fmt: skip

MADE_IN = Air("as made", 45, 20)
"""The air of the workshop where parts are made (house assumption)."""

DEPTH_TOLERANCE_MM = 0.3
"""A cup comes out so much deeper or shallower than set (house assumption). [mm]"""

THICKNESS_TOLERANCE_MM = 0.2
"""A board is so much thicker or thinner than it is called (a maker's sheet for such boards, quoted). [mm]"""

POINT_MM = 2.5
"""A cup drill's point goes so much deeper than its cup (from memory; grind it where the skin is thin). [mm]"""


@dataclass(frozen=True)
class LeafChecks:
    """What there is to know of the leaves of a front before they are made.

    Parameters
    ----------
    number : HingeNumber
        How many hinges, and whether height or mass asks for them.
    load : HingeLoad
        What they carry.
    skin : Skin
        What is left under the cups.
    plate : PlateFit
        Arm and plate that bring the leaf to its lap, from those in common use.
    lap_mm : float
        That lap; below nought for a leaf that stands beside what carries it. [mm]
    too_near : tuple of str
        Holes that leave too little wood, each a sentence.
    swing : FrontSwing
        How far the leaves open.
    year : MarginYear, optional
        The margin at the leaf's free edge through the year; None where the book does not say how a board moves.
    margin : str
        Which margin that is.
    unmoved : str
        The board of which the book does not say it.
    """

    number: HingeNumber
    load: HingeLoad
    skin: Skin
    plate: PlateFit
    lap_mm: float
    too_near: tuple[str, ...]
    swing: FrontSwing
    year: MarginYear | None
    margin: str
    unmoved: str

    @property
    def warnings(self) -> tuple[str, ...]:
        """Sentences about what is amiss; none where all is well."""
        found = [remark for remark in (self.load.remark, self.skin.remark, self.plate.remark) if remark]
        found += [*self.too_near, *self.swing.amiss]
        return (*found, *(self.year.remarks if self.year else ()))


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
    number = hinge_number(
        set_out.leaf_height.value, set_out.leaf_mass.high, table=book.hinge_counts, source=book.hinge_counts_source
    )  # fmt: skip
    apart = _hinges_apart(set_out)
    load = hinge_load(set_out.leaf_mass, set_out.leaf_width.value, distance_mm=apart, count=set_out.hinges)
    skin = _skin(leaf.thickness, hinge.cup_depth)
    lining = book.board(build_up.lining_board)
    unmoved = next((board.name for board in (leaf, lining) if board.moves_as is None), "")
    year = None if unmoved else _year(set_out, leaf, lining, building)
    lap = hinge_lap(set_out, build_up)
    plate = plate_fits(lap, boring_distances=(hinge.cup_edge,), most=1)[0]
    too_near = tuple(said for placed in set_out.parts for said in _holes_too_near(placed.part))
    return LeafChecks(number, load, skin, plate, lap, too_near, swing, year, _free_margin(set_out), unmoved)


def _hinges_apart(set_out: SetOut) -> float:
    """Least distance of the first to the last hinge of any leaf: under a raked head its hinge side may be the low one. [mm]"""
    doors = (e for e in set_out.elements if e.kind is PartKind.DOOR and e.hinge_ys)
    return min(max(door.hinge_ys) - min(door.hinge_ys) for door in doors)


def hinge_lap(set_out: SetOut, build_up: AnyBuildUp) -> float:
    """How far a leaf lies over the edge of what carries its plates; minus its margin where it stands beside it. [mm]"""
    for measure in set_out.dimensions:
        if measure.name == "lap of the leaf over the hinge lining":
            return measure.value
    if isinstance(build_up, PlainLayOnBuildUp):
        return set_out.dimension("lap over each leg").value
    return build_up.lap if isinstance(build_up, LayOnBuildUp) else -set_out.gaps[0].value


@lru_cache(maxsize=256)
def _holes_too_near(part: Part) -> tuple[str, ...]:
    """Holes of a part that come too near to one another or to an edge, each a sentence that names the part."""
    holes = [
        FaceHole(f"{boring.kind} {n}", boring.x.value, boring.y.value, boring.diameter, boring.depth)
        for n, boring in enumerate(part.borings, 1)
    ]
    size = PartSize(part.width.value, part.length.value, part.thickness.value)
    return tuple(f"In the {part.kind} {clash}." for clash in clashes(size, holes)) if holes else ()


@lru_cache(maxsize=64)
def _skin(thickness: float, depth: float) -> Skin:
    return skin_under(Spread(thickness, THICKNESS_TOLERANCE_MM), Spread(depth, DEPTH_TOLERANCE_MM), point_mm=POINT_MM)


def _free_margin(set_out: SetOut) -> str:
    """The gap at the free edges: between two leaves where there are any, else beside the one."""
    return "meeting gap" if set_out.leaves > 1 else set_out.gaps[0].name


def _year(set_out: SetOut, leaf: Board, lining: Board, building: str) -> MarginYear:
    """Hinges hold the hinge edge, so what a leaf moves shows at its free edge; the head carries the sides apart."""
    assert leaf.moves_as is not None
    assert lining.moves_as is not None
    return year_of_margin(
        set_out.dimension(_free_margin(set_out)).value,
        leaves=[Moving("leaf", set_out.leaf_width.value, board_travel(leaf.moves_as), min(set_out.leaves, 2))],
        carriers=[Moving(str(PartKind.LINING_HEAD), set_out.clear_width.value, board_travel(lining.moves_as))],
        made_in=MADE_IN,
        seasons=BUILDINGS[building],
    )
