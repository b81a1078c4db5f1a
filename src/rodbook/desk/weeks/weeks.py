"""The crew's weeks across the jobs on the desk: how they are laid down, and the answer as the page shows it. Pure."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field, replace
from datetime import date as Date  # noqa: N812
from datetime import timedelta
from typing import Any

from django.utils.translation import gettext as _

from rodbook.desk.weeks.extra_days import ExtraDays, extra_days_fields, typed_extra_days
from rodbook.errors import Fault
from rodbook.job.numerals import as_typed, number_or_none
from rodbook.money import CapacityAnswer
from rodbook.papers.numbers import Numbers
from rodbook.papers.weeks.content import done_in

__all__ = [
    "DAYS_A_WEEK",
    "MOST_WEEKS",
    "JobWeeks",
    "Weeks",
    "answer_rows",
    "monday",
    "read_weeks",
    "typed_weeks",
    "weeks_fields",
]

DAYS_A_WEEK = 5
"""Working days of one person (common practice)."""

MOST_WEEKS = 26
MOST_CREW = 99
MOST_DAYS = 7 * MOST_CREW


@dataclass(frozen=True)
class JobWeeks:
    """A job's place in the weeks: whether it counts, its first and last week, whether it is promised, and days besides."""

    counts: bool = True
    first: int = 1
    last: int = 0
    promised: bool = True
    besides: float | None = None


@dataclass(frozen=True)
class Weeks:
    """The weeks as they were laid down.

    Parameters
    ----------
    start : date
        Monday of the first.
    crew : int
        How many people.
    count : int
        How many weeks.
    days : mapping of int to float
        Crew days in a week where they are other than the whole crew's.
    jobs : mapping of int to JobWeeks
        By the job's number on the desk.
    on_top : tuple of ExtraDays
        Hired hands and overtime that can be had.
    """

    start: Date
    crew: int = 2
    count: int = 8
    days: Mapping[int, float] = field(default_factory=dict)
    jobs: Mapping[int, JobWeeks] = field(default_factory=dict)
    on_top: tuple[ExtraDays, ...] = ()

    def usual(self, of_book: Sequence[float]) -> tuple[float, ...]:
        """Crew days in each week where nothing is said: those of the book's crew, else five for each. [days]"""
        return tuple(of_book) or (float(self.crew * DAYS_A_WEEK),) * self.count

    def all_days(self, of_book: Sequence[float]) -> list[float]:
        """Crew days in each week. [days]"""
        return [self.days.get(week, days) for week, days in enumerate(self.usual(of_book), 1)]

    def of_job(self, pk: int, own: tuple[int, int]) -> JobWeeks:
        """A job's place; its own first and last week where nothing is said."""
        result = self.jobs.get(pk)
        if result is None:
            return JobWeeks(first=own[0], last=own[1])
        return replace(result, last=min(result.last, self.count))

    def as_content(self) -> dict[str, Any]:
        """Plain values to keep."""
        return {
            "start": self.start.isoformat(),
            "crew": self.crew,
            "count": self.count,
            "days": {str(week): days for week, days in self.days.items()},
            "jobs": {str(pk): vars(job) for pk, job in self.jobs.items()},
            "on_top": [one.as_content() for one in self.on_top],
        }


def monday(day: Date) -> Date:
    """The Monday of a day's week."""
    return day - timedelta(days=day.weekday())


def read_weeks(content: Mapping[str, Any]) -> Weeks:
    """Kept weeks, read again."""
    return Weeks(
        Date.fromisoformat(content["start"]),
        content["crew"],
        content["count"],
        {int(week): days for week, days in content["days"].items()},
        {int(pk): JobWeeks(**job) for pk, job in content["jobs"].items()},
        tuple(ExtraDays.kept(one) for one in content.get("on_top", ())),
    )


def weeks_fields(weeks: Weeks, jobs: Mapping[int, tuple[int, int]], locale: str) -> dict[str, str]:
    """What the form shows of weeks, by field."""
    results = {"start": weeks.start.isoformat(), "crew": str(weeks.crew), "count": str(weeks.count)}
    results |= {f"days-{n}": as_typed(weeks.days.get(n), locale) for n in range(1, weeks.count + 1)}
    results |= extra_days_fields(weeks.on_top, locale)
    for pk, own in jobs.items():
        job = weeks.of_job(pk, own)
        results |= {
            f"counts-{pk}": "yes" if job.counts else "",
            f"first-{pk}": str(job.first),
            f"last-{pk}": str(job.last),
            f"promised-{pk}": "yes" if job.promised else "",
            f"besides-{pk}": as_typed(job.besides, locale),
        }
    return results


def _whole(typed: str, field_name: str, least: int, most: int, faults: list[Fault], otherwise: int) -> int:
    if typed.isdecimal() and len(typed) < 6 and least <= int(typed) <= most:
        return int(typed)
    values = {"typed": typed, "least": least, "most": most}
    faults.append(
        Fault(
            field_name,
            "form.not_whole_from_to",
            **values,
        )
    )
    return otherwise


def _days(typed: str, field_name: str, faults: list[Fault], locale: str) -> float | None:
    if not typed:
        return None
    value = number_or_none(typed, locale)
    if value is None or not 0 <= value <= MOST_DAYS:
        values = {"typed": typed, "most": MOST_DAYS, "example": as_typed(4.5, locale)}
        faults.append(
            Fault(
                field_name,
                "form.not_days_from_zero",
                **values,
            )
        )
        return None
    return float(value)


def typed_weeks(
    posted: Mapping[str, str], jobs: Sequence[int], today: Date, of_book: int = 0, *, currency: str, locale: str
) -> tuple[Weeks, dict[str, str], list[Fault]]:
    """What was typed: the weeks, every field as it was typed, and a fault beside each that is wrong."""
    typed = {name: posted.get(name, "").strip() for name in ("start", "crew", "count")}
    faults: list[Fault] = []
    try:
        start = monday(Date.fromisoformat(typed["start"]))
    except ValueError:
        start = monday(today)
        answer = typed["start"]
        faults.append(Fault("start", "form.not_a_day", typed=answer))
    crew = of_book
    if of_book:
        typed["crew"] = str(of_book)
    elif typed["crew"] == "0":
        faults.append(
            Fault(
                "crew",
                "form.crew_of_nobody",
            )
        )
        crew = 1
    else:
        crew = _whole(typed["crew"], "crew", 1, MOST_CREW, faults, 1)
    count = _whole(typed["count"], "count", 1, MOST_WEEKS, faults, 8)
    days: dict[int, float] = {}
    for n in range(1, count + 1):
        typed[f"days-{n}"] = posted.get(f"days-{n}", "").strip()
        if (result := _days(typed[f"days-{n}"], f"days-{n}", faults, locale)) is not None:
            days[n] = result
    on_top, shown = typed_extra_days(posted, currency, locale, faults)
    typed |= shown
    places: dict[int, JobWeeks] = {}
    for pk in jobs:
        names = [f"{name}-{pk}" for name in ("counts", "first", "last", "promised", "besides")]
        typed |= {name: posted.get(name, "").strip() for name in names}
        counts, first_field, last_field, promised, besides = names
        first = _whole(typed[first_field], first_field, 1, count, faults, 1)
        # a last week beyond the weeks there are now is the last of them: whoever takes weeks off need not go through the jobs
        last_typed = typed[last_field]
        beyond = last_typed.isdecimal() and len(last_typed) < 6 and int(last_typed) > count
        last = count if beyond or not last_typed else _whole(last_typed, last_field, 1, count, faults, count)
        if last < first and not any(fault.at.path in ((first_field,), (last_field,)) for fault in faults):
            faults.append(
                Fault(
                    last_field,
                    "form.last_week_before_first",
                    first=first,
                )
            )
        places[pk] = JobWeeks(
            bool(typed[counts]), first, last, bool(typed[promised]), _days(typed[besides], besides, faults, locale)
        )
    return Weeks(start, crew, count, days, places, on_top), typed, faults


@dataclass(frozen=True)
class Answered:
    """The answer in words: what is earned, what is worth having on top, a row for each week, and each job's decisions."""

    sentences: tuple[str, ...]
    on_top: tuple[str, ...]
    weeks: tuple[tuple[str, str, str, str, str, str, int, tuple[tuple[str, str], ...]], ...]
    jobs: tuple[tuple[str, tuple[str, ...]], ...]


def answer_rows(answer: CapacityAnswer, weeks: Weeks, write: Numbers) -> Answered:
    """The answer as the page shows it.

    Parameters
    ----------
    answer : CapacityAnswer
    weeks : Weeks
    write : Numbers
    """
    if answer.proven:
        proof = _("That is proven: no other choice earns more.")
    else:
        most = write.money(answer.bound - answer.earned)
        proof = _("Time ran out before it was proven: another choice might earn up to %(most)s more.") % {"most": most}
    earned = _("Decided as below, what clients pay less what goes out comes to %(earned)s, wages not taken off.") % {
        "earned": write.money(answer.earned)
    }
    rows = []
    for use in answer.weeks:
        first = weeks.start + timedelta(weeks=use.week - 1)
        share = min(100, round(100 * use.used / use.days)) if use.days else 0
        worth = "" if use.one_more_day is None else write.money(use.one_more_day)
        on_top, done = (
            write.days(use.more) if use.more else "",
            tuple((job, write.in_working(words)) for job, words in done_in(answer, use.week)),
        )
        rows.append(
            (str(use.week), write.date(first), write.short(use.days), write.days(use.used), on_top, worth, share, done)
        )
    jobs: dict[str, list[str]] = {}
    for decision in answer.decisions:
        jobs.setdefault(decision.job, []).append(decision.reason)
    texts = tuple(one.sentence for one in answer.more)
    return Answered((earned, proof), texts, tuple(rows), tuple((name, tuple(texts)) for name, texts in jobs.items()))
