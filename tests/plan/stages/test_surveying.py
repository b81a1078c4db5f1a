"""Readings of an opening on their way through survey and plan."""

import json
import math

import pytest

from rodbook.errors import InputError
from rodbook.job import Book, Job, Opening
from rodbook.plan import plan_json, plan_parts
from rodbook.plan.stages.packing import wall_fit
from rodbook.plan.stages.surveying import instruments_of, next_reading, readings_of, rectangle_of, survey_of
from rodbook.survey import rectangle_from_shape, upright_rectangle

USUAL = {"mark": "C1", "leaves": 2, "widths": (842, 842, 842), "heights": (2030, 2030, 2030), "depth": 455}
FAIR = math.hypot(842, 2030)


def opening(**change):
    return Opening.model_validate({**USUAL, **change})


def job_of(*openings):
    header = {"name": "Trial", "date": "2026-11-02", "build_up": "inset, painted"}
    return Job.model_validate({"format": 1, "job": header, "openings": [o.model_dump() for o in openings]})


@pytest.fixture
def fine(book):
    """The book with readings to a hundredth of a millimetre and straight sides that may lean: what follows is had by hand."""
    return _read_to(book, 0.01)


def _read_to(book, error):
    by = [{"name": n, "error": error, "source": "for the test"} for n in ("tape", "level", "plumb")]
    old = {"name": "old", "plumb_per_metre": 2.0, "level_per_metre": 2.0, "bow_per_metre": 0.02, "ripple": 0}
    return Book.model_validate({**book.model_dump(), "instruments": by, "ages": [{**old, "source": "for the test"}]})


def test_every_reading_has_its_name_value_and_instrument():
    taken = opening(
        diagonals=(2199, 2196),
        readings={
            "plumb-left": 3,
            "plumb-right-middle": -1,
            "level-floor": 2,
            "level-head-600": 1,
            "bow-head": 4,
            "width-600": 843,
            "height-400": 2031,
            "diagonal-right": 2197,
            "depth-top": 460,
            "plumb-left-again": 3.5,
        },
        read_by={"width": "laser", "width-600": "tape", "bow": "laser"},
    )
    told = [(r.what, r.value_mm, r.by) for r in readings_of(taken)]
    assert told == [
        ("width at foot", 842, "laser"),
        ("width at middle", 842, "laser"),
        ("width at head", 842, "laser"),
        ("height at left", 2030, "tape"),
        ("height at middle", 2030, "tape"),
        ("height at right", 2030, "tape"),
        ("diagonal foot left to head right", 2199, "tape"),
        ("diagonal foot right to head left", 2196, "tape"),
        ("depth at foot", 455, "tape"),
        ("left side out of plumb at head", 3, "plumb"),
        ("right side out of plumb at middle", -1, "plumb"),
        ("floor out of level at right", 2, "level"),
        ("head out of level at 600 mm", 1, "level"),
        ("bow of the head", 4, "laser"),
        ("width at 600 mm", 843, "tape"),
        ("height at 400 mm", 2031, "tape"),
        ("diagonal foot right to head left", 2197, "tape"),
        ("depth at top", 460, "tape"),
        ("left side out of plumb at head", 3.5, "plumb"),
    ]


def test_the_book_sets_standard_errors(book):
    own = {"name": "tape", "error": 0.8, "error_per_metre": 0.1, "source": "own trials"}
    mine = Book.model_validate({**book.model_dump(), "instruments": [own]})
    assert instruments_of(mine)["tape"].standard_error(2000) == pytest.approx(1.0)
    assert instruments_of(mine)["laser"] == instruments_of(book)["laser"]
    usual, finer = (survey_of(opening(diagonals=(FAIR, FAIR)), b).shape for b in (book, mine))
    assert finer.vertex("B").x_error_mm < usual.vertex("B").x_error_mm


def test_usual_readings_give_what_their_shape_offers(book):
    """Before, they were taken as they stand, and all that the diagonals differ by was a lean; now the floor has its share."""
    taken = opening(widths=(839, 840, 842), heights=(2036, 2036, 2036), diagonals=(2204, 2200))
    survey = survey_of(taken, book)
    stood = upright_rectangle((839, 840, 842), (2036, 2036, 2036), diagonals_mm=(2204, 2200))
    found = rectangle_of(taken, survey)
    assert found == rectangle_from_shape(survey.shape)
    assert 0 < found.lean_mm < stood.lean_mm
    assert abs(found.width.value - stood.width.value) < found.width_error_mm
    only_depth = taken.model_copy(update={"readings": {"depth-top": 460.0}})
    with_depth = rectangle_of(only_depth, survey_of(only_depth, book))
    assert with_depth.width.value == pytest.approx(found.width.value, abs=1e-3)


def test_a_plumb_line_tells_the_lean_by_hand(fine):
    """Both sides lean 6 mm to the right over 2030 mm: 842 - 6 = 836 upright; less 2 x 4 the lining is 828.

    Its left packer at a height y is 4 + 6 (1 - y / 2030): fixings of a 2026 mm leg stand at 150, 725.3, 1300.7 and 1876.
    """
    plan = plan_parts(job_of(opening(readings={"plumb-left": 6, "plumb-right": 6})), fine)
    (entry,) = plan.openings
    assert entry.rectangle.width.value == pytest.approx(836, abs=0.1)
    assert entry.set_out.outer_width.value == 828
    by_hand = [4 + 6 * (1 - y / 2030) for y in (150, 150 + 1726 / 3, 150 + 2 * 1726 / 3, 1876)]
    assert [p.size_mm for p in entry.wall.packers_at("left")] == pytest.approx(by_hand, abs=0.05)
    assert entry.wall.fits
    assert [str(note) for note in plan.remarks if note.where] == ["C1: The left side leans 6.0 mm to the right."]


def test_a_floor_out_of_level_takes_from_the_height(fine):
    """The floor rises 5 mm to the right and the head does too: the front stands on the right, under the left of the head."""
    level = opening(readings={"level-floor": 5, "level-head": 5, "plumb-left": 0, "plumb-right": 0})
    survey = survey_of(level, fine)
    assert rectangle_of(level, survey).height.value == pytest.approx(2025, abs=0.2)
    wall = wall_fit(survey.shape, 830, 2015)
    # 150 mm from its left leg, in the middle of the opening: 5 (1 - 156 / 842) = 4.07 under its foot.
    assert wall.packers_at("foot")[0].size_mm == pytest.approx(4.07, abs=0.05)


def test_a_misread_reading_is_left_out_and_named(book, fine):
    crossed = opening(
        widths=(842, 842, 882),
        diagonals=(FAIR, FAIR),
        readings={"plumb-left": 0, "plumb-right": 0, "level-floor": 0, "level-head": 0},
    )
    plan = plan_parts(job_of(crossed), book)
    (entry,) = plan.openings
    assert entry.survey.left_out == ("width at head",)
    assert entry.rectangle.width.value == pytest.approx(842, abs=1.96 * entry.rectangle.width_error_mm)
    (sure,) = plan_parts(job_of(crossed), fine).openings
    assert sure.rectangle.width.value == pytest.approx(842, abs=0.1)
    said = [str(note) for note in plan.remarks if note.where]
    assert len(said) == 1
    assert said[0].startswith("C1: Take the width at head again: it says 882 mm, but should be near 842 mm")


def test_what_cannot_be_told_apart_stops_that_opening_alone(book):
    odd = opening(diagonals=(FAIR + 20, FAIR))
    plan = plan_parts(job_of(odd, opening(mark="C2")), book)
    first, second = plan.openings
    assert first.set_out is None
    assert first.survey is not None
    assert second.set_out is not None
    assert {line[0] for part in plan.schedule for line in part.openings} == {"C2"}
    (told,) = plan.not_worked_out
    assert told.where == "C1"
    assert told.sentence.startswith("One of these readings is wrong, and the others can't tell which.")
    assert f"{FAIR + 20:.1f} mm" in told.sentence


def test_one_more_reading_is_named_on_demand(book):
    taken = opening(diagonals=(FAIR, FAIR))
    more = next_reading(taken, book)
    named = more.sentence
    assert named.startswith("Read the ")
    richer = opening(
        diagonals=(FAIR, FAIR),
        readings={
            "plumb-left": 0,
            "plumb-right": 0,
            "level-floor": 0,
            "level-head": 0,
            "bow-left": 0,
            "bow-right": 0,
            "bow-floor": 0,
            "bow-head": 0,
        },
    )
    assert len(survey_of(richer, book).shape.unchecked) < len(survey_of(taken, book).shape.unchecked)


def test_readings_that_contradict_each_other_beyond_any_error_are_a_fault(book):
    apart = {
        "width-foot": 1042,
        "width-head": 1142,
        "height-left": 2330,
        "height-right": 2430,
        "plumb-left": 90,
        "plumb-right": -90,
        "diagonal-left": 1900,
        "diagonal-right": 2700,
        "plumb-left-again": -90,
        "level-head": 90,
    }
    with pytest.raises(InputError) as caught:
        plan_parts(job_of(opening(readings=apart)), book)
    (fault,) = caught.value.faults
    assert fault.at.path[:2] == ("openings", 0)
    assert fault.at.mark == "C1"
    assert "contradicts the other readings beyond any error" in fault.what


def test_raked_with_a_plumb_line_by_hand(book):
    """The head falls from 2400 to 1900 over 1000 mm; both sides lean 3.5 mm to the right at their heads.

    Upright between them: the left side's head is 3.5 mm in, the right side stands at 1000 at the floor: 996.5, and less 2 x 4
    that is 988.5, down to 988.
    """
    under_stair = opening(
        widths=(1000, 1000, 1000),
        heights=(2400, 2150, 1900),
        head="raked",
        depth=600,
        readings={"plumb-left": 3.5, "plumb-right": 3.5, "level-floor": 0},
    )
    # The three heights are not read where the corners are, so they do not agree to a hundredth.
    plan = plan_parts(job_of(under_stair), _read_to(book, 0.5))
    (entry,) = plan.openings
    frame = entry.raked.frame
    assert frame.width.value == pytest.approx(988)
    # The head line is read plumb over the floor at x = 3.5 (as far left as a plumb tape meets the head) and at 1000.
    slope = (frame.left.value - frame.right.value) / frame.width.value
    assert slope == pytest.approx(0.5, abs=0.006)
    assert entry.wall.fits
    over = [p.size_mm for p in entry.wall.packers_at("head")]
    assert min(over) >= 3.9
    assert max(over) < 6
    assert min(p.size_mm for p in entry.wall.packers_at("left")) >= 3.99


def test_a_lining_too_large_names_what_must_be_cut_back(book):
    leaning = survey_of(opening(readings={"plumb-left": 6, "plumb-right": 6}), book).shape
    wall = wall_fit(leaning, 838, 2026)
    assert [cut.side for cut in wall.cut_backs] == ["left", "right"]
    assert wall_fit(leaning, 838, 2026) is wall  # kept


def test_the_plan_says_its_shape_in_json(book):
    plan = plan_parts(job_of(opening(diagonals=(FAIR, FAIR))), book)
    told = json.loads(json.dumps(plan_json(plan)))["openings"][0]
    assert next(v["name"] for v in told["survey"]["shape"]["vertices"]) == "A"
    assert "covariance" not in told["survey"]["shape"]
    assert {p["side"] for p in told["wall"]["packers"]} == {"left", "right", "head", "foot"}
