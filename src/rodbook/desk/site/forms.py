"""What is typed of a job's tasks on the page of dates, put into the job. Pure."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from typing import Any

from rodbook.errors import Fault, InputError
from rodbook.job import Job
from rodbook.job.faults import nearest
from rodbook.job.numerals import as_typed, read_decimal
from rodbook.plan.schedule.tasks import NamedTask

__all__ = ["days_off", "task_fields", "task_places", "tasks_of_form"]

MOST_HOURS = 2000

type Typed = Mapping[str, str]


def days_off(absences: Sequence[Any]) -> str:
    """Days away as one types them."""
    return ", ".join(str(a.first) if a.first == a.last else f"{a.first}..{a.last}" for a in absences)


def task_fields(job: Job, named: Sequence[NamedTask], locale: str) -> dict[str, str]:
    """The form of a job's tasks as the job fills it in."""
    terms = {one.name: one for one in job.dates.tasks}
    typed: dict[str, str] = {}
    for number, task in enumerate(named, 1):
        given = terms.get(task.name)
        typed[f"hours-{number}"] = as_typed(given.hours if given else None, locale)
        typed[f"after-{number}"] = "; ".join(given.after) if given else ""
    return typed


def tasks_of_form(typed: Typed, named: Sequence[NamedTask], job: Job, locale: str) -> list[dict[str, Any]]:
    """What is said of tasks, as the job keeps it; what was left empty is as it was worked out, what is done stays done.

    Raises
    ------
    InputError
        With every fault, each at its field.
    """
    faults: list[Fault] = []
    results: list[dict[str, Any]] = []
    names = [task.name for task in named]
    done = {terms.name: str(terms.done) for terms in job.dates.tasks if terms.done}
    for number, task in enumerate(named, 1):
        terms: dict[str, Any] = {"name": task.name}
        if text := typed.get(f"hours-{number}", ""):
            hours = _hours(f"hours-{number}", text, faults, locale)
            terms |= {} if hours is None else {"hours": hours}
        after = [name.strip() for name in typed.get(f"after-{number}", "").split(";") if name.strip()]
        for name in after:
            if name == task.name:
                faults.append(Fault(f"after-{number}", "form.waits_for_itself", name=name))
            elif name not in names:
                faults.append(Fault(f"after-{number}", "form.unknown_task", name=name, hint=nearest(name, names)))
        terms |= {"after": after} if after else {}
        terms |= {"done": done[task.name]} if task.name in done else {}
        if len(terms) > 1:
            results.append(terms)
    if faults:
        raise InputError(faults)
    return results


def _hours(field: str, text: str, faults: list[Fault], locale: str) -> float | None:
    try:
        hours = float(read_decimal(text, locale))
    except ValueError:
        faults.append(Fault(field, "form.not_hours", typed=text, example=as_typed(2.5, locale)))
        return None
    if not 0 <= hours <= MOST_HOURS:
        faults.append(Fault(field, "form.hours_out_of_range", typed=text, most=MOST_HOURS))
        return None
    return hours


def task_places(faults: Sequence[Fault], named: Sequence[NamedTask], typed: Typed) -> Iterator[Fault]:
    """Faults of tasks, each at the field of the form where it can be put right."""
    for fault in faults:
        number = next((n for n, task in enumerate(named, 1) if _is_at(fault, task)), None)
        if number is None:
            yield fault
            continue
        circle = fault.parameters.get("tasks", ())
        if fault.code != "dates.circle_of_tasks" or not isinstance(circle, tuple):
            yield fault.moved(f"hours-{number}")
            continue
        within = (n for n, task in enumerate(named, 1) if typed.get(f"after-{n}") and set(circle) & set(task.called))
        yield fault.moved(f"after-{next(within, number)}")


def _is_at(fault: Fault, task: NamedTask) -> bool:
    """Whether a fault is one of a task, or of one of its pieces."""
    match fault.at.path:
        case ("tasks", str(name)):
            return name == task.name or name in task.called
        case _:
            return False
