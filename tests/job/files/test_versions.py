"""Older documents brought up to date, one format at a time."""

import copy

import pytest

from rodbook.job.files import BOOK_CURRENT, CURRENT, parse_book, parse_job, sample_book_text, upgrade
from rodbook.job.files.versions import BOOK_STEPS, JOB_STEPS

OLD_JOB = """
format = 0
[job]
name = "An old one"
date = 2026-01-05
build_up = "inset"
[[openings]]
mark = "C1"
w = [842, 843, 843]
h = [2030, 2030, 2031]
"""


def test_there_is_a_step_from_every_older_format():
    assert sorted(JOB_STEPS) == list(range(CURRENT))
    assert sorted(BOOK_STEPS) == list(range(1, BOOK_CURRENT)), "the book came with format 1"


def test_readings_of_format_0_get_their_full_names():
    (opening,) = parse_job(OLD_JOB).openings
    assert opening.widths == (842, 843, 843)
    assert opening.heights == (2030, 2030, 2031)


def test_a_step_leaves_alone_what_it_does_not_expect(told):
    assert upgrade({"format": 0, "openings": 3}) == {"format": 1, "openings": 3}
    assert upgrade({"format": 0, "openings": [4, {"w": 1, "widths": 2}]})["openings"] == [4, {"w": 1, "widths": 2}]
    both = OLD_JOB + "widths = [842, 843, 843]\n"
    assert told(parse_job, both)[0].startswith("openings[1].w (C1): there is no 'w' here")


def test_what_is_handed_in_is_not_changed():
    raw = {"format": 0, "openings": [{"mark": "C1", "w": [1, 2, 3]}]}
    before = copy.deepcopy(raw)
    upgrade(raw)
    assert raw == before


def test_steps_run_one_after_the_other():
    steps = {
        0: lambda raw: {**raw, "walk": [*raw.get("walk", ()), "0 to 1"]},
        1: lambda raw: {**raw, "walk": [*raw.get("walk", ()), "1 to 2"]},
        2: lambda raw: {**raw, "walk": [*raw.get("walk", ()), "2 to 3"]},
    }
    assert upgrade({"format": 1}, steps=steps, current=3) == {"format": 3, "walk": ["1 to 2", "2 to 3"]}
    assert upgrade({"format": 0}, steps=steps, current=3)["walk"] == ["0 to 1", "1 to 2", "2 to 3"]
    assert upgrade({"format": 3}, steps=steps, current=3) == {"format": 3}


@pytest.mark.parametrize(
    ("raw", "line"),
    [
        ({}, "format: this is missing; add the line format = 1 above the first heading"),
        ({"format": 7}, "format: this file was written by a newer Rodbook (format 7; this one reads up to 1)"),
        (
            {"format": 10**9},
            "format: this file was written by a newer Rodbook (format of many digits; this one reads up to 1)",
        ),
        ({"format": "1"}, "format: this is not a whole number; write format = 1"),
        ({"format": True}, "format: this is not a whole number; write format = 1"),
        ({"format": -3}, "format: there never was a format -3; write format = 1"),
        ({"format": -(10**9)}, "format: there never was a format of that number; write format = 1"),
    ],
)
def test_a_format_that_can_t_be_read_is_told(told, raw, line):
    assert told(upgrade, raw) == [line]


def test_a_book_of_format_0_never_was(told):
    with_current = {"steps": BOOK_STEPS, "current": BOOK_CURRENT}
    assert told(upgrade, {"format": 0}, **with_current) == ["format: there never was a format 0; write format = 2"]


@pytest.mark.parametrize("zero", ["0", "0.0", '"0"', '"0 mm"', '"0,0"'])
def test_holes_of_depth_0_went_right_through_in_a_book_of_format_1(zero):
    """As they did then: 0 in the book, or nothing at all, is a hole through the board; any other depth stays."""
    old = sample_book_text().replace("format = 2", "format = 1").replace("\ndepth = 12\n", f"\ndepth = {zero}\n", 1)
    book, before = parse_book(old), parse_book(sample_book_text())
    assert before.fitting("screws from inside the box").depth == 12
    assert book.fitting("screws from inside the box").depth == "through"
    assert book.fitting("gas stay").depth == 12
    assert book.fitting("bar handle, 128").depth == "through"
    assert book.format == 2


def test_a_step_of_the_book_leaves_alone_what_it_does_not_expect():
    for fittings in (3, [4, {"depth": "deep"}, {"depth": True}, {"depth": 12}, {}]):
        assert upgrade({"format": 1, "fittings": fittings}, steps=BOOK_STEPS, current=2)["fittings"] == fittings


RIGHT = "(above 0, up to 200 mm); write millimetres, or through for a hole right through the board"


@pytest.mark.parametrize(
    ("depth", "said"),
    [
        ("0", f"0 mm is no depth of a hole {RIGHT}"),
        ("-1", f"-1 mm is no depth of a hole {RIGHT}"),
        ('"deep"', "'deep' is not a length; write millimetres, as in 842 or 842.5, or through"),
    ],
)
def test_what_is_no_depth_is_told(told, depth, said):
    text = sample_book_text().replace("\ndepth = 12\n", f"\ndepth = {depth}\n", 1)
    (line,) = told(parse_book, text)
    assert line == f"fittings[5].depth (screws from inside the box): {said}"
