"""The bars of what moves the difference: to scale, nothing over another, readable without colour."""

from decimal import Decimal

import pytest

from rodbook.money import Sway
from rodbook.papers.drawing.model import Line, Shape, Text, boxes_of_text
from rodbook.papers.drawing.svg import to_svg
from rodbook.papers.numbers import Numbers
from rodbook.papers.pictures.sways import MOST_BARS, draw_sways

WRITE = Numbers("en", "EUR")


def _sway(name, low, high):
    return Sway(name, Decimal(low), Decimal(high), "one and nine in ten", (low < 0) != (high < 0))


FOUND = [
    _sway("crew hour", -300, -900),
    _sway("a <b> & a very long name that has no room at all beside its figures", -500, -850),
]


def _bars(drawing, role):
    return [m for m in drawing.marks if isinstance(m, Shape) and m.role == role]


def _wide(shape):
    xs = [x for x, _ in shape.points]
    return max(xs) - min(xs)


def test_bars_are_as_long_as_they_move_it():
    drawing = draw_sways(Decimal(-600), FOUND, WRITE)
    low, high = _bars(drawing, "low"), _bars(drawing, "high")
    assert [round(_wide(s) / _wide(low[0]), 6) for s in (low[0], high[0], low[1], high[1])] == pytest.approx(
        [1, 1, 100 / 300, 250 / 300], abs=1e-5
    )


def test_where_it_turns_is_drawn_only_where_it_is_near():
    def turns(difference, low, high):
        drawing = draw_sways(Decimal(difference), [_sway("x", low, high)], WRITE)
        return any(isinstance(m, Line) and m.role == "turns" for m in drawing.marks)

    assert not turns(-1800, -1500, -2100)
    assert turns(-100, 50, -250)
    assert turns(100, -50, 250)
    assert turns(-100, -10, -190)


def test_no_lettering_covers_another_and_all_is_on_the_sheet():
    for found in (FOUND, [_sway(f"rate number {n}", -600 - 20 * n, -600 + 700 - n) for n in range(12)]):
        drawing = draw_sways(Decimal(-600), found, WRITE)
        boxes = boxes_of_text(drawing.marks)
        for n, (one, box) in enumerate(boxes):
            assert box.left >= 0, one
            assert box.right <= drawing.width, one
            assert not [other for other, b in boxes[n + 1 :] if b.overlaps(box)], one


def test_only_so_many_bars_and_low_is_hatched():
    drawing = draw_sways(Decimal(0), [_sway(f"r{n}", -100 + n, 100 - n) for n in range(20)], WRITE)
    assert len(_bars(drawing, "low")) == MOST_BARS
    assert any(isinstance(m, Line) and m.role == "low" for m in drawing.marks)


def test_names_are_escaped_and_figures_in_the_books_locale():
    svg = to_svg(draw_sways(Decimal(-1800), [_sway("<b>", -1500, -2100)], Numbers("de_AT", "EUR")))
    assert "&lt;b&gt;" in svg
    assert any(
        "€" in m.content and "." in m.content.replace("€", "")
        for m in draw_sways(Decimal(-1800), [_sway("x", -1500, -2100)], Numbers("de_AT", "EUR")).marks
        if isinstance(m, Text) and m.role == "figure"
    )
