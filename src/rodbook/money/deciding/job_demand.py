"""From the ways of making a job's parts to what the job wants of the crew's weeks."""

from __future__ import annotations

import math
from decimal import Decimal

from rodbook.money.costs.ways import DELIVERIES
from rodbook.money.deciding.demand import JobWanted, Offered, TaskWanted
from rodbook.money.deciding.weighing import Weighing
from rodbook.money.rates.rounding import measured, rounded
from rodbook.money.rates.site_rates import Way
from rodbook.setout import PartKind

__all__ = ["job_wanted"]

WORKING_DAYS_A_WEEK = 5
"""For lead times in weeks (common practice). [days]"""


def _offered(weighed: Weighing, kind: PartKind, way: Way, lead_weeks: int, currency: str) -> Offered:
    mean, cost = weighed.mean(kind, way), weighed.ways[kind][way]
    out = float(mean.material) + float(mean.sundries) + float(mean.bought) + float(mean.painter)
    return Offered(
        way.value,
        rounded(measured(out), currency),
        round(float(mean.crew_days), 4),
        cost.bought_amount if DELIVERIES[way] else None,
        not_before=lead_weeks if way is Way.BOUGHT_CUT else 0,
        not_after=lead_weeks if way is Way.FINISHED_OUT else 0,
        travels=max(1, DELIVERIES[way]),
        arrives=lead_weeks if DELIVERIES[way] else 0,
    )


def job_wanted(
    name: str,
    weighed: Weighing,
    *,
    income: Decimal,
    first_week: int,
    last_week: int,
    currency: str,
    promised: bool = True,
    fitting_days: float = 0.0,
    fitting_from: int | None = None,
) -> JobWanted:
    """What a job wants of the crew: a task for each kind of part in every way that makes sense, and its fitting.

    Parameters
    ----------
    name : str
    weighed : Weighing
        Of its parts.
    income : Decimal
        What the client pays, net of tax. [currency]
    first_week, last_week : int
        Between which its parts are made or bought, both included.
    currency : str
        ISO 4217 code.
    promised : bool
        Whether it has to be done.
    fitting_days : float
        Crew days for what is done on site in any case. [days]
    fitting_from : int, optional
        First week of that; the first of the parts where it is left out.

    Returns
    -------
    JobWanted
        Costs are means without the crew's wages, remakes and the painter's preparation included; ways whose lead time does not
        fit into the weeks are left out.
    """
    lead = weighed.setting.lead_days * (weighed.spreads["lead time"].mean if "lead time" in weighed.spreads else 1.0)
    lead_weeks = math.ceil(lead / WORKING_DAYS_A_WEEK)
    tasks = []
    for kind, ways in weighed.ways.items():
        in_time = [way for way in ways if not DELIVERIES[way] or first_week + lead_weeks <= last_week]
        offers = tuple(_offered(weighed, kind, way, lead_weeks, currency) for way in in_time or ways)
        tasks.append(TaskWanted(kind.value, offers, first_week, last_week))
    if fitting_days:
        by_crew = Offered("by the crew", Decimal(0), fitting_days)
        tasks.append(TaskWanted("fitting", (by_crew,), fitting_from or first_week, last_week, waits=True))
    rates = weighed.workshop_rates
    return JobWanted(
        name,
        income,
        tuple(tasks),
        promised,
        rates.delivery if rates else Decimal(0),
        rates.least_order if rates else Decimal(0),
    )
