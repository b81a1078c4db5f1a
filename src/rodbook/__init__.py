"""Rodbook: a joiner's rod that works out every part, boring, layout, cost and paper from one setting-out.

From Python, in the order of the work:

1. The firm's standing figures: `book = rodbook.read_book("book.toml")`, or `rodbook.sample_book()`, all of it invented.
2. The job: `rodbook.read_job("job.toml", book)`, or `rodbook.make_job({...}, book)` from plain values, as a spreadsheet
   gives them. What may stand in both is in `docs/job-file.md`.
3. The plan, everything that follows from the two: `plan = rodbook.plan_job(job, book, outlook=True)`.
4. What one looks at::

       plan                                              # in a notebook: every part, as a table
       plan.parts                                        # records, as a data frame takes them
       plan.opening("C1").packers                        # of one opening: packers, survey, set_out
       print(plan.opening("C1").set_out.outer_width.working())   # how a size came about
       plan.materials                                    # sheets and lengths, and how they are laid out
       plan.aside                                        # what can't be built as asked, with its faults
       rodbook.draw_opening(plan, "C1")                  # an elevation, as a picture
       rodbook.draw_layout(plan, 1)                      # how a sheet is cut, as a picture

5. What one gives to others: `rodbook.price_job(plan)` (its `left_out` says what is not in the price), and
   `rodbook.write_papers(plan, "papers")`.

Try it on `rodbook.sample_job("stair")`. A size is a `Measure`: `value` is the number and `working()` says how it came about.
Lengths are millimetres and money is `decimal.Decimal`. The same job, book and `seconds` give the same plan. Whatever is wrong
with what was given raises `InputError`, whose `faults` hold everything that was found, each with its place; all that Rodbook
raises on purpose is a `RodbookError`.

`docs/python.md` and the notebook `examples/from_readings_to_layout.py` show it at work; both are run with the tests.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from rodbook.late import late_face

if TYPE_CHECKING:
    from rodbook.errors import Fault, Infeasible, InputError, RodbookError, StoreError
    from rodbook.job import Book, Job, Opening
    from rodbook.job.files import make_job, read_book, read_job, sample_book, sample_job
    from rodbook.papers import Drawn, draw_layout, draw_opening, write_papers
    from rodbook.plan import OpeningPlan, Plan, Pricing, price_job
    from rodbook.plan import make_plan as plan_job
    from rodbook.working import Measure

__all__ = [
    "Book",
    "Drawn",
    "Fault",
    "Infeasible",
    "InputError",
    "Job",
    "Measure",
    "Opening",
    "OpeningPlan",
    "Plan",
    "Pricing",
    "RodbookError",
    "StoreError",
    "__version__",
    "draw_layout",
    "draw_opening",
    "make_job",
    "plan_job",
    "price_job",
    "read_book",
    "read_job",
    "sample_book",
    "sample_job",
    "write_papers",
]

__version__ = "0.1.0"

late_face(__name__)
