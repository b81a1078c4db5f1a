"""Every paper there is: what it is called, for whom it is, who may see it, what stands on it. A new one is one line here.

Papers of a plan are made by `rodbook papers`, stand on the desk's page of papers and go into the pack by being in this list.
Papers that rest on more than a plan (a price asked for, a quote) are made by commands and pages of their own.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator
from contextlib import contextmanager
from dataclasses import dataclass
from enum import StrEnum

from rodbook.errors import InputError
from rodbook.papers.common.shared import Sheetful
from rodbook.papers.layouts.content import layouts_content
from rodbook.papers.leaves.content import leaves_content
from rodbook.papers.openings.content import openings_content
from rodbook.papers.parts_schedule.content import parts_content
from rodbook.papers.site_parts.content import site_parts_content
from rodbook.papers.sizes.content import sizes_content
from rodbook.papers.summary.content import summary_content
from rodbook.papers.survey.content import blank_survey_content, packers_content, survey_content
from rodbook.papers.tables import borings_csv, parts_csv
from rodbook.papers.workshop_order.content import order_content
from rodbook.plan import Plan
from rodbook.plan.analyses.unconfirmed import PaperFor
from rodbook.wording import marked

__all__ = ["Kind", "Paper", "file_names", "paper_of", "papers", "registered"]


class Kind(StrEnum):
    """What sort of file a paper is."""

    PDF = "pdf"
    CSV = "csv"


@dataclass(frozen=True)
class Paper:
    """One paper of a plan.

    Parameters
    ----------
    name : str
        Of its file, without what it ends in.
    title : str
        What it is called; English, to be translated where it is shown.
    purpose : str
        What it is for and to whom it goes, in one line.
    content : callable
        What stands on it: of a PDF a `Sheetful`, of a table its text.
    kind : Kind
    shows : tuple of str
        Fields on it that not everybody may see, by their paths in the table of roles.
    whole : bool
        Whether it needs layouts and costs; else the parts are enough.
    leaves_to : PaperFor, optional
        Who outside the firm gets it: it is asked first whether the figures hold that it rests on.
    """

    name: str
    title: str
    purpose: str
    content: Callable[[Plan], Sheetful | str]
    kind: Kind = Kind.PDF
    shows: tuple[str, ...] = ()
    whole: bool = False
    leaves_to: PaperFor | None = None

    @property
    def file(self) -> str:
        """Name of its file."""
        return f"{self.name}.{self.kind}"


_PAPERS: list[Paper] = [
    Paper(
        "summary",
        marked("Summary"),
        marked("The whole job on one page, with what it costs; for the firm's own eyes."),
        summary_content,
        shows=("plan.money", "plan.materials.cost"),
        whole=True,
    ),
    Paper(
        "survey",
        marked("Survey"),
        marked(
            "Every opening's readings and the shape that they make, what checks each, and which to take again; "
            "for whoever measured."
        ),
        survey_content,
    ),
    Paper(
        "survey-blank",
        marked("Survey, to fill in"),
        marked("Boxes for each reading and where to take it; goes to the site with pencil and tape."),
        blank_survey_content,
    ),
    Paper(
        "openings",
        marked("Openings"),
        marked("What was measured, the size that goes in, and how each opening is packed or framed; goes to the site."),
        openings_content,
    ),
    Paper(
        "packers",
        marked("Packers"),
        marked("What packs each lining at every fixing, and how sure that is; goes to whoever fixes it."),
        packers_content,
    ),
    Paper(
        "sizes",
        marked("Sizes"),
        marked(
            "Which sizes serve which openings, and what a size more or fewer would do to the packers; for the firm's own eyes."
        ),
        sizes_content,
    ),
    Paper(
        "parts-schedule",
        marked("Parts schedule"),
        marked("Every distinct part with its size and the working behind it; stays at the bench."),
        parts_content,
    ),
    Paper(
        "leaves",
        marked("Leaves"),
        marked(
            "How each leaf opens and against what, what its hinges carry and what damp does to its margin; "
            "looked at before boring."
        ),
        leaves_content,
    ),
    Paper(
        "workshop-order",
        marked("Workshop order"),
        marked("What is bought in, drawn and bored, without a price; goes to the workshop."),
        order_content,
        whole=True,
        leaves_to=PaperFor.SUPPLIER,
    ),
    Paper(
        "site-parts",
        marked("Parts made on site"),
        marked("What the firm makes itself, drawn and bored as an ordered part is; goes to the bench."),
        site_parts_content,
        whole=True,
    ),
    Paper(
        "layouts",
        marked("Layouts"),
        marked("Each sheet and length with its cuts in order, and what the material costs; goes to the saw."),
        layouts_content,
        shows=("plan.materials.cost",),
        whole=True,
    ),
    Paper(
        "parts",
        marked("Parts as a table"),
        marked("One part a line, for a spreadsheet."),
        parts_csv,
        kind=Kind.CSV,
    ),
    Paper(
        "borings",
        marked("Holes as a table"),
        marked("One hole a line from its datum, for a spreadsheet or a machine."),
        borings_csv,
        kind=Kind.CSV,
    ),
]


def papers() -> tuple[Paper, ...]:
    """All papers of a plan, in the order in which they are made."""
    return tuple(_PAPERS)


def file_names() -> tuple[str, ...]:
    """Names of their files, in that order."""
    return tuple(paper.file for paper in _PAPERS)


def paper_of(name: str, kind: Kind | None = None) -> Paper:
    """One of them.

    Parameters
    ----------
    name : str
        Of its file; of the paper alone where the kind is given.
    kind : Kind, optional

    Raises
    ------
    InputError
        If there is no such paper.
    """
    file = f"{name}.{kind}" if kind else name
    result = next((paper for paper in _PAPERS if paper.file == file), None)
    if result is None:
        raise InputError.at("paper", "papers.unknown_paper", name=name, names=[paper.name for paper in _PAPERS])
    return result


@contextmanager
def registered(paper: Paper) -> Iterator[None]:
    """Have one paper more for a while: what is tried out in a notebook or a test."""
    _PAPERS.append(paper)
    try:
        yield
    finally:
        _PAPERS.remove(paper)
