"""Further readings of an opening, beside its widths, heights, diagonals and depth: what they are called in a document.

A name says what was read and where, in words joined by dashes: ``plumb-left``, ``level-head-middle``, ``width-600``.
Signs are those of `rodbook.survey`: plumb is above 0 where the upper end stands further right, level where the right
end stands higher, a bow where the middle stands into the opening.
"""

from __future__ import annotations

import re
from dataclasses import dataclass
from functools import lru_cache
from typing import Literal

__all__ = ["INSTRUMENT_NAMES", "KINDS", "LARGEST_OFFSET_MM", "USUAL", "Kind", "ReadingName", "kind_of", "reading_name"]

Kind = Literal["width", "height", "diagonal", "plumb", "level", "bow", "depth"]

KINDS: tuple[Kind, ...] = ("width", "height", "diagonal", "plumb", "level", "bow", "depth")

INSTRUMENT_NAMES = ("tape", "laser", "level", "plumb")
"""What reads, before the book says more of it; `rodbook.survey.INSTRUMENTS` has their standard errors."""

LARGEST_OFFSET_MM = 120.0
"""A side, floor or level head that is further out of plumb, level or straight is taken for a slip (house assumption)."""

USUAL = (
    "plumb-left",
    "plumb-right",
    "level-floor",
    "level-head",
    "bow-left",
    "bow-right",
    "bow-head",
    "bow-floor",
    "plumb-left-middle",
    "plumb-right-middle",
)
"""The ones that are worth a place of their own, in the order in which they help most."""

_AGAIN = "-again"
_MM = r"[1-9][0-9]{1,3}"
_SHAPES: dict[Kind, re.Pattern[str]] = {
    "width": re.compile(rf"()(foot|middle|head|{_MM})"),
    "height": re.compile(rf"()(left|middle|right|{_MM})"),
    "diagonal": re.compile(r"(left|right)()"),
    "plumb": re.compile(rf"(left|right)(?:-(middle|head|{_MM}))?"),
    "level": re.compile(rf"(floor|head)(?:-(middle|right|{_MM}))?"),
    "bow": re.compile(r"(left|right|floor|head)()"),
    "depth": re.compile(r"()([a-z][a-z0-9-]{0,30})"),
}


@dataclass(frozen=True)
class ReadingName:
    """What a name says.

    Parameters
    ----------
    kind : str
        One of `KINDS`.
    part : str
        Of what: left or right side, floor or head; for a diagonal the foot where it begins.
    at : str or float
        Place, or millimetres up from the floor or right from the foot of the left side; empty for the usual one.
    again : bool
        Whether the same was read once more.
    """

    kind: Kind
    part: str
    at: str | float
    again: bool

    @property
    def is_offset(self) -> bool:
        """Whether its value says how far something is out, with a sign."""
        return self.kind in ("plumb", "level", "bow")


@lru_cache(maxsize=512)
def reading_name(name: str) -> ReadingName | None:
    """Read a name; None where it is none.

    Examples
    --------
    >>> reading_name("level-head-middle")
    ReadingName(kind='level', part='head', at='middle', again=False)
    >>> reading_name("width-600-again").at
    600.0
    >>> reading_name("plumb") is None
    True
    """
    again = name.endswith(_AGAIN)
    kind, _, rest = name.removesuffix(_AGAIN).partition("-")
    for known, shape in _SHAPES.items():
        if kind == known and (match := shape.fullmatch(rest)):
            part, at = match[1] or "", match[2] or ""
            return ReadingName(known, part, float(at) if at.isdigit() else at, again)
    return None


def kind_of(name: str) -> Kind | None:
    """The kind that a name belongs to, or is.

    >>> kind_of("plumb"), kind_of("plumb-left"), kind_of("plum")
    ('plumb', 'plumb', None)
    """
    if name in KINDS:
        return next(kind for kind in KINDS if kind == name)
    result = reading_name(name)
    return result.kind if result else None
