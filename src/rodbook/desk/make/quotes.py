"""Workshops' quotes on the desk: the form that one is typed or looked at in, and how it is kept. Pure."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from datetime import date as Date  # noqa: N812
from decimal import Decimal
from typing import Any

from django.utils.translation import gettext as _

from rodbook.errors import Fault
from rodbook.job.amounts import read_money
from rodbook.job.numerals import as_typed
from rodbook.money import LumpSum, Quote, QuoteLine
from rodbook.setout import ScheduleLine

__all__ = ["HEADER", "LineRow", "filled_from", "line_rows", "quote_content", "quote_of", "typed_quote"]

HEADER = (
    "workshop",
    "reference",
    "day",
    "valid_until",
    "currency",
    "lead_days",
    "delivery",
    "least_order",
    "whole_only",
)
LUMPS = 3
_SPARE = 2
_MOST_LINES = 5_000
_MOST_LEAD = 365
_LONGEST = 200
"""No name of a workshop or mark is longer."""


@dataclass(frozen=True)
class LineRow:
    """A line of the form: number, what it is of, how many are ordered, and what was typed, with the fault of each cell."""

    number: int
    what: str
    ordered: str
    cells: tuple[tuple[str, str, str, str], ...]
    """Field, its kind, what was typed, its fault."""

    @property
    def faults(self) -> tuple[tuple[str, str], ...]:
        """Fields at fault and their sentences."""
        return tuple((field, fault) for field, _, _, fault in self.cells if fault)


CELLS = ("mark", "quantity", "amount", "stock")


def filled_from(lines: Iterable[QuoteLine], order: Sequence[ScheduleLine], locale: str) -> dict[str, str]:
    """The form's fields for lines of a list: those of the order in its own order, then what was not ordered."""
    offered = {line.mark: line for line in lines}
    listed = [line.mark for line in order] + [mark for mark in offered if all(mark != line.mark for line in order)]
    typed: dict[str, str] = {}
    for n, mark in enumerate(listed, 1):
        typed[f"line-{n}-mark"] = mark
        if (line := offered.get(mark)) is not None:
            typed[f"line-{n}-quantity"] = str(line.quantity)
            typed[f"line-{n}-amount"] = as_typed(line.amount, locale)
            typed[f"line-{n}-stock"] = line.stock
    return typed


def _filled(typed: Mapping[str, str]) -> list[int]:
    """Numbers of the lines that have anything in them."""
    numbers = {int(name.split("-")[1]) for name, value in typed.items() if name.startswith("line-") and value}
    return sorted(numbers)


def line_rows(typed: Mapping[str, str], order: Sequence[ScheduleLine], faults: Mapping[str, str]) -> list[LineRow]:
    """The lines of the form: those of the order, whatever was filled in besides, and a few empty ones."""
    wanted = {line.mark: line for line in order}
    filled = _filled(typed)
    last = max([*filled, 0])
    rows = []
    for n in [*filled, *range(last + 1, last + 1 + _SPARE)]:
        line = wanted.get(typed.get(f"line-{n}-mark", ""))
        what = f"{line.part.kind}, {line.part.stock}" if line else ""
        cells = tuple(
            (f"line-{n}-{cell}", cell, typed.get(f"line-{n}-{cell}", ""), faults.get(f"line-{n}-{cell}", ""))
            for cell in CELLS
        )
        rows.append(LineRow(n, what, str(line.quantity) if line else "", cells))
    return rows


def _day(typed: str, field: str, faults: list[Fault]) -> Date:
    try:
        return Date.fromisoformat(typed)
    except ValueError:
        said = {"typed": typed or _("nothing")}
        faults.append(Fault(field, "plain.text", text=_("%(typed)s is no day; write it as 2026-12-01") % said))
        return Date.min


def _amount(typed: str, field: str, faults: list[Fault], currency: str, locale: str) -> Decimal:
    if not typed:
        return Decimal(0)
    try:
        value = read_money(typed, currency, locale)
    except ValueError as error:
        faults.append(Fault(field, "plain.text", text=str(error)))
        return Decimal(0)
    if value < 0:
        faults.append(
            Fault(field, "plain.text", text=_("%(typed)s is below nought; write what it costs") % {"typed": typed})
        )
    elif value >= 10**9:
        faults.append(
            Fault(
                field, "plain.text", text=_("%(typed)s is more than any order; write what it costs") % {"typed": typed}
            )
        )
    else:
        return value
    return Decimal(0)


def _whole(typed: str, field: str, least: int, most: int, faults: list[Fault]) -> int:
    if typed.isdecimal() and len(typed) < 8 and least <= int(typed) <= most:
        return int(typed)
    told = {"typed": typed or _("nothing"), "least": least, "most": most}
    faults.append(
        Fault(
            field,
            "plain.text",
            text=_("%(typed)s does not do here; write a whole number from %(least)s to %(most)s") % told,
        )
    )
    return least


def typed_quote(
    posted: Mapping[str, str], order: Sequence[ScheduleLine], currency: str, locale: str
) -> tuple[Quote | None, dict[str, str], list[Fault]]:
    """A quote as it was typed.

    Parameters
    ----------
    posted : mapping
    order : sequence of ScheduleLine
        How many are ordered stands for a quantity that is not typed.
    currency, locale : str
        The book's.

    Returns
    -------
    tuple
        The quote where nothing is wrong; what was typed by field; a fault beside each field that is wrong.
    """
    typed = {name: posted.get(name, "").strip()[:_LONGEST] for name in HEADER}
    for name, value in posted.items():
        if name.startswith(("line-", "lump-")) and value.strip():
            parts = name.split("-")
            if len(parts) == 3 and parts[1].isdecimal() and 0 < int(parts[1][:6]) <= _MOST_LINES:
                typed[name] = value.strip()[: 4 * _LONGEST if name.startswith("lump-") else _LONGEST]
    faults: list[Fault] = []
    if not typed["workshop"]:
        faults.append(Fault("workshop", "plain.text", text=_("this is empty; write whose quote it is")))
    day, until = _day(typed["day"], "day", faults), _day(typed["valid_until"], "valid_until", faults)
    if Date.min < until < day:
        faults.append(
            Fault("valid_until", "plain.text", text=_("that is before the quote’s own day; write a later one"))
        )
    other = typed["currency"].upper() or currency
    if other != currency:
        told = {"other": other, "own": currency}
        faults.append(
            Fault(
                "currency",
                "plain.text",
                text=_("the quote is in %(other)s and the book in %(own)s; ask for it in %(own)s") % told,
            )
        )
    lead = _whole(typed["lead_days"], "lead_days", 0, _MOST_LEAD, faults)
    delivery, least = (_amount(typed[name], name, faults, currency, locale) for name in ("delivery", "least_order"))
    lines = _lines(typed, {line.mark: line.quantity for line in order}, faults, currency, locale)
    lumps = _lumps(typed, faults, currency, locale)
    _twice(lines, lumps, faults)
    if not lines and not lumps and not faults:
        faults.append(
            Fault("line-1-amount", "plain.text", text=_("nothing is priced yet; write what at least one line costs"))
        )
    if faults:
        return None, typed, faults
    quote = Quote(
        typed["workshop"], day, until, currency, lead, tuple(line for _, line in lines), tuple(lump for _, lump in lumps),
        delivery, least, bool(typed["whole_only"]), typed["reference"],
    )  # fmt: skip
    return quote, typed, []


def _lines(
    typed: Mapping[str, str], wanted: Mapping[str, int], faults: list[Fault], currency: str, locale: str
) -> list[tuple[int, QuoteLine]]:
    found = []
    for n in _filled(typed):
        mark, amount = typed.get(f"line-{n}-mark", ""), typed.get(f"line-{n}-amount", "")
        if not amount:
            continue  # a line without an amount is missing from the quote
        if not mark:
            faults.append(Fault(f"line-{n}-mark", "plain.text", text=_("this is empty; write the part’s mark")))
            continue
        said = typed.get(f"line-{n}-quantity", "")
        quantity = _whole(said, f"line-{n}-quantity", 1, 99_999, faults) if said else wanted.get(mark, 1)
        price = _amount(amount, f"line-{n}-amount", faults, currency, locale)
        found.append((n, QuoteLine(mark, quantity, price, typed.get(f"line-{n}-stock", ""))))
    return found


def _lumps(typed: Mapping[str, str], faults: list[Fault], currency: str, locale: str) -> list[tuple[int, LumpSum]]:
    found = []
    for n in range(1, LUMPS + 1):
        said, amount = typed.get(f"lump-{n}-marks", ""), typed.get(f"lump-{n}-amount", "")
        marks = tuple(dict.fromkeys(mark.strip() for mark in said.split(",") if mark.strip()))
        if amount and not marks:
            faults.append(
                Fault(
                    f"lump-{n}-marks",
                    "plain.text",
                    text=_("this is empty; write the marks that the sum is for, with commas between"),
                )
            )
        elif marks and not amount:
            faults.append(
                Fault(f"lump-{n}-amount", "plain.text", text=_("this is empty; write what they cost together"))
            )
        elif marks:
            found.append((n, LumpSum(marks, _amount(amount, f"lump-{n}-amount", faults, currency, locale))))
    return found


def _twice(
    lines: Sequence[tuple[int, QuoteLine]],
    lumps: Sequence[tuple[int, LumpSum]],
    faults: list[Fault],
) -> None:
    """A mark that is priced more than once, beside where it stands the second time."""
    seen: set[str] = set()
    places: list[tuple[str, tuple[str, ...]]] = [(f"line-{n}-mark", (line.mark,)) for n, line in lines]
    places += [(f"lump-{n}-marks", lump.marks) for n, lump in lumps]
    for field, marks in places:
        again = [mark for mark in marks if mark in seen]
        if again:
            faults.append(
                Fault(
                    field,
                    "plain.text",
                    text=_("%(marks)s is priced already; keep one of the two") % {"marks": ", ".join(again)},
                )
            )
        seen.update(marks)


def quote_content(quote: Quote) -> dict[str, Any]:
    """A quote as plain values to keep."""
    return {
        "workshop": quote.workshop, "reference": quote.reference, "day": quote.day.isoformat(),
        "valid_until": quote.valid_until.isoformat(), "currency": quote.currency, "lead_days": quote.lead_days,
        "lines": [[line.mark, line.quantity, str(line.amount), line.stock] for line in quote.lines],
        "lumps": [[list(lump.marks), str(lump.amount)] for lump in quote.lumps],
        "delivery": str(quote.delivery), "least_order": str(quote.least_order), "whole_only": quote.whole_only,
    }  # fmt: skip


def quote_of(content: Mapping[str, Any]) -> Quote:
    """A kept quote, read again."""
    return Quote(
        content["workshop"], Date.fromisoformat(content["day"]), Date.fromisoformat(content["valid_until"]),
        content["currency"], content["lead_days"],
        tuple(QuoteLine(mark, quantity, Decimal(amount), stock) for mark, quantity, amount, stock in content["lines"]),
        tuple(LumpSum(tuple(marks), Decimal(amount)) for marks, amount in content["lumps"]),
        Decimal(content["delivery"]), Decimal(content["least_order"]), content["whole_only"], content["reference"],
    )  # fmt: skip
