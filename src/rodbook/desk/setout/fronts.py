"""What the page of parts shows: the schedule, each front with its drawings and sizes, and a build-up tried out. Pure."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass

from django.utils.translation import gettext as _
from django.utils.translation import gettext_lazy as lazy

from rodbook.desk.platform.changes import Value
from rodbook.desk.platform.live_drawings import Room, Workings, live_svg
from rodbook.desk.platform.pictures import working_lines
from rodbook.papers.common.shared import hinges_in_words, masses_in_words, openings_in_words, rows_in_words, writer
from rodbook.papers.drawing.model import Asked, Drawing
from rodbook.papers.numbers import Numbers
from rodbook.papers.parts_schedule.content import Front, fronts_of
from rodbook.papers.pictures.foot import draw_foot
from rodbook.papers.pictures.front import draw_front
from rodbook.papers.pictures.section import draw_section
from rodbook.plan import OpeningPlan, Plan
from rodbook.setout import ScheduleLine, SetOut, given
from rodbook.working import Measure

__all__ = [
    "Figure",
    "FrontView",
    "PartRow",
    "figures_of",
    "front_views",
    "part_rows",
    "tried_document",
]

_WORDS = {
    "margin": lazy("margin at the sides"),
    "margin_top": lazy("top margin"),
    "margin_bottom": lazy("margin over a sill"),
    "lap": lazy("lap over the legs"),
    "lap_top": lazy("lap over the head"),
    "lap_bottom": lazy("lap over a sill"),
    "meeting_gap": lazy("meeting gap"),
    "floor_clearance": lazy("floor clearance"),
}
"""Figures of a build-up that can be tried out on the page, in their order."""


@dataclass(frozen=True)
class Figure:
    """One figure of a build-up that can be tried out: its name in the book, what it is called, and its value there."""

    name: str
    words: str
    value: float


@dataclass(frozen=True)
class Size:
    """One size of a front: where it is found, what it is, its value and working, and what it was before a trial."""

    ident: str
    words: str
    value: str
    lines: tuple[str, ...]
    was: str = ""


@dataclass(frozen=True)
class FrontView:
    """A front as the page shows it: what it is, its elevations with the openings that have them, its section, its sizes."""

    number: int
    name: str
    words: str
    openings: str
    elevations: tuple[tuple[str, str], ...]
    section: str
    foot: str
    sizes: tuple[Size, ...]
    weight: str


@dataclass(frozen=True)
class PartRow:
    """A line of the schedule; `changed` says that its size is another than before something was tried out."""

    mark: str
    kind: str
    quantity: int
    size: str
    working: tuple[str, ...]
    stock: str
    openings: str
    changed: bool


def figures_of(plan: Plan) -> dict[str, tuple[Figure, ...]]:
    """Figures that can be tried out, for each build-up that the job uses."""
    results: dict[str, tuple[Figure, ...]] = {}
    for entry in plan.openings:
        if entry.build_up in results or entry.set_out is None:
            continue
        build_up = plan.book.build_up(entry.build_up)
        sill = any(e.opening.sill for e in plan.openings if e.build_up == entry.build_up)
        results[entry.build_up] = tuple(
            Figure(name, words, getattr(build_up, name))
            for name, words in _WORDS.items()
            if hasattr(build_up, name) and (sill or not name.endswith("_bottom"))
        )
    return results


def tried_document(document: Mapping[str, Value], build_up: str, typed: Mapping[str, str]) -> dict[str, Value]:
    """A book's document with figures of one build-up as they were typed; any that can't be tried out are left alone."""
    entries = document["build_ups"]
    assert isinstance(entries, list)
    figures: dict[str, Value] = {name: text for name, text in typed.items() if name in _WORDS}
    changed: list[Value] = [
        {**entry, **figures} if isinstance(entry, dict) and entry.get("name") == build_up else entry
        for entry in entries
    ]
    return {**document, "build_ups": changed}


def _measures(set_out: SetOut) -> list[Measure]:
    return [
        set_out.outer_width,
        set_out.outer_height,
        set_out.clear_width,
        set_out.clear_height,
        set_out.leaf_width,
        set_out.leaf_height,
        *_sloping(set_out),
        *set_out.gaps,
        *(gap.seen for gap in set_out.seen if gap.seen is not gap.made),
        *set_out.dimensions,
    ]


def _sloping(set_out: SetOut) -> list[Measure]:
    """What a raked head adds: the lining's lower side, and both sides of each leaf."""
    sides = [side for size in set_out.leaf_sizes if size.sloping for side in (size.left, size.right)]
    return sides if set_out.outer_low is None else [set_out.outer_low, *sides]


def _size(line: ScheduleLine, write: Numbers) -> str:
    part = line.part
    return write.short_size(part.length.value, part.width.value, part.thickness.value)


def part_rows(plan: Plan, before: Plan | None = None) -> tuple[PartRow, ...]:
    """The schedule, line by line.

    Parameters
    ----------
    plan : Plan
    before : Plan, optional
        As it stands in the book, where something is tried out.
    """
    write = writer(plan)
    known = {(line.mark, _size(line, write)) for line in before.schedule} if before else set()
    return tuple(
        PartRow(
            line.mark,
            str(line.part.kind),
            line.quantity,
            (size := _size(line, write)),
            working_lines((line.part.length, line.part.width, line.part.thickness), write),
            line.part.stock,
            openings_in_words(line),
            before is not None and (line.mark, size) not in known,
        )
        for line in plan.schedule
    )


def front_views(plan: Plan, *, before: Plan | None = None, only: int | None = None) -> tuple[FrontView, ...]:
    """Every front, or only one of them, ready for the page.

    Parameters
    ----------
    plan : Plan
    before : Plan, optional
        As it stands in the book, where something is tried out.
    only : int, optional
        Number of the front that is wanted.
    """
    old = fronts_of(before) if before else ()
    return tuple(
        _view(plan, number, front, _values(before, old[number - 1]) if before and number <= len(old) else {})
        for number, front in enumerate(fronts_of(plan), 1)
        if only is None or number == only
    )


_ELEVATION_ROOM, _SECTION_ROOM, _FOOT_ROOM = Room(340, 612), Room(578, 459), Room(340, 459)
"""What the style sheet gives them on a phone that is 390 wide."""


def _view(plan: Plan, number: int, front: Front, was: Mapping[str, str]) -> FrontView:
    write, set_out = writer(plan), front.set_out
    workings = _asked_first(front, Workings(write, f"w-{number}"))
    elevations = tuple(
        (marks, live_svg(drawing, write, workings, _ELEVATION_ROOM)) for marks, drawing in _elevations(front)
    )
    section = live_svg(_section(plan, front, write), write, workings, _SECTION_ROOM)
    low = draw_foot(set_out, front.name)
    foot = live_svg(low, write, workings, _FOOT_ROOM) if low is not None else ""
    leaves = f"{set_out.leaves} leaves" if set_out.leaves > 1 else "one leaf"
    if set_out.rows:
        leaves = rows_in_words(set_out, write)
    return FrontView(
        number,
        front.name,
        f"{leaves}, {set_out.build_up}",
        ", ".join(entry.opening.mark for entry in front.entries),
        elevations,
        section,
        foot,
        tuple(
            Size(w.ident, w.words, w.value, w.lines, before if (before := was.get(w.words, w.value)) != w.value else "")
            for w in workings.found
        ),
        _weight(set_out, write),
    )


def _weight(set_out: SetOut, write: Numbers) -> str:
    """Hinges and mass of a leaf; without leaves the mass of the heaviest front."""
    if not set_out.leaves:
        return _("the heaviest front has a mass of %(mass)s") % {"mass": write.kilograms(set_out.leaf_mass)}
    return _("%(hinges)s hinges a leaf, which has a mass of %(mass)s") % {
        "hinges": hinges_in_words(set_out),
        "mass": masses_in_words(set_out, write),
    }


def _asked_first(front: Front, workings: Workings) -> Workings:
    """Put the sizes of a front in their order, whatever its drawings ask first."""
    for measure in _measures(front.set_out):
        workings.ask(measure)
    return workings


def _values(plan: Plan, front: Front) -> dict[str, str]:
    """What each size of a front comes to, by its words."""
    workings = _asked_first(front, Workings(writer(plan), ""))
    for _name, drawing in _elevations(front):
        live_svg(drawing, writer(plan), workings, _ELEVATION_ROOM)
    return {working.words: working.value for working in workings.found}


def _elevations(front: Front) -> Iterable[tuple[str, Drawing]]:
    """One for each hand, with the openings that have it."""
    by_hand: dict[str, list[OpeningPlan]] = defaultdict(list)
    for entry in front.entries:
        by_hand[entry.opening.hand.value if entry.opening.leaves != 2 else ""].append(entry)
    for entries in by_hand.values():
        marks = ", ".join(entry.opening.mark for entry in entries)
        set_out = entries[0].set_out
        assert set_out is not None
        yield marks, draw_front(set_out, marks)


def _section(plan: Plan, front: Front, write: Numbers) -> Drawing:
    drawn, words, asks = _packing(plan, front.entries, write)
    build_up = plan.book.build_up(front.set_out.build_up)
    return draw_section(front.set_out, build_up, front.name, packer_mm=drawn, packer_words=words, packer_asks=asks)


def _packing(plan: Plan, entries: Sequence[OpeningPlan], write: Numbers) -> tuple[float, str, Asked]:
    """Packing to draw in the section, what to write there, and how that comes about."""
    packed = [(entry.opening.mark, entry.packers) for entry in entries if entry.packers]
    if packed:
        sides = [mm for _, packers in packed for mm in (*packers.left_mm, *packers.right_mm)]
        lines = [
            f"{mark}: {write.in_working(packers.side.working())}; at foot, middle and head "
            f"{', '.join(map(write.tenth, packers.left_mm))} on the left, "
            f"{', '.join(map(write.tenth, packers.right_mm))} on the right"
            for mark, packers in packed
        ]
        return (
            sum(sides) / len(sides),
            f"packer {write.span(sides)}",
            Asked((), _("packers at the sides"), (), tuple(lines)),
        )
    build_up = plan.book.build_up(entries[0].build_up)
    wanted = given(build_up, build_up.packer_wanted, "packer that is wanted")
    return wanted.value, f"packer {write.short(wanted.value)}", Asked((wanted,))
