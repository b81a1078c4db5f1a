"""What the tests of jobs share: sound openings of every kind, and what a fault has to be like."""

import datetime
import math
import re

import pytest
from hypothesis import strategies as st

from rodbook.errors import RodbookError
from rodbook.job import Book, Job, Opening
from rodbook.job.files import parse_book, parse_job, sample_book_text, sample_text
from rodbook.job.marks import begins_like_part, spoken
from rodbook.job.readings import USUAL

_CHARACTERS = st.characters(exclude_categories=("Cs", "Cc", "Cn", "Zl", "Zp"))
WORDS = st.text(_CHARACTERS, min_size=1, max_size=12).map(str.strip).filter(bool)
MARKS = WORDS.filter(lambda mark: not begins_like_part(mark))
LINES = st.text(_CHARACTERS, max_size=30)
NOTES = st.text(st.one_of(_CHARACTERS, st.sampled_from("\n\t'\"=+-@,;")), max_size=40)

PYTHON = re.compile(
    r"\b(dict|tuple|NoneType|None|True|False|Decimal|datetime|Enum|Mapping|ValidationError|Traceback|Error|pydantic"
    r"|str|int|bool|float|Input should|Field required|validator)\b|<class|0x[0-9a-f]{6}"
)

QUOTED = re.compile(r"'(?:[^'\\]|\\.)*'|\"(?:[^\"\\]|\\.)*\"")
"""What a user wrote, and may well be a word of Python's."""


def _sized(draw, least, most):
    base = draw(st.floats(least, most).map(lambda v: round(v, 3)))
    offsets = [0.0] + [draw(st.sampled_from([-7.25, -1.0, 0.0, 0.5, 3.125])) for _ in range(2)]
    return tuple(base + offset for offset in offsets)


@st.composite
def _openings(draw):
    fields = {
        "mark": draw(MARKS),
        "room": draw(LINES),
        "leaves": draw(st.integers(1, 3)),
        "sill": draw(st.booleans()),
        "hand": draw(st.sampled_from(["left", "right"])),
        "build_up": draw(st.none() | WORDS),
        "note": draw(NOTES),
        "depth": draw(st.none() | st.floats(0.001, 900) | st.integers(1, 900)),
    }
    if draw(st.booleans()):
        size = (draw(st.floats(200, 1200)), draw(st.integers(300, 2400)))
        return Opening.model_validate({**fields, "state": "planned", draw(st.sampled_from(["leaf", "clear"])): size})
    widths, heights = _sized(draw, 200, 1500), _sized(draw, 400, 2500)
    fields |= {"widths": widths, "heights": heights, "head": draw(st.sampled_from(["level", "raked"]))}
    if draw(st.booleans()):
        fields["diagonals"] = math.hypot(widths[2], heights[2]), math.hypot(widths[0], heights[0])
    offsets = st.floats(-100, 100).map(lambda v: round(v, 3))
    fields["readings"] = draw(st.dictionaries(st.sampled_from(USUAL), offsets, max_size=4))
    return Opening.model_validate(fields)


def _several():
    return st.lists(_openings(), min_size=1, max_size=4, unique_by=lambda o: spoken(o.mark)).map(tuple)


@st.composite
def _jobs(draw):
    header = {
        "name": draw(WORDS),
        "number": draw(LINES),
        "client": draw(NOTES),
        "revision": draw(WORDS),
        "note": draw(NOTES),
        "build_up": draw(WORDS),
        "workshop": draw(st.none() | WORDS),
        "date": draw(st.dates(datetime.date(1990, 1, 1), datetime.date(2100, 1, 1))),
    }
    kinds = st.sampled_from(["door", "lining leg", "trim head", "panel"])
    making = draw(st.dictionaries(kinds, st.sampled_from(["site-made", "bought-in", "cheaper"])))
    openings = draw(_several())
    panel = {"mark": "the panel", "board": draw(WORDS), "length": draw(st.floats(150, 3000)), "width": 420}
    panels = [panel] if draw(st.booleans()) and spoken("the panel") not in [spoken(o.mark) for o in openings] else []
    return Job.model_validate({"job": header, "making": making, "openings": openings, "panels": panels})


@pytest.fixture(scope="session")
def some_openings():
    """A strategy: one to four sound openings, each with its own mark."""
    return _several()


@pytest.fixture(scope="session")
def some_jobs():
    """A strategy: sound jobs of up to four openings."""
    return _jobs()


@pytest.fixture(scope="session")
def book() -> Book:
    return parse_book(sample_book_text())


@pytest.fixture(scope="session")
def store_job() -> Job:
    return parse_job(sample_text("converted-store"))


@pytest.fixture(scope="session")
def told():
    """Call something that is to fail, check that each fault is one clear line with a place, and return the lines."""

    def call(function, *args, **kwargs):
        with pytest.raises(RodbookError) as caught:
            function(*args, **kwargs)
        lines = [str(fault) for fault in getattr(caught.value, "faults", [caught.value])]
        for line in lines:
            assert line.isprintable(), repr(line)
            assert len(line) < 900, line
        for fault in getattr(caught.value, "faults", []):
            ours = QUOTED.sub("", fault.what.split(" it reads: ")[0])
            assert fault.where, fault
            assert ours, fault
            assert not ours.endswith("."), fault
            assert not PYTHON.search(ours), fault
        assert len(set(lines)) == len(lines), lines
        return lines

    return call
