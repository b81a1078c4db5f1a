"""Angles of mitres against published tables and worked figures."""

import math

import pytest

from rodbook.setout import RakedFrame, mitre, mitre_unequal, past_the_corner
from rodbook.setout.raked.line import SlopingLine
from rodbook.working import Measure


@pytest.mark.parametrize(("corner", "scale"), [(90, 45.0), (145, 17.5)])
def test_what_the_saw_reads(corner, scale):
    """90 and 145 degrees: published guides to mitring trim (quoted; half of 180 less the corner)."""
    assert mitre(corner) == scale


def test_the_angle_from_the_edge():
    """A corner of 135 is cut at 67.5 from the edge: a published table in that convention (quoted)."""
    assert 90 - mitre(135) == 67.5


@pytest.mark.parametrize(("slope", "low", "high"), [(30, 30, 60), (35, 27.5, 62.5), (12.5, 38.75, 51.25)])
def test_the_two_corners_of_a_raked_head(slope, low, high):
    """Corners of 90 + slope and 90 - slope, by the same rule (computed)."""
    assert mitre(90 + slope) == low
    assert mitre(90 - slope) == high


def test_edges_of_a_trim_under_a_rake_of_thirty_degrees():
    """70 mm trim: outer edge longer by 40.41 at the low corner, 121.24 at the high; mitre lines 80.83, 140.00 (computed)."""
    assert past_the_corner(70, 120) == pytest.approx(40.41, abs=0.005)
    assert past_the_corner(70, 60) == pytest.approx(121.24, abs=0.005)
    assert math.hypot(70, past_the_corner(70, 120)) == pytest.approx(80.83, abs=0.005)
    assert math.hypot(70, past_the_corner(70, 60)) == pytest.approx(140.00, abs=0.005)


@pytest.mark.parametrize(
    ("widths", "corner", "edges"),
    [((70, 45), 90, (57.265, 32.735)), ((70, 45), 120, (80.633, 39.367)), ((70, 70), 120, (60, 60))],
)
def test_trims_of_unlike_width(widths, corner, edges):
    """Angles from each piece's edge, which together make the corner (computed; at 90 degrees it is arctan of the widths)."""
    first, second = (90 - mitre_unequal(a, b, corner) for a, b in (widths, widths[::-1]))
    assert (first, second) == pytest.approx(edges, abs=0.0005)
    assert first + second == pytest.approx(corner)


def test_a_head_that_rises_seven_in_twelve():
    """7 in 12 is 30.2564 degrees and 13.89 along the slope for 12 level (published rafter table, quoted; 13.89 from memory)."""
    frame = RakedFrame(Measure(1200, "width"), Measure(1500, "left"), Measure(2200, "right"), 1, "left", sill=False)
    line = SlopingLine.over(frame)
    assert line.degrees.value == pytest.approx(30.2564, abs=0.00005)
    assert line.stretch.value / 1000 * 12 == pytest.approx(13.89, abs=0.005)
    assert mitre(90 + line.degrees.value) == pytest.approx((90 - 30.2564) / 2, abs=0.00005)
