"""The forms in which a workshop's quote is typed or looked at: its head, its lines, and sums for several lines together."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from datetime import date as Date  # noqa: N812
from decimal import Decimal
from typing import Any

from django import forms
from django.utils.translation import gettext as _
from django.utils.translation import gettext_lazy as lazy

from rodbook.desk.platform.typed_forms import Typed, TypedForm, TypedFormSet
from rodbook.errors import Fault, Message, Unread
from rodbook.job.amounts import read_money
from rodbook.job.numerals import as_typed
from rodbook.money import LumpSum, Quote, QuoteLine
from rodbook.setout import ScheduleLine

__all__ = ["QuoteForms", "Read", "lines_as_typed", "quote_forms", "typed_quote"]

LUMPS = 3
_SPARE = 2
_MOST_LINES = 5_000
_MOST_LEAD = 365
_MOST_PIECES = 99_999
_LONGEST = 200
"""No name of a workshop or mark is longer; what is typed beyond it is left off."""


@dataclass(frozen=True)
class Read:
    """How amounts are read: of that currency, as that locale writes them; and how many of each mark are ordered."""

    currency: str
    locale: str
    ordered: Mapping[str, ScheduleLine]


class _QuotePart(TypedForm):
    """What the forms of a quote share: how a cell is read, its fault beside it."""

    def __init__(self, *args: Any, read: Read, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        self.read = read

    def clean(self) -> dict[str, Any]:
        typed = dict(super().clean() or {})
        return {name: value[: 4 * _LONGEST] if isinstance(value, str) else value for name, value in typed.items()}

    def say(self, name: str, code: str | Message, /, **parameters: object) -> None:
        self.fail(name, Fault(name, code, **parameters))

    def read_day(self, name: str, typed: str) -> Date:
        try:
            return Date.fromisoformat(typed)
        except ValueError:
            self.say(name, "form.not_a_day", typed=typed)
            return Date.min

    def read_amount(self, name: str, typed: str) -> Decimal:
        if not typed:
            return Decimal(0)
        try:
            value = read_money(typed, self.read.currency, self.read.locale)
        except Unread as error:
            self.say(name, error.message)
            return Decimal(0)
        if value < 0:
            self.say(name, "form.cost_below_zero", typed=typed)
        elif value >= 10**9:
            self.say(name, "form.cost_too_large", typed=typed)
        else:
            return value
        return Decimal(0)

    def read_whole(self, name: str, typed: str, least: int, most: int) -> int:
        if typed.isdecimal() and len(typed) < 8 and least <= int(typed) <= most:
            return int(typed)
        values = {"typed": typed, "least": least, "most": most}
        self.say(name, "form.not_whole_from_to", **values)
        return least


class QuoteForm(_QuotePart):
    """Whose quote it is, how long it holds, and what comes on top of its lines."""

    workshop = Typed(lazy("Whose quote"))
    reference = Typed(lazy("Its number"))
    day = Typed(lazy("Of which day"), kind="date")
    valid_until = Typed(lazy("Valid until"), kind="date")
    lead_days = Typed(lazy("Order to delivery"), unit=lazy("working days"), mode="numeric")
    currency = Typed(lazy("Currency"))
    delivery = Typed(lazy("Delivery"), mode="decimal")
    least_order = Typed(lazy("Least charge, before delivery"), mode="decimal")
    whole_only = forms.BooleanField(required=False)

    def __init__(self, *args: Any, **kwargs: Any) -> None:
        """Amounts are shown with the book's currency."""
        super().__init__(*args, **kwargs)
        for name in ("delivery", "least_order"):
            self.fields[name].unit = self.read.currency

    def clean(self) -> dict[str, Any]:
        """The head of a quote, by the names that a quote has."""
        typed = super().clean()
        if not typed["workshop"]:
            self.say("workshop", "form.quote_of_nobody")
        day, until = self.read_day("day", typed["day"]), self.read_day("valid_until", typed["valid_until"])
        if Date.min < until < day:
            self.say("valid_until", "form.quote_ends_before_its_day")
        own, other = self.read.currency, typed["currency"].upper() or self.read.currency
        if other != own:
            values = {"other": other, "own": own}
            self.say("currency", "form.quote_in_other_currency", **values)
        return {
            "workshop": typed["workshop"][:_LONGEST],
            "day": day,
            "valid_until": until,
            "currency": own,
            "lead_days": self.read_whole("lead_days", typed["lead_days"], 0, _MOST_LEAD),
            "delivery": self.read_amount("delivery", typed["delivery"]),
            "least_order": self.read_amount("least_order", typed["least_order"]),
            "whole_only": bool(typed["whole_only"]),
            "reference": typed["reference"][:_LONGEST],
        }


class QuoteLineForm(_QuotePart):
    """One line of a quote."""

    mark = Typed(lazy("Mark"))
    quantity = Typed(lazy("How many"), mode="numeric")
    amount = Typed(lazy("Amount"), mode="decimal")
    stock = Typed(lazy("Made from"))

    def __init__(self, *args: Any, **kwargs: Any) -> None:
        """What is ordered under its mark stands beside the labels."""
        super().__init__(*args, **kwargs)
        line = self.read.ordered.get(self.text("mark"))
        self.fields["amount"].unit = self.read.currency
        if line is not None:
            self.fields["mark"].unit = f"{line.part.kind}, {line.part.stock}"
            self.fields["quantity"].unit = _("ordered %(number)s") % {"number": line.quantity}

    def clean(self) -> dict[str, Any]:
        """The line; one without an amount is missing from the quote."""
        typed = {name: value[:_LONGEST] for name, value in super().clean().items()}
        if not typed["amount"]:
            return {}
        if not typed["mark"]:
            self.say("mark", "form.line_without_mark")
            return {}
        ordered = self.read.ordered.get(typed["mark"])
        quantity = ordered.quantity if ordered is not None else 1
        if typed["quantity"]:
            quantity = self.read_whole("quantity", typed["quantity"], 1, _MOST_PIECES)
        price = self.read_amount("amount", typed["amount"])
        return {"line": QuoteLine(typed["mark"], quantity, price, typed["stock"])}


class LumpForm(_QuotePart):
    """One sum for several lines."""

    marks = Typed(lazy("Marks, with commas between"))
    amount = Typed(lazy("Amount for them together"), mode="decimal")

    def __init__(self, *args: Any, **kwargs: Any) -> None:
        """Amounts are shown with the book's currency."""
        super().__init__(*args, **kwargs)
        self.fields["amount"].unit = self.read.currency

    def clean(self) -> dict[str, Any]:
        """The sum with its marks."""
        typed = super().clean()
        marks = tuple(dict.fromkeys(mark.strip() for mark in typed["marks"].split(",") if mark.strip()))
        if typed["amount"] and not marks:
            self.say("marks", "form.sum_without_marks")
        elif marks and not typed["amount"]:
            self.say("amount", "form.sum_without_amount")
        elif marks:
            return {"lump": LumpSum(marks, self.read_amount("amount", typed["amount"]))}
        return {}


_Lines = forms.formset_factory(
    QuoteLineForm, formset=TypedFormSet, extra=_SPARE, max_num=_MOST_LINES, absolute_max=_MOST_LINES
)
_Lumps = forms.formset_factory(LumpForm, formset=TypedFormSet, extra=LUMPS, max_num=LUMPS, absolute_max=LUMPS)


@dataclass(frozen=True)
class QuoteForms:
    """The three of them, as a page has them."""

    head: QuoteForm
    lines: TypedFormSet
    lumps: TypedFormSet

    @property
    def first(self) -> str:
        """The field to put the cursor in: the first that has a fault."""
        return self.head.first or self.lines.first or self.lumps.first

    @property
    def is_bound(self) -> bool:
        """Whether anything was sent."""
        return bool(self.head.is_bound)


def quote_forms(
    read: Read,
    posted: Mapping[str, str] | None = None,
    *,
    head: Mapping[str, str] | None = None,
    lines: Sequence[Mapping[str, str]] = (),
) -> QuoteForms:
    """The forms as they were sent, or as they begin."""
    own = {"read": read}
    if posted is not None:
        return QuoteForms(
            QuoteForm(posted, read=read),
            _Lines(posted, prefix="line", form_kwargs=own),
            _Lumps(posted, prefix="lump", form_kwargs=own),
        )
    return QuoteForms(
        QuoteForm(initial=head, read=read),
        _Lines(prefix="line", initial=list(lines), form_kwargs=own),
        _Lumps(prefix="lump", form_kwargs=own),
    )


def lines_as_typed(lines: Iterable[QuoteLine], order: Sequence[ScheduleLine], locale: str) -> list[dict[str, str]]:
    """Rows for lines of a list: those of the order in its own order, then what was not ordered."""
    offered = {line.mark: line for line in lines}
    ordered = {line.mark for line in order}
    rows = []
    for mark in [*(line.mark for line in order), *(mark for mark in offered if mark not in ordered)]:
        line = offered.get(mark)
        text = (
            {}
            if line is None
            else {
                "quantity": str(line.quantity),
                "amount": as_typed(line.amount, locale),
                "stock": line.stock,
            }
        )
        rows.append({"mark": mark, **text})
    return rows


def typed_quote(typed: QuoteForms) -> Quote | None:
    """The quote that was typed; none where anything is wrong, which then stands beside its field."""
    typed.head.is_valid()
    lines = [(row, row.cleaned_data["line"]) for row in _sound(typed.lines) if "line" in row.cleaned_data]
    lumps = [(row, row.cleaned_data["lump"]) for row in _sound(typed.lumps) if "lump" in row.cleaned_data]
    _twice(
        [*((row, "mark", (line.mark,)) for row, line in lines), *((row, "marks", lump.marks) for row, lump in lumps)]
    )
    wrong = typed.head.errors or typed.lines.is_at_fault or typed.lumps.is_at_fault
    if not lines and not lumps and not wrong and typed.lines.forms:
        typed.lines.forms[0].fail("amount", Fault("amount", "form.nothing_priced"))
        return None
    if wrong:
        return None
    head = typed.head.cleaned_data
    return Quote(lines=tuple(line for _row, line in lines), lumps=tuple(lump for _row, lump in lumps), **head)


def _sound(rows: TypedFormSet) -> Iterator[TypedForm]:
    rows.is_valid()
    return (row for row in rows.filled if not row.errors)


def _twice(priced: Iterable[tuple[TypedForm, str, tuple[str, ...]]]) -> None:
    """A mark that is priced more than once, beside where it stands the second time."""
    seen: set[str] = set()
    for row, name, marks in priced:
        if again := [mark for mark in marks if mark in seen]:
            row.fail(name, Fault(name, "form.priced_already", marks=again))
        seen.update(marks)
