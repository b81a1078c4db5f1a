"""Price lists held against the book, and read from files."""

from __future__ import annotations

import io
from datetime import date
from decimal import Decimal
from pathlib import Path
from typing import Any

import openpyxl
import pytest
from hypothesis import given
from hypothesis import strategies as st

from rodbook.errors import InputError
from rodbook.job import Book
from rodbook.job.checks import check_book
from rodbook.job.files import price_rows
from rodbook.money import price_list, with_prices
from rodbook.money.suppliers.list_rows import number_of

D = Decimal
SINCE = date(2026, 12, 1)


@pytest.fixture(scope="module")
def names(book: Book) -> list[str]:
    return [f"{b.name} {s.name}" for b in book.boards for s in b.sheets]


def numbered(*rows: list[object]) -> list[tuple[int, list[object]]]:
    return list(enumerate(rows, 1))


def test_what_would_change_is_shown_first(book: Book, names: list[str]) -> None:
    first, second = (next(s for b in book.boards for s in b.sheets if f"{b.name} {s.name}" == n) for n in names[:2])
    old = max(first.prices, key=lambda p: p.since).amount
    rows = numbered(
        ["Timber and Boards, winter"],
        ["Name", "Remark", "Price"],
        [names[0], "", str(old + 5)],
        [names[1].upper(), "", max(second.prices, key=lambda p: p.since).amount],
        ["Something else", "", "about 5"],
    )
    found = price_list(rows, book, since=SINCE, source="winter list")
    (change,) = found.changes
    assert (change.row, change.name, change.before, change.after) == (3, first.name, old, old + 5)
    assert change.percent == (100 * ((old + 5) / old - 1)).quantize(D("0.1"))
    assert found.unchanged == (second.name,)
    assert (
        len(found.not_listed)
        == sum(len(b.sheets) for b in book.boards) + sum(len(s.lengths) for s in book.sections) - 2
    )
    grown = with_prices(book, found)
    assert check_book(grown) == []
    size = next(s for b in grown.boards for s in b.sheets if f"{b.name} {s.name}" == names[0])
    assert size.prices[:-1] == first.prices
    assert (size.prices[-1].amount, size.prices[-1].since, size.prices[-1].source) == (old + 5, SINCE, "winter list")
    assert price_list(rows, grown, since=SINCE, source="again").changes == ()


def test_names_that_are_nearly_right_are_pointed_at(book: Book, names: list[str]) -> None:
    found = price_list(numbered(["item", "each"], [f"{names[0]}x", 3]), book, since=SINCE, source="x")
    assert found.changes == ()
    assert [(row, name) for row, name, _ in found.nearly] == [(2, f"{names[0]}x")]


def test_every_fault_at_once(book: Book, names: list[str]) -> None:
    rows = numbered(
        ["name", "price", "currency"],
        [names[0], "1.234", "EUR"],
        [names[1], -3, "EUR"],
        [names[2], 50, "GBP"],
    )
    with pytest.raises(InputError) as caught:
        price_list(rows, book, since=SINCE, source="x")
    told = [str(f).partition("): ")[2] for f in caught.value.faults]
    assert told == [
        "'1.234' can't be read as a price for certain; write it like 48.00",
        "a price of -3 is below zero",
        "it is in GBP and the book in EUR; a list has to be in EUR",
    ]
    twice = numbered(["name", "price"], [names[0], 10], [names[0], 11])
    with pytest.raises(InputError, match="row 2 has it at 10 and this one at 11; keep one of them"):
        price_list(twice, book, since=SINCE, source="x")
    with pytest.raises(InputError, match="no row has headings for name and price"):
        price_list(numbered(["a", "b"]), book, since=SINCE, source="x")


def test_a_price_of_that_very_day_is_not_overwritten(book: Book, names: list[str]) -> None:
    since = book.boards[0].sheets[0].prices[0].since
    rows = numbered(["name", "price"], [names[0], "999.00"])
    with pytest.raises(InputError, match="already; give the list another day, or correct the book"):
        price_list(rows, book, since=since, source="x")


@given(st.decimals(0, 99999, places=2), st.sampled_from([".", ","]))
def test_an_amount_is_read_as_it_was_written(amount: Decimal, point: str) -> None:
    other = "," if point == "." else "."
    plain = f"{amount:.2f}".replace(".", point)
    grouped = f"{amount:,.2f}".translate({ord(","): other, ord("."): point})
    assert number_of(plain) == number_of(grouped) == amount


@pytest.mark.parametrize("kind", ["csv", "xlsx"])
def test_lists_come_out_of_files(tmp_path: Path, book: Book, names: list[str], kind: str) -> None:
    path = tmp_path / f"list.{kind}"
    cells: list[list[Any]] = [["name", "price"], [names[0], "61,50"]]
    if kind == "csv":
        path.write_text("\n".join(";".join(row) for row in cells), "utf-8")
    else:
        workbook = openpyxl.Workbook()
        for row in cells:
            workbook.active.append(row)
        buffer = io.BytesIO()
        workbook.save(buffer)
        path.write_bytes(buffer.getvalue())
    found = price_list(price_rows(path), book, since=SINCE, source="file")
    assert [(c.row, c.after) for c in found.changes] == [(2, D("61.50"))]


def test_a_row_that_is_in_the_book_is_not_taken_for_nearly_another(book: Book) -> None:
    rows = numbered(["name", "price"], ["22 mm MDF 2440 x 1220", 53], ["18 mm MDF 2440x1220", 45])
    found = price_list(rows, book, since=SINCE, source="x")
    assert [row for row, *_ in found.nearly] == [3]
