"""The crew's weeks from the command line."""

import pytest

from rodbook.job.files import sample_book_text, sample_text


@pytest.fixture
def run(rodbook, monkeypatch, tmp_path):
    (tmp_path / "book.toml").write_text(sample_book_text(), "utf-8")
    (tmp_path / "stair.toml").write_text(sample_text("stair"), "utf-8")

    monkeypatch.chdir(tmp_path)

    def _run(*arguments, code=0):
        done = rodbook(*arguments, code=code)
        return " ".join((done.out + done.err).split())

    return _run


def test_weeks_reasons_and_proof_are_printed(run):
    said = run("weeks", "stair.toml", "stair.toml", "--from", "2026-11-25", "--days", "4,4,2", "--count", 4)
    assert "1, 23 November 2026 4" in said
    assert "4, 14 December 2026 2" in said
    assert "Stair at the chapel cottage (2)" in said
    assert "fitting: by the crew, the only way there is." in said
    assert "That is proven." in said


def test_what_can_not_be_done_and_what_is_no_number_of_days_are_said(run):
    assert "crew days are missing." in run("weeks", "stair.toml", "--days", "0", code=1)
    assert "'many' is no number of days" in run("weeks", "stair.toml", "--days", "4,many", code=2)
