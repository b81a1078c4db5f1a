"""Papers worked out in full: names and bytes, nothing written."""

from __future__ import annotations

import re
from collections.abc import Callable, Collection, Iterator, Mapping, Sequence
from dataclasses import replace
from datetime import date as Date  # noqa: N812
from datetime import datetime

from rodbook.dates import Programme
from rodbook.errors import InputError
from rodbook.job import Book, Job
from rodbook.money import ChangeOrder, FirmIndex, QuotesHeld
from rodbook.papers.account.content import account_content
from rodbook.papers.basket.content import basket_content
from rodbook.papers.calendar_file import Edition, calendar_ended, calendar_file
from rodbook.papers.change.content import change_content
from rodbook.papers.common.shared import Json, Sheetful, writer
from rodbook.papers.dates.content import dates_content
from rodbook.papers.numbers import Numbers
from rodbook.papers.price.content import price_content
from rodbook.papers.quotes.content import quotes_content
from rodbook.papers.registry import Kind, file_names, paper_of
from rodbook.papers.repricing.content import repricing_content
from rodbook.papers.survey.content import blank_survey_content
from rodbook.papers.typeset import set_pdf, set_png
from rodbook.papers.weeks.content import weeks_content
from rodbook.plan import JobAccount, JobRepriced, Plan, Pricing, WeeksDecided

__all__ = [
    "OnPaper",
    "account_pdf",
    "basket_pdf",
    "change_pdf",
    "dates_bytes",
    "dates_pdf",
    "paper_bytes",
    "paper_file",
    "paper_pdf",
    "paper_png",
    "price_pdf",
    "price_png",
    "quotes_pdf",
    "repricing_pdf",
    "survey_sheet_pdf",
    "weeks_pdf",
]

type OnPaper = Callable[[str, int, int], None]
"""Told which paper is being made, how many are done and how many there are."""


def _in_words(value: Json, write: Numbers) -> Json:
    """What stands on a paper, its figures as the book writes them where that is not done yet."""
    if isinstance(value, str):
        return write.in_working(value)
    if isinstance(value, Mapping):
        return {name: _in_words(part, write) for name, part in value.items()}
    return [_in_words(part, write) for part in value] if isinstance(value, Sequence) else value


def _pdf(sheetful: Sheetful, write: Numbers, *, day: Date) -> bytes:
    content = {name: _in_words(part, write) for name, part in sheetful.content.items()}
    return set_pdf(replace(sheetful, content=content), day=day)


def _content(plan: Plan, name: str) -> Sheetful:
    """What stands on a paper that is typeset."""
    content = paper_of(name, Kind.PDF).content(plan)
    assert isinstance(content, Sheetful)
    return content


def paper_file(plan: Plan, name: str) -> bytes:
    """One paper as its file has it, a PDF or a table.

    Parameters
    ----------
    plan : Plan
    name : str
        Of its file, such as "summary.pdf".

    Raises
    ------
    InputError
        If there is no such paper.
    RenderError
        If it can't be typeset.
    """
    content = paper_of(name).content(plan)
    return content.encode() if isinstance(content, str) else _pdf(content, writer(plan), day=plan.job.job.date)


def paper_pdf(plan: Plan, name: str) -> bytes:
    """One paper as PDF.

    Parameters
    ----------
    plan : Plan
    name : str
        Such as "summary".

    Raises
    ------
    InputError
        If there is no such paper.
    RenderError
        If it can't be typeset.
    """
    return _pdf(_content(plan, name), writer(plan), day=plan.job.job.date)


def survey_sheet_pdf(job: Job, book: Book) -> bytes:
    """The survey sheet to fill in, as PDF; also of a job with nothing in it yet, or with faults.

    Parameters
    ----------
    job : Job
    book : Book

    Raises
    ------
    RenderError
        If it can't be typeset.
    """
    nothing_yet = Plan(job, book, (), None, (), (), None, (), (), ())
    return _pdf(blank_survey_content(nothing_yet), writer(nothing_yet), day=job.job.date)


def account_pdf(plan: Plan, result: JobAccount) -> bytes:
    """A job's account as PDF.

    Raises
    ------
    RenderError
        If it can't be typeset.
    """
    return _pdf(account_content(plan, result), writer(plan), day=plan.job.job.date)


def repricing_pdf(plan: Plan, result: JobRepriced) -> bytes:
    """A job as it was priced against another day, as PDF.

    Raises
    ------
    RenderError
        If it can't be typeset.
    """
    return _pdf(repricing_content(plan, result), writer(plan), day=plan.job.job.date)


def quotes_pdf(plan: Plan, held: QuotesHeld) -> bytes:
    """Workshops' quotes compared, as PDF.

    Raises
    ------
    RenderError
        If it can't be typeset.
    """
    return _pdf(quotes_content(plan, held), writer(plan), day=held.day)


def basket_pdf(book: Book, result: FirmIndex, jobs: Sequence[str], *, day: Date) -> bytes:
    """What the firm buys at the prices of its book through time, as PDF.

    Raises
    ------
    RenderError
        If it can't be typeset.
    """
    return _pdf(basket_content(book, result, jobs, day=day), Numbers.of(book), day=day)


def weeks_pdf(book: Book, decided: WeeksDecided) -> bytes:
    """The crew's weeks over all jobs, as PDF.

    Raises
    ------
    RenderError
        If it can't be typeset.
    """
    return _pdf(weeks_content(book, decided), Numbers.of(book), day=decided.day)


def change_pdf(plan: Plan, order: ChangeOrder) -> bytes:
    """A change of the job for the client, as PDF.

    Raises
    ------
    RenderError
        If it can't be typeset.
    """
    return _pdf(change_content(plan, order), writer(plan), day=plan.job.job.date)


def price_pdf(plan: Plan, pricing: Pricing) -> bytes:
    """The price for the client as PDF.

    Raises
    ------
    RenderError
        If it can't be typeset.
    """
    return _pdf(price_content(plan, pricing), writer(plan), day=plan.job.job.date)


def price_png(plan: Plan, pricing: Pricing, *, ppi: float = 110.0) -> list[bytes]:
    """The price for the client as pictures, one a page."""
    return list(set_png(price_content(plan, pricing), ppi=ppi))


def paper_png(plan: Plan, name: str, page: int = 1, *, ppi: float = 110.0) -> bytes:
    """One page of a paper as a picture.

    Parameters
    ----------
    plan : Plan
    name : str
        Such as "summary".
    page : int
        Counted from 1.
    ppi : float
        Points to the inch.

    Raises
    ------
    InputError
        If there is no such paper or page.
    RenderError
        If it can't be typeset.
    """
    pages = set_png(_content(plan, name), ppi=ppi)
    if not 1 <= page <= len(pages):
        raise InputError.at("page", "papers.no_such_page", name=name, last=len(pages), page=page)
    return pages[page - 1]


def paper_bytes(plan: Plan, on_progress: OnPaper | None = None) -> Iterator[tuple[str, bytes]]:
    """Every paper of a plan, one after another, as file name and bytes.

    Parameters
    ----------
    plan : Plan
    on_progress : OnPaper, optional
    """
    tell = on_progress or (lambda _what, _done, _total: None)
    files = file_names()
    for done, file in enumerate(files):
        tell(file, done, len(files))
        yield file, paper_file(plan, file)
    tell("papers", len(files), len(files))


def dates_pdf(programme: Programme, plans: Sequence[Plan]) -> bytes:
    """The paper of dates alone.

    Parameters
    ----------
    programme : Programme
    plans : sequence of Plan
        The jobs, in the programme's order.
    """
    return _pdf(dates_content(programme, plans), writer(plans[0]), day=plans[0].job.job.date)


def dates_bytes(
    programme: Programme,
    plans: Sequence[Plan],
    *,
    made: datetime,
    before: Callable[[str], bytes] = lambda _name: b"",
    given: Collection[str] = (),
) -> Iterator[tuple[str, bytes]]:
    """The paper of dates and the calendar files, as file names and bytes.

    Parameters
    ----------
    programme : Programme
    plans : sequence of Plan
        The jobs, in the programme's order.
    made : datetime
        When they are made, with its zone.
    before : callable
        The file of a name that was given out before; empty where there is none.
    given : collection of str
        Names of people's calendar files that were given out before; what is still to come in those of people who are not planned
        any more is called off.
    """
    edition = Edition(made)
    yield "dates.pdf", dates_pdf(programme, plans)
    yield "dates.ics", calendar_file(programme, edition, before=before("dates.ics"))
    taken: set[str] = set()
    for number, person in enumerate(programme.people, 1):
        name = re.sub(r"[^\w-]+", "-", person.name.lower()).strip("-") or str(number)
        if name in taken:
            name = f"{name}-{number}"
        taken.add(name)
        file = f"dates-{name}.ics"
        yield file, calendar_file(programme, edition, person=person.name, before=before(file))
    for file in sorted(set(given) - {f"dates-{name}.ics" for name in taken}):
        if ended := calendar_ended(before(file), made):
            yield file, ended
