"""Percentages are written in one way, by one function each for English and for a book's own language."""

from __future__ import annotations

import io
import re
import tokenize
from decimal import Decimal
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

import rodbook
from rodbook.papers.numbers import Numbers
from rodbook.working import percent

ROOT = Path(rodbook.__file__).parent
WRITERS = {"wording/figures.py": 1, "papers/numbers.py": 1}
"""Where the sign is put after a figure, and how often: nowhere else."""

SPACED = re.compile(r"(?:[\d}]|\)[ds]) %(?![\w(}])")
"""A figure, a space, the sign; not a remainder, nor the end of a template's tag."""


def _texts(path):
    """Pieces of text in a module: strings, and of those with figures put in what stands after each figure."""
    for token in tokenize.generate_tokens(io.StringIO(path.read_text("utf-8")).readline):
        if token.type in (tokenize.STRING, tokenize.FSTRING_MIDDLE, tokenize.COMMENT):
            yield token.type == tokenize.FSTRING_MIDDLE, token.string, token.start[0]


@pytest.mark.parametrize("path", sorted(ROOT.rglob("*.py")), ids=lambda path: str(path.relative_to(ROOT)))
def test_no_string_writes_a_percentage_itself(path):
    found = [
        (line, text.strip()[:80])
        for after_a_figure, text, line in _texts(path)
        if SPACED.search(text)
        or (after_a_figure and re.match(r" ?%(?![\w(])", text))
        or (after_a_figure and re.fullmatch(r"[+,]?(\.\d+)?%", text))
        or "format_percent(" in text
    ]
    own = WRITERS.get(str(path.relative_to(ROOT)), 0)
    assert len(found) <= own, found
    assert path.read_text("utf-8").count("format_percent(") <= own


@pytest.mark.parametrize(
    "path",
    sorted(p for end in ("html", "typ", "js", "toml") for p in ROOT.rglob(f"*.{end}")),
    ids=lambda path: path.name,
)
def test_no_template_writes_a_percentage_itself(path):
    text = path.read_text("utf-8")
    assert not SPACED.search(text)
    assert not re.search(r"}}\s*%(?!})", text)
    if path.suffix == ".typ":
        assert not re.search(r"[)\]] ?%", text)


@pytest.mark.parametrize("path", sorted(Path(__file__).parent.parent.glob("docs/*.md")), ids=lambda path: path.name)
def test_no_page_of_the_docs_writes_it_otherwise(path):
    assert not SPACED.search(path.read_text("utf-8"))


@given(st.decimals(-200, 200, places=3), st.integers(0, 2))
def test_both_write_english_alike(value, places):
    write = Numbers("en", "EUR")
    assert write.in_hundred(value) == percent(value)
    assert write.in_hundred(value, signed=True) == percent(value, signed=True)
    assert write.percent(value / 100, places) == percent(value, places)


@pytest.mark.parametrize(
    ("value", "places", "written"),
    [
        (36.8, None, "36.8%"),
        (Decimal("20.00"), None, "20%"),
        (0, None, "0%"),
        (-0.04, 1, "0.0%"),
        (-3.6, 1, "-3.6%"),
        (1e-9, 0, "0%"),
        (Decimal(100), None, "100%"),
        (1 / 3, None, "0.333333%"),
    ],
)
def test_percentages(value, places, written):
    assert percent(value, places) == written


def test_another_language_writes_its_own_way():
    assert Numbers("de", "EUR").percent(0.368, 1) == "36,8\N{NO-BREAK SPACE}%"
