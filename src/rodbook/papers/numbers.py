"""Numbers, money and dates as a book's locale writes them. Nothing here works anything out."""

from __future__ import annotations

import re
import unicodedata
from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from datetime import date as Date  # noqa: N812
from decimal import ROUND_HALF_UP, Decimal
from functools import cached_property, lru_cache

from babel import Locale, UnknownLocaleError
from babel.dates import format_date
from babel.numbers import format_currency, format_decimal, format_percent
from pydantic import BaseModel

from rodbook.hinges import MassRange
from rodbook.job import Book, Job

__all__ = ["Numbers"]

_FIGURE = re.compile(r"(?<![\d.,])(\d+)\.(\d+)(?![.,]?\d)")
"""A figure with a decimal point; what has further marks is written for some locale already, or is no figure."""

_DAY_LABEL = re.compile(r"\D{0,8}\d{1,2}\.\d{1,2}\.")
"""A day as a drawing writes it, such as "Mo. 7.12."."""


@lru_cache(maxsize=4096)
def _decimal(value: float, pattern: str, locale: Locale) -> str:
    """A number by a pattern; kept, as one job has the same sizes in many places."""
    return str(format_decimal(value, pattern, locale=locale))


def _names_of(document: object) -> Iterator[str]:
    """Everything that was typed as a name or a text into a book or a job."""
    if isinstance(document, BaseModel):
        for name in type(document).model_fields:
            yield from _names_of(getattr(document, name))
    elif isinstance(document, dict):
        yield from (name for name in document if isinstance(name, str))
        for value in document.values():
            yield from _names_of(value)
    elif isinstance(document, tuple | list):
        for value in document:
            yield from _names_of(value)
    elif isinstance(document, str):
        yield str(document)


@dataclass(frozen=True)
class Numbers:
    """How one book writes numbers.

    Parameters
    ----------
    locale : str
        Such as "en" or "de_AT"; English where babel does not know it.
    currency : str
        ISO 4217 code.
    names : tuple of str
        Names that stay as they are in sentences, though there is a point between two figures in them.

    Examples
    --------
    >>> german = Numbers("de", "EUR")
    >>> german.mm(842), german.short(842.0), german.size(842, 2022)
    ('842,0', '842', '842,0 × 2022,0')
    """

    locale: str
    currency: str
    names: tuple[str, ...] = ()

    @classmethod
    def of(cls, book: Book, job: Job | None = None) -> Numbers:
        """How a book writes numbers, with the names that have figures of their own in them."""
        every = [*_names_of(book), *(_names_of(job) if job else ())]
        with_points = {name for name in every if _FIGURE.search(name)}
        return cls(book.locale, book.currency, tuple(sorted(with_points, key=lambda name: (-len(name), name))))

    @cached_property
    def _known(self) -> Locale:
        try:
            return Locale.parse(self.locale.replace("-", "_"))
        except (UnknownLocaleError, ValueError):
            return Locale.parse("en")

    def mm(self, value: float) -> str:
        """A length for a column: one decimal at least, no marks for the thousands."""
        return _decimal(round(value, 3) + 0.0, "0.0##", self._known)

    def tenth(self, value: float) -> str:
        """A length to the tenth of a millimetre: packers, which nobody cuts finer."""
        return _decimal(round(value, 1) + 0.0, "0.0", self._known)

    def hundredth(self, value: Decimal | float) -> str:
        """A number to a hundredth: an index and its points."""
        return _decimal(round(float(value), 2) + 0.0, "0.00", self._known)

    def short(self, value: float) -> str:
        """A length in a sentence or on a drawing: no more decimals than it has, two at most."""
        return _decimal(round(value, 2) + 0.0, "0.##", self._known)

    def size(self, *values: float) -> str:
        """Lengths with the times sign between them, for a column."""
        return " × ".join(self.mm(value) for value in values)

    def short_size(self, *values: float) -> str:
        """Lengths with the times sign between them, for a sentence."""
        return " × ".join(self.short(value) for value in values)

    def span(self, values: Iterable[float]) -> str:
        """Least and greatest of several lengths to the tenth, or the one where they are alike."""
        results = list(values)
        low, high = self.tenth(min(results)), self.tenth(max(results))
        return low if low == high else f"{low} to {high}"

    def money(self, amount: Decimal) -> str:
        """An amount in the book's currency."""
        return str(format_currency(amount, self.currency, locale=self._known))

    def rate(self, amount: Decimal | float) -> str:
        """A price for one of something, with all the places that it has."""
        return str(format_currency(amount, self.currency, locale=self._known, decimal_quantization=False))

    def whole_money(self, amount: Decimal) -> str:
        """An amount to the whole unit of the book's currency, for drawings and for what is likely."""
        pattern = re.sub(r"[.]0+", "", self._known.currency_formats["standard"].pattern)
        whole = amount.quantize(Decimal(1), ROUND_HALF_UP) + 0
        return str(format_currency(whole, self.currency, pattern, locale=self._known, currency_digits=False))

    def percent(self, share: Decimal | float, places: int = 0) -> str:
        """A share of one as so many in a hundred."""
        exact = share if isinstance(share, Decimal) else Decimal(repr(float(share)))
        shown = (100 * exact).quantize(Decimal(1).scaleb(-places)) / 100 + 0
        return self._percentage(shown, "0" + ("." + "0" * places if places else ""))

    def in_hundred(self, percent: Decimal | float, *, signed: bool = False) -> str:
        """A percentage as it was given, such as a tax's: no more decimals than it has, three at most."""
        share = (percent if isinstance(percent, Decimal) else Decimal(repr(percent))) / 100
        return ("+" if signed and share > 0 else "") + self._percentage(share + 0, "0.###")

    def _percentage(self, share: Decimal, digits: str) -> str:
        """A share with these digits, and the sign where the locale puts it: in English right behind the figure."""
        pattern = re.sub(r"[#,0.]+", digits, self._known.percent_formats[None].pattern)
        return str(format_percent(share, pattern, locale=self._known))

    def days(self, days: Decimal | float) -> str:
        """Days, to the tenth."""
        return str(format_decimal(days, "0.0", locale=self._known))

    def hours(self, hours: Decimal) -> str:
        """Crew hours, to the tenth."""
        return f"{format_decimal(hours, '0.0', locale=self._known)} h"

    def metres(self, metres: float) -> str:
        """Metres of cut, to the tenth."""
        return f"{format_decimal(metres, '0.0', locale=self._known)} m"

    def kilograms(self, mass: MassRange) -> str:
        """A mass as the range that it is."""
        low, high = (str(format_decimal(value, "0.0", locale=self._known)) for value in (mass.low, mass.high))
        return f"{low} kg" if low == high else f"{low} to {high} kg"

    def date(self, day: Date) -> str:
        """A date with the month in words; in English always the day first, which nobody misreads."""
        long = "d MMMM y" if self._known.language == "en" else "long"
        return str(format_date(day, long, locale=self._known))

    def in_working(self, line: str) -> str:
        """A line of working or a sentence, its figures with the decimal sign of this locale; names of the book and job stay.

        Money that is written for a locale already stays as well.

        >>> Numbers("de", "EUR", ("58 x 18 trim, 3.9 m",)).in_working("2 of 58 x 18 trim, 3.9 m: 12.50 EUR, or 1.234 €")
        '2 of 58 x 18 trim, 3.9 m: 12,50 EUR, or 1.234 €'
        """
        sign = str(format_decimal(0.5, "0.0", locale=self._known))[1]
        if sign == "." or "." not in line or _DAY_LABEL.fullmatch(line):
            return line
        kept = [span for name in self.names for span in _spans(name, line)]

        def written(result: re.Match[str]) -> str:
            start, end = result.span()
            money = _symbol(line[:start].rstrip()[-1:]) or _symbol(line[end:].lstrip()[:1])
            inside = any(first <= start and end <= last for first, last in kept)
            return result[0] if money or inside else f"{result[1]}{sign}{result[2]}"

        return _FIGURE.sub(written, line)


def _spans(name: str, line: str) -> Iterator[tuple[int, int]]:
    """Where a name stands in a line."""
    at = line.find(name)
    while at >= 0:
        yield at, at + len(name)
        at = line.find(name, at + 1)


def _symbol(character: str) -> bool:
    return bool(character) and unicodedata.category(character) == "Sc"
