"""How far the leaves of a front open before they meet their own trim, each other, or what stands near.

All in plan, seen from above: x to the right from the opening's left side, y into the room from the wall's face, heights above
the finished floor.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass
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
    opening_order,
    swing,
    swing_picture,
)
from rodbook.job import Book, Opening
from rodbook.plan.model import OpeningPlan
from rodbook.plan.stages.side_by_side import LeafPair, pairs_of
from rodbook.setout import Body, PartKind, SetOut, Surround, family_named

__all__ = [
    "WANTED_DEG",
    "FrontSwing",
    "LeafSwing",
    "front_swing",
    "leaf_names",
    "leaf_words",
    "leaves_of",
    "own_frame",
    "path_of",
]

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
        short = [answer for answer, leaf in zip(self._of_leaves(), self.leaves, strict=True) if not leaf.swing.enough]
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
    doors = _doors(entry.set_out)
    if not doors:
        return None
    near = _near(entry.opening)
    # Only what stands near is placed from the opening's side; without it fronts alike open alike, and are kept as one.
    shift = (_opening_width(entry) - entry.set_out.outer_width.value) / 2 if near else 0.0
    leaves = tuple(_leaf(door, shift) for door in doors)
    return _opened(leaves, path_of(entry, book), own_frame(entry.set_out, shift), near, _planes(entry.opening))


def path_of(entry: OpeningPlan, book: Book) -> PathTable:
    """How the leaves of a front move: as common cup hinges do whose cups are bored where the book's hinge wants them."""
    build_up = book.build_up(entry.build_up)
    return cup_hinge_path(
        book.board(build_up.leaf_board).thickness, boring_distance_mm=book.hinge(build_up.hinge).cup_edge
    )


def leaves_of(entry: OpeningPlan, *, from_left_mm: float) -> tuple[Leaf, ...]:
    """The leaves of a front in plan, its lining's left outer face where it is given, y from the wall's face; from the left."""
    if entry.set_out is None:
        return ()
    return tuple(_leaf(door, from_left_mm) for door in _doors(entry.set_out))


def _doors(set_out: SetOut) -> tuple[Body, ...]:
    """The leaves of a front where they stand, from the left."""
    return tuple(body for body in set_out.assembly.of(PartKind.DOOR) if body.side)


def _opening_width(entry: OpeningPlan) -> float:
    """From side to side of the opening, as it stands or as it is to be boarded. [mm]"""
    if entry.rectangle is not None:
        return entry.rectangle.width.value
    assert entry.set_out is not None
    return entry.set_out.outer_width.value


_FRAME = {PartKind.LINING_LEG: "lining", PartKind.HINGE_LINING: "hinge lining", PartKind.TRIM_LEG: "trim"}
"""What stands beside the leaves of a front, and what it is called there."""


def own_frame(set_out: SetOut, shift: float) -> tuple[Obstacle, ...]:
    """What the front itself has beside its leaves, as high as they are: x from the opening's side, y from the wall's face."""
    if family_named(set_out.family).surround is Surround.NOTHING:
        return ()  # beside the leaf's edge there is only the edge that it laps, and its hinges are made to clear that
    bodies = [body for kind in _FRAME for body in set_out.assembly.of(kind)]
    leaf = min((door.deep[0] for door in _doors(set_out)), default=0.0)
    return tuple(
        block(f"the {body.side} {_FRAME[body.kind]}", _shifted(body.across, shift), _shifted(body.deep, 0.0), own=True)
        for body in bodies
        if body.deep[1] > leaf or leaf >= 0  # a hinge lining behind an inset leaf is never met
    )


def _shifted(ends: tuple[float, float], by: float) -> tuple[float, float]:
    return round(ends[0] + by, 6), round(ends[1] + by, 6)


def _near(opening: Opening) -> tuple[Obstacle, ...]:
    return tuple(
        block(
            f"the {o.name}",
            (o.left, o.left + o.width),
            (o.away, o.out),
            bottom=o.bottom,
            top=BOXED_IN_TOP_MM if o.top is None else o.top,
        )
        for o in opening.obstacles
    )


def _planes(opening: Opening) -> tuple[SlopingPlane, ...]:
    if opening.ceiling is None:
        return ()
    return (SlopingPlane("the ceiling", "ceiling", opening.ceiling.height, slope_y=-opening.ceiling.fall / 1000),)


@lru_cache(maxsize=512)
def _opened(
    leaves: tuple[Leaf, ...],
    path: PathTable,
    frame: tuple[Obstacle, ...],
    near: tuple[Obstacle, ...],
    planes: tuple[SlopingPlane, ...],
) -> FrontSwing:
    """Swings of a front, kept by its geometry: x from the opening's left side, y from the wall's face."""
    around = [*frame, *near]
    results: list[LeafSwing] = []
    for number, leaf in enumerate(leaves):
        others = [
            Obstacle("the next leaf", other.standing(path, 0.0), other.bottom, other.top)
            for n, other in enumerate(leaves)
            if n != number
        ]
        opened = swing(leaf, path, [*around, *others], planes=planes, wanted_deg=WANTED_DEG)
        results.append(
            LeafSwing(leaf.hand, opened, swing_picture(leaf, path, min(opened.free_deg, path.stop_deg), around))
        )
    order = _order(leaves, path, around, planes)
    several = len(leaves) > 2  # the order of a pair says the same, with what stands around it
    pairs = pairs_of(leaves, leaf_names(len(leaves)), path, wanted_deg=WANTED_DEG) if several else ()
    return FrontSwing(tuple(results), order, pairs)


def _order(
    leaves: Sequence[Leaf], path: Path, around: Sequence[Obstacle], planes: Sequence[SlopingPlane]
) -> OpeningOrder | None:
    """The order of a pair whose leaves hang on either side."""
    if len(leaves) != 2 or (leaves[0].hand, leaves[1].hand) != ("left", "right"):
        return None
    return opening_order(
        *leaves, left_path=path, right_path=path, obstacles=around, planes=planes, wanted_deg=WANTED_DEG
    )


def _leaf(door: Body, shift: float) -> Leaf:
    hand: Literal["left", "right"] = "left" if door.side == "left" else "right"
    left, foot, right, top = door.face
    back, front = door.deep
    corner = shift + (left if hand == "left" else right)
    return Leaf(right - left, front - back, hand, (corner, front), foot, top)
