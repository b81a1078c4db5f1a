"""Leaves: their sizes from the clear size, the way back from a wanted leaf, and the leaves as parts."""

from __future__ import annotations

from collections.abc import Sequence

from rodbook.hinges import cup_borings
from rodbook.job.book import AnyBuildUp, Board, HingeType
from rodbook.job.kinds import PartKind
from rodbook.setout.cuts import Side
from rodbook.setout.edges import seen_edges
from rodbook.setout.model import Part, Placed
from rodbook.working import Measure

__all__ = [
    "clear_for_inset",
    "clear_for_lay_on",
    "hinge_sides",
    "inset_leaf",
    "lay_on_leaf",
    "leaf_block",
    "leaf_parts",
]


def inset_leaf(clear: Measure, *, leaves: int, margins: Measure, meeting_gap: Measure) -> Measure:
    r"""Width of a leaf within its lining.

    Parameters
    ----------
    clear : Measure
        Clear width. [mm]
    leaves : int
        How many, >= 1.
    margins : Measure
        At each side. [mm]
    meeting_gap : Measure
        Between two leaves. [mm]

    Notes
    -----
    .. math:: w = (c - 2m - (n - 1) g) / n

    Examples
    --------
    >>> print(inset_leaf(Measure(842, "clear width"), leaves=2, margins=Measure(3, "margin"),
    ...     meeting_gap=Measure(3, "meeting gap")).working())
    leaf width = (clear width 842.0 − 2 × margin 3.0 − 1 × meeting gap 3.0) ÷ 2 = 416.5
    """
    width = clear - 2 * margins
    if leaves > 1:
        width = (width - (leaves - 1) * meeting_gap) / leaves
    return width.named("leaf width")


def lay_on_leaf(clear: Measure, *, leaves: int, lap: Measure, meeting_gap: Measure) -> Measure:
    r"""Width of a leaf that lies over its lining's edges.

    Parameters
    ----------
    clear : Measure
        Clear width inside what carries the leaves. [mm]
    leaves : int
        How many, >= 1.
    lap : Measure
        Over the edge at each side. [mm]
    meeting_gap : Measure
        Between two leaves. [mm]

    Notes
    -----
    .. math:: w = (c + 2o - (n - 1) g) / n

    Examples
    --------
    >>> print(lay_on_leaf(Measure(880, "clear width"), leaves=2, lap=Measure(10, "lap"),
    ...     meeting_gap=Measure(4, "meeting gap")).working())
    leaf width = (clear width 880.0 + 2 × lap 10.0 − 1 × meeting gap 4.0) ÷ 2 = 448.0
    """
    width = clear + 2 * lap
    if leaves > 1:
        width = (width - (leaves - 1) * meeting_gap) / leaves
    return width.named("leaf width")


def leaf_block(leaf_width: Measure, *, leaves: int, meeting_gap: Measure) -> Measure:
    """Width over all leaves and the gaps between them. [mm]"""
    if leaves == 1:
        return leaf_width.named("leaf block")
    return (leaves * leaf_width + (leaves - 1) * meeting_gap).named("leaf block")


def clear_for_inset(leaf: Measure, *, leaves: int, margins: Measure, meeting_gap: Measure) -> Measure:
    """Clear width that gives a wanted leaf: `inset_leaf` the other way round. [mm]"""
    width = leaves * leaf + 2 * margins if leaves > 1 else leaf + 2 * margins
    if leaves > 1:
        width = width + (leaves - 1) * meeting_gap
    return width.named("clear width")


def clear_for_lay_on(leaf: Measure, *, leaves: int, lap: Measure, meeting_gap: Measure) -> Measure:
    """Clear width that gives a wanted leaf: `lay_on_leaf` the other way round. [mm]"""
    width = leaves * leaf - 2 * lap if leaves > 1 else leaf - 2 * lap
    if leaves > 1:
        width = width + (leaves - 1) * meeting_gap
    return width.named("clear width")


def hinge_sides(leaves: int, hand: Side) -> tuple[Side, ...]:
    """Which side each leaf hangs on, from the left: the outer ones outside, the middle one of three by `hand`.

    Four are two pairs: the two in the middle hang back to back on the division between them.

    >>> hinge_sides(3, "right"), hinge_sides(4, "left")
    (('left', 'right', 'right'), ('left', 'right', 'left', 'right'))
    """
    if leaves == 4:
        return ("left", "right", "left", "right")
    return {1: (hand,), 2: ("left", "right"), 3: ("left", hand, "right")}[leaves]  # type: ignore[return-value]


def leaf_parts(
    build_up: AnyBuildUp,
    board: Board,
    hinge: HingeType,
    *,
    widths: Sequence[Measure],
    height: Measure,
    heights: Sequence[Sequence[Measure]],
    sides: Sequence[Side],
) -> tuple[Placed, ...]:
    """The leaves of one opening as parts, those of one width and hung on the same side together.

    Parameters
    ----------
    build_up, board, hinge
        From the book.
    widths : sequence of Measure
        Of each leaf. [mm]
    height : Measure
        Of all of them. [mm]
    heights : sequence of sequence of Measure
        Hinge centres from each leaf's top. [mm]
    sides : sequence of str
        The side each leaf hangs on, seen from the front.
    """
    thickness = Measure(board.thickness, "leaf thickness", source="book")
    placed: list[Placed] = []
    if not heights:
        return ()
    for side in ("left", "right"):
        seen_from_back: Side = "right" if side == "left" else "left"
        hung = [(width, ys) for width, ys, own in zip(widths, heights, sides, strict=True) if own == side]
        for value in dict.fromkeys(width.value for width, _ in hung):
            alike = [(width, ys) for width, ys in hung if width.value == value]
            width, ys = alike[0]
            part = Part(
                PartKind.DOOR,
                board.name,
                sectional=False,
                length=height,
                width=width,
                thickness=thickness,
                grain=board.grain,
                edges=seen_edges(PartKind.DOOR),
                borings=cup_borings(hinge, ys, width, edge=seen_from_back),
                bored_face="back",
                hand=side,
                finish=build_up.finish,
                coats=build_up.coats,
            )
            placed.append(Placed(part, len(alike)))
    return tuple(placed)
