"""The shape by least squares: it finds outlines that are known, says how sure it is, and what it takes for granted."""

import dataclasses
import json
import math
from functools import partial

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from rodbook import survey
from rodbook.errors import InputError
from rodbook.survey import (
    INSTRUMENTS,
    Instrument,
    bow,
    depth,
    diagonal,
    height,
    level,
    plumb,
    rectangle_from_shape,
    upright_rectangle,
    width,
)

adjust_shape = partial(survey.adjust_shape, building=None)
"""By the readings alone: what follows by hand, or from a known outline, must not rest on what a building is like."""


@pytest.mark.parametrize("raked", [False, True])
def test_readings_without_error_give_the_outline_back(making, raked):
    rng = np.random.default_rng(11)
    for _ in range(40):
        opening = making.opening(rng, raked=raked)
        shape = adjust_shape(opening.read(making.full()), raked=raked)
        assert np.array(shape.points) == pytest.approx(np.array(opening.outline), abs=0.06)
        assert shape.agreement.misfit < 0.01


def test_true_outlines_lie_within_the_stated_errors_as_often_as_they_should(making):
    """2,000 openings, 28,000 coordinates: 95% within 1.96 standard errors; the misfit has its mean."""
    rng = np.random.default_rng(7)
    within, misfits, passed = [], [], []
    for _ in range(2000):
        opening = making.opening(rng)
        shape = adjust_shape(opening.read(making.full(), rng))
        for vertex in shape.vertices[1:]:
            x, y = opening.points[vertex.name]
            within += [abs(vertex.x_mm - x) < 1.96 * vertex.x_error_mm, abs(vertex.y_mm - y) < 1.96 * vertex.y_error_mm]
        misfits.append(shape.agreement.variance_factor)
        passed.append(shape.agreement.least <= shape.agreement.misfit <= shape.agreement.most)
    assert np.mean(within) == pytest.approx(0.95, abs=0.01)
    assert np.mean(misfits) == pytest.approx(1.0, abs=0.05)
    assert np.mean(passed) == pytest.approx(0.95, abs=0.02)


def test_redundancies_add_up_to_the_degrees_of_freedom(making):
    rng = np.random.default_rng(3)
    shape = adjust_shape(making.opening(rng).read(making.full(), rng))
    assert shape.degrees_of_freedom == 20 - 10
    assert sum(fit.redundancy for fit in shape.readings) == pytest.approx(10)
    for fit in shape.readings:
        assert fit.least_slip_mm == pytest.approx(4.13 * fit.standard_error_mm / math.sqrt(fit.redundancy), rel=1e-3)


def test_a_shape_prints_as_json(making):
    rng = np.random.default_rng(5)
    shape = adjust_shape([*making.opening(rng).read(making.full(), rng), depth(450, "foot"), depth(447, "head")])
    printed = json.loads(json.dumps(dataclasses.asdict(shape)))
    assert [vertex["name"] for vertex in printed["vertices"]] == list("AFBRCHDL")
    assert shape.least_depth.value_mm == pytest.approx(447)


def test_two_readings_give_a_rectangle_and_say_what_was_taken_for_granted():
    shape = adjust_shape([width(800, "foot"), height(2000, "left")])
    assert np.array(shape.points) == pytest.approx(np.array([(0, 0), (800, 0), (800, 2000), (0, 2000)]))
    assert shape.exact == (
        "The sides are taken as straight: nothing was read in their middle.",
        "The floor and the head are taken as straight: nothing was read in their middle.",
        "The floor is taken as level.",
        "Neither a diagonal nor a plumb line shows a lean: the left side is taken as plumb.",
        "Too few widths and diagonals: the right side is taken as plumb.",
        "Too few heights: the head is taken as level.",
    )
    assert (shape.degrees_of_freedom, shape.agreement, len(shape.unchecked)) == (0, None, 2)


@pytest.mark.parametrize(
    ("readings", "raked", "sentence"),
    [
        (
            [width(800, "foot")],
            False,
            "readings: no height was read, so the outline can't be found; read the height at left",
        ),
        (
            [height(2000, "left")],
            False,
            "readings: no width was read, so the outline can't be found; read the width at foot",
        ),
        ([], False, "readings: no height was read, so the outline can't be found; read the height at left"),
        (
            [width(800, "foot"), height(2000, "left")],
            True,
            "readings: the head is raked and the outline can't be found from these readings; read the height at right as well",
        ),
        (
            [width(-5, "foot"), height(2000, "top")],
            False,
            (
                "width at foot: -5 mm can't be; a width is above 0 and not above 20000 mm\n"
                "height at top: 'top' is no place to read at; give left, middle or right, or millimetres from the left foot"
            ),
        ),
        (
            [width(math.nan, "foot"), height(2000, "left", by="stick")],
            False,
            (
                "width at foot: nan is not a length; write it in millimetres\n"
                "height at left: 'stick' is no instrument in the table, which has tape, laser, level, plumb"
            ),
        ),
    ],
)
def test_what_cannot_be_is_said_in_a_sentence(readings, raked, sentence):
    with pytest.raises(InputError) as caught:
        adjust_shape(readings, raked=raked)
    assert str(caught.value) == sentence


def test_an_outline_that_crosses_itself_is_refused_by_the_name_of_a_reading():
    # By hand: both sides lean 900 mm towards each other over a floor of 800 mm.
    readings = [
        width(800, "foot"),
        height(2000, "left"),
        height(2000, "right"),
        plumb("left", 900),
        plumb("right", -900),
    ]
    with pytest.raises(InputError, match="crosses itself, and this one fits least; read it again"):
        adjust_shape(readings)


def test_a_level_reading_frees_the_floor():
    shape = adjust_shape(
        [
            width(800, "foot"),
            width(800, "head"),
            height(2000, "left"),
            height(2000, "right"),
            level("floor", 4),
            diagonal(math.hypot(800, 2004), "foot left"),
            diagonal(math.hypot(800, 1996), "foot right"),
        ]
    )
    assert shape.vertex("B").y_mm == pytest.approx(4)
    assert not any("floor is taken as level" in sentence for sentence in shape.assumed)


def test_a_width_alone_can_not_tell_which_side_is_bowed():
    readings = [
        width(800, "foot"),
        width(794, "middle"),
        width(800, "head"),
        height(2000, "left"),
        height(2000, "right"),
    ]
    assert adjust_shape(readings).vertex("R").x_mm == pytest.approx(794)
    shape = adjust_shape([*readings, bow("left", 6)])
    assert shape.vertex("L").x_mm == pytest.approx(6)
    assert shape.vertex("R").x_mm == pytest.approx(800)


def test_a_sharper_instrument_weighs_more():
    readings = [width(800, "foot"), width(806, "foot", by="fine"), height(2000, "left")]
    fine = {**INSTRUMENTS, "fine": Instrument("fine", 0.5)}
    # By hand: weights 1/1.5^2 and 1/0.5^2 are as 1 to 9.
    shape = adjust_shape(readings, instruments=fine)
    assert shape.vertex("B").x_mm == pytest.approx((800 + 9 * 806) / 10)
    assert [fit.name for fit in shape.readings][:2] == ["width at foot", "width at foot, second reading"]
    assert shape.agreement.sentence == "The readings differ more than their standard errors let expect."


@given(
    foot=st.floats(500, 1500),
    spread=st.floats(-8, 8),
    lean=st.floats(-12, 12),
    left=st.floats(1800, 2300),
    rise=st.floats(-8, 8),
)
def test_with_readings_that_agree_it_says_what_the_upright_rectangle_says(foot, spread, lean, left, rise):
    """With straight sides: of a bow that may be in either the rectangle takes the lesser, readings alone the right side's."""
    head, right = foot + spread, left + rise
    widths = (foot, (foot + head) / 2, head)
    heights = (left, (left + right) / 2, right)
    corners = [(0, 0), (foot, 0), (lean + head, right), (lean, left)]
    across = math.dist(corners[0], corners[2]), math.dist(corners[1], corners[3])
    old = upright_rectangle(widths, heights, diagonals_mm=across)
    new = rectangle_from_shape(
        adjust_shape(
            [width(v, p) for v, p in zip(widths, ("foot", "middle", "head"), strict=True)]
            + [height(v, p) for v, p in zip(heights, ("left", "middle", "right"), strict=True)]
            + [diagonal(across[0], "foot left"), diagonal(across[1], "foot right")]
        )
    )
    # A head out of level and leaning sides meet in corners that a level or plumb tape misses by lean times rise over
    # width; the rectangle leaves that out, the shape does not.
    near = 0.06 + 2 * (abs(lean) + abs(spread)) * abs(rise) / min(foot, head)
    assert new.width.value == pytest.approx(old.width.value, abs=near)
    assert new.height.value == pytest.approx(old.height.value, abs=near)
    assert new.lean_mm == pytest.approx(old.lean_mm, abs=near)
    assert "The floor is taken as level." in map(str, new.remarks)


def test_with_a_plumb_line_besides_it_is_nearer_to_the_truth_than_the_eight_readings_as_they_stand(making):
    """The rectangle takes each reading as it stands; least squares shares out what they disagree by."""
    rng = np.random.default_rng(21)
    old, new = [], []
    for _ in range(300):
        opening = making.opening(rng, bowed=False)
        readings = opening.read([*making.eight(), plumb("left", 0), plumb("right", 0)], rng)
        values = [r.value_mm for r in readings]
        truth = rectangle_from_shape(adjust_shape(opening.read(making.full()))).width.value
        old.append(
            upright_rectangle(tuple(values[:3]), tuple(values[3:6]), diagonals_mm=tuple(values[6:8])).width.value
            - truth
        )
        new.append(rectangle_from_shape(adjust_shape(readings)).width.value - truth)
    assert np.std(new) < 0.8 * np.std(old)
