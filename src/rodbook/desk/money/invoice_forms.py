"""The form of an invoice: whose it is, and its lines."""

from __future__ import annotations

from collections.abc import Iterable
from decimal import Decimal
from typing import Any

from django import forms
from django.utils.translation import gettext_lazy as lazy
from pydantic import ValidationError

from rodbook.desk.platform.typed_forms import Typed, TypedForm, TypedFormSet
from rodbook.errors import Fault, Unread
from rodbook.job.actuals import Invoiced, InvoicedLine
from rodbook.job.amounts import Whose, read_money
from rodbook.job.faults import faults_of

__all__ = ["LINES", "InvoiceForm", "InvoiceLines", "add_invoice_faults", "typed_invoice"]

LINES = 3
"""So many lines of an invoice can be typed at once; one with more is put down in its sums (house assumption)."""


class InvoiceForm(TypedForm):
    """Whose it is."""

    supplier = Typed(lazy("From whom"), needed=True)
    number = Typed(lazy("Its number"), needed=True)
    day = Typed(lazy("Its day"), kind="date", needed=True)
    currency = Typed(lazy("Currency"), needed=True)


class InvoiceLineForm(TypedForm):
    """What one line is for, and how much."""

    what = Typed()
    amount = Typed(mode="decimal")

    def __init__(self, *args: Any, currency: str = "", locale: str = "en", **kwargs: Any) -> None:
        """Amounts are read as that currency's, written as that locale writes them."""
        super().__init__(*args, **kwargs)
        self.currency, self.locale = currency, locale

    def clean(self) -> dict[str, Any]:
        """A line that has anything in it, as the document has lines."""
        cleaned: dict[str, Any] = dict(super().clean() or {})
        if not self.has_changed():
            return cleaned
        what, amount = cleaned.get("what", ""), Decimal(0)
        try:
            amount = read_money(cleaned.get("amount", ""), self.currency, self.locale, whose=Whose.INVOICE)
        except Unread as error:
            self.fail("amount", Fault("amount", error.message))
        if not what:
            self.fail("what", Fault("what", "form.line_without_name"))
        raw = {"what": what or "x", "amount": amount}
        try:
            cleaned["line"] = InvoicedLine.model_validate(raw)
        except ValidationError as error:
            self.add_faults(faults_of(error, InvoicedLine, raw))
        return cleaned


InvoiceLines = forms.formset_factory(
    InvoiceLineForm, formset=TypedFormSet, extra=LINES, max_num=LINES, absolute_max=LINES
)


def typed_invoice(form: InvoiceForm, lines: TypedFormSet) -> Invoiced | None:
    """The invoice that was typed, as far as it can be read; what is wrong stands beside its fields. None without its head."""
    form.is_valid()
    lines.is_valid()
    if not lines.filled and lines.forms:
        lines.forms[0].fail("what", Fault("what", "form.invoice_without_lines"))
    texts = [line.cleaned_data["line"] for line in _sound(lines)]
    raw = {**form.cleaned_data, "lines": texts or [{"what": "x", "amount": Decimal(0)}]}
    try:
        return Invoiced.model_validate(raw)
    except ValidationError as error:
        form.add_faults(faults_of(error, Invoiced, raw))
        return None


def _sound(lines: TypedFormSet) -> list[TypedForm]:
    return [line for line in lines.filled if "line" in line.cleaned_data]


def add_invoice_faults(form: InvoiceForm, lines: TypedFormSet, faults: Iterable[Fault]) -> None:
    """Put what speaks against an invoice beside its fields, a line's at the row in which it was typed."""
    rows = _sound(lines)
    for fault in faults:
        match fault.at.path:
            case ("lines", int(number), str()) if number < len(rows):
                rows[number].add_faults([fault])
            case _:
                form.add_faults([fault])
