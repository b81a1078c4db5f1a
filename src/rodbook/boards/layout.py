"""The face of the layout engine for sheets: check what was asked, bound it, search, check what was found."""

from __future__ import annotations

from collections import Counter
from collections.abc import Callable, Sequence
from dataclasses import replace
from time import monotonic

from rodbook.boards.asked.inputs import check_sheets_input
from rodbook.boards.asked.reasons import no_sheet_fits, sheets_ran_out
from rodbook.boards.asked.task import Task, task_of
from rodbook.boards.checks.sheets import check_sheet_plan
from rodbook.boards.filling.search import Cutting
from rodbook.boards.filling.tree import board_tree, leaves_of, offcuts_of, placed_of, usable_largest
from rodbook.boards.models import (
    Filler,
    Layout,
    OnProgress,
    Piece,
    Saw,
    Sheet,
    SheetPlan,
    Unplaced,
    hundredths,
    millimetres,
)
from rodbook.boards.proof.words import proof_in_words
from rodbook.boards.sheets.engine import Solved, solve
from rodbook.boards.tools.clock import Clock
from rodbook.boards.tools.steps import Steps
from rodbook.boards.waste import fill_waste
from rodbook.errors import RodbookError

__all__ = ["lay_out"]


def lay_out(
    pieces: Sequence[Piece],
    sheets: Sequence[Sheet],
    saw: Saw | None = None,
    seconds: float = 10.0,
    seed: int = 0,
    on_progress: OnProgress | None = None,
    is_cancelled: Callable[[], bool] | None = None,
    fillers: Sequence[Filler] = (),
    effort: float | None = None,
) -> SheetPlan:
    """Lay pieces out on sheets by straight edge-to-edge cuts, as cheaply as is found, with a proven bound beside it.

    Parameters
    ----------
    pieces : sequence of Piece
        What is wanted; 100 000 pieces in all at the most.
    sheets : sequence of Sheet
        What there is to cut from.
    saw : Saw
        Kerf, edge trim and limit on turns; None for the defaults.
    seconds : float
        When to stop looking; the first plan is always finished, so a large job may take longer. Infinite where only
        `effort` ends the search, however long that takes on this machine. [s]
    seed : int
        Where the search's choices start. The same inputs and seed give the same plan, unless the clock ends the search.
    on_progress : callable
        Called with a `Progress` after each try; it cannot change the plan.
    is_cancelled : callable
        Asked now and then; once it says so the best plan found by then is given.
    fillers : sequence of Filler
        What other jobs could use of what would be waste; it changes nothing of the job itself.
    effort : float or None
        How much to do: seconds of work counted by its steps, about what one core takes. The search then ends by itself at
        the same step on any machine, and only a clock that runs out before makes it differ. None: as the clock allows. [s]

    Returns
    -------
    SheetPlan
        Of the plans found the one with fewest pieces missing, then least cost, then the largest single usable offcut.

    Raises
    ------
    InputError
        If anything given is wrong; with every fault.
    RodbookError
        If not even the first plan passes the independent check, which is an error of Rodbook's own. Where only a later step
        fails, or what it made does not pass, the best plan by then is given and its `broken_off` says so.

    Examples
    --------
    >>> from decimal import Decimal
    >>> plan = lay_out(
    ...     [Piece("door", length=1800, width=447, quantity=12)],
    ...     [Sheet("22 mm", length=2440, width=1220, price=Decimal("48.00"))],
    ... )
    >>> plan.cost, plan.bound, [(layout.sheet, layout.count, len(layout.placed)) for layout in plan.layouts]
    (Decimal('288.00'), Decimal('288.00'), [('22 mm', 6, 2)])
    """
    clock = Clock(seconds, monotonic(), effort, is_cancelled, monotonic)
    saw = Saw() if saw is None else saw
    check_sheets_input(pieces, sheets, saw, seconds=seconds, seed=seed, fillers=fillers, effort=effort)
    task = task_of(pieces, sheets, saw)
    placeable = [any(lies[k] for lies in task.lies) for k in range(len(task.kinds))]
    wanted = [kind.quantity if able else 0 for kind, able in zip(task.kinds, placeable, strict=True)]
    steps = Steps()

    def checked(result: Solved) -> SheetPlan:
        """Put names to what was found and check it."""
        plan = _plan_of(task, result, pieces, sheets, saw)
        faults = check_sheet_plan(plan, pieces, sheets, saw)
        if faults:
            raise RodbookError("boards.layout_not_valid", faults=faults[:5])
        return plan

    result = solve(task, wanted, clock=clock, seed=seed, on_progress=on_progress)
    plan = steps.tried("check", None, lambda: checked(result))
    if plan is None:
        plain = solve(task, wanted, clock=clock, seed=seed, plain=True)
        plan = checked(replace(plain, broken_off=(*result.broken_off, *plain.broken_off)))
    stands = plan
    if fillers:
        plan = steps.tried("fillers", stands, lambda: fill_waste(stands, pieces, sheets, saw, fillers))
    return replace(plan, broken_off=(*plan.broken_off, *steps.broken_off))


def _plan_of(task: Task, result: Solved, pieces: Sequence[Piece], sheets: Sequence[Sheet], saw: Saw) -> SheetPlan:
    """Put names to the pieces, and say what could not be had and what is proven."""
    names = _Names(task, pieces)
    layouts = _layouts(task, sheets, result.cuttings, names)
    unplaced = [
        Unplaced(pieces[n].name, pieces[n].quantity, no_sheet_fits(pieces[n], sheets, saw))
        for k, kind in enumerate(task.kinds)
        if not any(lies[k] for lies in task.lies)
        for n in kind.pieces
    ]
    unplaced += [
        Unplaced(pieces[n].name, number, sheets_ran_out(pieces[n], sheets, saw)) for n, number in names.left_over()
    ]
    return SheetPlan(
        layouts=layouts,
        cost=task.scale.price(result.cost),
        bound=task.scale.price(result.bound),
        proven=result.cost == result.bound and not any(result.missing),
        unplaced=tuple(unplaced),
        tries=result.tries,
        ended=result.ended,
        proof=proof_in_words(
            task.scale.price(result.cost),
            task.scale.price(result.bound),
            [sheet.price for sheet in sheets],
            noun="sheet",
            ran_out=any(result.missing),
            anything=bool(layouts),
        ),
        broken_off=result.broken_off,
    )


class _Names:
    """Hands out the pieces of each kind, in the order asked for."""

    def __init__(self, task: Task, pieces: Sequence[Piece]) -> None:
        """Line them up."""
        self.task, self.pieces = task, pieces
        self.queues = [
            [[n, pieces[n].quantity] for n in kind.pieces if any(lies[k] for lies in task.lies)][::-1]
            for k, kind in enumerate(task.kinds)
        ]

    def take(self, kind: int) -> int:
        """Give the number of the next piece of a kind."""
        queue = self.queues[kind]
        number = queue[-1][0]
        queue[-1][1] -= 1
        if not queue[-1][1]:
            queue.pop()
        return number

    def left_over(self) -> list[tuple[int, int]]:
        """List what was not taken, as piece number and quantity."""
        return [(number, quantity) for queue in self.queues for number, quantity in reversed(queue)]


def _layouts(task: Task, sheets: Sequence[Sheet], cuttings: Sequence[Cutting], names: _Names) -> tuple[Layout, ...]:
    """Put names to the pieces and gather sheets that come out alike, dearest sheet first."""
    results: Counter[Layout] = Counter()
    for cutting in cuttings:
        leaves = sorted(cutting.filled.leaves)
        alike = Counter(tuple(names.take(cutting.filled.leaves[leaf]) for leaf in leaves) for _ in range(cutting.count))
        for numbers, count in alike.items():
            results[_layout(task, sheets[cutting.stock], cutting, dict(zip(leaves, numbers, strict=True)), names)] += (
                count
            )
    return tuple(
        Layout(x.sheet, x.length, x.width, x.price, count, x.placed, x.tree, x.offcuts, x.largest_offcut)
        for x, count in sorted(results.items(), key=lambda item: -item[0].price)
    )


def _layout(task: Task, sheet: Sheet, cutting: Cutting, numbers: dict[int, int], names: _Names) -> Layout:
    """Show one sheet."""
    filled, kerf = cutting.filled, task.kerf
    labels: dict[int, tuple[str, bool]] = {}
    for leaf, number in numbers.items():
        piece = names.pieces[number]
        labels[leaf] = (piece.name, _is_turned(piece, filled.nodes[leaf][2] - kerf))
    tree = board_tree(filled, labels, kerf=kerf, trim=task.trim)
    leaves = leaves_of(tree)
    offcuts = offcuts_of(leaves)
    return Layout(
        sheet=sheet.name,
        length=millimetres(hundredths(sheet.length)),
        width=millimetres(hundredths(sheet.width)),
        price=sheet.price,
        count=1,
        placed=placed_of(leaves),
        tree=tree,
        offcuts=offcuts,
        largest_offcut=usable_largest(offcuts),
    )


def _is_turned(piece: Piece, length: int) -> bool:
    """Say whether a piece that lies with this length is turned."""
    return hundredths(piece.length) != length
