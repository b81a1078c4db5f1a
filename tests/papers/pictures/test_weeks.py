"""The picture of the crew's weeks: columns as high as their days, hatched as far as they are used."""

from datetime import date
from decimal import Decimal
from itertools import pairwise

from hypothesis import given, settings
from hypothesis import strategies as st

from rodbook.money import WeekUse
from rodbook.papers.drawing.lettering import LEAST_MM, text_width_mm
from rodbook.papers.drawing.model import Shape, Text
from rodbook.papers.numbers import Numbers
from rodbook.papers.pictures.weeks import draw_weeks

D = Decimal
MONDAY = date(2026, 11, 30)


@settings(max_examples=40, deadline=None)
@given(
    st.lists(st.tuples(st.floats(0, 60), st.floats(0, 1), st.none() | st.integers(0, 90000)), min_size=1, max_size=26)
)
def test_columns_are_as_high_as_their_days_and_no_word_runs_into_another(weeks):
    uses = [
        WeekUse(n, days, days * share, 0.0, D(0), None if worth is None else D(worth))
        for n, (days, share, worth) in enumerate(weeks, 1)
    ]
    drawing = draw_weeks(uses, MONDAY, Numbers("en", "EUR"))
    assert drawing.width <= 256
    there = [m for m in drawing.marks if isinstance(m, Shape) and m.role == "there"]
    most = max(days for days, _, _ in weeks)
    for box, days in zip(there, (days for days, _, _ in weeks if days > 0), strict=True):
        down = [y for _, y in box.points]
        assert abs(max(down) - min(down) - 34 * days / most) < 0.01
    for role in ("figure", "day", "worth", "week"):
        words = [m for m in drawing.marks if isinstance(m, Text) and m.role == role]
        for left, right in pairwise(words):
            if abs(left.y - right.y) < LEAST_MM:
                wide = (text_width_mm(left.content, LEAST_MM) + text_width_mm(right.content, LEAST_MM)) / 2
                assert right.x - left.x >= wide, (role, left.content, right.content)
