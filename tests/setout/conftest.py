"""The sample book, and its build-ups changed a little."""

import tomllib
from importlib.resources import files

import pytest

from rodbook.job import Book, InsetBuildUp, LayOnBuildUp
from rodbook.setout import Stock


@pytest.fixture(scope="session")
def book() -> Book:
    return Book.model_validate(tomllib.loads((files("rodbook.job.samples") / "book.toml").read_text("utf-8")))


@pytest.fixture(scope="session")
def inset(book) -> InsetBuildUp:
    return book.build_up("inset, painted")


@pytest.fixture(scope="session")
def lay_on(book) -> LayOnBuildUp:
    return book.build_up("lay-on within trim, painted")


@pytest.fixture(scope="session")
def stock(book):
    def of(build_up) -> Stock:
        return Stock(
            book.board(build_up.leaf_board),
            book.board(build_up.lining_board),
            book.section(build_up.trim) if build_up.trim else None,
            book.hinge(build_up.hinge),
            book.hinge_counts,
        )

    return of
