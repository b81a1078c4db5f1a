"""What a workshop charges for, by the words of a list; and a workshop's list read row by row."""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from datetime import date as Date  # noqa: N812
from decimal import Decimal
from itertools import pairwise

from rodbook.errors import Fault, InputError, Message, Place
from rodbook.job import Book
from rodbook.job.faults import nearest
from rodbook.money.suppliers.list_rows import (
    Rows,
    amount_said,
    cell_of,
    columns_of,
    day_said,
    not_read,
    whole_of,
    word_of,
)

__all__ = ["CHARGES", "CHARGE_HEADINGS", "Charge", "ListedCharge", "ReadCharges", "blank_charges", "read_charges"]

CHARGE_HEADINGS: Mapping[str, tuple[str, ...]] = {
    "charge": ("charge", "what", "item", "name", "description"),
    "of": ("of", "board or section", "material", "made from"),
    "unit": ("per", "unit"),
    "price": ("price", "net price", "net", "amount", "each"),
    "currency": ("currency",),
    "since": ("from", "since", "valid from"),
    "until": ("until", "to", "valid until"),
}
"""Words that a column's heading may have; charge and price there must be."""

MOST_ROWS = 2_000
"""No workshop's list of charges is longer."""

MOST_LEAD = 365
"""Longest lead time that a book takes. [working days]"""


@dataclass(frozen=True)
class Charge:
    """Something that a workshop charges for.

    Parameters
    ----------
    field : str
        What the book's rates call it.
    name, unit : str
        In words: what it is, and per what; the unit of a lead time is its own.
    words, units : tuple of str
        Further words for either, in small letters.
    by : str
        "boards" or "sections" where it is charged by material, else empty.
    needed : bool
        Whether rates can't be without it.
    """

    field: str
    name: str
    unit: str
    words: tuple[str, ...]
    units: tuple[str, ...]
    by: str = ""
    needed: bool = True


_AREA = ("m2", "m²", "sq m", "square metre", "square meter")
_METRE = ("m", "metre", "meter", "running metre")
_PART = ("part", "piece", "each")
_ORDER = ("order", "delivery", "each")

CHARGES: tuple[Charge, ...] = (
    Charge(
        "set_up",
        "set-up",
        "distinct part",
        ("set up", "setup", "setting up", "set-up for each distinct size", "set-up for each distinct part"),
        ("distinct size", "size", *_PART),
    ),
    Charge("part", "handling", "part", ("part", "piece", "handling and labelling", "each part", "per piece"), _PART),
    Charge("board_m2", "board", "m²", ("boards", "board cut to size", "cut to size"), _AREA, by="boards", needed=False),
    Charge(
        "section_m",
        "section",
        "metre",
        ("sections", "section cut to length", "cut to length"),
        _METRE,
        by="sections",
        needed=False,
    ),
    Charge("edge_m", "edges", "metre", ("edge", "metre of edge", "edges arrised, filled and sanded"), _METRE),
    Charge("boring", "boring", "hole", ("borings", "hole", "holes", "bored hole"), ("boring", "cup", "each")),
    Charge(
        "coat_m2",
        "coating",
        "m² and coat",
        ("coat", "coats", "finish", "finishing", "finish by area and coat"),
        (*_AREA, *(f"{area} and coat" for area in _AREA), "coat and m²", "coat and m2"),
    ),
    Charge("delivery", "delivery", "order", ("carriage",), _ORDER),
    Charge(
        "least_order",
        "least charge",
        "order",
        ("least order", "least charge for an order", "smallest order"),
        _ORDER,
        needed=False,
    ),
    Charge(
        "lead_days",
        "lead time",
        "working days",
        ("lead", "order to delivery", "delivery time"),
        ("days", "working day", "day"),
        needed=False,
    ),
)
"""Every charge, in the order of a list."""

BY_FIELD: Mapping[str, Charge] = {charge.field: charge for charge in CHARGES}


@dataclass(frozen=True)
class ListedCharge:
    """A charge as a list has it.

    Parameters
    ----------
    row : int
    field : str
        Of `CHARGES`.
    of : str
        Board or section as the book calls it; empty where it is the same for all.
    amount : Decimal
        [currency per unit, or working days]
    since : date
    until : date, optional
        Last day on which it holds, where the list says one.
    """

    row: int
    field: str
    of: str
    amount: Decimal
    since: Date
    until: Date | None = None

    @property
    def key(self) -> tuple[str, str]:
        """What it is for."""
        return self.field, self.of

    @property
    def at(self) -> Place:
        """Its place in the list."""
        return Place(("rows", self.row - 1), charge_name(self.field, self.of))


def charge_name(field: str, of: str) -> str:
    """What a charge is called on a page: the board where it is by board.

    >>> charge_name("board_m2", "22 mm MDF"), charge_name("edge_m", "")
    ('board, 22 mm MDF', 'edges')
    """
    name = BY_FIELD[field].name
    return f"{name}, {of}" if of else name


@dataclass(frozen=True)
class ReadCharges:
    """A workshop's list, read: its charges, what is wrong, for what rows there are that can't be read, and columns left alone."""

    listed: tuple[ListedCharge, ...]
    faults: tuple[Fault, ...]
    unread: frozenset[tuple[str, str]]
    remarks: tuple[Message, ...] = ()


def _materials(book: Book) -> dict[str, dict[str, str]]:
    return {
        "boards": {word_of(board.name): board.name for board in book.boards},
        "sections": {word_of(section.name): section.name for section in book.sections},
    }


_WORDS = {word_of(word): charge for charge in CHARGES for word in (charge.name, *charge.words)}
_ONE = {"boards": "board", "sections": "section"}


def _what(row: Sequence[object], columns: Mapping[str, int], book: Book) -> tuple[Charge, str] | Message:
    """The charge of a row and its board or section, or what is wrong."""
    shown, of = (" ".join(str(cell_of(row, columns.get(c)) or "").split()) for c in ("charge", "of"))
    materials = _materials(book)
    charge = _WORDS.get(word_of(shown))
    if charge is None and not of:
        for by, names in materials.items():
            if (name := names.get(word_of(shown))) is not None:
                return next(c for c in CHARGES if c.by == by), name
    if charge is None:
        known = [c.name for c in CHARGES] + ([] if of else [n for names in materials.values() for n in names.values()])
        return Message("money.unknown_charge", typed=shown[:60], hint=nearest(shown, known))
    if not charge.by:
        one = Message("money.charge_without_of", charge=charge.name, heading=CHARGE_HEADINGS["of"][0])
        return one if of else (charge, "")
    names = materials[charge.by]
    if not of:
        return Message("money.charge_needs_of", kind=_ONE[charge.by], heading=CHARGE_HEADINGS["of"][0])
    if word_of(of) not in names:
        hint = nearest(of, list(names.values()))
        return Message("money.charge_of_unknown", kind=_ONE[charge.by], typed=of[:60], hint=hint)
    return charge, names[word_of(of)]


def _unit_fault(charge: Charge, cell: object) -> Message | None:
    word = re.sub(r"^(per|an|a|each|/)\s+|^/", "", word_of(cell))
    if not word or word in (word_of(charge.unit), *charge.units):
        return None
    return Message("money.charge_by_other_unit", charge=charge.name, unit=charge.unit, typed=word[:40])


def _amount(charge: Charge, row: Sequence[object], columns: Mapping[str, int], book: Book) -> Decimal | Message:
    cell = cell_of(row, columns["price"])
    if charge.field != "lead_days":
        return amount_said(cell, cell_of(row, columns.get("currency")), book.currency, book.locale)
    days = whole_of(cell)
    if days is None or not 0 <= days <= MOST_LEAD:
        return Message("money.not_a_lead_time", typed=str(cell)[:40], most=MOST_LEAD)
    return Decimal(days)


def _row(
    number: int, row: Sequence[object], columns: Mapping[str, int], book: Book, since: Date
) -> tuple[ListedCharge | None, tuple[str, str] | None, list[Fault]]:
    """A charge, or for what the row is and everything that is wrong with it."""
    result = _what(row, columns, book)
    days = [day_said(cell_of(row, columns.get(c))) for c in ("since", "until")]
    wrong = [day for day in days if isinstance(day, Message)]
    first, until = (None if isinstance(day, Message) else day for day in days)
    first = first or since
    if not wrong and until is not None and until < first:
        wrong.append(Message("money.charge_ends_before_it_begins", until=until, since=first))
    at = Place(("rows", number - 1))
    if isinstance(result, Message):
        return None, None, [Fault(at, answer) for answer in (result, *wrong)]
    charge, of = result
    if unit := _unit_fault(charge, cell_of(row, columns.get("unit"))):
        wrong.append(unit)
    amount = _amount(charge, row, columns, book)
    if isinstance(amount, Message):
        wrong.append(amount)
    if wrong or isinstance(amount, Message):
        at = at.marked(charge_name(charge.field, of))
        return None, (charge.field, of), [Fault(at, answer) for answer in wrong]
    return ListedCharge(number, charge.field, of, amount, first, until), None, []


def _empty(cell: object) -> bool:
    return cell is None or not str(cell).strip()


def _clashes(listed: Sequence[ListedCharge]) -> Iterator[Fault | ListedCharge]:
    """Charges that stand once for each time; what stands twice at two prices, or for times that overlap, as faults."""
    by_key: dict[tuple[str, str], list[ListedCharge]] = {}
    for one in listed:
        by_key.setdefault(one.key, []).append(one)
    for same in by_key.values():
        same.sort(key=lambda one: (one.since, one.row))
        yield same[0]
        for before, one in pairwise(same):
            if one.since == before.since and one.amount == before.amount and one.until == before.until:
                continue
            if one.since == before.since:
                yield Fault(
                    one.at,
                    "money.charge_at_two_prices",
                    row=before.row,
                    other=before.amount,
                    since=one.since,
                    amount=one.amount,
                )
            elif before.until is not None and before.until >= one.since:
                yield Fault(one.at, "money.charges_overlap", since=one.since, row=before.row, until=before.until)
            else:
                yield one


def read_charges(rows: Rows, book: Book, *, since: Date) -> ReadCharges:
    """Read a workshop's list of charges.

    Parameters
    ----------
    rows : sequence of (int, sequence)
        Rows with their numbers; one of the first has headings, see `CHARGE_HEADINGS`. Rows without a price are left out.
    book : Book
    since : date
        From which those hold that say no day of their own.

    Returns
    -------
    ReadCharges
        With every fault of its rows: an unknown charge, board or section with the nearest that is known, another unit or
        currency, an amount that can't be read for certain or is below zero, a charge twice for the same time.

    Raises
    ------
    InputError
        If there are no headings, or far too many rows.
    """
    at, columns = columns_of(rows, CHARGE_HEADINGS, (("charge",), ("price",)))
    if len(rows) - at > MOST_ROWS:
        raise InputError.at("list", "money.too_many_charges", most=MOST_ROWS)
    listed: list[ListedCharge] = []
    faults: list[Fault] = []
    unread: set[tuple[str, str]] = set()
    for number, row in rows[at + 1 :]:
        if _empty(cell_of(row, columns["price"])):
            continue
        if _empty(cell_of(row, columns["charge"])):
            faults.append(Fault(("rows", number - 1), "money.charge_without_name"))
            continue
        one, key, wrong = _row(number, row, columns, book, since)
        listed += [one] if one else []
        unread |= {key} if key else set()
        faults += wrong
    sound: list[ListedCharge] = []
    for result in _clashes(listed):
        if isinstance(result, Fault):
            faults.append(result)
        else:
            sound.append(result)
    if not sound and not faults:
        faults.append(Fault("list", "money.no_charge_in_list"))
    faults.sort(key=_row_of)
    remarks = tuple(not_read(rows[at][1], CHARGE_HEADINGS))
    return ReadCharges(tuple(sorted(sound, key=lambda one: one.row)), tuple(faults), frozenset(unread), remarks)


def _row_of(fault: Fault) -> int:
    match fault.at.path:
        case ("rows", int(row), *_):
            return row
        case _:
            return -1


def blank_charges(book: Book) -> list[list[str]]:
    """A blank list of charges for a workshop to fill in: every charge, board and section of a book, without prices.

    Parameters
    ----------
    book : Book

    Returns
    -------
    list of list of str
        Headings first.
    """
    rows = [["charge", "of", "per", "price", "currency", "from", "until"]]
    for charge in CHARGES:
        names = {"boards": [b.name for b in book.boards], "sections": [s.name for s in book.sections]}.get(
            charge.by, [""]
        )
        currency = "" if charge.field == "lead_days" else book.currency
        rows += [[charge.name, name, charge.unit, "", currency, "", ""] for name in names]
    return rows
