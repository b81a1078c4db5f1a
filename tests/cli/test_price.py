"""A job's price from the command line: the firm's own view printed, the client's paper written."""

import pytest

from rodbook.job.files import sample_book_text, sample_text

TERMS = """
[price]
taxes = "with tax"
margin = "0.2"

[[price.extras]]
name = "Fitting"
hours = "8"

[[price.extras]]
name = "Mirror inside"
cost = "70"
option = true
"""


@pytest.fixture
def run(rodbook, monkeypatch, tmp_path):
    (tmp_path / "book.toml").write_text(sample_book_text(), "utf-8")

    monkeypatch.chdir(tmp_path)

    def _run(*arguments, code=0):
        done = rodbook(*arguments, code=code)
        return done.out + done.err

    return _run


def _job(folder, terms=TERMS):
    text = sample_text("stair")
    at = text.index("[[openings]]")
    (folder / "job.toml").write_text(f"{text[:at]}{terms.strip()}\n\n{text[at:]}", "utf-8")


def test_costs_earnings_taxes_and_options_are_printed(run, tmp_path):
    _job(tmp_path)
    done = run("price", "job.toml", "--paper", "price.pdf")
    assert "Margin 20.0% of the price, which is a mark-up of 25.0% on cost." in done
    assert "Fitting" in done
    assert "Option, Mirror inside: €87.50 net" in done
    assert "It holds until" in done
    assert (tmp_path / "price.pdf").read_bytes().startswith(b"%PDF")


def test_what_is_wrong_with_the_price_is_said_in_a_sentence(run, tmp_path):
    _job(tmp_path, TERMS.replace('"with tax"', '"no such"'))
    done = run("price", "job.toml", code=2)
    assert "no such" in done
    _job(tmp_path, TERMS.replace('"0.2"', '"1.2"'))
    assert "leaves nothing for the cost" in run("price", "job.toml", code=2)


def test_a_paper_that_can_not_be_written_is_said(run, tmp_path):
    _job(tmp_path)
    assert "can't be written" in run("price", "job.toml", "--paper", "none/p.pdf", code=1)
