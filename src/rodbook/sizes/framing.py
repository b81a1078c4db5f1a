"""Openings still to be framed: the framed size that a lining wants, and the spacers to frame to."""

from __future__ import annotations

from dataclasses import dataclass

from rodbook.working import Measure

__all__ = ["FramedSize", "framed_size"]


@dataclass(frozen=True)
class FramedSize:
    """What the framer leaves for a lining.

    Parameters
    ----------
    width : Measure
        Between the structural timbers. [mm]
    height : Measure
        From the structural floor, or the timber under a sill, to the timber over the opening. [mm]
    spacers : tuple of Measure
        Straight pieces cut once and held between the timbers while they are fixed: one for the width, one for the
        height. [mm]
    """

    width: Measure
    height: Measure
    spacers: tuple[Measure, ...]


def framed_size(
    outer_width: Measure,
    outer_height: Measure,
    *,
    packer: Measure,
    head_packer: Measure,
    reveal_board: Measure,
    floor_to_come: Measure,
    sill: bool = False,
    free: int = 0,
    end_panel: Measure | None = None,
) -> FramedSize:
    """Work out the framed size from the lining's outer size.

    Parameters
    ----------
    outer_width, outer_height : Measure
        Of the lining. [mm]
    packer, head_packer : Measure
        Packing wanted at each side and over the head. [mm]
    reveal_board : Measure
        Board fixed to the timbers before the lining goes in; 0 for none. [mm]
    floor_to_come : Measure
        Floor still to be laid over the structural floor. [mm]
    sill : bool
        A lining with a sill stands on a timber clear of the floor: board under it too, and no floor to come.
    free : int
        Sides that stand free: there is neither timber nor packing, and the width goes to the end panel's outer face.
    end_panel : Measure, optional
        Thickness of the panel at each free side. [mm]

    Returns
    -------
    FramedSize

    Examples
    --------
    >>> mm = Measure
    >>> framed_size(mm(930, "lining width"), mm(2128, "lining height"), packer=mm(10, "packer"),
    ...     head_packer=mm(12, "head packer"), reveal_board=mm(12.5, "reveal board"),
    ...     floor_to_come=mm(15, "floor to come")).width.working()
    'framed width = lining width 930.0 + 2 × packer 10.0 + 2 × reveal board 12.5 = 975.0'
    """
    framed = 2 - free
    width = outer_width
    if framed:
        width = width + (2 * packer if framed == 2 else packer)
    if free and end_panel is not None:
        width = width + (2 * end_panel if free == 2 else end_panel)
    height = outer_height + head_packer
    if reveal_board.value:
        if framed:
            width = width + (2 * reveal_board if framed == 2 else reveal_board)
        height = height + (2 * reveal_board if sill else reveal_board)
    if floor_to_come.value and not sill:
        height = height + floor_to_come
    width, height = width.named("framed width"), height.named("framed height")
    return FramedSize(width, height, (width.named("width spacer"), height.named("height spacer")))
