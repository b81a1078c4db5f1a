"""Measuring an opening reading by reading: which places there are, which comes next, what stands out, and the sketch.

Pure: readings in, words and lines out.
"""

from __future__ import annotations

import math
from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass

from django.utils.translation import gettext as _
from django.utils.translation import gettext_lazy as lazy

from rodbook.job import Opening
from rodbook.job.checks import SPREAD_MM
from rodbook.job.models import GREATEST_OPENING_MM, LEAST_OPENING_MM
from rodbook.job.readings import LARGEST_OFFSET_MM, reading_name
from rodbook.plan.stages.surveying import reading_called
from rodbook.working import number

__all__ = [
    "BY_NAME",
    "FURTHER",
    "PLACES",
    "Doubt",
    "Place",
    "Sketch",
    "SketchLine",
    "after",
    "before",
    "doubt_of",
    "first_open",
    "place_named",
    "places_shown",
    "read_off",
    "sketch",
    "spoken_slips",
]


@dataclass(frozen=True)
class Place:
    """A place of an opening where a reading is taken.

    Parameters
    ----------
    field : str
        Field of the opening.
    index : int or str, optional
        Which value of it: its number, or among further readings its name.
    words : str
        What it is called.
    hint : str
        What its sign says, where it has one.
    """

    field: str
    index: int | str | None
    words: str
    hint: str = ""

    @property
    def name(self) -> str:
        """Its name in forms and drafts."""
        return self.field if self.index is None else f"{self.field}-{self.index}"


PLACES = (
    Place("widths", 0, lazy("width at foot")),
    Place("widths", 1, lazy("width at middle")),
    Place("widths", 2, lazy("width at head")),
    Place("heights", 0, lazy("height at left")),
    Place("heights", 1, lazy("height at middle")),
    Place("heights", 2, lazy("height at right")),
    Place("diagonals", 0, lazy("diagonal, foot left to head right")),
    Place("diagonals", 1, lazy("diagonal, foot right to head left")),
    Place("depth", None, lazy("clear depth behind the wall's face")),
)
"""Every place, in the order in which one walks round an opening."""

_PLUMB = lazy("above 0 where the upper end stands further right")
_LEVEL = lazy("above 0 where the right end stands higher")
_BOW = lazy("above 0 where the middle stands into the opening")

FURTHER = (
    Place("readings", "plumb-left", lazy("left side out of plumb at its head"), _PLUMB),
    Place("readings", "plumb-right", lazy("right side out of plumb at its head"), _PLUMB),
    Place("readings", "level-floor", lazy("floor out of level, left to right"), _LEVEL),
    Place("readings", "level-head", lazy("head out of level, left to right"), _LEVEL),
    Place("readings", "bow-left", lazy("bow of the left side"), _BOW),
    Place("readings", "bow-right", lazy("bow of the right side"), _BOW),
    Place("readings", "bow-head", lazy("bow of the head"), _BOW),
    Place("readings", "bow-floor", lazy("bow of the floor"), _BOW),
    Place("readings", "plumb-left-middle", lazy("left side out of plumb at its middle"), _PLUMB),
    Place("readings", "plumb-right-middle", lazy("right side out of plumb at its middle"), _PLUMB),
)
"""Further readings, by plumb line, level and straight edge; taken where something has to be checked."""

BY_NAME = {place.name: place for place in (*PLACES, *FURTHER)}

_HINTS = {"plumb": _PLUMB, "level": _LEVEL, "bow": _BOW}


def place_named(name: str) -> Place | None:
    """The place of that name: a usual one, or that of any further reading; None where there is none.

    >>> place_named("readings-width-600").words
    'width at 600 mm'
    """
    if name in BY_NAME:
        return BY_NAME[name]
    field, _dash, rest = name.partition("-")
    meaning = reading_name(rest) if field == "readings" else None
    return Place("readings", rest, reading_called(rest), _HINTS.get(meaning.kind, "")) if meaning else None


def places_shown(readings: Iterable[str], place: Place) -> list[Place]:
    """Every place that is listed: the usual ones, the further ones, and any other that is read or asked for."""
    names = dict.fromkeys((*BY_NAME, *readings, place.name))
    return [result for name in names if (result := place_named(name)) is not None]


def read_off(opening: Opening | None) -> dict[str, float]:
    """The readings that an opening has, by the name of their place."""
    results: dict[str, float] = {}
    for place in PLACES if opening is not None else ():
        value = getattr(opening, place.field)
        if value is not None:
            results[place.name] = value if place.index is None else value[place.index]
    results |= {f"readings-{name}": value for name, value in (opening.readings if opening else {}).items()}
    return results


def first_open(readings: Mapping[str, float]) -> Place:
    """The first place without a reading; the first of all where there is none."""
    return next((place for place in PLACES if place.name not in readings), PLACES[0])


def after(place: Place) -> Place | None:
    """The place after this one; none after the last usual one, nor after the last further one."""
    walk = FURTHER if place in FURTHER else PLACES
    at = walk.index(place) + 1 if place in walk else len(walk)
    return walk[at] if at < len(walk) else None


def before(place: Place) -> Place | None:
    """The place before this one."""
    walk = (*PLACES, *FURTHER)
    at = walk.index(place) if place in walk else 0
    return walk[at - 1] if at else None


# --- what stands out ----------------------------------------------------------------------------------------------

_TEENS = {"13": "30", "14": "40", "15": "50", "16": "60", "17": "70", "18": "80", "19": "90"}
_HEARD = _TEENS | {ty: teen for teen, ty in _TEENS.items()}
"""Numbers that sound alike when they are called across a room: fifteen and fifty."""


def spoken_slips(value: float) -> Iterator[float]:
    """What else may have been meant: neighbouring digits twisted, fifteen for fifty, a digit lost or one too many.

    Examples
    --------
    >>> list(spoken_slips(482))
    [842.0, 428.0, 4820, 48.2]
    >>> 850.0 in list(spoken_slips(815))
    True
    """
    sign, digits = -1.0 if value < 0 else 1.0, f"{abs(value):.0f}"
    for at in range(len(digits) - 1):
        pair = digits[at : at + 2]
        for other in (pair[::-1], _HEARD.get(pair, pair)):
            if other != pair and (at or other[0] != "0"):
                yield sign * float(digits[:at] + other + digits[at + 2 :])
    yield value * 10
    yield value / 10


@dataclass(frozen=True)
class Doubt:
    """A reading that stands out.

    Parameters
    ----------
    why : str
        One sentence without its full stop.
    offers : tuple of float
        What may be meant, what was typed first where it is possible at all.
    """

    why: str
    offers: tuple[float, ...]


def _limits(place: Place, *, raked: bool) -> tuple[float, float]:
    meaning = reading_name(str(place.index)) if place.field == "readings" else None
    if meaning is not None and meaning.is_offset:
        sloping = raked and meaning.kind == "level" and meaning.part == "head"
        most = GREATEST_OPENING_MM if sloping else LARGEST_OFFSET_MM
        return -most, most
    kind = meaning.kind if meaning else place.field
    if kind == "depth":
        return 0.0, GREATEST_OPENING_MM
    return LEAST_OPENING_MM, GREATEST_OPENING_MM * (2 if kind in ("diagonals", "diagonal") else 1)


def _expected(place: Place, readings: Mapping[str, float], *, raked: bool) -> tuple[float, str] | None:
    """What the other readings let expect at a place, and how that is said; nothing where they tell nothing."""
    if place.field == "widths" or (place.field == "heights" and not raked):
        others = [
            value for name, value in readings.items() if name.startswith(f"{place.field}-") and name != place.name
        ]
        if not others:
            return None
        listed = _(" and ").join(number(v).removesuffix(".0") for v in others)
        return sum(others) / len(others), (
            _("the other readings here are %(listed)s")
            if len(others) > 1
            else _("the other reading here is %(listed)s")
        ) % {"listed": listed}
    if place.field == "diagonals" and not raked:
        names = ("widths-2", "heights-2") if place.index == 0 else ("widths-0", "heights-0")
        sides = [readings[name] for name in names if name in readings]
        if len(sides) == 2:
            fair = math.hypot(*sides)
            return fair, _("the widths and heights let expect about %(fair)s") % {"fair": f"{fair:.0f}"}
    return None


def doubt_of(place: Place, value: float, readings: Mapping[str, float], *, raked: bool = False) -> Doubt | None:
    """Ask where a reading stands out; None where it does not.

    Parameters
    ----------
    place : Place
    value : float
        As typed. [mm]
    readings : mapping
        The opening's other readings, by the name of their place. [mm]
    raked : bool
        Whether the head slopes, so that heights differ.
    """
    low, high = _limits(place, raked=raked)
    shown = number(value).removesuffix(".0")
    expected = _expected(place, readings, raked=raked)
    near = [
        slip
        for slip in dict.fromkeys(spoken_slips(value))
        if low < slip <= high and (expected is None or abs(slip - expected[0]) <= SPREAD_MM / 3)
    ]
    if not (low <= value <= high) or (low >= 0 >= value):
        text = _("%(value)s mm is less than %(bound)s mm, so it can't be the %(place)s")
        bound = low
        if value > high:
            text, bound = _("%(value)s mm is more than %(bound)s mm, so it can't be the %(place)s"), high
        ten = [slip for slip in near if slip in (value * 10, value / 10)] if expected is None else near
        return Doubt(text % {"value": shown, "bound": f"{bound:g}", "place": place.words}, tuple(ten))
    if expected is not None and abs(value - expected[0]) > SPREAD_MM:
        return Doubt(_("%(value)s stands out: %(why)s") % {"value": shown, "why": expected[1]}, (value, *near))
    return None


# --- the sketch ---------------------------------------------------------------------------------------------------


@dataclass(frozen=True)
class SketchLine:
    """One dimension of the sketch: the line, its end ticks, its figure, and how it is drawn (next, taken or open)."""

    name: str
    look: str
    x1: float
    y1: float
    x2: float
    y2: float
    ticks: str
    x: float
    y: float
    anchor: str
    text: str
    further: bool = False
    """Drawn only while it is the next one, or once it is taken."""


type _Ends = tuple[float, float, float, float, float, float, str]
"""Both ends of a line of the sketch, and where its figure stands."""


def _further_lines(x0: float, x1: float, y1: float, left: float, right: float) -> dict[str, _Ends]:
    """Where plumb line, level and straight edge are held: just inside what they are held against."""
    middle = (x0 + x1) / 2
    halfway = {"left": (left + y1) / 2, "right": (right + y1) / 2}
    results: dict[str, _Ends] = {}
    for side, x, top, step, anchor in (("left", x0, left, 1.0, "start"), ("right", x1, right, -1.0, "end")):
        figure = x + step * 34
        results[f"plumb-{side}"] = (x + step * 27, top + 4, x + step * 27, y1 - 4, figure, (top + y1) / 2 - 22, anchor)
        results[f"plumb-{side}-middle"] = (
            x + step * 27,
            halfway[side],
            x + step * 27,
            y1 - 4,
            figure,
            halfway[side] + 34,
            anchor,
        )
        results[f"bow-{side}"] = (
            x + step * 5,
            top + 8,
            x + step * 5,
            y1 - 8,
            x + step * 12,
            halfway[side] + 16,
            anchor,
        )
    results["level-floor"] = (x0 + 6, y1 - 26, x1 - 6, y1 - 26, middle + 6, y1 - 32, "start")
    results["level-head"] = (
        x0 + 6,
        max(left, right) + 28,
        x1 - 6,
        max(left, right) + 28,
        middle + 6,
        max(left, right) + 44,
        "start",
    )
    results["bow-floor"] = (x0 + 8, y1 - 5, x1 - 8, y1 - 5, middle + 6, y1 - 12, "start")
    results["bow-head"] = (x0 + 8, left + 6, x1 - 8, right + 6, middle + 6, (left + right) / 2 + 22, "start")
    return results


def _elsewhere(
    place: Place, ends: Mapping[str, _Ends], box: tuple[float, float, float, float], readings: Mapping[str, float]
) -> _Ends:
    """A further reading that is none of the usual ones: beside the one that it repeats, or at its own height or station."""
    x0, x1, y1, top = box
    meaning = reading_name(str(place.index))
    assert meaning is not None
    if isinstance(meaning.at, float):
        if meaning.kind in ("width", "plumb"):
            y = y1 - (y1 - top) * min(meaning.at / (_mean(readings, "heights") or _LIKELY[1]), 1.0)
            return (x0, y, x1, y, x1 + 14, y + 5, "start")
        x = x0 + (x1 - x0) * min(meaning.at / (_mean(readings, "widths") or _LIKELY[0]), 1.0)
        return (x, top, x, y1, x, y1 + 22, "middle")
    like = {
        "width": f"widths-{('foot', 'middle', 'head').index(str(meaning.at))}" if meaning.kind == "width" else "",
        "height": f"heights-{('left', 'middle', 'right').index(str(meaning.at))}" if meaning.kind == "height" else "",
        "diagonal": f"diagonals-{int(meaning.part == 'right')}",
        "depth": "depth",
    }.get(meaning.kind) or place.name.removesuffix("-again").removesuffix("-middle")
    ax, ay, bx, by, tx, ty, anchor = ends.get(like, ends["depth"])
    return (ax + 6, ay - 8, bx + 6, by - 8, tx, ty - 12, anchor)


@dataclass(frozen=True)
class Sketch:
    """The opening seen from the front; not to scale, but as tall and as wide as it is read."""

    outline: str
    floor: float
    lines: tuple[SketchLine, ...]
    words: str


_WIDE, _TALL, _LEFT, _TOP = 190.0, 190.0, 66.0, 34.0
_LIKELY = (842.0, 1400.0)
"""Width and height that the sketch has before anything is read."""


def _mean(readings: Mapping[str, float], field: str) -> float | None:
    results = [value for name, value in readings.items() if name.startswith(f"{field}-")]
    return sum(results) / len(results) if results else None


def _tick(x1: float, y1: float, x2: float, y2: float) -> str:
    length = math.hypot(x2 - x1, y2 - y1) or 1.0
    nx, ny = -(y2 - y1) / length * 6, (x2 - x1) / length * 6
    return " ".join(f"M{x - nx:.1f} {y - ny:.1f}L{x + nx:.1f} {y + ny:.1f}" for x, y in ((x1, y1), (x2, y2)))


def sketch(readings: Mapping[str, float], place: Place, *, raked: bool = False) -> Sketch:
    """Draw an opening with every place where a reading is taken, the next one marked.

    Parameters
    ----------
    readings : mapping
        By the name of their place. [mm]
    place : Place
        The next one.
    raked : bool
        Whether the head slopes.
    """
    width, height = _mean(readings, "widths") or _LIKELY[0], _mean(readings, "heights") or _LIKELY[1]
    scale = min(_WIDE / width, _TALL / height)
    w, h = max(width * scale, 90.0), max(height * scale, 90.0)
    x0, y0 = _LEFT + (_WIDE - w) / 2, _TOP + (_TALL - h)
    x1, y1 = x0 + w, _TOP + _TALL
    sides = [readings.get(f"heights-{n}") for n in (0, 2)]
    fall = [0.0, 0.0]
    if raked and sides[0] and sides[1]:
        tallest = max(sides[0], sides[1])
        fall = [h * (1 - side / tallest) for side in (sides[0], sides[1])]
    left, right = y0 + fall[0], y0 + fall[1]
    inner = max(left, right)
    ends = {
        "widths-0": (x0, y1 - 14, x1, y1 - 14, x1 + 14, y1 - 9, "start"),
        "widths-1": (x0, (inner + y1) / 2, x1, (inner + y1) / 2, x1 + 14, (inner + y1) / 2 + 5, "start"),
        "widths-2": (x0, inner + 14, x1, inner + 14, x1 + 14, inner + 19, "start"),
        "heights-0": (
            x0 + 14,
            left + 14 * (right - left) / w,
            x0 + 14,
            y1,
            x0 + 10,
            y1 + 22,
            "end" if w < 130 else "middle",
        ),
        "heights-1": ((x0 + x1) / 2, (left + right) / 2, (x0 + x1) / 2, y1, (x0 + x1) / 2, y1 + 22, "middle"),
        "heights-2": (
            x1 - 14,
            right - 14 * (right - left) / w,
            x1 - 14,
            y1,
            x1 - 10,
            y1 + 22,
            "start" if w < 130 else "middle",
        ),
        "diagonals-0": (x0, y1, x1, right, x1 + 2, y0 - 12, "start" if w < 130 else "middle"),
        "diagonals-1": (x1, y1, x0, left, x0 - 2, y0 - 12, "end" if w < 130 else "middle"),
        "depth": (x0 - 8, y1 - 4, x0 - 36, y1 - 34, x0 - 14, y1 - 44, "end"),
    }
    ends |= {f"readings-{name}": line for name, line in _further_lines(x0, x1, y1, left, right).items()}
    lines = []
    for at in sorted(places_shown(readings, place), key=lambda p: p == place):  # the next one lies on top
        if at.name not in ends:
            ends[at.name] = _elsewhere(at, ends, (x0, x1, y1, inner), readings)
        ax, ay, bx, by, tx, ty, anchor = ends[at.name]
        value = readings.get(at.name)
        text = number(value).removesuffix(".0") if value is not None else ("?" if at == place else "")
        look = "next" if at == place else "taken" if value is not None else "open"
        further = at.field == "readings"
        ticks = _tick(ax, ay, bx, by)
        lines.append(SketchLine(at.name, look, ax, ay, bx, by, ticks, tx, ty, anchor, text, further))
    outline = f"M{x0:.1f} {y1:.1f}V{left:.1f}L{x1:.1f} {right:.1f}V{y1:.1f}Z"
    taken = sum(p.name in readings for p in PLACES)
    return Sketch(
        outline,
        y1,
        tuple(lines),
        _("the opening from the front; %(place)s is marked; %(taken)s of 9 taken")
        % {"place": place.words, "taken": taken},
    )


def missing_words(readings: Mapping[str, float]) -> Sequence[str]:
    """What is not read yet, in words."""
    return [place.words for place in PLACES if place.name not in readings]
