"""Holes of what hangs and of what carries it, put into one place: they have to meet there, whatever the build-up.

Nothing of the set-out's own arithmetic is used: a leaf stands where the elevation has it, a leg, a hinge lining, a division, a
head or a rail where the elevation has that, and both say from their own end where their holes are.
"""

from dataclasses import replace

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from rodbook.errors import Infeasible
from rodbook.job.book import Fitting
from rodbook.job.models import FrontRow
from rodbook.setout import Frame, PartKind, set_out
from rodbook.working import Measure

quiet = settings(max_examples=120, deadline=None, suppress_health_check=[HealthCheck.function_scoped_fixture])

STAY = Fitting(
    name="s",
    sort="flap stay",
    holes=1,
    diameter=3,
    depth=12,
    from_edge=20,
    place=70,
    leg_diameter=5,
    leg_depth=12,
    leg_set_back=37,
    leg_down=110,
    source="t",
)
CARRY = (PartKind.LINING_LEG, PartKind.HINGE_LINING, PartKind.DIVISION)


def _parts(result, kind):
    return [p.part for p in result.parts for _ in range(p.quantity) if p.part.kind is kind]


def _cups(result):
    """Heights above the floor of every leaf's cups, by the side of the leaf."""
    found = []
    for leaf in (e for e in result.elements if e.kind is PartKind.DOOR):
        part = next(
            p
            for p in _parts(result, PartKind.DOOR)
            if p.hand == leaf.hinge_side and abs(p.width.value - leaf.width) < 1e-6
        )
        top = leaf.y + leaf.height
        found.append((leaf.hinge_side, [round(top - b.y.value, 3) for b in part.borings if b.kind == "cup"]))
    return found


def _plates(result, kind, side):
    """Heights above the floor of the middle of every plate in uprights of that kind on that side."""
    stands = sorted((e for e in result.elements if e.kind is kind), key=lambda e: e.x)
    found = []
    for part in (p for p in _parts(result, kind) if p.hand == side):
        holes = sorted(b.y.value for b in part.borings if b.kind == "plate")
        top = stands[0].y + stands[0].height
        found.append([round(top - (a + b) / 2, 3) for a, b in zip(holes[::2], holes[1::2], strict=True)])
    return [plates for plates in found if plates]


@quiet
@given(
    family=st.sampled_from(["inset, painted", "lay-on within trim, painted", "lay-on without trim, run of cupboards"]),
    kinds=st.sampled_from(
        [
            "leaves",
            "drawer leaves",
            "leaves drawer",
            "flap leaves",
            "leaves flap",
            "apron leaves apron",
            "drawer flap leaves",
            "flap drawer",
            "drawer leaves flap",
        ]
    ),
    leaves=st.integers(1, 4),
    hand=st.sampled_from(["left", "right"]),
    sill=st.booleans(),
    joint=st.sampled_from(["between", "over"]),
    carrier=st.booleans(),
    size=st.tuples(st.integers(700, 1600), st.integers(1300, 2100)),
    low=st.integers(150, 260),
    rails=st.booleans(),
)
def test_hinges_and_stays_meet_what_carries_them(
    book, stock, family, kinds, leaves, hand, sill, joint, carrier, size, low, rails
):
    build_up = book.build_up(family).model_copy(update={"head_joint": joint, "row_rails": rails})
    if family != "lay-on without trim, run of cupboards":
        build_up = build_up.model_copy(update={"hinge_lining": carrier})
    rows = tuple(
        FrontRow(kind=kind, height=0 if kind == "leaves" or kinds == "flap drawer" else low) for kind in kinds.split()
    )
    width, height = Measure(size[0], "lining width"), Measure(size[1], "lining height")
    fit = replace(stock(build_up), flap_stay=STAY)
    try:
        result = set_out(build_up, fit, Frame(width, height, leaves, hand, sill, rows=rows))
    except Infeasible:
        return
    for side, cups in _cups(result):
        carried = [plates for kind in CARRY for plates in _plates(result, kind, side)]
        assert cups in carried, (side, cups, carried)
    head = next(e for e in result.elements if e.kind is PartKind.LINING_HEAD)
    carriers = [e for e in result.elements if e.kind is PartKind.RAIL] + [head]
    hung = 0
    for flap in (e for e in result.elements if e.kind is PartKind.FLAP):
        part = next(p for p in _parts(result, PartKind.FLAP) if abs(p.length.value - flap.height) < 1e-6)
        # seen from its back, its left edge is on the right of the room's view
        cups = sorted(round(flap.x + flap.width - b.x.value, 3) for b in part.borings if b.kind == "cup")
        assert cups == sorted(round(x, 3) for x in flap.hinge_xs)
        over = min(carriers, key=lambda e: abs(e.y - (flap.y + flap.height)))
        assert over.y - 0.1 <= flap.y + flap.height + build_up.meeting_gap + 3.0
        found = []
        for carrying in _parts(result, over.kind):
            start = over.x - (carrying.length.value - over.width) / 2
            holes = sorted(b.y.value for b in carrying.borings if b.kind == "plate")
            found.append([round(start + (a + b) / 2, 3) for a, b in zip(holes[::2], holes[1::2], strict=True)])
        assert cups in found
        hung += 1
        for side in ("left", "right"):
            kind = PartKind.HINGE_LINING if build_up.hinge_lining else PartKind.LINING_LEG
            stand = next(e for e in result.elements if e.kind is kind)
            (leg,) = [p for p in _parts(result, kind) if p.hand == side]
            heights = [round(stand.y + stand.height - b.y.value, 3) for b in leg.borings if b.kind == "stay"]
            assert round(flap.y + flap.height - STAY.leg_down, 3) in heights
    assert hung == sum(row.kind == "flap" for row in rows)


def test_a_rail_is_lapped_alike_by_both_rows(book, stock):
    """Gap 3 and rail 18: each row lies 7.5 over it, so its middle is the middle of the gap."""
    build_up = book.build_up("base cupboards, lay-on").model_copy(update={"row_rails": True, "handle": None})
    rows = (FrontRow(kind="leaves"), FrontRow(kind="drawer", height=140))
    frame = Frame(Measure(800, "lining width"), Measure(870, "lining height"), 2, "left", sill=False, rows=rows)
    result = set_out(build_up, stock(build_up), frame)
    rail = next(e for e in result.elements if e.kind is PartKind.RAIL)
    low, high = result.rows
    assert low.foot + low.height.value - rail.y == pytest.approx(7.5)
    assert rail.y + rail.height - high.foot == pytest.approx(7.5)
