"""Free angles: against plain polygons at closely spaced angles, by hand, and as properties."""

import math

import pytest
from hypothesis import assume, given, settings
from hypothesis import strategies as st

from rodbook.errors import InputError
from rodbook.hinges.swing import (
    FixedPivot,
    Handle,
    Leaf,
    Obstacle,
    PathTable,
    SlopingPlane,
    block,
    cup_hinge_path,
    high_spot,
    inset_frame,
    lay_on_frame,
    swing,
)

SAMPLE_DEG = 0.1


# --- An independent checker: plain Python, nothing of the solver's geometry -----------------------------------------


def _crosses(a, b, c, d):
    def side(p, q, r):
        return (q[0] - p[0]) * (r[1] - p[1]) - (q[1] - p[1]) * (r[0] - p[0])

    return side(a, b, c) * side(a, b, d) < 0 and side(c, d, a) * side(c, d, b) < 0


def _within(point, polygon):
    inside, n = False, len(polygon)
    for k in range(n):
        (x0, y0), (x1, y1) = polygon[k - 1], polygon[k]
        if (y0 > point[1]) != (y1 > point[1]) and point[0] < x0 + (point[1] - y0) * (x1 - x0) / (y1 - y0):
            inside = not inside
    return inside


def _overlap(one, other):
    return (
        any(_within(p, other) for p in one)
        or any(_within(p, one) for p in other)
        or any(_crosses(one[i - 1], one[i], other[j - 1], other[j]) for i in range(len(one)) for j in range(len(other)))
    )


def _turned(points, hand, at, reference, shift, degrees):
    """Corners written anew: a complex number turned about the reference, then carried along and mirrored."""
    turn = complex(math.cos(math.radians(degrees)), math.sin(math.radians(degrees)))
    centre, moved = complex(*reference), complex(*shift)
    found = [(complex(*p) - centre) * turn + centre + moved for p in points]
    return [(at[0] + (z.real if hand == "left" else -z.real), at[1] + z.imag) for z in found]


def _rectangle(leaf, less=0.01):
    w, t = leaf.width - less, leaf.thickness - less
    return [(less, -less), (less, -t), (w, -t), (w, -less)]


def _sampled(leaf, path, outline, stop):
    rectangle = _rectangle(leaf)
    for k in range(int(stop / SAMPLE_DEG) + 1):
        angle = k * SAMPLE_DEG
        if _overlap(_turned(rectangle, leaf.hand, leaf.at, path.reference, path.shift(angle), angle), outline):
            return angle
    return None


leaves = st.builds(
    Leaf,
    st.floats(250, 700),
    st.floats(15, 40),
    st.sampled_from(["left", "right"]),
    st.tuples(st.floats(-500, 500), st.floats(-50, 50)),
)
pivots = st.builds(FixedPivot, st.floats(-5, 40), st.floats(-15, 12), st.just(120.0))
triangles = st.tuples(*[st.tuples(st.floats(-900, 900), st.floats(-60, 900))] * 3)
placed = st.tuples(st.floats(-800, 800), st.floats(0, 800), st.floats(20, 300), st.floats(20, 300))


def _shape(x, y, w, d):
    return ((x, y), (x + w, y), (x + w * 0.7, y + d), (x, y + d * 0.8))


@settings(max_examples=40, deadline=None)
@given(leaves, st.one_of(pivots, st.builds(cup_hinge_path, st.floats(15, 30))), placed)
def test_against_closely_sampled_polygons(leaf, path, where):
    outline = _shape(*where)
    found = swing(leaf, path, [Obstacle("thing", outline)])
    sampled = _sampled(leaf, path, outline, path.stop_deg)
    if sampled is None:
        # Only a contact too slight to be seen between two samples may have been found.
        assert found.free_deg == path.stop_deg or _slight(leaf, path, outline, found.free_deg)
    else:
        assert found.stopped_by == "thing"
        assert found.free_deg <= sampled + 1e-6
        assert found.free_deg >= sampled - SAMPLE_DEG - 0.01 or _slight(leaf, path, outline, found.free_deg)


def _slight(leaf, path, outline, angle):
    """Whether the leaf, just past this angle, does overlap by the independent checker."""
    rectangle = _rectangle(leaf)
    return any(
        _overlap(_turned(rectangle, leaf.hand, leaf.at, path.reference, path.shift(a), a), outline)
        for a in (angle + k * 0.0005 for k in range(1, 60))
    )


# --- By hand ---------------------------------------------------------------------------------------------------------


def test_a_wall_beside_the_hinge():
    # The free front corner, 400 mm out, meets a wall 100 mm to the left where cos = -1/4.
    found = swing(Leaf(400, 20), FixedPivot(), [block("wall", (-300, -100), (0, 900))])
    assert found.free_deg == pytest.approx(math.degrees(math.acos(-0.25)), abs=0.01)
    assert found.contacts[0].at == pytest.approx((-100, 400 * math.sqrt(15) / 4), abs=0.05)
    assert found.enough


def test_a_radiator_only_where_it_stands_in_height():
    radiator = block("the radiator", (100, 300), (300, 400), bottom=100, top=700)
    assert swing(Leaf(450, 20, bottom=10), FixedPivot(), [radiator]).stopped_by == "the radiator"
    assert swing(Leaf(450, 20, bottom=700), FixedPivot(), [radiator]).stopped_by == ""


def test_a_handle_meets_the_wall_first():
    wall = block("the wall", (-300, -30), (0, 900))
    plain = swing(Leaf(400, 20), FixedPivot(0, 0), [wall])
    found = swing(Leaf(400, 20, handles=(Handle(360, 20, 40),)), FixedPivot(0, 0), [wall])
    assert str(found).startswith("The handle of the leaf meets the wall at ")
    assert found.free_deg < plain.free_deg
    # By hand: the handle's nearer corner, at (350, 40), meets x = -30 where r cos(a + b) = -30.
    by_hand = math.degrees(math.acos(-30 / math.hypot(350, 40)) - math.atan2(40, 350))
    assert found.free_deg == pytest.approx(by_hand, abs=0.01)


def test_a_sloping_ceiling():
    # Ceiling at 2100 mm over the front, falling 0.5 mm per mm into the room: reached where 400 sin(a) = 200.
    slope = SlopingPlane("the slope", "ceiling", 2100, slope_y=-0.5)
    found = swing(Leaf(400, 20, top=2000), FixedPivot(), planes=[slope])
    assert (found.stopped_by, found.free_deg) == ("the slope", pytest.approx(30, abs=0.01))
    assert swing(Leaf(400, 20, top=1899), FixedPivot(), planes=[slope]).free_deg == 180
    assert swing(Leaf(400, 20, top=2111), FixedPivot(), planes=[slope]).free_deg == 0


def test_a_rising_floor_and_a_high_spot():
    floor = SlopingPlane("the floor", "floor", 0, slope_x=0, slope_y=0.02)
    found = swing(Leaf(500, 20, bottom=5), FixedPivot(), planes=[floor])
    assert found.free_deg == pytest.approx(30, abs=0.1)  # 500 sin(a) x 0.02 = 5
    spot = high_spot("a high spot", (200, 200), 8)
    assert swing(Leaf(500, 20, bottom=7), FixedPivot(), [spot]).stopped_by == "a high spot"
    assert swing(Leaf(500, 20, bottom=8), FixedPivot(), [spot]).stopped_by == ""


def test_frames_let_common_leaves_out_and_bind_too_tight_ones():
    path = cup_hinge_path(22)
    frame = lay_on_frame(
        450, leaf_thickness=22, lap=16, margins=4, lining_thickness=18, lining_depth=100, trim=(70, 22)
    )
    assert swing(Leaf(450, 22), path, frame).enough
    tight = lay_on_frame(
        450, leaf_thickness=22, lap=16, margins=2, lining_thickness=18, lining_depth=100, trim=(70, 22)
    )
    found = swing(Leaf(450, 22), path, tight)
    # By hand: the leaf reaches 8.16 s - 6.65 s² beyond its closed edge, s being the sine: 2 mm at s = 0.338, 19.8 degrees.
    assert (found.stopped_by, found.free_deg) == ("the left trim", pytest.approx(19.8, abs=0.5))
    inset = inset_frame(450, margins=4, lining_thickness=18, lining_depth=100, trim=(70, 15), trim_set_back=6)
    assert swing(Leaf(450, 22), path, inset).enough


def test_what_would_stop_it_next_is_listed():
    found = swing(
        Leaf(400, 20), FixedPivot(), [block("far", (-300, -200), (0, 900)), block("near", (-300, -100), (0, 900))]
    )
    assert [c.name for c in found.contacts] == ["near", "far"]


def test_something_in_the_closed_leaf():
    found = swing(Leaf(400, 20), FixedPivot(), [block("thing", (100, 120), (-15, -5))])
    assert (found.free_deg, found.stopped_by, found.enough) == (0, "thing", False)
    assert str(found) == "The leaf meets thing at 0.0°, short of the 90° wanted."


def test_faults():
    with pytest.raises(InputError, match="leaf: its width has to be above zero, not 0 mm"):
        Leaf(0, 20)
    with pytest.raises(InputError, match="thing: its outline needs three corners"):
        Obstacle("thing", ((0, 0), (1, 1), (1, 0), (0, 1)))
    with pytest.raises(InputError, match="it has to be above 0"):
        swing(Leaf(400, 20), FixedPivot(), wanted_deg=0)
    with pytest.raises(InputError) as caught:
        PathTable((0, 0), ((1, 0, 0), (1, 0, 0)))
    assert [f.where for f in caught.value.faults] == ["path", "path, row 2"]


# --- Properties ------------------------------------------------------------------------------------------------------


@settings(max_examples=40, deadline=None)
@given(leaves, st.one_of(pivots, st.builds(cup_hinge_path, st.floats(15, 30))), placed)
def test_a_mirrored_swing_has_the_same_angle(leaf, path, where):
    outline = _shape(*where)
    mirrored = Leaf(leaf.width, leaf.thickness, "right" if leaf.hand == "left" else "left", (-leaf.at[0], leaf.at[1]))
    one = swing(leaf, path, [Obstacle("thing", outline)])
    other = swing(mirrored, path, [Obstacle("thing", tuple((-x, y) for x, y in outline))])
    assert one.free_deg == pytest.approx(other.free_deg, abs=0.01)


@settings(max_examples=40, deadline=None)
@given(st.floats(300, 600), st.floats(16, 30), st.floats(0.5, 6), st.floats(0, 4))
def test_a_wider_margin_never_takes_freedom(width, thickness, margin, more):
    path = cup_hinge_path(thickness)

    def free(m):
        frame = inset_frame(width, margins=m, lining_thickness=18, lining_depth=100, trim=(70, 18))
        return swing(Leaf(width, thickness), path, frame).free_deg

    assert free(margin + more) >= free(margin) - 0.01


@settings(max_examples=40, deadline=None)
@given(leaves, pivots, placed, placed)
def test_more_in_the_way_never_gives_freedom(leaf, path, one, other):
    first, second = Obstacle("one", _shape(*one)), Obstacle("other", _shape(*other))
    assert swing(leaf, path, [first, second]).free_deg <= swing(leaf, path, [first]).free_deg


@settings(max_examples=30, deadline=None)
@given(leaves, pivots, placed)
def test_a_table_of_a_pin_is_the_pin(leaf, pivot, where):
    # The same motion, followed at the leaf's corner instead of at the pin, in rows of a twentieth of a degree.
    corner, rows = complex(0, -leaf.thickness), []
    for k in range(2401):
        turn = complex(math.cos(math.radians(k / 20)), math.sin(math.radians(k / 20)))
        moved = (corner - complex(pivot.x, pivot.y)) * (turn - 1)
        rows.append((k / 20, moved.real, moved.imag))
    table = PathTable((0.0, -leaf.thickness), ((0, 0, 0), *rows[1:]))
    thing = [Obstacle("thing", _shape(*where))]
    one, other = swing(leaf, pivot, thing), swing(leaf, table, thing)
    assume(0 < one.free_deg < 119)
    assert one.free_deg == pytest.approx(other.free_deg, abs=0.02)
