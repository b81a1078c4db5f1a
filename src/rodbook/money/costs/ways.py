"""The mixtures of site work and workshop work that make sense for a kind of part, each as the lines of its cost.

A mixture is put together from the lines of the two pure ways: what the crew does not do, the workshop charges for.
"""

from __future__ import annotations

import math
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from decimal import Decimal

from rodbook.money.costs.bought import BoughtCost
from rodbook.money.costs.lines import CostLine, CostName
from rodbook.money.costs.site import SiteCost
from rodbook.money.rates.rounding import measured
from rodbook.money.rates.site_rates import Way
from rodbook.setout import PartKind, ScheduleLine

__all__ = ["DELIVERIES", "WayCost", "way_costs"]

_CUT = frozenset(
    {
        CostName.MATERIAL,
        CostName.SET_UP_THE_BATCH,
        CostName.CARRY_SHEETS,
        CostName.BREAK_DOWN,
        CostName.CLEAN_UP,
        CostName.WASTE_AWAY,
        CostName.SET_UP,
        CostName.SIZE_PARTS,
    }
)
_EDGES = frozenset({CostName.PREPARE_EDGES})
_BORE = frozenset({CostName.BORE_CUPS, CostName.BORE_PLATES})
_FINISH = frozenset({CostName.APPLY_COATS, CostName.PAINT})

ON_SITE: Mapping[Way, frozenset[str]] = {
    Way.SITE: _CUT | _EDGES | _BORE | _FINISH,
    Way.FINISHED_OUT: _CUT | _BORE,
    Way.BOUGHT_CUT: _EDGES | _BORE | _FINISH,
    Way.BOUGHT: frozenset(),
}
"""Lines of the site cost that each way keeps; who finishes also fills and sands the edges (house assumption)."""

BY_WORKSHOP: Mapping[Way, frozenset[str]] = {
    Way.SITE: frozenset(),
    Way.FINISHED_OUT: frozenset({CostName.HANDLE_PARTS, CostName.EDGES, CostName.COATS}),
    Way.BOUGHT_CUT: frozenset({CostName.SET_UP, CostName.HANDLE_PARTS, CostName.SECTION, CostName.BOARD}),
    Way.BOUGHT: frozenset(
        {
            CostName.SET_UP,
            CostName.HANDLE_PARTS,
            CostName.SECTION,
            CostName.BOARD,
            CostName.EDGES,
            CostName.BORINGS,
            CostName.COATS,
        }
    ),
}
"""Lines of the bought-in cost that each way pays."""

DELIVERIES: Mapping[Way, int] = {Way.SITE: 0, Way.FINISHED_OUT: 2, Way.BOUGHT_CUT: 1, Way.BOUGHT: 1}
"""How often the order travels: what is finished out goes there and comes back."""


@dataclass(frozen=True)
class WayCost:
    """One kind of part made one way, before what an order is charged on top.

    Parameters
    ----------
    kind : PartKind
    way : Way
    parts : int
    site : tuple of CostLine
        What the crew does and buys.
    bought : tuple of CostLine
        What the workshop charges.
    coated_m2 : Decimal
        Surface that a painter meets, both faces and all edges. [m2]
    """

    kind: PartKind
    way: Way
    parts: int
    site: tuple[CostLine, ...]
    bought: tuple[CostLine, ...]
    coated_m2: Decimal

    @property
    def bought_amount(self) -> Decimal:
        """What the workshop charges for the parts. [currency]"""
        return sum((line.amount for line in self.bought), Decimal(0))

    @property
    def amount(self) -> Decimal:
        """Sum of all lines, at the book's middles. [currency]"""
        return self.bought_amount + sum((line.amount for line in self.site), Decimal(0))

    @property
    def minutes(self) -> Decimal:
        """Crew time, at the book's middles. [minutes]"""
        return sum((line.minutes for line in self.site), Decimal(0))


def _kept(lines: Iterable[CostLine], names: frozenset[str]) -> tuple[CostLine, ...]:
    return tuple(line for line in lines if line.name in names)


def way_costs(site: SiteCost, bought: BoughtCost, lines: Sequence[ScheduleLine]) -> dict[Way, WayCost]:
    """Every way of making a kind that makes sense.

    Parameters
    ----------
    site : SiteCost
    bought : BoughtCost
        Of the same kind.
    lines : sequence of ScheduleLine
        Of that kind.

    Returns
    -------
    dict of Way to WayCost
        Always the site; others only where the workshop has rates for it, and mixtures only where something is left for
        each side: a kind without coats is not finished out, one without site work after cutting is bought whole.
    """
    m2 = _surface(lines)
    results: dict[Way, WayCost] = {}
    for way in Way:
        ours, theirs = _kept(site.lines, ON_SITE[way]), _kept(bought.lines, BY_WORKSHOP[way])
        if way is not Way.SITE and bought.amount is None:
            continue
        if way is Way.FINISHED_OUT and not any(line.name == CostName.COATS for line in theirs):
            continue
        if way is Way.BOUGHT_CUT and not ours:
            continue
        results[way] = WayCost(site.kind, way, site.parts, ours, theirs, m2)
    return results


def _surface(lines: Iterable[ScheduleLine]) -> Decimal:
    """All faces and edges of all parts. [m2]"""
    return measured(math.fsum(line.part.coated_m2 * line.quantity for line in lines))
