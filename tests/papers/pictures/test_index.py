"""The picture of an index: a line that steps on the days on which something changed."""

from datetime import date as Date  # noqa: N812
from decimal import Decimal
from itertools import pairwise

from hypothesis import given
from hypothesis import strategies as st

from rodbook.money import IndexDay
from rodbook.papers.drawing.lettering import LEAST_MM, text_width_mm
from rodbook.papers.drawing.model import Line, Text
from rodbook.papers.numbers import Numbers
from rodbook.papers.pictures.index import draw_index

WRITE = Numbers("en", "EUR")


def test_it_steps_and_says_the_first_and_the_last():
    days = [
        IndexDay(Date(2026, 1, 1), Decimal(100), ()),
        IndexDay(Date(2026, 7, 1), Decimal(110), ()),
        IndexDay(Date(2027, 1, 1), Decimal(110), ()),
    ]
    marks = draw_index(days, WRITE).marks
    (line,) = [m for m in marks if isinstance(m, Line) and m.role == "index"]
    (x0, y0), (x1, y1), (x2, y2), *_rest = line.points
    assert (y0, x1, y1) == (y1, x2, y0)
    assert x0 < x1
    assert y2 < y1
    said = [m.content for m in marks if isinstance(m, Text)]
    assert {"100", "1 January 2026", "1 January 2027"} <= set(said)


@given(st.lists(st.decimals(20, 400, places=2), min_size=2, max_size=30))
def test_any_index_fills_its_plot_and_no_figure_lies_on_its_neighbour(values):
    days = [IndexDay(Date.fromordinal(739000 + 9 * n), value, ()) for n, value in enumerate(values)]
    marks = draw_index(days, WRITE).marks
    (line,) = [m for m in marks if isinstance(m, Line) and m.role == "index"]
    across, down = [x for x, _ in line.points], [y for _, y in line.points]
    assert abs(max(across) - min(across) - 108) < 0.01
    assert max(down) - min(down) <= 34.01
    figures = [m for m in marks if isinstance(m, Text) and m.role == "figure"]
    for left, right in pairwise(figures):
        assert right.x - left.x >= (text_width_mm(left.content, LEAST_MM) + text_width_mm(right.content, LEAST_MM)) / 2
