"""The papers of one job as bytes: which there are, who may have them, and each kept for a while once it is made.

Nothing here may be called inside a transaction: typesetting takes a second, and a transaction holds the only write lock.
"""

from __future__ import annotations

import io
import threading
import zipfile
from collections import OrderedDict
from collections.abc import Callable

from rodbook.desk.models import Role
from rodbook.desk.platform.planning import shown_key
from rodbook.desk.platform.roles import may_see
from rodbook.errors import InputError
from rodbook.job import Book, Job
from rodbook.papers.common.shared import Content
from rodbook.papers.papers import paper_file as paper_made
from rodbook.papers.papers import survey_sheet_pdf
from rodbook.papers.registry import Paper, paper_of, papers
from rodbook.papers.workshop_order.content import order_content
from rodbook.plan import Plan

__all__ = [
    "BEFORE_ALL",
    "Kept",
    "is_priced",
    "kept_order",
    "order_pack",
    "paper_file",
    "papers_for",
    "sheet_file",
]

KEPT = 24
"""Papers kept in memory, the least lately used going first."""

_ON_THE_PAGE = ("enquiry", "to", "rows", "finish", "total", "confirm", "tolerances", "not_worked_out")
"""What the page of orders shows of the order; its drawings are left to the paper."""

BEFORE_ALL = "survey-blank.pdf"
"""The paper that there is before anything is measured: the survey sheet to fill in."""


def papers_for(role: str) -> tuple[Paper, ...]:
    """The papers that somebody may have, in the order in which they are made."""
    return tuple(paper for paper in papers() if may_see(role, *paper.shows))


def is_priced(paper: Paper) -> bool:
    """Whether it shows what not everybody may see: no phone keeps it."""
    return not may_see(Role.READER, *paper.shows)


class Kept[R]:
    """Answers kept by what they were made from; safe to be asked from several threads."""

    def __init__(self, most: int) -> None:
        """Keep at most so many."""
        self._lock = threading.Lock()
        self._most = most
        self._found: OrderedDict[tuple[str, str], R] = OrderedDict()

    def get(self, key: tuple[str, str], make: Callable[[], R]) -> R:
        """The answer that is kept, or a new one."""
        with self._lock:
            if key in self._found:
                self._found.move_to_end(key)
                return self._found[key]
        made = make()
        with self._lock:
            self._found[key] = made
            while len(self._found) > self._most:
                self._found.popitem(last=False)
        return made


_files: Kept[bytes] = Kept(KEPT)
_orders: Kept[Content] = Kept(KEPT)


def paper_file(plan: Plan, file: str) -> bytes:
    """One paper.

    Parameters
    ----------
    plan : Plan
        Whole where the paper needs layouts and costs.
    file : str
        Such as "summary.pdf".

    Raises
    ------
    InputError
        If there is no such paper, or if it needs layouts and costs that are not worked out.
    RenderError
        If it can't be typeset.
    """
    if paper_of(file).whole and plan.schedule and plan.money is None:
        raise InputError.at("paper", "desk.not_costed_yet")
    return _files.get((shown_key(plan.job, plan.book), file), lambda: paper_made(plan, file))


def sheet_file(job: Job, book: Book) -> bytes:
    """The survey sheet to fill in, whatever state the job is in.

    Raises
    ------
    RenderError
        If it can't be typeset.
    """
    return _files.get((shown_key(job, book), BEFORE_ALL), lambda: survey_sheet_pdf(job, book))


def order_pack(plan: Plan, role: str) -> bytes:
    """Every paper that somebody may have in one ZIP; the same plan gives the same bytes.

    Raises
    ------
    RenderError
        If a paper can't be typeset; there is then no pack.
    """
    day = plan.job.job.date
    out = io.BytesIO()
    with zipfile.ZipFile(out, "w", zipfile.ZIP_DEFLATED, compresslevel=6) as pack:
        for paper in papers_for(role):
            entry = zipfile.ZipInfo(paper.file, (max(day.year, 1980), day.month, day.day, 0, 0, 0))
            entry.compress_type = zipfile.ZIP_DEFLATED
            entry.create_system, entry.external_attr = 3, 0o644 << 16
            pack.writestr(entry, paper_file(plan, paper.file))
    return out.getvalue()


def kept_order(plan: Plan) -> Content:
    """What stands on the order to the workshop, as plain values; there is no price in it."""

    def make() -> Content:
        content = order_content(plan).content
        return {name: content[name] for name in _ON_THE_PAGE}

    return _orders.get((shown_key(plan.job, plan.book), "order"), make)
