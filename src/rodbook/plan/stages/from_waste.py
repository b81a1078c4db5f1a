"""Pieces wanted elsewhere that are cut from what a job's sheets would leave as waste: which, how many, what they are worth.

The job's own layouts stand before any of it and stay as they are, and so do its costs. Parts that are bought in have no waste
of ours: a workshop lays them out for itself.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace
from datetime import date
from decimal import Decimal

from rodbook.boards import Filler, SheetPlan, fill_waste
from rodbook.job import Board, Book, Job
from rodbook.job.models import Making
from rodbook.money import MakeOrBuy, rounded
from rodbook.plan.model import Material, Note, Plan, Wanted
from rodbook.plan.stages.materials import Kept, kept_answer, pieces_of, saw_of, sheets_of
from rodbook.plan.stages.offcuts import area_price
from rodbook.setout import ScheduleLine

__all__ = ["LEAST_WORTH", "FromWaste", "from_waste", "not_laid", "piece_worth", "with_wanted"]

LEAST_WORTH = Decimal("0.01")
"""What a piece counts at the least, where its area costs next to nothing or no price holds. House assumption."""


@dataclass(frozen=True)
class FromWaste:
    """Wanted pieces of one label, as they are cut from a job's waste.

    Parameters
    ----------
    name : str
        What they are called on the layouts.
    label : str
        What is written on them.
    stock : str
        Board.
    length, width : float
        [mm]
    number : int
        How many come out of the layouts.
    wanted : int
        How many could be used.
    layouts : tuple of (int, int)
        Number of a layout, and how many come from all the sheets that are cut by it.
    worth : Decimal
        Of one; zero where they are ticked off already. [currency]
    purpose : str
        What they are for.
    """

    name: str
    label: str
    stock: str
    length: float
    width: float
    number: int
    wanted: int
    layouts: tuple[tuple[int, int], ...]
    worth: Decimal
    purpose: str

    @property
    def worth_of_all(self) -> Decimal:
        """What all that are cut are worth. [currency]"""
        return self.number * self.worth


def piece_worth(
    board: Board, length_mm: float, width_mm: float, worth: Decimal | None, day: date, currency: str
) -> Decimal:
    """What a wanted piece is worth: as the book says, else what its area costs in the size cheapest for its area.

    Parameters
    ----------
    board : Board
    length_mm, width_mm : float
        [mm]
    worth : Decimal, optional
        As the book says.
    day : date
        Whose prices hold.
    currency : str
    """
    if worth is not None:
        return worth
    return max(rounded(area_price(board, length_mm, width_mm, day), currency), LEAST_WORTH)


def _wanted_by(job: Job, board: Board, book: Book) -> list[Wanted]:
    """What may be cut from a board's waste, longest wanted first; once a job's pieces are ticked off, those alone.

    What is ticked off has no worth any more, and one counts against another by its area. A job's own parts on the list, which
    have its name as their purpose, are for others to cut.
    """
    if job.taken:
        return [
            Wanted(
                t.label, t.label, t.length, t.width, t.number, Decimal(0), Decimal(str(t.length * t.width)), t.purpose
            )
            for t in job.taken
            if t.board == board.name
        ]
    if not job.job.take_wanted:
        return []
    results: list[Wanted] = []
    for piece in sorted(board.wanted, key=lambda piece: piece.since or date.max):
        if piece.purpose == job.job.name:
            continue
        worth = piece_worth(board, piece.length, piece.width, piece.worth, job.job.date, book.currency)
        results.append(
            Wanted(piece.label, piece.label, piece.length, piece.width, piece.number, worth, worth, piece.purpose)
        )
    return results


def _named_apart(wanted: Iterable[Wanted], marks: Iterable[str]) -> tuple[Wanted, ...]:
    """The same pieces under names that no part of the job and no other piece has."""
    used, result = set(marks), []
    for entry in wanted:
        name = entry.name
        while name in used:
            name += " (wanted)"
        used.add(name)
        result.append(replace(entry, name=name))
    return tuple(result)


def with_wanted(
    materials: Sequence[Material],
    lines: Sequence[ScheduleLine],
    job: Job,
    book: Book,
    money: MakeOrBuy,
    *,
    kept: Kept | None = None,
) -> tuple[Material, ...]:
    """Cut wanted pieces from what is left of the boards that are cut on site.

    Parameters
    ----------
    materials : sequence of Material
        Laid out, for each maker.
    lines : sequence of ScheduleLine
        All the job's parts.
    job, book
    money : MakeOrBuy
        Who makes what.
    kept : Kept, optional
        Answers known already.

    Returns
    -------
    tuple of Material
        In the same order; those that nothing is cut from as they were.
    """
    saw, marks = saw_of(book), [line.mark for line in lines]
    results: list[Material] = []
    for material in materials:
        plan = material.sheets
        board = book.board(material.stock) if plan is not None and material.maker is Making.SITE else None
        wanted = _named_apart(_wanted_by(job, board, book), marks) if board is not None else ()
        if plan is None or board is None or not wanted:
            results.append(material)
            continue
        mine = [
            line
            for line in lines
            if line.part.stock == material.stock
            and not line.part.sectional
            and money.maker_of(line.part.kind) is Making.SITE
        ]
        pieces, sheets = pieces_of(mine, board), sheets_of(board, job, Making.SITE)
        fillers = [Filler(w.name, w.length, w.width, w.weight, w.number, may_turn=not board.grain) for w in wanted]
        asked = ("filled", plan, pieces, sheets, saw, fillers)

        def fill(
            plan: SheetPlan = plan, asked: tuple[object, ...] = asked, fillers: list[Filler] = fillers
        ) -> SheetPlan:
            return fill_waste(plan, asked[2], asked[3], saw, fillers)  # type: ignore[arg-type]

        filled = kept_answer(kept, asked, fill, SheetPlan)
        results.append(replace(material, filled=filled if filled.fillers_worth else None, wanted=wanted))
    return tuple(results)


def from_waste(plan: Plan) -> tuple[FromWaste, ...]:
    """Wanted pieces that are cut from a job's waste, by board and then as they were wanted; none that found no place.

    Parameters
    ----------
    plan : Plan
        With its layouts.
    """
    counts: dict[tuple[int, str], Counter[int]] = {}
    for number, material, layout in plan.layouts():
        names = material.wanted_names
        for placed in layout.placed:
            if placed.name in names:
                counts.setdefault((id(material), placed.name), Counter())[number] += layout.count
    return tuple(
        FromWaste(
            w.name,
            w.label,
            material.stock,
            w.length,
            w.width,
            sum(cut.values()),
            w.number,
            tuple(sorted(cut.items())),
            w.worth,
            w.purpose,
        )
        for material in plan.materials
        for w in material.wanted
        if (cut := counts.get((id(material), w.name)))
    )


def not_laid(materials: Sequence[Material], job: Job) -> list[Note]:
    """A remark for each label that was ticked off and does not find its place in the layouts as they are now."""
    laid: Counter[tuple[str, str]] = Counter()
    for material in materials:
        labels = {wanted.name: wanted.label for wanted in material.wanted}
        for layout in material.layouts:
            for placed in layout.placed:
                if placed.name in labels:
                    laid[(material.stock, labels[placed.name])] += layout.count
    return [
        Note(taken.label, "plan.cut_from_waste_otherwise", number=taken.number, laid=laid[taken.board, taken.label])
        for taken in job.taken
        if laid[(taken.board, taken.label)] < taken.number
    ]
