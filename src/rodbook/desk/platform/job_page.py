"""What the pages of one job share: the folder, the job as it stands, its parts, and where it stands in words."""

from __future__ import annotations

from collections.abc import Iterable
from contextlib import suppress
from dataclasses import dataclass
from datetime import date as Date  # noqa: N812
from datetime import datetime
from functools import cached_property

from django.http import Http404, HttpRequest, HttpResponse
from django.shortcuts import get_object_or_404
from django.utils.functional import SimpleLazyObject
from django.utils.translation import gettext_lazy as lazy

from rodbook.desk.models import Folder, Kind, Revision
from rodbook.desk.platform import store
from rodbook.desk.platform.job_state import Standing, standing_of
from rodbook.desk.platform.planning import Work, brought_up, planner
from rodbook.errors import Fault, InputError
from rodbook.job import Book, Job
from rodbook.papers.numbers import Numbers
from rodbook.plan import Plan
from rodbook.plan.schedule.dates import wanted_by

__all__ = ["STAGES", "JobPage", "date_now", "job_page", "priced_paper", "read_base", "readable_pages"]

STAGES = (
    ("job", lazy("job")),
    ("openings", lazy("openings")),
    ("sizes", lazy("sizes")),
    ("parts", lazy("parts")),
    ("boards", lazy("boards")),
    ("make-or-buy", lazy("make or buy")),
    ("price", lazy("price")),
    ("orders", lazy("orders")),
    ("dates", lazy("dates")),
    ("papers", lazy("papers")),
    ("hours", lazy("hours")),
    ("account", lazy("account")),
    ("history", lazy("history")),
)
"""Pages of a job in its own order: the name of the address and the word on the rod."""

OWNERS = ("price", "account")
"""Stages that are for those alone who see prices."""


@dataclass(frozen=True)
class Older:
    """A whole plan as it was shown last.

    Parameters
    ----------
    plan : Plan
        With the job and the book that it was made from.
    job_number, book_number : int
        Their revisions.
    """

    plan: Plan
    job_number: int
    book_number: int


@dataclass(frozen=True)
class JobPage:
    """What every page of a job knows: the documents as they stand, and what is made of them once somebody looks at it.

    A request that answers with another address plans nothing, as nobody looks.

    Parameters
    ----------
    folder : Folder
    revision : Revision
        The newest.
    job : Job
    book : Book
    book_revision : Revision
    """

    folder: Folder
    revision: Revision
    job: Job
    book: Book
    book_revision: Revision

    @cached_property
    def _parts(self) -> Plan | InputError:
        try:
            return planner.parts(self.job, self.book)
        except InputError as error:
            return error

    @property
    def plan(self) -> Plan | None:
        """The plan as far as the parts; None where there are faults."""
        return self._parts if isinstance(self._parts, Plan) else None

    @property
    def faults(self) -> tuple[Fault, ...]:
        """Why there is no plan."""
        return self._parts.faults if isinstance(self._parts, InputError) else ()

    @cached_property
    def work(self) -> Work | None:
        """Layouts and costs, where somebody has asked for them; a plan that is done is remembered as the one shown last."""
        return self._asked(start=False)

    def _asked(self, *, start: bool) -> Work | None:
        if self.plan is None:
            return None
        work = planner.whole(self.job, self.book, start=start)
        if work is not None and work.plan is not None:
            shown = brought_up(work.plan, self.job, self.book)
            planner.remember(self._place, Older(shown, self.revision.number, self.book_revision.number))
        return work

    def begin(self) -> None:
        """Have layouts and costs worked out."""
        self.__dict__["work"] = self._asked(start=True)

    @cached_property
    def dates(self) -> Work | None:
        """The job's dates, where somebody has asked for them and it is laid out."""
        if self.work is None or self.work.plan is None:
            return None
        wanted = wanted_by(self.book, [self.job], today=date_now())
        return planner.dates([self.job], self.book, wanted, [self.work.plan], start=False)

    @cached_property
    def standing(self) -> Standing:
        """Where the job stands, in words."""
        programme = self.dates.programme if self.dates else None
        return standing_of(
            self.job, self.plan, self.faults, self.work, programme, today=date_now(), locale=self.book.locale
        )

    @property
    def _place(self) -> tuple[str, int]:
        """By what the planner remembers which plan was shown last."""
        return ("plan", self.folder.pk)

    @cached_property
    def older(self) -> Older | None:
        """What was shown before job or book changed, while the new plan is not done."""
        if self.whole is not None:
            return None
        result = planner.remembered(self._place)
        return result if isinstance(result, Older) else None

    @property
    def shown(self) -> Plan | None:
        """The whole plan where it is done, else the one that was shown last, which is older: to be read, not acted on."""
        return self.whole or (self.older.plan if self.older else None)

    @property
    def whole(self) -> Plan | None:
        """The whole plan, where it is done."""
        result = self.work.plan if self.work else None
        return None if result is None else brought_up(result, self.job, self.book)

    @property
    def missing(self) -> str:
        """Names of the openings and panels that stand aside, so that no total has them in it; empty where none does."""
        plan = self.whole or self.plan
        return ", ".join(one.name for one in plan.missing) if plan else ""

    def context(self, stage: str, **more: object) -> dict[str, object]:
        """What the templates need: this page, the stages, and more; where the job stands is found out here, not amid one."""
        _ = self.standing
        return self.bare_context(stage, **more)

    def bare_context(self, stage: str, **more: object) -> dict[str, object]:
        """What a template needs that does not show where the job stands."""
        return {
            "page": self,
            "job": self.job,
            "folder": self.folder,
            "stage": stage,
            "stages": STAGES,
            "owners": OWNERS,
            "written": SimpleLazyObject(lambda: Numbers.of(self.book)),  # from the book that is read already
            "base": self.revision.number,  # what a form on the page is filled in on; one with faults keeps its own
            **more,
        }


def job_page(pk: int, *, start: bool = False) -> JobPage:
    """Gather what every page of a job knows; begin layouts and costs where `start` says so."""
    folder = get_object_or_404(Folder, pk=pk, kind=Kind.JOB)
    revision, job = store.job_now(folder)
    _, book_revision, book = store.book_now()
    page = JobPage(folder, revision, job, book, book_revision)
    if start:
        page.begin()
    return page


def readable_pages(folders: Iterable[Folder]) -> list[JobPage]:
    """The pages of these jobs, but for those whose newest revision is damaged: those stand aside and the others go on."""
    results = []
    for folder in folders:
        with suppress(store.Unreadable):
            results.append(job_page(folder.pk))
    return results


def date_now() -> Date:
    """Today."""
    return datetime.now().astimezone().date()


def priced_paper(content: bytes, name: str) -> HttpResponse:
    """A paper that shows prices, to be taken away; no phone keeps it."""
    reply = HttpResponse(content, content_type="application/pdf")
    reply["Content-Disposition"] = f'attachment; filename="{name}.pdf"'
    reply["Cache-Control"] = "no-store"
    return reply


def read_base(request: HttpRequest) -> int:
    """Number of the revision that a form was filled in on.

    Raises
    ------
    Http404
        If the form did not say.
    """
    value = request.POST.get("base", "")
    if not value.isdecimal() or len(value) > 9:
        raise Http404
    return int(value)
