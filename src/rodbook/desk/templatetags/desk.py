"""How the desk's templates write sizes, money and times."""

from __future__ import annotations

from collections.abc import Mapping
from datetime import date as Date  # noqa: N812
from datetime import datetime, timedelta
from decimal import Decimal

from babel.numbers import format_currency
from django import template
from django.forms import BoundField
from django.utils.safestring import SafeString, mark_safe
from django.utils.timezone import localtime

from rodbook.desk.platform.faults import Form, in_words, spot_of, told
from rodbook.errors import Fault, Message
from rodbook.job import Book
from rodbook.papers.numbers import Numbers
from rodbook.working import Measure

__all__ = ["register"]

register = template.Library()


@register.filter
def mm(value: Measure | float | None, written: Numbers) -> str:
    """A length as the firm's book writes it, whole millimetres without decimals."""
    return "" if value is None else written.short(float(value))


@register.filter
def figure(value: float | Decimal | None, written: Numbers) -> str:
    """A number as the firm's book writes it, two decimals at most."""
    return "" if value is None else written.short(float(value))


@register.filter
def said(sentence: object, written: Numbers) -> str:
    """A sentence that was made below the desk, its figures as the firm's book writes them."""
    return written.in_working(in_words(sentence) if isinstance(sentence, Message) else str(sentence))


@register.filter
def day(value: Date | datetime | None, written: Numbers) -> str:
    """A day as the firm's book writes it."""
    if value is None:
        return ""
    return written.date(localtime(value).date() if isinstance(value, datetime) else value)


@register.filter
def moment(value: datetime | None, written: Numbers) -> str:
    """A day with its time of day, as the firm's book writes it."""
    return "" if value is None else f"{written.date(localtime(value).date())}, {localtime(value):%H:%M}"


@register.filter
def money(value: Decimal | None, book: Book) -> str:
    """An amount as the firm's book writes it."""
    return "" if value is None else str(format_currency(value, book.currency, locale=book.locale))


@register.filter
def minutes(span: timedelta) -> int:
    """A span of time in whole minutes, the last one begun counted."""
    return -(-int(span.total_seconds()) // 60)


@register.filter
def lookup(mapping: dict[object, object], key: object) -> object:
    """A value by its key."""
    return mapping.get(key, "")


@register.inclusion_tag("desk/_field.html")
def field(form: Form, name: str, label: str, **more: object) -> dict[str, object]:
    """One field of a form with its label, what was typed and what is wrong with it; `more` as in the template."""
    return {"form": form, "field": name, "label": label, "value": form.typed(name), "fault": form.fault(name), **more}


@register.inclusion_tag("desk/_field.html")
def bound(one: BoundField, first: str = "", **more: object) -> dict[str, object]:
    """A field of a Django form as `typed_forms` has them; `first` is the one that gets the cursor."""
    own = {name: getattr(one.field, name, "") for name in ("kind", "mode", "unit", "needed", "choices")}
    values = {"field": one.html_name, "label": one.label, "hint": one.help_text, "value": one.value() or ""}
    return {"form": {"first": first}, "fault": "; ".join(map(str, one.errors)), **values, **own, **more}


@register.inclusion_tag("desk/_field.html")
def field_of(one: object, **more: object) -> dict[str, object]:
    """One field that says itself what it is called, what stands in it and what is wrong with it."""
    names = ("name", "label", "kind", "value", "fault", "hint", "unit", "mode")
    values = {name: one.get(name, "") if isinstance(one, Mapping) else getattr(one, name, "") for name in names}
    return {"field": values["name"], **values, **more}


@register.simple_tag
def drawing(svg: str) -> SafeString:
    """A drawing that our own code made, put into the page as it is; texts in it are escaped there."""
    return mark_safe(svg)  # noqa: S308  made by papers.drawing.svg, which escapes every text


@register.filter
def fault(form: Form, field: str) -> str:
    """The sentence of a field's fault, or nothing."""
    return form.fault(field)


@register.filter
def typed(form: Form, field: str) -> str:
    """What was typed in a field."""
    return form.typed(field)


@register.filter
def plainly(fault: Fault) -> str:
    """A fault that stands beside no field, with its place in words."""
    return told(fault)


@register.filter
def spot(fault: Fault) -> str:
    """The row of the page of openings where a fault stands; empty where it stands in none."""
    return spot_of(fault)
