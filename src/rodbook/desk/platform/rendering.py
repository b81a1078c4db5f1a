"""The papers of one job as bytes: which there are, who may have them, and each kept for a while once it is made.

Nothing here may be called inside a transaction: typesetting takes a second, and a transaction holds the only write lock.
"""

from __future__ import annotations

import io
import threading
import zipfile
from collections import OrderedDict
from collections.abc import Callable
from dataclasses import dataclass

from django.utils.translation import gettext_lazy as lazy

from rodbook.desk.models import Role
from rodbook.desk.platform.planning import shown_key
from rodbook.desk.platform.roles import may_see
from rodbook.errors import InputError
from rodbook.job import Book, Job
from rodbook.papers.content import Content, order_content
from rodbook.papers.papers import PAPERS, paper_pdf, survey_sheet_pdf
from rodbook.papers.tables import borings_csv, parts_csv
from rodbook.plan import Plan

__all__ = [
    "BEFORE_ALL",
    "Kept",
    "Paper",
    "kept_order",
    "order_pack",
    "paper_file",
    "papers_for",
    "sheet_file",
    "the_paper",
]

KEPT = 24
"""Papers kept in memory, the least lately used going first."""

_ON_THE_PAGE = ("enquiry", "to", "rows", "finish", "total", "confirm", "tolerances", "not_worked_out")
"""What the page of orders shows of the order; its drawings are left to the paper."""

BEFORE_ALL = "survey-blank.pdf"
"""The paper that there is before anything is measured: the survey sheet to fill in."""

_TABLES: dict[str, Callable[[Plan], str]] = {"parts.csv": parts_csv, "borings.csv": borings_csv}


@dataclass(frozen=True)
class Paper:
    """One paper that can be taken away.

    Parameters
    ----------
    file : str
        Name of its file.
    title : str
        What it is called.
    purpose : str
        What it is for, in one line.
    shows : tuple of str
        Fields on it that not everybody may see, by their paths in the table of roles.
    whole : bool
        Whether it needs layouts and costs; else the parts are enough.
    """

    file: str
    title: str
    purpose: str
    shows: tuple[str, ...] = ()
    whole: bool = False

    @property
    def priced(self) -> bool:
        """Whether it shows what not everybody may see: no phone keeps it."""
        return not may_see(Role.READER, *self.shows)

    @property
    def kind(self) -> str:
        """PDF or CSV."""
        return self.file.rpartition(".")[2].upper()


_ALL = (
    Paper("summary.pdf", lazy("Summary"), lazy(
        "The whole job on one page, with what it costs; for the "
        "firm's own eyes."),
          shows=("plan.money", "plan.materials.cost"), whole=True),
    Paper("survey.pdf", lazy("Survey"), lazy(
        "Every opening's readings and the shape that they make, what "
        "checks each, and which to take again; for whoever measured.")),
    Paper("survey-blank.pdf", lazy("Survey, to fill in"), lazy(
        "Boxes for each reading and where to take it; goes to the site with pencil and tape.")),
    Paper("openings.pdf", lazy("Openings"), lazy(
        "What was measured, the size that goes in, and how each "
        "opening is packed or framed; goes to the site.")),
    Paper("packers.pdf", lazy("Packers"), lazy(
        "What packs each lining at every fixing, and how sure that is; goes to whoever fixes it.")),
    Paper("parts-schedule.pdf", lazy("Parts schedule"), lazy(
        "Every distinct part with its size and the working behind "
        "it; stays at the bench.")),
    Paper("leaves.pdf", lazy("Leaves"), lazy(
        "How each leaf opens and against what, what its hinges carry "
        "and what damp does to its margin; looked at before boring.")),
    Paper("workshop-order.pdf", lazy("Workshop order"), lazy(
        "What is bought in, drawn and bored, without a price; goes "
        "to the workshop."), whole=True),
    Paper("site-parts.pdf", lazy("Parts made on site"), lazy(
        "What the firm makes itself, drawn and bored as an ordered "
        "part is; goes to the bench."), whole=True),
    Paper("layouts.pdf", lazy("Layouts"), lazy(
        "Each sheet and length with its cuts in order, and what the "
        "material costs; goes to the saw."), shows=("plan.materials.cost",), whole=True),
    Paper("parts.csv", lazy("Parts as a table"), lazy("One part a line, for a spreadsheet.")),
    Paper("borings.csv", lazy("Holes as a table"), lazy(
        "One hole a line from its datum, for a spreadsheet or a "
        "machine.")),
)  # fmt: skip


def papers_for(role: str) -> tuple[Paper, ...]:
    """The papers that somebody may have, in the order in which they are made."""
    allowed = [paper for paper in _ALL if may_see(role, *paper.shows)]
    return tuple(sorted(allowed, key=lambda paper: PAPERS.index(paper.file)))


def the_paper(file: str) -> Paper | None:
    """The paper of that file name; None where there is none."""
    return next((paper for paper in _ALL if paper.file == file), None)


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
    paper = the_paper(file)
    if paper is None:
        raise InputError.at("paper", "desk.no_paper", file=file)
    if paper.whole and plan.schedule and plan.money is None:
        raise InputError.at("paper", "desk.layouts_costs_not_worked_out")

    def make() -> bytes:
        return _TABLES[file](plan).encode() if file in _TABLES else paper_pdf(plan, file.removesuffix(".pdf"))

    return _files.get((shown_key(plan.job, plan.book), file), make)


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
