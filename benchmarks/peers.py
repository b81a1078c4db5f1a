"""Other ways to lay out, run in the same way: general-purpose libraries, for comparison only.

They are not needed to lay anything out; ``uv sync --group bench`` or ``pip install packingsolver rectpack`` brings
them (OR-Tools is there for the dates). What each gives is the cost of the sheets it used, and the bound it states where it
states one.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from math import gcd

from rodbook.boards import Piece, Saw, Sheet
from rodbook.boards.asked.task import task_of

__all__ = ["by_cp_sat", "by_packingsolver", "by_rectpack"]


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
    base = guillotine.Guillotine
    algorithms = [
        result
        for result in vars(guillotine).values()
        if isinstance(result, type) and issubclass(result, base)
        if result._split is not base._split and result._section_fitness is not base._section_fitness
    ]
    best: int | None = None
    for algorithm in algorithms:
        for sort in (rectpack.SORT_AREA, rectpack.SORT_LSIDE, rectpack.SORT_SSIDE, rectpack.SORT_PERI):
            packer = rectpack.newPacker(
                mode=rectpack.PackingMode.Offline,
                pack_algo=algorithm,
                bin_algo=rectpack.PackingBin.BBF,
                sort_algo=sort,
                rotation=task.kinds[0].may_turn,
            )
            for length, width in rectangles:
                packer.add_rect(length, width)
            packer.add_bin(stock.length, stock.width, count=len(rectangles))
            packer.pack()
            if len(packer.rect_list()) == len(rectangles):
                best = len(packer) if best is None else min(best, len(packer))
    return None if best is None else best * float(sheet.price)


def by_cp_sat(pieces: Sequence[Piece], sheet: Sheet, saw: Saw, seconds: float) -> tuple[float | None, float]:
    """Cost and bound from OR-Tools' CP-SAT on one core, cuts free: pieces may lie so that no straight cuts part them.

    All sheets lie end to end and no two pieces overlap; a piece lies within one sheet; the last sheet used is the least.
    """
    from ortools.sat.python import cp_model

    task = task_of(pieces, [sheet], saw)
    # sizes in steps that all of them share: the smaller the numbers, the better for it
    step = gcd(
        *(x for kind in task.kinds for x in (kind.length, kind.width)), task.stocks[0].length, task.stocks[0].width
    )
    task = replace(
        task,
        kinds=tuple(replace(kind, length=kind.length // step, width=kind.width // step) for kind in task.kinds),
        stocks=tuple(replace(x, length=x.length // step, width=x.width // step) for x in task.stocks),
    )
    stock = task.stocks[0]
    areas = [kind.length * kind.width for kind in task.kinds for _ in range(kind.quantity)]
    # Shelves filled in order of height never need more than four times the area, and one sheet.
    most = min(len(areas), 4 * sum(areas) // (stock.length * stock.width) + 1)
    model = cp_model.CpModel()
    last = model.new_int_var(1, most, "sheets")
    along, across = [], []
    for kind in task.kinds:
        lies = {(kind.length, kind.width)} | ({(kind.width, kind.length)} if kind.may_turn else set())
        lies = sorted((a, b) for a, b in lies if a <= stock.length and b <= stock.width)
        for number in range(kind.quantity):
            name = f"{kind.pieces}-{number}"
            chosen = [model.new_bool_var(f"{name}-{a}-{b}") for a, b in lies]
            model.add_exactly_one(chosen)
            for lie, (a, b) in zip(chosen, lies, strict=True):
                starts = [(n * stock.length, (n + 1) * stock.length - a) for n in range(most)]
                x = model.new_int_var_from_domain(cp_model.Domain.from_intervals(starts), f"{name}-x-{a}")
                y = model.new_int_var(0, stock.width - b, f"{name}-y-{b}")
                along.append(model.new_optional_fixed_size_interval_var(x, a, lie, f"{name}-along-{a}"))
                across.append(model.new_optional_fixed_size_interval_var(y, b, lie, f"{name}-across-{b}"))
                model.add(last * stock.length >= x + a).only_enforce_if(lie)
    model.add_no_overlap_2d(along, across)
    model.add(last * stock.length * stock.width >= sum(areas))
    model.minimize(last)
    solver = cp_model.CpSolver()
    solver.parameters.max_time_in_seconds = seconds
    solver.parameters.num_workers = 1
    solver.parameters.random_seed = 0
    status = solver.solve(model)
    price = float(sheet.price)
    result = solver.objective_value * price if status in (cp_model.OPTIMAL, cp_model.FEASIBLE) else None
    return result, solver.best_objective_bound * price
