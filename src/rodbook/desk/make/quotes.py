"""Workshops' quotes as the desk keeps them: plain values, and quotes again."""

from __future__ import annotations

from collections.abc import Mapping
from datetime import date as Date  # noqa: N812
from decimal import Decimal
from typing import Any

from rodbook.money import LumpSum, Quote, QuoteLine

__all__ = ["quote_content", "quote_of"]


def quote_content(quote: Quote) -> dict[str, Any]:
    """A quote as plain values to keep."""
    return {
        "workshop": quote.workshop,
        "reference": quote.reference,
        "day": quote.day.isoformat(),
        "valid_until": quote.valid_until.isoformat(),
        "currency": quote.currency,
        "lead_days": quote.lead_days,
        "lines": [[line.mark, line.quantity, str(line.amount), line.stock] for line in quote.lines],
        "lumps": [[list(lump.marks), str(lump.amount)] for lump in quote.lumps],
        "delivery": str(quote.delivery),
        "least_order": str(quote.least_order),
        "whole_only": quote.whole_only,
    }


def quote_of(content: Mapping[str, Any]) -> Quote:
    """A kept quote, read again."""
    return Quote(
        content["workshop"],
        Date.fromisoformat(content["day"]),
        Date.fromisoformat(content["valid_until"]),
        content["currency"],
        content["lead_days"],
        tuple(QuoteLine(mark, quantity, Decimal(amount), stock) for mark, quantity, amount, stock in content["lines"]),
        tuple(LumpSum(tuple(marks), Decimal(amount)) for marks, amount in content["lumps"]),
        Decimal(content["delivery"]),
        Decimal(content["least_order"]),
        content["whole_only"],
        content["reference"],
    )
