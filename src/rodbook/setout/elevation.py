"""Where each part of a front stands when it is looked at from the room."""

from __future__ import annotations

from dataclasses import dataclass

from rodbook.job.kinds import PartKind
from rodbook.setout.asked import Frame
from rodbook.setout.linings import Clear
from rodbook.setout.model import Element
from rodbook.setout.widths import LeafRow
from rodbook.working import Measure

__all__ = ["Outline", "division_places", "elements"]


@dataclass(frozen=True)
class Outline:
    """What the elevation is drawn from. [mm]

    Parameters
    ----------
    frame : Frame
    lining : float
        Thickness of the lining.
    clear : Clear
    row : LeafRow
    leaf_height : float
    division : int
        Boards in the division between leaves; 0 for none.
    leaf_top : float
        Above the finished floor.
    hinges : tuple of tuple of float
        From each leaf's top; empty where there are no leaves.
    trim : float
        Face width of the trim; 0 for none.
    sight : tuple of Measure, optional
        Sight size inside the trim.
    hinge_lining : float
        Thickness of the hinge linings; 0 for none.
    trim_joint : str
    sight_foot : float
        Lower edge of the sight above the floor.
    head_over : bool
        Whether the lining's head lies over its legs.
    """

    frame: Frame
    lining: float
    clear: Clear
    row: LeafRow
    leaf_height: float
    division: int
    leaf_top: float
    hinges: tuple[tuple[float, ...], ...]
    trim: float
    sight: tuple[Measure, Measure] | None
    hinge_lining: float
    trim_joint: str
    sight_foot: float = 0.0
    head_over: bool = False


def elements(outline: Outline) -> tuple[Element, ...]:
    """The rectangles of an elevation, back to front. Mitred trims are drawn as the legs between the heads."""
    frame, t = outline.frame, outline.lining
    width, height = frame.width.value, frame.height.value
    floor = t if frame.sill else 0.0
    clear_width, clear_height = outline.clear.width.value, outline.clear.height.value
    leg, head = (height - t, (0.0, width)) if outline.head_over else (height, (t, clear_width))
    results = [
        Element(PartKind.LINING_LEG, 0.0, 0.0, t, leg),
        Element(PartKind.LINING_LEG, width - t, 0.0, t, leg),
        Element(PartKind.LINING_HEAD, head[0], height - t, head[1], t),
    ]
    if frame.sill:
        results.append(Element(PartKind.LINING_SILL, t, 0.0, clear_width, t))
    if outline.hinge_lining:
        thick = outline.hinge_lining
        results += [Element(PartKind.HINGE_LINING, x, floor, thick, clear_height) for x in (t, width - t - thick)]
    row = outline.row
    lefts = row.starts((width - row.block.value) / 2)
    if outline.division:
        results += [
            Element(PartKind.DIVISION, t + place.value, floor, t, clear_height)
            for place in division_places(row, outline.clear.width, Measure(t, "lining thickness"), outline.division)
        ]
    if outline.sight and outline.trim:
        results += _trim(outline, outline.sight[0].value, outline.sight[1].value)
    top = outline.leaf_top
    if not outline.hinges:
        return tuple(results)
    for number, (left, own, side, hinges) in enumerate(
        zip(lefts, row.widths, row.sides, outline.hinges, strict=True), 1
    ):
        results.append(
            Element(
                PartKind.DOOR,
                left,
                top - outline.leaf_height,
                own.value,
                outline.leaf_height,
                label=f"leaf {number}",
                hinge_side=side,
                hinge_ys=tuple(top - y for y in hinges),
            )
        )
    return tuple(results)


def division_places(row: LeafRow, clear_width: Measure, thickness: Measure, boards: int) -> tuple[Measure, ...]:
    """Left face of each board of the division, from the inside of the left-hand leg: its middle is that of a gap. [mm]

    Parameters
    ----------
    row : LeafRow
    clear_width, thickness : Measure
        Of the linings. [mm]
    boards : int
        In the division; 0 for none.
    """
    if not boards:
        return ()
    at = ((clear_width - row.block) / 2).named("first leaf from the left leg's inside")
    for width in row.widths[: _joint(row)]:
        at = at + width
    gaps = _joint(row) - 1
    middle = (at + gaps * row.gap + row.gap / 2 if gaps else at + row.gap / 2).named(
        "middle of the gap over the division"
    )
    half = boards * thickness / 2 if boards > 1 else thickness / 2
    first = middle - half
    if boards == 1:
        return (first.named("division from the left leg's inside"),)
    return tuple(
        (first + n * thickness if n else first).named(f"board {n + 1} of the division from the left leg's inside")
        for n in range(boards)
    )


def _joint(row: LeafRow) -> int:
    """Number of the leaf to the right of the division: beside the leaf that hangs on it, or in the middle."""
    if len(row.widths) == 3:
        return 1 if row.sides[1] == "left" else 2
    return len(row.widths) // 2


def _trim(outline: Outline, sight_width: float, sight_height: float) -> list[Element]:
    trim, foot = outline.trim, outline.sight_foot
    left = (outline.frame.width.value - sight_width) / 2
    right, top = left + sight_width, foot + sight_height
    results = [
        Element(PartKind.TRIM_LEG, left - trim, foot, trim, sight_height),
        Element(PartKind.TRIM_LEG, right, foot, trim, sight_height),
        Element(PartKind.TRIM_HEAD, left - trim, top, sight_width + 2 * trim, trim),
    ]
    if outline.frame.sill:
        results.append(Element(PartKind.TRIM_HEAD, left - trim, foot - trim, sight_width + 2 * trim, trim))
    return results
