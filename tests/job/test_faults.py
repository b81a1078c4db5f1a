"""A model library's complaints in the trade's words."""

import datetime

import pytest
from pydantic import ValidationError

from rodbook.job import Book, Job, Opening
from rodbook.job.actuals import Hours
from rodbook.job.book import Price, TaxLine, WorkshopRates
from rodbook.job.faults import faults_of, loose_faults, nearest, place
from rodbook.job.models import PriceExtra, PriceTerms
from rodbook.wording import one_line

SOUND = {"mark": "C1", "widths": [840, 840, 840], "heights": [2000, 2000, 2000]}
HEADER = {"name": "x", "date": datetime.date(2026, 1, 1), "build_up": "inset"}


def lines(model, raw):
    with pytest.raises(ValidationError) as caught:
        model.model_validate(raw)
    return [str(fault) for fault in faults_of(caught.value, model, raw)]


@pytest.mark.parametrize(
    ("change", "sentence"),
    [
        ({"hand": "lft"}, "hand: 'lft' is not known here; did you mean left?"),
        ({"hand": 7}, "hand: 7 is not known here; use one of: left, right"),
        ({"state": None}, "state: nothing is not known here; use one of: standing, planned"),
        ({"leaves": 5}, "leaves: 5 won't do; it has to be at most 4"),
        ({"leaves": 1.5}, "leaves: 1.5 is not a whole number"),
        ({"leaves": "many"}, "leaves: 'many' is not a whole number"),
        ({"leaves": []}, "leaves: a list is not a whole number"),
        ({"sill": "perhaps"}, "sill: 'perhaps' is neither true nor false"),
        ({"mark": ""}, "mark: this is empty; write a name"),
        ({"mark": 5}, "mark: 5 is not text; put it in quotation marks"),
        ({"mark": True}, "mark: true is not text; put it in quotation marks"),
        ({"mark": "x" * 81}, "mark: this text is longer than 80 characters"),
        ({"room": datetime.date(2026, 1, 2)}, "room: 2026-01-02 is not text; put it in quotation marks"),
        ({"room": "\ud800"}, "room: '\\ud800' has a character that no text can have"),
        ({"room": {"a": 1}}, "room: a group of names and values is not text; put it in quotation marks"),
        ({"widths": 840}, "widths: 840 is not a list; write it in square brackets"),
        ({"widths": [840]}, "widths: 1 value stands here; 3 are needed"),
        ({"widths": []}, "widths: 0 values stand here; 3 are needed"),
        (
            {"widths": [842, 5, 843, 844]},
            "widths: 4 values stand here; at most 3 fit; decimals take a point, as in 842.5",
        ),
        (
            {"widths": [84, 840, 840]},
            "widths: 84 mm is less than the smallest opening, 150 mm; did you mean 840?",
        ),
        (
            {"heights": [20300, 2030, 2030]},
            "heights: 20300 mm is more than the largest opening, 6000 mm; did you mean 2030?",
        ),
        ({"heights": ["wide", 2000, 2000]}, "heights: 'wide' is not a length; write millimetres, as in 842 or 842.5"),
        ({"diagonals": [100, 2000]}, "diagonals: 100 won't do; it has to be more than 150"),
        ({"depth": -3}, "depth: -3 won't do; it has to be more than 0"),
        ({"widht": 3}, "widht: there is no 'widht' here; did you mean widths?"),
    ],
)
def test_a_fault_in_an_opening_is_one_sentence(change, sentence):
    assert lines(Opening, {**SOUND, **change}) == [sentence]


def test_what_is_missing_is_named_by_what_it_is_for():
    assert lines(Opening, {}) == ["mark: this is missing: its name on the plan and on every label, such as C3"]
    assert lines(Job, {}) == ["job: this is missing: who it is for, and what holds for all of it; head it with [job]"]
    assert "boards: this is missing; head each with [[boards]]" in lines(Book, {})
    assert "firm: this is missing; head it with [firm]" in lines(Book, {})


def test_places_count_from_one_and_bear_the_mark():
    raw = {"job": HEADER, "openings": [SOUND, {**SOUND, "mark": "C2", "hand": "up"}], "panels": [{"mark": "P"}]}
    assert lines(Job, raw) == [
        "openings[2].hand (C2): 'up' is not known here; use one of: left, right",
        "panels[1].board (P): this is missing: board from the book",
        "panels[1].length (P): this is missing: along the board's grain, usually its height, in mm",
        "panels[1].width (P): this is missing: across the board's grain, in mm",
    ]


def test_a_single_group_where_a_list_belongs_is_told_how_to_be_headed():
    assert lines(Job, {"job": HEADER, "openings": SOUND}) == [
        "openings: this is a single group where a list is needed; head each of its entries with [[openings]]"
    ]


def test_the_library_s_own_marks_are_left_out_and_a_user_s_are_not():
    assert str(place(("build_ups", 0, "inset", "margin"), {})) == "build_ups[1].margin"
    assert str(place(("build_ups", 0, "inset", "inset"), {})) == "build_ups[1].inset"
    assert str(place(("inset",), {})) == "inset"
    assert str(place(("making", "dor", "[key]"), {})) == "making.dor"
    assert str(place(("[key]",), {})) == "[key]"
    assert str(place(("",), {})) == '""'


def test_a_build_up_without_a_family_is_told_the_families():
    found = lines(Book, {"build_ups": [{}, {"family": "insett"}, {"family": []}]})
    known = "inset, lay-on within trim, lay-on without trim"
    assert f"build_ups[1]: the family of this build-up is missing; use one of: {known}" in found
    assert "build_ups[2]: the family of this build-up is unknown; did you mean inset?" in found
    assert f"build_ups[3]: the family of this build-up is unknown; use one of: {known}" in found


@pytest.mark.parametrize(
    ("amount", "sentence"),
    [
        ("46,50", "amount: '46,50' is not an amount of money; write it as 46.50"),
        (-1, "amount: -1 won't do; it has to be at least 0"),
        (10**15, "amount: 1000000000000000 has too many digits for an amount of money; write it as 46.50"),
        (float("nan"), "amount: nan is not a number that can be used"),
    ],
)
def test_money_that_is_none_is_told(amount, sentence):
    assert lines(Price, {"amount": amount, "since": datetime.date(2026, 1, 1), "source": "x"}) == [sentence]


@pytest.mark.parametrize(
    ("model", "given", "sentence"),
    [
        (PriceExtra, {"hours": "much"}, "hours: 'much' is not a number of hours; write it in figures"),
        (
            PriceExtra,
            {"hours": "1.00000000001"},
            "hours: '1.00000000001' has too many digits for a number of hours; write it as 2.5",
        ),
        (PriceExtra, {"cost": "much"}, "cost: 'much' is not an amount of money; write it in figures"),
        (PriceTerms, {"margin": "a fifth"}, "margin: 'a fifth' is not a share; write it in figures"),
        (TaxLine, {"percent": "20 p.c."}, "percent: '20 p.c.' is not a percentage; write it in figures"),
        (Hours, {"done": "all"}, "done: 'all' is not a number; write it in figures"),
    ],
)
def test_a_number_that_is_kept_as_it_was_written_is_called_what_it_is(model, given, sentence):
    assert sentence in lines(model, given)


@pytest.mark.parametrize(
    ("since", "sentence"),
    [
        ("soon", "since: 'soon' is not a date; write it as 2026-11-25"),
        (
            datetime.datetime(2026, 1, 1, 12, tzinfo=datetime.UTC),
            "since: 2026-01-01 12:00:00+00:00 is a date with a time of day; leave the time out, as in 2026-11-25",
        ),
    ],
)
def test_dates_that_are_none_are_told(since, sentence):
    assert lines(Price, {"amount": 1, "since": since, "source": "x"}) == [sentence]


def test_what_would_be_changed_on_the_quiet_is_a_fault():
    raw = {
        "job": {**HEADER, "date": 20261125},
        "openings": [{**SOUND, "leaves": True}, {**SOUND, "sill": 1}, {**SOUND, "leaves": "2"}],
    }
    assert [str(fault) for fault in loose_faults(Job, raw)] == [
        "job.date: 20261125 is not a date; write it as 2026-11-25",
        "openings[1].leaves (C1): true is not a number",
    ]
    raw = {"board_m2": {"22 mm": True, "18 mm": 3}, "since": "20260101"}
    assert [str(fault) for fault in loose_faults(WorkshopRates, raw)] == [
        "since: '20260101' is not a date; write it as 2026-11-25",
        "board_m2.22 mm: true is not a number",
    ]
    raw = {"build_ups": [{"family": "inset", "coats": False}, {"family": "lay-on within trim", "coats": False}, 3]}
    assert [fault.where for fault in loose_faults(Book, raw)] == ["build_ups[1].coats", "build_ups[2].coats"]


def test_near_misses_are_offered_and_far_ones_listed():
    assert str(nearest("lft", ["left", "right"])) == "; did you mean left?"
    assert str(nearest("LEFT", ["left", "right"])) == "; did you mean left?"
    assert str(nearest("up", ["left", "right"])) == "; use one of: left, right"
    assert nearest("up", []) is None
    assert str(nearest("?", [f"n{i:02}" for i in range(20)])).endswith("n11 …")


def test_whatever_is_quoted_stays_on_one_line():
    assert one_line("a\nb\u2028c\0\ud800") == "a\\nb\\u2028c\\x00\\ud800"
    assert one_line("x" * 500) == "x" * 399 + "…"
