"""What a way of making comes to when the times are given: the one model behind means, draws and what-ifs.

Every rate that varies has a factor around its middle; the same factor holds wherever the rate is used in the job, as the
spread is of how quick this crew is at this work, not of single pieces (house assumption). Factors of different rates vary
on their own.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass, field
from typing import TYPE_CHECKING

from rodbook.errors import InputError
from rodbook.money.costs.ways import DELIVERIES, WayCost
from rodbook.money.rates.names import PREPARATION, REJECTS, RateName
from rodbook.money.rates.site_rates import SiteRates, Way
from rodbook.setout import PartKind

if TYPE_CHECKING:
    import numpy as np
    from numpy.typing import NDArray

    type Values = NDArray[np.float64] | float

__all__ = ["HOURS_A_DAY", "Factors", "Outcome", "Rejects", "Setting", "book_rejects", "outcome"]

HOURS_A_DAY = 8.0
"""Working hours of a day where the book has no "working day" (house assumption). [h]"""

type Factors = Mapping[str, Values]
"""By the name of a rate, what its middle is multiplied with; 1 where a rate is not named."""

type Rejects = Callable[[PartKind, Way], float]
"""Share of parts of a kind, made a way, that have to be made anew. [1]"""


def book_rejects(rates: SiteRates) -> Rejects:
    """Shares of rejects as the book states them, zero where it is silent."""

    def share(_kind: PartKind, way: Way) -> float:
        rate = rates.other(REJECTS[way])
        return 0.0 if rate is None else float(rate.value)

    return share


@dataclass(frozen=True)
class Setting:
    """What all ways have in common.

    Parameters
    ----------
    rates : SiteRates
    lead_days : float
        What the workshop says. [working days]
    delivery : float
        Of one order. [currency]
    """

    rates: SiteRates
    lead_days: float = 0.0
    delivery: float = 0.0

    def rate(self, name: str, otherwise: float = 0.0) -> float:
        """A rate's middle, or what stands for it where the book does not hold it. [the rate's unit]"""
        result = self.rates.all().get(name)
        return otherwise if result is None else float(result.value)


@dataclass(frozen=True)
class Outcome:
    """What one kind made one way comes to; each figure is a number, or an array with one value for each draw.

    Parameters
    ----------
    material : number
        Boards and sections of the crew's own. [currency]
    sundries : number
        Paint and waste. [currency]
    hours : number
        Crew time, interruptions and remakes included. [h]
    hour : number
        What a crew hour costs. [currency/h]
    bought : number
        The workshop's lines, remakes and their delivery included; no least charge and no first delivery. [currency]
    painter_hours, painter : number
        Preparation for the painter. [h, currency]
    remakes : number
        Parts made anew.
    days : number
        Working days from the order until all of them are there and finished.
    """

    material: Values
    sundries: Values
    hours: Values
    hour: Values
    bought: Values
    painter_hours: Values
    painter: Values
    remakes: Values
    days: Values
    crew_days: Values = field(default=0.0)

    @property
    def wages(self) -> Values:
        """[currency]"""
        return self.hours * self.hour

    @property
    def cost(self) -> Values:
        """Everything, before what an order is charged on top. [currency]"""
        return self.material + self.sundries + self.wages + self.bought + self.painter


def outcome(cost: WayCost, setting: Setting, factors: Factors, remakes: Values, remade: Values) -> Outcome:
    """Work a way of making through.

    Parameters
    ----------
    cost : WayCost
    setting : Setting
    factors : mapping of str to number
    remakes : number
        Parts made anew, >= 0; each costs what a part costs on average, set-up included (house assumption).
    remade : number
        1 where anything is made anew, else 0; or the chance of it. Where the workshop has a hand in it, that takes its lead
        time and its deliveries once more, and it is paid like the first (house assumption).

    Returns
    -------
    Outcome

    Notes
    -----
    hours = sum(minutes x factor) / 60 x (1 + lost minutes / 60) x (1 + remakes / parts)
    days = hours / hours a day + lead time x (1 + remade), the latter where a workshop has a hand in it.

    Examples
    --------
    See `rodbook.money.deciding.risk`.
    """
    if not cost.parts:
        raise InputError.at("outcome", "money.way_without_parts")
    again = 1.0 + remakes / cost.parts

    def factor(name: str) -> Values:
        return factors.get(name, 1.0)

    minutes: Values = 0.0
    sundries: Values = 0.0
    material = 0.0
    for line in cost.site:
        if line.minutes:
            minutes = minutes + float(line.minutes) * factor(line.rate_name)
        elif line.rate_name:
            sundries = sundries + float(line.amount) * factor(line.rate_name)
        else:
            material += float(line.amount)
    lost = setting.rate(RateName.INTERRUPTIONS) * factor(RateName.INTERRUPTIONS)
    hours = minutes / 60 * (1 + lost / 60) * again
    prepare = PREPARATION[cost.way]
    painter_hours = float(cost.coated_m2) * setting.rate(prepare) * factor(prepare) / 60
    crew_hour = setting.rate(RateName.CREW_HOUR)
    by_painter = setting.rate(RateName.PAINTER_HOUR, crew_hour) * factor(
        RateName.PAINTER_HOUR if setting.rates.other(RateName.PAINTER_HOUR) else RateName.CREW_HOUR
    )
    travels = DELIVERIES[cost.way]
    lead: Values = 0.0
    if travels:
        lead = setting.lead_days * setting.rate(RateName.LEAD_TIME, 1.0) * factor(RateName.LEAD_TIME) * (1 + remade)
    crew_days = hours / setting.rate(RateName.WORKING_DAY, HOURS_A_DAY)
    return Outcome(
        material=material * again,
        sundries=sundries * again,
        hours=hours,
        hour=crew_hour * factor(RateName.CREW_HOUR),
        bought=float(cost.bought_amount) * again + travels * setting.delivery * remade,
        painter_hours=painter_hours,
        painter=painter_hours * by_painter,
        remakes=remakes,
        days=crew_days + lead,
        crew_days=crew_days,
    )
