"""Masses of boards and leaves against published guides."""

import pytest

from rodbook.hinges import board_mass


def test_plywood_sheet():
    """2400 x 1200 x 12 mm plywood at 400 to 700 kg/m3: published as 14 to 24 kg (trade guide, quoted)."""
    mass = board_mass(2400, 1200, 12, density_kg_per_m3=(400, 700))
    assert (round(mass.low), round(mass.high)) == (14, 24)


@pytest.mark.parametrize("kg_per_m2", [10, 13, 14.5])
def test_mdf_guide_masses(kg_per_m2):
    """Guide masses of 18 mm MDF (quoted) lie within what the range of MDF's density, 500 to 1000 kg/m3 (quoted), allows."""
    mass = board_mass(1000, 1000, 18, density_kg_per_m3=(500, 1000))
    assert mass.low < kg_per_m2 < mass.high
    assert mass.high == 2 * mass.low


@pytest.mark.parametrize(
    ("size", "thickness", "density", "printed", "places"),
    [
        # general home page, seen: 4 x 8 ft, half an inch, 0.0377 m3 at 700 kg/m3: 26.39 kg; volume rounded to 0.0001 m3
        ((2438.4, 1219.2), 12.7, 700, 26.39, 0.05),
        # page on weights of sheets, seen: 2440 x 1220 x 18 mm at 730 kg/m3 about 39.1 kg, at 780 about 41.8
        ((2440, 1220), 18, 730, 39.1, 0.05),
        ((2440, 1220), 18, 780, 41.8, 0.05),
        # leaf of 25 mm, 600 x 2300 at 740 kg/m3: 25.5 kg (computed)
        ((2300, 600), 25, 740, 25.5, 0.05),
    ],
)
def test_masses_printed_beside_their_density(size, thickness, density, printed, places):
    mass = board_mass(*size, thickness, density_kg_per_m3=(density, density))
    assert mass.high == pytest.approx(printed, abs=places)


def test_sheet_and_door():
    """2440 x 1220 x 18 at 720 kg/m3: 38.58 kg; a door 600 x 2000 x 18 at 750 kg/m3: 16.20 kg (both computed)."""
    assert board_mass(2440, 1220, 18, density_kg_per_m3=(720, 720)).high == pytest.approx(38.58, abs=0.005)
    assert board_mass(2000, 600, 18, density_kg_per_m3=(750, 750)).high == pytest.approx(16.20, abs=0.005)
