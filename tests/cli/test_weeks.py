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


def test_a_paper_is_written(run, tmp_path):
    said = run("weeks", "stair.toml", "--from", "2026-11-25", "--days", "4", "--count", 2, "--pdf", "weeks.pdf")
    assert "done in it" in said
    assert "Stair at the chapel cottage: " in said
    assert "fitting " in said
    assert (tmp_path / "weeks.pdf").read_bytes().startswith(b"%PDF")
    assert "can't be written" in run("weeks", "stair.toml", "--days", "4", "--pdf", "no-folder/weeks.pdf", code=1)


def test_what_can_not_be_done_and_what_is_no_number_of_days_are_said(run):
    assert "crew days are missing." in run("weeks", "stair.toml", "--days", "0", code=1)
    assert "'many' is no number of days" in run("weeks", "stair.toml", "--days", "4,many", code=2)


def test_overtime_and_hired_hands_are_said_to_be_worth_it_or_not(run):
    tight = ("weeks", "stair.toml", "--from", "2026-11-25", "--days", "0.5", "--count", 5)
    free = run(*tight, "--hire", "Dora: 5 at 0.01; 2026-12-07..2026-12-18", "--overtime", "2 at 9000")
    assert "Dora: worth having. " in free
    assert "overtime: not worth having. " in free
    assert "on top" in free
    short = run(
        "weeks", "stair.toml", "--from", "2026-11-25", "--days", "0", "--count", 8, "--hire", "Dora: 5 at 260 EUR"
    )
    assert "Dora: needed. " in short
    assert "on top" not in run(*tight)


@pytest.mark.parametrize(
    ("option", "text", "said"),
    [
        (
            "--hire",
            "5 at 260",
            "'5 at 260' can't be read; write days a week and the price of a day like Dora: 5 at 260",
        ),
        ("--hire", "Dora: 5", "can't be read"),
        ("--hire", ": 5 at 260", "can't be read"),
        ("--hire", "Dora: 0 at 260", "'0' is no number of days; write more than zero"),
        ("--hire", "Dora: -5 at 260", "'-5' is no number of days"),
        ("--hire", "Dora: NaN at 260", "'NaN' is no number of days"),
        ("--hire", "Dora: 1e9 at 260", "'1e9' is no number of days"),
        ("--hire", "Dora: 5 at -260", "'-260' is no price of a day; write it like"),
        ("--hire", "Dora: 5 at 260 USD", "'260 USD' is in USD and the book in EUR; write it in EUR"),
        ("--hire", "Dora: 5 at 260; soon", "'soon' is not a day"),
        ("--hire", "Dora: 5 at 260; 2026-12-18..2026-12-07", "the last day, 2026-12-07, is before the first"),
        ("--hire", "Dora: 5 at 260; 2026-12-12..2026-12-13", "the firm works on no day of these weeks"),
        ("--overtime", "many at 300", "'many' is no number of days"),
    ],
)
def test_days_on_top_that_can_not_be(run, option, text, said):
    assert said in run("weeks", "stair.toml", "--from", "2026-11-25", option, text, code=2)


def test_two_of_one_name(run):
    words = ("weeks", "stair.toml", "--from", "2026-11-25", "--hire", "Dora: 5 at 260", "--hire", "Dora: 1 at 200")
    assert "2 of them have this name; each needs its own" in run(*words, code=2)
