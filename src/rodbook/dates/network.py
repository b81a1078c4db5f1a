"""The critical path by forward and backward pass, and the chance of a date along it: no people, no calendar.

Kept apart from the scheduler as its check: with people enough, no schedule can be shorter than this, and none need be longer.
"""

from __future__ import annotations

import math
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from graphlib import CycleError, TopologicalSorter
from statistics import NormalDist

from rodbook.errors import InputError

__all__ = ["Activity", "ThreePoint", "chance_by", "critical_path", "path_chance", "paths_chance", "three_point"]


@dataclass(frozen=True)
class Activity:
    """Times of one activity of a network.

    Parameters
    ----------
    duration : float
    early_start, early_finish, late_start, late_finish : float
    float_total : float
        How much later it may be without moving the end.
    float_free : float
        How much later it may be without moving anything.
    """

    duration: float
    early_start: float
    early_finish: float
    late_start: float
    late_finish: float
    float_total: float
    float_free: float

    @property
    def critical(self) -> bool:
        """Whether it may not be later at all."""
        return self.float_total <= 1e-9


def critical_path(durations: Mapping[str, float], after: Mapping[str, Sequence[str]]) -> dict[str, Activity]:
    """Forward and backward pass over a network of activities on nodes.

    Parameters
    ----------
    durations : mapping of str to float
        Any unit of time, the same for all.
    after : mapping of str to sequence of str
        What each waits for.

    Returns
    -------
    dict of str to Activity
        In the order of `durations`.

    Raises
    ------
    InputError
        If activities wait in a circle or for something unknown, or a duration is less than zero.

    References
    ----------
    .. [1] J. E. Kelley and M. R. Walker, "Critical-path planning and scheduling", Proc. Eastern Joint Computer
       Conference, 1959 (from memory).

    Examples
    --------
    >>> path = critical_path({"A": 6, "B": 2, "C": 3}, {"B": ["A"], "C": ["A"]})
    >>> path["B"].float_total, path["C"].critical
    (1, True)
    """
    bad = [key for key, duration in durations.items() if not (math.isfinite(duration) and duration >= 0)]
    unknown = {name for names in after.values() for name in names} - durations.keys()
    if bad:
        raise InputError.at(", ".join(bad), "dates.duration_below_zero")
    if unknown:
        raise InputError.at("network", "dates.no_such_activity", names=sorted(unknown))
    try:
        order = list(TopologicalSorter({key: after.get(key, ()) for key in durations}).static_order())
    except CycleError as error:
        raise InputError.at("network", "dates.circle_of_activities", names=list(error.args[1])) from None
    followers: dict[str, list[str]] = {key: [] for key in durations}
    early: dict[str, float] = {}
    for key in order:
        early[key] = max((early[p] + durations[p] for p in after.get(key, ())), default=0)
        for name in after.get(key, ()):
            followers[name].append(key)
    end = max((early[key] + durations[key] for key in durations), default=0)
    late: dict[str, float] = {}
    for key in reversed(order):
        late[key] = min((late[f] for f in followers[key]), default=end) - durations[key]
    return {
        key: Activity(
            duration,
            early[key],
            early[key] + duration,
            late[key],
            late[key] + duration,
            late[key] - early[key],
            min((early[f] for f in followers[key]), default=end) - early[key] - duration,
        )
        for key, duration in durations.items()
    }


@dataclass(frozen=True)
class ThreePoint:
    """Mean and variance of a time that was given by three guesses."""

    mean: float
    variance: float


def three_point(least: float, likely: float, most: float) -> ThreePoint:
    r"""Mean and variance from the least, the likeliest and the greatest time.

    Parameters
    ----------
    least, likely, most : float

    Raises
    ------
    InputError
        If they are not in that order.

    Notes
    -----
    .. math:: t = (a + 4 m + b)/6, \quad v = ((b - a)/6)^2

    Examples
    --------
    >>> three_point(45, 90, 225)
    ThreePoint(mean=105.0, variance=900.0)
    """
    if not 0 <= least <= likely <= most:
        raise InputError.at(
            "three times", "dates.durations_out_of_order", least_hours=least, likely_hours=likely, most_hours=most
        )
    return ThreePoint((least + 4 * likely + most) / 6, ((most - least) / 6) ** 2)


def chance_by(time: float, mean: float, variance: float) -> float:
    """Chance that a normal time is over by then; 0 or 1 where there is no variance.

    Examples
    --------
    >>> round(chance_by(20, 17, 9), 4)
    0.8413
    """
    if variance <= 0:
        return float(time >= mean)
    return NormalDist(mean, math.sqrt(variance)).cdf(time)


def path_chance(time: float, activities: Sequence[ThreePoint]) -> float:
    """Chance that one path is over by then; a single path is optimistic where others are nearly as long."""
    return chance_by(time, math.fsum(a.mean for a in activities), math.fsum(a.variance for a in activities))


def paths_chance(time: float, paths: Sequence[tuple[float, float]]) -> float:
    """Chance that all of several paths, taken as independent, are over by then; each a mean and a variance."""
    return math.prod(chance_by(time, mean, variance) for mean, variance in paths)
