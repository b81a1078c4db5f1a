"""Workshops' lists of charges: read, held against the book, put beside what stands."""

from __future__ import annotations

from datetime import date, timedelta
from decimal import Decimal
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from rodbook.errors import InputError
from rodbook.job import Book
from rodbook.job.book import valid_on
from rodbook.job.checks import check_book
from rodbook.job.files import add_charges, parse_book, sample_book_text
from rodbook.money import CHARGES, WorkshopList, blank_charges, hold_charges, with_charges, workshop_list

D = Decimal
SINCE = date(2027, 1, 1)
SHOP = "Quarry Lane Workshop"
HEAD = ["charge", "of", "per", "price", "currency", "from", "until"]


def held(book: Book, *rows: list[Any], since: date = SINCE, head: list[Any] = HEAD) -> WorkshopList:
    return workshop_list(list(enumerate([head, *rows], 1)), book, SHOP, since=since, source="winter list")


def told(book: Book, *rows: list[Any], since: date = SINCE) -> list[str]:
    with pytest.raises(InputError) as caught:
        held(book, *rows, since=since)
    return [str(fault) for fault in caught.value.faults]


def test_what_would_change_is_shown_first_and_the_rest_is_carried_over(book: Book) -> None:
    found = held(
        book, ["set-up", "", "distinct part", "10,00"], ["22 MM mdf", "", "", 26.5], ["edges", "", "m", "1.15"]
    )
    shown = [(c.row, c.name, c.before, c.after, c.percent, c.since) for c in found.changes]
    assert shown == [
        (2, "set-up", D("9.00"), D("10.00"), D("11.1"), SINCE),
        (3, "board, 22 mm MDF", D("25.50"), D("26.5"), D("3.9"), SINCE),
    ]
    assert found.unchanged == ("edges",)
    assert "boring" in found.not_listed
    assert "board, 18 mm MDF" in found.not_listed
    grown = with_charges(book, found)
    assert check_book(grown) == []
    before, after = book.workshops[0].rates, grown.workshops[0].rates
    assert after[:-1] == before
    new = after[-1]
    assert (new.since, new.source) == (SINCE, "winter list; all else as from 2026-03-02")
    assert (new.set_up, new.board_m2["22 mm MDF"], new.part) == (D("10.00"), D("26.5"), before[-1].part)
    assert valid_on(after, SINCE - timedelta(days=1)) == before[-1]
    again = held(grown, ["set-up", "", "", 10], since=SINCE + timedelta(days=9))
    assert (again.changes, again.sets) == ((), ())


def test_a_lead_time_is_charged_with_the_rest_from_its_day(book: Book) -> None:
    grown = with_charges(book, held(book, ["lead time", "", "working days", "15"]))
    shop = grown.workshops[0]
    assert (shop.lead_days, shop.lead_on(SINCE - timedelta(days=1)), shop.lead_on(SINCE)) == (12, 12, 15)


def test_every_fault_at_once_with_its_row_and_the_nearest_that_is_known(book: Book) -> None:
    said = told(
        book,
        ["bord", "22 mm MDF", "", 26],
        ["board", "22mm MDF", "", 26],
        ["boring", "", "", -1],
        ["coating", "", "", "4.20 GBP"],
        ["delivery", "", "km", 90, "EUR"],
        ["edges", "", "", 1, "CHF"],
        ["handling", "", "", "1.234"],
        ["lead time", "", "", "3.5"],
        ["set-up", "22 mm MDF", "", 3],
        ["section", "", "", 3],
        ["", "", "", 3],
        ["least charge", "", "", "1e99"],
        ["least charge", "", "", 1e12],
        ["set-up", "", "", 1 / 3],
        ["set-up", "", "", "9", "", "2027-13-01"],
        ["set-up", "", "", float("nan")],
    )
    assert said == [
        "row 2: the book knows no charge 'bord'; did you mean board?",
        "row 3: the book has no board '22mm MDF'; did you mean 22 mm MDF?",
        "row 4 (boring): a price of -1 is below zero",
        "row 5 (coating): it is in GBP and the book in EUR; a list has to be in EUR",
        "row 6 (delivery): the book counts delivery by the order, not by 'km'; give its price so",
        "row 7 (edges): it is in CHF and the book in EUR; a list has to be in EUR",
        "row 8 (handling): '1.234' can't be read as a price for certain; write it like 48.00",
        "row 9 (lead time): '3.5' is no lead time; write whole working days from 0 to 365",
        "row 10: set-up is one price for every board and section; leave 'of' empty",
        "row 11: say which section it is for, under the heading 'of'",
        "row 12: it has a price but does not say what for; write the charge beside it",
        "row 13 (least charge): '1e99' can't be read as a price for certain; write it like 48.00",
        "row 14 (least charge): a price of 1.000e+12 is more than anything costs; write what it costs",
        "row 15 (set-up): a price of 0.3333333333333333 has more places than a book keeps; round it",
        "row 16 (set-up): '2027-13-01' is not a day; write it as 2026-12-01",
        "row 17 (set-up): 'nan' can't be read as a price for certain; write it like 48.00",
    ]


def test_times_that_overlap_are_refused_and_times_that_follow_are_not(book: Book) -> None:
    first, then = ["edges", "", "", 1.2, "", "2027-01-01", "2027-06-30"], ["edges", "", "", 1.3, "", "2027-07-01"]
    found = held(book, first, then)
    assert [(c.since, c.before, c.after) for c in found.changes] == [
        (date(2027, 1, 1), D("1.15"), D("1.2")),
        (date(2027, 7, 1), D("1.2"), D("1.3")),
    ]
    assert found.remarks == ()
    then[5] = "2027-06-30"
    assert told(book, first, then) == [
        "row 3 (edges): it begins on 2027-06-30, while row 2 holds until 2027-06-30; end that one before"
    ]
    assert told(book, first, ["edge", "", "", 1.3, "", "2027-01-01"]) == [
        "row 3 (edges): row 2 has 1.2 from 2027-01-01 and this one 1.3; keep one of them"
    ]
    assert told(book, ["edges", "", "", 1.2, "", "2027-02-01", "2027-01-01"]) == [
        "row 2 (edges): it ends on 2027-01-01, before it begins on 2027-02-01; change the days over"
    ]
    alone = tuple(map(str, held(book, first).remarks))
    assert alone == ("Row 2, edges: the list ends it on 2027-06-30; in the book it holds until another comes.",)


def test_what_the_book_has_from_that_day_or_later_is_not_overwritten(book: Book) -> None:
    has = book.workshops[0].rates[0].since
    assert told(book, ["edges", "", "", 1.2], since=has) == [
        "row 2 (edges): the book has 1.15 from 2026-03-02 already; give the list another day, or correct the book"
    ]
    assert held(book, ["edges", "", "", 1.15], since=has).unchanged == ("edges",)
    grown = with_charges(book, held(book, ["edges", "", "", 1.4], since=date(2027, 6, 1)))
    said = told(grown, ["edges", "", "", 1.2, "", "2027-01-01", "2027-12-31"])
    assert said == [
        "row 2 (edges): it is said to hold until 2027-12-31, while the book has 1.4 from 2027-06-01; end it before"
    ]
    between = held(grown, ["edges", "", "", 1.2])
    assert tuple(map(str, between.remarks)) == (
        "From 2027-06-01 on, the charges hold that the book has from that day already.",
    )


def test_before_the_first_set_a_list_has_to_have_all_of_it(book: Book) -> None:
    (said,) = told(book, ["set-up", "", "", 8], since=date(2025, 1, 1))
    assert said.endswith("it lacks handling, edges, boring, coating, delivery, a board")
    rows = [
        ["board", "18 mm MDF", "", 20],
        *([name, "", "", 5] for name in ("set-up", "handling", "edges", "boring", "coating", "delivery")),
    ]
    found = held(book, *rows, since=date(2025, 1, 1))
    assert {c.before for c in found.changes} == {None}
    assert check_book(with_charges(book, found)) == []


def test_lists_that_are_none(book: Book) -> None:
    with pytest.raises(
        InputError, match="no row has headings for charge and price; write 'charge' and 'price' over them"
    ):
        held(book, ["x"], head=["a", "b"])
    assert told(book, ["set-up", "", "", ""]) == ["the list: no row has a charge and a price"]
    with pytest.raises(InputError, match="has no workshop 'Quarry Lain Workshop'; did you mean Quarry Lane Workshop"):
        workshop_list([(1, HEAD)], book, "Quarry Lain Workshop", since=SINCE, source="x")
    with pytest.raises(InputError, match="write whose list it is"):
        workshop_list([(1, HEAD), (2, ["edges", "", "", 2])], book, SHOP, since=SINCE, source=" ")
    with pytest.raises(InputError, match="no workshop charges for so much"):
        held(book, *([["edges", "", "", 2]] * 2001))


def test_headings_that_are_slips_are_pointed_at(book: Book) -> None:
    found = held(book, ["edges", 2, "2027-02-01", "x"], head=["charge", "price", "form", "remark of ours"])
    assert tuple(map(str, found.remarks)) == (
        "The column 'form' is not read; did you mean from?",
        "The column 'remark of ours' is not read.",
    )
    with pytest.raises(InputError, match="; row 1 has 'chrage': did you mean charge"):
        held(book, ["edges", 2], head=["chrage", "price"])


def test_a_blank_list_has_every_charge_and_reads_back_filled_in(book: Book) -> None:
    blank = blank_charges(book)
    assert {row[0] for row in blank[1:]} == {charge.name for charge in CHARGES}
    filled = [[*row[:3], "7", *row[4:]] for row in blank[1:]]
    found = held(book, *filled, since=date(2025, 1, 1))
    assert len(found.changes) == len(filled)
    (new,) = found.sets
    assert new.source == "winter list"
    assert set(new.board_m2) == {board.name for board in book.boards}


@given(
    st.lists(
        st.tuples(st.integers(0, 900), st.sampled_from(["edges", "boring"]), st.integers(1, 500)),
        max_size=6,
        unique_by=lambda row: (row[0], row[1]),
    )
)
def test_history_is_kept_and_each_charge_holds_from_its_day(rows: list[tuple[int, str, int]]) -> None:
    book = parse_book(sample_book_text())
    days = [(SINCE + timedelta(days=day), name, D(cents) / 100) for day, name, cents in rows]
    if not days:
        return
    found = held(book, *([name, "", "", amount, "", day] for day, name, amount in days))
    grown = with_charges(book, found)
    rates = grown.workshops[0].rates
    assert rates[: len(book.workshops[0].rates)] == book.workshops[0].rates
    assert check_book(grown) == []
    for day, name, amount in days:
        holds = valid_on(rates, day)
        assert holds is not None
        assert (holds.edge_m if name == "edges" else holds.boring) == amount
    assert parse_book(add_charges(sample_book_text(), SHOP, found.sets)) == grown


def test_held_again_after_it_was_put_in_nothing_is_left(book: Book) -> None:
    found = held(book, ["edges", "", "", 1.2, "", "2027-01-01"], ["board", "22 mm MDF", "", 27, "", "2027-03-01"])
    again = hold_charges(found.listed, with_charges(book, found), SHOP, source="winter list")
    assert (again.changes, again.sets) == ((), ())
