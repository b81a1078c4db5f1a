"""The face of what fills waste: check what was asked, fill what a plan leaves over, check what was found."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from decimal import Decimal

from rodbook.boards.asked.inputs import check_sheets_input
from rodbook.boards.checks.sheets import check_sheet_plan
from rodbook.boards.models import Filler, Piece, Saw, Sheet, SheetPlan
from rodbook.boards.sheets.fillers import filled_layouts
from rodbook.errors import RodbookError

__all__ = ["fill_waste"]


def fill_waste(
    plan: SheetPlan,
    pieces: Sequence[Piece],
    sheets: Sequence[Sheet],
    saw: Saw | None = None,
    fillers: Sequence[Filler] = (),
) -> SheetPlan:
    """Cut what other jobs could use from what a plan leaves over; its own pieces stay where they are.

    Parameters
    ----------
    plan : SheetPlan
        As `lay_out` gave it, without fillers.
    pieces : sequence of Piece
    sheets : sequence of Sheet
    saw : Saw
        What `lay_out` was asked.
    fillers : sequence of Filler
        What could be used, in the order in which like worths are taken.

    Returns
    -------
    SheetPlan
        The same plan with the fillers among the pieces placed, and what they are worth. A layout of many sheets comes apart
        where some of them are filled otherwise.

    Raises
    ------
    InputError
        If anything given is wrong; with every fault.
    RodbookError
        If what comes out fails the independent check, which is an error of Rodbook's own.
    """
    saw = Saw() if saw is None else saw
    check_sheets_input(pieces, sheets, saw, seconds=1, seed=0, fillers=fillers)
    if not fillers:
        return plan
    layouts = filled_layouts(plan.layouts, saw, fillers)
    worth = {filler.name: filler.worth for filler in fillers}
    total = sum((worth[p.name] * x.count for x in layouts for p in x.placed if p.name in worth), Decimal(0))
    result = replace(plan, layouts=layouts, fillers_worth=total)
    faults = check_sheet_plan(result, pieces, sheets, saw, fillers)
    if faults:
        raise RodbookError("boards.layout_not_valid", faults=faults[:5])
    return result
