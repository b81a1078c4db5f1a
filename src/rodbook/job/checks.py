"""What no single field can tell: readings against each other, names against the book, and the book against itself."""

from __future__ import annotations

import math
from collections import Counter
from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, field
from datetime import date as Date  # noqa: N812
from decimal import Decimal

from babel import Locale, UnknownLocaleError
from babel.numbers import list_currencies
from pydantic import BaseModel

from rodbook.errors import Fault
from rodbook.job.book import (
    AnyBuildUp,
    Board,
    Book,
    BuildUp,
    Fitting,
    HingeCount,
    HingeType,
    LayOnBuildUp,
    PlainLayOnBuildUp,
    Rate,
    Section,
    Workshop,
    standing_on,
)
from rodbook.job.dates import Away, FirmDates, JobDates
from rodbook.job.faults import nearest, one_line
from rodbook.job.models import GREATEST_OPENING_MM, LEAST_OPENING_MM, Job, JobHeader, Opening, Panel, PriceTerms, Run
from rodbook.job.readings import (
    INSTRUMENT_NAMES,
    KINDS,
    LARGEST_OFFSET_MM,
    USUAL,
    ReadingName,
    kind_of,
    reading_name,
)
from rodbook.job.run_checks import run_faults

__all__ = [
    "FITTING_SORTS", "LEAN_MM", "PART_KINDS", "SPREAD_MM", "BookParts", "Entries", "JobParts", "check_book", "check_book_parts",
    "check_job", "check_job_parts", "check_opening",
]  # fmt: skip

SPREAD_MM = 60.0
"""Three readings of one opening that differ by more are taken for a slip (house assumption)."""

LEAN_MM = 120.0
"""A side that leans by more than this over its height is taken for a misread diagonal (house assumption)."""

PART_KINDS = (
    "door", "lining leg", "lining head", "lining sill", "hinge lining", "division", "trim leg", "trim head", "panel",
    "cover strip", "plinth", "drawer front", "flap", "apron", "rail", "end panel",
)  # fmt: skip
"""The kinds of part there are, in the order in which they are listed."""

_MANY_LINES = frozenset({"note", "contact", "client", "site"})
"""Text that may have more than one line; all other text goes on labels and into tables."""


@dataclass(frozen=True)
class Entries[T]:
    """The entries of one list that could be read, by their number from 1, and the names of all that have one."""

    read: Mapping[int, T] = field(default_factory=dict)
    names: Mapping[int, str] = field(default_factory=dict)

    def known(self) -> list[str]:
        """Every name, whether its entry could be read or not."""
        return list(self.names.values())

    def named(self) -> Mapping[str, T]:
        """The entries that could be read, by name; of two with one name the first."""
        return {self.names[n]: entry for n, entry in reversed(list(self.read.items())) if n in self.names}


def _entries[T: BaseModel](entries: Iterable[T], key: str = "name") -> Entries[T]:
    read = dict(enumerate(entries, 1))
    return Entries(read, {n: getattr(entry, key) for n, entry in read.items()})


@dataclass(frozen=True)
class JobParts:
    """As much of a job as could be read: all of a sound one, the sound parts of any other."""

    header: JobHeader | None = None
    build_up: str | None = None
    workshop: str | None = None
    date: Date | None = None
    making: Sequence[str] = ()
    sizes: Sequence[str] = ()
    price: PriceTerms = field(default_factory=lambda: PriceTerms.model_validate({}))
    openings: Entries[Opening] = field(default_factory=Entries)
    panels: Entries[Panel] = field(default_factory=Entries)
    runs: Entries[Run] = field(default_factory=Entries)

    @classmethod
    def of(cls, job: Job) -> JobParts:
        """All the parts of a job that was read."""
        return cls(
            job.job, job.job.build_up, job.job.workshop, job.job.date, tuple(job.making), tuple(job.sizes), job.price,
            _entries(job.openings, "mark"), _entries(job.panels, "mark"), _entries(job.runs),
        )  # fmt: skip


@dataclass(frozen=True)
class BookParts:
    """As much of a book as could be read."""

    currency: str | None = None
    locale: str | None = None
    boards: Entries[Board] = field(default_factory=Entries)
    sections: Entries[Section] = field(default_factory=Entries)
    hinges: Entries[HingeType] = field(default_factory=Entries)
    build_ups: Entries[BuildUp] = field(default_factory=Entries)
    workshops: Entries[Workshop] = field(default_factory=Entries)
    rates: Entries[Rate] = field(default_factory=Entries)
    hinge_counts: Sequence[HingeCount] = ()
    fittings: Entries[Fitting] = field(default_factory=Entries)

    @classmethod
    def of(cls, book: Book) -> BookParts:
        """All the parts of a book that was read."""
        return cls(
            book.currency, book.locale, _entries(book.boards), _entries(book.sections), _entries(book.hinges),
            _entries(book.build_ups), _entries(book.workshops), _entries(book.rates), book.hinge_counts,
            fittings=_entries(book.fittings),
        )  # fmt: skip


# --- one opening --------------------------------------------------------------------------------------------------


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
        yield Fault(where, said + _twisted(odd, rest))


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
            yield Fault(
                f"{where}.diagonals",
                f"{value:g} mm from {end} does not go with the widths and heights; about {fair:.0f} would be right",
            )


def _standing_faults(opening: Opening, where: str) -> Iterator[Fault]:
    for name in ("widths", "heights"):
        if getattr(opening, name) is None:
            said = f"an opening that stands needs three {name}; measure them or mark it planned"
            yield Fault(f"{where}.{name}", said)
    for name in ("leaf", "clear"):
        if getattr(opening, name) is not None:
            yield Fault(f"{where}.{name}", "a wanted size belongs to a planned opening; this one is standing")
    if opening.end_panels != "none":
        said = (
            "an end panel closes a side where nothing stands yet; mark the opening planned, with the clear size wanted"
        )
        yield Fault(f"{where}.end_panels", said)
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
            yield Fault(at, f"there is no reading {one_line(name, 60)!r}{nearest(name, USUAL)}")
        elif said := _unlikely(found, value, raked=opening.head == "raked"):
            yield Fault(at, said)
    for name in opening.read_by:
        if kind_of(name) is None:
            said = f"there is no reading {one_line(name, 60)!r}{nearest(name, (*KINDS, *opening.readings))}"
            yield Fault(f"{where}.read_by.{one_line(name, 60)}", said)


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
        yield Fault(f"{where}.leaf_shares", "widths are asked for in millimetres and in shares; keep one of the two")
    for name in ("leaf_widths", "leaf_shares"):
        asked = getattr(opening, name)
        if asked is not None and len(asked) != opening.leaves:
            yield Fault(f"{where}.{name}", f"{len(asked)} widths for {opening.leaves} leaves; give one for each")
        if asked is not None and opening.leaf is not None:
            yield Fault(
                f"{where}.{name}", "a wanted leaf is one of equal leaves; give the clear size that is wanted instead"
            )
    for width in opening.leaf_widths or ():
        if 0 < width < LEAST_LEAF_WIDTH_MM:
            said = (
                f"{width:g} mm is less than the least leaf, {LEAST_LEAF_WIDTH_MM:g} mm; write 0 for what is left over"
            )
            yield Fault(f"{where}.leaf_widths", said)


LEAST_ROW_MM = 40.0
"""A lower front is not asked for: no room for a fixing and a finger (house assumption)."""


def _row_faults(opening: Opening, where: str) -> Iterator[Fault]:
    """Rows asked for a front: at most one of leaves, none too low, none under a raked head."""
    if not opening.rows:
        return
    kinds = [row.kind for row in opening.rows]
    if kinds.count("leaves") > 1:
        yield Fault(f"{where}.rows", "there are leaves in more than one row; leave one of them, or make two openings")
    if all(kind == "apron" for kind in kinds):
        yield Fault(f"{where}.rows", "aprons alone close nothing that opens; add leaves, a drawer or a flap")
    if opening.head == "raked":
        yield Fault(f"{where}.rows", "under a raked head a front is not divided in rows; leave them out")
    if opening.leaf is not None:
        said = "a wanted leaf is one of a front that is not divided; give the clear size that is wanted instead"
        yield Fault(f"{where}.rows", said)
    for number, row in enumerate(opening.rows, 1):
        if row.height and row.share != 1:
            said = f"a row {row.height:g} mm high takes no share of what is left; keep one of the two"
            yield Fault(f"{where}.rows[{number}].share", said)
        if 0 < row.height < LEAST_ROW_MM:
            said = f"{row.height:g} mm is less than the least row, {LEAST_ROW_MM:g} mm; write 0 for what is left over"
            yield Fault(f"{where}.rows[{number}].height", said)


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
        yield Fault(f"{where}.floor_finish", said)
    if (opening.leaf is None) == (opening.clear is None):
        yield Fault(where, "a planned opening needs the wanted size once: either leaf or clear, as [width, height]")
    for name in ("widths", "heights", "diagonals", "readings", "read_by"):
        if getattr(opening, name):
            yield Fault(f"{where}.{name}", "a planned opening has no readings yet; leave them out or mark it standing")


# --- names and text -----------------------------------------------------------------------------------------------


def _duplicates(named: Iterable[tuple[str, str]], what: str) -> Iterator[Fault]:
    """Names that stand twice; each pair is a place and the name that stands in it."""
    first: dict[str, str] = {}
    for where, name in named:
        if name.casefold() in first:
            said = f"{name!r} is already the {what} of {first[name.casefold()]}; each needs its own"
            yield Fault(f"{where}.{what} ({one_line(name, 40)})", said)
        else:
            first[name.casefold()] = where


def _unknown(where: str, what: str, name: str, known: Sequence[str]) -> Iterator[Fault]:
    if name not in known:
        hint = nearest(name, known) or f"; it has no {what}s at all"
        yield Fault(where, f"the book has no {what} {name!r}{hint}")


def _unprintable(entry: BaseModel, where: str, mark: str = "") -> Iterator[Fault]:
    """Text with characters that no paper can print, or with line breaks where one line has to do."""
    for name, value in entry:
        at = f"{where}.{name}" if where else name
        singles = value if isinstance(value, tuple) else (value,)
        for number, single in enumerate(singles, 1):
            if isinstance(single, BaseModel):
                yield from _unprintable(single, f"{at}[{number}]" if isinstance(value, tuple) else at, mark)
            for text in single if isinstance(single, dict) else (single,):
                if isinstance(text, str) and (said := _odd_character(text, many_lines=name in _MANY_LINES)):
                    yield Fault(at + mark, said)


def _odd_character(text: str, *, many_lines: bool) -> str:
    for character in text:
        if character in "\n\r\t\v\f\u2028\u2029":
            if not many_lines or character not in "\n\r\t":
                return "this has to stand on one line; take the line break or tab out"
        elif ord(character) < 32 or 0x7F <= ord(character) < 0xA0 or ord(character) & 0xFFFE == 0xFFFE:
            return f"a character that can't be printed (U+{ord(character):04X}) stands here; take it out"
    return ""


def _mark(name: str | None) -> str:
    return f" ({one_line(name, 40)})" if name else ""


# --- the job ------------------------------------------------------------------------------------------------------


def _price_faults(price: PriceTerms) -> Iterator[Fault]:
    if price.margin is not None and price.mark_up is not None:
        yield Fault("price.mark_up", "there is a margin too, which says the same another way; keep one of the two")
    if price.margin is not None and price.margin >= 1:
        yield Fault("price.margin", f"a margin of {price.margin:g} leaves nothing for the cost; write 0.2 for a fifth")
    if price.confidence is not None and not Decimal("0.01") <= price.confidence <= Decimal("0.99"):
        yield Fault("price.confidence", f"{price.confidence:g} is out of range; write a share from 0.01 to 0.99")
    names = Counter((extra.name, extra.option) for extra in price.extras)
    for number, extra in enumerate(price.extras, 1):
        if names[(extra.name, extra.option)] > 1:
            yield Fault(f"price.extras[{number}].name", f"{extra.name!r} stands here twice; give each its own name")


def _book_names(parts: JobParts, book: Book) -> Iterator[Fault]:
    build_ups = {b.name: b for b in book.build_ups}
    if parts.build_up is not None:
        yield from _unknown("job.build_up", "build-up", parts.build_up, list(build_ups))
    if parts.workshop is not None:
        yield from _unknown("job.workshop", "workshop", parts.workshop, [w.name for w in book.workshops])
    if parts.price.taxes is not None:
        yield from _unknown("price.taxes", "tax profile", parts.price.taxes, list({t.name: 0 for t in book.taxes}))
    for name in parts.sizes:
        yield from _unknown(f"sizes.{one_line(name, 60)}", "build-up", name, list(build_ups))
    for number, opening in parts.openings.read.items():
        where, mark = f"openings[{number}]", _mark(opening.mark)
        if opening.build_up is not None:
            yield from _unknown(f"{where}.build_up{mark}", "build-up", opening.build_up, list(build_ups))
        instruments = list(dict.fromkeys((*INSTRUMENT_NAMES, *(entry.name for entry in book.instruments))))
        for name, by in opening.read_by.items():
            yield from _unknown(f"{where}.read_by.{one_line(name, 60)}{mark}", "instrument", by, instruments)
        build_up = build_ups.get(opening.build_up or parts.build_up or "")
        if build_up and opening.depth is not None and opening.depth < build_up.lining_depth:
            yield Fault(
                f"{where}.depth{mark}",
                f"{opening.depth:g} mm is less than the lining's depth in {build_up.name!r}, "
                f"{build_up.lining_depth:g} mm; measure again or choose a shallower build-up",
            )
    if parts.price.taxes is not None:
        profiles = list(dict.fromkeys(profile.name for profile in book.taxes))
        yield from _unknown("price.taxes", "tax profile", parts.price.taxes, profiles)
    boards = [b.name for b in book.boards]
    for number, panel in parts.panels.read.items():
        yield from _unknown(f"panels[{number}].board{_mark(panel.mark)}", "board", panel.board, boards)


def _unpriced(day: Date, book: Book) -> Iterator[Fault]:
    for board in book.boards:
        for size in board.sheets:
            if standing_on(size.prices, day) is None:
                yield Fault(f"book, board {board.name!r}", f"{size.name!r} has no price that holds on {day}")
    for section in book.sections:
        for length in section.lengths:
            if standing_on(length.prices, day) is None:
                yield Fault(f"book, section {section.name!r}", f"{length.name!r} has no price that holds on {day}")


def check_job_parts(parts: JobParts, book: Book | None) -> list[Fault]:
    """Every fault that no single field can tell, in as much of a job as could be read."""
    faults: list[Fault] = []
    if parts.header is not None:
        faults += _unprintable(parts.header, "job")
    for kind in parts.making:
        if kind not in PART_KINDS:
            faults.append(
                Fault(f"making.{one_line(kind, 60)}", f"there is no kind of part {kind!r}{nearest(kind, PART_KINDS)}")
            )
    for number, opening in parts.openings.read.items():
        where, mark = f"openings[{number}]", _mark(opening.mark)
        faults += [Fault(fault.where + mark, fault.what) for fault in check_opening(opening, where)]
        faults += _unprintable(opening, where, mark)
    for number, panel in parts.panels.read.items():
        faults += _unprintable(panel, f"panels[{number}]", _mark(panel.mark))
    marks = [(f"openings[{n}]", mark) for n, mark in parts.openings.names.items()]
    faults += _duplicates(marks + [(f"panels[{n}]", mark) for n, mark in parts.panels.names.items()], "mark")
    faults += _price_faults(parts.price)
    faults += _duplicates([(f"runs[{n}]", name) for n, name in parts.runs.names.items()], "name")
    faults += run_faults(
        parts.runs.read, {o.mark: o for o in parts.openings.read.values()},
        {b.name: b for b in book.build_ups} if book else {}, parts.build_up,
    )  # fmt: skip
    for number, run in parts.runs.read.items():
        faults += _unprintable(run, f"runs[{number}]", _mark(run.name))
    if book is not None:
        faults += _book_names(parts, book)
        faults += _unpriced(parts.date, book) if parts.date is not None else ()
    return faults


def _away_faults(where: str, away: Sequence[Away]) -> Iterator[Fault]:
    for one in away:
        if one.last < one.first:
            yield Fault(where, f"{one.first} to {one.last} ends before it begins; write the earlier day first")


def _job_dates_faults(dates: JobDates) -> Iterator[Fault]:
    if dates.start and dates.by and dates.by < dates.start:
        yield Fault("dates.by", f"{dates.by} is before the start, {dates.start}; choose a later day")
    yield from _duplicates(((f"dates.tasks[{n}]", one.name) for n, one in enumerate(dates.tasks, 1)), "name")
    for number, terms in enumerate(dates.tasks, 1):
        if terms.name in terms.after:
            yield Fault(f"dates.tasks[{number}].after", f"{terms.name!r} can't wait for itself; name another task")
        yield from _unprintable(terms, f"dates.tasks[{number}]")


def _firm_dates_faults(dates: FirmDates) -> Iterator[Fault]:
    yield from _duplicates(((f"dates.crew[{n}]", one.name) for n, one in enumerate(dates.crew, 1)), "name")
    for number, member in enumerate(dates.crew, 1):
        yield from _away_faults(f"dates.crew[{number}].off ({member.name})", member.off)
        yield from _unprintable(member, f"dates.crew[{number}]")
    yield from _away_faults("dates.closed", dates.closed)


def check_job(job: Job, book: Book | None) -> list[Fault]:
    """Every fault in a job that no single field can tell, against the book where one is given."""
    faults = [*check_job_parts(JobParts.of(job), book), *_job_dates_faults(job.dates)]
    if not job.openings and not job.panels:
        said = "the job has neither openings nor panels; add one, or import a list of them"
        faults.append(Fault("openings", said))
    return faults


# --- the book -----------------------------------------------------------------------------------------------------


def _order(where: str, mark: str, values: tuple[float, float, float]) -> Iterator[Fault]:
    if list(values) != sorted(values):
        shown = ", ".join(f"{n} {v:g}" for n, v in zip(("least", "wanted", "most"), values, strict=True))
        yield Fault(where + mark, f"{shown} are out of order; least, wanted and most must not fall")


def _meeting_faults(build_up: AnyBuildUp, where: str, mark: str, parts: BookParts) -> Iterator[Fault]:
    """Meeting edges and what is put on the leaves."""
    if (build_up.meeting == "cover strip") != (build_up.cover_strip is not None):
        yield Fault(f"{where}.cover_strip{mark}", "a cover strip needs its section, and any other meeting edge none")
    if build_up.cover_strip is not None:
        yield from _unknown(f"{where}.cover_strip{mark}", "section", build_up.cover_strip, parts.sections.known())
    if (build_up.meeting == "rebated") != (build_up.meeting_rebate > 0):
        said = "rebated meeting edges need a rebate of more than 0 mm, and any other none"
        yield Fault(f"{where}.meeting_rebate{mark}", said)
    for name, sorts in FITTING_SORTS.items():
        value = getattr(build_up, name)
        if value is None:
            continue
        yield from _unknown(f"{where}.{name}{mark}", "fitting", value, parts.fittings.known())
        fitting = parts.fittings.named().get(value)
        if fitting and fitting.sort not in sorts:
            said = f"{value!r} is a {fitting.sort}, which is no {name.replace('_', ' ')}; name it in its own field"
            yield Fault(f"{where}.{name}{mark}", said)


FITTING_SORTS: Mapping[str, tuple[str, ...]] = {
    "handle": ("handle", "knob"), "catch": ("push-to-open", "magnetic catch", "roller catch"),
    "drawer_fixing": ("front fixing",), "apron_fixing": ("front fixing",), "flap_stay": ("flap stay",),
}  # fmt: skip
"""Fields of a build-up that name a fitting, and what sorts of it they take."""


def _front_faults(build_up: AnyBuildUp, where: str, mark: str, parts: BookParts) -> Iterator[Fault]:
    """Aprons and end panels."""
    for name in ("apron_top", "apron_bottom"):
        if 0 < getattr(build_up, name) < LEAST_ROW_MM:
            said = f"{getattr(build_up, name):g} mm is less than the least apron, {LEAST_ROW_MM:g} mm; write 0 for none"
            yield Fault(f"{where}.{name}{mark}", said)
    if build_up.end_panel_board is not None:
        yield from _unknown(f"{where}.end_panel_board{mark}", "board", build_up.end_panel_board, parts.boards.known())


def _plain_faults(build_up: PlainLayOnBuildUp, where: str, mark: str, lining: Board | None) -> Iterator[Fault]:
    if build_up.trim is not None:
        said = "a leaf that lies on without trim has no trim; leave it out or choose the family within trim"
        yield Fault(f"{where}.trim{mark}", said)
    if lining and build_up.reveal >= lining.thickness:
        said = f"{build_up.reveal:g} mm leaves nothing to lap of an edge {lining.thickness:g} mm thick"
        yield Fault(f"{where}.reveal{mark}", said)
    if (
        lining
        and build_up.meeting_gap >= lining.thickness
        and (build_up.side_lap == "half" or build_up.middle_division)
    ):
        said = f"{build_up.meeting_gap:g} mm leaves nothing to lap by half of an edge {lining.thickness:g} mm thick"
        yield Fault(f"{where}.meeting_gap{mark}", said)


def _edge_faults(build_up: AnyBuildUp, where: str, mark: str) -> Iterator[Fault]:
    for way, name in (
        (build_up.leaf_edge, "leaf_edge_thickness"),
        (build_up.lining_edge, "lining_edge_thickness"),
    ):
        if (way in ("taped", "lipped")) != (getattr(build_up, name) > 0):
            said = f"a {way} edge needs the thickness of what is put on" if way in ("taped", "lipped") else (
                f"a {way} edge has nothing put on it; leave the thickness out or choose taped or lipped"
            )  # fmt: skip
            yield Fault(f"{where}.{name}{mark}", said)


def _build_up_faults(build_up: AnyBuildUp, where: str, parts: BookParts) -> Iterator[Fault]:
    mark = _mark(build_up.name)
    boards = parts.boards.known()
    yield from _unknown(f"{where}.leaf_board{mark}", "board", build_up.leaf_board, boards)
    yield from _unknown(f"{where}.lining_board{mark}", "board", build_up.lining_board, boards)
    yield from _unknown(f"{where}.hinge{mark}", "hinge", build_up.hinge, parts.hinges.known())
    if build_up.trim is not None:
        yield from _unknown(f"{where}.trim{mark}", "section", build_up.trim, parts.sections.known())
    packers = (build_up.packer_least, build_up.packer_wanted, build_up.packer_most)
    yield from _order(f"{where}.packer_least", mark, packers)
    packers = (build_up.head_packer_least, build_up.head_packer_wanted, build_up.head_packer_most)
    yield from _order(f"{where}.head_packer_least", mark, packers)
    if (build_up.head_joint == "housed") != (build_up.housing > 0):
        said = "a housed head needs a housing of more than 0 mm, and any other head none"
        yield Fault(f"{where}.housing{mark}", said)
    yield from _edge_faults(build_up, where, mark)
    lining = parts.boards.named().get(build_up.lining_board)
    if lining and build_up.housing >= lining.thickness:
        said = f"{build_up.housing:g} mm goes right through the lining, {lining.thickness:g} mm thick; make it less"
        yield Fault(f"{where}.housing{mark}", said)
    if isinstance(build_up, LayOnBuildUp):
        if build_up.trim is None:
            said = "a leaf that lies on within trim needs the trim's section"
            yield Fault(f"{where}.trim{mark}", said)
        if lining and build_up.lap > lining.thickness:
            said = f"{build_up.lap:g} mm is more than the thickness of the lining that it laps, {lining.thickness:g} mm"
            yield Fault(f"{where}.lap{mark}", said)
    yield from _meeting_faults(build_up, where, mark, parts)
    yield from _front_faults(build_up, where, mark, parts)
    if isinstance(build_up, PlainLayOnBuildUp):
        yield from _plain_faults(build_up, where, mark, lining)
    hinge = parts.hinges.named().get(build_up.hinge)
    for name in ("lining_depth", "hinge_lining_width"):
        value = getattr(build_up, name)
        if hinge and value is not None and value < hinge.plate_set_back + hinge.plate_diameter:
            said = f"{value:g} mm leaves no room for plate holes {hinge.plate_set_back:g} mm in"
            yield Fault(f"{where}.{name}{mark}", said)


def _same_day(where: str, what: str, days: Iterable[Date]) -> Iterator[Fault]:
    for day, count in Counter(days).items():
        if count > 1:
            yield Fault(where, f"{count} {what} hold from {day}; keep one of them")


def _material_faults(name: str, entry: Board | Section, number: int) -> Iterator[Fault]:
    where, mark = f"{name}[{number}]", _mark(entry.name)
    if entry.density_low > entry.density_high:
        yield Fault(f"{where}.density_low{mark}", "density_low is more than density_high; change them over")
    labels = [size.name for size in (entry.sheets if isinstance(entry, Board) else entry.lengths)]
    labels += [offcut.label for offcut in entry.offcuts] if isinstance(entry, Board) else []
    for label, count in Counter(labels).items():
        if count > 1:
            yield Fault(f"{where}{mark}", f"{label!r} names {count} sizes or offcuts; each needs its own name")
    for size in entry.sheets if isinstance(entry, Board) else entry.lengths:
        yield from _same_day(f"{where}{mark}", f"prices of {size.name!r}", (price.since for price in size.prices))


def _workshop_faults(workshop: Workshop, where: str, parts: BookParts) -> Iterator[Fault]:
    mark = _mark(workshop.name)
    yield from _same_day(f"{where}.rates{mark}", "sets of rates", (rates.since for rates in workshop.rates))
    for number, rates in enumerate(workshop.rates, 1):
        for name in rates.board_m2:
            yield from _unknown(f"{where}.rates[{number}].board_m2{mark}", "board", name, parts.boards.known())
        for name in rates.section_m:
            yield from _unknown(f"{where}.rates[{number}].section_m{mark}", "section", name, parts.sections.known())


def _money_faults(currency: str | None, locale: str | None) -> Iterator[Fault]:
    if currency is not None and currency not in list_currencies():
        yield Fault("currency", f"no currency has the code {currency!r}; write its three letters, as in EUR")
    if locale is not None:
        try:
            Locale.parse(locale)
        except (ValueError, UnknownLocaleError):
            yield Fault("locale", f"{locale!r} is no way of writing numbers; write a language, as in en, de or de_AT")


def check_book_parts(parts: BookParts) -> list[Fault]:
    """Every fault that no single field can tell, in as much of a book as could be read."""
    faults = [*_money_faults(parts.currency, parts.locale)]
    groups: tuple[tuple[str, Entries[BaseModel]], ...] = (
        ("boards", parts.boards), ("sections", parts.sections), ("hinges", parts.hinges),
        ("build_ups", parts.build_ups), ("workshops", parts.workshops), ("fittings", parts.fittings),
    )  # fmt: skip
    for name, group in groups:
        faults += _duplicates(((f"{name}[{n}]", entry) for n, entry in group.names.items()), "name")
    for name, group in (*groups, ("rates", parts.rates)):
        for number, entry in group.read.items():
            faults += _unprintable(entry, f"{name}[{number}]", _mark(group.names.get(number)))
            if isinstance(entry, Board | Section):
                faults += _material_faults(name, entry, number)
    for number, build_up in parts.build_ups.read.items():
        faults += _build_up_faults(build_up, f"build_ups[{number}]", parts)
    for number, workshop in parts.workshops.read.items():
        faults += _workshop_faults(workshop, f"workshops[{number}]", parts)
    seen = Counter((rate.name, rate.since) for rate in parts.rates.read.values())
    twice = [f"{name!r} stands {count} times for {day}" for (name, day), count in seen.items() if count > 1]
    faults += [Fault("rates", f"{said}; keep one of them") for said in twice]
    counts = [(c.height, c.mass, c.hinges) for c in parts.hinge_counts]
    if counts != sorted(counts) or len({c[2] for c in counts}) != len(counts):
        faults.append(Fault("hinge_counts", "heights, masses and counts must all grow from row to row"))
    return faults


def check_book(book: Book) -> list[Fault]:
    """Every fault in a book that no single field can tell."""
    faults = [*_unprintable(book.firm, "firm"), *_unprintable(book.saw, "saw"), *check_book_parts(BookParts.of(book))]
    faults += _firm_dates_faults(book.dates)
    for (name, day), count in Counter((profile.name, profile.since) for profile in book.taxes).items():
        if count > 1:
            faults.append(Fault("taxes", f"{name!r} stands {count} times for {day}; keep one of them"))
    if said := _odd_character(book.hinge_counts_source, many_lines=False):
        faults.append(Fault("hinge_counts_source", said))
    return faults
