"""A job's account on the command line."""

from __future__ import annotations

import pytest

from rodbook.job.files import sample_book_text, sample_text

TOOK = """
[[hours]]
day = 2026-11-24
person = "Anna"
task = "size a part"
hours = 1.5
done = 18

[[hours]]
day = 2026-11-24
person = "Ben"
task = "size a part"
hours = 8
done = 4

[[invoices]]
supplier = "Quarry Lane Workshop"
number = "77"
day = 2026-11-25
currency = "EUR"
lines = [{ what = "Quarry Lane Workshop", amount = "690.00" }]
"""


@pytest.fixture
def run(rodbook, monkeypatch, tmp_path):
    (tmp_path / "book.toml").write_text(sample_book_text(), "utf-8")
    (tmp_path / "stair.toml").write_text(sample_text("stair"), "utf-8")
    monkeypatch.chdir(tmp_path)

    def _run(*arguments, code=0):
        return rodbook("account", "stair.toml", *arguments, code=code)

    return _run


def test_what_is_left_is_printed_and_written(run, tmp_path):
    (tmp_path / "stair.actuals.toml").write_text(TOOK, "utf-8")
    out = run("--pdf", "account.pdf").out
    assert "€1,051.00" in out  # 9.5 hours at 38.00, and 690.00
    assert "with 1 entry it comes to 4.18" in " ".join(out.split())
    assert "120 minutes each where 4 are usual" in out
    assert (tmp_path / "account.pdf").read_bytes().startswith(b"%PDF")


def test_a_file_that_is_not_there_or_at_fault(run, tmp_path):
    assert "there is no file 'stair.actuals.toml'" in run(code=1).err
    (tmp_path / "stair.actuals.toml").write_text(TOOK.replace("hours = 8", "hours = -8"), "utf-8")
    assert "hours[2].hours: -8 won't do" in run(code=2).err
    assert "this is a job or a book" in run("--actuals", "book.toml", code=2).err
