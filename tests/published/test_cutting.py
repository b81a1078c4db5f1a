"""Layouts against small published instances whose optimum is proven; sources stand in data/cutting.json.

Each is done within a second of work; the time allowed is so long that a busy machine is no reason to break off.
"""

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
def test_sheets_are_laid_out_at_the_optimum_and_it_is_proven(instance, may_turn):
    """Berkey and Wang 1987; Martello and Vigo 1998: the fewest sheets that are known to do, and a bound that says so."""
    length, width = instance["sheet"]
    pieces = [Piece(f"{i}", float(a), float(b), n, may_turn=may_turn) for i, (a, b, n) in enumerate(instance["items"])]
    sheets = [Sheet("sheet", float(length), float(width), Decimal(1))]
    result = lay_out(pieces, sheets, Saw(kerf=0, edge_trim=0), seconds=600, seed=0)
    assert not result.unplaced
    assert result.cost == result.bound == instance["turned" if may_turn else "oriented"]
    assert result.proven


@pytest.mark.parametrize("instance", DATA["lengths"], ids=_id)
def test_lengths_are_cut_at_the_optimum_and_it_is_proven(instance):
    """BPPLIB: the fewest bars that are known to do, and a bound that says so."""
    sticks = [Stick(f"{i}", float(a), n) for i, (a, n) in enumerate(instance["items"])]
    result = cut_lengths(sticks, [Bar("bar", float(instance["stock"]), Decimal(1))], kerf=0, seconds=600, seed=0)
    assert not result.unplaced
    assert result.cost == result.bound == instance["best"]
    assert result.proven
