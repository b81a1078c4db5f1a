"""No two parts of a front are in one place, and none is elsewhere than it is drawn; and the check that says so can fail."""

import random
from dataclasses import replace

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from rodbook.job.files import parse_book, parse_job, sample_book_text, sample_text
from rodbook.plan import plan_parts
from rodbook.setout import Frame, PartKind, set_out
from rodbook.working import Measure

from .assembled import assembled, clashes, misplaced, row_of_fronts
from .random_fronts import random_front, random_run, stock_for

BOOK = parse_book(sample_book_text())
GALLEY = parse_job(sample_text("galley"), BOOK)
SEEDS = st.integers(0, 10**9)
SAMPLES = ("converted-store", "galley", "stair", "timber-house")

patient = (HealthCheck.too_slow,)


@settings(max_examples=150, deadline=None, suppress_health_check=patient)
@given(seed=SEEDS)
def test_no_two_parts_of_a_front_are_in_one_place(seed):
    made = random_front(random.Random(seed), BOOK)
    assert [str(c) for c in clashes(assembled(made.front, made.build_up))] == []


@settings(max_examples=100, deadline=None, suppress_health_check=patient)
@given(seed=SEEDS)
def test_every_part_is_as_large_as_it_is_drawn_and_where(seed):
    made = random_front(random.Random(seed), BOOK)
    assert misplaced(made.front, made.build_up) == []


@settings(max_examples=25, deadline=None, suppress_health_check=patient)
@given(seed=SEEDS)
def test_no_two_parts_of_fronts_in_a_run_are_in_one_place(seed):
    fronts, build_up, between = random_run(random.Random(seed), BOOK, GALLEY)
    assert [str(c) for c in clashes(row_of_fronts(fronts, build_up, between))] == []


@pytest.mark.parametrize("name", SAMPLES)
def test_no_two_parts_of_the_samples_are_in_one_place(name):
    for entry in plan_parts(parse_job(sample_text(name), BOOK), BOOK).openings:
        if entry.set_out is not None:
            build_up = BOOK.build_up(entry.build_up)
            assert clashes(assembled(entry.set_out, build_up)) == []
            assert misplaced(entry.set_out, build_up) == []


# --- the check can fail -----------------------------------------------------------------------------------------------


def front_of(name, *, width=827.0, height=2024.0, leaves=2, sill=False, **changes):
    build_up = next(b for b in BOOK.build_ups if b.name.startswith(name)).model_copy(update=changes)
    frame = Frame(Measure(width, "w"), Measure(height, "h"), leaves, "left", sill)
    return set_out(build_up, stock_for(BOOK, build_up), frame), build_up


def changed(front, kind, **changes):
    """The front with every part of a kind changed."""
    parts = tuple(replace(p, part=replace(p.part, **changes)) if p.part.kind is kind else p for p in front.parts)
    return replace(front, parts=parts)


def said(front, build_up):
    return sorted(str(c) for c in clashes(assembled(front, build_up)))


def test_a_plinth_through_hinge_linings_is_found():
    """Plinth 100 high and 18 thick, set back 40 behind an inset leaf of 22: it stood in 18 x 100 x 18 of each hinge lining."""
    front, build_up = front_of("inset", plinth=100.0, plinth_set_back=40.0)
    assert said(front, build_up) == []
    whole = changed(front, PartKind.HINGE_LINING, notch=None)
    assert said(whole, build_up) == [
        "left hinge lining and plinth 1 share 18.0 x 100.0 x 18.0 mm",
        "right hinge lining and plinth 1 share 18.0 x 100.0 x 18.0 mm",
    ]


def test_a_plinth_through_a_division_is_found():
    front, build_up = front_of("lay-on without", plinth=100.0, plinth_set_back=40.0)
    assert said(front, build_up) == []
    whole = changed(front, PartKind.DIVISION, notch=None)
    assert said(whole, build_up) == ["division 1 and plinth 1 share 18.0 x 100.0 x 18.0 mm"]


def test_a_notch_too_low_or_too_shallow_is_found():
    front, build_up = front_of("lay-on without", plinth=100.0, plinth_set_back=40.0)
    (division,) = [p.part for p in front.parts if p.part.kind is PartKind.DIVISION]
    low = changed(front, PartKind.DIVISION, notch=replace(division.notch, high=Measure(95.0)))
    assert said(low, build_up) == ["division 1 and plinth 1 share 18.0 x 5.0 x 18.0 mm"]
    shallow = changed(front, PartKind.DIVISION, notch=replace(division.notch, deep=Measure(55.0)))
    assert said(shallow, build_up) == ["division 1 and plinth 1 share 18.0 x 100.0 x 3.0 mm"]


def test_a_head_that_is_too_long_or_not_housed_is_found():
    front, build_up = front_of("inset", head_joint="housed", housing=6.0)
    assert said(front, build_up) == []
    assert len(said(front, build_up.model_copy(update={"head_joint": "between"}))) == 2
    longer = changed(front, PartKind.LINING_HEAD, length=Measure(791 + 12 + 2.0))
    assert said(longer, build_up) == [
        "left lining leg and lining head share 1.0 x 18.0 x 140.0 mm",
        "right lining leg and lining head share 1.0 x 18.0 x 140.0 mm",
    ]


def test_a_leaf_that_is_too_wide_is_found():
    front, build_up = front_of("inset")
    wide = changed(front, PartKind.DOOR, width=Measure(391.0 + 4.0))
    assert any("leaf 1 and leaf 2" in c for c in said(wide, build_up))
    assert misplaced(wide, build_up)


def test_a_tongue_without_its_rebate_is_found():
    front, build_up = front_of("inset", meeting="rebated", meeting_rebate=10.0)
    assert said(front, build_up) == []
    square = replace(front, dimensions=tuple(d for d in front.dimensions if d.name != "tongue of the second leaf"))
    assert said(square, build_up) == ["leaf 1 and leaf 2 share 10.0 x 1995.0 x 22.0 mm"]


def test_a_trim_over_a_leaf_is_found():
    front, build_up = front_of("lay-on within", width=914.0)
    assert said(front, build_up) == []
    wide = changed(front, PartKind.TRIM_LEG, width=Measure(80.0))
    assert any("left trim leg" in c and "leaf 1" in c for c in said(wide, build_up))


def test_what_is_drawn_elsewhere_is_found():
    """A head that lies over its legs was drawn between them, and the legs as high as the lining."""
    front, build_up = front_of("inset", head_joint="over", trim=None)
    assert misplaced(front, build_up) == []
    as_it_was = tuple(replace(e, height=2024.0) if e.kind is PartKind.LINING_LEG else e for e in front.elements)
    assert len(misplaced(replace(front, elements=as_it_was), build_up)) == 2


def test_legs_of_trim_on_a_narrow_pier_are_found():
    rng = random.Random(5)
    for _ in range(40):
        fronts, build_up, between = random_run(rng, BOOK, GALLEY)
        ripped = [f for f in fronts if any("ripped" in p.part.ends for p in f.parts)]
        if ripped:
            break
    assert clashes(row_of_fronts(fronts, build_up, between)) == []
    section = BOOK.section(build_up.trim).width
    whole = [
        replace(
            f,
            elements=tuple(
                replace(e, x=e.x - (section - e.width if e.x < 0 else 0.0), width=section)
                if e.kind is PartKind.TRIM_LEG
                else e
                for e in f.elements
            ),
        )
        for f in (changed(f, PartKind.TRIM_LEG, width=Measure(section)) for f in fronts)
    ]
    assert any("trim leg" in str(c) for c in clashes(row_of_fronts(whole, build_up, between)))
