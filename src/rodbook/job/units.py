"""Lengths as people write them, read into millimetres."""

from __future__ import annotations

import math
import re
from typing import Annotated

from pydantic import BeforeValidator
from pydantic_core import PydanticCustomError

__all__ = ["LARGEST_MM", "Millimetres", "parse_length"]

LARGEST_MM = 100_000.0
"""No single length in a house fit-out is longer than 100 m (house assumption); beyond it a number is a slip."""

_PER_UNIT_MM = {"": 1.0, "mm": 1.0, "cm": 10.0, "m": 1000.0, "in": 25.4, '"': 25.4}
_LENGTH = re.compile(r"^\s*([-+]?\d+(?:[.,]\d+)?)\s*(mm|cm|m|in|\")?\s*$", re.IGNORECASE)


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
    ValueError
        If it can't be read as one finite length, or is longer than 100 m.

    Examples
    --------
    >>> parse_length("842,5"), parse_length("84.2 cm"), parse_length(842)
    (842.5, 842.0, 842.0)
    """
    if isinstance(value, bool):
        raise ValueError("yes or no is not a length; write millimetres, as in 842 or 842.5")
    if isinstance(value, int | float):
        length = float(value) if abs(value) <= LARGEST_MM else math.inf * (1 if value > 0 else -1)
    elif isinstance(value, str):
        match = _LENGTH.match(value)
        if not match:
            shown = value if len(value) <= 40 else value[:37] + "..."
            raise ValueError(f"{shown!r} is not a length; write millimetres, as in 842 or 842.5")
        length = round(float(match[1].replace(",", ".")) * _PER_UNIT_MM[(match[2] or "").lower()], 4)
    else:
        raise ValueError("a length is missing here; write millimetres, as in 842 or 842.5")
    if not math.isfinite(length) or abs(length) > LARGEST_MM:
        raise ValueError("a length of more than 100 m, or no number at all; write millimetres, as in 842 or 842.5")
    return length


def _validate(value: object) -> float:
    try:
        return parse_length(value)
    except ValueError as error:
        raise PydanticCustomError("length", "{sentence}", {"sentence": str(error)}) from None


Millimetres = Annotated[float, BeforeValidator(_validate)]
"""A length in a document: read by `parse_length`, kept in millimetres."""
