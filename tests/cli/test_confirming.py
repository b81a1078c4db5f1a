"""On the command line: a new firm's book, what nobody has confirmed in it, and confirming it."""

import pytest
from click.testing import CliRunner

from rodbook.cli import rodbook
from rodbook.job.confirming import unconfirmed
from rodbook.job.files import read_book


@pytest.fixture
def run():
    return CliRunner().invoke


def test_a_book_for_a_new_firm_asks_for_its_name(run, tmp_path):
    job = tmp_path / "job.toml"
    asked = run(rodbook, ["new", str(job), "--with-book"], input="Mill & Daughters\n")
    assert asked.exit_code == 0
    assert "The firm's name, as on every paper" in asked.output
    book = read_book(tmp_path / "book.toml")
    assert (book.firm.name, len(book.dates.crew)) == ("Mill & Daughters", 1)
    assert not any(board.offcuts or board.wanted for board in book.boards)


def test_a_sample_job_has_the_samples_book(run, tmp_path):
    assert run(rodbook, ["new", str(tmp_path / "job.toml"), "--sample", "stair", "--with-book"]).exit_code == 0
    assert not read_book(tmp_path / "book.toml").firm.confirmed


def test_what_is_not_confirmed_is_listed_and_confirmed_in_the_file(run, tmp_path):
    assert (
        run(rodbook, ["new", str(tmp_path / "job.toml"), "--with-book", "--firm", "Mill", "--locale", "de"]).exit_code
        == 0
    )
    path = tmp_path / "book.toml"
    waiting = len(unconfirmed(read_book(path)))
    listed = run(rodbook, ["confirm", str(path)])
    assert f"{waiting} not confirmed." in listed.output
    assert "46,50" in listed.output
    one = run(rodbook, ["confirm", str(path), "rates[1]"])
    assert one.output == f"1 confirmed in {path}; {waiting - 1} left.\n"
    assert "# --- hinges" in path.read_text("utf-8")
    twice = run(rodbook, ["confirm", str(path), "rates[1]"])
    assert "nothing that waits to be confirmed stands here" in str(twice.exception)
    assert run(rodbook, ["confirm", str(path), "--all"]).exit_code == 0
    assert run(rodbook, ["confirm", str(path)]).output == "Everything in it is confirmed.\n"


def test_a_price_says_what_it_rests_on_until_it_is_confirmed(run, tmp_path):
    job = tmp_path / "job.toml"
    assert run(rodbook, ["new", str(job), "--sample", "stair", "--with-book"]).exit_code == 0
    told = run(rodbook, ["price", str(job)]).output
    assert "that nobody has confirmed, the firm's name among them" in told
    written = run(rodbook, ["papers", str(job), "--out", str(tmp_path / "out"), "--seconds", "0.5"]).output
    assert "that nobody has confirmed, the firm's name among them; papers that leave the firm say so" in written
    assert run(rodbook, ["confirm", str(tmp_path / "book.toml"), "--all"]).exit_code == 0
    assert "nobody has confirmed" not in run(rodbook, ["price", str(job)]).output
