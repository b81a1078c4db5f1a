"""Sag of shelves and rails."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from rodbook.accuracy import rectangle_inertia, sag
from rodbook.errors import InputError


@given(st.floats(1, 500), st.floats(200, 2000), st.floats(5, 40))
def test_held_fast_sags_a_fifth_and_a_quarter(load, span, depth):
    def of(case):
        return sag(load, span, modulus_n_per_mm2=2200, inertia_mm4=rectangle_inertia(300, depth), case=case)

    assert of("even, held fast") == pytest.approx(of("even, on two supports") / 5)
    assert of("point, held fast") == pytest.approx(of("point, on two supports") / 4)


def test_against_adding_up_the_bending():
    # The second derivative of the sag is M / EI: added up twice in small steps over a span with an even load.
    load, span, stiffness, steps = 200.0, 1000.0, 2200 * rectangle_inertia(300, 18), 4000
    step = span / steps
    slope = deflection = 0.0
    lowest, half = [], None
    for k in range(steps):
        x = (k + 0.5) * step
        moment = load / 2 * x - load / span * x**2 / 2
        slope += moment / stiffness * step
        deflection += slope * step
        lowest.append(deflection)
    half = lowest[-1] / 2 - lowest[steps // 2 - 1]
    wanted = sag(
        load, span, modulus_n_per_mm2=2200, inertia_mm4=rectangle_inertia(300, 18), case="even, on two supports"
    )
    assert half == pytest.approx(wanted, rel=1e-3)


def test_every_fault():
    with pytest.raises(InputError) as caught:
        sag(1, 0, modulus_n_per_mm2=0, inertia_mm4=-1, case="point, one end")
    assert len(caught.value.faults) == 3
