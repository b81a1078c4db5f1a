"""Misread readings: named, with what they should have been near; offers that are only offers; what checks nothing."""

from dataclasses import replace

import numpy as np
import pytest

from rodbook.errors import InputError
from rodbook.survey import (
    adjust_shape,
    depth,
    diagonal,
    height,
    level,
    one_more_reading,
    plumb,
    survey_opening,
    width,
)
from rodbook.survey.slips import common_slips

NINE = [
    width(842, "foot"),
    width(842, "head"),
    height(2010, "left"),
    height(2010, "right"),
    plumb("left", 0),
    plumb("right", 0),
    level("floor", 0),
    diagonal(2179.2, "foot left"),
    diagonal(2179.2, "foot right"),
]
TEN = [*NINE, level("head", 0)]


def _with_slip(readings, row, by):
    return [replace(r, value_mm=r.value_mm + by) if i == row else r for i, r in enumerate(readings)]


@pytest.mark.parametrize("by", ["tape", "laser"])
def test_a_planted_slip_of_ten_millimetres_and_more_is_named(making, by):
    """Full readings, slips of 10 to 200 mm: the right one first in at least 95 of 100 (the benchmark prints the figures)."""
    rng = np.random.default_rng(17)
    named, near = 0, []
    for _ in range(200):
        opening = making.opening(rng)
        readings = opening.read(making.full(by=by), rng)
        row = int(rng.integers(len(readings)))
        slip = float(rng.choice([-1, 1]) * np.exp(rng.uniform(np.log(10), np.log(200))))
        found = survey_opening(_with_slip(readings, row, slip))
        first = found.suspects[0].retakes[0] if found.suspects else None
        if first and first.name == readings[row].name:
            named += 1
            near.append(abs(first.expected_mm - opening.value(readings[row])) / max(first.expected_error_mm, 1e-9))
    assert named >= 190
    assert np.mean(np.array(near) < 1.96) > 0.85


def test_sound_readings_are_left_in_peace(making):
    """Twenty readings at a risk of 0.001 each: at most two openings in a hundred are troubled for nothing."""
    rng = np.random.default_rng(23)
    troubled = sum(bool(survey_opening(making.opening(rng).read(making.full(), rng)).suspects) for _ in range(300))
    assert troubled <= 12


def test_two_slips_are_found_one_after_the_other(making):
    rng = np.random.default_rng(29)
    readings = making.opening(rng).read(making.full(), rng)
    found = survey_opening(_with_slip(_with_slip(readings, 0, 60), 5, -45))
    assert set(found.left_out) == {"width at foot", "height at right"}
    assert found.is_settled
    sound = adjust_shape([r for i, r in enumerate(readings) if i not in (0, 5)])
    assert np.array(found.shape.points) == pytest.approx(np.array(sound.points), abs=0.05)


def test_a_slip_that_nothing_tells_apart_names_all_that_it_may_be_and_leaves_nothing_out():
    readings = [r for r in NINE if r.kind not in ("plumb", "level")]
    found = survey_opening(_with_slip(readings, 4, 40))
    (suspect,) = found.suspects
    assert not found.is_settled
    assert found.left_out == ()
    assert {"diagonal foot left to head right", "diagonal foot right to head left"} <= {r.name for r in suspect.retakes}
    assert suspect.sentence.startswith(
        "One of these readings is wrong, and the others can't tell which. Take them again: "
    )


@pytest.mark.parametrize(
    ("row", "written", "kind", "meant"),
    [
        (0, 482, "digits exchanged", 842.0),
        (0, 852, "10 mm out", 842.0),
        (2, 1910, "100 mm out", 2010.0),
        (0, 331.5, "inches", 842.0),
        (0, 84.2, "decimal point", 842.0),
        (7, 842, "wrong box", 2179.2),
    ],
)
def test_common_slips_are_offered_and_not_applied(row, written, kind, meant):
    readings = [replace(r, value_mm=written) if i == row else r for i, r in enumerate(TEN)]
    found = survey_opening(readings)
    retake = found.suspects[0].retakes[0]
    assert (retake.name, retake.value_mm) == (TEN[row].name, written)
    assert (kind, pytest.approx(meant, abs=0.5)) in [(offer.kind, offer.would_be_mm) for offer in retake.offers]
    # Nothing was changed: what the shape was made from is what was written, or does without it.
    assert found.left_out == ((TEN[row].name,) if found.is_settled else ())
    assert {fit.value_mm for fit in found.shape.readings} <= {r.value_mm for r in readings}


def test_a_sign_written_the_wrong_way_and_two_boxes_exchanged_are_offered():
    assert [s.kind for s in common_slips(plumb("left", -12), 11.4, 1.5)] == ["wrong way"]
    other = (height(842, "left"), 2010.3, 2.0)
    assert [s.sentence for s in common_slips(width(2010, "foot"), 841.0, 2.0, others=[other])] == [
        "Was it exchanged with the height at left, 842.0 mm?"
    ]


def test_readings_that_contradict_beyond_any_error_are_refused_by_name(making):
    rng = np.random.default_rng(31)
    readings = making.opening(rng).read(making.full(), rng)
    for row, by in ((0, 300), (4, -250), (6, 400), (9, 90)):
        readings = _with_slip(readings, row, by)
    with pytest.raises(InputError) as caught:
        survey_opening(readings)
    (fault,) = caught.value.faults
    assert fault.where in {r.name for r in readings}
    assert "contradicts the other readings beyond any error" in fault.what


def test_the_risk_sets_the_limit():
    # By hand: two widths, w = |difference| / (1.5 sqrt 2); 5 mm give 2.36, between 1.96 (0.05) and 3.29 (0.001).
    readings = [width(840, "foot"), width(845, "foot"), height(2010, "left")]
    assert not survey_opening(readings).suspects
    assert survey_opening(readings, risk=0.05).suspects[0].w == pytest.approx(5 / (1.5 * 2**0.5))
    with pytest.raises(InputError, match=r"risk: 1\.5 is no chance; it is above 0 and below 1"):
        survey_opening(readings, risk=1.5)


def test_a_depth_read_twice_is_checked_too():
    found = survey_opening([*NINE, depth(450, "foot"), depth(540, "foot")])
    assert {r.name for r in found.suspects[0].retakes} == {"depth at foot", "depth at foot, second reading"}


def test_one_more_reading_is_the_one_that_checks_most():
    more = one_more_reading([*NINE[:4], plumb("left", 0)])
    assert more.name == "right side out of plumb at head"
    assert "width at head" in more.checks
    before, after = adjust_shape(NINE[:5]), adjust_shape([*NINE[:5], plumb("right", 0)])
    assert set(more.checks) <= set(before.unchecked)
    assert not set(more.checks) & set(after.unchecked)


def test_where_only_a_second_reading_helps_it_says_so():
    assert (
        one_more_reading([*NINE, depth(450, "foot")]).sentence
        == "Read the depth at foot again: it would check depth at foot."
    )


def test_where_all_is_checked_nothing_more_is_asked_for(making):
    rng = np.random.default_rng(37)
    assert one_more_reading(making.opening(rng).read(making.full(), rng)) is None


def test_what_nothing_checks_at_all_goes_before_what_is_checked_a_little():
    eight = [
        *(width(842, at) for at in ("foot", "middle", "head")),
        *(height(2010, at) for at in ("left", "middle", "right")),
        diagonal(2179.2, "foot left"),
        diagonal(2179.2, "foot right"),
    ]
    more = one_more_reading(eight)
    assert "width at foot" not in adjust_shape(eight).unchecked
    assert set(more.checks) & set(adjust_shape(eight).unchecked)
