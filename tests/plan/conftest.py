"""The samples, planned once."""

import pytest

from rodbook.job import Book
from rodbook.job.files import parse_book, parse_job, sample_book_text, sample_text
from rodbook.plan import make_plan


@pytest.fixture(scope="session")
def book() -> Book:
    return parse_book(sample_book_text())


@pytest.fixture(scope="session")
def planned(book):
    known = {}

    def plan_of(name):
        if name not in known:
            known[name] = make_plan(parse_job(sample_text(name), book), book)
        return known[name]

    return plan_of
