"""The form of the firm's dates: who works, on which days, and the days of suppliers."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from typing import Any

from django import forms
from django.utils.translation import gettext_lazy as lazy

from rodbook.dates import Absence, public_holidays
from rodbook.desk.platform.typed_forms import Typed, TypedForm, TypedFormSet
from rodbook.desk.site.forms import days_off
from rodbook.errors import Fault, InputError, Unread
from rodbook.job.dates import WEEKDAYS, FirmDates
from rodbook.plan.schedule.dates_texts import read_absences, read_weekdays
from rodbook.plan.schedule.tasks import JOINERY, PAINTING

__all__ = ["FirmForms", "firm_forms", "typed_firm"]

MOST_PEOPLE = 60
MOST_SUPPLIERS = 200

TRADES = {"": (), JOINERY: (JOINERY,), PAINTING: (PAINTING,)}
"""What somebody does, as the form offers it; empty for everything."""

NO_HOLIDAYS = "none"
"""What is typed where a supplier keeps no public holidays."""

_ANY_YEAR = 2026
"""A year to look holidays up in: whether there are any is the same in each."""


class _DaysForm(TypedForm):
    """What the forms share: how days away and public holidays are read."""

    def days_away(self, name: str) -> list[dict[str, str]]:
        """Days away as the book keeps them; a fault beside the field where they can't be read."""
        try:
            results: Sequence[Absence] = read_absences(self.cleaned_data.get(name, ""))
        except Unread as error:
            self.fail(name, Fault(name, error.message))
            return []
        for one in results:
            if one.last < one.first:
                self.fail(name, Fault(name, "form.ends_before_it_begins", first=one.first, last=one.last))
        return [{"first": str(one.first), "last": str(one.last)} for one in results]

    def country(self, name: str, typed: str) -> str:
        """Whose public holidays are kept; a fault beside the field where nobody knows them."""
        try:
            public_holidays(typed, [_ANY_YEAR])
        except InputError as error:
            self.add_faults(fault.moved(name) for fault in error.faults)
        return typed


class FirmForm(_DaysForm):
    """The days on which the firm works."""

    days = forms.MultipleChoiceField(choices=[(day, day) for day in WEEKDAYS], required=False)
    holidays = Typed(
        lazy("Public holidays of"),
        help_text=lazy("A country or a part of one, as AT, DE-BY or US-VT; none where it is left empty."),
    )
    closed = Typed(lazy("The firm is closed"))

    def clean(self) -> dict[str, Any]:
        """As the book keeps them."""
        typed = dict(super().clean() or {})
        days = [day for day in WEEKDAYS if day in typed.get("days", ())]
        if not days:
            self.fail("days", Fault("days", "form.no_day_of_week"))
        return {
            "days": days,
            "closed": self.days_away("closed"),
            "holidays": self.country("holidays", typed["holidays"].upper()),
        }


class PersonForm(_DaysForm):
    """Somebody who works."""

    name = Typed(lazy("Name"))
    trades = Typed(lazy("Does"))
    off = Typed(lazy("Days off"))

    def __init__(self, *args: Any, trades: Iterable[tuple[str, Any]] = (), **kwargs: Any) -> None:
        """`trades` are the choices of what somebody does."""
        super().__init__(*args, **kwargs)
        self.fields["trades"].choices = tuple(trades)

    def clean(self) -> dict[str, Any]:
        """As the book keeps a member of the crew; who has no name is taken out."""
        typed = dict(super().clean() or {})
        if not typed["name"]:
            if typed["off"]:
                self.fail("name", Fault("name", "form.days_off_of_nobody"))
            return {}
        if typed["trades"] not in TRADES:
            self.fail("trades", Fault("trades", "form.unknown_trade", typed=typed["trades"]))
        trades = list(TRADES.get(typed["trades"], ()))
        return {"member": {"name": typed["name"], "off": self.days_away("off"), "trades": trades}}


class SupplierForm(_DaysForm):
    """The days of a supplier; empty where they are the usual ones."""

    supplier = Typed()
    open = Typed(lazy("Works on"))
    country_of = Typed(lazy("Keeps the holidays of"))
    shut = Typed(lazy("Closed"))

    def clean(self) -> dict[str, Any]:
        """As the book keeps it; nothing where nothing is said."""
        typed = dict(super().clean() or {})
        values: dict[str, Any] = {}
        try:
            if typed["open"]:
                values["days"] = [WEEKDAYS[n] for n in read_weekdays(typed["open"])]
        except Unread as error:
            self.fail("open", Fault("open", error.message))
        if country := typed["country_of"]:
            values["holidays"] = self.country("country_of", "" if country.lower() == NO_HOLIDAYS else country.upper())
        if closed := self.days_away("shut"):
            values["closed"] = closed
        return {"name": typed["supplier"], "said": {"supplier": typed["supplier"], **values} if values else None}


_People = forms.formset_factory(
    PersonForm, formset=TypedFormSet, extra=1, max_num=MOST_PEOPLE, absolute_max=MOST_PEOPLE + 1
)
_Suppliers = forms.formset_factory(
    SupplierForm, formset=TypedFormSet, extra=0, max_num=MOST_SUPPLIERS, absolute_max=MOST_SUPPLIERS + 1
)


@dataclass(frozen=True)
class FirmForms:
    """The three of them, as a page has them."""

    firm: FirmForm
    people: TypedFormSet
    suppliers: TypedFormSet

    @property
    def is_at_fault(self) -> bool:
        """Whether anything is wrong with what was sent."""
        return self.firm.is_bound and bool(self.firm.errors or self.people.is_at_fault or self.suppliers.is_at_fault)

    @property
    def shown(self) -> set[str]:
        """Suppliers of whom the page had a row."""
        return {row.cleaned_data["name"] for row in self.suppliers.forms if row.cleaned_data.get("name")}


def _crew_as_typed(firm: FirmDates) -> list[dict[str, str]]:
    return [
        {"name": one.name, "trades": one.trades[0] if len(one.trades) == 1 else "", "off": days_off(one.off)}
        for one in firm.crew
    ]


def _suppliers_as_typed(firm: FirmDates, suppliers: Sequence[str]) -> list[dict[str, str]]:
    values = {one.supplier: one for one in firm.suppliers}
    rows = []
    for name in suppliers:
        one = values.get(name)
        usual = one is None or one.days == FirmDates.model_fields["days"].default
        rows.append(
            {
                "supplier": name,
                "open": "" if one is None or usual else ",".join(one.days),
                "country_of": "" if one is None or one.holidays is None else one.holidays or NO_HOLIDAYS,
                "shut": days_off(one.closed) if one else "",
            }
        )
    return rows


def firm_forms(
    firm: FirmDates,
    suppliers: Sequence[str],
    trades: Iterable[tuple[str, Any]],
    posted: Mapping[str, str] | None = None,
) -> FirmForms:
    """The forms as the book fills them in, with room for one more; or as they were sent."""
    own = {"trades": tuple(trades)}
    if posted is not None:
        return FirmForms(
            FirmForm(posted),
            _People(posted, prefix="person", form_kwargs=own),
            _Suppliers(posted, prefix="supplier"),
        )
    head = {"days": list(firm.days), "holidays": firm.holidays, "closed": days_off(firm.closed)}
    return FirmForms(
        FirmForm(initial=head),
        _People(prefix="person", initial=_crew_as_typed(firm), form_kwargs=own),
        _Suppliers(prefix="supplier", initial=_suppliers_as_typed(firm, suppliers)),
    )


def typed_firm(typed: FirmForms) -> dict[str, Any] | None:
    """The firm's people and days as the book keeps them; none where anything is wrong, which stands beside its field."""
    typed.firm.is_valid()
    typed.people.is_valid()
    typed.suppliers.is_valid()
    crew, seen = [], set[str]()
    for row in typed.people.forms:
        if (member := row.cleaned_data.get("member")) is None:
            continue
        if member["name"].casefold() in seen:
            row.fail("name", Fault("name", "form.named_already", name=member["name"]))
        seen.add(member["name"].casefold())
        crew.append(member)
    if not crew and typed.people.forms:
        typed.people.forms[0].fail("name", Fault("name", "form.nobody_works"))
    if typed.is_at_fault:
        return None
    suppliers = [row.cleaned_data["said"] for row in typed.suppliers.forms if row.cleaned_data["said"] is not None]
    return {**typed.firm.cleaned_data, "crew": crew, "suppliers": suppliers}
