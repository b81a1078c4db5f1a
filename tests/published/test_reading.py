"""Paper size, lettering and contrast against published standards."""

import io
import re
from importlib.resources import files

import pytest
from pypdf import PdfReader

from rodbook.job.files import parse_book, parse_job, sample_book_text, sample_text
from rodbook.papers import paper_pdf
from rodbook.plan import plan_parts

MM_PER_POINT = 25.4 / 72


@pytest.fixture(scope="module")
def pages():
    book = parse_book(sample_book_text())
    plan = plan_parts(parse_job(sample_text("converted-store"), book), book)
    return PdfReader(io.BytesIO(paper_pdf(plan, "workshop-order"))).pages


def test_papers_are_a4(pages):
    """A4 is 210 x 297 mm: ISO 216 (from memory), held to a tenth of a millimetre."""
    for page in pages:
        sides = sorted(float(side) * MM_PER_POINT for side in (page.mediabox.width, page.mediabox.height))
        assert sides == pytest.approx([210, 297], abs=0.1)


def _luminance(colour: str) -> float:
    """Relative luminance by WCAG 2.2 (seen): 0.2126 R + 0.7152 G + 0.0722 B of the linear channels."""
    channels = [int(colour[i : i + 2], 16) / 255 for i in (1, 3, 5)]
    red, green, blue = (c / 12.92 if c <= 0.04045 else ((c + 0.055) / 1.055) ** 2.4 for c in channels)
    return 0.2126 * red + 0.7152 * green + 0.0722 * blue


def _contrast(one: str, other: str) -> float:
    low, high = sorted((_luminance(one), _luminance(other)))
    return (high + 0.05) / (low + 0.05)


@pytest.mark.parametrize(
    ("one", "other", "ratio"),
    [
        ("#767676", "#FFFFFF", 4.54),
        ("#FFFFFF", "#000000", 21),
        ("#0000FF", "#FFFFFF", 8.59),
        ("#FFFF00", "#FFFFFF", 1.07),
    ],
)
def test_the_ratio_is_worked_out_as_published(one, other, ratio):
    """Contrast of well-known pairs (quoted)."""
    assert _contrast(one, other) == pytest.approx(ratio, abs=0.005)


@pytest.mark.parametrize("theme", [":root {", ':root[data-theme="dark"] {'])
def test_the_desk_can_be_read(theme):
    """WCAG 2.2 AA (seen): 4.5 to 1 for text, 3 to 1 for the edges of what can be touched."""
    css = (files("rodbook.desk") / "static" / "desk" / "desk.css").read_text("utf-8")
    block = css[css.index(theme) :]
    colour = dict(re.findall(r"--([a-z-]+): (#[0-9a-f]{6})", block[: block.index("}")]))
    for text in ("ink", "soft", "red"):
        for ground in ("paper", "sheet", "timber"):
            if (text, ground) != ("red", "timber"):
                assert _contrast(colour[text], colour[ground]) >= 4.5, (text, ground)
    assert _contrast(colour["on-red"], colour["red"]) >= 4.5
    assert _contrast(colour["red"], colour["wash"]) >= 4.5
    for ground in ("paper", "sheet", "timber"):
        assert _contrast(colour["edge"], colour[ground]) >= 3, ground
        assert _contrast(colour["focus"], colour[ground]) >= 3, ground
