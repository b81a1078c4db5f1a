"""Dates in sentences, made last and from what was found: the cautious day first, the planned one with its chance after it.

How a day is written is handed in, so that each page and paper writes it in its own language.
"""

from __future__ import annotations

import math
from collections.abc import Callable
from datetime import date as Date  # noqa: N812

from rodbook.dates.chances import NINE_IN_TEN
from rodbook.dates.model import Schedule
from rodbook.dates.ordering import OrderBy
from rodbook.dates.passes import Slip
from rodbook.dates.programme import Programme

__all__ = ["headline", "hundred", "order_said", "planned_said", "slip_said", "wanted_said"]

MOST_GAP_DAYS = 100
"""Beyond so many days for each job, a bound says nothing worth reading. [working days]"""

type Written = Callable[[Date], str]
"""Writes a day."""


def hundred(chance: float) -> int:
    """A chance in cases of a hundred, never more than it is.

    Examples
    --------
    >>> hundred(0.899), hundred(0.9)
    (89, 90)
    """
    return math.floor(100 * chance + 1e-9)


def headline(programme: Programme, day: Written) -> str:
    """By when jobs are handed over in nine cases of ten: what stands over everything else.

    Parameters
    ----------
    programme : Programme
    day : callable
        Writes a day.
    """
    sure = [programme.chance.jobs[work.key] for work in programme.works]
    last = day(max(likely.nine_in_ten for likely in sure))
    if len(sure) == 1:
        return f"Hand-over: nine in ten by {last}."
    return f"Hand-over of {len(sure)} jobs: nine in ten of each by its day below, the last by {last}."


def wanted_said(programme: Programme, key: str, day: Written) -> str:
    """How the day by which a job is wanted stands; empty where none is, and where it holds in nine cases of ten.

    Parameters
    ----------
    programme : Programme
    key : str
        Of the job.
    day : callable
        Writes a day.
    """
    likely = programme.chance.jobs[key]
    if likely.wanted is None or likely.wanted_holds >= NINE_IN_TEN:
        return ""
    first = min((order.planned for order in programme.orders if order.key == key and not order.ordered), default=None)
    even = "" if first is None else f" even if everything is ordered as planned, from {day(first)} on"
    return (
        f"Wanted by {day(likely.wanted)}, which holds in {hundred(likely.wanted_holds)} cases of 100{even}; nine in ten can "
        f"be held by {day(likely.nine_in_ten)}."
    )


def planned_said(programme: Programme, day: Written) -> str:
    """What the schedule plans, how seldom that holds, and how good the schedule is known to be; below the headline.

    Parameters
    ----------
    programme : Programme
    day : callable
        Writes a day.
    """
    schedule = programme.schedule
    if len(schedule.finishes) > 1:
        return _planned_jobs(schedule, day)
    (finish,) = schedule.finishes
    holds = hundred(programme.chance.jobs[finish.work.key].holds)
    text = f"If everything takes its planned time: {day(finish.day)}, which holds in {holds} cases of 100; "
    if finish.earliest_day == finish.day:
        return f"{text}no earlier day can be planned with these people."
    return f"{text}nothing before {day(finish.earliest_day)} can be planned with these people."


def _planned_jobs(schedule: Schedule, day: Written) -> str:
    finishes = schedule.finishes
    last = day(max(finish.day for finish in finishes))
    text = f"If everything takes its planned time, the last is over on {last}"
    if late := sum(finish.late_days > 0 for finish in finishes):
        text += f", {late} of them even then after the day that was wanted"
    if schedule.proven:
        return f"{text}; no other order of work plans them sooner on the whole."
    if schedule.gap_days >= MOST_GAP_DAYS:
        return f"{text}."
    return (
        f"{text}; how much sooner they could be planned on the whole is not known exactly, but it is proven to be less than "
        f"{schedule.gap_days:.1f} working days for each job."
    )


def order_said(order: OrderBy, day: Written) -> str:
    """What an order on its last day holds, and what a later one does to that; empty where it is ordered already."""
    if order.goal is None or order.later is None:
        return ""
    return (
        f"with every order by its last day the hand-over by {day(order.goal)} holds in {hundred(order.holds)} cases of 100; "
        f"with this one on {day(order.later)}, in {hundred(order.later_holds)}."
    )


def slip_said(slip: Slip, day: Written) -> str:
    """What one late delivery moves."""
    days = f"{slip.late_days} working day{'' if slip.late_days == 1 else 's'}"
    whose = f"If {slip.supplier} delivers to {slip.job} {days} late"
    if not slip.moved:
        return f"{whose}, nothing moves."
    tasks = "one task comes" if slip.moved == 1 else f"{slip.moved} tasks come"
    if not slip.hand_overs:
        return f"{whose}, {tasks} later and every planned hand-over keeps its day."
    text = ", ".join(f"{name} from {day(a)} to {day(b)}" for name, a, b in slip.hand_overs)
    return f"{whose}, {tasks} later and the planned hand-over moves: {text}."
