r"""The book's labour rates, updated from what was put down: what is known before, what was seen, what follows.

The logarithm of a time for one unit is taken as normal, its mean and variance both unknown, with the conjugate prior
(normal-inverse-gamma) that the book's own middle and spread give. What follows for the next time is a Student t in
logarithms, and its middle and what nine in ten stay under are what is offered to the book; nothing is changed by itself.
"""

from __future__ import annotations

import math
from collections.abc import Collection, Sequence
from dataclasses import dataclass
from datetime import date as Date  # noqa: N812

from rodbook.errors import InputError
from rodbook.job.book import Rate
from rodbook.money.account.actuals import TimeEntry
from rodbook.money.rates.names import Counted, counted_in
from rodbook.money.rates.rounding import figure, measured
from rodbook.money.rates.site_rates import SiteRate
from rodbook.money.rates.spread import NINE_IN_TEN_Z

__all__ = ["PRIOR_ENTRIES", "LogTimes", "Question", "RateUpdate", "prior_of", "rate_update", "updated"]

PRIOR_ENTRIES = 4.0
"""So many entries the book's own figure weighs, in its middle and in its spread (house assumption). [1]"""

USUAL_SPREAD = 1.5
"""Nine in ten stay under this many times the middle where the book says nothing (house assumption). [1]"""

ASK_BEYOND = 0.01
"""An entry is asked about where one so far off would come up less often than this (house assumption). [1]"""


@dataclass(frozen=True)
class LogTimes:
    """What is known of the logarithm of a time for one unit, in minutes.

    Parameters
    ----------
    mean : float
        Of the logarithm. [1]
    entries : float
        How many entries the mean weighs, > 0. [1]
    shape, scale : float
        Of the inverse gamma distribution of its variance, > 0. [1]
    """

    mean: float
    entries: float
    shape: float
    scale: float

    @property
    def freedom(self) -> float:
        """Degrees of freedom of the next time. [1]"""
        return 2 * self.shape

    @property
    def next_scale(self) -> float:
        """Scale of the next time's logarithm. [1]"""
        return math.sqrt(self.scale * (self.entries + 1) / (self.shape * self.entries))

    def quantile(self, share: float) -> float:
        """What the next time stays under with this chance, between 0 and 1, both left out. [minutes]"""
        from scipy.special import stdtrit  # loaded here, as most commands never need it

        return math.exp(self.mean + self.next_scale * float(stdtrit(self.freedom, share)))

    def rareness(self, time: float) -> float:
        """How often a next time is at least as far off, on either side, between 0 and 1. [1]"""
        from scipy.special import stdtr

        off = abs(math.log(time) - self.mean) / self.next_scale
        return 2 * float(stdtr(self.freedom, -off))


def prior_of(rate: SiteRate, *, entries: float = PRIOR_ENTRIES) -> LogTimes:
    """What the book knows of a rate before anything was put down.

    Parameters
    ----------
    rate : SiteRate
        With its middle, and its spread or the usual one.
    entries : float
        How many entries it weighs, > 2. [1]

    Returns
    -------
    LogTimes
        Its variance has the book's as its mean.

    Raises
    ------
    InputError
        If the rate is no time, is zero, or weighs too little for its spread to have a mean.
    """
    if counted_in(rate.unit) != Counted.MINUTES or rate.value <= 0:
        raise InputError.at(rate.name, "money.rate_is_no_time")
    if entries <= 2:
        raise InputError.at("entries", "money.prior_too_light", entries=entries)
    middle = float(rate.value)
    nine = float(rate.nine_in_ten) if rate.nine_in_ten else USUAL_SPREAD * middle
    sigma = max(math.log(nine / middle) / NINE_IN_TEN_Z, 0.01)
    shape = entries / 2
    return LogTimes(math.log(middle), entries, shape, sigma**2 * (shape - 1))


def updated(prior: LogTimes, times: Sequence[float]) -> LogTimes:
    r"""What is known after some times were seen.

    Parameters
    ----------
    prior : LogTimes
    times : sequence of float
        For one unit, each > 0. [minutes]

    Returns
    -------
    LogTimes

    Notes
    -----
    .. math::
        k_n = k_0 + n, \quad m_n = \frac{k_0 m_0 + n \bar y}{k_n}, \quad a_n = a_0 + n/2, \quad
        b_n = b_0 + \tfrac12 \sum (y_i - \bar y)^2 + \frac{k_0 n (\bar y - m_0)^2}{2 k_n}

    with y the logarithms. The conjugate analysis of a normal with both parameters unknown; any textbook of Bayesian
    statistics, from memory, checked in the tests against integration by numbers.
    """
    if not times:
        return prior
    logs = [math.log(time) for time in times]
    n, mean = len(logs), math.fsum(logs) / len(logs)
    entries = prior.entries + n
    spread = math.fsum((y - mean) ** 2 for y in logs)
    between = prior.entries * n * (mean - prior.mean) ** 2 / entries
    return LogTimes(
        (prior.entries * prior.mean + n * mean) / entries,
        entries,
        prior.shape + n / 2,
        prior.scale + (spread + between) / 2,
    )


@dataclass(frozen=True)
class Question:
    """An entry that is too far off to be taken without asking; `number` counts the entries from 1."""

    number: int
    entry: TimeEntry
    sentence: str


@dataclass(frozen=True)
class RateUpdate:
    """What hours put down say of a rate.

    Parameters
    ----------
    rate : SiteRate
        As the book has it.
    prior, posterior : LogTimes
        Known before and after.
    used : int
        Entries that were counted.
    uncounted : int
        Entries of this task that do not say how much was done.
    questions : tuple of Question
        Entries left out until somebody says that they are right.
    offered : Rate, optional
        For the book, if somebody accepts it; None where nothing was counted.
    sentence : str
    """

    rate: SiteRate
    prior: LogTimes
    posterior: LogTimes
    used: int
    uncounted: int
    questions: tuple[Question, ...]
    offered: Rate | None
    sentence: str


def rate_update(
    rate: SiteRate,
    entries: Sequence[TimeEntry],
    *,
    day: Date,
    confirmed: Collection[int] = (),
    prior: LogTimes | None = None,
) -> RateUpdate:
    """Update a labour rate from hours that were put down, and ask about those that are far off.

    Parameters
    ----------
    rate : SiteRate
        A time of the book.
    entries : sequence of TimeEntry
        Of any tasks; those of this rate that say how much was done are counted.
    day : date
        From which the offered rate would hold.
    confirmed : collection of int
        Entries, counted from 1, that somebody has said are right though they are far off.
    prior : LogTimes, optional
        The book's own where it is left out.

    Returns
    -------
    RateUpdate

    Raises
    ------
    InputError
        If the rate is no time.
    """
    before = prior or prior_of(rate)
    own = [(number, entry) for number, entry in enumerate(entries, 1) if entry.task == rate.name]
    counted = [(number, entry, float(entry.each)) for number, entry in own if entry.each]
    far = _far_off(before, [(number, time) for number, _, time in counted], frozenset(confirmed))
    questions = tuple(
        Question(number, entry, _question(entry, time, before)) for number, entry, time in counted if number in far
    )
    times = [time for number, _, time in counted if number not in far]
    after = updated(before, times)
    offered = _offer(rate, after, len(times), day) if times else None
    return RateUpdate(
        rate,
        before,
        after,
        len(times),
        len(own) - len(counted),
        questions,
        offered,
        _said(rate, offered, len(times), before),
    )


def _far_off(before: LogTimes, times: Sequence[tuple[int, float]], confirmed: frozenset[int]) -> set[int]:
    """Entries that all the others make unlikely; the farthest is set aside first, until none is left that far off."""
    aside: set[int] = set()
    while True:
        rareness = {}
        for number, time in times:
            if number in aside or number in confirmed:
                continue
            others = [t for n, t in times if n != number and n not in aside]
            rareness[number] = updated(before, others).rareness(time)
        if not rareness:
            return aside
        farthest = min(rareness, key=lambda n: rareness[n])
        if rareness[farthest] >= ASK_BEYOND:
            return aside
        aside.add(farthest)


def _question(entry: TimeEntry, time: float, before: LogTimes) -> str:
    usual = figure(measured(math.exp(before.mean)), 1)
    return (
        f"{entry.person}, {entry.day}, {entry.task}: {figure(measured(time), 1)} minutes each where {usual} are usual. "
        "Was it other work, or for another number? Say that it is right, and it counts."
    )


def _offer(rate: SiteRate, after: LogTimes, used: int, day: Date) -> Rate:
    middle, nine = round(after.quantile(0.5), 2), round(after.quantile(0.9), 2)
    source = (
        f"own records: {used} {'entry' if used == 1 else 'entries'} up to {day}, beside {figure(rate.value)} before"
    )
    learning = None if rate.learning is None else float(rate.learning)
    return Rate(
        name=rate.name,
        value=middle,
        unit=rate.unit,
        since=day,
        source=source,
        nine_in_ten=max(nine, middle),
        learning=learning,
    )


def _said(rate: SiteRate, offered: Rate | None, used: int, before: LogTimes) -> str:
    if offered is None:
        return f"{rate.name}: nothing that was put down says how much was done, so {figure(rate.value)} stays."
    entries = f"{used} {'entry' if used == 1 else 'entries'}"
    return (
        f"{rate.name}: {figure(rate.value)} {rate.unit} in the book, which weighs as much as {before.entries:g} entries; with "
        f"{entries} it comes to {offered.value:g}, and nine in ten stay under {offered.nine_in_ten:g}."
    )
