"""Names of further readings."""

import pytest

from rodbook.job.readings import INSTRUMENT_NAMES, KINDS, USUAL, ReadingName, kind_of, reading_name
from rodbook.survey import INSTRUMENTS


@pytest.mark.parametrize(
    ("name", "meaning"),
    [
        ("plumb-left", ReadingName("plumb", "left", "", again=False)),
        ("plumb-right-middle", ReadingName("plumb", "right", "middle", again=False)),
        ("level-floor-600-again", ReadingName("level", "floor", 600.0, again=True)),
        ("bow-head", ReadingName("bow", "head", "", again=False)),
        ("width-foot", ReadingName("width", "", "foot", again=False)),
        ("height-1250", ReadingName("height", "", 1250.0, again=False)),
        ("diagonal-right", ReadingName("diagonal", "right", "", again=False)),
        ("depth-shelf", ReadingName("depth", "", "shelf", again=False)),
    ],
)
def test_a_name_says_what_was_read_and_where(name, meaning):
    assert reading_name(name) == meaning
    assert kind_of(name) == meaning.kind


@pytest.mark.parametrize(
    "name",
    [
        "",
        "plumb",
        "plumb-foot",
        "level-left",
        "bow",
        "bow-left-head",
        "width-",
        "width-0",
        "width-99999",
        "-again",
        "height-head",
        "diagonal-up",
        "depth-9",
        "Plumb-left",
        "plumb left",
        "width-foot-again-again",
    ],
)
def test_what_is_no_name_is_none(name):
    assert reading_name(name) is None


def test_usual_names_are_names_and_kinds_name_themselves():
    assert all(reading_name(name) for name in USUAL)
    assert all(kind_of(kind) == kind for kind in KINDS)


def test_instruments_are_those_of_the_survey():
    assert set(INSTRUMENT_NAMES) == set(INSTRUMENTS)
