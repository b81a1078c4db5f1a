"""Changes to the firm's book, on its plain values: what was typed in, a new document out. Pure, and checked elsewhere.

A price or a rate is never overwritten by another day's: the new one is added with the day from which it holds, and the
old one stays for jobs of its time. One that is typed again for the same day puts a slip right.
"""

from __future__ import annotations

import copy
from collections.abc import Mapping, Sequence
from typing import Any, cast

from rodbook.desk.platform.changes import Value
from rodbook.errors import Fault, InputError, Place

__all__ = [
    "Raw",
    "Typed",
    "add_entry",
    "add_size",
    "copy_build_up",
    "entries_of",
    "entry_at",
    "given",
    "put_build_up",
    "put_counts",
    "put_entry",
    "put_firm",
    "put_price",
    "put_prices",
    "put_rate",
    "put_size",
    "put_workshop_rates",
    "take_out_entry",
    "take_out_size",
]

SIZES = {"boards": "sheets", "sections": "lengths"}
"""What the sizes are called in which the entries of a list are sold."""

type Raw = dict[str, Value]
type Typed = Mapping[str, str]


def entries_of(raw: Mapping[str, Any], name: str) -> list[dict[str, Any]]:
    """The entries of a list, none where it is left out."""
    return cast("list[dict[str, Any]]", raw.get(name, []))


def entry_at(raw: Raw, name: str, number: int) -> dict[str, Any]:
    """The entry of a list, counted from 1.

    Raises
    ------
    InputError
        If there is none.
    """
    entries = entries_of(raw, name)
    if not 1 <= number <= len(entries):
        raise InputError.at("", "desk.entry_gone_from_book")
    return entries[number - 1]


def given(typed: Typed) -> dict[str, str]:
    """What was typed, without what was left blank."""
    return {name: value for name, value in typed.items() if value}


def _dated(
    entries: Sequence[dict[str, Any]], new: dict[str, Any], same: Sequence[str]
) -> tuple[list[dict[str, Any]], int]:
    """Entries with a new one, in the place of one that is the same but for its value; and its number from 1."""
    for at, entry in enumerate(entries):
        if all(entry.get(name) == new.get(name) for name in same):
            return [*entries[:at], new, *entries[at + 1 :]], at + 1
    return [*entries, new], len(entries) + 1


def put_firm(raw: Raw, firm: Typed, saw: Typed, money: Typed) -> Raw:
    """The firm's name and contact, what its saw takes off, its currency and how it writes numbers."""
    kept = {name: value for name, value in copy.deepcopy(raw).items() if name not in money}
    was = cast("dict[str, Any]", kept["firm"])
    same = all(was.get(name, "") == value for name, value in firm.items())
    mark = {"confirmed": was["confirmed"]} if same and "confirmed" in was else {}  # a name that is typed is confirmed
    return kept | {"firm": {**given(firm), **mark}, "saw": {**given(saw)}, **given(money)}


# --- whole entries: boards, sections, hinges, workshops, build-ups ------------------------------------------------

_NAMED_BY = {
    "boards": ("leaf_board", "lining_board", "end_panel_board"),
    "sections": ("trim", "cover_strip"),
    "hinges": ("hinge",),
    "fittings": ("handle", "catch", "drawer_fixing", "apron_fixing", "flap_stay"),
}
"""Fields of a build-up that name an entry of a list."""

_CHARGED = {"boards": "board_m2", "sections": "section_m"}
"""Workshops' rates by the entries of a list."""


def add_entry(raw: Raw, group: str, entry: Mapping[str, Any]) -> tuple[Raw, Place]:
    """One more entry of a list, after the last; and where it stands."""
    changed = copy.deepcopy(raw)
    entries = [*entries_of(changed, group), dict(entry)]
    changed[group] = cast("Value", entries)
    return changed, Place((group, len(entries) - 1))


def _same(raw: Raw, group: str, number: int, was: str) -> dict[str, Any]:
    """The entry of that number, as long as it is still the one of that name."""
    entry = entry_at(raw, group, number)
    if entry.get("name") != was:
        raise InputError.at("", "desk.gone_from_book", name=was)
    return entry


def put_entry(raw: Raw, group: str, number: int, was: str, typed: Typed) -> tuple[Raw, Place]:
    """Put what was typed into an entry; a new name goes to all in the book that name it. And where it stands.

    Parameters
    ----------
    raw : dict
    group : str
        Name of the list.
    number : int
        From 1.
    was : str
        Name of the entry when the form was opened.
    typed : mapping
        Its own fields.
    """
    changed = copy.deepcopy(raw)
    entry = _same(changed, group, number, was)
    kept = {name: value for name, value in entry.items() if name not in typed}
    entry.clear()
    entry.update({**given(typed), **kept})
    if (name := typed.get("name", was)) and name != was:
        for build_up in entries_of(changed, "build_ups"):
            build_up.update({field: name for field in _NAMED_BY.get(group, ()) if build_up.get(field) == was})
        _charges(changed, group, was, name)
        if group == "workshops":
            _supplier_days(changed, was, name)
    return changed, Place((group, number - 1))


def _charges(changed: Raw, group: str, was: str, name: str) -> None:
    """Carry the workshops' rates for an entry over to another name; without one they go."""
    field = _CHARGED.get(group, "")
    for workshop in entries_of(changed, "workshops") if field else ():
        for rates in workshop["rates"]:
            if was in rates.get(field, {}):
                moved = {name if known == was else known: value for known, value in rates[field].items()}
                rates[field] = {known: value for known, value in moved.items() if known}


def _supplier_days(changed: Raw, was: str, name: str) -> None:
    """Carry what is said of a workshop's days over to another name; without one it goes."""
    dates = changed.get("dates")
    if not isinstance(dates, dict) or not dates.get("suppliers"):
        return
    suppliers = [dict(one) for one in cast("list[dict[str, Any]]", dates["suppliers"])]
    renamed = [one | ({"supplier": name} if one["supplier"] == was else {}) for one in suppliers]
    dates["suppliers"] = cast("Value", [one for one in renamed if one["supplier"]])


def take_out_entry(raw: Raw, group: str, number: int, was: str) -> tuple[Raw, Place]:
    """The book without an entry and without the workshops' rates for it."""
    changed = copy.deepcopy(raw)
    _same(changed, group, number, was)
    entries = entries_of(changed, group)
    changed[group] = cast("Value", [*entries[: number - 1], *entries[number:]])
    _charges(changed, group, was, "")
    if group == "workshops":
        _supplier_days(changed, was, "")
    return changed, Place()


def add_size(raw: Raw, group: str, number: int, was: str, size: Mapping[str, Any]) -> tuple[Raw, Place]:
    """One more size in which a board or section is sold; and where it stands."""
    changed = copy.deepcopy(raw)
    entry, sizes = _same(changed, group, number, was), SIZES[group]
    entry[sizes] = [*entry[sizes], dict(size)]
    return changed, Place((group, number - 1, sizes, len(entry[sizes]) - 1))


def put_size(raw: Raw, group: str, number: int, was: str, size: str, typed: Typed) -> tuple[Raw, Place]:
    """What a size is called and how long and wide it is; its prices stay. And where it stands."""
    changed = copy.deepcopy(raw)
    sold = _same(changed, group, number, was)[SIZES[group]]
    for at, known in enumerate(sold, 1):
        if known["name"] == size:
            sold[at - 1] = {**given(typed), "prices": known["prices"]}
            return changed, Place((group, number - 1, SIZES[group], at - 1))
    raise InputError.at("", "desk.gone_from_book", name=size)


def take_out_size(raw: Raw, group: str, number: int, was: str, size: str) -> tuple[Raw, Place]:
    """The book without a size of a board or section; the last one stays."""
    changed = copy.deepcopy(raw)
    entry, sizes = _same(changed, group, number, was), SIZES[group]
    left = [known for known in entry[sizes] if known["name"] != size]
    if not left:
        raise InputError.at("", "desk.only_size", size=size, stock=was)
    entry[sizes] = left
    return changed, Place()


def put_counts(raw: Raw, rows: Sequence[Typed], source: str) -> Raw:
    """The table of hinge counts, without its blank rows, and where it comes from."""
    counts = [given(row) for row in rows if any(row.values())]
    return copy.deepcopy(raw) | {"hinge_counts": cast("Value", counts), "hinge_counts_source": source}


def put_rate(raw: Raw, typed: Typed, unit: str) -> tuple[Raw, Place]:
    """A rate from a day on; and where in the document it stands, for its faults."""
    changed = copy.deepcopy(raw)
    rates = entries_of(changed, "rates")
    entries, number = _dated(rates, {**_carried(rates, typed), **given(typed), "unit": unit}, ("name", "since"))
    changed["rates"] = cast("Value", entries)
    return changed, Place(("rates", number - 1))


def _carried(rates: Sequence[dict[str, Any]], typed: Typed) -> dict[str, Any]:
    """Spread and learning of the rate's latest entry, which a new middle keeps: nine in ten stay under as many times it."""
    known = [entry for entry in rates if entry.get("name") == typed.get("name")]
    if not known:
        return {}
    latest = max(known, key=lambda entry: str(entry.get("since", "")))
    carried = {"learning": latest["learning"]} if "learning" in latest else {}
    try:
        ratio = float(latest["nine_in_ten"]) / float(latest["value"])
        carried["nine_in_ten"] = round(ratio * float(typed["value"]), 6)
    except (KeyError, TypeError, ValueError, ZeroDivisionError):
        pass  # no spread to carry, or a value whose fault is told by the book's own checks
    return carried


def put_price(raw: Raw, group: str, size: tuple[int, int], typed: Typed) -> tuple[Raw, Place]:
    """A price of a sheet (`group` "boards") or a length ("sections") from a day on; and where it stands.

    Parameters
    ----------
    raw : dict
    group : str
    size : (int, int)
        Number of the board or section, and of its size, from 1.
    typed : mapping
        amount, since, source.
    """
    changed = copy.deepcopy(raw)
    sizes = SIZES[group]
    entry = entry_at(cast("Raw", entry_at(changed, group, size[0])), sizes, size[1])
    entry["prices"], number = _dated(entry["prices"], dict(given(typed)), ("since",))
    return changed, Place((group, size[0] - 1, sizes, size[1] - 1, "prices", number - 1))


def put_prices(raw: Raw, entries: Sequence[tuple[str, str, str]], about: Typed) -> tuple[Raw, Place]:
    """Prices of a list from one day on, put beside those that stand; and where they stand.

    Parameters
    ----------
    raw : dict
    entries : sequence of (str, str, str)
        Board or section, its sheet or length, and the price.
    about : mapping
        since, source.

    Raises
    ------
    InputError
        With every one that is not in the book any more, or has another price from that very day.
    """
    changed = copy.deepcopy(raw)
    sold = {
        (entry["name"], size["name"]): size
        for group, sizes in SIZES.items()
        for entry in entries_of(changed, group)
        for size in entry[sizes]
    }
    faults = []
    for stock, name, amount in entries:
        size = sold.get((stock, name))
        same = next((p for p in size["prices"] if p["since"] == about["since"]), None) if size else None
        if size is None:
            faults.append(Fault("", "desk.size_gone_from_book", name=name, stock=stock))
        elif same is not None and str(same["amount"]) != amount:
            faults.append(Fault(name, "desk.price_stands_already", amount=same["amount"], since=about["since"]))
        elif same is None:
            size["prices"] = [*size["prices"], {"amount": amount, **given(about)}]
    if faults:
        raise InputError(faults)
    return changed, Place()


def put_workshop_rates(raw: Raw, number: int, typed: Typed, boards: Typed, sections: Typed) -> tuple[Raw, Place]:
    """A workshop's rates from a day on; and where they stand."""
    changed = copy.deepcopy(raw)
    entry = entry_at(changed, "workshops", number)
    new = {**given(typed), "board_m2": dict(given(boards)), "section_m": dict(given(sections))}
    entry["rates"], at = _dated(entry["rates"], new, ("since",))
    return changed, Place(("workshops", number - 1, "rates", at - 1))


def put_build_up(raw: Raw, number: int, was: str, name: str, typed: Typed) -> tuple[Raw, Place]:
    """A build-up's figures and its name, which was `was`; its family stays. And where it stands."""
    changed = copy.deepcopy(raw)
    entry = _same(changed, "build_ups", number, was)
    kept = given({"name": name}) | {"family": entry["family"]}
    entry.clear()
    entry.update(kept | given(typed))
    return changed, Place(("build_ups", number - 1))


def copy_build_up(raw: Raw, typed: Typed, name: str, family: str) -> tuple[Raw, Place]:
    """One more build-up with what was typed, under its own name; and where it stands."""
    changed = copy.deepcopy(raw)
    entries = entries_of(changed, "build_ups")
    changed["build_ups"] = cast("Value", [*entries, {"name": name, "family": family, **given(typed)}])
    return changed, Place(("build_ups", len(entries)))
