"""Parts on sheets and lengths: what is asked of the layout engine, for each board, section and maker."""

from __future__ import annotations

import hashlib
import math
from collections import defaultdict
from collections.abc import Callable, Iterator, MutableMapping, Sequence
from decimal import Decimal

from rodbook.boards import Bar, BarPlan, Piece, Saw, Sheet, SheetPlan, Stick, cut_lengths, lay_out
from rodbook.boards.tools.clock import COUNTED_SHARE
from rodbook.errors import Fault, Message, Place
from rodbook.job import Board, Book, Job, Section
from rodbook.job.book import valid_on
from rodbook.job.models import Making
from rodbook.money import MaterialUsage, bar_usage, sheet_usage
from rodbook.plan.model import Material, Note
from rodbook.setout import ScheduleLine

__all__ = [
    "Kept",
    "broken_off",
    "by_stock",
    "kept_answer",
    "lay_out_lines",
    "pieces_of",
    "saw_of",
    "sheets_of",
    "unplaced_faults",
    "unplaced_of_each",
    "usage_of",
]

type Kept = MutableMapping[str, SheetPlan | BarPlan]
"""Layouts kept by what they were asked: handing the same one in again makes an unchanged job's layouts instant."""


def by_stock(lines: Sequence[ScheduleLine]) -> dict[tuple[str, bool], list[ScheduleLine]]:
    """Lines by board or section, and whether it is a section."""
    results: dict[tuple[str, bool], list[ScheduleLine]] = defaultdict(list)
    for line in lines:
        results[(line.part.stock, line.part.sectional)].append(line)
    return dict(results)


def _price(prices: tuple[object, ...], job: Job) -> Decimal:
    standing = valid_on(prices, job.job.date)  # type: ignore[type-var]
    assert standing is not None, "the checks let no job through without a price that holds"
    return Decimal(standing.amount)  # type: ignore[attr-defined]


def saw_of(book: Book) -> Saw:
    """The firm's saw, as layouts are asked for it."""
    return Saw(kerf=book.saw.kerf, edge_trim=book.saw.edge_trim, max_turns=book.saw.turns)


def pieces_of(lines: Sequence[ScheduleLine], board: Board) -> list[Piece]:
    """Parts of one board, as layouts are asked for them."""
    return [
        Piece(line.mark, line.part.cut_length, line.part.cut_width, line.quantity, may_turn=not board.grain)
        for line in lines
    ]


def sheets_of(board: Board, job: Job, maker: Making) -> list[Sheet]:
    """Sheets as sold and, for the firm's own cutting, the offcuts that lie in the shop, in whatever order they came there."""
    sold = [Sheet(s.name, s.length, s.width, _price(s.prices, job)) for s in board.sheets]
    if maker is Making.BOUGHT:
        return sold
    lying = sorted(board.offcuts, key=lambda offcut: offcut.label)
    return [Sheet(o.label, o.length, o.width, Decimal(0), quantity=1) for o in lying] + sold


def _bars(section: Section, job: Job, book: Book) -> list[Bar]:
    """Lengths as sold: both their ends are raw."""
    return [
        Bar(size.name, size.length, _price(size.prices, job), end_trim=book.saw.end_trim) for size in section.lengths
    ]


def kept_answer[R: (SheetPlan, BarPlan)](
    kept: Kept | None, question: object, answer: Callable[[], R], kind: type[R]
) -> R:
    """An answer that is kept by what was asked; worked out and kept where there is none yet."""
    if kept is None:
        return answer()
    key = hashlib.sha256(repr(question).encode()).hexdigest()
    result = kept.get(key)
    if not isinstance(result, kind):
        result = answer()
        kept[key] = result
    return result


def lay_out_lines(
    lines: Sequence[ScheduleLine],
    job: Job,
    book: Book,
    maker: Making,
    *,
    seconds: float,
    seed: int,
    kept: Kept | None = None,
    on_board: Callable[[str], None] | None = None,
) -> tuple[Material, ...]:
    """Lay the lines out on the sheets and lengths of their boards and sections.

    Parameters
    ----------
    lines : sequence of ScheduleLine
    job, book
        For sizes, prices on the job's day and the saw.
    maker : Making
        Offcuts in the shop are used only for what is made on site.
    seconds : float
        About what each board may take on an ordinary machine. What ends a search is `COUNTED_SHARE` of it in counted work and
        never the clock, so that the same question has the same answer under any load. [s]
    seed : int
    kept : Kept, optional
        Answers known already.
    on_board : callable, optional
        Told the name of each board before it is laid out.

    Returns
    -------
    tuple of Material
        In the order in which the stock first appears in the schedule.
    """
    saw = saw_of(book)
    results: list[Material] = []
    for (stock, sectional), members in by_stock(lines).items():
        if on_board is not None:
            on_board(stock)
        if sectional:
            sticks = [Stick(line.mark, line.part.length.value, line.quantity) for line in members]
            bars = _bars(book.section(stock), job, book)
            question = ("lengths", sticks, bars, saw.kerf, seconds, seed)

            def cut(s: list[Stick] = sticks, b: list[Bar] = bars) -> BarPlan:
                return cut_lengths(s, b, kerf=saw.kerf, seconds=math.inf, seed=seed, effort=COUNTED_SHARE * seconds)

            results.append(Material(stock, maker, lengths=kept_answer(kept, question, cut, BarPlan)))
            continue
        board = book.board(stock)
        pieces, sheets = pieces_of(members, board), sheets_of(board, job, maker)
        asked = ("sheets", pieces, sheets, saw, seconds, seed)

        def lay(p: list[Piece] = pieces, s: list[Sheet] = sheets) -> SheetPlan:
            return lay_out(p, s, saw, seconds=math.inf, seed=seed, effort=COUNTED_SHARE * seconds)

        results.append(Material(stock, maker, sheets=kept_answer(kept, asked, lay, SheetPlan)))
    return tuple(results)


def broken_off(materials: Sequence[Material]) -> list[Note]:
    """A remark on each board or section of whose layouts a later step failed; what was found without it stands."""
    return [
        Note(
            material.stock,
            "plan.step_of_search_failed",
            steps=tuple(dict.fromkeys(part.step for part in answer.broken_off)),
        )
        for material in materials
        if (answer := material.sheets or material.lengths) and answer.broken_off
    ]


def _unplaced(materials: Sequence[Material]) -> Iterator[tuple[str, Message]]:
    """Mark of each part that no sheet or length can give, and why."""
    for material in materials:
        answer = material.sheets or material.lengths
        for left in answer.unplaced if answer else ():
            yield left.name, Message("plan.part_unplaced", why=left.reason.rstrip("."), stock=material.stock)


def unplaced_faults(materials: Sequence[Material], schedule: Sequence[ScheduleLine]) -> list[Fault]:
    """A fault for each part that no sheet or length can give, naming the openings that take it."""
    lines = {line.mark: line for line in schedule}
    return [
        Fault(
            Place(("parts", lines[part].part.kind.value), ", ".join(mark for mark, _ in lines[part].openings)),
            why,
        )
        for part, why in _unplaced(materials)
    ]


def unplaced_of_each(materials: Sequence[Material], schedule: Sequence[ScheduleLine], job: Job) -> list[Fault]:
    """A fault for each opening and panel that takes a part that no sheet or length can give, at its place in the job."""
    places = {panel.mark: Place(("panels", n), panel.mark) for n, panel in enumerate(job.panels)}
    places |= {opening.mark: Place(("openings", n), opening.mark) for n, opening in enumerate(job.openings)}
    lines = {line.mark: line for line in schedule}
    return [
        Fault(places[mark], "plan.part_cant_be_cut", kind=lines[part].part.kind, why=why)
        for part, why in _unplaced(materials)
        for mark, _ in lines[part].openings
    ]


def usage_of(materials: Sequence[Material], book: Book) -> tuple[MaterialUsage, ...]:
    """What layouts take, for the site cost."""
    saw = saw_of(book)
    results: list[MaterialUsage] = []
    for material in materials:
        if material.sheets is not None:
            board = book.board(material.stock)
            results.append(sheet_usage(board, material.sheets, saw, keep_from_m2=book.saw.keep_from))
        elif material.lengths is not None:
            results.append(bar_usage(book.section(material.stock), material.lengths))
    return tuple(results)
