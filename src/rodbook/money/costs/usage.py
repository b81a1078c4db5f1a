"""What site work takes in sheets and lengths: as laid out, and shared among the kinds of part cut from them."""

from __future__ import annotations

import math
from collections import Counter
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass, replace
from decimal import Decimal

from rodbook.boards import BarPlan, Saw, SheetPlan, cut_list
from rodbook.errors import Fault, InputError, Place
from rodbook.job import Board, Section
from rodbook.money.costs.lines import by_kind, quantity
from rodbook.money.rates.rounding import measured, rounded, share_out
from rodbook.setout import PartKind, ScheduleLine

__all__ = ["MaterialUsage", "StockShare", "StockTaken", "bar_usage", "shared_usage", "sheet_usage"]


@dataclass(frozen=True)
class StockTaken:
    """Sheets of one sort, lengths of one sort, or an offcut, and how many are used.

    Parameters
    ----------
    name : str
        As the book calls it.
    count : int
    price : Decimal
        One of them, on the day; zero for an offcut that lies there. [currency]
    length_mm, width_mm : float
        As sold; for a length its face width. [mm]
    """

    name: str
    count: int
    price: Decimal
    length_mm: float
    width_mm: float

    @property
    def m2(self) -> float:
        """All of them together. [m2]"""
        return self.count * self.length_mm * self.width_mm * 1e-6

    @property
    def perimeter_m(self) -> float:
        """All of them together. [m]"""
        return self.count * 2 * (self.length_mm + self.width_mm) / 1000


@dataclass(frozen=True)
class MaterialUsage:
    """What the parts made on site take of one board or section.

    Parameters
    ----------
    stock : str
        Board or section.
    sectional : bool
        Whether it is sold by the length.
    taken : tuple of StockTaken
        Sheets, lengths and offcuts used.
    thickness_mm : float
        [mm]
    density_kg_per_m3 : float
        Middle of its range, for the mass of waste. [kg/m3]
    parts_m2 : float
        Parts laid out on them, one face; has to agree with the schedule. [m2]
    cut_m : float, optional
        Metres sawn to break the sheets down, edge trims included; estimated where it is not known. [m]
    kept_m2 : float
        Offcuts kept, which are not waste. [m2]
    """

    stock: str
    sectional: bool
    taken: tuple[StockTaken, ...]
    thickness_mm: float
    density_kg_per_m3: float
    parts_m2: float
    cut_m: float | None = None
    kept_m2: float = 0.0

    @property
    def waste_kg(self) -> float:
        """Whatever is neither part nor kept, sawdust included. [kg]"""
        waste_m2 = max(0.0, math.fsum(t.m2 for t in self.taken) - self.parts_m2 - self.kept_m2)
        return waste_m2 * self.thickness_mm * 1e-3 * self.density_kg_per_m3


@dataclass(frozen=True)
class StockShare:
    """What one kind of part takes of one board or section.

    Parameters
    ----------
    usage : MaterialUsage
        All of it.
    of_area : Decimal
        The kind's share, by area of its parts: of sheets, of what they cost and of waste. [1]
    amount : Decimal
        Its share of what the sheets cost; the kinds' amounts add up to that exactly. [currency]
    all_amount : Decimal
        What all the sheets or lengths cost. [currency]
    cut_m : Decimal
        Its share of metres sawn, by perimeter of its parts. [m]
    estimated : bool
        Whether the metres are an estimate and not taken from layouts.
    """

    usage: MaterialUsage
    of_area: Decimal
    amount: Decimal
    all_amount: Decimal
    cut_m: Decimal
    estimated: bool


def _gathered(entries: Iterable[StockTaken]) -> tuple[StockTaken, ...]:
    """Like sheets brought together, however differently they are cut."""
    counts: Counter[StockTaken] = Counter()
    for entry in entries:
        counts[replace(entry, count=1)] += entry.count
    return tuple(replace(entry, count=count) for entry, count in counts.items())


def sheet_usage(board: Board, plan: SheetPlan, saw: Saw, *, keep_from_m2: float) -> MaterialUsage:
    """Usage of a board, read off its layouts.

    Parameters
    ----------
    board : Board
    plan : SheetPlan
        Of every part made on site from that board.
    saw : Saw
        That it was laid out for.
    keep_from_m2 : float
        Area from which an offcut is kept. [m2]

    Returns
    -------
    MaterialUsage
        With metres sawn from the cut lists; of each sheet the largest usable offcut counts as kept where it is large enough
        (house assumption).
    """
    offcuts = [(layout.count, kept) for layout in plan.layouts if (kept := layout.kept_offcut(keep_from_m2))]
    return MaterialUsage(
        board.name,
        sectional=False,
        taken=_gathered(StockTaken(x.sheet, x.count, x.price, x.length, x.width) for x in plan.layouts),
        thickness_mm=board.thickness,
        density_kg_per_m3=(board.density_low + board.density_high) / 2,
        parts_m2=math.fsum(x.count * p.length * p.width * 1e-6 for x in plan.layouts for p in x.placed),
        cut_m=math.fsum(x.count * cut_list(x, saw).metres for x in plan.layouts),
        kept_m2=math.fsum(count * o.length * o.width * 1e-6 for count, o in offcuts),
    )


def bar_usage(section: Section, plan: BarPlan) -> MaterialUsage:
    """Usage of a section, read off its cutting plan; nothing of a length counts as kept (house assumption).

    Parameters
    ----------
    section : Section
    plan : BarPlan
        Of every part made on site from that section.
    """
    return MaterialUsage(
        section.name,
        sectional=True,
        taken=_gathered(StockTaken(x.bar, x.count, x.price, x.length, section.width) for x in plan.patterns),
        thickness_mm=section.thickness,
        density_kg_per_m3=(section.density_low + section.density_high) / 2,
        parts_m2=math.fsum(x.count * c.length * section.width * 1e-6 for x in plan.patterns for c in x.cuts),
    )


def _broken_down_m(usage: MaterialUsage, lines: Sequence[ScheduleLine]) -> tuple[Decimal, bool]:
    r"""Metres sawn, and whether they are an estimate.

    Notes
    -----
    Cutting a sheet into rectangles leaves edges of the perimeters of all of them; an inner cut makes two edges, an edge
    trim of the sheet one. With P the perimeters of the parts, O those of what is left over and S those of the sheets,
    inner cuts are (P + O - S)/2 and trims S, together (P + O + S)/2. The estimate leaves O out: it is low by half
    of it.
    """
    if usage.cut_m is not None:
        return measured(usage.cut_m), False
    sheets_m = measured(math.fsum(t.perimeter_m for t in usage.taken))
    return (quantity("cuts", lines) + sheets_m) / 2, True


def _usage_fault(usage: MaterialUsage, lines: Sequence[ScheduleLine]) -> Fault | None:
    """Whether what was laid out is what the schedule wants; lengths come in hundredths of a millimetre."""
    wanted = quantity("area", lines)
    at, laid = Place(("usage", usage.stock)), measured(usage.parts_m2)
    if abs(wanted - laid) > quantity("cuts", lines) * Decimal("1e-5") + Decimal("2e-6"):
        return Fault(at, "money.usage_covers_other_parts", laid_m2=laid, wanted_m2=wanted)
    there = measured(math.fsum(t.m2 for t in usage.taken))
    if laid > there + Decimal("2e-6"):
        return Fault(at, "money.parts_exceed_stock", laid_m2=laid, there_m2=there)
    return None


def shared_usage(
    lines: Sequence[ScheduleLine], usage: Iterable[MaterialUsage], currency: str
) -> dict[PartKind, tuple[StockShare, ...]]:
    """Share boards and sections among the kinds of part that are cut from them.

    Parameters
    ----------
    lines : sequence of ScheduleLine
        Every part that `usage` was laid out for.
    usage : iterable of MaterialUsage
        One for each board and section.
    currency : str
        ISO 4217 code.

    Returns
    -------
    dict of PartKind to tuple of StockShare
        Whole sheets are shared by area of the parts; cents left over go by the largest remainder.

    Raises
    ------
    InputError
        With every fault: a board or section that has no usage, or whose usage does not agree with the schedule.
    """
    known = {(entry.stock, entry.sectional): entry for entry in usage}
    wanted: dict[tuple[str, bool], list[ScheduleLine]] = {}
    for line in lines:
        wanted.setdefault((line.part.stock, line.part.sectional), []).append(line)
    faults = [
        Fault(("usage", stock), "money.stock_not_laid_out")
        for stock, sectional in wanted
        if (stock, sectional) not in known
    ]
    faults += [f for key, members in wanted.items() if key in known and (f := _usage_fault(known[key], members))]
    if faults:
        raise InputError(faults)
    results: dict[PartKind, list[StockShare]] = {}
    for key, members in wanted.items():
        for kind, share in _shares(known[key], members, currency):
            results.setdefault(kind, []).append(share)
    return {kind: tuple(shares) for kind, shares in results.items()}


def _shares(
    entry: MaterialUsage, lines: Sequence[ScheduleLine], currency: str
) -> Iterator[tuple[PartKind, StockShare]]:
    kinds = by_kind(lines)
    areas = [quantity("area", members) for members in kinds.values()]
    edges = [quantity("cuts", members) for members in kinds.values()]
    spent = rounded(sum((t.count * t.price for t in entry.taken), Decimal(0)), currency)
    cut_m, estimated = _broken_down_m(entry, lines)
    amounts = share_out(spent, areas, currency)
    for kind, area, edge, amount in zip(kinds, areas, edges, amounts, strict=True):
        yield kind, StockShare(entry, area / sum(areas), amount, spent, measured(cut_m * edge / sum(edges)), estimated)
