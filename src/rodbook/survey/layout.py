"""Which unknowns a set of readings has: the points it needs, and what is assumed where it says too little."""

from __future__ import annotations

import math
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field, replace

import numpy as np

from rodbook.errors import Infeasible, InputError, Message
from rodbook.survey.adjusting import Adjusted, Vector, least_squares, undetermined
from rodbook.survey.instruments import INSTRUMENTS, Instrument
from rodbook.survey.observing import Touching, observe
from rodbook.survey.outline import MIDDLES, Outline
from rodbook.survey.readings import Reading, height, width

__all__ = ["Held", "Layout", "assume_nothing", "fit_layout", "layout_of", "standard_error"]

MOST_UNSURE_MM = 30.0
"""A shape that may move further than this, in its own standard error, is not determined (house assumption)."""

INSIDE = (0.2, 0.8)
"""Share of a side between which a reading given in millimetres tells of its middle (house assumption)."""

TOUCHING_MATTERS_MM = 0.01
"""Corners that a tape meets are chosen anew where it changes a reading by this much: a hundredth of a tape's error."""

_TURNS = 3
"""So many times at most: where two corners are level to a hair they may take turns."""

_ASSUMPTIONS = (
    ("B.y", None, "The floor is taken as level."),
    ("D.x", None, "Neither a diagonal nor a plumb line shows a lean: the left side is taken as plumb."),
    ("C.x", "B.x", "Too few widths and diagonals: the right side is taken as plumb."),
    ("C.y", "D.y", "Too few heights: the head is taken as level."),
)
"""What may be assumed, in this order: an unknown, the one that it is taken equal to (or zero), and the words."""


@dataclass(frozen=True, eq=False)
class Held:
    """What is assumed as if it had been read as zero.

    Parameters
    ----------
    names : tuple
        What state of which part: ("plumb", "left side").
    rows : ndarray
        Sums of unknowns, one for each.
    errors : ndarray
        Their standard errors. [mm]
    """

    names: tuple[tuple[str, str], ...]
    rows: Vector
    errors: Vector


@dataclass(frozen=True, eq=False)
class Layout:
    """Unknowns of an adjustment and how coordinates follow from them.

    Parameters
    ----------
    readings : tuple of Reading
        Numbered and checked.
    errors : ndarray
        Their standard errors. [mm]
    outline : Outline
        Which points there are.
    depths : tuple of str
        Places where a depth was read; each is an unknown of its own.
    unknowns : tuple of str
        Names: "B.x", "bow of the left side", "depth at foot".
    follow : ndarray
        Coordinates, and after them depths, for each unknown.
    start : ndarray
        Unknowns to begin with.
    assumed : tuple of str
        What is assumed, in words.
    shared : tuple of str
        "sides" or "floor and head" where a bow that was read may be in either.
    touching : Touching
        Which corners a tape meets.
    held : Held
        What is assumed as if it had been read.
    """

    readings: tuple[Reading, ...]
    errors: Vector
    outline: Outline
    depths: tuple[str, ...]
    unknowns: tuple[str, ...]
    follow: Vector
    start: Vector
    assumed: tuple[str, ...]
    touching: Touching
    shared: tuple[str, ...] = ()
    held: Held = field(default_factory=lambda: Held((), np.zeros((0, 0)), np.zeros(0)))

    def model(self, unknowns: Vector) -> tuple[Vector, Vector]:
        """What the readings, and after them what is assumed, should say for these unknowns, and their slopes."""
        values, slopes = self.observed(self.readings, unknowns)
        if not self.held.names:
            return values, slopes
        return np.concatenate([values, self.held.rows @ unknowns]), np.concatenate([slopes, self.held.rows])

    def tells_of(self, reading: Reading) -> bool:
        """Whether its outline says anything of a reading: a bow needs a middle, a depth its place."""
        if reading.kind == "bow":
            return self.outline.has_middle(reading.part)
        return reading.kind != "depth" or str(reading.at) in self.depths

    def observed(self, readings: Sequence[Reading], unknowns: Vector) -> tuple[Vector, Vector]:
        """Say what any readings should say for these unknowns, and their slopes."""
        flat = (self.follow @ unknowns).tolist()
        values = np.empty(len(readings))
        slopes = np.zeros((len(readings), len(flat)))
        corners = 2 * len(self.outline.names)
        for row, reading in enumerate(readings):
            if reading.kind == "depth":
                place = corners + self.depths.index(str(reading.at))
                values[row], slopes[row, place] = flat[place], 1.0
                continue
            values[row], terms = observe(reading, flat, self.outline, self.touching)
            for place, slope in terms:
                slopes[row, place] += slope
        return values, slopes @ self.follow


def fit_layout(layout: Layout) -> tuple[Layout, Adjusted]:
    """Adjust the readings of a layout; anew where the shape found has the tape meet other corners, and it matters.

    Raises
    ------
    Infeasible
        If no shape comes to rest.
    """
    values = np.concatenate([[r.value_mm for r in layout.readings], np.zeros(len(layout.held.names))])
    errors = np.concatenate([layout.errors, layout.held.errors])
    result = least_squares(layout.model, values, errors, layout.start)
    for _ in range(_TURNS):
        flat = (layout.follow @ result.unknowns).tolist()
        touching = Touching.of(flat, layout.outline)
        if touching == layout.touching:
            break
        turned = replace(layout, touching=touching, start=result.unknowns)
        answer, _slopes = turned.model(result.unknowns)
        if np.abs(answer - values - result.residuals).max() < TOUCHING_MATTERS_MM:
            break
        layout, result = turned, least_squares(turned.model, values, errors, turned.start)
    return layout, result


def layout_of(readings: tuple[Reading, ...], instruments: Mapping[str, Instrument], *, raked: bool) -> Layout:
    """Choose points and unknowns for checked readings; assume, in words, only what they leave open.

    Raises
    ------
    InputError
        If the outline can't be found even so; the sentence says what is missing.
    """
    wide, left_high, right_high = _rough_size(readings)
    middles, assumed, shared = _middles(readings, wide, min(left_high, right_high))
    begin = {"B.x": wide, "C.x": wide, "C.y": right_high, "D.y": left_high}
    errors = np.array([standard_error(r, instruments, wide, left_high) for r in readings])
    draft = _Draft(readings, errors, Outline.with_middles(middles), begin)
    columns = _columns(draft.outline)
    if not any(r.kind in ("plumb", "level") for r in readings):
        del columns["B.y"]
        assumed.append(_ASSUMPTIONS[0][2])
    left_open = draft.open_ways(columns)
    for name, same_as, words in _ASSUMPTIONS:
        if not left_open:
            break
        if name not in columns or (raked and name == "C.y"):
            continue
        fewer_columns = {other: column for other, column in columns.items() if other != name}
        if same_as:
            fewer_columns[same_as] = columns[same_as] + columns[name]
        fewer = draft.open_ways(fewer_columns)
        if fewer < left_open:
            left_open, columns = fewer, fewer_columns
            assumed.append(words)
    if left_open:
        raise InputError.at("readings", draft.missing(columns, left_open, raked=raked))
    return replace(draft.layout(columns, assumed), shared=shared)


def assume_nothing(layout: Layout, unknowns: Vector) -> Layout:
    """The same readings with every corner and every middle free, beginning where an adjustment ended.

    Parameters
    ----------
    layout : Layout
    unknowns : ndarray
        Of that layout.
    """
    flat = (layout.follow @ unknowns).tolist()
    begin = {
        f"{corner}.{axis}": flat[layout.outline.x(corner) + step] for corner in "BCD" for step, axis in enumerate("xy")
    }
    begin |= dict(zip(layout.unknowns, unknowns.tolist(), strict=True))
    draft = _Draft(layout.readings, layout.errors, Outline.with_middles(set(MIDDLES)), begin)
    return replace(draft.layout(_columns(draft.outline)), touching=layout.touching, shared=layout.shared)


@dataclass(frozen=True, eq=False)
class _Draft:
    """A layout whose unknowns are still being chosen."""

    readings: tuple[Reading, ...]
    errors: Vector
    outline: Outline
    begin: Mapping[str, float]

    def layout(self, columns: Mapping[str, Vector], assumed: Sequence[str] = ()) -> Layout:
        """With these unknowns."""
        first: dict[str, float] = {}
        for reading in self.readings:
            if reading.kind == "depth":
                first.setdefault(str(reading.at), reading.value_mm)
        points, unknowns = 2 * len(self.outline.names), len(columns)
        follow = np.zeros((points + len(first), unknowns + len(first)))
        for place, column in enumerate(columns.values()):
            follow[:points, place] = column
        follow[points:, unknowns:] = np.eye(len(first))
        names = (*columns, *(f"depth at {place}" for place in first))
        start = np.array([self.begin.get(name, 0.0) for name in columns] + list(first.values()))
        touching = Touching(head="C" if self.begin["C.y"] < self.begin["D.y"] else "D")
        return Layout(
            self.readings, self.errors, self.outline, tuple(first), names, follow, start, tuple(assumed), touching
        )

    def open_ways(self, columns: Mapping[str, Vector], also: Reading | None = None) -> int:
        """How many ways the outline can still move with these unknowns, perhaps with one reading more."""
        layout = self.layout(columns)
        readings, errors = self.readings, self.errors
        if also:
            readings, errors = (*readings, also), np.append(errors, INSTRUMENTS["tape"].standard_error(0))
        try:
            _, slopes = layout.observed(readings, layout.start)
        except Infeasible:
            raise InputError.at("readings", "survey.no_shape") from None
        return undetermined(slopes, errors, largest_error=MOST_UNSURE_MM)

    def missing(self, columns: Mapping[str, Vector], left_open: int, *, raked: bool) -> Message:
        """Which reading is missing: the first that would leave less open."""
        wide, high = self.begin["B.x"], self.begin["D.y"]
        for candidate in (
            width(wide, "foot"),
            height(high, "left"),
            height(high, "right"),
            width(wide, "head"),
            height(high, "middle"),
            width(wide, "middle"),
        ):
            if self.open_ways(columns, candidate) < left_open:
                why = raked and candidate.kind == "height"
                return Message("survey.raked_reading_missing" if why else "survey.reading_missing", name=candidate.what)
        return Message("survey.readings_missing")


def _rough_size(readings: Sequence[Reading]) -> tuple[float, float, float]:
    """Width, left height and right height near enough to begin with; faults where there is nothing to begin with."""
    widths = sorted(r.value_mm for r in readings if r.kind == "width")
    heights = [r for r in readings if r.kind == "height"]
    lengths = sorted(r.value_mm for r in readings if r.kind == "diagonal")
    if not heights and not (widths and lengths):
        raise InputError.at("readings", "survey.no_height_read")
    if not widths and not (heights and lengths):
        raise InputError.at("readings", "survey.no_width_read")
    tall = sorted(r.value_mm for r in heights)
    long = lengths[len(lengths) // 2] if lengths else 0.0
    if heights:
        middle = tall[len(tall) // 2]
        wide = widths[len(widths) // 2] if widths else math.sqrt(max(long**2 - middle**2, 1.0))
    else:
        wide = widths[len(widths) // 2]
        middle = math.sqrt(max(long**2 - wide**2, 1.0))
    left = next((r.value_mm for r in heights if r.at == "left"), None)
    right = next((r.value_mm for r in heights if r.at == "right"), None)
    return wide, left or (2 * middle - right if right else middle), right or (2 * middle - left if left else middle)


def _middles(readings: Sequence[Reading], wide: float, high: float) -> tuple[set[str], list[str], tuple[str, ...]]:
    """Middle points that the readings tell of, what is assumed of the others, and which share a bow that was read."""
    lines = {
        name
        for name, chain in MIDDLES.items()
        if any(
            r.part == chain and (r.kind == "bow" or (r.kind in ("plumb", "level") and _inside_any(r, wide, high)))
            for r in readings
        )
    }
    assumed: list[str] = []
    shared: list[str] = []
    for kind, first, second, size, words in (
        ("width", "L", "R", high, ("left side", "right side", "sides")),
        ("height", "F", "H", wide, ("floor", "head", "floor and the head")),
    ):
        across = any(r.kind == kind and _inside(r.at, size) for r in readings)
        if across and not lines & {first, second}:
            lines.add(second)
            shared.append("sides" if kind == "width" else "floor and head")
            assumed.append(
                f"The {words[0]} is taken as straight, so a bow shows in the {words[1]}: a {kind} can't tell them apart."
            )
        elif across:
            lines |= {first, second}
        elif not lines & {first, second}:
            assumed.append(f"The {words[2]} are taken as straight: nothing was read in their middle.")
        elif not {first, second} <= lines:
            straight = words[0] if first not in lines else words[1]
            assumed.append(f"The {straight} is taken as straight: nothing was read in its middle.")
    return lines, assumed, tuple(shared)


def _inside_any(reading: Reading, wide: float, high: float) -> bool:
    size = high if reading.kind == "plumb" else wide
    return _inside(reading.at, size) or _inside(reading.start, size)


def _inside(place: str | float, size: float) -> bool:
    return place == "middle" if isinstance(place, str) else INSIDE[0] < place / size < INSIDE[1]


def _columns(outline: Outline) -> dict[str, Vector]:
    """How each unknown moves the coordinates; a middle point goes half way with both its ends and has its own bow."""
    size = 2 * len(outline.names)
    columns: dict[str, Vector] = {}
    halves = {"L": "AD", "R": "BC", "F": "AB", "H": "DC"}
    for corner in "BCD":
        for axis, letter in enumerate("xy"):
            column = np.zeros(size)
            column[outline.x(corner) + axis] = 1.0
            for name, ends in halves.items():
                if name in outline.names and corner in ends:
                    column[outline.x(name) + axis] = 0.5
            columns[f"{corner}.{letter}"] = column
    for name, (axis, sign) in {"L": (0, 1), "R": (0, -1), "F": (1, 1), "H": (1, -1)}.items():
        if name in outline.names:
            column = np.zeros(size)
            column[outline.x(name) + axis] = sign
            columns[f"bow of the {MIDDLES[name]}"] = column
    return columns


def standard_error(reading: Reading, instruments: Mapping[str, Instrument], wide: float, high: float) -> float:
    """Of a reading in an opening of about this size. [mm]"""
    if reading.standard_error_mm is not None:
        return reading.standard_error_mm
    instrument = instruments[reading.by]
    match reading.kind:
        case "plumb" | "level":
            size = high if reading.kind == "plumb" else wide
            return instrument.standard_error(_share(reading.at, size) - _share(reading.start, size))
        case "bow":
            return instrument.standard_error(high if reading.part.endswith("side") else wide)
        case _:
            return instrument.standard_error(reading.value_mm)


def _share(place: str | float, size: float) -> float:
    if not isinstance(place, str):
        return place
    return {"foot": 0.0, "left": 0.0, "middle": size / 2}.get(place, size)
