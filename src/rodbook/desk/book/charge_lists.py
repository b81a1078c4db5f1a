"""A workshop's list of charges on the desk: sent back by the page as it was looked at, and put into the book. Pure."""

from __future__ import annotations

import copy
import json
from collections.abc import Sequence
from datetime import date as Date  # noqa: N812
from decimal import Decimal, InvalidOperation
from typing import Any

from rodbook.desk.platform.book_edits import Raw
from rodbook.errors import InputError
from rodbook.job.book import WorkshopRates
from rodbook.money import CHARGES, ListedCharge, WorkshopList

__all__ = ["as_confirmed", "confirmed", "put_charges"]

MOST_BACK = 2_000
"""Charges that are taken back from a page; no list has more."""


def as_confirmed(result: WorkshopList) -> str:
    """What was looked at, for the page to send back."""
    entries = [
        (one.row, one.field, one.of, f"{one.amount:f}", one.since.isoformat(), one.until and one.until.isoformat())
        for one in result.listed
    ]
    return json.dumps({"workshop": result.workshop, "source": result.source, "charges": entries}, ensure_ascii=False)


def confirmed(typed: str) -> tuple[str, str, tuple[ListedCharge, ...]] | None:
    """Workshop, source and charges that a page sends back; None where it is no workshop's list.

    Raises
    ------
    InputError
        If it is one, and not as it was looked at.
    """
    try:
        raw = json.loads(typed)
    except (ValueError, RecursionError):
        return None
    if not isinstance(raw, dict) or "workshop" not in raw:
        return None
    try:
        listed = tuple(_charge(*entry) for entry in raw["charges"])
        sound = 0 < len(listed) <= MOST_BACK and isinstance(raw["workshop"], str) and isinstance(raw["source"], str)
    except (ValueError, TypeError, KeyError, InvalidOperation):
        sound = False
    if not sound:
        raise InputError.at("list", "desk.list_not_looked_at")
    return raw["workshop"], raw["source"], listed


def _charge(row: Any, field: Any, of: Any, amount: Any, since: Any, until: Any) -> ListedCharge:
    value = Decimal(amount)
    known = next(charge for charge in CHARGES if charge.field == field) if field in [c.field for c in CHARGES] else None
    if known is None or not value.is_finite() or bool(of) != bool(known.by) or (field == "lead_days" and value % 1):
        raise ValueError(field)
    last = Date.fromisoformat(until) if until else None
    return ListedCharge(int(row), str(field), str(of), value, Date.fromisoformat(since), last)


def put_charges(raw: Raw, workshop: str, sets: Sequence[WorkshopRates]) -> Raw:
    """Sets of a workshop's charges put beside those that stand.

    Parameters
    ----------
    raw : dict
        The book.
    workshop : str
    sets : sequence of WorkshopRates
    """
    changed: dict[str, Any] = copy.deepcopy(raw)
    for entry in changed.get("workshops", []):
        if entry["name"] == workshop:
            entry["rates"] = [*entry["rates"], *(one.model_dump(mode="json", exclude_none=True) for one in sets)]
    return changed
