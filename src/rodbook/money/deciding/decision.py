"""Make or buy decided: who makes each kind of part so that the job costs least on average.

Everything that shows a decision or says where it turns asks this one function, with or without something moved.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field, replace
from enum import StrEnum
from functools import cached_property

from rodbook.job.models import Making
from rodbook.money.costs.ways import DELIVERIES, WayCost
from rodbook.money.deciding.weighing import Begun, Weighing, worth_keeping
from rodbook.money.rates.names import RateName
from rodbook.money.rates.site_rates import Way
from rodbook.setout import PartKind

__all__ = ["AS_IT_IS", "MAKERS", "Deciding", "Mover", "WhatIf", "makers_of"]

MAKERS: Mapping[Way, Making] = {Way.SITE: Making.SITE, Way.BOUGHT: Making.BOUGHT}
"""The ways that are decided between: all on site, or bought finished."""

SAVES_TIME = 1e-7
"""Of ways that cost the same, the one with less crew time is taken: a minute weighs so much. [currency/minute]"""


class Mover(StrEnum):
    """What may move while everything else stays."""

    CREW_DAY = "crew day"
    CREW_TIME = "crew time"
    WORKSHOP = "workshop"
    BOARDS = "boards"


@dataclass(frozen=True)
class WhatIf:
    """What prices and times are multiplied with, 1 where they stay.

    Parameters
    ----------
    crew_day : float
        What a crew hour costs. [1]
    crew_time : float
        How long the crew takes for everything. [1]
    workshop : float
        All that the workshop charges, delivery and least charge too. [1]
    boards : float
        The merchant's prices of boards and lengths. [1]
    """

    crew_day: float = 1.0
    crew_time: float = 1.0
    workshop: float = 1.0
    boards: float = 1.0

    @classmethod
    def by(cls, mover: Mover, factor: float) -> WhatIf:
        """One thing moved."""
        names = {
            Mover.CREW_DAY: "crew_day",
            Mover.CREW_TIME: "crew_time",
            Mover.WORKSHOP: "workshop",
            Mover.BOARDS: "boards",
        }
        return cls(**{names[mover]: factor})


AS_IT_IS = WhatIf()


@dataclass(frozen=True)
class _Mean:
    """Mean cost of one kind made one way, by what may move it. [currency]"""

    boards: float
    crew: float
    painter_by_crew: float
    workshop: float
    rest: float
    ordered: float
    minutes: float

    def cost(self, moved: WhatIf) -> float:
        by_hour = self.crew * moved.crew_time + self.painter_by_crew
        return self.boards * moved.boards + by_hour * moved.crew_day + self.workshop * moved.workshop + self.rest


@dataclass(frozen=True)
class Deciding:
    """What is decided between.

    Parameters
    ----------
    weighed : Weighing
    making : mapping of str to Making
        What the job says, by kind; the cheaper way where it says nothing.
    """

    weighed: Weighing
    making: Mapping[str, Making]
    _known: Mapping[PartKind, dict[Way, _Mean]] = field(default_factory=dict, repr=False, compare=False)

    def with_ways(self, ways: Mapping[PartKind, Mapping[Way, WayCost]]) -> Deciding:
        """The same with other costs of some kinds."""
        known = {kind: means for kind, means in self._means.items() if kind not in ways}
        return Deciding(replace(self.weighed, ways={**self.weighed.ways, **ways}), self.making, known)

    @cached_property
    def _means(self) -> dict[PartKind, dict[Way, _Mean]]:
        by_crew = self.weighed.setting.rates.other(RateName.PAINTER_HOUR) is None
        results: dict[PartKind, dict[Way, _Mean]] = {}
        for kind, ways in self.weighed.ways.items():
            results[kind] = dict(self._known.get(kind, {}))
            if results[kind]:
                continue
            for way in MAKERS:
                if way not in ways:
                    continue
                mean = self.weighed.mean(kind, way)
                painter, wages = float(mean.painter), float(mean.hours) * float(mean.hour)
                results[kind][way] = _Mean(
                    float(mean.material),
                    wages,
                    painter if by_crew else 0.0,
                    float(mean.bought),
                    float(mean.sundries) + (0.0 if by_crew else painter),
                    float(ways[way].bought_amount),
                    float(mean.hours) * 60,
                )
        return results

    def _offered(self, kind: PartKind) -> dict[Way, _Mean]:
        asked, ways = self.making.get(kind.value, Making.CHEAPER), self._means[kind]
        left = {way: mean for way, mean in ways.items() if asked in (Making.CHEAPER, MAKERS[way])}
        return left or {Way.SITE: ways[Way.SITE]}

    @property
    def free(self) -> tuple[PartKind, ...]:
        """Kinds that can be made either way and are not settled by the job."""
        return tuple(kind for kind in self._means if len(self._offered(kind)) > 1)

    def cost(self, mixture: Mapping[PartKind, Way], moved: WhatIf = AS_IT_IS) -> float:
        """Mean cost of a mixture, its order's charges included. [currency]"""
        charges = self.weighed.charges(mixture) * moved.workshop
        return charges + sum(self._means[kind][way].cost(moved) for kind, way in mixture.items())

    def decide(self, moved: WhatIf = AS_IT_IS) -> dict[PartKind, Way]:
        """Who makes each kind, by the least mean cost of all mixtures; of equal ones the one that saves most crew time.

        Kinds are added one by one. A beginning that costs no less than another and orders no more can't become the better
        one, whatever follows, and is given up; so what is left is few, and exact.
        """
        rates = self.weighed.workshop_rates
        least = float(rates.least_order) if rates else 0.0
        best: tuple[float, dict[PartKind, Way]] | None = None
        for travels in sorted({DELIVERIES[way] for way in MAKERS}):
            begun: list[Begun] = [(0.0, 0.0, ())]
            for kind in self._means:
                offered = [
                    (way, m.cost(moved) + SAVES_TIME * m.minutes, m.ordered)
                    for way, m in self._offered(kind).items()
                    if DELIVERIES[way] <= travels
                ]
                begun = worth_keeping(
                    [(c + cost, a + amount, (*ways, way)) for c, a, ways in begun for way, cost, amount in offered]
                )
            for cost, amount, ways in begun:
                charged = travels * self.weighed.setting.delivery + max(0.0, least - amount) if travels else 0.0
                whole = cost + charged * moved.workshop
                if best is None or whole < best[0] - 1e-9:
                    best = whole, dict(zip(self._means, ways, strict=True))
        return best[1] if best else {}


def makers_of(mixture: Mapping[PartKind, Way]) -> dict[PartKind, Making]:
    """A mixture of the two ways that are decided between, as makers."""
    return {kind: MAKERS[way] for kind, way in mixture.items()}
