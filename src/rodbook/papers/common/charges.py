"""What a workshop's list of charges would change, written out for page and terminal alike."""

from __future__ import annotations

from decimal import Decimal

from rodbook.money import WorkshopList
from rodbook.papers.numbers import Numbers

__all__ = ["ChargeRow", "charge_rows"]

type ChargeRow = tuple[str, str, str, str, str, str, str]
"""Row of the list, charge, per what, until now, new, change, and the day from which it holds; empty where there is none."""


def _said(field: str, value: Decimal | None, write: Numbers) -> str:
    if value is None:
        return ""
    return write.short(float(value)) if field == "lead_days" else write.rate(value)


def charge_rows(result: WorkshopList, write: Numbers) -> list[ChargeRow]:
    """Every change of a workshop's list, written out.

    Parameters
    ----------
    result : WorkshopList
    write : Numbers
    """
    return [
        (
            str(change.row),
            change.name,
            change.unit,
            _said(change.field, change.before, write),
            _said(change.field, change.after, write),
            "" if change.percent is None else write.in_hundred(change.percent, signed=True),
            write.date(change.since),
        )
        for change in result.changes
    ]
