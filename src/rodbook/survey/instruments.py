"""How far a reading may be out: standard errors by kind of instrument."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from types import MappingProxyType

from rodbook.errors import InputError

__all__ = ["INSTRUMENTS", "Instrument"]


@dataclass(frozen=True)
class Instrument:
    """What reads, and its standard error: a fixed share and one that grows with the length read over.

    Parameters
    ----------
    name : str
        As it is called on the page.
    fixed_mm : float
        Share that every reading carries, > 0. [mm]
    per_metre_mm : float
        Share for each metre, zero or more. [mm/m]
    source : str
        Where the figures come from.

    Raises
    ------
    InputError
        If a share is out of its range.

    Examples
    --------
    >>> INSTRUMENTS["level"].standard_error(2000)
    1.5
    """

    name: str
    fixed_mm: float
    per_metre_mm: float = 0.0
    source: str = "the firm's own"

    def __post_init__(self) -> None:
        """Refuse an instrument without error, which would outweigh all others."""
        if not (0 < self.fixed_mm < 100 and 0 <= self.per_metre_mm < 100):
            raise InputError.at(self.name, "survey.standard_error_out_of_range")

    def standard_error(self, length_mm: float) -> float:
        """Standard error of one reading over this length. [mm]"""
        return self.fixed_mm + self.per_metre_mm * abs(length_mm) / 1000


INSTRUMENTS: Mapping[str, Instrument] = MappingProxyType(
    {
        "tape": Instrument("tape", 1.5, 0.0, "house assumption"),
        "laser": Instrument("laser", 1.0, 0.0, "house assumption"),
        "level": Instrument("level", 0.5, 0.5, "house assumption"),
        "plumb": Instrument("plumb", 0.5, 0.5, "house assumption"),
    }
)
"""Standard errors to begin with, until a firm knows its own: house assumptions, all of them."""
