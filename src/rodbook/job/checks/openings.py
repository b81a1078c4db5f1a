"""One opening against itself: readings against each other, widths and rows of its leaves."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence

from rodbook.errors import Fault, Message, Place
from rodbook.job.faults import nearest
from rodbook.job.misread import likely_slip
from rodbook.job.models import GREATEST_OPENING_MM, LEAST_OPENING_MM, Opening
from rodbook.job.readings import (
    KINDS,
    LARGEST_OFFSET_MM,
    USUAL,
    ReadingName,
    kind_of,
    reading_name,
)

__all__ = ["LEAN_MM", "LEAST_ROW_MM", "SPREAD_MM", "check_opening"]

SPREAD_MM = 60.0
"""Three readings of one opening that differ by more are taken for a slip (house assumption)."""

LEAN_MM = 120.0
"""A side that leans by more than this over its height is taken for a misread diagonal (house assumption)."""


def _twisted(value: float, others: Sequence[float]) -> Message | None:
    """What a reading may have been whose digits in another order come close to the others."""
    guess = likely_slip(value, others, SPREAD_MM / 3)
    return None if guess is None else Message("value.did_you_mean_figure", value=guess)


def _outlier(values: tuple[float, ...]) -> tuple[float, list[float]]:
    """The value furthest from the middle one, and the others."""
    middle = sorted(values)[len(values) // 2]
    odd = max(values, key=lambda value: abs(value - middle))
    rest = list(values)
    rest.remove(odd)
    return odd, rest


def _spread(at: Place, values: tuple[float, ...], *, or_raked: bool) -> Iterator[Fault]:
    spread = max(values) - min(values)
    if spread > SPREAD_MM:
        odd, rest = _outlier(values)
        code = "opening.heights_differ" if or_raked else "opening.readings_differ"
        yield Fault(at, code, values_mm=values, by_mm=spread, most_mm=SPREAD_MM, odd_mm=odd, hint=_twisted(odd, rest))


def _diagonal_faults(opening: Opening, at: Place) -> Iterator[Fault]:
    if opening.widths is None or opening.heights is None or opening.diagonals is None:
        return
    foot, _, head = opening.widths
    left, _, right = opening.heights
    for value, width, height, code in (
        (opening.diagonals[0], head, right, "opening.diagonal_to_right"),
        (opening.diagonals[1], foot, left, "opening.diagonal_to_left"),
    ):
        if value <= height or abs(math.sqrt(value**2 - height**2) - width) > LEAN_MM:
            fair = math.hypot(width, height)
            yield Fault(at / "diagonals", code, value_mm=value, fair_mm=fair)


def _standing_faults(opening: Opening, at: Place) -> Iterator[Fault]:
    for name in ("widths", "heights"):
        if getattr(opening, name) is None:
            yield Fault(at / name, "opening.three_readings_missing", field=name)
    for name in ("leaf", "clear"):
        if getattr(opening, name) is not None:
            yield Fault(at / name, "opening.size_wanted_of_standing")
    if opening.end_panels != "none":
        yield Fault(at / "end_panels", "opening.end_panel_of_standing")
    if opening.widths:
        yield from _spread(at / "widths", opening.widths, or_raked=False)
    if opening.heights and opening.head == "level":
        yield from _spread(at / "heights", opening.heights, or_raked=True)
    if opening.head == "level":
        yield from _diagonal_faults(opening, at)
    yield from _reading_faults(opening, at)


def _reading_faults(opening: Opening, at: Place) -> Iterator[Fault]:
    """Faults in the names and values of further readings, and in what says who read them."""
    for name, value in opening.readings.items():
        result = reading_name(name)
        if result is None:
            yield Fault(at / "readings" / name, "opening.no_such_reading", name=name, hint=nearest(name, USUAL))
        elif answer := _unlikely(result, value, raked=opening.head == "raked"):
            yield Fault(at / "readings" / name, answer)
    for name in opening.read_by:
        if kind_of(name) is None:
            hint = nearest(name, (*KINDS, *opening.readings))
            yield Fault(at / "read_by" / name, "opening.no_such_reading", name=name, hint=hint)


def _unlikely(name: ReadingName, value: float, *, raked: bool) -> Message | None:
    """What is wrong with the value of a further reading."""
    if name.is_offset:
        most = GREATEST_OPENING_MM if raked and name.kind == "level" and name.part == "head" else LARGEST_OFFSET_MM
        if abs(value) <= most:
            return None
        if name.kind == "level":
            return Message("opening.too_far_out_of_level", value_mm=value, most_mm=most, part=name.part)
        code = "opening.too_far_out_of_plumb" if name.kind == "plumb" else "opening.too_far_bowed"
        return Message(code, value_mm=value, most_mm=most)
    low = 0.0 if name.kind == "depth" else LEAST_OPENING_MM
    most = GREATEST_OPENING_MM * (2 if name.kind == "diagonal" else 1)
    if not low < value <= most:
        return Message("opening.reading_out_of_range", value_mm=value, kind=name.kind, least_mm=low, most_mm=most)
    return None


LEAST_LEAF_WIDTH_MM = 120.0
"""A narrower leaf is not asked for: no room for a cup on one side and a hand on the other (house assumption)."""


def _width_faults(opening: Opening, at: Place) -> Iterator[Fault]:
    """Widths asked for the leaves: one way of saying them, one for each leaf, none too narrow."""
    if opening.leaf_widths is not None and opening.leaf_shares is not None:
        yield Fault(at / "leaf_shares", "opening.widths_and_shares")
    for name in ("leaf_widths", "leaf_shares"):
        asked = getattr(opening, name)
        if asked is not None and len(asked) != opening.leaves:
            yield Fault(at / name, "opening.widths_for_leaves", widths=len(asked), leaves=opening.leaves)
        if asked is not None and opening.leaf is not None:
            yield Fault(at / name, "opening.leaf_of_unequal")
    for width in opening.leaf_widths or ():
        if 0 < width < LEAST_LEAF_WIDTH_MM:
            least = LEAST_LEAF_WIDTH_MM
            yield Fault(at / "leaf_widths", "opening.leaf_too_narrow", width_mm=width, least_mm=least)


LEAST_ROW_MM = 40.0
"""A lower front is not asked for: no room for a fixing and a finger (house assumption)."""


def _row_faults(opening: Opening, at: Place) -> Iterator[Fault]:
    """Rows asked for a front: at most one of leaves, none too low, none under a raked head."""
    if not opening.rows:
        return
    kinds = [row.kind for row in opening.rows]
    if kinds.count("leaves") > 1:
        yield Fault(at / "rows", "opening.leaves_in_two_rows")
    if all(kind == "apron" for kind in kinds):
        yield Fault(at / "rows", "opening.aprons_alone")
    if opening.head == "raked":
        yield Fault(at / "rows", "opening.rows_under_raked_head")
    if opening.leaf is not None:
        yield Fault(at / "rows", "opening.leaf_of_divided")
    for number, row in enumerate(opening.rows):
        if row.height and row.share != 1:
            yield Fault(at / "rows" / number / "share", "opening.row_height_and_share", height_mm=row.height)
        if 0 < row.height < LEAST_ROW_MM:
            height = at / "rows" / number / "height"
            yield Fault(height, "opening.row_too_low", height_mm=row.height, least_mm=LEAST_ROW_MM)


def check_opening(opening: Opening, at: Place) -> Iterator[Fault]:
    """Faults inside one opening that no single field can tell.

    Parameters
    ----------
    opening : Opening
        As read.
    at : Place
        Where it stands, such as ``Place(("openings", 2))``.
    """
    yield from _width_faults(opening, at)
    yield from _row_faults(opening, at)
    if opening.state == "standing":
        yield from _standing_faults(opening, at)
        return
    if opening.floor_finish:
        yield Fault(at / "floor_finish", "opening.floor_finish_of_planned")
    if (opening.leaf is None) == (opening.clear is None):
        yield Fault(at, "opening.size_wanted_once")
    for name in ("widths", "heights", "diagonals", "readings", "read_by"):
        if getattr(opening, name):
            yield Fault(at / name, "opening.readings_of_planned")
