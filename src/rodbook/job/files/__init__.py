"""Jobs, books and tables of openings in and out of files, and the samples that come with Rodbook."""

from typing import TYPE_CHECKING

from rodbook.late import late_face

if TYPE_CHECKING:
    from rodbook.job.files.actuals_file import parse_actuals, read_actuals
    from rodbook.job.files.blank_lists import blank_list
    from rodbook.job.files.book_prices import add_charges, add_prices
    from rodbook.job.files.documents import (
        make_job,
        parse_book,
        parse_job,
        parse_job_apart,
        parse_job_bytes,
        read_book,
        read_job,
        read_job_apart,
        text_in,
    )
    from rodbook.job.files.price_rows import price_rows
    from rodbook.job.files.rewriting import update_job
    from rodbook.job.files.sampled import sample_book, sample_job
    from rodbook.job.files.samples import new_book_text, sample_book_text, sample_names, sample_text
    from rodbook.job.files.schema import book_schema, job_schema
    from rodbook.job.files.tables import openings_from_rows, read_openings, read_openings_apart, write_openings_csv
    from rodbook.job.files.versions import BOOK_CURRENT, CURRENT, upgrade
    from rodbook.job.files.writing import new_job, write_job

__all__ = [
    "BOOK_CURRENT",
    "CURRENT",
    "add_charges",
    "add_prices",
    "blank_list",
    "book_schema",
    "job_schema",
    "make_job",
    "new_book_text",
    "new_job",
    "openings_from_rows",
    "parse_actuals",
    "parse_book",
    "parse_job",
    "parse_job_apart",
    "parse_job_bytes",
    "price_rows",
    "read_actuals",
    "read_book",
    "read_job",
    "read_job_apart",
    "read_openings",
    "read_openings_apart",
    "sample_book",
    "sample_book_text",
    "sample_job",
    "sample_names",
    "sample_text",
    "text_in",
    "update_job",
    "upgrade",
    "write_job",
    "write_openings_csv",
]

late_face(__name__)
