"""The proof in words."""

from decimal import Decimal

import pytest

from rodbook.boards import Bar, Piece, Sheet, Stick, cut_lengths, lay_out
from rodbook.boards.proof.words import proof_in_words

P = Decimal(48)


@pytest.mark.parametrize(
    ("cost", "bound", "prices", "said"),
    [
        (9 * P, 9 * P, [P], "9 sheets; 8 is impossible."),
        (P, P, [P], "1 sheet; none at all is impossible."),
        (9 * P, 8 * P, [P], "9 sheets; whether 8 will do is open, 7 is impossible."),
        (9 * P, 6 * P, [P], "9 sheets; whether 6 to 8 will do is open, 5 is impossible."),
        (2 * P, Decimal(0), [P, Decimal(0)], "2 sheets; whether 0 to 1 will do is open."),
        (Decimal(0), Decimal(0), [P, Decimal(0)], "Nothing has to be bought."),
        (Decimal("130.5"), Decimal("130.5"), [P, Decimal("34.5")], "130.50; less is impossible."),
        (
            Decimal("130.5"),
            Decimal(96),
            [P, Decimal("34.5")],
            "130.50; less than 96.00 is impossible, what lies between is open.",
        ),
    ],
)
def test_it_says_what_is_impossible(cost, bound, prices, said):
    assert proof_in_words(cost, bound, prices, noun="sheet", ran_out=False, anything=True) == said


def test_nothing_cut_needs_no_proof():
    assert lay_out([], [Sheet("s", 2440, 1220, P)]).proof == ""


def test_plans_carry_it():
    plan = lay_out([Piece("door", 1800, 447, 12)], [Sheet("board", 2440, 1220, P)])
    assert plan.proof == "6 sheets; 5 is impossible."
    bars = cut_lengths([Stick("leg", 2010, 28)], [Bar("6 m", 6000, Decimal("31.20"))])
    assert bars.proof == "14 bars; 13 is impossible."


def test_what_ran_out_is_said_first():
    plan = lay_out([Piece("door", 1800, 447, 12)], [Sheet("board", 2440, 1220, P, quantity=2)])
    assert plan.proof == "The sheets ran out. For what is cut from them: 2 sheets; 1 is impossible."
    assert not plan.proven
