"""The desk's style sheet: a brace that is lost makes all below it hold on paper alone, and nothing says so."""

from pathlib import Path

import pytest

import rodbook.desk

DESK = Path(rodbook.desk.__file__).parent
MOST = 120
"""Characters on a line of a template."""


def test_every_block_of_the_style_sheet_is_closed():
    text = (Path(rodbook.desk.__file__).parent / "static" / "desk" / "desk.css").read_text("utf-8")
    depth = 0
    for line, content in enumerate(text.splitlines(), 1):
        depth += content.count("{") - content.count("}")
        assert 0 <= depth <= 2, f"line {line} stands {depth} blocks deep"
        assert not content.startswith("@") or depth - content.count("{") + content.count("}") == 0, (
            f"line {line} is inside another block"
        )
    assert depth == 0


@pytest.mark.parametrize("path", sorted(DESK.rglob("*.html")), ids=lambda path: path.stem)
def test_lines_of_templates_can_be_read(path):
    long = [n for n, line in enumerate(path.read_text("utf-8").splitlines(), 1) if len(line) > MOST]
    assert not long, f"{path.name}: lines {long} are longer than {MOST} characters"


@pytest.mark.parametrize("path", sorted(DESK.rglob("*.html")), ids=lambda path: path.stem)
def test_no_block_of_django_is_broken_over_lines(path):
    """The template language reads its own marks on one line alone: what runs on would be shown as it stands."""
    for n, line in enumerate(path.read_text("utf-8").splitlines(), 1):
        for opened, closed in (("{%", "%}"), ("{{", "}}"), ("{#", "#}")):
            assert line.count(opened) == line.count(closed), f"{path.name}, line {n}"
