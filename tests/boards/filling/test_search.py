"""The search: more tries do no harm, and it stops where nothing better can be."""

from decimal import Decimal
from time import monotonic

from rodbook.boards import Piece, Saw, Sheet
from rodbook.boards.asked.task import task_of
from rodbook.boards.filling.search import search
from rodbook.boards.proof.bounds import least_cost
from rodbook.boards.tools.clock import Clock

JOB = [Piece(f"p{n}", 250 + 61 * n % 900, 120 + 83 * n % 500, 1 + n % 3, may_turn=n % 2 == 0) for n in range(14)]
SHEETS = [Sheet("s", 2440, 1220, Decimal(48)), Sheet("o", 1300, 700, Decimal(0), quantity=2)]


def found(builds, mends, *, seed=0, seconds=60.0, pieces=JOB, sheets=SHEETS):
    task = task_of(pieces, sheets, Saw())
    wanted = [kind.quantity for kind in task.kinds]
    heard = []
    result = search(
        task,
        wanted,
        bound=least_cost(task, wanted),
        builds=builds,
        mends=mends,
        seed=seed,
        clock=Clock(seconds, monotonic()),
        on_try=lambda done, cost: heard.append((done, cost)),
    )
    return result, heard


def test_the_best_cost_never_rises():
    _, heard = found(6, 20)
    costs = [cost for _, cost in heard]
    assert costs == sorted(costs, reverse=True)


def test_more_mending_is_never_worse():
    assert found(6, 40)[0].cost <= found(6, 5)[0].cost


def test_the_seed_is_all_that_chance_hangs_on():
    one, other = found(5, 10, seed=3)[0], found(5, 10, seed=3)[0]
    assert one == other


def test_the_clock_stops_it_after_the_first_plan():
    result, heard = found(6, 20, seconds=1e-9)
    assert (result.tries, result.ended, len(heard)) == (1, "time", 1)
    assert not any(result.missing)


def test_it_stops_at_the_bound():
    # one piece, one sheet: no plan is cheaper
    result, _ = found(60, 120, pieces=JOB[:1], sheets=SHEETS[:1])
    assert result.ended == "bound"
    assert result.tries < 60


def test_free_sheets_are_used_up_first():
    result, _ = found(6, 20)
    used = sum(cutting.count for cutting in result.cuttings if cutting.stock == 1)
    assert used == 2
