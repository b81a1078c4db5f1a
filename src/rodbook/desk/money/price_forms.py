"""The form of a job's price: how it is earned and shown, and what the client pays for besides the parts."""

from __future__ import annotations

from collections.abc import Mapping
from decimal import Decimal
from typing import Any

from django import forms
from django.utils.translation import gettext as _
from django.utils.translation import gettext_lazy as lazy
from pydantic import ValidationError

from rodbook.desk.platform.typed_forms import Typed, TypedForm, TypedFormSet
from rodbook.errors import Fault, Unread
from rodbook.job.amounts import read_money
from rodbook.job.faults import faults_of
from rodbook.job.models import PriceExtra, PriceTerms
from rodbook.job.numerals import as_typed, number_or_none

__all__ = ["ExtraRows", "PriceForm", "extras_as_typed", "plain_terms", "terms_as_typed"]

EARN = (
    ("", lazy("as the book says")),
    ("margin", lazy("by a margin: a share of the price")),
    ("mark_up", lazy("by a mark-up: a share put on the cost")),
)
"""How it is said what is earned."""

LINES = (
    ("one sum", lazy("one sum")),
    ("by opening", lazy("opening by opening")),
    ("by kind of part", lazy("by kind of part")),
)
"""How the parts stand on the client's paper."""

MOST_EXTRAS = 100
MOST_HOURS = 10**6
_SPARE = 2


def _percent(share: Decimal | None, locale: str) -> str:
    return "" if share is None else as_typed((share * 100).normalize(), locale)


def terms_as_typed(terms: PriceTerms, locale: str) -> dict[str, str]:
    """A job's price as it stands, by field, its numbers as the book's locale writes them."""
    how = "margin" if terms.margin is not None else "mark_up" if terms.mark_up is not None else ""
    return {
        "earn_how": how,
        "earn": _percent(terms.margin if how == "margin" else terms.mark_up, locale),
        "confidence": _percent(terms.confidence, locale),
        "taxes": terms.taxes or "",
        "holds_days": "" if terms.holds_days is None else str(terms.holds_days),
        "lines": terms.lines,
        "parts": terms.parts,
        "group": terms.group,
        "words": terms.words,
    }


def extras_as_typed(terms: PriceTerms, locale: str) -> list[dict[str, object]]:
    """What the client pays for besides, row by row."""
    return [
        {
            "name": extra.name,
            "cost": as_typed(extra.cost, locale) if extra.cost else "",
            "hours": as_typed(extra.hours, locale) if extra.hours else "",
            "group": extra.group,
            "option": extra.option,
        }
        for extra in terms.extras
    ]


def _share(
    typed: str, field: str, example: str, locale: str, *, least: int = 0, most: int = 1000
) -> str | Fault | None:
    """A percentage as a share, nothing, or what is wrong with it."""
    text = typed.removesuffix("%").strip()
    if not text:
        return None
    value = number_or_none(text, locale)
    if value is None:
        return Fault(field, "form.not_a_percentage", typed=typed, example=example)
    if not least <= value <= most:
        return Fault(field, "form.out_of_range", typed=typed, least=least, most=most, example=example)
    return f"{value / 100:f}"


class PriceForm(TypedForm):
    """How a job is priced, and what its paper says."""

    earn_how = Typed(lazy("Earned"), choices=EARN)
    earn = Typed(lazy("How much of it"), unit="%", mode="decimal")
    confidence = Typed(
        lazy("Contingency, enough for"),
        unit=lazy("of 100 jobs"),
        mode="decimal",
        help_text=lazy("Empty: as the book says."),
    )
    holds_days = Typed(
        lazy("The price holds for"), unit=lazy("days"), mode="numeric", help_text=lazy("Empty: as the book says.")
    )
    taxes = Typed(lazy("Taxes"), choices=(("", lazy("none")),))
    lines = Typed(lazy("The parts, on the client’s paper"), choices=LINES)
    parts = Typed(lazy("What the parts are called, as one sum"))
    group = Typed(lazy("Group of the parts, for taxes on some lines only"))
    words = Typed(lazy("A sentence or two to the client"))

    def __init__(self, *args: Any, profiles: tuple[str, ...] = (), locale: str = "en", **kwargs: Any) -> None:
        """`profiles` are the book's taxes; numbers are read as the locale writes them."""
        super().__init__(*args, **kwargs)
        self.locale = locale
        self.fields["taxes"].choices = (("", _("none")), *((name, name) for name in profiles))

    def clean(self) -> dict[str, Any]:
        """What was typed as plain values of the document, under `terms`; the document's own checks say what is wrong."""
        typed: dict[str, Any] = dict(super().clean() or {})  # what is at fault goes out of the form’s own
        terms: dict[str, object] = {}
        how = typed["earn_how"] if typed["earn_how"] in ("margin", "mark_up") else ""
        earn = self._share("earn", "20", most=99 if how == "margin" else 1000)
        if how and earn is not None:
            terms[how] = earn
        elif how and not typed["earn"]:
            self.fail("earn", Fault("earn", "form.no_percentage"))
        elif not how and typed["earn"]:
            self.fail("earn_how", Fault("earn_how", "form.percentage_of_what"))
        if (confidence := self._share("confidence", "80", least=1, most=99)) is not None:
            terms["confidence"] = confidence
        terms |= {
            name: typed[name] for name in ("taxes", "holds_days", "lines", "parts", "group", "words") if typed[name]
        }
        try:
            PriceTerms.model_validate(terms)
        except ValidationError as error:
            self.add_faults(self._at_earn(fault) for fault in faults_of(error, PriceTerms, terms))
        return {**typed, "terms": terms}

    @staticmethod
    def _at_earn(fault: Fault) -> Fault:
        return fault.moved("earn") if fault.at.path in (("margin",), ("mark_up",)) else fault

    def _share(self, name: str, example: str, *, least: int = 0, most: int = 1000) -> str | None:
        read = _share(self.cleaned_data[name], name, example, self.locale, least=least, most=most)
        if isinstance(read, Fault):
            self.fail(name, read)
            return None
        return read


class ExtraForm(TypedForm):
    """One line of what the client pays for besides the parts."""

    name = Typed(lazy("What"))
    cost = Typed(lazy("Cost besides wages"), mode="decimal")
    hours = Typed(lazy("Crew hours"), mode="decimal")
    group = Typed(lazy("Tax group"))
    option = forms.BooleanField(required=False)

    def __init__(self, *args: Any, currency: str = "", locale: str = "en", **kwargs: Any) -> None:
        """Costs are amounts of that currency; numbers are read as the locale writes them."""
        super().__init__(*args, **kwargs)
        self.currency, self.locale = currency, locale
        self.fields["cost"].unit = currency

    def clean(self) -> dict[str, Any]:
        """A line that has anything in it as plain values of the document, under `extra`."""
        typed: dict[str, Any] = dict(super().clean() or {})  # what is at fault goes out of the form’s own
        if not self.has_changed():
            return typed
        raw = {
            "name": typed["name"],
            "cost": self._cost(typed["cost"]),
            "hours": self._hours(typed["hours"]),
            "group": typed["group"],
            "option": bool(typed["option"]),
        }
        try:
            PriceExtra.model_validate(raw)
        except ValidationError as error:
            self.add_faults(faults_of(error, PriceExtra, raw))
        return {**typed, "extra": raw}

    def _cost(self, text: str) -> str:
        try:
            value = read_money(text, self.currency, self.locale) if text else Decimal(0)
        except Unread as error:
            self.fail("cost", Fault("cost", error.message))
            return "0"
        return self._from_zero("cost", text, value)

    def _hours(self, text: str) -> str:
        value = number_or_none(text, self.locale) if text else Decimal(0)
        if value is None or abs(value) >= MOST_HOURS or value != round(value, 2):
            example = as_typed(Decimal("7.5"), self.locale)
            self.fail("hours", Fault("hours", "form.not_a_number_of_hours", typed=text, example=example))
            return "0"
        return self._from_zero("hours", text, value)

    def _from_zero(self, name: str, text: str, value: Decimal) -> str:
        if value < 0:
            self.fail(name, Fault(name, "form.below_zero", typed=text))
            return "0"
        return f"{value:f}"


ExtraRows = forms.formset_factory(
    ExtraForm, formset=TypedFormSet, extra=_SPARE, max_num=MOST_EXTRAS, absolute_max=MOST_EXTRAS
)


def plain_terms(form: PriceForm, extras: TypedFormSet) -> Mapping[str, object]:
    """A job's price as it was typed, as plain values of the document."""
    rows = [row.cleaned_data["extra"] for row in extras.filled]
    return {**form.cleaned_data["terms"], **({"extras": rows} if rows else {})}
