"""A workshop's list of charges against the book: what would change, from which day, before anything is changed.

Charges of a workshop stand in the book as sets, each from a day on. A list adds sets: what it does not name is carried over
from the set that holds on its day, and nothing that stands is overwritten.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from datetime import date as Date  # noqa: N812
from datetime import timedelta
from decimal import Decimal

from pydantic import ValidationError

from rodbook.errors import Fault, InputError, Message
from rodbook.job import Book
from rodbook.job.book import Workshop, WorkshopRates, valid_on
from rodbook.job.faults import faults_of, nearest
from rodbook.money.suppliers.charges import BY_FIELD, CHARGES, ListedCharge, charge_name, read_charges
from rodbook.money.suppliers.list_rows import Rows, percent_more, refuse_source

__all__ = ["ChargeChange", "WorkshopList", "hold_charges", "with_charges", "workshop_list", "workshop_named"]


@dataclass(frozen=True)
class ChargeChange:
    """A charge that would change.

    Parameters
    ----------
    row : int
        Of the list.
    field, of : str
        See `CHARGES`; `of` is the board or section where it is by material.
    since : date
        From which it would hold.
    before : Decimal, optional
        What holds on that day by the book; None where nothing does. [currency per unit, or working days]
    after : Decimal
        [currency per unit, or working days]
    """

    row: int
    field: str
    of: str
    since: Date
    before: Decimal | None
    after: Decimal

    @property
    def name(self) -> str:
        """What it is called on a page."""
        return charge_name(self.field, self.of)

    @property
    def unit(self) -> str:
        """Per what, in words."""
        return BY_FIELD[self.field].unit

    @property
    def percent(self) -> Decimal | None:
        """By how much; None where there was nothing. [%]"""
        return percent_more(self.before, self.after)


@dataclass(frozen=True)
class WorkshopList:
    """What a workshop's list would do to the book.

    Parameters
    ----------
    workshop, source : str
    listed : tuple of ListedCharge
        The list as it was read.
    changes : tuple of ChargeChange
        By day, the largest first.
    unchanged : tuple of str
        Charges that the list has as the book has them.
    not_listed : tuple of str
        Charges of the workshop that the list does not have; they are carried over.
    remarks : tuple of Message
        What else to know.
    sets : tuple of WorkshopRates
        The sets of rates that would be added.
    """

    workshop: str
    source: str
    listed: tuple[ListedCharge, ...]
    changes: tuple[ChargeChange, ...]
    unchanged: tuple[str, ...]
    not_listed: tuple[str, ...]
    remarks: tuple[Message, ...]
    sets: tuple[WorkshopRates, ...]


def workshop_named(book: Book, name: str) -> Workshop:
    """The workshop of a name, whatever its capitals.

    Raises
    ------
    InputError
        If the book has none of that name.
    """
    results = [shop for shop in book.workshops if shop.name.casefold() == " ".join(name.split()).casefold()]
    if results:
        return results[0]
    known = [shop.name for shop in book.workshops]
    text = nearest(name, known) if known else Message("money.no_workshops_yet")
    raise InputError.at("workshop", "money.unknown_workshop", name=name[:60], hint=text)


def _value(shop: Workshop, rates: WorkshopRates | None, key: tuple[str, str]) -> Decimal | None:
    """What a set of rates has for a charge."""
    field, of = key
    if rates is None:
        return None
    if field == "lead_days":
        return Decimal(shop.lead_days if rates.lead_days is None else rates.lead_days)
    if of:
        by_material: Mapping[str, Decimal] = getattr(rates, field)
        return by_material.get(of)
    amount: Decimal = getattr(rates, field)
    return amount


def _keys(rates: WorkshopRates) -> Iterator[tuple[str, str]]:
    """What a set of rates has charges for."""
    for charge in CHARGES:
        for of in getattr(rates, charge.field) if charge.by else ("",):
            yield charge.field, of


def _set_of(since: Date, source: str, base: WorkshopRates | None, rows: Sequence[ListedCharge]) -> WorkshopRates:
    """A set with what the list has, and all else as it stands."""
    values: dict[str, object] = {} if base is None else dict(base)
    values |= {field: dict(getattr(base, field, {})) for field in ("board_m2", "section_m")}
    for row in rows:
        if row.of:
            by_material = values[row.field]
            assert isinstance(by_material, dict)
            by_material[row.of] = row.amount
        else:
            values[row.field] = int(row.amount) if row.field == "lead_days" else row.amount
    listed = {row.key for row in rows}
    if base is not None and any(key not in listed for key in _keys(base)):
        source = f"{source.strip()}; all else as from {base.since}"
    values |= {"since": since, "source": source}
    try:
        return WorkshopRates.model_validate(values)
    except ValidationError as error:
        raise InputError(faults_of(error, WorkshopRates, values)) from None


def _lacking(
    base: WorkshopRates | None, rows: Sequence[ListedCharge], unread: frozenset[tuple[str, str]]
) -> Iterator[str]:
    """Names of charges that a first set needs and the list does not have."""
    there = {row.field for row in rows} | {field for field, _ in unread}
    if base is None:
        yield from (charge.name for charge in CHARGES if charge.needed and charge.field not in there)
        if "board_m2" not in there:
            yield "a board"


def _ends(one: ListedCharge, listed: Sequence[ListedCharge]) -> bool:
    """Whether a charge says when it ends and no other follows on the next day."""
    if one.until is None:
        return False
    follows = one.until + timedelta(days=1) if one.until < Date.max else Date.max
    return not any(other.key == one.key and one.since < other.since <= follows for other in listed)


def hold_charges(
    listed: Sequence[ListedCharge],
    book: Book,
    workshop: str,
    *,
    source: str,
    faults: Sequence[Fault] = (),
    unread: frozenset[tuple[str, str]] = frozenset(),
) -> WorkshopList:
    """Hold charges that were read against those that the book has.

    Parameters
    ----------
    listed : sequence of ListedCharge
        Each once for each time.
    book : Book
    workshop : str
        As the book calls it, whatever its capitals.
    source : str
        What they are from.
    faults : sequence of Fault
        What was wrong with the list already, to be told together.
    unread : frozenset
        What rows are for that could not be read, so that they are not called missing.

    Returns
    -------
    WorkshopList

    Raises
    ------
    InputError
        With every fault: an unknown workshop, a charge from that very day that is in the book at another amount, one that is said
        to hold on beyond the day from which the book has another, a first set that lacks charges.
    """
    lines = list(faults)
    refuse_source(source)
    shop = workshop_named(book, workshop)
    own = {rates.since: rates for rates in shop.rates}
    made: dict[Date, WorkshopRates] = {}
    changes: list[ChargeChange] = []
    unchanged: dict[str, None] = {}
    lacked = False
    for day in sorted({one.since for one in listed}):
        rows = [one for one in listed if one.since == day]
        base = valid_on((*own.values(), *made.values()), day)
        moved = [row for row in rows if _value(shop, base, row.key) != row.amount]
        unchanged |= {charge_name(*row.key): None for row in rows if row not in moved}
        for row in moved if day in own else ():
            stands = _value(shop, base, row.key)
            if stands is None:
                lines.append(Fault(row.at, "money.charge_absent_already", since=day))
            else:
                lines.append(Fault(row.at, "money.charge_stands_already", amount=stands, since=day))
        for row in rows:
            lines += _beyond(shop, row)
        if not moved or day in own:
            continue
        lacking = [] if lacked else list(_lacking(base, rows, unread))
        if lacking:
            lacked = True
            lines.append(Fault("list", "money.charges_lacking", workshop=shop.name, day=day, names=lacking))
            continue
        changes += [
            ChargeChange(row.row, row.field, row.of, day, _value(shop, base, row.key), row.amount) for row in moved
        ]
        if not lines and not unread and not lacked:
            made[day] = _set_of(day, source, base, rows)
    if lines:
        raise InputError(lines)
    changes.sort(key=lambda change: (change.since, -abs(change.percent or Decimal(0)), change.name))
    remarks = tuple(_remarks(shop, listed, made))
    rest = tuple(_not_listed(shop, listed))
    return WorkshopList(
        shop.name, source, tuple(listed), tuple(changes), tuple(unchanged), rest, remarks, tuple(made.values())
    )


def _beyond(shop: Workshop, row: ListedCharge) -> Iterator[Fault]:
    """A charge that is said to hold beyond a day from which the book has another one."""
    for rates in sorted(shop.rates, key=lambda r: r.since):
        if row.until is not None and row.since < rates.since <= row.until:
            stands = _value(shop, rates, row.key)
            if stands is not None and stands != row.amount:
                yield Fault(row.at, "money.charge_holds_too_long", until=row.until, amount=stands, since=rates.since)
                return


def _remarks(shop: Workshop, listed: Sequence[ListedCharge], made: Mapping[Date, WorkshopRates]) -> Iterator[Message]:
    for one in listed:
        if _ends(one, listed):
            name = charge_name(*one.key)
            yield Message("money.charge_end_not_kept", row=one.row, charge=name, until=one.until)
    for day in sorted({r.since for r in shop.rates if any(new < r.since for new in made)}):
        yield Message("money.later_charges_hold", day=day)


def _not_listed(shop: Workshop, listed: Sequence[ListedCharge]) -> Iterator[str]:
    latest = max(shop.rates, key=lambda rates: rates.since)
    there = {one.key for one in listed}
    yield from (charge_name(*key) for key in _keys(latest) if key not in there)


def workshop_list(rows: Rows, book: Book, workshop: str, *, since: Date, source: str) -> WorkshopList:
    """Hold a workshop's list of charges against the book.

    Parameters
    ----------
    rows : sequence of (int, sequence)
        Rows with their numbers; one of the first has headings for charge and price, and may have some for the board or section,
        the unit, the currency, and the days from which and until which a charge holds.
    book : Book
    workshop : str
    since : date
        From which those charges hold that say no day of their own.
    source : str
        What they are from.

    Returns
    -------
    WorkshopList

    Raises
    ------
    InputError
        With every fault of the list and of what it would do to the book; see `read_charges` and `hold_charges`.
    """
    shop = workshop_named(book, workshop)
    read = read_charges(rows, book, since=since)
    result = hold_charges(read.listed, book, shop.name, source=source, faults=read.faults, unread=read.unread)
    return replace(result, remarks=(*read.remarks, *result.remarks))


def with_charges(book: Book, result: WorkshopList) -> Book:
    """The book with the sets of rates of a list added; what it had stays.

    Parameters
    ----------
    book : Book
        That the list was held against.
    result : WorkshopList
    """
    shops = tuple(
        shop.model_copy(update={"rates": (*shop.rates, *result.sets)}) if shop.name == result.workshop else shop
        for shop in book.workshops
    )
    return book.model_copy(update={"workshops": shops})
