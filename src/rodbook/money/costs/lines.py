"""Lines of a cost, and what in a part each of them goes by.

A driver says how much of something the parts of one schedule line take: edges in metres, cups, coated square metres.
The same drivers make the quantities of a cost and share its lines among the openings, so the two cannot disagree.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from decimal import Decimal
from enum import StrEnum

from rodbook.money.rates.rounding import measured, rounded, share_out
from rodbook.setout import Part, PartKind, ScheduleLine

__all__ = ["DRIVERS", "CostLine", "CostName", "by_kind", "opening_shares", "quantity", "total_of"]

HOLES_OF_A_PLATE = 2
"""A hinge's plate is held by two screws (common practice); `setout` bores two holes for each."""


class CostName(StrEnum):
    """What is done or bought, of which something else goes by: which ways keep it, and what of it is summed up."""

    MATERIAL = "material"
    SET_UP_THE_BATCH = "set up the batch"
    CARRY_SHEETS = "carry sheets"
    BREAK_DOWN = "break down"
    CLEAN_UP = "clean up"
    WASTE_AWAY = "waste away"
    SET_UP = "set up"
    SIZE_PARTS = "size parts"
    PREPARE_EDGES = "prepare edges"
    BORE_CUPS = "bore cups"
    BORE_PLATES = "bore plates"
    APPLY_COATS = "apply coats"
    PAINT = "paint"
    HANDLE_PARTS = "handle parts"
    EDGES = "edges"
    COATS = "coats"
    SECTION = "section"
    BOARD = "board"
    BORINGS = "borings"


@dataclass(frozen=True)
class CostLine:
    """One line of what something costs.

    Parameters
    ----------
    name : str
        What is done or bought.
    quantity : Decimal
        [`unit`]
    unit : str
    rate : Decimal, optional
        None where several prices go into one line. [`rate_unit`]
    rate_unit : str
    minutes : Decimal
        Crew time in it; zero where it is money only. [minutes]
    amount : Decimal
        Rounded. [currency]
    working : str
        One sentence with the numbers in it.
    source : str
        Where the rate comes from, and since when it holds.
    goes_by : str
        What it grows with, one of `DRIVERS`.
    stock : str
        Board or section that it belongs to; empty where it does not depend on it.
    rate_name : str
        Rate of the book that it goes by; empty where it has none, such as a material.
    """

    name: str
    quantity: Decimal
    unit: str
    rate: Decimal | None
    rate_unit: str
    minutes: Decimal
    amount: Decimal
    working: str
    source: str
    goes_by: str
    stock: str = ""
    rate_name: str = ""


def _bored(part: Part, kind: str) -> int:
    return sum(boring.kind == kind for boring in part.borings)


def _plates(part: Part) -> int:
    """Pairs of plate holes; a hole left over is a plate of its own rather than nothing."""
    return math.ceil(_bored(part, "plate") / HOLES_OF_A_PLATE)


def _perimeter_m(part: Part) -> float:
    """Round the rectangle that is cut out of the sheet, allowances with it. [m]"""
    return 2 * (part.cut_length + part.cut_width) / 1000


DRIVERS: Mapping[str, Callable[[ScheduleLine], float]] = {
    "distinct parts": lambda _: 1.0,
    "parts": lambda line: float(line.quantity),
    "edges": lambda line: line.part.edge_m * line.quantity,
    "cups": lambda line: float(_bored(line.part, "cup") * line.quantity),
    "plates": lambda line: float(_plates(line.part) * line.quantity),
    "holes": lambda line: float(sum(b.kind != "pilot" for b in line.part.borings) * line.quantity),
    "coats": lambda line: line.part.coated_m2 * line.part.coats * line.quantity,
    "area": lambda line: line.part.face_m2 * line.quantity,
    "length": lambda line: line.part.length.value / 1000 * line.quantity,
    "cuts": lambda line: _perimeter_m(line.part) * line.quantity,
}
"""How much all the parts of a schedule line take: edges, length and cuts (as perimeter) in m, area in m2, coats in m2
times coats, the others as counts. A cup counts with its pilots; a plate is two holes."""


def quantity(goes_by: str, lines: Iterable[ScheduleLine]) -> Decimal:
    """Sum of a driver over schedule lines, in whatever order they come. [unit of the driver]"""
    return measured(math.fsum(DRIVERS[goes_by](line) for line in lines))


def total_of(lines: Iterable[CostLine], currency: str) -> Decimal:
    """Sum of rounded lines. [currency]"""
    return rounded(sum((line.amount for line in lines), Decimal(0)), currency)


def by_kind(lines: Iterable[ScheduleLine]) -> dict[PartKind, list[ScheduleLine]]:
    """Schedule lines by kind of part, kinds in the order in which they are listed."""
    results: dict[PartKind, list[ScheduleLine]] = {}
    for line in lines:
        results.setdefault(line.part.kind, []).append(line)
    return {kind: results[kind] for kind in PartKind if kind in results}


def _opening_weights(cost: CostLine, lines: Sequence[ScheduleLine]) -> Iterator[tuple[str, Decimal]]:
    """What the openings take of a cost line, by the line's own driver; adds up to the line's amount."""
    taking = [line for line in lines if cost.stock in ("", line.part.stock)]
    driven = [measured(DRIVERS[cost.goes_by](line)) for line in taking]
    whole = sum(driven, Decimal(0))
    if not whole:
        return
    for line, part in zip(taking, driven, strict=True):
        each = cost.amount * part / whole / line.quantity
        for mark, count in line.openings:
            yield mark, each * count


def opening_shares(
    total: Decimal, costs: Sequence[CostLine], lines: Sequence[ScheduleLine], currency: str
) -> dict[str, Decimal]:
    """Share the cost of one kind of part among the openings that take it.

    Parameters
    ----------
    total : Decimal
        What is shared: the sum of `costs`, and what is charged on top in proportion to them. [currency]
    costs : sequence of CostLine
        Each weighs by what it goes by: edges by metres of edge, set-up evenly over distinct parts.
    lines : sequence of ScheduleLine
        Of that kind.
    currency : str
        ISO 4217 code.

    Returns
    -------
    dict of str to Decimal
        By mark, in the order in which the schedule names them; adds up to `total` exactly. [currency]
    """
    weights = {mark: Decimal(0) for line in lines for mark, _ in line.openings}
    for cost in costs:
        for mark, share in _opening_weights(cost, lines):
            weights[mark] += share
    shares = share_out(total, list(weights.values()), currency)
    return dict(zip(weights, shares, strict=True))
