"""What is proposed of an opening where nobody says it: how many leaves, by its width."""

from __future__ import annotations

import math
from collections.abc import Mapping, Sequence

from rodbook.job.models import Opening
from rodbook.job.units import parse_length

__all__ = ["MOST_LEAVES", "WIDEST_LEAF_MM", "leaves_proposed", "opening_with_leaves", "with_leaves_proposed"]

WIDEST_LEAF_MM = 650.0
"""No wider leaf is proposed (house assumption: a wider one swings far into the room and is heavy on its hinges)."""

MOST_LEAVES = 4
"""More leaves are not made in one opening."""


def leaves_proposed(width_mm: float) -> int:
    """How many leaves an opening of this width gets where nobody says it.

    Parameters
    ----------
    width_mm : float
        Of the opening, > 0. [mm]

    Returns
    -------
    int
        The fewest of which none is wider than `WIDEST_LEAF_MM`, but at most `MOST_LEAVES`.

    Examples
    --------
    >>> [leaves_proposed(width) for width in (525.0, 650.0, 842.0, 1350.0, 3000.0)]
    [1, 1, 2, 3, 4]
    """
    return min(MOST_LEAVES, max(1, math.ceil(width_mm / WIDEST_LEAF_MM)))


def _width(raw: Mapping[str, object]) -> float | None:
    """The least width that is read, or the clear width that is wanted; None where there is none that can be read."""
    for name in ("widths", "clear"):
        value = raw.get(name)
        if not isinstance(value, Sequence) or isinstance(value, str) or not value:
            continue
        listed = value if name == "widths" else value[:1]
        try:
            return min(parse_length(each) if isinstance(each, str) else float(each) for each in listed)
        except (TypeError, ValueError):
            return None
    return None


def with_leaves_proposed(raw: Mapping[str, object]) -> dict[str, object]:
    """An opening's fields with a number of leaves by its width, where none is said and nothing else settles it.

    Widths asked for the leaves settle it, and so does a size that is wanted for one of them.

    Examples
    --------
    >>> with_leaves_proposed({"mark": "C1", "widths": [842, "843", 841.5]})["leaves"]
    2
    >>> "leaves" in with_leaves_proposed({"mark": "W1", "leaf": [447, 2100]})
    False
    """
    results = dict(raw)
    if results.get("leaves") is None and not any(results.get(name) for name in ("leaf", "leaf_widths", "leaf_shares")):
        width = _width(results)
        if width is not None and width > 0 and math.isfinite(width) and (number := leaves_proposed(width)) > 1:
            results["leaves"] = number
    return results


def opening_with_leaves(opening: Opening) -> Opening:
    """An opening as it was read, with a number of leaves by its width where nothing said it."""
    if "leaves" in opening.model_fields_set:
        return opening
    raw = opening.model_dump(mode="json", exclude_unset=True)
    number = with_leaves_proposed(raw).get("leaves", opening.leaves)
    return opening.model_copy(update={"leaves": number}) if number != opening.leaves else opening
