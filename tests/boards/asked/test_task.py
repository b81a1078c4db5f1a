from decimal import Decimal

from rodbook.boards import Piece, Saw, Sheet
from rodbook.boards.asked.task import cuts_needed, task_of

SHEET = Sheet("s", 1000, 500, Decimal("12.50"))


def test_sizes_grow_by_the_kerf_and_sheets_lose_the_trim():
    task = task_of([Piece("p", 300.004, 200.006)], [SHEET], Saw(3.2, 10))
    assert [(kind.length, kind.width) for kind in task.kinds] == [(30_320, 20_321)]
    assert [(stock.length, stock.width, stock.price) for stock in task.stocks] == [(98_320, 48_320, 1250)]


def test_pieces_of_one_size_are_one_kind_however_they_are_given():
    pieces = [
        Piece("a", 300, 200, 2, may_turn=True),
        Piece("b", 200, 300, 3, may_turn=True),
        Piece("c", 300, 200, 4),
        Piece("square", 200, 200, 1, may_turn=True),
        Piece("fixed square", 200, 200),
    ]
    kinds = task_of(pieces, [SHEET], Saw(0, 0)).kinds
    assert [(k.length, k.width, k.may_turn, k.quantity, k.pieces) for k in kinds] == [
        (30_000, 20_000, True, 5, (0, 1)),
        (30_000, 20_000, False, 4, (2,)),
        (20_000, 20_000, False, 2, (3, 4)),
    ]


def test_ways_to_lie():
    def ways(piece, max_turns=None):
        return task_of([piece], [SHEET], Saw(0, 0, max_turns)).lies[0][0]

    assert ways(Piece("p", 400, 300, may_turn=True)) == ((40_000, 30_000), (30_000, 40_000))
    assert ways(Piece("p", 600, 400, may_turn=True)) == ((60_000, 40_000),)
    assert ways(Piece("p", 600, 501)) == ()
    # with no turn allowed only what is as long or as wide as the sheet can be had
    assert ways(Piece("p", 400, 300), max_turns=0) == ()
    assert ways(Piece("p", 400, 500), max_turns=0) == ((40_000, 50_000),)


def test_cuts_needed():
    assert [cuts_needed(piece, (10, 5)) for piece in ((10, 5), (9, 5), (10, 4), (9, 4))] == [0, 1, 1, 2]
