"""What is typed on the pages of dates, put into the documents: a job's days and tasks, the firm's people and days. Pure."""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping, Sequence
from typing import Any

from rodbook.dates import Absence, public_holidays
from rodbook.errors import Fault, InputError
from rodbook.job import Job
from rodbook.job.dates import WEEKDAYS, FirmDates
from rodbook.job.faults import nearest
from rodbook.job.numerals import as_typed, read_decimal
from rodbook.plan.schedule.dates_texts import read_absences, read_weekdays
from rodbook.plan.schedule.tasks import JOINERY, PAINTING, NamedTask

__all__ = [
    "TRADES", "days_off", "firm_fields", "firm_of", "people_in", "supplier_fields", "suppliers_in", "task_fields",
    "task_places", "tasks_of_form",
]  # fmt: skip

TRADES = {"": (), JOINERY: (JOINERY,), PAINTING: (PAINTING,)}
"""What somebody does, as the form offers it; empty for everything."""

MOST_PEOPLE = 60
MOST_HOURS = 2000
MOST_SUPPLIERS = 200

NO_HOLIDAYS = "none"
"""What is typed where a supplier keeps no public holidays."""

type Typed = Mapping[str, str]


def days_off(absences: Sequence[Any]) -> str:
    """Days away as one types them."""
    return ", ".join(str(a.first) if a.first == a.last else f"{a.first}..{a.last}" for a in absences)


def firm_fields(firm: FirmDates) -> dict[str, str]:
    """The form of the firm's people and days as the book fills it in, with room for one more."""
    typed = {"holidays": firm.holidays, "closed": days_off(firm.closed)}
    typed |= {f"day-{day}": "on" for day in firm.days}
    for number, member in enumerate(firm.crew, 1):
        trades = member.trades[0] if len(member.trades) == 1 else ""
        typed |= {f"name-{number}": member.name, f"trades-{number}": trades, f"off-{number}": days_off(member.off)}
    more = len(firm.crew) + 1
    return typed | {f"name-{more}": "", f"trades-{more}": "", f"off-{more}": ""}


def suppliers_in(typed: Typed) -> list[int]:
    """Numbers of the rows of suppliers in a form, in order."""
    numbers = sorted(int(m[1]) for name in typed if (m := re.fullmatch(r"supplier-(\d{1,3})", name)))
    return numbers[: MOST_SUPPLIERS + 1]


def supplier_fields(firm: FirmDates, suppliers: Sequence[str]) -> dict[str, str]:
    """The form of suppliers' days, one row for each that there is: as the book fills it in, empty where it says nothing."""
    said = {one.supplier: one for one in firm.suppliers}
    typed: dict[str, str] = {}
    for number, name in enumerate(suppliers, 1):
        one = said.get(name)
        typed[f"supplier-{number}"] = name
        usual = one is None or one.days == FirmDates.model_fields["days"].default
        typed[f"open-{number}"] = "" if one is None or usual else ",".join(one.days)
        country = "" if one is None or one.holidays is None else one.holidays or NO_HOLIDAYS
        typed[f"country-{number}"] = country
        typed[f"shut-{number}"] = days_off(one.closed) if one else ""
    return typed


def _suppliers_of(typed: Typed, faults: list[Fault]) -> list[dict[str, Any]]:
    """Suppliers of whom something is said, each fault at its field."""
    found: list[dict[str, Any]] = []
    for number in suppliers_in(typed):
        days, country = typed.get(f"open-{number}", "").strip(), typed.get(f"country-{number}", "").strip()
        closed = _read_days(f"shut-{number}", typed.get(f"shut-{number}", ""), faults)
        one: dict[str, Any] = {"supplier": typed[f"supplier-{number}"]}
        try:
            if days:
                one["days"] = [WEEKDAYS[n] for n in read_weekdays(days)]
        except ValueError as error:
            faults.append(Fault(f"open-{number}", "plain.text", text=str(error)))
        if country:
            one["holidays"] = "" if country.lower() == NO_HOLIDAYS else country.upper()
            try:
                public_holidays(one["holidays"], [2026])
            except InputError as error:
                faults += [Fault(f"country-{number}", fault) for fault in error.faults]
        if closed:
            one["closed"] = closed
        if len(one) > 1:
            found.append(one)
    return found


def people_in(typed: Typed) -> list[int]:
    """Numbers of the rows of people in a form, in order."""
    numbers = sorted(int(m[1]) for name in typed if (m := re.fullmatch(r"name-(\d{1,3})", name)))
    return numbers[: MOST_PEOPLE + 1]


def _read_days(field: str, text: str, faults: list[Fault]) -> list[dict[str, str]]:
    try:
        found: Sequence[Absence] = read_absences(text)
    except ValueError as error:
        faults.append(Fault(field, "plain.text", text=str(error)))
        return []
    for one in found:
        if one.last < one.first:
            said = f"{one.first} to {one.last} ends before it begins; write the earlier day first"
            faults.append(Fault(field, "plain.text", text=said))
    return [{"first": str(one.first), "last": str(one.last)} for one in found]


def firm_of(typed: Typed) -> dict[str, Any]:
    """The firm's people and days as the book keeps them.

    Raises
    ------
    InputError
        With every fault, each at its field.
    """
    faults: list[Fault] = []
    crew: list[dict[str, Any]] = []
    seen: set[str] = set()
    for number in people_in(typed):
        name, off = typed[f"name-{number}"], typed.get(f"off-{number}", "")
        if not name:
            if off:
                faults.append(Fault(f"name-{number}", "desk.days_off_nobody"))
            continue
        if name.casefold() in seen:
            faults.append(Fault(f"name-{number}", "desk.already_2", name=name))
        seen.add(name.casefold())
        member: dict[str, Any] = {"name": name, "off": _read_days(f"off-{number}", off, faults)}
        trades = typed.get(f"trades-{number}", "")
        if trades not in TRADES:
            faults.append(Fault(f"trades-{number}", "desk.no_trade", trades=trades))
        crew.append(member | {"trades": list(TRADES.get(trades, ()))})
    if not crew:
        faults.insert(0, Fault("name-1", "desk.nobody_to_do_work"))
    days = [day for day in WEEKDAYS if typed.get(f"day-{day}")]
    if not days:
        faults.append(Fault("day-mon", "desk.no_working_day_in_week"))
    closed = _read_days("closed", typed.get("closed", ""), faults)
    suppliers = _suppliers_of(typed, faults)
    holidays = typed.get("holidays", "").upper()
    try:
        public_holidays(holidays, [2026])
    except InputError as error:
        faults += error.faults
    if faults:
        raise InputError(faults)
    return {"crew": crew, "days": days, "holidays": holidays, "closed": closed, "suppliers": suppliers}


# --- tasks of a job -----------------------------------------------------------------------------------------------


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
    found: list[dict[str, Any]] = []
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
                faults.append(Fault(f"after-{number}", "desk.cant_wait_itself", name=name))
            elif name not in names:
                faults.append(Fault(f"after-{number}", "desk.no_task", name=name, name_2=nearest(name, names)))
        terms |= {"after": after} if after else {}
        terms |= {"done": done[task.name]} if task.name in done else {}
        if len(terms) > 1:
            found.append(terms)
    if faults:
        raise InputError(faults)
    return found


def _hours(field: str, text: str, faults: list[Fault], locale: str) -> float | None:
    try:
        hours = float(read_decimal(text, locale))
    except ValueError:
        faults.append(Fault(field, "desk.not_number_hours", text=text, value=as_typed(2.5, locale)))
        return None
    if not 0 <= hours <= MOST_HOURS:
        faults.append(Fault(field, "desk.hours_wont_do", text=text, most_hours=MOST_HOURS))
        return None
    return hours


def task_places(faults: Sequence[Fault], named: Sequence[NamedTask], typed: Typed) -> Iterator[Fault]:
    """Faults of tasks, each at the field of the form where it can be put right."""
    for fault in faults:
        number = next((n for n, task in enumerate(named, 1) if _is_at(fault.where, task.name)), None)
        if number is None:
            yield fault
            continue
        if "circle" not in fault.what:
            yield Fault(f"hours-{number}", fault)
            continue
        at = next(
            (n for n, task in enumerate(named, 1) if typed.get(f"after-{n}") and repr(task.name)[:-1] in fault.what),
            number,
        )
        yield Fault(f"after-{at}", fault)


def _is_at(where: str, name: str) -> bool:
    return where == f"task {name!r}" or bool(re.fullmatch(re.escape(f"task {name!r}"[:-1]) + r", \d+ of \d+.", where))
