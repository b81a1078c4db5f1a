"""Why a task is done one way and not another, in plain words: money against days, and what days earn elsewhere."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from decimal import Decimal

from rodbook.money.deciding.demand import JobWanted, MoreDays, Offered, TaskWanted
from rodbook.money.rates.rounding import measured, rounded

__all__ = ["why_left", "why_more", "why_this_way"]

LEAST_WORTH = 0.005
"""Below this a crew day counts as not short. [currency/day]"""


LEAST_COUNTED = Decimal("0.005")
"""The same, of what is earned in all. [currency]"""


def _day_worth(task: TaskWanted, way: Offered, duals: Sequence[float]) -> float:
    """What a crew day is worth in the cheapest of the weeks in which the task can be done that way. [currency/day]"""
    weeks = duals[task.first_week - 1 + way.not_before : task.last_week - way.not_after]
    return min(weeks, default=0.0)


def _written(value: float, currency: str) -> str:
    return f"{rounded(measured(abs(value)), currency)} {currency}"


def _days(value: float, noun: str = "crew day") -> str:
    shown = f"{value:.1f}".removesuffix(".0")
    return f"less than 0.1 {noun}s" if shown == "0" else f"{shown} {noun}{'' if shown == '1' else 's'}"


def why_this_way(task: TaskWanted, way: Offered, duals: Sequence[float], currency: str) -> str:
    """Why this way: against the next best, the days that it takes or saves being worth what they earn elsewhere."""
    start = f"{task.name}: {way.name}"
    others = [other for other in task.ways if other is not way]
    if not others:
        return f"{start}, the only way there is."

    def all_in(one: Offered) -> float:
        return float(one.cost) + one.crew_days * _day_worth(task, one, duals)

    other = min(others, key=all_in)
    dearer = float(other.cost - way.cost)
    days = other.crew_days - way.crew_days
    worth = _day_worth(task, other if days > 0 else way, duals)
    one = task.first_week == task.last_week
    weeks = f"in week {task.first_week}" if one else f"in weeks {task.first_week} to {task.last_week}"
    money = f"costs {_written(dearer, currency)} {'less' if dearer > 0 else 'more'}" if dearer else "costs the same"
    if not days:
        return f"{start}: it {money} than {other.name} and takes as many crew days."
    took = f"{'saves' if days > 0 else 'takes'} {_days(abs(days))}{'' if days > 0 else ' more'}"
    earn = "are not short" if worth < LEAST_WORTH else f"earn about {_written(worth, currency)} each"
    value = f"which {earn} {weeks}"
    joined = "and" if (dearer >= 0) == (days > 0) else "but"
    sentence = f"{start}: it {money} than {other.name} {joined} {took}, {value}"
    if all_in(way) > all_in(other) + LEAST_WORTH:
        sentence += (
            "; taken by itself the other way would do, but together with the other decisions this one earns more"
        )
    return sentence + "."


def _in_words(parts: Sequence[str]) -> str:
    return parts[0] if len(parts) == 1 else f"{', '.join(parts[:-1])} and {parts[-1]}"


def why_more(
    more: MoreDays, taken: Mapping[int, float], earns: Decimal | None, worth: Mapping[int, Decimal], currency: str
) -> str:
    """Whether days that can be had on top are worth having, in words.

    Parameters
    ----------
    more : MoreDays
    taken : mapping of int to float
        By week. [days]
    earns : Decimal, optional
        What the firm earns more with them than without, their cost taken off; None where without them what is promised can't
        be done. [currency]
    worth : mapping of int to Decimal
        By week, what one more day would earn where none of them is taken. [currency]
    currency : str
    """
    if taken:
        when = _in_words([f"{_days(days, 'day')} in week {week}" for week, days in taken.items()])
        together = sum(taken.values())
        cost = _written(together * float(more.day_cost), currency)
        text = f"{when[0].upper()}{when[1:]} {'costs' if round(together, 1) == 1 else 'cost'} {cost}"
        if earns is None:
            return f"{more.name}: needed. {text}; without them what is promised can't be done."
        if earns < LEAST_COUNTED:
            return f"{more.name}: neither here nor there. {text}, and they earn no more than that."
        return (
            f"{more.name}: worth having. {text}, and with them the firm earns {_written(float(earns), currency)} more than "
            "without, their cost taken off."
        )
    best = max(worth, key=lambda week: worth[week], default=None)
    if best is None or worth[best] < LEAST_WORTH:
        return (
            f"{more.name}: not worth having. The crew's days are not short then, so one at {more.day_cost} {currency} would "
            "earn nothing."
        )
    earned = f"One more day would earn {worth[best]} {currency} at most, in week {best}"
    if worth[best] > more.day_cost:
        return f"{more.name}: not worth having. {earned}, but too little of it can be had for that."
    return f"{more.name}: not worth having. {earned}, and it costs {more.day_cost} {currency}."


def why_left(job: JobWanted, duals: Sequence[float], currency: str) -> str:
    """Why a job is left: what it pays against what it costs and what its days earn elsewhere."""
    least = sum(
        min(float(way.cost) + way.crew_days * _day_worth(task, way, duals) for way in task.ways) for task in job.tasks
    )
    return (
        f"{job.name} is left: it pays {_written(float(job.income), currency)}, while what it costs and what its crew days "
        f"earn elsewhere come to about {_written(least, currency)}."
    )
