"""Codes and parameters become sentences, on one line whatever was typed."""

import pytest

from rodbook.errors import Fault, Message, Place
from rodbook.wording import rendering
from rodbook.wording.catalogue import sentences
from rodbook.wording.rendering import Many
from rodbook.working import Measure

SENTENCES = {
    "t.said": "{value}",
    "t.quoted": "{value!r}",
    "t.short": "{value!r:.5}",
    "t.list": "{value}",
    "t.both": "{value:and}",
    "t.sizes": "{value:g/or}",
    "t.length": "{value:mm}",
    "t.typed": "{value!q:.8}",
    "t.tenths": "{value:tenths}",
    "t.last": "{value!r:/and_last}",
    "t.share": "{value:percent.1}",
    "t.inner": "about {value}",
    "t.count": Many("{value} stands", "{value} stand", "value"),
}

KNOWN = dict(sentences())


@pytest.fixture(autouse=True)
def catalogue(monkeypatch):
    monkeypatch.setattr(rendering, "_catalogue", lambda: KNOWN | SENTENCES)


@pytest.mark.parametrize(
    ("code", "value", "sentence"),
    [
        ("t.said", "a\nb\x00", "a\\nb\\x00"),
        ("t.said", "x" * 400, "x" * 299 + "…"),
        ("t.said", None, ""),
        ("t.said", True, "true"),
        ("t.said", 842.0, "842.0"),
        ("t.quoted", "it's", '"it\'s"'),
        ("t.quoted", "a\tb", "'a\\tb'"),
        ("t.quoted", 2.5, "2.5"),
        ("t.quoted", ("a", "b"), "'a', 'b'"),
        ("t.short", "abcdefgh", "'abcd…'"),
        ("t.list", ("a", 1), "a, 1"),
        ("t.both", ("a", "b"), "a and b"),
        ("t.sizes", (1.0, 2.5), "1 or 2.5"),
        ("t.length", 842, "842.0"),
        ("t.length", Measure(416.25, "leaf width"), "416.25"),
        ("t.share", 36.78, "36.8%"),
        ("t.typed", "", "nothing"),
        ("t.typed", "abcdefghij", "'abcdefg…'"),
        ("t.tenths", 842.0, "842"),
        ("t.tenths", 842.54, "842.5"),
        ("t.last", ("a", "b", "c"), "'a', 'b' and 'c'"),
        ("t.last", ("a",), "'a'"),
        ("t.inner", Message("t.short", value="C1"), "about 'C1'"),
        ("t.inner", (Message("t.said", value=1), "x"), "about 1, x"),
        ("t.count", ("C1",), "C1 stands"),
        ("t.count", ("C1", "C2"), "C1, C2 stand"),
        ("t.count", 1, "1 stands"),
    ],
)
def test_each_form(code, value, sentence):
    assert str(Message(code, value=value)) == sentence


def test_a_sentence_is_no_longer_than_can_be_read():
    assert len(str(Message("t.list", value=["x" * 200] * 90))) == 4000


def test_messages_with_the_same_parameters_are_the_same():
    assert len({Message("t.list", value=["a"]), Message("t.list", value=("a",))}) == 1


@pytest.mark.parametrize(
    ("at", "said"),
    [
        (Place(("openings", 2, "widths"), "C3"), "openings[3].widths (C3)"),
        (Place(("file",)), "the file"),
        (Place(("file",), document="a.toml"), "a.toml, the file"),
        (Place((), document="a.toml"), "a.toml"),
        (Place(("a\nb", "")), 'a\\nb.""'),
        (Place(("x" * 90,)), "x" * 59 + "…"),
        (Place((), "C1"), "C1"),
        (Place(("ceiling", "rows", 1)), "ceiling.rows[2]"),
        (Place(("job", "build_up")), "job.build_up"),
    ],
)
def test_places(at, said):
    assert at.path == tuple(at.path)
    assert str(Fault(at, "t.said", value="x")) == f"{said}: x"


def test_a_place_within_another_and_beneath_it():
    opening = Place(("openings", 2)).marked("C3")
    assert str(opening / "rows" / 0 / "height") == "openings[3].rows[1].height (C3)"
    assert str((opening / Place(("readings", "width-foot"))).within("b.toml").within("a.toml")) == (
        "a.toml, b.toml, openings[3].readings.width-foot (C3)"
    )
    assert (opening / "widths").beneath(Place(("panels",))) is None


def test_places_that_are_no_fields_have_names_of_their_own():
    said = {
        ("rows", 4, "width"): "row 5, width",
        ("rows", 4, "column", 27): "row 5, column AB",
        ("cells", 11, 2): "cell C12",
        ("lines", 6): "line 7",
        ("tasks", "hang leaves"): "task 'hang leaves'",
        ("book", "boards", "18 mm MDF"): "book, board '18 mm MDF'",
        ("list",): "the list",
        ("--keep",): "--keep",
    }
    assert {path: str(Place(path)) for path in said} == said


def test_a_code_without_a_sentence_is_said_itself_and_is_no_traceback(monkeypatch):
    monkeypatch.setattr(rendering, "STRICT", False)
    assert rendering.sentence("desk.nothing_of_the_kind", {"name": "C1"}) == "desk.nothing_of_the_kind (name: C1)"
