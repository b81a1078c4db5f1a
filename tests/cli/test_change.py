"""A change by the client on the command line."""

from __future__ import annotations

import json
from decimal import Decimal

import pytest

from rodbook.job.files import sample_text

TEXT = sample_text("stair")
AT, UNTIL = TEXT.index('[[openings]]\nmark = "S3"'), TEXT.index("[[panels]]")


@pytest.fixture
def run(rodbook, monkeypatch, tmp_path):
    """The command with a job of two openings as it was agreed, and of three as it is wanted."""
    (tmp_path / "agreed.toml").write_text(TEXT[:AT] + TEXT[UNTIL:], "utf-8")
    (tmp_path / "wanted.toml").write_text(TEXT, "utf-8")
    monkeypatch.chdir(tmp_path)

    def _run(*arguments, code=0):
        return rodbook("change", *arguments, "--seconds", "2", code=code)

    return _run


def test_what_it_costs_what_to_ask_and_what_it_does_to_the_job(run, tmp_path):
    out = run("agreed.toml", "wanted.toml", "--what", "the low cupboard too", "--paper", "change.pdf").out
    assert "door: 1 new, bought in: " in out
    assert "Net is cost with overhead of " in out
    assert "Ask the client for " in out
    assert " if the price stays as it is." in out
    assert "Hand-over, nine in ten by: " in out
    assert (tmp_path / "change.pdf").read_bytes().startswith(b"%PDF")


def test_as_json_each_sum_adds_up(run):
    found = json.loads(run("agreed.toml", "wanted.toml", "--json").out)
    price, effect = found["change"]["price"], found["effect"]
    assert sum(Decimal(line["net"]) for line in price["lines"]) == Decimal(price["net"])
    assert Decimal(effect["net_before"]) + Decimal(price["net"]) == Decimal(effect["net_after"])
    spent = Decimal(price["cost"]) + Decimal(price["overhead"]) + Decimal(price["contingency"])
    assert Decimal(effect["earned_before"]) - spent == Decimal(effect["earned_unpaid"])
    assert Decimal(effect["margin_unpaid"]) < Decimal(effect["margin_before"])
    assert set(found["hand_over"]) == {"without", "with"}


def test_what_is_made_already_is_not_given_back(run):
    out = run("wanted.toml", "agreed.toml", "--made", "all").out
    assert "it is made already, so nothing is saved" in out
    assert "There is nothing to ask the client for, and nothing to give back." in out


def test_what_is_not_made_is_given_back(run):
    assert "The client pays less by " in run("wanted.toml", "agreed.toml", "--made", "door, panel").out


def test_a_book_without_people_plans_no_hand_over(run, tmp_path):
    from rodbook.job.files import sample_book_text

    book = sample_book_text()
    at = book.index("crew = [")
    (tmp_path / "book.toml").write_text(book[:at] + book[book.index("]\n\n", at) + 2 :], "utf-8")
    out = " ".join(run("agreed.toml", "wanted.toml").out.split())
    assert "The hand-over is not planned: dates: the book names nobody who works" in out


def test_what_can_not_be(run, tmp_path):
    assert run("wanted.toml", "wanted.toml", code=2).err == (
        "change: the two plans are the same, so there is nothing to be priced\n"
    )
    said = run("agreed.toml", "wanted.toml", "--made", "dor", code=2).err
    assert said == "--made: no part is a 'dor'; did you mean door?\n"
    assert run("agreed.toml", "wanted.toml", "--what", " ", code=2).err.startswith("--what: say in a line")
    assert "nowhere.toml" in run("nowhere.toml", "wanted.toml", code=1).err
    (tmp_path / "broken.toml").write_text("format = ", "utf-8")
    assert "broken.toml" in run("agreed.toml", "broken.toml", code=2).err
    assert "can't be written" in run("agreed.toml", "wanted.toml", "--paper", "no/such/change.pdf", code=1).err
