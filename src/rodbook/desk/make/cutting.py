"""What the pages of boards show: sheets and lengths with their proof, and the cuts of a sheet one by one. Pure."""

from __future__ import annotations

from collections import Counter
from collections.abc import Collection, Mapping
from dataclasses import dataclass

from django.utils.translation import gettext as _
from django.utils.translation import gettext_lazy as lazy

from rodbook.boards import BarPlan, CutStep, Layout, SheetPlan, cut_list
from rodbook.desk.platform.live_drawings import Room, Workings, live_svg
from rodbook.desk.platform.pictures import draw_cut, svg_of
from rodbook.job.models import Making
from rodbook.papers.common.proofs import proof_in_words
from rodbook.papers.common.shared import writer
from rodbook.papers.layouts.content import elsewhere_in_words, rest_in_words
from rodbook.papers.numbers import Numbers
from rodbook.papers.pictures.layout import draw_length, draw_sheet
from rodbook.plan import Material, Plan, from_waste, kept_offcuts, saw_of, used_offcuts
from rodbook.working import Measure

__all__ = [
    "CutView",
    "Keep",
    "Length",
    "Sheet",
    "Stock",
    "WastePiece",
    "cut_view",
    "keeps_of",
    "sheet_count",
    "stocks_of",
    "used_of",
    "waste_pieces_of",
]

_FOR = {Making.SITE: lazy("made on site"), Making.BOUGHT: lazy("bought in; the workshop lays out for its own saw")}


@dataclass(frozen=True)
class Sheet:
    """One layout: its number over the whole job, how many sheets are cut by it, and its picture."""

    number: int
    name: str
    size: str
    count: int
    sum: str
    svg: str


@dataclass(frozen=True)
class Length:
    """One way of cutting a length: how many are cut by it, the stops, the rest, and its picture."""

    name: str
    count: int
    stops: str
    rest: str
    svg: str


@dataclass(frozen=True)
class Stock:
    """A board or a section for one maker: what it takes, how good that is known to be, and what it costs."""

    name: str
    maker: str
    takes: str
    proof: str
    cost: str
    sheets: tuple[Sheet, ...]
    lengths: tuple[Length, ...]


@dataclass(frozen=True)
class Keep:
    """An offcut to keep: what to write on it, its board, size and layout, and what it is worth to those who see prices."""

    label: str
    stock: str
    size: str
    layout: int
    worth: str


@dataclass(frozen=True)
class WastePiece:
    """Wanted pieces that are cut from waste: what to write on them, how many of how many, from where and what for.

    `name` is what they are called on the layouts; `worth` is said only to those who see prices.
    """

    label: str
    name: str
    stock: str
    size: str
    number: int
    wanted: int
    layouts: tuple[int, ...]
    worth: str
    purpose: str


@dataclass(frozen=True)
class Cut:
    """One cut in words: what is taken up, how it lies, the fence, what the cut yields and what is left then."""

    number: int
    take: str
    edge: str
    way: str
    fence: str
    yields: str
    leaves: str


@dataclass(frozen=True)
class CutView:
    """A sheet at one of its cuts; `next` is None where all are made."""

    number: int
    sheets: int
    stock: str
    sheet: str
    count: int
    total: int
    svg: str
    next: Cut | None
    made: tuple[Cut, ...]

    @property
    def at(self) -> int:
        """Number of the next cut; one more than there are where all are made."""
        return len(self.made) + 1


def sheet_count(plan: Plan) -> int:
    """How many different layouts of sheets there are."""
    return len(list(plan.layouts()))


_SHEET_ROOM, _LENGTH_ROOM = Room(748, 510), Room(680, 119)
"""What the style sheet gives a layout and a length on a phone that is 390 wide."""


def stocks_of(plan: Plan, *, prices: bool, workings: Workings | None = None) -> tuple[Stock, ...]:
    """Every board and section, by maker, with its layouts.

    Parameters
    ----------
    plan : Plan
        With its layouts.
    prices : bool
        Whether what it costs is said.
    workings : Workings, optional
        Gets what the drawings can be asked.
    """
    write, number = writer(plan), 0
    asked = workings or Workings(write, "w")
    labels = {kept.layout: kept.label for kept in kept_offcuts(plan)}
    sizes = {line.mark: (line.part.length, line.part.width) for line in plan.schedule}
    lengths_of = {mark: both[:1] for mark, both in sizes.items()}
    results: list[Stock] = []
    for material in plan.materials:
        answer = material.sheets or material.lengths
        assert answer is not None
        sheets: list[Sheet] = []
        for layout in material.layouts:
            number += 1
            sheets.append(_sheet(plan, material, layout, number, write, sizes, asked, labels.get(number, "")))
        lengths = tuple(
            Length(
                pattern.bar,
                pattern.count,
                ", ".join(f"{c.name} {write.short(c.length)}" for c in pattern.cuts),
                rest_in_words(pattern, write),
                live_svg(draw_length(pattern, lengths_of), write, asked, _LENGTH_ROOM),
            )
            for pattern in (material.lengths.patterns if material.lengths else ())
        )
        cost = write.money(answer.cost) if prices and answer.cost else ""
        proof = _proof(plan, material, write, prices=prices)
        results.append(Stock(material.stock, _FOR[material.maker], _takes(answer), proof, cost, tuple(sheets), lengths))
    return tuple(results)


def keeps_of(plan: Plan, *, prices: bool) -> tuple[Keep, ...]:
    """Offcuts that are worth keeping, as the page shows them."""
    write = writer(plan)
    return tuple(
        Keep(
            kept.label,
            kept.stock,
            write.short_size(kept.length, kept.width),
            kept.layout,
            write.money(kept.worth * len(kept.labels)) if prices and kept.worth else "",
        )
        for kept in kept_offcuts(plan)
    )


def used_of(plan: Plan) -> tuple[tuple[str, str, str], ...]:
    """Offcuts from the shop that are used up: label, size and board of each."""
    write = writer(plan)
    return tuple((o.label, write.short_size(o.length, o.width), board) for board, o in used_offcuts(plan))


def waste_pieces_of(plan: Plan, *, prices: bool) -> tuple[WastePiece, ...]:
    """Wanted pieces that come out of waste, as the page lists them."""
    write = writer(plan)
    return tuple(
        WastePiece(
            piece.label,
            piece.name,
            piece.stock,
            write.short_size(piece.length, piece.width),
            piece.number,
            piece.wanted,
            tuple(number for number, _count in piece.layouts),
            write.money(piece.worth_of_all) if prices and piece.worth else "",
            piece.purpose,
        )
        for piece in from_waste(plan)
    )


def _takes(answer: SheetPlan | BarPlan) -> str:
    counts: Counter[str] = Counter()
    if isinstance(answer, SheetPlan):
        for layout in answer.layouts:
            counts[layout.sheet] += layout.count
    else:
        for pattern in answer.patterns:
            counts[pattern.bar] += pattern.count
    return ", ".join(f"{count} of {name}" for name, count in counts.items())


def _proof(plan: Plan, material: Material, write: Numbers, *, prices: bool) -> str:
    """How good a layout is known to be; without an amount for those who see none."""
    answer = material.sheets or material.lengths
    assert answer is not None
    on_offer = len(
        plan.book.board(material.stock).sheets if material.sheets else plan.book.section(material.stock).lengths
    )
    if prices or on_offer == 1 or not answer.cost:
        return proof_in_words(plan, material, write)
    return "a cheaper way is impossible" if answer.proven else "it is not proven that there is no cheaper way"


def _sheet(
    plan: Plan,
    material: Material,
    layout: Layout,
    number: int,
    write: Numbers,
    sizes: Mapping[str, tuple[Measure, ...]],
    asked: Workings,
    label: str,
) -> Sheet:
    saw = saw_of(plan.book)
    cuts = cut_list(layout, saw)
    wanted, grain = material.wanted_names, plan.book.board(material.stock).grain
    keep = layout.kept_offcut(plan.book.saw.keep_from)
    drawing = draw_sheet(layout, cuts, saw, grain=grain, sizes=sizes, keep=label if keep else None, wanted=wanted)
    own = sum(placed.name not in wanted for placed in layout.placed)
    name = f" as {label}" if label else ""
    kept = (
        f"Keep the offcut {write.short_size(keep.length, keep.width)}{name}" if keep else "No offcut is worth keeping"
    )
    return Sheet(
        number,
        layout.sheet,
        write.short_size(layout.length, layout.width),
        layout.count,
        f"{own} parts, {len(cuts.steps)} cuts, {write.metres(cuts.metres)}. {kept}."
        + elsewhere_in_words(layout, wanted),
        live_svg(drawing, write, asked, _SHEET_ROOM),
    )


def cut_view(plan: Plan, number: int, at: int) -> CutView | None:
    """A sheet at one of its cuts; None where there is no such layout.

    Parameters
    ----------
    plan : Plan
        With its layouts.
    number : int
        Of the layout, from 1.
    at : int
        Number of the next cut; brought within what there is.
    """
    layouts = list(plan.layouts())
    if not 1 <= number <= len(layouts):
        return None
    _number, material, layout = layouts[number - 1]
    saw, write = saw_of(plan.book), writer(plan)
    cuts = cut_list(layout, saw)
    made = min(max(at - 1, 0), len(cuts.steps))
    wanted, grain = material.wanted_names, plan.book.board(material.stock).grain
    drawing = draw_cut(layout, cuts, saw, made, grain=grain, wanted=wanted)
    lines = [_cut(step, write, wanted) for step in cuts.steps]
    return CutView(
        number,
        len(layouts),
        material.stock,
        layout.sheet,
        layout.count,
        len(lines),
        svg_of(drawing, write),
        lines[made] if made < len(lines) else None,
        tuple(lines[:made]),
    )


def _named(label: str) -> str:
    return "the sheet" if label == "sheet" else f"board {label}"


_YIELDS = {"trim": "a clean edge", "part": "board {}, which is cut further", "piece": "{}", "offcut": "offcut {}"}


def _cut(step: CutStep, write: Numbers, wanted: Collection[str]) -> Cut:
    leaves = ""
    if step.use != "trim" and step.leaves:
        leaves = "the rest stays on the saw" if step.leaves == step.board else f"what is left is {step.leaves}"
    return Cut(
        step.number,
        _named(step.board),
        step.reference,
        _("along its length") if step.direction == "along" else _("across it"),
        write.short(step.fence),
        _YIELDS[step.use].format(step.yields) + (_(", wanted elsewhere") if step.yields in wanted else ""),
        leaves,
    )
