"""A job against another day's book on the command line."""

from __future__ import annotations

import pytest

from rodbook.job.files import sample_book_text, sample_text

DEARER = """
[[rates]]
name = "crew hour"
value = 41
unit = "currency/hour"
since = 2026-12-01
source = "own records"
"""
MADE = '[making]\n"lining leg" = "site-made"\n"trim leg" = "site-made"\n\n'


@pytest.fixture
def run(rodbook, monkeypatch, tmp_path):
    (tmp_path / "book.toml").write_text(sample_book_text() + DEARER, "utf-8")
    job = sample_text("stair")
    at = job.index("[[openings]]")
    (tmp_path / "stair.toml").write_text(job[:at] + MADE + job[at:], "utf-8")
    monkeypatch.chdir(tmp_path)

    def _run(*arguments, code=0):
        return rodbook("re-price", "stair.toml", *arguments, code=code)

    return _run


def test_what_moved_is_printed_and_written(run, tmp_path):
    out = run("--on", "2027-02-01", "--pdf", "re-price.pdf").out
    assert "more than it was priced at." in out
    assert "crew hour" in out
    assert "1 December 2026" in out
    assert (tmp_path / "re-price.pdf").read_bytes().startswith(b"%PDF")


def test_the_day_of_the_price_itself(run):
    assert "Nothing has moved" in run("--on", "2026-11-20").out


def test_days_that_can_not_be(run):
    assert run("--on", "soon", code=2).err == "--on: 'soon' is not a day; write it as 2026-12-01\n"
    assert "holds on 2020-01-01" in run("--on", "2020-01-01", code=2).err
