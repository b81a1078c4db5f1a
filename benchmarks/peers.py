"""Other ways to lay out, run in the same way: general-purpose libraries, for comparison only.

They are not needed to run Rodbook; ``uv sync --group bench`` or ``pip install packingsolver rectpack ortools`` brings
them. What each gives is the cost of the sheets it used, and the bound it states where it states one.
"""

from __future__ import annotations

from collections.abc import Sequence

from rodbook.boards import Piece, Saw, Sheet
from rodbook.boards.asked.task import task_of

__all__ = ["by_packingsolver", "by_rectpack"]


def by_packingsolver(
    pieces: Sequence[Piece], sheets: Sequence[Sheet], saw: Saw, seconds: float
) -> tuple[float | None, float | None]:
    """Cost and bound from packingsolver: three stages and a trimming cut, first cuts either way."""
    import packingsolver.rectangleguillotine as rg

    task = task_of(pieces, sheets, saw)
    builder = rg.InstanceBuilder()
    alike = len(sheets) == 1 and sheets[0].quantity is None
    builder.set_objective(rg.Objective.BinPacking if alike else rg.Objective.VariableSizedBinPacking)
    total = sum(kind.quantity for kind in task.kinds)
    for stock in task.stocks:
        copies = total if stock.quantity is None else stock.quantity
        builder.add_bin_type(stock.length, stock.width, cost=max(stock.price, 1e-6), copies=copies)
    for kind in task.kinds:
        builder.add_item_type(kind.length, kind.width, copies=kind.quantity, oriented=not kind.may_turn)
    builder.set_number_of_stages(3)
    builder.set_cut_type(rg.CutType.NonExact)
    builder.set_first_stage_orientation(rg.CutOrientation.Any)
    parameters = rg.OptimizeParameters()
    parameters.time_limit = seconds
    parameters.verbosity_level = 0
    parameters.log_to_stderr = False
    output = rg.optimize(builder.build(), parameters)
    solution = output.solution
    if not solution.full():
        return None, None
    unit = 10**task.scale.places
    if alike:
        price = float(sheets[0].price)
        return solution.number_of_bins() * price, output.bin_packing_bound * price
    cost = sum(task.stocks[s].price * solution.bin_copies(s) for s in range(len(task.stocks)))
    return cost / unit, min(cost, output.variable_sized_bin_packing_bound) / unit


def by_rectpack(pieces: Sequence[Piece], sheet: Sheet, saw: Saw) -> float | None:
    """Cost from rectpack's guillotine packers, the best of all their settings; one sort of sheet, all may turn or none."""
    import rectpack
    from rectpack import guillotine

    task = task_of(pieces, [sheet], saw)
    stock = task.stocks[0]
    rectangles = [(kind.length, kind.width) for kind in task.kinds for _ in range(kind.quantity)]
    names = [name for name in guillotine.__dict__ if name.startswith("Guillotine") and name.count("B") + len(name) > 12]
    best: int | None = None
    for name in names:
        for sort in (rectpack.SORT_AREA, rectpack.SORT_LSIDE, rectpack.SORT_SSIDE, rectpack.SORT_PERI):
            try:
                packer = rectpack.newPacker(
                    mode=rectpack.PackingMode.Offline,
                    pack_algo=getattr(guillotine, name),
                    bin_algo=rectpack.PackingBin.BBF,
                    sort_algo=sort,
                    rotation=task.kinds[0].may_turn,
                )
            except TypeError:
                continue
            for length, width in rectangles:
                packer.add_rect(length, width)
            packer.add_bin(stock.length, stock.width, count=len(rectangles))
            packer.pack()
            if len(packer.rect_list()) == len(rectangles):
                best = len(packer) if best is None else min(best, len(packer))
    return None if best is None else best * float(sheet.price)
