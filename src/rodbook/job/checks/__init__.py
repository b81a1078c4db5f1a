"""What no single field can tell: readings against each other, names against the book, and the book against itself."""

from rodbook.job.checks.book import FITTING_SORTS, check_book, check_book_parts
from rodbook.job.checks.job import PART_KINDS, check_job, check_job_parts
from rodbook.job.checks.openings import LEAN_MM, SPREAD_MM, check_opening
from rodbook.job.checks.read import BookParts, Entries, JobParts

__all__ = [
    "FITTING_SORTS",
    "LEAN_MM",
    "PART_KINDS",
    "SPREAD_MM",
    "BookParts",
    "Entries",
    "JobParts",
    "check_book",
    "check_book_parts",
    "check_job",
    "check_job_parts",
    "check_opening",
]
