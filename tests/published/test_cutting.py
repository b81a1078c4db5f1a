"""Layouts against small published instances whose optimum is proven; sources stand in data/cutting.json."""

import json
from decimal import Decimal
from pathlib import Path

import pytest

from rodbook.boards import Bar, Piece, Saw, Sheet, Stick, cut_lengths, lay_out

DATA = json.loads((Path(__file__).parent / "data" / "cutting.json").read_text("utf-8"))


def _id(instance):
    return instance["name"]


@pytest.mark.parametrize("may_turn", [False, True], ids=["oriented", "turned"])
@pytest.mark.parametrize("instance", DATA["sheets"], ids=_id)
def test_sheets_lie_between_a_true_bound_and_two_over_the_optimum(instance, may_turn):
    """Berkey and Wang 1987; Martello and Vigo 1998: the bound never passes the proven optimum, and a first search comes near."""
    length, width = instance["sheet"]
    pieces = [Piece(f"{i}", float(a), float(b), n, may_turn=may_turn) for i, (a, b, n) in enumerate(instance["items"])]
    sheets = [Sheet("sheet", float(length), float(width), Decimal(1))]
    result = lay_out(pieces, sheets, Saw(kerf=0, edge_trim=0), seconds=5, seed=0)
    best = instance["turned" if may_turn else "oriented"]
    assert not result.unplaced
    assert result.bound <= best <= result.cost <= best + 2
    assert not result.proven or result.cost == best


def test_most_small_sheet_instances_are_laid_out_at_their_optimum():
    hit = 0
    for instance in DATA["sheets"]:
        length, width = instance["sheet"]
        pieces = [Piece(f"{i}", float(a), float(b), n) for i, (a, b, n) in enumerate(instance["items"])]
        result = lay_out(
            pieces,
            [Sheet("sheet", float(length), float(width), Decimal(1))],
            Saw(kerf=0, edge_trim=0),
            seconds=5,
            seed=0,
        )
        hit += result.cost == instance["oriented"]
    assert hit >= len(DATA["sheets"]) * 2 / 3


@pytest.mark.parametrize("instance", DATA["lengths"], ids=_id)
def test_lengths_lie_between_a_true_bound_and_one_over_the_optimum(instance):
    """BPPLIB: the bound never passes the proven optimum."""
    sticks = [Stick(f"{i}", float(a), n) for i, (a, n) in enumerate(instance["items"])]
    result = cut_lengths(sticks, [Bar("bar", float(instance["stock"]), Decimal(1))], kerf=0, seconds=5, seed=0)
    assert not result.unplaced
    assert result.bound <= instance["best"] <= result.cost
    assert result.cost <= instance["best"] + max(1, instance["best"] // 12)
