"""Edging, machining, film and rounding: by hand, and what holds for every set-out."""

from itertools import product

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from rodbook.errors import Infeasible
from rodbook.setout import Frame, PartKind, RakedFrame, schedule, set_out
from rodbook.working import Measure


def _frame(width=827, height=2024, leaves=2, *, sill=False):
    return Frame(Measure(width, "lining width"), Measure(height, "lining height"), leaves, "left", sill)


def _door(result):
    return next(p.part for p in result.parts if p.part.kind is PartKind.DOOR)


def _seen(result):
    return {gap.name: (gap.asked.value, gap.made.value, pytest.approx(gap.seen.value)) for gap in result.seen}


def test_paint_closes_a_gap_from_both_sides_and_rounding_opens_it(inset, stock):
    """Three coats of 60 µm are 0.18 mm a face. Lining 828 wide: clear 792, leaves (792 - 6 - 3) / 2 = 391.5, to 1 mm 391.

    margin  (792 - 785) / 2 = 3.5 made, 3.5 - 2 x 0.18 = 3.14 seen; meeting gap 3 - 0.36; under the leaf one film only
    """
    painted = inset.model_copy(update={"film": 60.0, "coats": 3, "step": 1.0})
    result = set_out(painted, stock(painted), _frame(828))
    assert _seen(result) == {
        "margin at each side": (3, 3.5, 3.14),
        "gap over the leaf": (3, 3, 2.64),
        "gap under the leaf": (8, 8, 7.82),
        "meeting gap": (3, 3, 2.64),
    }
    (margin,) = [gap.seen for gap in result.seen if gap.name == "margin at each side"]
    assert margin.working() == (
        "margin at each side, as it will be seen = margin at each side 3.5 − 2 × film on each face 0.18 = 3.14"
    )


@pytest.mark.parametrize(("step", "leaf", "margin"), [(0.1, 391.2, 3.05), (0.5, 391.0, 3.25), (1.0, 391.0, 3.25)])
def test_what_the_workshops_step_does_to_the_margin(inset, stock, step, leaf, margin):
    # By hand: lining 827.5, clear 791.5; leaves (791.5 - 9) / 2 = 391.25; margin (791.5 - 2 leaves - 3) / 2.
    stepped = inset.model_copy(update={"step": step})
    result = set_out(stepped, stock(stepped), _frame(827.5))
    assert result.leaf_width.value == pytest.approx(leaf)
    assert result.seen[0].made.value == pytest.approx(margin)
    assert result.seen[0].asked.value == 3


def test_lipping_is_taken_off_the_core_on_the_edges_that_are_seen(inset, stock):
    """Leaf 391 x 1995 with 5 mm lippings: core 381 x 1985, cut 3 mm over: 384 x 1988. Legs: front edge alone, 140 - 2 = 138."""
    lipped = inset.model_copy(
        update={
            "leaf_edge": "lipped",
            "leaf_edge_thickness": 5.0,
            "lining_edge": "taped",
            "lining_edge_thickness": 2.0,
            "machining": 3.0,
        }
    )
    result = set_out(lipped, stock(lipped), _frame())
    door = _door(result)
    assert (door.length.value, door.width.value) == (1995, 391)
    assert [m.value for m in door.core] == [1985, 381]
    assert (door.cut_length, door.cut_width) == (1988, 384)
    leg = next(p.part for p in result.parts if p.part.kind is PartKind.LINING_LEG)
    assert [m.value for m in leg.core] == [2024, 138]
    trim = next(p.part for p in result.parts if p.part.kind is PartKind.TRIM_LEG)
    assert trim.cut is None
    assert result.seen[0].seen is result.seen[0].made
    plain = set_out(inset, stock(inset), _frame())
    assert len(schedule([("C1", door, 1), ("C2", _door(plain), 1)])) == 2  # two parts to make, though of one size


def test_edging_put_on_over_the_size_closes_margins_once_and_the_meeting_gap_twice(inset, stock):
    taped = inset.model_copy(update={"leaf_edge": "taped", "leaf_edge_thickness": 1.0, "edging_taken_off": False})
    result = set_out(taped, stock(taped), _frame())
    door = _door(result)
    assert [m.value for m in door.core] == [door.length.value, door.width.value]
    assert {g.name: g.seen.value for g in result.seen} == {
        "margin at each side": 2,
        "gap over the leaf": 2,
        "gap under the leaf": 7,
        "meeting gap": 1,
    }


def test_the_core_of_a_sloping_leaf_is_its_outline_drawn_in(inset, stock):
    """594 wide, 1950 and 1504.5 high, falls 3 in 4; 5 mm lippings.

    The top line drawn in square by 5 is 6.25 lower plumb; at the inner high edge, 5 further in, another 3.75 lower.
    core length 1950 - 6.25 - 3.75 - 5 = 1935, width 584
    """
    lipped = inset.model_copy(update={"leaf_edge": "lipped", "leaf_edge_thickness": 5.0})
    frame = RakedFrame(Measure(636, "w"), Measure(2000, "l"), Measure(1523, "r"), 1, "left", sill=False)
    door = _door(set_out(lipped, stock(lipped), frame))
    assert [m.value for m in door.core] == pytest.approx([1935, 584])


@pytest.mark.parametrize(
    ("changes", "sentence"),
    [
        (
            {"film": 500.0, "coats": 4},
            "the margin at each side would be -1.0 mm and the gap over the leaf would be -1.0 mm",
        ),
        ({"gap_least": 3.2}, "less than the least of 3.2 mm; ask for wider margins"),
    ],
)
def test_gaps_that_close_are_said_all_at_once(inset, stock, changes, sentence):
    tight = inset.model_copy(update=changes)
    with pytest.raises(Infeasible, match=sentence):
        set_out(tight, stock(tight), _frame())


quiet = settings(max_examples=60, deadline=None, suppress_health_check=[HealthCheck.function_scoped_fixture])


@quiet
@given(
    st.floats(500, 1500).map(round),
    st.integers(1, 3),
    st.sampled_from([0.1, 0.5, 1.0]),
    st.floats(0, 90),
    st.integers(0, 3),
    st.floats(0.5, 6).map(lambda v: round(v, 1)),
    st.booleans(),
    st.booleans(),
)
def test_leaf_film_edging_and_seen_gap_fill_the_opening(
    book, stock, width, leaves, step, film, coats, edging, taken_off, lies_on
):
    build_up = book.build_ups[1 if lies_on else 0].model_copy(
        update={
            "step": step,
            "film": film,
            "coats": coats,
            "leaf_edge": "lipped",
            "leaf_edge_thickness": edging,
            "edging_taken_off": taken_off,
        }
    )
    try:
        result = set_out(build_up, stock(build_up), _frame(width, leaves=leaves))
    except Infeasible:
        return
    seen = {gap.name: gap.seen.value for gap in result.seen}
    side = seen["margin to the trim" if lies_on else "margin at each side"]
    room = result.dimension("trim sight width").value if lies_on else result.clear_width.value
    core = next(p.part for p in result.parts if p.part.kind is PartKind.DOOR).core[1].value
    layers = 2 * edging + 2 * coats * film / 1000  # on both edges of each leaf
    total = 2 * side + leaves * (core + layers) + (leaves - 1) * seen.get("meeting gap", 0.0)
    assert total + 2 * coats * film / 1000 == pytest.approx(room)  # and the film on what stands beside


def test_every_edge_that_asks_for_a_thickness_needs_one(book):
    from rodbook.job.checks import check_book

    for way, thick in product(("raw", "primed", "taped", "lipped"), (0.0, 2.0)):
        changed = book.build_ups[0].model_copy(update={"leaf_edge": way, "leaf_edge_thickness": thick})
        faults = check_book(book.model_copy(update={"build_ups": (changed, *book.build_ups[1:])}))
        wrong = (way in ("taped", "lipped")) != (thick > 0)
        assert [f.where for f in faults] == (["build_ups[1].leaf_edge_thickness (inset, painted)"] if wrong else [])


def test_a_gap_that_is_closed_to_nothing_is_refused(inset, stock):
    """Margins of 3 and three coats of 500 µm: 2 × 1.5 = 3 leave nothing at all, which no least gap has to say."""
    closed = inset.model_copy(update={"coats": 3, "film": 500.0, "floor_clearance": 8.0})
    with pytest.raises(Infeasible, match=r"the margin at each side would be 0\.0 mm"):
        set_out(closed, stock(closed), Frame(Measure(839, "w"), Measure(2024, "h"), 2, "left", sill=False))
