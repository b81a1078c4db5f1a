"""The paper of quotes, read back: every line, every finding, which to take; odd text and many quotes do not break it."""

from __future__ import annotations

import io
import json
from datetime import date
from decimal import Decimal

import pytest
from pypdf import PdfReader

from rodbook.money import LumpSum, Quote, QuoteLine, hold_quotes
from rodbook.papers import quotes_pdf
from rodbook.papers.numbers import Numbers
from rodbook.papers.quotes.content import quote_cells, quotes_content

DAY = date(2026, 11, 26)
D = Decimal


def _quote(order, name, each, *, skip=(), **more):
    lines = tuple(QuoteLine(x.mark, x.quantity, x.quantity * D(each)) for x in order if x.mark not in skip)
    return Quote(
        **{
            "workshop": name,
            "day": DAY,
            "valid_until": date(2026, 12, 31),
            "currency": "EUR",
            "lead_days": 10,
            "lines": lines,
            **more,
        }
    )


@pytest.fixture(scope="module")
def plan(plan_of):
    return plan_of("stair")


@pytest.fixture(scope="module")
def held(plan):
    order = plan.schedule
    mill = _quote(order, "Mill", "30.10", delivery=D(40))
    barn = _quote(order, "Barn", "20.20", skip=[order[0].mark], delivery=D(25), reference="Q-31", valid_until=date.max)
    old = _quote(order, "Old Yard", "9.90", valid_until=date(2026, 11, 1), day=date(2026, 10, 1))
    return hold_quotes(order, [mill, barn, old], currency="EUR", day=DAY, needed_days=20, trouble=D(15))


def _text(pdf):
    return " ".join(" ".join(page.extract_text() for page in PdfReader(io.BytesIO(pdf)).pages).split())


def test_it_says_what_to_do_and_why_and_shows_every_line(plan, held):
    pdf = quotes_pdf(plan, held)
    text = _text(pdf)
    for said in (
        held.sentence,
        "Barn, Q-31",
        "not said",
        f"{held.order[0].mark} is missing",
        "It is as ordered.",
        "Left out: it was valid until 2026-11-01",
        "€30.10",
        "€20.20 *",
        "Each workshop besides the first",
        "20 working days",
    ):
        assert " ".join(said.split()) in text, said
    assert text.count("Left out") == 1
    for line in held.order:
        assert line.mark in text
    for share in held.split.orders:
        assert f"{share.amount}" in text
    assert quotes_pdf(plan, held) == pdf, "the same every time"


def test_it_can_be_read_aloud(plan, held):
    catalogue = PdfReader(io.BytesIO(quotes_pdf(plan, held))).trailer["/Root"]
    assert catalogue["/MarkInfo"]["/Marked"]
    assert catalogue["/Lang"].startswith("en")
    assert "Quotes compared" in PdfReader(io.BytesIO(quotes_pdf(plan, held))).metadata.title


def test_the_lowest_of_a_line_is_told_without_colour(held):
    write = Numbers("en", "EUR")
    for line, cells in quote_cells(held.order, held.compared, write):
        lowest = [cell.workshop for cell in cells if cell.lowest]
        assert lowest == ([] if line is held.order[0] else ["Barn"]), line.mark


def test_many_quotes_stand_in_several_tables_and_a_sum_is_no_gap(plan):
    order = plan.schedule
    marks = (order[0].mark, order[1].mark)
    lump = _quote(order, "Sums", "12", skip=marks, lumps=(LumpSum(marks, D(50)),))
    board = _quote(order, "Other", "13")
    board = Quote(**{**vars(board), "lines": (QuoteLine(order[0].mark, 1, D(3), "oak"), *board.lines[1:])})
    others = [_quote(order, f"W{n}", f"{20 + n}") for n in range(6)]
    content = quotes_content(plan, hold_quotes(order, [lump, board, *others], currency="EUR", day=DAY)).content
    json.dumps(content)
    assert [len(table["names"]) for table in content["tables"]] == [5, 3]
    cells = {cell for table in content["tables"] for row in table["rows"] for cell in row}
    assert {"in a sum", "other board"} <= cells
    assert _text(quotes_pdf(plan, hold_quotes(order, [lump, board, *others], currency="EUR", day=DAY)))


def test_odd_names_and_no_way_to_give_it_out(plan_of):
    plan = plan_of("hostile")
    order = plan.schedule
    odd = r'*_<b> $x$ \ #let "q" [br]' + "W" * 80
    quote = _quote(order[1:], odd, "3", reference=odd, currency=plan.book.currency)
    held = hold_quotes(order, [quote], currency=plan.book.currency, day=DAY)
    assert held.split is None
    assert "Nobody quotes" in _text(quotes_pdf(plan, held))
