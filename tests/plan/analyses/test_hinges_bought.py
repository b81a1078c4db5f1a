"""Hinges and plates of a whole job: by arm and by height of plate, from each leaf and flap by itself."""

from collections import Counter

import pytest

from rodbook.plan import hinges_bought


@pytest.mark.parametrize("name", ["converted-store", "timber-house", "galley", "stair"])
def test_every_hinge_that_is_bored_for_is_bought_once(planned, name):
    plan = planned(name)
    bored = sum(
        placed.quantity * sum(boring.kind == "cup" for boring in placed.part.borings)
        for entry in plan.openings
        if entry.set_out
        for placed in entry.set_out.parts
    )
    assert sum(lot.number for lot in hinges_bought(plan.openings, plan.book)) == bored > 0


def test_a_leaf_on_a_division_takes_another_arm_or_plate(planned):
    """By hand: lap = 13 - crank + 5 - plate. On the legs 10 mm: half cranked 3.5 + 5 = 8.5, straight on 9 mm 9, which is nearest.

    On the division of W3 7 mm: half cranked 8.5 on a plate of 2 mm 6.5, half a millimetre short; on one of 0 mm 1.5 over.
    """
    plan = planned("timber-house")
    lots = hinges_bought(plan.openings, plan.book)
    found = Counter({(lot.arm, lot.plate_mm): lot.number for lot in lots})
    (middle,) = [lot for lot in lots if lot.openings == ("W3",)]
    assert (middle.arm, middle.plate_mm, middle.number) == ("half cranked", 2.0, 5)
    assert found["straight", 9.0] == sum(lot.number for lot in lots) - 5
