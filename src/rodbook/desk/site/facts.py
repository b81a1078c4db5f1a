"""What is said on the page of dates of what is done, ordered or come, put into a job's dates. Pure: documents in and out."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from datetime import date as Date  # noqa: N812
from typing import Any

from babel.dates import format_date
from django.utils.translation import gettext as _

from rodbook.errors import Fault, InputError
from rodbook.job import Job
from rodbook.job.dates import OrderTerms
from rodbook.plan.schedule.facts import done_names, suppliers_of
from rodbook.plan.schedule.tasks import JobTasks

__all__ = ["ORDER_FIELDS", "OrderCard", "TaskTick", "changed_order", "changed_tasks", "order_cards", "task_ticks"]

ORDER_FIELDS = ("ordered", "promised", "came")

type Typed = Mapping[str, str]


@dataclass(frozen=True)
class OrderCard:
    """An order as the page has it: from whom, its days, and its fields as they were filled in.

    Parameters
    ----------
    number : int
    supplier : str
    state : str
        "open", "ordered" or "came".
    told : str
        How it stands, in words; empty where it is not ordered.
    fields : mapping of str to str
        Of `ORDER_FIELDS`; today where nothing is said yet.
    """

    number: int
    supplier: str
    state: str
    told: str
    fields: Mapping[str, str]


@dataclass(frozen=True)
class TaskTick:
    """A task that can be ticked off: its number and name, whether it is said to be done, and what is known of that."""

    number: int
    name: str
    ticked: bool
    told: str


def _said(day: Date, locale: str) -> str:
    return str(format_date(day, "EEE d MMM", locale=locale))


def order_cards(result: JobTasks, job: Job, today: Date, locale: str) -> tuple[OrderCard, ...]:
    """The orders of a job, as they stand.

    Parameters
    ----------
    result : JobTasks
    job : Job
    today : date
    locale : str
        How days are written.
    """
    terms = {one.supplier: one for one in job.dates.orders}
    return tuple(
        _card(number, supplier, terms.get(supplier), today, locale)
        for number, supplier in enumerate(suppliers_of(result), 1)
    )


def _card(number: int, supplier: str, answer: OrderTerms | None, today: Date, locale: str) -> OrderCard:
    if answer is None:
        return OrderCard(number, supplier, "open", "", {"ordered": str(today), "promised": "", "came": ""})
    fields = {name: str(getattr(answer, name) or "") for name in ORDER_FIELDS}
    lines = []
    if answer.ordered:
        lines.append(_("ordered %(day)s") % {"day": _said(answer.ordered, locale)})
    if answer.promised:
        lines.append(_("promised for %(day)s") % {"day": _said(answer.promised, locale)})
    if answer.came:
        lines.append(_("came %(day)s") % {"day": _said(answer.came, locale)})
    if answer.came is None:
        fields["came"] = str(today)
    return OrderCard(number, supplier, "came" if answer.came else "ordered", ", ".join(lines), fields)


def _day(typed: Typed, field: str, faults: list[Fault]) -> str:
    text = typed.get(field, "").strip()
    if not text:
        return ""
    try:
        return Date.fromisoformat(text).isoformat()
    except ValueError:
        faults.append(Fault(field, "form.not_a_day", typed=text[:40]))
        return ""


def changed_order(job: Job, supplier: str, act: str, typed: Typed) -> list[dict[str, Any]]:
    """A job's orders with one of them placed, come, or taken back by a step.

    Parameters
    ----------
    job : Job
    supplier : str
    act : str
        "ordered", "came", or "back".
    typed : mapping of str to str
        Days by their fields.

    Raises
    ------
    InputError
        With every fault, each at its field.
    """
    kept = {one.supplier: one.model_dump(mode="json", exclude_none=True) for one in job.dates.orders}
    own = kept.get(supplier, {"supplier": supplier})
    faults: list[Fault] = []
    if act == "ordered":
        own |= {"ordered": _day(typed, "ordered", faults), "promised": _day(typed, "promised", faults)}
        if not own["ordered"] and not faults:
            faults.append(Fault("ordered", "form.no_day_ordered"))
    elif act == "came":
        own |= {"came": _day(typed, "came", faults)}
        if not own["came"] and not faults:
            faults.append(Fault("came", "form.no_day_came"))
    elif "came" in own and "ordered" in own:
        del own["came"]
    else:
        own = {}
    if faults:
        raise InputError(faults)
    kept[supplier] = {name: value for name, value in own.items() if value}
    return [one for one in kept.values() if one]


def task_ticks(result: JobTasks, job: Job, locale: str) -> tuple[TaskTick, ...]:
    """Tasks that can be ticked off, in their turn; orders and what is taken in have cards of their own."""
    values = {one.name: one.done for one in job.dates.tasks if one.done}
    over = done_names(result, job)
    of_orders = {name for names in suppliers_of(result).values() for name in names}
    ticks = []
    for number, one in enumerate(result.named, 1):
        if one.name in of_orders:
            continue
        day = values.get(one.name)
        text = _said(day, locale) if day else _("has to be, as what comes after it is") if one.name in over else ""
        ticks.append(TaskTick(number, one.name, day is not None, text))
    return tuple(ticks)


def changed_tasks(result: JobTasks, job: Job, ticked: Sequence[str], typed_day: str) -> list[dict[str, Any]]:
    """What a job says of its tasks, with those done that are ticked; what was done before keeps its day.

    Parameters
    ----------
    result : JobTasks
    job : Job
    ticked : sequence of str
        Names; orders and what is taken in have cards of their own, and stay as they are.
    typed_day : str
        Day for what is ticked anew.

    Raises
    ------
    InputError
        If the day is needed and can't be read.
    """
    of_orders = {name for names in suppliers_of(result).values() for name in names}
    known = {one.name for one in result.named} - of_orders
    kept = {one.name: one.model_dump(mode="json", exclude_defaults=True) for one in job.dates.tasks}
    anew = [name for name in ticked if name in known and "done" not in kept.get(name, {})]
    faults: list[Fault] = []
    day = _day({"day": typed_day}, "day", faults)
    if anew and not day and not faults:
        faults.append(Fault("day", "form.no_day_done"))
    if anew and faults:
        raise InputError(faults)
    for name, terms in kept.items():
        if name in known and name not in ticked:
            terms.pop("done", None)
    for name in anew:
        kept[name] = {"name": name, **kept.get(name, {}), "done": day}
    return [terms for terms in kept.values() if len(terms) > 1]
