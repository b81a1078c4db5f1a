"""Numbers, money and dates as a book's locale writes them. Nothing here works anything out."""

from __future__ import annotations

import re
from collections.abc import Iterable
from dataclasses import dataclass
from datetime import date as Date  # noqa: N812
from decimal import ROUND_HALF_UP, Decimal
from functools import cached_property, lru_cache

from babel import Locale, UnknownLocaleError
from babel.dates import format_date
from babel.numbers import format_currency, format_decimal, format_percent

from rodbook.hinges import MassRange

__all__ = ["Numbers"]

_POINT = re.compile(r"(?<=\d)\.(?=\d)")


@lru_cache(maxsize=4096)
def _decimal(value: float, pattern: str, locale: Locale) -> str:
    """A number by a pattern; kept, as one job has the same sizes in many places."""
    return str(format_decimal(value, pattern, locale=locale))


@dataclass(frozen=True)
class Numbers:
    """How one book writes numbers.

    Parameters
    ----------
    locale : str
        Such as "en" or "de_AT"; English where babel does not know it.
    currency : str
        ISO 4217 code.

    Examples
    --------
    >>> german = Numbers("de", "EUR")
    >>> german.mm(842), german.short(842.0), german.size(842, 2022)
    ('842,0', '842', '842,0 × 2022,0')
    """

    locale: str
    currency: str

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
        found = list(values)
        low, high = self.tenth(min(found)), self.tenth(max(found))
        return low if low == high else f"{low} to {high}"

    def money(self, amount: Decimal) -> str:
        """An amount in the book's currency."""
        return str(format_currency(amount, self.currency, locale=self._known))

    def rate(self, amount: Decimal) -> str:
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
        """A line of working, its decimal points as this locale has them; what stands in names stays, where it can be told.

        A point between two figures is taken for a decimal point.
        """
        sign = str(format_decimal(0.5, "0.0", locale=self._known))[1]
        return line if sign == "." else _POINT.sub(sign, line)
