"""How the desk's templates write sizes, money and times."""

from __future__ import annotations

from datetime import timedelta
from decimal import Decimal

from babel.numbers import format_currency
from django import template
from django.utils.safestring import SafeString, mark_safe

from rodbook.desk.faults import Form, told
from rodbook.errors import Fault
from rodbook.job import Book
from rodbook.working import Measure, number

__all__ = ["register"]

register = template.Library()


@register.filter
def mm(value: Measure | float | None) -> str:
    """A length, whole millimetres without their nought."""
    return "" if value is None else number(round(float(value), 2)).removesuffix(".0")


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
