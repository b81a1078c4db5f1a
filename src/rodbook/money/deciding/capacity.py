"""The capacity question: with the crew days there are in each week, what of which job to make and what to buy.

Every job wants crew days in its own weeks. What is bought saves them and costs money; what is made costs them. The choice
that earns the firm most is found by a mixed-integer programme, and what one more day in a week would earn is read from it.
Wages are paid whichever way it is decided, so a way's cost is what goes out besides them (unless the caller counts them in).
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from decimal import Decimal

from rodbook.errors import Infeasible, InputError, Message
from rodbook.money.deciding.capacity_reasons import why_left, why_more, why_this_way
from rodbook.money.deciding.capacity_weeks import WeekWork, week_work
from rodbook.money.deciding.demand import JobWanted, MoreDays, Offered, WeekDays, wanted_faults
from rodbook.money.deciding.integer_programme import MixedProgramme, MixedSolved
from rodbook.money.rates.rounding import measured, rounded

__all__ = ["Capacity", "CapacityAnswer", "Decision", "MoreUse", "WeekUse", "capacity"]


EFFORT = 5.0
"""How much work each search counts at the most, for whoever asks: pages and the command line then say the same (house
assumption). [s counted]"""

LEAST_DAYS = 1e-5
"""Less of a day than this is the solver's own leeway and no time. [days]"""


@dataclass(frozen=True)
class Decision:
    """What is decided for one task, and why.

    Parameters
    ----------
    job, task : str
    way : str
        Empty where the job is left.
    crew_days : float
        [days]
    reason : str
        One sentence.
    """

    job: str
    task: str
    way: str
    crew_days: float
    reason: str


@dataclass(frozen=True)
class WeekUse:
    """A week: what is used of it, and what one more day would earn.

    Parameters
    ----------
    week : int
    days, used, more : float
        There are, are used of them, and are taken on top. [days]
    dual : Decimal
        Value of a little more time, from the programme with decisions in shares: a check on the next. [currency/day]
    one_more_day : Decimal, optional
        What the firm earns more with one more day, by solving again; None where that was not asked. [currency]
    at_least, at_most : Decimal, optional
        Between which it lies for certain, as far as both programmes are proven. [currency]
    """

    week: int
    days: float
    used: float
    more: float
    dual: Decimal
    one_more_day: Decimal | None = None
    at_least: Decimal | None = None
    at_most: Decimal | None = None


@dataclass(frozen=True)
class MoreUse:
    """What is taken of days that can be had on top, and whether they are worth having.

    Parameters
    ----------
    name : str
    taken : mapping of int to float
        By week; empty where none of them is taken. [days]
    cost : Decimal
        [currency]
    earns : Decimal, optional
        What the firm earns more with them than without, their cost taken off; None where without them what is promised can't
        be done. [currency]
    sentence : str
    """

    name: str
    taken: Mapping[int, float]
    cost: Decimal
    earns: Decimal | None
    sentence: str


@dataclass(frozen=True)
class CapacityAnswer:
    """What to make and what to buy over all jobs.

    Parameters
    ----------
    earned : Decimal
        Income less what goes out. [currency]
    bound : Decimal
        No choice earns more than this. [currency]
    proven : bool
        Whether `earned` is proven within the gap that was asked for.
    decisions : tuple of Decision
    weeks : tuple of WeekUse
    left : tuple of str
        Jobs that are not taken.
    more : tuple of MoreUse
        Days that can be had on top, in the order given.
    work : tuple of WeekWork
        What is done in each week, and what is ordered in it.
    """

    earned: Decimal
    bound: Decimal
    proven: bool
    decisions: tuple[Decision, ...]
    weeks: tuple[WeekUse, ...]
    left: tuple[str, ...]
    more: tuple[MoreUse, ...] = ()
    work: tuple[WeekWork, ...] = ()


class Capacity:
    """The programme of a set of jobs and weeks, to be solved as often as is asked.

    Parameters
    ----------
    jobs : sequence of JobWanted
    weeks : sequence of WeekDays
    more : sequence of MoreDays
        What can be had on top.
    """

    def __init__(self, jobs: Sequence[JobWanted], weeks: Sequence[WeekDays], more: Sequence[MoreDays] = ()) -> None:
        """Check what is given and set the programme up."""
        faults = wanted_faults(jobs, weeks, more)
        if faults:
            raise InputError(faults)
        self.jobs, self.weeks = jobs, weeks
        self.programme = MixedProgramme()
        self.chosen: dict[tuple[str, str, int], int] = {}
        self.taken: dict[str, int] = {}
        self.placed: dict[tuple[str, int, int, int], int] = {}
        self.more = more
        self.had = {(one.name, week): self._had(one, days) for one in more for week, days in one.days.items()}
        for job in jobs:
            self._add_job(job)
        self.rows = [self._week_row(number, week.days) for number, week in enumerate(weeks, 1)]

    def _had(self, more: MoreDays, days: float) -> int:
        if more.whole:
            return self.programme.counted(float(more.day_cost), float(int(days + 1e-9)))
        return self.programme.column(float(more.day_cost), days)

    def _add_job(self, job: JobWanted) -> None:
        programme = self.programme
        taken = self.taken[job.name] = programme.decision(-float(job.income))
        if job.promised:
            programme.row([(taken, 1.0)], 1.0, 1.0)
        wanted: dict[tuple[int, int], list[tuple[int, float]]] = {}
        ordering: list[tuple[int, float]] = []
        back: list[int] = []
        for task in job.tasks:
            columns = []
            for number, way in enumerate(task.ways):
                column = programme.decision(float(way.cost))
                self.chosen[job.name, task.name, number] = column
                columns.append((column, 1.0))
                if way.crew_days:
                    first, last = task.first_week + way.not_before, task.last_week - way.not_after
                    if first > last:  # what is ordered comes too late, so nobody can work on it in time
                        programme.row([(column, 1.0)], 0.0, 0.0)
                    else:
                        wanted.setdefault((first, last), []).append((column, way.crew_days))
                if way.ordered is not None:
                    ordering.append((column, float(way.ordered)))
                    back += [column] * (way.travels > 1)
            programme.row([*columns, (taken, -1.0)], 0.0, 0.0)
        for (first, last), terms in wanted.items():
            weeks = [programme.column(0.0) for _ in range(first, last + 1)]
            self.placed |= {
                (job.name, first, last, week): c for week, c in zip(range(first, last + 1), weeks, strict=True)
            }
            programme.row([*terms, *((column, -1.0) for column in weeks)], 0.0, 0.0)
        if ordering and (job.delivery or job.least_order):
            self._add_order(job, ordering, back)

    def _add_order(self, job: JobWanted, ordering: list[tuple[int, float]], back: list[int]) -> None:
        """The one order of a job: its delivery, once more where anything comes back, and its least charge."""
        programme = self.programme
        ordered = programme.decision(float(job.delivery))
        for column, _ in ordering:
            programme.row([(ordered, 1.0), (column, -1.0)], 0.0)
        if back:
            twice = programme.decision(float(job.delivery))
            for column in back:
                programme.row([(twice, 1.0), (column, -1.0)], 0.0)
        if job.least_order:
            top_up = programme.column(1.0)
            programme.row([(top_up, 1.0), (ordered, -float(job.least_order)), *ordering], 0.0)

    def _week_row(self, number: int, days: float) -> int:
        terms = [(column, 1.0) for (_, _, _, week), column in self.placed.items() if week == number]
        had = [(column, -1.0) for (_, week), column in self.had.items() if week == number]
        return self.programme.row([*terms, *had], upper=days)

    def short(self) -> list[Message]:
        """Weeks in which days are missing however it is decided; empty where all can be done."""
        short = MixedProgramme()
        same = self.programme
        short.cost, short.limit = [0.0] * len(same.cost), list(same.limit)
        short.entries, short.lower, short.upper = list(same.entries), list(same.lower), list(same.upper)
        missing = [short.column(1.0) for _ in self.rows]
        short.entries += [(row, column, -1.0) for row, column in zip(self.rows, missing, strict=True)]
        result = short.relaxed()
        assert result is not None, "with days borrowed everything can be done"
        days = [result.values[column] for column in missing]
        return [Message("money.week_short", week=n, days=d) for n, d in enumerate(days, 1) if d > 1e-6]


def capacity(
    jobs: Sequence[JobWanted],
    weeks: Sequence[WeekDays],
    *,
    currency: str,
    more: Sequence[MoreDays] = (),
    gap: float = 1e-4,
    effort: float = EFFORT,
    value_weeks: Sequence[int] | None = (),
) -> CapacityAnswer:
    """Decide over all jobs what to make and what to buy, so that the firm earns most.

    Parameters
    ----------
    jobs : sequence of JobWanted
    weeks : sequence of WeekDays
        The first is week 1.
    currency : str
        ISO 4217 code.
    more : sequence of MoreDays
        What can be had on top of the crew's days; each is held against doing without it.
    gap : float
        How near to the best it has to be proven. [1]
    effort : float
        How much work the search for each solution may count; the clock ends nothing. [s counted]
    value_weeks : sequence of int, optional
        Weeks for which one more day is valued by solving again; None for all.

    Returns
    -------
    CapacityAnswer

    Raises
    ------
    InputError
        With every fault in jobs and weeks.
    Infeasible
        If what is promised can't be done with the days there are; `items` names the weeks that are short.
    """
    model = Capacity(jobs, weeks, more)
    result = model.programme.best(effort=effort, gap=gap)
    if result is None:
        short = model.short()
        if short:
            raise Infeasible("money.promises_exceed_days", short=short, items=map(str, short))
        raise Infeasible("money.promises_not_solved")
    relaxed = model.programme.relaxed()
    duals = [0.0] * len(weeks) if relaxed is None else [max(0.0, -relaxed.duals[row]) for row in model.rows]
    used = [0.0] * len(weeks)
    for (_, _, _, week), column in model.placed.items():
        used[week - 1] += result.values[column]
    taken = {one.name: _taken(model, one, result) for one in more}
    untaken = {week for one in more if not taken[one.name] for week in one.days}
    asked = range(1, len(weeks) + 1) if value_weeks is None else sorted({*value_weeks, *untaken})
    values = {week: _one_more(model, week, result, gap, effort) for week in asked}

    def money(value: float) -> Decimal:
        return rounded(measured(value), currency)

    had = [
        min(sum(result.values[c] for (_, w), c in model.had.items() if w == n), used[n - 1])
        for n in range(1, len(weeks) + 1)
    ]
    full = {n: used[n - 1] for n, days in enumerate(had, 1) if days > 0}
    work = week_work(jobs, _ways_taken(model, result), [week.days for week in weeks], full)
    uses: list[WeekUse] = []
    for number, (there, on_top) in enumerate(zip(weeks, had, strict=True), 1):
        one, done = values.get(number), sum(each.days for each in work if each.week == number)
        use = WeekUse(number, there.days, max(0.0, round(done - on_top, 4)), round(on_top, 6), money(duals[number - 1]))
        if one:
            use = replace(use, one_more_day=money(one[0]), at_least=money(one[1]), at_most=money(one[2]))
        uses.append(use)
    left = tuple(job.name for job in jobs if result.values[model.taken[job.name]] < 0.5)
    decisions = tuple(_decisions(model, result, duals, currency))
    worth = {week: money(value[0]) for week, value in values.items()}
    had_use = tuple(_more_use(model, one, taken[one.name], result, worth, currency, gap, effort) for one in more)
    return CapacityAnswer(
        money(-result.cost), money(-result.bound), result.proven, decisions, tuple(uses), left, had_use, work
    )


def _taken(model: Capacity, more: MoreDays, result: MixedSolved) -> dict[int, float]:
    days = {week: round(result.values[model.had[more.name, week]], 6) for week in sorted(more.days)}
    return {week: number for week, number in days.items() if number >= LEAST_DAYS}


def _more_use(
    model: Capacity,
    more: MoreDays,
    taken: Mapping[int, float],
    result: MixedSolved,
    worth: Mapping[int, Decimal],
    currency: str,
    gap: float,
    effort: float,
) -> MoreUse:
    """What days on top come to, against deciding everything anew without them."""
    earns: Decimal | None = rounded(Decimal(0), currency)
    if taken:
        limits = list(model.programme.limit)
        for week in more.days:
            model.programme.limit[model.had[more.name, week]] = 0.0
        without = model.programme.best(effort=effort, gap=gap)
        model.programme.limit[:] = limits
        earns = None if without is None else rounded(measured(max(0.0, without.cost - result.cost)), currency)
    cost = rounded(measured(sum(taken.values())) * more.day_cost, currency)
    there = {week: worth[week] for week in more.days if week in worth}
    return MoreUse(more.name, taken, cost, earns, why_more(more, taken, earns, there, currency))


def _ways_taken(model: Capacity, result: MixedSolved) -> dict[tuple[str, str], Offered]:
    """The way that each task of each job that is taken is done in."""
    return {
        (job.name, task.name): way
        for job in model.jobs
        for task in job.tasks
        for number, way in enumerate(task.ways)
        if result.values[model.chosen[job.name, task.name, number]] > 0.5
    }


def _one_more(model: Capacity, week: int, result: MixedSolved, gap: float, effort: float) -> tuple[float, float, float]:
    """What is earned with one more day in a week, and between which figures it lies for certain."""
    if not 1 <= week <= len(model.weeks):
        raise InputError.at("value_weeks", "money.week_out_of_range", week=week, last=len(model.weeks))
    row = model.rows[week - 1]
    model.programme.upper[row] += 1
    again = model.programme.best(effort=effort, gap=gap)
    model.programme.upper[row] -= 1
    assert again is not None, "what could be done before can be done with one more day"
    return max(0.0, result.cost - again.cost), max(0.0, result.bound - again.cost), max(0.0, result.cost - again.bound)


def _decisions(model: Capacity, result: MixedSolved, duals: Sequence[float], currency: str) -> Iterator[Decision]:
    for job in model.jobs:
        if result.values[model.taken[job.name]] < 0.5:
            yield Decision(job.name, "", "", 0.0, why_left(job, duals, currency))
            continue
        for task in job.tasks:
            values = [result.values[model.chosen[job.name, task.name, n]] for n in range(len(task.ways))]
            way = task.ways[values.index(max(values))]
            yield Decision(job.name, task.name, way.name, way.crew_days, why_this_way(task, way, duals, currency))
