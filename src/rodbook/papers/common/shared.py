"""What all papers share: the frame around the page, edges and holes in words, and pictures with their size."""

from __future__ import annotations

from collections import Counter
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field, replace
from datetime import date as Date  # noqa: N812
from pathlib import Path

from rodbook.job import Book
from rodbook.job.confirming import Figure, FigureKind, unconfirmed
from rodbook.papers.common.unconfirmed import paper_line
from rodbook.papers.drawing.model import Drawing, Mark, Text
from rodbook.papers.drawing.svg import ACCENT, INK, TINT, to_svg
from rodbook.papers.numbers import Numbers
from rodbook.plan import Plan
from rodbook.setout import Part, ScheduleLine, SetOut

__all__ = [
    "Content",
    "Json",
    "Pictures",
    "Sheetful",
    "caution_rows",
    "common_finish",
    "edges_in_words",
    "edging_in_words",
    "finish_in_words",
    "firm_frame",
    "frame",
    "hinges_in_words",
    "holes_in_words",
    "leaf_in_words",
    "leaves_in_words",
    "lining_in_words",
    "marks_in_words",
    "missing_rows",
    "openings_in_words",
    "parts_in_words",
    "rows_in_words",
    "writer",
]

type Json = str | int | float | bool | Sequence[Json] | Mapping[str, Json] | None
"""What can be printed as JSON."""

type Content = dict[str, Json]
"""One paper's contents."""


@dataclass(frozen=True)
class Sheetful:
    """One paper, ready to be set: its template, what stands on it, and its pictures by file name."""

    template: Path
    content: Content
    pictures: Mapping[str, str]


@dataclass
class Pictures:
    """Collects the pictures of a paper, figures written as the book's locale does; like ones are kept once."""

    write: Numbers
    files: dict[str, str] = field(default_factory=dict)
    _names: dict[str, str] = field(default_factory=dict)

    def add(self, drawing: Drawing) -> Json:
        """Keep a drawing; what the template needs to place it."""
        svg = to_svg(replace(drawing, marks=tuple(self._written(mark) for mark in drawing.marks)))
        name = self._names.setdefault(svg, f"picture-{len(self.files) + 1}.svg")
        self.files[name] = svg
        return {
            "file": name,
            "width": round(drawing.width, 3),
            "height": round(drawing.height, 3),
            "alt": self.write.in_working(drawing.title),
        }

    def _written(self, mark: Mark) -> Mark:
        return replace(mark, content=self.write.in_working(mark.content)) if isinstance(mark, Text) else mark


def writer(plan: Plan) -> Numbers:
    """How this plan's book writes numbers."""
    return Numbers.of(plan.book, plan.job)


def missing_rows(plan: Plan, *, reasons: bool = True) -> list[Json]:
    """What stands aside, so that this paper has nothing of it: name, room, and why; no reason where others read it."""
    rooms = {p.mark: p.room for p in plan.job.panels} | {o.mark: o.room for o in plan.job.openings}
    return [
        [one.name, rooms.get(one.mark, ""), "; ".join(one.why) if reasons else ""]
        for one in (plan.aside if reasons else plan.missing)
    ]


def frame(
    plan: Plan,
    name: str,
    *,
    title: str,
    landscape: bool = False,
    reasons: bool = True,
    rests: Sequence[Figure] | None = None,
) -> Json:
    """Header and footer of a paper.

    Parameters
    ----------
    plan : Plan
    name : str
        Of the paper, for the header.
    title : str
        At its top.
    landscape : bool
    reasons : bool
        Whether it says why something stands aside; what others read says only that it is not in it.
    rests : sequence of Figure, optional
        What nobody has confirmed of all that it rests on, for a paper that leaves the firm; else the firm's name alone.
    """
    job, write = plan.job.job, writer(plan)
    return {
        "name": name,
        "title": title,
        "firm": plan.book.firm.name,
        "contact": plan.book.firm.contact,
        "job": job.name,
        "number": job.number,
        "client": job.client,
        "site": job.site,
        "revision": job.revision,
        "notice": _firm_line(plan.book) if rests is None else paper_line(rests),
        "date": write.date(job.date),
        "day": [job.date.year, job.date.month, job.date.day],
        "landscape": landscape,
        "ink": INK,
        "accent": ACCENT,
        "tint": TINT,
        "missing": missing_rows(plan, reasons=reasons),
    }


def _firm_line(book: Book) -> str:
    """That the firm on the paper is a sample's, where nobody has said that it is theirs."""
    return paper_line([figure for figure in unconfirmed(book) if figure.kind is FigureKind.FIRM])


def firm_frame(book: Book, name: str, *, title: str, day: Date, landscape: bool = False) -> Json:
    """Header and footer of a paper that is of no single job.

    Parameters
    ----------
    book : Book
    name : str
        Of the paper, for the header.
    title : str
        At its top.
    day : date
        On which it is made.
    landscape : bool
    """
    return {
        "name": name,
        "title": title,
        "firm": book.firm.name,
        "contact": book.firm.contact,
        "job": "",
        "number": "",
        "client": "",
        "site": "",
        "revision": "",
        "notice": _firm_line(book),
        "date": Numbers.of(book).date(day),
        "day": [day.year, day.month, day.day],
        "landscape": landscape,
        "ink": INK,
        "accent": ACCENT,
        "tint": TINT,
        "missing": [],
    }


def caution_rows(cautions: Sequence[tuple[str, str]]) -> Json:
    """Cautions as rows of a word and a sentence."""
    return [[word, sentence] for word, sentence in cautions]


def edges_in_words(part: Part) -> str:
    """Edges that are seen."""
    if len(part.edges) == 4:
        return "all four"
    long = [edge for edge in part.edges if part.along(edge)]
    ends = [edge for edge in part.edges if not part.along(edge)]
    return ", ".join(
        [*(["both long edges"] if len(long) == 2 else long), *(f"{end} end" if part.lies else end for end in ends)]
    )


def edging_in_words(part: Part) -> str:
    """What is done to the edges that are seen, where they are not left raw."""
    work = part.edge_work
    if work is None:
        return "long edges planed as bought" if part.planed else ""
    if work.thickness is None:
        return work.way
    return f"{work.way}, {work.thickness} mm, {'taken off the core' if work.taken_off else 'put on over the size'}"


def finish_in_words(part: Part) -> str:
    """Finish and its coats."""
    if not part.finish:
        return ""
    coats = f", {part.coats} coat{'s' if part.coats != 1 else ''}" if part.coats else ""
    return f"{part.finish}{coats}"


def common_finish(lines: Sequence[ScheduleLine]) -> str:
    """The finish that all parts share; empty where they differ or have none."""
    results = {finish_in_words(line.part) for line in lines}
    return results.pop() if len(results) == 1 else ""


def holes_in_words(part: Part) -> str:
    """How many holes of each kind."""
    counts = Counter(boring.kind for boring in part.borings)
    words = {
        "cup": "cup",
        "pilot": "pilot",
        "plate": "plate hole",
        "handle": "handle hole",
        "catch": "catch hole",
        "fixing": "fixing hole",
        "stay": "stay hole",
    }
    return ", ".join(f"{n} {words[kind]}{'s' if n != 1 else ''}" for kind, n in counts.items())


def lining_in_words(set_out: SetOut, write: Numbers) -> str:
    """Outer size of the lining: under a raked head its width and both heights."""
    if set_out.outer_low is None:
        return write.short_size(set_out.outer_width.value, set_out.outer_height.value)
    low, high = set_out.outer_low.value, set_out.outer_height.value
    left, right = (low, high) if set_out.falls_to == "left" else (high, low)
    return f"{write.short(set_out.outer_width.value)} wide, {write.short(left)} left, {write.short(right)} right"


def leaf_in_words(set_out: SetOut, write: Numbers) -> str:
    """Size of the leaf, or of each where they differ."""
    texts = [
        write.short_size(size.width.value, size.left.value)
        if not size.sloping
        else f"{write.short(size.width.value)} wide, {write.short(size.left.value)} left, {write.short(size.right.value)} right"
        for size in set_out.leaf_sizes
    ]
    if len(set(texts)) <= 1:
        return texts[0] if texts else write.short_size(set_out.leaf_width.value, set_out.leaf_height.value)
    return "; ".join(f"{number}: {words}" for number, words in enumerate(texts, 1))


def leaves_in_words(set_out: SetOut, write: Numbers, *, long: bool = True) -> str:
    """How many leaves of which size, or the size of each where they differ."""
    if set_out.rows:
        return rows_in_words(set_out, write)
    if len({(s.width.value, s.left.value, s.right.value) for s in set_out.leaf_sizes}) > 1:
        return leaf_in_words(set_out, write)
    size = (write.size if long else write.short_size)(set_out.leaf_width.value, set_out.leaf_height.value)
    return f"{set_out.leaves} of {size}"


def rows_in_words(set_out: SetOut, write: Numbers) -> str:
    """The rows of a front that is divided in height, from the floor up."""
    names = {"drawer": "drawer front", "flap": "flap", "apron": "apron"}
    return "; ".join(
        f"{set_out.leaves} of {leaf_in_words(set_out, write)}"
        if row.kind == "leaves"
        else f"{names[row.kind]} {write.short_size(row.width.value, row.height.value)}"
        for row in set_out.rows
    )


def hinges_in_words(set_out: SetOut) -> str:
    """How many hinges a leaf has, or each where they differ."""
    counts = {size.hinges for size in set_out.leaf_sizes}
    if len(counts) <= 1:
        return str(set_out.hinges)
    return " and ".join(str(size.hinges) for size in set_out.leaf_sizes)


def masses_in_words(set_out: SetOut, write: Numbers) -> str:
    """What a leaf weighs, or each from the left where they differ."""
    masses = [write.kilograms(size.mass) for size in set_out.leaf_sizes]
    if len(set(masses)) <= 1:
        return write.kilograms(set_out.leaf_mass)
    return "; ".join(f"{number}: {mass}" for number, mass in enumerate(masses, 1))


def parts_in_words(lines: Sequence[ScheduleLine]) -> str:
    """How many parts there are."""
    total = sum(line.quantity for line in lines)
    return f"{total} part{'s' if total != 1 else ''}"


def openings_in_words(line: ScheduleLine) -> str:
    """Openings that take a part, those that take more than one named with how many."""
    by_count: dict[int, list[str]] = {}
    for mark, n in line.openings:
        by_count.setdefault(n, []).append(mark)
    groups = [("" if n == 1 else f"{n} each: ") + ", ".join(marks) for n, marks in sorted(by_count.items())]
    return "; ".join(groups)


def marks_in_words(marks: Sequence[tuple[str, int]]) -> str:
    """Marks of the parts of an opening, those that it takes several of with how many.

    >>> marks_in_words((("1-door-left", 1), ("2-leg", 2)))
    '1-door-left, 2 of 2-leg'
    """
    return ", ".join(mark if n == 1 else f"{n} of {mark}" for mark, n in marks)
