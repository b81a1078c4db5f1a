"""Hired hands and overtime in the crew's weeks: as they are typed, kept, and laid into the weeks. Pure."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from datetime import date as Date  # noqa: N812
from decimal import Decimal
from typing import Any

from django.utils.translation import gettext as _

from rodbook.errors import Fault, InputError, Unread
from rodbook.job import Book
from rodbook.job.amounts import Amount, money_example, read_money
from rodbook.job.numerals import as_typed, number_or_none
from rodbook.money import MoreDays
from rodbook.plan import more_days

__all__ = ["FIELDS", "MOST_EXTRA_DAYS", "ExtraDays", "extra_days_fields", "laid_in", "typed_extra_days"]

FIELDS = ("name", "days", "cost", "from", "to", "whole")
MOST_EXTRA_DAYS = 6
MOST_DAYS = 70
LONGEST = 40


@dataclass(frozen=True)
class ExtraDays:
    """Days that can be had besides the crew's.

    Parameters
    ----------
    name : str
    days : float
        In a full week. [days]
    cost : Decimal
        [currency/day]
    first, last : date, optional
        From the first week or to the last where left out.
    whole : bool
        In whole days alone.
    """

    name: str
    days: float
    cost: Decimal
    first: Date | None = None
    last: Date | None = None
    whole: bool = False

    def as_content(self) -> dict[str, Any]:
        """Plain values to keep."""
        return {
            "name": self.name,
            "days": self.days,
            "cost": str(self.cost),
            "whole": self.whole,
            "first": self.first and self.first.isoformat(),
            "last": self.last and self.last.isoformat(),
        }

    @classmethod
    def kept(cls, content: Mapping[str, Any]) -> ExtraDays:
        """Kept values, read again."""
        first, last = (Date.fromisoformat(day) if (day := content[name]) else None for name in ("first", "last"))
        return cls(content["name"], content["days"], Decimal(content["cost"]), first, last, content["whole"])


def extra_days_fields(entries: Sequence[ExtraDays], locale: str) -> dict[str, str]:
    """What the form shows of them, by field."""
    results: dict[str, str] = {}
    for n, one in enumerate(entries, 1):
        results |= {
            f"more-name-{n}": one.name,
            f"more-days-{n}": as_typed(one.days, locale),
            f"more-cost-{n}": as_typed(one.cost, locale),
            f"more-from-{n}": one.first.isoformat() if one.first else "",
            f"more-to-{n}": one.last.isoformat() if one.last else "",
            f"more-whole-{n}": "yes" if one.whole else "",
        }
    return results


def _day(typed: Mapping[str, str], field: str, faults: list[Fault]) -> Date | None:
    text = typed[field]
    if not text:
        return None
    try:
        return Date.fromisoformat(text)
    except ValueError:
        faults.append(Fault(field, "form.not_a_day", typed=text))
        return None


def _one(n: int, typed: Mapping[str, str], currency: str, locale: str, faults: list[Fault]) -> ExtraDays | None:
    before = len(faults)
    name, days_text, cost_text = (typed[f"more-{what}-{n}"] for what in ("name", "days", "cost"))
    if len(name) > LONGEST:
        faults.append(Fault(f"more-name-{n}", "form.longer_than", most=LONGEST))
    days = number_or_none(days_text, locale)
    cost: Decimal | None = None
    if days is None or not 0 < days <= MOST_DAYS:
        values = {"typed": days_text, "most": MOST_DAYS}
        faults.append(
            Fault(
                f"more-days-{n}",
                "form.not_days_above_zero",
                **values,
            )
        )
    try:
        cost = read_money(cost_text, currency, locale, what=Amount.DAY_PRICE)
    except Unread as error:
        faults.append(Fault(f"more-cost-{n}", error.message))
    if cost is not None and not 0 <= cost < 10**6:
        values = {"typed": cost_text, "example": money_example(locale, Decimal("260.50"))}
        faults.append(
            Fault(
                f"more-cost-{n}",
                "form.no_price_of_a_day",
                **values,
            )
        )
    first, last = _day(typed, f"more-from-{n}", faults), _day(typed, f"more-to-{n}", faults)
    if first and last and last < first:
        faults.append(
            Fault(
                f"more-to-{n}",
                "form.last_day_before_first",
                first=first,
            )
        )
    if len(faults) > before or days is None or cost is None:
        return None
    return ExtraDays(name or _("overtime"), float(days), cost, first, last, bool(typed[f"more-whole-{n}"]))


def typed_extra_days(
    posted: Mapping[str, str], currency: str, locale: str, faults: list[Fault]
) -> tuple[tuple[ExtraDays, ...], dict[str, str]]:
    """What was typed of them, and every field as it was typed; a line that is left empty is none."""
    shown: dict[str, str] = {}
    results: list[ExtraDays] = []
    for n in range(1, MOST_EXTRA_DAYS + 1):
        typed = {f"more-{what}-{n}": posted.get(f"more-{what}-{n}", "").strip() for what in FIELDS}
        if not any(value for field, value in typed.items() if "whole" not in field):
            continue
        shown |= typed
        one = _one(n, typed, currency, locale, faults)
        if one is not None and one.name in [other.name for other in results]:
            faults.append(Fault(f"more-name-{n}", "form.name_of_another_line"))
        elif one is not None:
            results.append(one)
    return tuple(results), shown


def laid_in(
    entries: Sequence[ExtraDays], book: Book, start: Date, weeks: int
) -> tuple[list[MoreDays], tuple[str, ...]]:
    """Them in the weeks, and in sentences those that are not in these weeks."""
    results: list[MoreDays] = []
    left: list[str] = []
    for one in entries:
        try:
            results.append(
                more_days(
                    book,
                    start,
                    weeks,
                    name=one.name,
                    days=one.days,
                    day_cost=one.cost,
                    first=one.first,
                    last=one.last,
                    whole=one.whole,
                )
            )
        except InputError as error:
            left += [str(fault) for fault in error.faults]
    return results, tuple(left)
