"""Framing ahead: which leaf, a little smaller or larger than the one that is wanted, wastes least board over the whole job.

An opening still to be framed may be framed to any size, so its leaf may as well be one that comes out of a sheet without waste.
Board is saved in steps: when one more leaf fits across a sheet, or along it. So only those sizes are looked at, with the one that
is wanted beside them, and for each of them the whole job is set out and laid out, not only the leaf.
"""

from __future__ import annotations

import itertools
import math
from collections import defaultdict
from collections.abc import Callable, Iterable, Sequence
from dataclasses import dataclass
from decimal import Decimal

from rodbook.boards import Saw, SheetPlan
from rodbook.errors import InputError
from rodbook.job import Board, Book, Job
from rodbook.job.aside import without
from rodbook.job.models import Making, Opening
from rodbook.plan.model import OpeningPlan, Plan
from rodbook.plan.parts import plan_parts
from rodbook.plan.stages.materials import Kept, lay_out_lines, saw_of

__all__ = ["LESS_MM", "MORE_MM", "Ahead", "LeafOffer", "frame_ahead", "sheet_steps"]

LESS_MM = 40.0
"""A leaf may come out so much narrower or lower than wanted (house assumption). [mm]"""

MORE_MM = 20.0
"""A leaf may come out so much wider or taller than wanted (house assumption). [mm]"""

_MOST_EACH_WAY = 4
"""Sizes looked at each way beside the one that is wanted; those nearest to it."""


@dataclass(frozen=True)
class LeafOffer:
    """A leaf that could be had instead, and what the whole job's boards then come to.

    Parameters
    ----------
    leaf : tuple of float
        Width and height. [mm]
    framed : tuple of float
        Between the timbers, for that leaf. [mm]
    cost : Decimal
        All sheets of the whole job, everything made on site. [currency]
    sheets : int
        How many.
    used : float
        Share of the sheets' area that goes into parts.
    wanted : bool
        Whether it is the leaf that the job asks for now.
    """

    leaf: tuple[float, float]
    framed: tuple[float, float]
    cost: Decimal
    sheets: int
    used: float
    wanted: bool


@dataclass(frozen=True)
class Ahead:
    """Openings that want the same leaf in the same build-up, and the leaves that they could have; the cheapest first."""

    openings: tuple[str, ...]
    build_up: str
    offers: tuple[LeafOffer, ...]

    @property
    def wanted(self) -> LeafOffer:
        """The leaf that the job asks for now."""
        return next(offer for offer in self.offers if offer.wanted)

    @property
    def best(self) -> LeafOffer:
        """The cheapest; of equally cheap ones the nearest to what is wanted."""
        return self.offers[0]


def frame_ahead(
    job: Job,
    book: Book,
    *,
    less: float = LESS_MM,
    more: float = MORE_MM,
    seconds: float = 1.0,
    kept: Kept | None = None,
    on_try: Callable[[int, int], None] | None = None,
) -> tuple[Ahead, ...]:
    """Look for the leaves that waste least board, for each kind of opening still to be framed.

    Parameters
    ----------
    job, book
        Checked against each other.
    less, more : float
        How far a leaf may come out under or over what is wanted. [mm]
    seconds : float
        Limit for the layouts of each board. [s]
    kept : Kept, optional
        Layouts known already.
    on_try : callable, optional
        Told how many sizes are done, and of how many.

    Returns
    -------
    tuple of Ahead
        One for each leaf that is wanted somewhere; each looked at with all the others as they are. Fronts in rows, and those
        whose leaves are asked for in widths of their own, have no one leaf to look for and stay as they are.

    Raises
    ------
    InputError
        If `less` or `more` make no sense, or as in `plan_parts`.
    """
    for name, value in (("less", less), ("more", more)):
        if not (math.isfinite(value) and 0 <= value <= 500):
            raise InputError.at(name, "plan.size_out_of_range", size_mm=value)
    plan = plan_parts(job, book)
    left = without(job, plan.aside)[0]
    groups: dict[tuple[str, float, float], list[OpeningPlan]] = defaultdict(list)
    for entry in plan.openings:
        if entry.framed is not None and entry.set_out is not None and _one_leaf(entry.opening):
            groups[(entry.build_up, entry.set_out.leaf_width.value, entry.set_out.leaf_height.value)].append(entry)
    kept = {} if kept is None else kept
    tries = {key: list(_leaves(key, book, less, more)) for key in groups}
    total, done = sum(map(len, tries.values())), itertools.count(1)
    results: list[Ahead] = []
    for key, entries in groups.items():
        marks = tuple(entry.opening.mark for entry in entries)
        offers: list[LeafOffer] = []
        for leaf in tries[key]:
            if offer := _tried(left, book, marks, leaf, wanted=leaf == key[1:], seconds=seconds, kept=kept):
                offers.append(offer)
            if on_try is not None:
                on_try(next(done), total)
        offers.sort(key=lambda o: (o.cost, abs(o.leaf[0] - key[1]) + abs(o.leaf[1] - key[2]), o.leaf))
        results.append(Ahead(marks, key[0], tuple(offers)))
    return tuple(results)


def _one_leaf(opening: Opening) -> bool:
    """Whether a front can be framed for one size of leaf: not one in rows, nor one whose leaves are of widths of their own."""
    return not (opening.rows or opening.leaf_widths or opening.leaf_shares)


def _leaves(key: tuple[str, float, float], book: Book, less: float, more: float) -> Iterable[tuple[float, float]]:
    build_up = book.build_up(key[0])
    board = book.board(build_up.leaf_board)
    saw = saw_of(book)
    across, along = sheet_steps(board, saw, build_up.step)
    widths = _near(across if board.grain else across | along, key[1], less, more)
    heights = _near(along if board.grain else across | along, key[2], less, more)
    return itertools.product(widths, heights)


def sheet_steps(board: Board, saw: Saw, step: float) -> tuple[set[float], set[float]]:
    """Largest sizes of which a whole number comes across a sheet, and along it; rounded down to the workshop's step. [mm]

    Parameters
    ----------
    board : Board
    saw : Saw
        Kerf and edge trim.
    step : float
        [mm]

    Examples
    --------
    >>> from rodbook.job.files import parse_book, sample_book_text
    >>> board = next(b for b in parse_book(sample_book_text()).boards if b.sheets[0].length == 2440)
    >>> across, _ = sheet_steps(board, Saw(kerf=3.2, edge_trim=10), 1.0)
    >>> sorted(across, reverse=True)[:3]
    [1200.0, 598.0, 397.0]
    """

    def steps(whole: float) -> set[float]:
        usable = whole - 2 * saw.edge_trim
        return {math.floor(((usable + saw.kerf) / n - saw.kerf) / step + 1e-9) * step for n in range(1, 13)}

    across = set[float]().union(*(steps(sheet.width) for sheet in board.sheets))
    return across, set[float]().union(*(steps(sheet.length) for sheet in board.sheets))


def _near(sizes: set[float], wanted: float, less: float, more: float) -> list[float]:
    within = sorted((s for s in sizes if wanted - less <= s <= wanted + more and s > 0), key=lambda s: abs(s - wanted))
    return [wanted, *(size for size in within[:_MOST_EACH_WAY] if size != wanted)]


def _tried(
    job: Job, book: Book, marks: Sequence[str], leaf: tuple[float, float], *, wanted: bool, seconds: float, kept: Kept
) -> LeafOffer | None:
    """The whole job with another leaf in these openings; None where it can't be built so."""
    openings = [
        opening if opening.mark not in marks else opening.model_copy(update={"leaf": leaf, "clear": None})
        for opening in job.openings
    ]
    try:
        plan = plan_parts(job.model_copy(update={"openings": tuple(openings)}), book)
    except InputError:
        return None
    if plan.aside:
        return None
    lines = [line for line in plan.schedule if not line.part.sectional]
    laid = [m.sheets for m in lay_out_lines(lines, job, book, Making.SITE, seconds=seconds, seed=0, kept=kept)]
    sheets = [answer for answer in laid if answer is not None]
    if any(answer.unplaced for answer in sheets):
        return None
    framed = next(entry.framed for entry in plan.openings if entry.opening.mark == marks[0])
    assert framed is not None
    count, area = _sheets_taken(plan, book, sheets)
    parts = sum(line.part.face_m2 * line.quantity for line in lines)
    cost = sum((answer.cost for answer in sheets), Decimal(0))
    return LeafOffer(
        leaf, (framed.width.value, framed.height.value), cost, count, parts / area if area else 0.0, wanted
    )


def _sheets_taken(plan: Plan, book: Book, answers: Sequence[SheetPlan]) -> tuple[int, float]:
    """How many sheets and offcuts, and their area. [m2]"""
    boards = {line.part.stock for line in plan.schedule if not line.part.sectional}
    areas = {s.name: s.length * s.width * 1e-6 for name in boards for s in book.board(name).sheets}
    areas |= {o.label: o.length * o.width * 1e-6 for name in boards for o in book.board(name).offcuts}
    used = [(areas[layout.sheet], layout.count) for answer in answers for layout in answer.layouts]
    return sum(count for _, count in used), sum(area * count for area, count in used)
