"""Figures as English trade papers write them; a book's own language is written by `rodbook.papers.numbers`."""

from __future__ import annotations

from decimal import Decimal

__all__ = ["number", "percent"]


def number(value: float) -> str:
    """Print a length as the trade reads it: one decimal at least, more only where they say something.

    >>> number(842), number(416.25), number(1 / 3), number(-0.0)
    ('842.0', '416.25', '0.333', '0.0')
    """
    text = f"{value + 0.0:.3f}".rstrip("0")
    whole, _, decimals = text.partition(".")
    return f"{'0' if whole == '-0' and not decimals else whole}.{decimals or '0'}"


def percent(value: float | Decimal, places: int | None = None, *, signed: bool = False) -> str:
    """Write a percentage as English trade papers do: the sign follows the figure at once. The only place that puts it there.

    What is written in a book's own language goes by `rodbook.papers.numbers.Numbers` instead, which for English writes the same.

    Parameters
    ----------
    value : float or Decimal
        [%]
    places : int, optional
        Decimals; as many as the figure has where left out.
    signed : bool
        Whether a plus is written too.

    Examples
    --------
    >>> percent(36.8), percent(100 * 0.36789, 1), percent(Decimal("20.00")), percent(4.2, signed=True)
    ('36.8%', '36.8%', '20%', '+4.2%')
    """
    exact = (
        value
        if isinstance(value, Decimal)
        else Decimal(repr(float(f"{value:g}")) if places is None else repr(float(value)))
    )
    text = f"{exact.normalize():f}" if places is None else f"{exact:.{places}f}"
    if text.startswith("-") and not text.strip("-0."):
        text = text[1:]
    return f"{'+' if signed and not text.startswith('-') and text.strip('0.') else ''}{text}%"
