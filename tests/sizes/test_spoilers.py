"""Openings without which fewer sizes would do, against leaving each out and choosing again."""

from hypothesis import given, settings
from hypothesis import strategies as st

from rodbook.sizes import Offer, PackerRange, fewest_sizes, spoilers

RANGE = PackerRange(4, 16, 4, 20)


@settings(max_examples=60)
@given(
    st.lists(st.tuples(st.integers(800, 850), st.integers(2000, 2030), st.sampled_from([1, 2])), min_size=1, max_size=9)
)
def test_they_are_those_whose_absence_saves_a_size(openings):
    offers = [Offer(f"O{k}", width, height, (leaves,)) for k, (width, height, leaves) in enumerate(openings)]
    whole = len(fewest_sizes(offers, RANGE).sizes)
    expected = []
    for left_out in offers:
        rest = [offer for offer in offers if offer is not left_out]
        if rest and len(fewest_sizes(rest, RANGE).sizes) < whole:
            expected.append((left_out.name, whole - 1))
    assert [(s.opening, s.number) for s in spoilers(offers, RANGE)] == expected
