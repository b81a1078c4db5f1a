"""Masses of boards and leaves against published guides."""

import pytest

from rodbook.hinges import board_mass


def test_plywood_sheet():
    """2400 x 1200 x 12 mm plywood at 400 to 700 kg/m3: published as 14 to 24 kg (trade guide, quoted)."""
    mass = board_mass(2400, 1200, 12, density_kg_per_m3=(400, 700))
    assert (round(mass.low), round(mass.high)) == (14, 24)


@pytest.mark.parametrize(("kg_per_m2", "density"), [(10, 556), (13, 722), (14.5, 806)])
def test_mdf_guide_masses(kg_per_m2, density):
    """18 mm MDF at 10, 13 and 14.5 kg/m2 (guide masses, quoted) is 556, 722 and 806 kg/m3 (computed)."""
    mass = board_mass(1000, 1000, 18, density_kg_per_m3=(density, density))
    assert mass.high == pytest.approx(kg_per_m2, abs=0.01)


def test_sheet_and_door():
    """2440 x 1220 x 18 at 720 kg/m3: 38.58 kg; a door 600 x 2000 x 18 at 750 kg/m3: 16.20 kg (both computed)."""
    assert board_mass(2440, 1220, 18, density_kg_per_m3=(720, 720)).high == pytest.approx(38.58, abs=0.005)
    assert board_mass(2000, 600, 18, density_kg_per_m3=(750, 750)).high == pytest.approx(16.20, abs=0.005)


def test_density_back_from_mass():
    """Density (kg/m3) = mass (g) x 10^6 / (L x W x T in mm): European MDF producers' site (seen)."""
    mass = board_mass(600, 400, 19, density_kg_per_m3=(740, 740)).high
    assert mass * 1000 * 1e6 / (600 * 400 * 19) == pytest.approx(740)
