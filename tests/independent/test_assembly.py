"""The assembly against one that is put together by other code: every part as large, and in the same place."""

import random

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from rodbook.job.files import parse_book, sample_book_text
from rodbook.setout import PartKind

from .assembled import assembled
from .random_fronts import random_front
from .test_assembled import front_of

BOOK = parse_book(sample_book_text())


def outer(body):
    """The block around a body: left, foot, back, right, top, front."""
    points = [point for prism in body.prisms for point in prism.outline]
    xs, ys = [x for x, _ in points], [y for _, y in points]
    back, face = min(p.back for p in body.prisms), max(p.front for p in body.prisms)
    return (min(xs), min(ys), back, max(xs), max(ys), face)


def other(solid):
    left, foot, right, top = solid.box()
    return (left, foot, min(p.low for p in solid.prisms), right, top, max(p.high for p in solid.prisms))


@settings(max_examples=150, deadline=None, suppress_health_check=[HealthCheck.too_slow])
@given(seed=st.integers(0, 10**9))
def test_every_body_is_where_other_code_puts_it(seed):
    made = random_front(random.Random(seed), BOOK)
    bodies = made.front.assembly.bodies
    solids = assembled(made.front, made.build_up)
    assert sorted(str(b.kind) for b in bodies) == sorted(s.kind for s in solids)
    for kind in {body.kind for body in bodies}:
        theirs = [
            (other(s), sum(p.outline.area * (p.high - p.low) for p in s.prisms)) for s in solids if s.kind == str(kind)
        ]
        for body in (b for b in bodies if b.kind is kind):
            block = outer(body)
            nearest = min(theirs, key=lambda one: max(abs(a - b) for a, b in zip(block, one[0], strict=True)))
            theirs.remove(nearest)
            assert block == pytest.approx(nearest[0], abs=0.6), kind  # lengths that are rounded to the workshop's step
            assert sum(p.volume for p in body.prisms) == pytest.approx(nearest[1], rel=0.01), kind


def test_a_plumb_cut_through_a_notched_hinge_lining_by_hand():
    """Inset leaf 22 thick; the hinge lining from 22 to 102 behind the front edge, 36 of it cut out up to 100; the plinth's
    front 40 behind, its back 58.
    """
    front, _build_up = front_of("inset", plinth=100.0, plinth_set_back=40.0)
    whole = front.assembly
    (plinth,) = whole.of(PartKind.PLINTH)
    assert plinth.plumb(25.0) == (((-58.0, 0.0), (-40.0, 0.0), (-40.0, 100.0), (-58.0, 100.0)),)
    lining = whole.of(PartKind.HINGE_LINING)[0]
    assert sorted(lining.plumb(25.0)) == [
        ((-102.0, 0.0), (-58.0, 0.0), (-58.0, 100.0), (-102.0, 100.0)),
        ((-102.0, 100.0), (-22.0, 100.0), (-22.0, 2006.0), (-102.0, 2006.0)),
    ]
    assert lining.plumb(40.0) == ()
    profile = set(lining.profile()) - {(-102.0, 100.0)}  # where its two pieces meet
    assert profile == {
        (-102.0, 0.0),
        (-58.0, 0.0),
        (-58.0, 100.0),
        (-22.0, 100.0),
        (-22.0, 2006.0),
        (-102.0, 2006.0),
    }


def test_a_level_cut_through_an_inset_pair_by_hand():
    """Lining 827 wide of 18, 140 deep; hinge linings 18 thick behind leaves of 391 x 22, 3 from the legs and from each other."""
    front, _ = front_of("inset")
    whole = front.assembly
    cut = {(body.kind, body.side): body.level(1000.0) for body in whole.bodies if body.level(1000.0)}
    left, right = sorted(whole.of(PartKind.DOOR), key=lambda body: body.across)
    assert cut[PartKind.LINING_LEG, "left"] == (((0, -140), (18, -140), (18, 0), (0, 0)),)
    assert cut[PartKind.HINGE_LINING, "left"] == (((18, -102), (36, -102), (36, -22), (18, -22)),)
    assert (left.across, left.deep) == ((21, 412), (-22, 0))
    assert (right.across, right.deep) == ((415, 806), (-22, 0))
    assert left.stock == "22 mm MDF"
    assert cut[PartKind.TRIM_LEG, "right"][0][0] == (827 - 18 + 6, 0)
    assert not [body for body in whole.of(PartKind.LINING_HEAD) if body.level(1000.0)]
