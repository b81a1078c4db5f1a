"""How far the leaves of a front open before they meet their own trim, each other, or what stands near.

All in plan, seen from above: x to the right from the opening's left side, y into the room from the wall's face, heights above
the finished floor.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass, replace
from functools import lru_cache
from typing import Literal

from rodbook.hinges.swing import (
    Leaf,
    Obstacle,
    OpeningOrder,
    Path,
    PathTable,
    SlopingPlane,
    Swing,
    SwingPicture,
    block,
    cup_hinge_path,
    inset_frame,
    lay_on_frame,
    opening_order,
    swing,
    swing_picture,
)
from rodbook.job import AnyBuildUp, Book, InsetBuildUp, LayOnBuildUp, Opening
from rodbook.plan.model import OpeningPlan
from rodbook.plan.stages.side_by_side import LeafPair, pairs_of
from rodbook.setout import Element, PartKind, SetOut

__all__ = ["WANTED_DEG", "FrontSwing", "LeafSwing", "front_swing", "leaf_names", "leaf_words", "leaves_of", "path_of"]

WANTED_DEG = 90.0
"""A leaf should open at least square to the front, so that shelves and drawers come out past it (common practice)."""

BOXED_IN_TOP_MM = math.inf
"""Where no top of an obstacle is given it goes right up."""


@dataclass(frozen=True)
class LeafSwing:
    """One leaf: its side, how far it opens with the others closed, and the geometry for its picture."""

    hand: str
    swing: Swing
    picture: SwingPicture


@dataclass(frozen=True)
class FrontSwing:
    """The leaves of one front, from the left, and the order in which a pair opens.

    Parameters
    ----------
    leaves : tuple of LeafSwing
    order : OpeningOrder, optional
        For two leaves.
    pairs : tuple of LeafPair
        Of three leaves and more every two neighbours, swept at independent angles.
    """

    leaves: tuple[LeafSwing, ...]
    order: OpeningOrder | None
    pairs: tuple[LeafPair, ...] = ()

    @property
    def enough(self) -> bool:
        """Whether every leaf opens as far as is wanted, each in its turn."""
        if any(pair.swept.first == "neither" for pair in self.pairs):
            return False
        return all(leaf.swing.enough for leaf in self.leaves) or (
            self.order is not None and self.order.first != "neither"
        )

    @property
    def amiss(self) -> tuple[str, ...]:
        """Sentences about leaves that do not open as far as is wanted, and about an order that has to be kept."""
        short = [said for said, leaf in zip(self._of_leaves(), self.leaves, strict=True) if not leaf.swing.enough]
        if not short and self.order is not None and self.order.first != "either":
            return (str(self.order),)
        return (*short, *(str(pair) for pair in self.pairs if pair.amiss))

    @property
    def sentences(self) -> tuple[str, ...]:
        """How each leaf opens, and the order of a pair where it matters."""
        ordered = self.order is not None and self.order.first in ("left", "right")
        pairs = tuple(str(pair) for pair in self.pairs if pair.worth_saying)
        return (*self._of_leaves(), *((str(self.order),) if ordered else ()), *pairs)

    def _of_leaves(self) -> tuple[str, ...]:
        names = leaf_names(len(self.leaves))
        return tuple(leaf.swing.said(name) for name, leaf in zip(names, self.leaves, strict=True))


def leaf_names(count: int) -> tuple[str, ...]:
    """What the leaves of a front are called in a sentence, from the left.

    >>> leaf_names(1), leaf_names(3)
    (('the leaf',), ('the left leaf', 'the middle leaf', 'the right leaf'))
    >>> leaf_names(4)[3]
    'leaf 4 from the left'
    """
    few = {
        1: ("the leaf",),
        2: ("the left leaf", "the right leaf"),
        3: ("the left leaf", "the middle leaf", "the right leaf"),
    }
    return few.get(count) or tuple(f"leaf {n} from the left" for n in range(1, count + 1))


def leaf_words(count: int) -> tuple[str, ...]:
    """The same before a figure: empty for a single leaf.

    >>> leaf_words(2), leaf_words(4)
    (('left', 'right'), ('leaf 1', 'leaf 2', 'leaf 3', 'leaf 4'))
    """
    few = {1: ("",), 2: ("left", "right"), 3: ("left", "middle", "right")}
    return few.get(count) or tuple(f"leaf {n}" for n in range(1, count + 1))


def front_swing(entry: OpeningPlan, book: Book) -> FrontSwing | None:
    """Open the leaves of a front.

    Parameters
    ----------
    entry : OpeningPlan
    book : Book
        For the build-up, its boards and its trim.

    Returns
    -------
    FrontSwing or None
        None where the front is not set out or has no leaves.
    """
    if entry.set_out is None:
        return None
    doors = tuple(e for e in entry.set_out.elements if e.kind is PartKind.DOOR and e.hinge_side)
    if not doors:
        return None
    build_up = book.build_up(entry.build_up)
    thickness = book.board(build_up.leaf_board).thickness
    near = _near(entry.opening)
    # Only what stands near is placed from the opening's side; without it fronts alike open alike, and are kept as one.
    shift = (_opening_width(entry) - entry.set_out.outer_width.value) / 2 if near else 0.0
    face = 0.0 if isinstance(build_up, InsetBuildUp) else thickness
    frame = _frame(entry.set_out, build_up, book, thickness)
    return _opened(doors, thickness, path_of(entry, book), shift, face, frame, near, _planes(entry.opening))


def path_of(entry: OpeningPlan, book: Book) -> PathTable:
    """How the leaves of a front move: as common cup hinges do whose cups are bored where the book's hinge wants them."""
    build_up = book.build_up(entry.build_up)
    return cup_hinge_path(
        book.board(build_up.leaf_board).thickness, boring_distance_mm=book.hinge(build_up.hinge).cup_edge
    )  # fmt: skip


def leaves_of(entry: OpeningPlan, book: Book, *, from_left_mm: float) -> tuple[Leaf, ...]:
    """The leaves of a front in plan, its lining's left outer face where it is given, y from the wall's face; from the left."""
    if entry.set_out is None:
        return ()
    build_up = book.build_up(entry.build_up)
    thickness = book.board(build_up.leaf_board).thickness
    face = 0.0 if isinstance(build_up, InsetBuildUp) else thickness
    doors = [e for e in entry.set_out.elements if e.kind is PartKind.DOOR and e.hinge_side]
    return tuple(_leaf(door, thickness, from_left_mm, face) for door in doors)


def _opening_width(entry: OpeningPlan) -> float:
    """From side to side of the opening, as it stands or as it is to be boarded. [mm]"""
    if entry.rectangle is not None:
        return entry.rectangle.width.value
    assert entry.set_out is not None
    return entry.set_out.outer_width.value


def _frame(set_out: SetOut, build_up: AnyBuildUp, book: Book, thickness: float) -> tuple[Obstacle, ...]:
    """Lining and trim around the leaves; x from the first leaf's left edge, y from the leaves' face."""
    doors = [e for e in set_out.elements if e.kind is PartKind.DOOR]
    front = max(d.x + d.width for d in doors) - min(d.x for d in doors)
    section = book.section(build_up.trim) if build_up.trim else None
    trim = (section.width, section.thickness) if section else None
    lining = book.board(build_up.lining_board).thickness
    if isinstance(build_up, InsetBuildUp):
        return inset_frame(
            front, margins=min(d.x for d in doors) - lining, lining_thickness=lining, lining_depth=build_up.lining_depth,
            trim=trim, trim_set_back=build_up.trim_set_back,
        )  # fmt: skip
    if not isinstance(build_up, LayOnBuildUp):
        return ()  # without trim nothing stands beside the leaf's edge
    return lay_on_frame(
        front, leaf_thickness=thickness, lap=build_up.lap, margins=build_up.margin, lining_thickness=lining,
        lining_depth=build_up.lining_depth, trim=trim or (0.0, 0.0),
    ) if trim else ()  # fmt: skip


def _near(opening: Opening) -> tuple[Obstacle, ...]:
    return tuple(
        block(
            f"the {o.name}", (o.left, o.left + o.width), (o.away, o.out), bottom=o.bottom,
            top=BOXED_IN_TOP_MM if o.top is None else o.top,
        )
        for o in opening.obstacles
    )  # fmt: skip


def _planes(opening: Opening) -> tuple[SlopingPlane, ...]:
    if opening.ceiling is None:
        return ()
    return (SlopingPlane("the ceiling", "ceiling", opening.ceiling.height, slope_y=-opening.ceiling.fall / 1000),)


@lru_cache(maxsize=512)
def _opened(
    doors: tuple[Element, ...],
    thickness: float,
    path: PathTable,
    shift: float,
    face: float,
    frame: tuple[Obstacle, ...],
    near: tuple[Obstacle, ...],
    planes: tuple[SlopingPlane, ...],
) -> FrontSwing:
    """Swings of a front, kept by its geometry: x from the opening's left side, y from the wall's face."""
    first = shift + min(d.x for d in doors)
    around = [*(_moved(o, first, face) for o in frame), *near]
    leaves = [_leaf(d, thickness, shift, face) for d in doors]
    found: list[LeafSwing] = []
    for number, leaf in enumerate(leaves):
        others = [
            Obstacle("the next leaf", other.standing(path, 0.0), other.bottom, other.top)
            for n, other in enumerate(leaves)
            if n != number
        ]
        opened = swing(leaf, path, [*around, *others], planes=planes, wanted_deg=WANTED_DEG)
        found.append(
            LeafSwing(leaf.hand, opened, swing_picture(leaf, path, min(opened.free_deg, path.stop_deg), around))
        )
    order = _order(leaves, path, around, planes)
    several = len(leaves) > 2  # the order of a pair says the same, with what stands around it
    pairs = pairs_of(leaves, leaf_names(len(leaves)), path, wanted_deg=WANTED_DEG) if several else ()
    return FrontSwing(tuple(found), order, pairs)


def _order(
    leaves: Sequence[Leaf], path: Path, around: Sequence[Obstacle], planes: Sequence[SlopingPlane]
) -> OpeningOrder | None:
    """The order of a pair whose leaves hang on either side."""
    if len(leaves) != 2 or (leaves[0].hand, leaves[1].hand) != ("left", "right"):
        return None
    return opening_order(
        *leaves, left_path=path, right_path=path, obstacles=around, planes=planes, wanted_deg=WANTED_DEG
    )  # fmt: skip


def _leaf(door: Element, thickness: float, shift: float, face: float) -> Leaf:
    hand: Literal["left", "right"] = "left" if door.hinge_side == "left" else "right"
    corner = shift + door.x + (0.0 if hand == "left" else door.width)
    return Leaf(door.width, thickness, hand, (corner, face), door.y, door.y + door.height)


def _moved(obstacle: Obstacle, x: float, y: float) -> Obstacle:
    return replace(obstacle, outline=tuple((px + x, py + y) for px, py in obstacle.outline))
