"""Tasks of a job from its plan: what is ordered, made, fitted and adjusted, in which turn, and how long it takes.

A task stands for one room (or one opening that names none): two gangs do not work in one room. What takes longer than a day
is split, so that nobody is held to one task for days. Crew hours of the site cost are hours of one person (house assumption).
"""

from __future__ import annotations

import math
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass, field, replace

from rodbook.dates import Stage, Task, Wait, quarters_of
from rodbook.errors import InputError, Message
from rodbook.job.dates import MERCHANT
from rodbook.job.kinds import Group, PartKind
from rodbook.job.models import Making
from rodbook.money import site_rates
from rodbook.money.costs.lines import CostName
from rodbook.money.costs.site import SiteCost
from rodbook.money.rates.names import RateName
from rodbook.plan.model import OpeningPlan, Plan
from rodbook.plan.schedule.fitting_times import FittingTimes

__all__ = ["JobTasks", "NamedTask", "tasks_of"]

GROUPS: dict[str, tuple[PartKind, ...]] = {
    str(group): tuple(kind for kind in PartKind if kind.facts.group is group) for group in Group
}
"""Kinds of part that are made and fitted together."""

HAND_OVER = "hand over"
"""What the last task of a job is called."""

SHOP = "saw and bench"
"""Where parts are made: one task at a time there, for all jobs together (house assumption)."""

JOINERY, PAINTING = "joinery", "painting"
"""Trades that tasks ask for; measuring, ordering and checking are for everybody."""

ALONE_KG = 25.0
"""Mass above which two lift where the book says nothing: the guideline figure for a load close to the body at elbow height
(HSE INDG143, quoted). [kg]"""


@dataclass(frozen=True)
class JobTasks:
    """A job's tasks and what they rest on.

    Parameters
    ----------
    tasks : tuple of Task
    remarks : tuple of Message
    hours_a_day : float
        The book's working day. [h]
    named : tuple of NamedTask
        The same tasks before they are split.
    """

    tasks: tuple[Task, ...]
    remarks: tuple[Message, ...]
    hours_a_day: float
    named: tuple[NamedTask, ...] = ()


@dataclass(frozen=True)
class NamedTask:
    """A task before it is split into days.

    Parameters
    ----------
    name : str
    reckoned : float
        How long it takes as worked out. [h]
    hours : float
        How long it is taken to take: as given for this job, else as worked out. [h]
    working : str
        How `reckoned` came about.
    keys : tuple of str
        Its pieces.
    called : tuple of str
        What each of its pieces is called.
    """

    name: str
    reckoned: float
    hours: float
    working: str
    keys: tuple[str, ...]
    called: tuple[str, ...] = ()


@dataclass
class _Maker:
    """Collects a job's tasks."""

    plan: Plan
    job: str
    crew: int
    times: FittingTimes
    day: float
    tasks: list[Task] = field(default_factory=list)
    lent: bool = False
    named: dict[str, NamedTask] = field(default_factory=dict)

    def add(
        self,
        stage: Stage,
        name: str,
        hours: float,
        waits: Iterable[Wait] = (),
        *,
        working: str,
        hands: int = 1,
        trade: str = "",
        place: str = "",
        spread: float | None = None,
        rate: str = "",
    ) -> tuple[str, ...]:
        """One task, or several one after another where it takes longer than a day; the keys of the last."""
        if hands > self.crew:
            self.lent, hands = True, self.crew
        terms = next((one for one in self.plan.job.dates.tasks if one.name == name), None)
        reckoned, how = hours, working
        if terms is not None and terms.hours is not None:
            hours = terms.hours
            working = f"{hours:g} hours, as given for this job"
        pieces = max(1, math.ceil(round(hours / self.day, 6)))
        before = tuple(waits)
        key, keys, called = "", [], []
        for piece in range(1, pieces + 1):
            key = f"{self.job}/{len(self.tasks) + 1}"
            text = name if pieces == 1 else f"{name}, {piece} of {pieces}"
            task = Task(
                key,
                text,
                self.job,
                stage,
                quarters_of(hours / pieces),
                hands,
                trade,
                place,
                before,
                working=working,
                rate=rate,
                ident=f"{name}, {piece}" if piece > 1 else name,
            )
            self.tasks.append(task if spread is None else _with_spread(task, spread))
            before = (Wait(key),)
            keys.append(key)
            called.append(text)
        self.named[name] = NamedTask(name, reckoned, hours, how, tuple(keys), tuple(called))
        return (key,)

    def turned(self) -> Iterator[Task]:
        """Tasks with what they wait for besides, as given for this job."""
        more: dict[str, list[Wait]] = {}
        for terms in self.plan.job.dates.tasks:
            for name in terms.after:
                if terms.name in self.named and name in self.named:
                    more.setdefault(self.named[terms.name].keys[0], []).append(Wait(self.named[name].keys[-1]))
        for task in self.tasks:
            yield replace(task, waits=(*task.waits, *more[task.key])) if task.key in more else task

    def timed(
        self,
        stage: Stage,
        name: str,
        rate: str,
        count: int,
        what: str,
        waits: Iterable[Wait] = (),
        *,
        hands: int = 1,
        trade: str = "",
        place: str = "",
    ) -> tuple[str, ...]:
        """A task by one of the book's times."""
        time = self.times.of(rate)
        hours = count * time.value / 60
        source = "house assumption" if time.assumed else "the book"
        noun = what if count == 1 else f"{what[:-1]}ves" if what.endswith("f") else f"{what}s"
        working = f"{count} {noun} × {time.value:g} minutes ({source}) = {hours:.2f} hours"
        return self.add(
            stage,
            name,
            hours,
            waits,
            working=working,
            hands=hands,
            trade=trade,
            place=place,
            spread=time.spread,
            rate=rate,
        )


def _with_spread(task: Task, spread: float) -> Task:
    return replace(task, spread=spread)


def tasks_of(plan: Plan, *, key: str, people: int) -> JobTasks:
    """Every task of a job, from reading once more to handing over.

    Parameters
    ----------
    plan : Plan
        All the way, with money.
    key : str
        Of the job among those that are planned together.
    people : int
        How many there are: what is better done by two is done by one where there is one.

    Raises
    ------
    InputError
        If the job has no parts yet.
    """
    if plan.money is None or not plan.schedule:
        raise InputError.at(("jobs", plan.job.job.name), "plan.no_parts_for_dates")
    rates = site_rates(plan.book, plan.job.job.date)
    times = FittingTimes(plan.book, rates)
    maker = _Maker(plan, key, people, times, times.of("working day").value)
    read = _read_once_more(maker)
    ready = _ready_parts(maker, read)
    _fitted(maker, ready, read)
    return JobTasks(tuple(maker.turned()), tuple(_remarks(maker)), maker.day, tuple(maker.named.values()))


def _after(keys: Iterable[str], **more: float) -> tuple[Wait, ...]:
    return tuple(Wait(key, **more) for key in keys)  # type: ignore[arg-type]


def _read_once_more(maker: _Maker) -> tuple[str, ...]:
    """Sizes are read once more before anything is ordered; frames of openings that are still to be framed with them."""
    count = sum(entry.set_out is not None for entry in maker.plan.openings)
    if not count:
        return ()
    return maker.timed(Stage.MEASURE, "read openings once more", "read once more", count, "opening")


def _ready_parts(maker: _Maker, read: tuple[str, ...]) -> dict[str, tuple[Wait, ...]]:
    """What each group of parts waits for until it can be fitted."""
    money = maker.plan.money
    assert money is not None
    by_maker: dict[str, dict[Making, list[PartKind]]] = {}
    for group, kinds in GROUPS.items():
        for choice in money.kinds:
            if choice.kind in kinds:
                by_maker.setdefault(group, {}).setdefault(choice.decision, []).append(choice.kind)
    waits: dict[str, list[Wait]] = {group: [] for group in by_maker}
    stock = _merchant(maker, read, sawn=any(Making.SITE in makers for makers in by_maker.values()))
    checked = _workshop(maker, read) if any(Making.BOUGHT in makers for makers in by_maker.values()) else ()
    for group, makers in by_maker.items():
        if Making.SITE in makers:
            costs = [money.choice_of(kind).site for kind in makers[Making.SITE]]
            waits[group] += _made(maker, group, costs, stock)
        if Making.BOUGHT in makers:
            waits[group] += _after(checked)
    if "leaves" in waits:
        waits["leaves"] += _after(stock)  # hinges come with the boards
    return {group: tuple(dict.fromkeys(result)) for group, result in waits.items()}


def _merchant(maker: _Maker, read: tuple[str, ...], *, sawn: bool) -> tuple[str, ...]:
    days = round(maker.times.of("merchant's lead").value)
    what = "boards, hinges and fittings" if sawn else "hinges and fittings"
    order = maker.timed(Stage.ORDER, f"order {what}", "place an order", 1, "order", _after(read))
    lead = tuple(Wait(key, days=days, supplier=MERCHANT) for key in order)
    name = f"take in {what}"
    return maker.timed(Stage.DELIVER, name, "take in a delivery", 1, "delivery", lead, hands=2 if sawn else 1)


def _workshop(maker: _Maker, read: tuple[str, ...]) -> tuple[str, ...]:
    plan = maker.plan
    workshop = plan.book.workshop(plan.job.job.workshop)
    assert workshop is not None, "nothing is bought in where there is no workshop"
    order = maker.timed(Stage.ORDER, f"order from {workshop.name}", "place an order", 1, "order", _after(read))
    days, spread = workshop.lead_on(plan.job.job.date), maker.times.lead_spread
    lead = tuple(Wait(key, days=days, supplier=workshop.name, spread=spread) for key in order)
    taken = maker.timed(
        Stage.DELIVER, f"take in from {workshop.name}", "take in a delivery", 1, "delivery", lead, hands=2
    )
    parts = sum(line.quantity for line in plan.lines_made(Making.BOUGHT))
    return maker.timed(Stage.CHECK, "check against the order", "check a part", parts, "part", _after(taken))


def _made(maker: _Maker, group: str, costs: Sequence[SiteCost], stock: tuple[str, ...]) -> tuple[Wait, ...]:
    """Making and coating a group of parts; what fitting then waits for."""
    coating = (
        sum(float(line.minutes) for cost in costs for line in cost.lines if line.name == CostName.APPLY_COATS) / 60
    )
    making = sum(float(cost.minutes) for cost in costs) / 60 - coating
    working = f"crew time of the site cost without coats = {making:.2f} hours"
    last = maker.add(Stage.MAKE, f"make {group}", making, _after(stock), working=working, trade=JOINERY, place=SHOP)
    kinds = {cost.kind for cost in costs}
    coats = max((line.part.coats for line in maker.plan.schedule if line.part.kind in kinds), default=0)
    if not coats or not coating:
        return _after(last)
    drying = maker.times.of("drying").value
    waits = _after(last)
    for coat in range(1, coats + 1):
        working = f"coats of the site cost: {coating:.2f} hours ÷ {coats} coats = {coating / coats:.2f} hours"
        name = f"coat {group}" if coats == 1 else f"coat {group}, coat {coat}"
        waits = _after(
            maker.add(Stage.COAT, name, coating / coats, waits, working=working, trade=PAINTING), drying=drying
        )
    return waits


def _rooms(plan: Plan) -> dict[str, list[OpeningPlan]]:
    results: dict[str, list[OpeningPlan]] = {}
    for entry in plan.openings:
        if entry.set_out is not None:
            results.setdefault(entry.opening.room or entry.opening.mark, []).append(entry)
    for panel in plan.panels:
        results.setdefault(panel.room or panel.mark, [])
    return results


def _fitted(maker: _Maker, ready: dict[str, tuple[Wait, ...]], read: tuple[str, ...]) -> None:
    """Fitting, room by room, and handing over."""
    drying = maker.times.of("drying").value
    ends: list[Wait] = []
    alone = maker.times.rates.other(RateName.LIFT_ALONE)
    limit = float(alone.value) if alone is not None else ALONE_KG
    for room, entries in _rooms(maker.plan).items():
        place = f"{maker.job}: {room}"
        last = _after(read)
        leaves = sum(
            entry.set_out.leaves + sum(row.kind != "leaves" for row in entry.set_out.rows)
            for entry in entries
            if entry.set_out
        )
        heavy = max((entry.set_out.leaf_mass.high for entry in entries if entry.set_out), default=0.0) > limit
        panels = sum(panel.quantity for panel in maker.plan.panels if (panel.room or panel.mark) == room)
        steps: list[tuple[Stage, str, str, int, str, int]] = [
            (Stage.LININGS, "linings", "fit a lining", len(entries), "opening", 1),
            (Stage.LEAVES, "leaves", "hang a leaf", leaves, "leaf", 2 if heavy else 1),
            (Stage.TRIMS, "trims", "fit trims", len(entries), "opening", 1),
            (Stage.PANELS, "panels", "fit a panel", panels, "panel", 1),
        ]
        for stage, group, rate, count, what, hands in steps:
            if not count or group not in ready:
                continue
            waits = (*last, *ready[group])
            name = f"{group}, {room}"
            last = _after(maker.timed(stage, name, rate, count, what, waits, hands=hands, trade=JOINERY, place=place))
        count = len(entries) or panels
        what = "opening" if entries else "panel"
        last = _after(
            maker.timed(
                Stage.DECORATE, f"touch up, {room}", "touch up", count, what, last, trade=PAINTING, place=place
            ),
            drying=drying,
        )
        if leaves:
            name = f"adjust leaves, {room}"
            last = _after(
                maker.timed(Stage.ADJUST, name, "adjust a leaf", leaves, "leaf", last, trade=JOINERY, place=place)
            )
        ends += last
    maker.timed(Stage.HAND_OVER, HAND_OVER, "hand over", 1, "job", ends)


def _remarks(maker: _Maker) -> Iterable[Message]:
    name = maker.plan.job.job.name
    if maker.times.assumed:
        yield Message("plan.times_assumed", job=name, names=tuple(maker.times.assumed))
    if maker.lent:
        yield Message("plan.hand_lent", job=name)
    gone = [n for terms in maker.plan.job.dates.tasks for n in (terms.name, *terms.after) if n not in maker.named]
    for gone_name in dict.fromkeys(gone):
        yield Message("plan.no_such_task", job=name, name=gone_name)
    left = [entry.opening.mark for entry in maker.plan.openings if entry.set_out is None]
    if left:
        yield Message("plan.openings_without_tasks", job=name, marks=left)
