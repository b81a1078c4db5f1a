"""Whatever stands in a document, it is read or it is told: clearly, on one line, with a place."""

import copy
import datetime
import json
import math
import tomllib

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from rodbook.errors import InputError, RodbookError
from rodbook.job import Book, Job
from rodbook.job.files import parse_book, parse_job, read_book, read_job, sample_book_text, sample_text

JOB_TEXT = (
    sample_text("stair")
    + """
[making]
door = "cheaper"

[[openings]]
mark = "W1"
state = "planned"
leaf = [447, "210 cm"]
[[openings]]
mark = "C9"
widths = [842, 843, 843]
heights = [2030, 2030, 2031]
diagonals = [2197, 2198]
depth = 455
build_up = "inset, painted"
"""
)
JOB, BOOK = tomllib.loads(JOB_TEXT), tomllib.loads(sample_book_text())

TEXT = st.text(st.characters(exclude_categories=("Cs",)), max_size=20) | st.sampled_from(
    ["", " ", "x" * 5000, "a\nb", "\x00", "\u2028", "[key]", "inset", "842,5", "2,030", "nan", "1e999", "yes", "é" * 90]
)
NUMBERS = st.one_of(
    st.integers(-10, 10_000),
    st.floats(),
    st.just(math.nan),
    st.just(-math.inf),
    st.sampled_from([2**63, -(10**30), 10**4000]),
)
DATES = st.dates() | st.datetimes() | st.times()
JUNK = st.recursive(
    TEXT | NUMBERS | st.booleans() | DATES,
    lambda inner: st.lists(inner, max_size=4) | st.dictionaries(TEXT, inner, max_size=3),
    max_leaves=8,
)


def toml(value):
    """A value as TOML, written independently of the library that the code uses."""
    if isinstance(value, bool):
        return "true" if value else "false"
    if isinstance(value, float):
        return "nan" if math.isnan(value) else ("-inf" if value < 0 else "inf") if math.isinf(value) else repr(value)
    if isinstance(value, int):
        return str(value) if abs(value) < 10**4000 else hex(value)
    if isinstance(value, str):
        return json.dumps(value, ensure_ascii=False).replace("\x7f", "\\u007f")
    if isinstance(value, list):
        return "[" + ", ".join(map(toml, value)) + "]"
    if isinstance(value, dict):
        return "{" + ", ".join(f"{toml(name)} = {toml(entry)}" for name, entry in value.items()) + "}"
    assert isinstance(value, datetime.date | datetime.time)
    text = value.isoformat()
    return f"0{text}" if len(text) < 8 else text


def document(raw):
    return "".join(f"{toml(name)} = {toml(value)}\n" for name, value in raw.items())


def places(value, at=()):
    """Every place in a document."""
    yield at
    entries = value.items() if isinstance(value, dict) else enumerate(value) if isinstance(value, list) else ()
    for step, entry in entries:
        yield from places(entry, (*at, step))


def spoil(draw, raw):
    """The document with something in it taken out, put in, or put in place of something else."""
    raw = copy.deepcopy(raw)
    for _ in range(draw(st.integers(1, 5))):
        *way, last = draw(st.sampled_from([at for at in places(raw) if at] or [("else",)]))
        holder = raw
        for step in way:
            holder = holder[step]
        action = draw(st.sampled_from(["out", "junk", "junk", "more", "double"]))
        if action == "out" and len(holder) > 1:
            del holder[last]
        elif action in ("out", "junk"):
            holder[last] = draw(JUNK)
        elif isinstance(holder, dict):
            holder[draw(TEXT)] = draw(JUNK)
        else:
            holder.append(copy.deepcopy(holder[last]) if action == "double" else draw(JUNK))
    return raw


def read_or_told(parse, text, kind, told):
    try:
        found = parse(text)
    except RodbookError:
        return told(parse, text)
    assert isinstance(found, kind)
    return []


def test_the_way_of_writing_is_sound():
    assert tomllib.loads(document(JOB)) == JOB
    assert parse_job(document(JOB)) == parse_job(JOB_TEXT)
    assert parse_book(document(BOOK)) == parse_book(sample_book_text())


@settings(max_examples=120, deadline=None)
@given(data=st.data())
def test_a_job_with_anything_wrong_is_told(data, told, book):
    text = document(spoil(data.draw, JOB))
    read_or_told(lambda text: parse_job(text, book), text, Job, told)


@settings(max_examples=50, deadline=None)
@given(data=st.data())
def test_a_book_with_anything_wrong_is_told(data, told):
    read_or_told(parse_book, document(spoil(data.draw, BOOK)), Book, told)


@settings(max_examples=40, deadline=None)
@given(data=st.data())
def test_each_of_two_faults_is_told_whatever_the_other(data, told, book):
    raw = spoil(data.draw, {name: value for name, value in JOB.items() if name in ("panels", "making")})
    raw = {
        **JOB,
        **{k: v for k, v in raw.items() if k in ("panels", "making")},
        "job": {**JOB["job"], "build_up": "inst"},
    }
    lines = read_or_told(lambda text: parse_job(text, book), document(raw), Job, told)
    assert any(line.startswith("job.build_up: the book has no build-up 'inst'") for line in lines)


@settings(max_examples=120, deadline=None)
@given(text=st.text(max_size=200), where=st.integers(0, len(JOB_TEXT)), length=st.integers(0, 400))
def test_a_document_with_any_text_in_it_is_told(text, where, length, told):
    read_or_told(parse_job, JOB_TEXT[:where] + text + JOB_TEXT[where + length :], Job, told)


@settings(max_examples=100, deadline=None)
@given(text=st.text() | st.text("[]{}=.\"'#\n a1", max_size=60))
def test_any_text_at_all_is_told(text, told):
    assert told(parse_job, text)
    assert told(parse_book, text)


@settings(max_examples=100, deadline=None)
@given(data=st.binary(max_size=300))
def test_any_bytes_at_all_are_told(data, told, tmp_path_factory):
    path = tmp_path_factory.getbasetemp() / "any.toml"
    path.write_bytes(data)
    assert told(read_job, path)
    assert told(read_book, path)


@pytest.mark.parametrize("name", ["job", "openings", "making", "sizes", "panels", "format", "else"])
@pytest.mark.parametrize("value", [[], {}, [[]], [{}], [[[[{"a": {"b": [1]}}]]]], 0, "", True], ids=repr)
def test_the_wrong_kind_of_thing_in_any_place_is_told(told, name, value):
    raw = {key: entry for key, entry in JOB.items() if key != name}
    with pytest.raises(InputError) as caught:
        parse_job(document({**raw, name: value, "extra": 1}))
    assert (
        "extra: there is no 'extra' here; use one of: dates, format, gaps, job, making, offcuts, openings, panels, price, runs, "
        "sizes, taken" in str(caught.value)
    )
    told(parse_job, document({**raw, name: value, "extra": 1}))
