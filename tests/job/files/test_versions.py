"""Older documents brought up to date, one format at a time."""

import copy

import pytest

from rodbook.job.files import CURRENT, parse_job, upgrade
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
    assert set(BOOK_STEPS) <= set(range(CURRENT))


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
    assert told(upgrade, {"format": 0}, steps=BOOK_STEPS) == ["format: there never was a format 0; write format = 1"]
