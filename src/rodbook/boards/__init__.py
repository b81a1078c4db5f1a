"""Parts to sheets and lengths: the layout engine and its face.

`lay_out` lays rectangles out on sheets, `cut_lengths` cuts sticks from bars; both as cheaply as they can find, with a
proven bound beside the cost. `cut_list` turns one layout into the cuts in the order in which they are made.
"""

from typing import TYPE_CHECKING

from rodbook.late import late_face

if TYPE_CHECKING:
    from rodbook.boards.checks.lengths import check_bar_plan
    from rodbook.boards.checks.sheets import check_sheet_plan
    from rodbook.boards.layout import lay_out
    from rodbook.boards.lengths import cut_lengths
    from rodbook.boards.models import (
        USABLE_OFFCUT_MM,
        Bar,
        BarPattern,
        BarPlan,
        Board,
        Filler,
        Layout,
        Offcut,
        Piece,
        Placed,
        Progress,
        Saw,
        Sheet,
        SheetPlan,
        Stick,
        StickCut,
        Unplaced,
    )
    from rodbook.boards.sheets.sequence import CutList, CutStep, cut_list
    from rodbook.boards.waste import fill_waste

__all__ = [
    "USABLE_OFFCUT_MM",
    "Bar",
    "BarPattern",
    "BarPlan",
    "Board",
    "CutList",
    "CutStep",
    "Filler",
    "Layout",
    "Offcut",
    "Piece",
    "Placed",
    "Progress",
    "Saw",
    "Sheet",
    "SheetPlan",
    "Stick",
    "StickCut",
    "Unplaced",
    "check_bar_plan",
    "check_sheet_plan",
    "cut_lengths",
    "cut_list",
    "fill_waste",
    "lay_out",
]

late_face(__name__)
