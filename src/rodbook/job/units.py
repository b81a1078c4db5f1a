"""Lengths as people write them, read into millimetres."""

from __future__ import annotations

import math
import re
from typing import Annotated, Literal

from pydantic import BeforeValidator, Field
from pydantic_core import PydanticCustomError

from rodbook.errors import Message, Unread

__all__ = [
    "LARGEST_MM",
    "LENGTH_PATTERN",
    "THROUGH",
    "Depth",
    "Gap",
    "HoleDepth",
    "Millimetres",
    "Size",
    "parse_length",
]

LARGEST_MM = 100_000.0
"""No single length in a house fit-out is longer than 100 m (house assumption); beyond it a number is a slip."""

LENGTH_PATTERN = r'^\s*[-+]?[0-9]+([.,][0-9]+)?\s*([mM][mM]|[cC][mM]|[mM]|[iI][nN]|")?\s*$'
"""What text has to look like to be read as a length; plain enough for other programs that check documents."""

_PER_UNIT_MM = {"": 1.0, "mm": 1.0, "cm": 10.0, "m": 1000.0, "in": 25.4, '"': 25.4}
_LENGTH = re.compile(r'([-+]?[0-9]+(?:[.,][0-9]+)?)\s*(mm|cm|m|in|")?', re.IGNORECASE)
_THOUSANDS = re.compile(r"[-+]?[1-9][0-9]?[.,][0-9]{3}")
"""Text that one reader takes for thousands of millimetres and another for millimetres with three decimals."""


def parse_length(value: object) -> float:
    """Read a length: a number is millimetres; text may use a decimal comma or point and mm, cm, m or in.

    Parameters
    ----------
    value : object
        A number, or text such as ``842``, ``842,5``, ``84.2 cm``.

    Returns
    -------
    float
        The length. [mm]

    Raises
    ------
    Unread
        If it can't be read as one finite length, could be read as two, or is longer than 100 m.

    Examples
    --------
    >>> parse_length("842,5"), parse_length("84.2 cm"), parse_length(842)
    (842.5, 842.0, 842.0)
    >>> parse_length("2,030")
    Traceback (most recent call last):
    ...
    rodbook.errors.Unread: '2,030' could be 2030 mm or 2.03 mm; write it without a mark for the thousands
    """
    if isinstance(value, str):
        length = _from_text(value.strip())
    elif isinstance(value, int | float) and not isinstance(value, bool):
        length = _from_number(value)
    else:
        raise Unread(_no_length(value))
    if abs(length) > LARGEST_MM:
        raise Unread("length.too_long")
    return length


def _from_number(value: float) -> float:
    """Keep a number that is one; a whole number too large for a float is still compared as it is."""
    if not -math.inf < value < math.inf:
        raise Unread("length.no_number")
    return float(value) if abs(value) <= LARGEST_MM else math.copysign(math.inf, value > 0 or -1)


def _from_text(text: str) -> float:
    match = _LENGTH.fullmatch(text)
    if not match:
        raise Unread("length.not_a_length", text=text) if text else Unread("length.missing")
    number, unit = match[1], (match[2] or "").lower()
    value = float(number.replace(",", "."))
    if unit in ("", "mm") and _THOUSANDS.fullmatch(number):
        raise Unread("length.two_readings", text=text, one_mm=value * 1000, other_mm=value)
    return value if _PER_UNIT_MM[unit] == 1 else round(value * _PER_UNIT_MM[unit], 4)


def _no_length(value: object) -> Message:
    if value is None:
        return Message("length.missing")
    if isinstance(value, bool):
        return Message("length.yes_or_no")
    return Message("length.list" if isinstance(value, list | tuple) else "length.something_else")


def _validate(value: object) -> float:
    try:
        return parse_length(value)
    except Unread as error:
        raise PydanticCustomError("length", "no length", {"said": error.message}) from None


Millimetres = Annotated[
    float,
    BeforeValidator(_validate, json_schema_input_type=float | Annotated[str, Field(pattern=LENGTH_PATTERN)]),
]
"""A length in a document: read by `parse_length`, kept in millimetres."""

THROUGH: Literal["through"] = "through"
"""The depth of a hole that goes right through the board it is bored in, however thick that is."""

type Depth = float | Literal["through"]
"""How deep a hole is: millimetres, or right through."""

DEEPEST_MM = 200.0
"""No board of a front is thicker (house assumption)."""


def _depth(value: object) -> Depth:
    if isinstance(value, str) and value.strip() == THROUGH:
        return THROUGH
    try:
        depth = parse_length(value)
    except Unread as error:
        answer = Message("length.or_through", said=error.message)
        raise PydanticCustomError("length", "no length", {"said": answer}) from None
    if not 0 < depth <= DEEPEST_MM:
        answer = Message("length.no_depth_of_hole", depth_mm=depth, most_mm=DEEPEST_MM)
        raise PydanticCustomError("length", "no depth", {"said": answer})
    return depth


Size = Annotated[Millimetres, Field(gt=0, le=10_000)]
"""A size of a part or a board: above zero."""

Gap = Annotated[Millimetres, Field(ge=0, le=200)]
"""A gap, a lap or a thickness that may be none."""

HoleDepth = Annotated[
    float | Literal["through"],
    BeforeValidator(
        _depth,
        json_schema_input_type=Annotated[float, Field(gt=0, le=DEEPEST_MM)]
        | Annotated[str, Field(pattern=LENGTH_PATTERN.replace("^", "^(through|", 1).replace("$", ")$"))],
    ),
]
"""The depth of a hole in a document: a length above zero, or "through"."""
