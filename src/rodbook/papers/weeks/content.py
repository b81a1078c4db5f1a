"""The crew's weeks over all jobs: what to make and what to buy, by week, and what one more day would earn. For the firm alone."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import timedelta
from pathlib import Path

from rodbook.job import Book
from rodbook.money import CapacityAnswer, Decision, JobWanted, WeekUse, WeekWork
from rodbook.papers.common.shared import Json, Pictures, Sheetful, firm_frame
from rodbook.papers.numbers import Numbers
from rodbook.papers.pictures.weeks import draw_weeks
from rodbook.plan import WeeksDecided

__all__ = ["done_in", "weeks_content"]

MOST_NAMED = 4
"""Jobs that are named in a paper's head; of more it says how many."""


def done_in(answer: CapacityAnswer, week: int) -> list[tuple[str, str]]:
    """What is ordered and done in a week, in words, by job.

    Parameters
    ----------
    answer : CapacityAnswer
    week : int

    Returns
    -------
    list of (str, str)
        The job, and what of it.
    """
    jobs: dict[str, list[WeekWork]] = {}
    for one in answer.work:
        if one.week == week:
            jobs.setdefault(one.job, []).append(one)
    return [(job, _words(work)) for job, work in jobs.items()]


def _words(work: Sequence[WeekWork]) -> str:
    ordered: dict[str, list[str]] = {}
    for one in work:
        if one.ordered:
            ordered.setdefault(one.way, []).append(one.task)
    texts = [f"order {', '.join(tasks)} ({way})" for way, tasks in ordered.items()]
    texts += [f"{one.task} {_days(one.days)}" for one in work if not one.ordered]
    return "; ".join(texts)


def _days(days: float) -> str:
    return "under 0.1" if days < 0.05 else f"{days:.1f}"


def weeks_content(book: Book, decided: WeeksDecided) -> Sheetful:
    """What stands on the paper.

    Parameters
    ----------
    book : Book
    decided : WeeksDecided
    """
    write = Numbers.of(book)
    pictures, answer, start = Pictures(write), decided.answer, decided.start
    names = [job.name for job in decided.wanted]
    about = [
        ["Jobs", ", ".join(names) if len(names) <= MOST_NAMED else f"{len(names)}, named below"],
        ["From", write.date(start)],
        ["To", write.date(start + timedelta(weeks=len(answer.weeks), days=-3))],
    ]
    if book.dates.crew:
        about.append(["Crew", ", ".join(one.name for one in book.dates.crew)])
    content: dict[str, Json] = {
        "frame": firm_frame(book, "Weeks", title="The crew’s weeks", day=decided.day, landscape=True),
        "about": about,
        "sentences": _sentences(answer, write),
        "picture": pictures.add(draw_weeks(answer.weeks, start, write)),
        "on_top": [one.sentence for one in answer.more],
        "weeks": [_week(use, decided, write) for use in answer.weeks],
        "jobs": [_job(job, answer, write) for job in decided.wanted],
        "decisions": [_decision(one) for one in answer.decisions],
        "rests": list(_RESTS),
    }
    return Sheetful(Path(__file__).with_name("weeks.typ"), content, pictures.files)


_INCOME = (
    "What clients pay is the price that was given, else the price as it stands, net of tax. Wages are paid whichever way it is "
    "decided, so they are not in what a way costs."
)
_PLACED = (
    "Crew days go into the weeks as early as they fit, and days of several people add up. What is ordered goes out in the first "
    "week of its job; fitting, which has measuring and taking in with it, is put behind its arrival where there is room. What "
    "else waits for what is not looked at here: dates are."
)
_RESTS = (_INCOME, _PLACED, "One more day in a week is valued by deciding everything anew with it.")


def _sentences(answer: CapacityAnswer, write: Numbers) -> Json:
    if answer.proven:
        proof = "That is proven: no other choice earns more."
    else:
        proof = f"It is not proven: another choice might earn up to {write.money(answer.bound - answer.earned)} more."
    values = {use.week: use.one_more_day for use in answer.weeks if use.one_more_day}
    if values:
        most = max(values.values())
        best = [str(week) for week, value in values.items() if value == most]
        worth = f"One more day would earn most in week{'s' * (len(best) > 1)} {', '.join(best)}: {write.money(most)}."
    elif any(use.one_more_day is None for use in answer.weeks):
        worth = "What one more day would earn was not asked."
    else:
        worth = "One more day in any week would earn nothing: there are days enough."
    earned = f"Decided as below, what clients pay less what goes out comes to {write.money(answer.earned)}, wages not taken off."
    return [earned, proof, worth]


def _week(use: WeekUse, decided: WeeksDecided, write: Numbers) -> Json:
    first = decided.start + timedelta(weeks=use.week - 1)
    share = write.percent(min(1.0, use.used / use.days)) if use.days else "–"
    return [
        str(use.week),
        write.date(first),
        write.short(use.days),
        write.days(use.used),
        share,
        *([write.days(use.more) if use.more else ""] if decided.answer.more else []),
        _worth(use, write),
        [f"{job}: {words}" for job, words in done_in(decided.answer, use.week)] or "nothing",
    ]


def _worth(use: WeekUse, write: Numbers) -> str:
    if use.one_more_day is None:
        return "not asked"
    answer = write.money(use.one_more_day)
    if use.at_least is not None and use.at_most is not None and use.at_most - use.at_least >= 1:
        answer += f", between {write.money(use.at_least)} and {write.money(use.at_most)}"
    return answer


def _job(job: JobWanted, answer: CapacityAnswer, write: Numbers) -> Json:
    first = min((task.first_week for task in job.tasks), default=1)
    last = max((task.last_week for task in job.tasks), default=1)
    days = sum(one.days for one in answer.work if one.job == job.name)
    taken = "left" if job.name in answer.left else "promised" if job.promised else "taken, may be left"
    return [job.name, f"{first} to {last}", write.money(job.income), taken, write.days(days)]


def _decision(one: Decision) -> Json:
    """Job, part, how it is done, its days, and why; the reason without what stands before it already."""
    if not one.task:
        return [one.job, "all of it", "left", "", one.reason]
    start = f"{one.task}: {one.way}"
    reason = one.reason.removeprefix(start).lstrip(":, ") if one.reason.startswith(start) else one.reason
    return [one.job, one.task, one.way, f"{one.crew_days:.1f}", f"{reason[:1].upper()}{reason[1:]}"]
