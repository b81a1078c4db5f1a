"""One opening against itself: readings against each other, widths and rows of its leaves."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence

from rodbook.errors import Fault
from rodbook.job.faults import nearest, one_line
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


def _twisted(value: float, others: Sequence[float]) -> str:
    """A transposed reading: the digits of `value` in another order come close to the others."""
    digits = f"{value:.0f}"
    near = sum(others) / len(others)
    for i in range(len(digits) - 1):
        swapped = digits[:i] + digits[i + 1] + digits[i] + digits[i + 2 :]
        if abs(float(swapped) - near) <= SPREAD_MM / 3:
            return f"; did you mean {float(swapped):g}?"
    return ""


def _outlier(values: tuple[float, ...]) -> tuple[float, list[float]]:
    """The value furthest from the middle one, and the others."""
    middle = sorted(values)[len(values) // 2]
    odd = max(values, key=lambda value: abs(value - middle))
    rest = list(values)
    rest.remove(odd)
    return odd, rest


def _spread(where: str, values: tuple[float, ...], advice: str) -> Iterator[Fault]:
    spread = max(values) - min(values)
    if spread > SPREAD_MM:
        odd, rest = _outlier(values)
        listed = ", ".join(f"{v:g}" for v in values)
        said = f"{listed} differ by {spread:g} mm, more than {SPREAD_MM:g}; read {odd:g} again{advice}"
        yield Fault(where, "plain.text", text=said + _twisted(odd, rest))


def _diagonal_faults(opening: Opening, where: str) -> Iterator[Fault]:
    if opening.widths is None or opening.heights is None or opening.diagonals is None:
        return
    foot, _, head = opening.widths
    left, _, right = opening.heights
    for value, width, height, end in (
        (opening.diagonals[0], head, right, "foot left to head right"),
        (opening.diagonals[1], foot, left, "foot right to head left"),
    ):
        if value <= height or abs(math.sqrt(value**2 - height**2) - width) > LEAN_MM:
            fair = math.hypot(width, height)
            yield Fault(f"{where}.diagonals", "job.mm_from_does_not_go", value=value, end=end, fair=fair)


def _standing_faults(opening: Opening, where: str) -> Iterator[Fault]:
    for name in ("widths", "heights"):
        if getattr(opening, name) is None:
            said = f"an opening that stands needs three {name}; measure them or mark it planned"
            yield Fault(f"{where}.{name}", "plain.text", text=said)
    for name in ("leaf", "clear"):
        if getattr(opening, name) is not None:
            yield Fault(f"{where}.{name}", "job.wanted_size_belongs_to_planned")
    if opening.end_panels != "none":
        said = (
            "an end panel closes a side where nothing stands yet; mark the opening planned, with the clear size wanted"
        )
        yield Fault(f"{where}.end_panels", "plain.text", text=said)
    if opening.widths:
        yield from _spread(f"{where}.widths", opening.widths, "")
    if opening.heights and opening.head == "level":
        yield from _spread(f"{where}.heights", opening.heights, ", or mark the head raked")
    if opening.head == "level":
        yield from _diagonal_faults(opening, where)
    yield from _reading_faults(opening, where)


def _reading_faults(opening: Opening, where: str) -> Iterator[Fault]:
    """Faults in the names and values of further readings, and in what says who read them."""
    for name, value in opening.readings.items():
        at, found = f"{where}.readings.{one_line(name, 60)}", reading_name(name)
        if found is None:
            yield Fault(at, "job.no_reading", name=one_line(name, 60), name_2=nearest(name, USUAL))
        elif said := _unlikely(found, value, raked=opening.head == "raked"):
            yield Fault(at, "plain.text", text=said)
    for name in opening.read_by:
        if kind_of(name) is None:
            said = f"there is no reading {one_line(name, 60)!r}{nearest(name, (*KINDS, *opening.readings))}"
            yield Fault(f"{where}.read_by.{one_line(name, 60)}", "plain.text", text=said)


def _unlikely(name: ReadingName, value: float, *, raked: bool) -> str:
    """What is wrong with the value of a further reading; empty where nothing is."""
    if name.is_offset:
        most = GREATEST_OPENING_MM if raked and name.kind == "level" and name.part == "head" else LARGEST_OFFSET_MM
        far = {"plumb": "no side leans", "level": f"no {name.part} is out of level", "bow": "nothing is bowed"}[
            name.kind
        ]
        return f"{value:g} mm is more than {most:g} mm, and {far} so far; read it again" if abs(value) > most else ""
    low = 0.0 if name.kind == "depth" else LEAST_OPENING_MM
    most = GREATEST_OPENING_MM * (2 if name.kind == "diagonal" else 1)
    if not low < value <= most:
        return f"{value:g} mm can't be this {name.kind}; it is more than {low:g} and at most {most:g} mm"
    return ""


LEAST_LEAF_WIDTH_MM = 120.0
"""A narrower leaf is not asked for: no room for a cup on one side and a hand on the other (house assumption)."""


def _width_faults(opening: Opening, where: str) -> Iterator[Fault]:
    """Widths asked for the leaves: one way of saying them, one for each leaf, none too narrow."""
    if opening.leaf_widths is not None and opening.leaf_shares is not None:
        yield Fault(f"{where}.leaf_shares", "job.widths_asked_in_millimetres")
    for name in ("leaf_widths", "leaf_shares"):
        asked = getattr(opening, name)
        if asked is not None and len(asked) != opening.leaves:
            yield Fault(f"{where}.{name}", "job.widths_leaves", asked=len(asked), leaves=opening.leaves)
        if asked is not None and opening.leaf is not None:
            yield Fault(f"{where}.{name}", "job.wanted_leaf_one_equal_leaves")
    for width in opening.leaf_widths or ():
        if 0 < width < LEAST_LEAF_WIDTH_MM:
            said = (
                f"{width:g} mm is less than the least leaf, {LEAST_LEAF_WIDTH_MM:g} mm; write 0 for what is left over"
            )
            yield Fault(f"{where}.leaf_widths", "plain.text", text=said)


LEAST_ROW_MM = 40.0
"""A lower front is not asked for: no room for a fixing and a finger (house assumption)."""


def _row_faults(opening: Opening, where: str) -> Iterator[Fault]:
    """Rows asked for a front: at most one of leaves, none too low, none under a raked head."""
    if not opening.rows:
        return
    kinds = [row.kind for row in opening.rows]
    if kinds.count("leaves") > 1:
        yield Fault(f"{where}.rows", "job.leaves_in_more_than_one")
    if all(kind == "apron" for kind in kinds):
        yield Fault(f"{where}.rows", "job.aprons_alone_close_nothing_opens")
    if opening.head == "raked":
        yield Fault(f"{where}.rows", "job.under_raked_head_front_not")
    if opening.leaf is not None:
        said = "a wanted leaf is one of a front that is not divided; give the clear size that is wanted instead"
        yield Fault(f"{where}.rows", "plain.text", text=said)
    for number, row in enumerate(opening.rows, 1):
        if row.height and row.share != 1:
            said = f"a row {row.height:g} mm high takes no share of what is left; keep one of the two"
            yield Fault(f"{where}.rows[{number}].share", "plain.text", text=said)
        if 0 < row.height < LEAST_ROW_MM:
            said = f"{row.height:g} mm is less than the least row, {LEAST_ROW_MM:g} mm; write 0 for what is left over"
            yield Fault(f"{where}.rows[{number}].height", "plain.text", text=said)


def check_opening(opening: Opening, where: str) -> Iterator[Fault]:
    """Faults inside one opening that no single field can tell.

    Parameters
    ----------
    opening : Opening
        As read.
    where : str
        Its place, such as ``openings[3]``.
    """
    yield from _width_faults(opening, where)
    yield from _row_faults(opening, where)
    if opening.state == "standing":
        yield from _standing_faults(opening, where)
        return
    if opening.floor_finish:
        said = "a planned opening has the floor still to come in its build-up; leave floor_finish out"
        yield Fault(f"{where}.floor_finish", "plain.text", text=said)
    if (opening.leaf is None) == (opening.clear is None):
        yield Fault(where, "job.planned_opening_needs_wanted_size")
    for name in ("widths", "heights", "diagonals", "readings", "read_by"):
        if getattr(opening, name):
            yield Fault(f"{where}.{name}", "job.planned_opening_no_readings_yet")
