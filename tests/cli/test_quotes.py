"""Workshops' lists held against a job's order, from the command line."""

import pytest

from rodbook.job.files import parse_book, parse_job, sample_book_text, sample_text
from rodbook.plan import plan_parts


@pytest.fixture
def order():
    book = parse_book(sample_book_text())
    return plan_parts(parse_job(sample_text("stair"), book), book).schedule


@pytest.fixture
def run(rodbook, monkeypatch, tmp_path, order):
    (tmp_path / "book.toml").write_text(sample_book_text(), "utf-8")
    (tmp_path / "stair.toml").write_text(sample_text("stair"), "utf-8")
    lines = [f"{line.mark};{line.quantity};31,50" for line in order]
    (tmp_path / "mill.csv").write_text("\n".join(["mark;how many;each", *lines]), "utf-8")
    lines = [f"{line.mark};{line.quantity * 20}" for line in order[1:]]
    (tmp_path / "barn.csv").write_text("\n".join(["mark;amount", *lines]), "utf-8")

    monkeypatch.chdir(tmp_path)

    def _run(*arguments, code=0):
        done = rodbook(*arguments, code=code)
        return " ".join((done.out + done.err).split())

    return _run


def test_lists_are_compared_and_given_out_as_costs_least(run, order):
    said = run("quotes", "stair.toml", "mill.csv", "barn.csv", "--delivery", "mill=40", "--delivery", "barn=25")
    first, rest = order[0], order[1:]
    assert f"{first.mark} is missing: {first.quantity} × {first.part.kind}." in said
    assert f"Filled in at the best price of another: {first.mark}." in said
    assert "It is as ordered." in said
    together = 31.5 * first.quantity + 40 + 20 * sum(line.quantity for line in rest) + 25
    assert f"Given to mill and barn it costs {together:.2f} EUR" in said
    said = run("quotes", "stair.toml", "mill.csv", "barn.csv", "--trouble", "5000")
    assert "Give all of it to mill" in said


def test_a_paper_is_written_and_verdicts_are_printed(run, tmp_path):
    said = run("quotes", "stair.toml", "mill.csv", "barn.csv", "--until", "barn=2020-01-01", "--pdf", "quotes.pdf")
    assert "Left out: it was valid until 2020-01-01; ask again." in said
    assert "Take all of it from here" in said
    assert "Wrote quotes.pdf" in said
    assert (tmp_path / "quotes.pdf").read_bytes().startswith(b"%PDF")
    assert "can't be written" in run("quotes", "stair.toml", "mill.csv", "--pdf", "no-folder/quotes.pdf", code=1)


def test_what_comes_too_late_is_said(run):
    said = run("quotes", "stair.toml", "mill.csv", "--lead", "mill=15", "--needed", 12)
    assert "It takes 15 working days, 3 more than there are before the parts are needed." in said
    assert "Nobody quotes" in said


@pytest.mark.parametrize(
    ("arguments", "sentence"),
    [
        (("mill.csv", "--delivery", "bern=40"), "'bern' is none of the lists; there are mill"),
        (("mill.csv", "--delivery", "mill=-40"), "'-40' is below zero; write it like 48.00"),
        (("mill.csv", "--until", "mill=soon"), "'soon' is not a day"),
        (("mill.csv", "--until", "bern=2026-12-01"), "'bern' is none of the lists"),
        (("mill.csv", "--delivery", "mill=40 USD"), "--delivery: '40 USD' is in USD and the book in EUR"),
        (("mill.csv", "--trouble", "USD 4"), "--trouble: 'USD 4' is in USD and the book in EUR"),
        (("mill.csv", "mill.csv"), "two lists have the same name"),
        (("mill.csv", "--trouble", "much"), "'much' is no amount"),
        (("mill.csv", "--lead", "mill=1.5"), "'1.5' is no number of days; write a whole one"),
        (("book.toml",), "no row has headings for mark and amount"),
    ],
)
def test_what_does_not_do_is_said(run, arguments, sentence):
    assert sentence in run("quotes", "stair.toml", *arguments, code=2)
