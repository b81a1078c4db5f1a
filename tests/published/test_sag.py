"""Sag against published worked examples."""

import pytest

from rodbook.accuracy import rectangle_inertia, sag


def test_building_construction_handbook():
    """W 4500 N, L 5000 mm, I 4.75e7 mm4, E 10 800: 14.27 mm (Chudley & Greeno, 8th ed., seen; printed cut off, not rounded)."""
    found = sag(4500, 5000, modulus_n_per_mm2=10_800, inertia_mm4=4.75e7, case="even, on two supports")
    assert int(found * 100) / 100 == 14.27


@pytest.mark.parametrize(
    ("load", "span", "modulus", "section", "case", "printed"),
    [
        (2.5 * 4000, 4000, 11_000, (50, 200), "even, on two supports", 22.73),
        (10_000, 4000, 11_000, (50, 200), "point, on two supports", 36.36),
        (1.5 * 2500, 2500, 10_000, (75, 225), "even, one end", 10.29),
    ],
)
def test_beam_theory_page(load, span, modulus, section, case, printed):
    """Three rows of a public page on beam theory (quoted)."""
    found = sag(load, span, modulus_n_per_mm2=modulus, inertia_mm4=rectangle_inertia(*section), case=case)
    assert found == pytest.approx(printed, abs=0.005)


def test_a_misprint_is_not_followed():
    """w 2000 N/m, L 6 m, E 200 GPa, I 6e-6 m4: a page prints 10 mm; 28.1 mm is right (computed)."""
    found = sag(12_000, 6000, modulus_n_per_mm2=200_000, inertia_mm4=6e6, case="even, on two supports")
    assert found == pytest.approx(28.1, abs=0.05)
