"""Rodbook: a joiner's rod that works out every part, boring, layout, cost and paper from one setting-out.

From Python::

    import rodbook

    book = rodbook.read_book("book.toml")
    plan = rodbook.plan_job(rodbook.read_job("job.toml", book), book)
    plan.opening("C1").set_out.outer_width.working()   # how a size came about
    plan.parts                                         # records, as a data frame takes them
    rodbook.price_job(plan).price.gross
    rodbook.draw_opening(plan, "C1")                   # an elevation, shown by a notebook
    rodbook.write_papers(plan, "papers")

Lengths are millimetres, money is `decimal.Decimal`. Whatever is wrong with what was given raises `InputError`, whose `faults`
hold everything that was found, each with its place. `docs/python.md` has examples that are run with the tests.
"""

from __future__ import annotations

from importlib import import_module
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from rodbook.errors import Fault, Infeasible, InputError, RodbookError, StoreError
    from rodbook.job import Book, Job, Opening
    from rodbook.job.files import read_book, read_job, sample_book, sample_job
    from rodbook.papers import draw_opening, write_papers
    from rodbook.plan import OpeningPlan, Plan, Pricing, price_job
    from rodbook.plan import make_plan as plan_job
    from rodbook.working import Measure

__all__ = [
    "Book", "Fault", "Infeasible", "InputError", "Job", "Measure", "Opening", "OpeningPlan", "Plan", "Pricing",
    "RodbookError", "StoreError", "__version__", "draw_opening", "plan_job", "price_job", "read_book", "read_job",
    "sample_book", "sample_job", "write_papers",
]  # fmt: skip

__version__ = "0.1.0"

_WHERE = {
    **dict.fromkeys(("Fault", "Infeasible", "InputError", "RodbookError", "StoreError"), "rodbook.errors"),
    **dict.fromkeys(("Book", "Job", "Opening"), "rodbook.job"),
    **dict.fromkeys(("read_book", "read_job", "sample_book", "sample_job"), "rodbook.job.files"),
    **dict.fromkeys(("OpeningPlan", "Plan", "Pricing", "price_job", "make_plan"), "rodbook.plan"),
    **dict.fromkeys(("draw_opening", "write_papers"), "rodbook.papers"),
    "Measure": "rodbook.working",
}
"""Where each name lives; it is loaded when it is first asked for, so that the command line starts at once."""

_CALLED = {"plan_job": "make_plan"}
"""Names that are another one where they live."""


def __getattr__(name: str) -> object:
    own = _CALLED.get(name, name)
    if name not in __all__ or own not in _WHERE:
        raise AttributeError(f"rodbook has no {name!r}; it has {', '.join(__all__)}")
    found: object = getattr(import_module(_WHERE[own]), own)
    globals()[name] = found
    return found


def __dir__() -> list[str]:
    return sorted(__all__)
