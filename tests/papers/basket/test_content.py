"""The paper of prices through time, read back: the index, its working, and what is left out."""

from __future__ import annotations

import io
import json
from datetime import date
from decimal import Decimal

import pytest
from pypdf import PdfReader

from rodbook.money import BasketKey, BasketKind, firm_basket, firm_index
from rodbook.papers import basket_pdf
from rodbook.papers.basket.content import basket_content, basket_rows
from rodbook.papers.numbers import Numbers

D = Decimal
SHOP = "Quarry Lane Workshop"
DAY, LAST = date(2026, 11, 26), date(2026, 12, 31)
TAKEN = {
    BasketKey(BasketKind.SHEETS, "22 mm MDF", "22 mm MDF 2440 x 1220"): D(10),
    BasketKey(BasketKind.CHARGES, SHOP, "coat_m2"): D("12.345"),
    BasketKey(BasketKind.CHARGES, SHOP, "set_up"): D(1),
    BasketKey(BasketKind.HOURS, "", "crew hour"): D(8),
}


def _text(pdf):
    return " ".join(" ".join(page.extract_text() for page in PdfReader(io.BytesIO(pdf)).pages).split())


@pytest.fixture
def found(book):
    return firm_index(firm_basket(book, TAKEN), LAST)


def test_index_and_working_stand_there(book, found):
    text = _text(basket_pdf(book, found, ["Mill", "Barn"], day=DAY))
    for said in (
        "Prices through time",
        "Mill, Barn",
        f"= {found.index}",
        "10 sheets",
        "12.35 m² of coats",
        "1 distinct part",
        "8 hours",
        "counted",
        "31 December 2026",
        "€51.20",
    ):
        assert said in text, said
    assert "not counted" not in text
    rows = basket_rows(found, Numbers("en", "EUR"), 2)
    json.dumps(basket_content(book, found, ["Mill"], day=DAY).content)
    assert len(rows.working) == len(TAKEN)
    assert rows.sum[-1] == f"+{found.index - 100}"
    assert rows.sentences[0].startswith("What 2 jobs take costs ")


def test_what_is_left_out_is_named_and_many_jobs_are_named_at_the_foot(book):
    found = firm_index(firm_basket(book, TAKEN), LAST, date(2026, 1, 10))
    jobs = [r'*_<b> $x$ \ #let "q" [br]' + f"{n}" + "W" * 60 for n in range(6)]
    text = _text(basket_pdf(book, found, jobs, day=DAY))
    assert "No price on 10 January 2026, so left out: " in text
    assert f"{SHOP}: set-up" in text
    assert "6, named below" in text


def test_nothing_moved_and_one_day_only(book):
    taken = {BasketKey(BasketKind.CHARGES, SHOP, "set_up"): D(3)}
    found = firm_index(firm_basket(book, taken), date(2026, 3, 2))
    assert len(found.days) == 1
    rows = basket_rows(found, Numbers("de_AT", "EUR"), 1)
    assert rows.sentences[0].startswith("What the one job takes costs as much as on 2. März 2026")
    text = _text(basket_pdf(book, found, ["Mill"], day=DAY))
    assert "100.00" in text
