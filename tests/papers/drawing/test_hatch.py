"""Hatching."""

import pytest

from rodbook.papers.drawing.hatch import hatch

NOTCHED = ((0, 0), (4, 0), (4, 5), (8, 5), (8, 0), (20, 0), (20, 10), (0, 10))


def inside(point, outline):
    x, y = point
    crossings = 0
    for (x1, y1), (x2, y2) in zip(outline, (*outline[1:], outline[0]), strict=True):
        if (y1 <= y) != (y2 <= y) and x1 + (y - y1) / (y2 - y1) * (x2 - x1) > x:
            crossings += 1
    return crossings % 2 == 1


@pytest.mark.parametrize("angle", [45, 60, 135])
def test_lines_lie_inside_and_leave_the_notch_free(angle):
    lines = hatch(NOTCHED, step=1.0, angle=angle)
    assert len(lines) > 15
    for line in lines:
        (x1, y1), (x2, y2) = line.points
        for share in (0.02, 0.3, 0.5, 0.7, 0.98):
            assert inside((x1 + share * (x2 - x1), y1 + share * (y2 - y1)), NOTCHED)


def test_lines_fill_it():
    """The lines' length times their distance is the area, but for the rounding at the edges."""
    lines = hatch(((0, 0), (20, 0), (20, 10), (0, 10)), step=0.5)
    length = sum(((b[0] - a[0]) ** 2 + (b[1] - a[1]) ** 2) ** 0.5 for a, b in (line.points for line in lines))
    assert length * 0.5 == pytest.approx(200, rel=0.02)


def test_lines_rise_to_the_right():
    (x1, y1), (x2, y2) = max(
        hatch(((0, 0), (20, 0), (20, 10), (0, 10))), key=lambda line: abs(line.points[1][0] - line.points[0][0])
    ).points
    assert (x2 - x1) * (y2 - y1) < 0
