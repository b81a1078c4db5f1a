"""Trim that runs on: worked by hand, and held against a count of its own."""

from itertools import combinations, pairwise

import pytest
from hypothesis import given
from hypothesis import strategies as st

from rodbook.errors import Infeasible
from rodbook.job.files import parse_book, sample_book_text
from rodbook.setout import Bay, run_on
from rodbook.working import Measure

BOOK = parse_book(sample_book_text())
MITRED = next(b for b in BOOK.build_ups if b.name == "inset, painted")
TRIM = BOOK.section("58 x 18 softwood trim")
END_TRIM = BOOK.saw.end_trim


def bays(*sights):
    return [Bay(f"C{n}", Measure(sight + 24.0), Measure(sight)) for n, sight in enumerate(sights, 1)]


def walls(*lengths):
    return [Measure(length) for length in lengths]


def test_two_openings_by_hand():
    # the trim's width, sight, 12 to the lining's edge, pier, 12, sight, the trim's width
    over = run_on(MITRED, TRIM, bays(803.0, 803.0), walls(110.0), end_trim=END_TRIM)
    ((first, piece),) = over.pieces
    assert (first, piece.length.value, over.joints) == (0, 1856.0, ())
    assert piece.ends == (
        "left end and right end mitred 45.0° from square, long point on the outer edge, length to the long points"
    )
    assert "between the sights of C1 and C2 134.0" in piece.length.working()


def test_a_joint_stands_over_the_middle_of_a_pier_and_each_piece_has_half_the_scarf():
    # stretches: 58 + 803 + 167, 167 + 803 + 167 three times, 167 + 803 + 58; sold in 3.9 m
    over = run_on(MITRED, TRIM, bays(*[803.0] * 5), walls(*[310.0] * 4), end_trim=END_TRIM)
    assert [(first, part.length.value) for first, part in over.pieces] == [(0, 2174.0), (2, 3311.0)] or [
        (first, part.length.value) for first, part in over.pieces
    ] == [(0, 3311.0), (3, 2174.0)]
    ((bay, at),) = over.joints
    assert at in (58 + 803 + 334 + 803 + 167, 58 + 803 + 334 + 803 + 334 + 803 + 167)
    assert bay in (1, 2)
    left, right = (part for _, part in over.pieces)
    assert "right end bevelled 45.0° from square through the thickness, long point on the inner face" in left.ends
    assert "left end bevelled 45.0° from square through the thickness, long point on the outer face" in right.ends


def test_legs_that_do_not_go_over_a_pier_are_ripped_to_half_of_it():
    """Between the sights 12 + 80 + 12 = 104 for two legs of 58: each 52 wide, cut from the whole section."""
    over = run_on(MITRED, TRIM, bays(803.0, 803.0, 803.0), walls(80.0, 110.0), end_trim=END_TRIM)
    assert [leg.value for leg in over.legs] == [52.0, 58.0]
    assert "between the sights of C1 and C2 104.0" in "; ".join(over.legs[0].trail())


def test_legs_that_would_be_slivers_are_said():
    words = r"^between C1 and C2 there are 34.0 mm for two legs, each 20 mm wide at the least$"
    with pytest.raises(Infeasible, match=words):
        run_on(MITRED, TRIM, bays(803.0, 803.0), walls(10.0), end_trim=END_TRIM)


def test_a_front_wider_than_any_length_is_said():
    with pytest.raises(Infeasible, match=r"over C2 alone it would be \d+\.\d mm, and no length is longer than 3880 mm"):
        run_on(MITRED, TRIM, bays(803.0, 4000.0), walls(300.0), end_trim=END_TRIM)


@given(
    sights=st.lists(st.integers(300, 1800), min_size=2, max_size=8),
    data=st.data(),
)
def test_pieces_add_up_are_the_fewest_and_end_over_piers(sights, data):
    piers = data.draw(st.lists(st.integers(140, 900), min_size=len(sights) - 1, max_size=len(sights) - 1))
    over = run_on(MITRED, TRIM, bays(*map(float, sights)), walls(*map(float, piers)), end_trim=END_TRIM)
    whole = sum(sights) + sum(pier + 24 for pier in piers) + 2 * 58
    assert over.total.value == pytest.approx(whole)
    lengths = [part.length.value for _, part in over.pieces]
    assert all(length <= 3880 for length in lengths)
    scarfs = 2 * len(over.joints) * 9.0
    assert whole + scarfs - len(lengths) * MITRED.step < sum(lengths) <= whole + scarfs + 1e-6
    ends = [58.0]
    for sight, pier in zip(sights, [*piers, None], strict=True):
        ends.append(ends[-1] + sight)
        if pier is not None:
            ends.append(ends[-1] + pier + 24)
    middles = [(a + b) / 2 for a, b in zip(ends[1:-1:2], ends[2::2], strict=True)]
    assert all(min(abs(at - middle) for middle in middles) < 1e-6 for _, at in over.joints)
    fewer = len(lengths) - 1
    for joints in combinations(middles, max(fewer - 1, 0)) if fewer else ():
        stops = [0.0, *joints, whole]
        pieces = [b - a + 9 * ((a > 0) + (b < whole)) for a, b in pairwise(stops)]
        assert max(pieces) > 3880
