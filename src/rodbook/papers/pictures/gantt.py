"""Bars over days: one row for each place and each kind of task that has none, told apart without colour."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from datetime import date as Date  # noqa: N812

from rodbook.dates import Placed, Programme, Stage
from rodbook.papers.drawing.hatch import hatch
from rodbook.papers.drawing.lettering import LEAST_MM, text_width_mm
from rodbook.papers.drawing.model import Drawing, Fill, Line, Mark, Pen, Shape, Text, on_plate, rectangle

__all__ = ["GanttRow", "draw_gantt", "draw_key", "gantt_rows", "stretches"]

LABEL_MM = 52.0
ROW_MM = 6.4
BAR_MM = 4.2
HEAD_MM = 9.0

_HATCH: dict[Stage, tuple[float, ...]] = {
    Stage.LININGS: (45.0,),
    Stage.LEAVES: (),
    Stage.TRIMS: (135.0,),
    Stage.PANELS: (0.0,),
    Stage.DECORATE: (45.0, 135.0),
    Stage.COAT: (45.0, 135.0),
    Stage.ADJUST: (90.0,),
}
"""Directions of the lines in a bar. [degrees]"""

_SOLID = frozenset({Stage.DELIVER, Stage.HAND_OVER})

KEY: tuple[tuple[Stage, str], ...] = (
    (Stage.MEASURE, "measure, order, check"),
    (Stage.DELIVER, "take in, hand over"),
    (Stage.MAKE, "make"),
    (Stage.COAT, "coat, touch up"),
    (Stage.LININGS, "linings"),
    (Stage.LEAVES, "leaves"),
    (Stage.TRIMS, "trims"),
    (Stage.PANELS, "panels"),
    (Stage.ADJUST, "adjust"),
)

_TINTED = frozenset({Stage.MAKE, Stage.LEAVES})


IDLE = 0.12
"""Width of a day on which nothing is done, of that of any other: the weeks until a delivery take no room."""


@dataclass(frozen=True)
class Axis:
    """Where quarters come to lie.

    Parameters
    ----------
    first : int
        First working day.
    edges : tuple of float
        Left edge of each day, and the right edge of the last. [mm]
    quarters : int
        In a day.
    """

    first: int
    edges: tuple[float, ...]
    quarters: int

    @classmethod
    def of(cls, programme: Programme, days: tuple[int, int], left: float, width: float) -> Axis:
        """An axis over some days, idle ones narrow."""
        busy = busy_days(programme)
        weights = [1.0 if day in busy else IDLE for day in range(*days)]
        edges = [left]
        for weight in weights:
            edges.append(edges[-1] + width * weight / sum(weights))
        return cls(days[0], tuple(edges), programme.calendar.quarters)

    @property
    def span(self) -> tuple[int, int]:
        """First quarter and the one after the last."""
        return self.first * self.quarters, (self.first + len(self.edges) - 1) * self.quarters

    def at(self, quarter: int) -> float:
        """[mm]"""
        begin, end = self.span
        day, rest = divmod(min(max(quarter, begin), end) - begin, self.quarters)
        if day == len(self.edges) - 1:
            return self.edges[-1]
        return self.edges[day] + (self.edges[day + 1] - self.edges[day]) * rest / self.quarters


@dataclass(frozen=True)
class GanttRow:
    """One line of the picture."""

    name: str
    entries: tuple[Placed, ...]


_ROW_OF = {
    Stage.MEASURE: "read, order, take in, check",
    Stage.ORDER: "read, order, take in, check",
    Stage.DELIVER: "read, order, take in, check",
    Stage.CHECK: "read, order, take in, check",
    Stage.COAT: "coat in the shop",
    Stage.HAND_OVER: "hand over",
}


def gantt_rows(programme: Programme) -> tuple[GanttRow, ...]:
    """Rows of a picture, in order of their first task; tasks that overlap take rows of their own.

    Where there are several jobs, a row begins with the number of its job.

    Parameters
    ----------
    programme : Programme
    """
    several = len(programme.works) > 1
    names = {work.key: str(number) for number, work in enumerate(programme.works, 1)} if several else {}
    rows: dict[str, list[list[Placed]]] = {}
    for entry in programme.schedule.placed:
        name = _row_name(entry, names)
        lanes = rows.setdefault(name, [])
        lane = next((lane for lane in lanes if lane[-1].end <= entry.start), None)
        if lane is None:
            lanes.append(lane := [])
        lane.append(entry)
    return tuple(
        GanttRow(name if n == 0 else "", tuple(lane)) for name, lanes in rows.items() for n, lane in enumerate(lanes)
    )


def _row_name(entry: Placed, jobs: Mapping[str, str]) -> str:
    task = entry.task
    job, _, room = task.place.partition(": ")
    own = room or task.place or _ROW_OF.get(task.stage, task.stage.value)
    shared = task.place and not room and job == task.place
    return f"{jobs[task.job]}  {own}" if jobs and not shared else own


def busy_days(programme: Programme) -> frozenset[int]:
    """Working days on which anything is done."""
    quarters = programme.calendar.quarters
    return frozenset(
        day
        for entry in programme.to_do
        for day in range(entry.start // quarters, max(entry.end - 1, entry.start) // quarters + 1)
    )


def stretches(programme: Programme, longest: int) -> tuple[tuple[int, int], ...]:
    """Stretches of days for one picture each, with no more than so many days on which anything is done.

    Parameters
    ----------
    programme : Programme
    longest : int
        [working days]

    Returns
    -------
    tuple of (int, int)
        First day and the one after the last.
    """
    results: list[tuple[int, int]] = []
    count = 0
    for day in sorted(busy_days(programme)):
        count += 1
        if results and count <= longest:
            results[-1] = (results[-1][0], day + 1)
        else:
            results.append((day, day + 1))
            count = 1
    return tuple(results)


def draw_gantt(
    programme: Programme, rows: Sequence[GanttRow], days: tuple[int, int], *, width: float, written: Mapping[Date, str]
) -> Drawing:
    """Bars of some rows over some days.

    Parameters
    ----------
    programme : Programme
    rows : sequence of GanttRow
    days : tuple of int
        First working day and the one after the last.
    width : float
        Of the picture. [mm]
    written : mapping of date to str
        How days are lettered.

    Returns
    -------
    Drawing
        A thick outline means that a task can't be a day later without moving a hand-over; a broken line is a lead time.
    """
    first, last = days
    calendar = programme.calendar
    axis = Axis.of(programme, days, LABEL_MM, width - LABEL_MM - 2)
    begin, end = axis.span
    marks: list[Mark] = [*_grid(programme, axis, len(rows), written)]
    keep = {entry.task.key: n for n, row in enumerate(rows) for entry in row.entries}
    for n, row in enumerate(rows):
        middle = HEAD_MM + (n + 0.5) * ROW_MM
        if row.name:
            marks.append(Text(0, middle, _fitting(row.name, LABEL_MM - 2), anchor="start"))
        for entry in row.entries:
            for wait in entry.task.waits:
                if wait.supplier and wait.after in keep:
                    marks += _lead(programme, wait.after, entry, axis, keep, middle)
            if entry.task.done is None and entry.start < end and entry.end > begin:
                left, right = axis.at(entry.start), axis.at(entry.end)
                tight = programme.floats[entry.task.key] < calendar.quarters
                letters = "".join(name[:1] for name in entry.people)
                marks += _bar(entry.task.stage, left, right, middle, tight=tight, letters=letters)
    title = f"Dates from {calendar.days[first]} to {calendar.days[last - 1]}"
    return Drawing.around(marks, title=title, scale=1)


def _fitting(words: str, room: float) -> str:
    """As much as there is room for."""
    if text_width_mm(words, LEAST_MM) <= room:
        return words
    while words and text_width_mm(words + "…", LEAST_MM) > room:
        words = words[:-1]
    return words.rstrip(" ,") + "…"


def _grid(programme: Programme, axis: Axis, rows: int, written: Mapping[Date, str]) -> Iterator[Mark]:
    calendar = programme.calendar
    foot = HEAD_MM + rows * ROW_MM
    busy = busy_days(programme)
    free = axis.edges[0]
    for n, x in enumerate(axis.edges):
        day = axis.first + n
        gap = 0 < day < len(calendar.days) and (calendar.days[day] - calendar.days[day - 1]).days > 1
        yield Line(((x, HEAD_MM - (3 if gap else 1)), (x, foot)), Pen.OUTLINE if gap else Pen.HATCH, "day")
        if n + 1 < len(axis.edges) and day in busy and x >= free:
            text = written[calendar.days[day]]
            reach = text_width_mm(text, LEAST_MM)
            if x + reach <= axis.edges[-1] + 1:
                yield Text(x + 0.6, HEAD_MM - 5.2, text, anchor="start", role="date")
                free = x + reach + 2
    for n in range(rows + 1):
        y = HEAD_MM + n * ROW_MM
        yield Line(((0, y), (axis.edges[-1], y)), Pen.HATCH, "row")


def _bar(stage: Stage, left: float, right: float, middle: float, *, tight: bool, letters: str = "") -> Iterator[Mark]:
    right = max(right, left + 0.6)
    top, bottom = middle - BAR_MM / 2, middle + BAR_MM / 2
    fill = Fill.INK if stage in _SOLID else Fill.TINT if stage in _TINTED else Fill.PAPER
    yield rectangle((left, top), (right, bottom), Pen.NONE, fill)
    corners = ((left, top), (right, top), (right, bottom), (left, bottom))
    for angle in _HATCH.get(stage, ()):
        yield from hatch(corners, step=1.1, angle=angle)
    if stage is Stage.MAKE:
        yield from hatch(corners, step=0.7, angle=0.0)
    if letters and text_width_mm(letters, LEAST_MM) + 1.6 <= right - left and stage not in _SOLID:
        yield from on_plate(Text((left + right) / 2, middle, letters, role="who"), air=0.3)
    yield Shape(corners, Pen.CUT if tight else Pen.FINE, Fill.NONE, "bar")


def _lead(
    programme: Programme, after: str, entry: Placed, axis: Axis, keep: Mapping[str, int], y: float
) -> Iterator[Mark]:
    """From an order to what comes: a broken line, bent where the two stand on different rows."""
    order = programme.schedule.of(after)
    from_y = HEAD_MM + (keep[after] + 0.5) * ROW_MM
    a, b = axis.at(order.end), axis.at(entry.start)
    if b > a:
        yield Line(((a, from_y), (max(a, b - 1.2), from_y), (max(a, b - 1.2), y), (b, y)), Pen.HIDDEN, "lead time")


def draw_key() -> Drawing:
    """What the bars stand for."""
    marks: list[Mark] = []
    x = 0.0
    for stage, words in KEY:
        marks += _bar(stage, x, x + 7, 3, tight=False)
        marks.append(Text(x + 8, 3, words, anchor="start"))
        x += 8 + text_width_mm(words, LEAST_MM) + 3.6
    return Drawing.around(marks, title="What the bars stand for: " + ", ".join(words for _, words in KEY), scale=1)
