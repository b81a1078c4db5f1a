"""What the page of sizes shows: openings and sizes, what sets each, packers, framed sizes, and the trade-off. Pure."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable
from dataclasses import dataclass

from django.utils.translation import gettext as _

from rodbook.desk.platform.live_drawings import Room, Working, Workings, live_svg
from rodbook.desk.platform.pictures import svg_of, working_lines
from rodbook.papers.common.shared import leaves_in_words, writer
from rodbook.papers.numbers import Numbers
from rodbook.papers.pictures.sizes import draw_sizes
from rodbook.papers.pictures.trade_off import draw_trade_off
from rodbook.plan import Ahead, LeafOffer, OpeningPlan, Plan
from rodbook.plan.analyses.trade_off import SizesTraded, sizes_traded
from rodbook.plan.stages.openings import offers_by_build_up, packer_range
from rodbook.sizes import StandardSize

__all__ = [
    "AheadTable",
    "FramedRow",
    "SizeRow",
    "TradeTable",
    "ahead_tables",
    "framed_rows",
    "picture_of",
    "size_rows",
    "trade_tables",
]


@dataclass(frozen=True)
class SizeRow:
    """A standard size: its number, lining, leaves, the openings that it serves, packers, what sets it, and its working."""

    number: int
    lining: str
    leaves: str
    openings: str
    count: int
    sides: str
    heads: str
    set_by: str
    working: tuple[str, ...]


@dataclass(frozen=True)
class FramedRow:
    """A framed size: between the timbers, the lining that goes in, leaves, spacers, openings, and the working."""

    framed: str
    lining: str
    leaves: str
    spacers: str
    openings: str
    working: tuple[str, ...]


@dataclass(frozen=True)
class TradeRow:
    """One number of sizes in words and figures."""

    number: int
    packing: str
    side: str
    head: str
    saves: str
    now: bool
    fewest: bool


@dataclass(frozen=True)
class TradeTable:
    """The trade-off for the openings of one build-up, and its picture."""

    build_up: str
    openings: int
    rows: tuple[TradeRow, ...]
    svg: str
    asked: int | None
    spoilers: str
    without: int


_CHART_ROOM = Room(578, 578)
"""What the style sheet gives the picture on a phone that is 390 wide."""


def picture_of(plan: Plan) -> tuple[str, tuple[Working, ...]]:
    """Openings as points and sizes as corners, with the workings that they lead to; empty where no opening stands."""
    by_build_up = offers_by_build_up(plan.openings, planned=True)
    if plan.sizes is None or not by_build_up:
        return "", ()
    ranges = {
        offer.name: packer_range(plan.book.build_up(name)) for name, offers in by_build_up.items() for offer in offers
    }
    offers = [offer for result in by_build_up.values() for offer in result]
    offered = {e.opening.mark: (e.rectangle.width, e.rectangle.height) for e in plan.openings if e.rectangle and e.size}
    linings = {e.size: (e.set_out.outer_width, e.set_out.outer_height) for e in plan.openings if e.size and e.set_out}
    sizes, write = list(enumerate(plan.sizes.sizes, 1)), writer(plan)
    drawing = draw_sizes(offers, sizes, ranges, offered=offered, linings=linings)
    workings = Workings(write, "w")
    return live_svg(drawing, write, workings, _CHART_ROOM), workings.found


def size_rows(plan: Plan) -> tuple[SizeRow, ...]:
    """The standard sizes, by number."""
    write = writer(plan)
    return tuple(_size_row(plan, n, size, write) for n, size in enumerate(plan.sizes.sizes if plan.sizes else (), 1))


def _size_row(plan: Plan, number: int, size: StandardSize, write: Numbers) -> SizeRow:
    entries = [entry for entry in plan.openings if entry.size == number]
    packers = [entry.packers for entry in entries if entry.packers]
    set_out = next((entry.set_out for entry in entries if entry.set_out), None)
    one = size.narrowest == size.lowest
    set_by = (
        _("%(mark)s, the narrowest and the lowest") % {"mark": size.narrowest}
        if one
        else _("width by %(narrow)s, the narrowest; height by %(low)s, the lowest")
        % {"narrow": size.narrowest, "low": size.lowest}
    )
    return SizeRow(
        number,
        write.short_size(size.width, size.height),
        _leaves(entries[0], write) if set_out else "",
        ", ".join(size.openings),
        len(size.openings),
        write.span(mm for p in packers for mm in (*p.left_mm, *p.right_mm)) if packers else "",
        write.span(mm for p in packers for mm in p.head_mm) if packers else "",
        set_by,
        working_lines((set_out.outer_width, set_out.outer_height), write) if set_out else (),
    )


def _leaves(entry: OpeningPlan, write: Numbers) -> str:
    set_out = entry.set_out
    if set_out is None:
        return ""
    return leaves_in_words(set_out, write, long=False)


def framed_rows(plan: Plan) -> tuple[FramedRow, ...]:
    """The framed sizes of openings still to be built, like ones together."""
    write = writer(plan)
    groups: dict[tuple[object, ...], list[OpeningPlan]] = defaultdict(list)
    for entry in plan.openings:
        if entry.framed and entry.set_out:
            outer = entry.set_out.outer_width.value, entry.set_out.outer_height.value
            key = (entry.framed.width.value, entry.framed.height.value, *outer, entry.build_up, entry.opening.leaves)
            groups[key].append(entry)
    return tuple(_framed_row(entries, write) for entries in groups.values())


def _framed_row(entries: list[OpeningPlan], write: Numbers) -> FramedRow:
    framed, set_out = entries[0].framed, entries[0].set_out
    assert framed is not None
    assert set_out is not None
    return FramedRow(
        write.short_size(framed.width.value, framed.height.value),
        write.short_size(set_out.outer_width.value, set_out.outer_height.value),
        _leaves(entries[0], write),
        " and ".join(write.short(spacer.value) for spacer in framed.spacers),
        ", ".join(entry.opening.mark for entry in entries),
        working_lines((framed.width, framed.height), write),
    )


@dataclass(frozen=True)
class AheadRow:
    """A leaf that could be had instead, in words and figures."""

    leaf: str
    framed: str
    sheets: int
    cost: str
    used: str
    wanted: bool


@dataclass(frozen=True)
class AheadTable:
    """Openings that want the same leaf, what they could have, and what that saves at the most."""

    openings: str
    build_up: str
    rows: tuple[AheadRow, ...]
    saves: str


def ahead_tables(plan: Plan, results: tuple[Ahead, ...]) -> tuple[AheadTable, ...]:
    """Leaves near the wanted ones that waste less board, in words and figures."""
    write = writer(plan)

    def row(offer: LeafOffer) -> AheadRow:
        share = write.percent(offer.used)
        return AheadRow(
            write.short_size(*offer.leaf),
            write.short_size(*offer.framed),
            offer.sheets,
            write.money(offer.cost),
            share,
            offer.wanted,
        )

    return tuple(
        AheadTable(
            ", ".join(ahead.openings),
            ahead.build_up,
            tuple(row(offer) for offer in ahead.offers),
            write.money(saved) if (saved := ahead.wanted.cost - ahead.best.cost) else "",
        )
        for ahead in results
    )


def trade_tables(plan: Plan) -> tuple[TradeTable, ...]:
    """How many sizes against how much packing, in words and figures."""
    write = writer(plan)
    return tuple(
        TradeTable(
            result.build_up,
            len(result.openings),
            tuple(_trade_rows(result, write)),
            svg_of(draw_trade_off(result.trades, result.now), write),
            result.asked,
            ", ".join(spoiler.opening for spoiler in result.spoilers),
            result.fewest - 1,
        )
        for result in sizes_traded(plan)
    )


def _trade_rows(result: SizesTraded, write: Numbers) -> Iterable[TradeRow]:
    for trade, saved in zip(result.trades, result.saved_mm, strict=True):
        yield TradeRow(
            trade.number,
            write.tenth(trade.choice.packing_mm),
            write.tenth(trade.side_mm),
            write.tenth(trade.head_mm),
            "" if saved is None else write.tenth(saved),
            trade.number == result.now,
            trade.number == result.fewest,
        )
