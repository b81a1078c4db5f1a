"""Fronts divided in height: by hand, adding up exactly, alike from both sides, and faults in sentences."""

from dataclasses import replace
from itertools import pairwise

import pytest
from hypothesis import HealthCheck, assume, given, settings
from hypothesis import strategies as st
from pydantic import ValidationError

from rodbook.errors import Infeasible, Place
from rodbook.hinges import flap_lift, flap_moment
from rodbook.job.book import Fitting
from rodbook.job.checks import check_opening
from rodbook.job.faults import faults_of
from rodbook.job.models import FrontRow, Opening
from rodbook.setout import Frame, PartKind, RakedFrame, set_out
from rodbook.working import Measure

quiet = settings(max_examples=80, deadline=None, suppress_health_check=[HealthCheck.function_scoped_fixture])

FIXING = Fitting(name="f", sort="front fixing", holes=1, diameter=5, from_edge=60, place=70, source="t")
STAY = Fitting(
    name="s",
    sort="flap stay",
    holes=2,
    spacing=32,
    diameter=3,
    depth=12,
    from_edge=20,
    place=90,
    leg_diameter=5,
    leg_depth=12,
    leg_set_back=37,
    leg_down=150,
    source="t",
)
HANDLE = Fitting(name="h", sort="handle", holes=2, spacing=128, diameter=5, from_edge=40, place=600, source="t")


def _rows(*said):
    found = []
    for row in said:
        kind, _, size = row.partition(" ")
        found.append(FrontRow(kind=kind, height=float(size or 0)))
    return tuple(found)


def _frame(*rows, width=827, height=2024, leaves=2, hand="left", sill=False, **more):
    return Frame(
        Measure(width, "lining width"), Measure(height, "lining height"), leaves, hand, sill, rows=_rows(*rows), **more
    )


def _of(result, kind):
    return [p.part for p in result.parts for _ in range(p.quantity) if p.part.kind is kind]


def _holes(part, kind):
    return [(b.x.value, b.y.value) for b in part.borings if b.kind == kind]


def test_two_drawers_under_a_pair_by_hand(inset, stock):
    """Lining 827 x 2024 of 18: clear 791 x 2006; front 2006 - 3 - 8 = 1995, block 391 + 3 + 391 = 785.

    Drawers 200 and 250, gaps 3: leaves 1995 - 450 - 6 = 1539. Tops: leaves at the head's underside + 3, the second drawer
    1539 + 3 lower, the first 250 + 3 lower still. Foot of the first: 2006 - 3 - 1995 = 8 above the floor.
    """
    fit = replace(stock(inset), drawer_fixing=FIXING, handle=HANDLE)
    result = set_out(inset, fit, _frame("drawer 200", "drawer 250", "leaves"))
    fronts = _of(result, PartKind.DRAWER_FRONT)
    assert [(p.width.value, p.length.value) for p in fronts] == [(785, 200), (785, 250)]
    assert {p.length.value for p in _of(result, PartKind.DOOR)} == {1539}
    assert result.dimension("gap between rows").value == 3
    assert result.leaf_height.value == 1539
    # 60 in from both sides, 70 up from the foot; the handle in the middle of 785, 64 to each side, at half the height
    assert _holes(fronts[0], "fixing") == [(60, 130), (725, 130)]
    assert _holes(fronts[0], "handle") == [(328.5, 100), (456.5, 100)]
    assert [row.foot for row in result.rows] == [8, 211, 464]
    assert not _of(result, PartKind.RAIL)


def test_hinges_keep_one_datum_when_the_leaves_stand_lower(inset, stock):
    """An apron of 97 over the leaves: they stand 97 + 3 lower, and so do the plates on the hinge lining: 100 more."""
    plain = set_out(inset, stock(inset), _frame())
    with_apron = set_out(inset.model_copy(update={"apron_top": 97.0}), stock(inset), _frame())
    first = [_of(result, PartKind.HINGE_LINING)[0].borings[0].y.value for result in (plain, with_apron)]
    assert first[1] - first[0] == 100
    assert _of(with_apron, PartKind.DOOR)[0].borings[0].y.value == 100
    (apron,) = _of(with_apron, PartKind.APRON)
    assert (apron.width.value, apron.length.value) == (785, 97)


def test_a_flap_on_the_head_by_hand(lay_on, stock):
    """Lining 900 x 2000, 18 thick, laps 10: front 884 wide; clear 1982 + 10 - 10 = 1982 high.

    Flap 400 high and 884 wide of 22 mm at 720 to 780 kg/m3, hinges as a leaf 884 long: three by the book's table,
    100 in from both ends and in the middle. In the head, which starts at 18, the flap starting at 8: 100 - 10 = 90 from its
    left end.
    """
    fit = replace(stock(lay_on), flap_stay=STAY)
    result = set_out(lay_on, fit, _frame("leaves", "flap 400", width=900, height=2000))
    (flap,) = _of(result, PartKind.FLAP)
    assert (flap.width.value, flap.length.value) == (884, 400)
    hinge = fit.hinge
    cup_in = hinge.cup_edge + hinge.cup_diameter / 2
    assert _holes(flap, "cup") == [(100, cup_in), (442, cup_in), (784, cup_in)]
    head = _of(result, PartKind.LINING_HEAD)[0]
    half = hinge.plate_spacing / 2
    across = head.width.value - hinge.plate_set_back
    assert _holes(head, "plate") == [(across, at + half * way) for at in (90, 432, 774) for way in (-1, 1)]
    assert _holes(flap, "stay") == [(20, 74), (864, 74), (20, 106), (864, 106)]
    legs = {p.hand: p for p in _of(result, PartKind.LINING_LEG)}
    # the flap's top laps the head by 10, and the legs rise 18 above its underside: 8 from the leg's top, 150 below that
    assert _holes(legs["left"], "stay") == [(37, 142), (37, 174)]
    assert _holes(legs["right"], "stay") == [(120 - 37, 142), (120 - 37, 174)]
    row = result.rows[-1]
    assert row.moment_nm == pytest.approx(row.mass.high * 9.80665 * 0.4 / 2)


def test_a_flap_under_leaves_hangs_on_a_rail(lay_on, stock):
    """Flap 400 at the foot: rail behind the gap of 4, lapped (18 - 4) / 2 = 7 by both; its plates face down."""
    result = set_out(lay_on, stock(lay_on), _frame("flap 400", "leaves", width=900, height=2000))
    (rail,) = _of(result, PartKind.RAIL)
    assert result.dimension("lap of each row over its rail").value == 7
    assert (rail.length.value, rail.width.value) == (864, 120)
    assert len(_holes(rail, "plate")) == 6
    assert not _of(result, PartKind.LINING_HEAD)[0].borings
    flap = next(e for e in result.elements if e.kind is PartKind.FLAP)
    stands = next(e for e in result.elements if e.kind is PartKind.RAIL)
    assert flap.y + flap.height - stands.y == 7


def test_a_front_of_drawers_alone_has_no_leaves(inset, stock):
    result = set_out(inset, stock(inset), _frame("drawer", "drawer", "drawer", height=800))
    # front 800 - 18 - 3 - 8 = 771: three of (771 - 6) / 3 = 255
    assert [p.length.value for p in _of(result, PartKind.DRAWER_FRONT)] == [255, 255, 255]
    assert result.leaves == 0
    assert not _of(result, PartKind.DOOR)
    assert not any(p.borings for p in _of(result, PartKind.HINGE_LINING))


def test_a_division_stands_behind_the_leaves_only(inset, stock):
    """Three leaves over a drawer of 300: the division's foot on the rail, whose top is (18 - 3) / 2 = 7.5 up the leaves."""
    result = set_out(inset, stock(inset), _frame("drawer 300", "leaves", width=1400, leaves=3))
    (division,) = _of(result, PartKind.DIVISION)
    leaf = _of(result, PartKind.DOOR)[0].length.value
    assert division.length.value == 3 + leaf - 7.5
    stands = next(e for e in result.elements if e.kind is PartKind.DIVISION)
    rail = next(e for e in result.elements if e.kind is PartKind.RAIL)
    assert stands.y == pytest.approx(rail.y + rail.height)


KINDS = st.lists(st.sampled_from(["drawer", "flap", "apron"]), max_size=3)


@quiet
@given(
    under=KINDS,
    over=KINDS,
    leaves=st.integers(1, 4),
    height=st.floats(1200, 2600),
    width=st.floats(700, 1500),
    sill=st.booleans(),
    sizes=st.lists(st.floats(0.0, 220.0), min_size=7, max_size=7),
    family=st.sampled_from(["i", "l", "p"]),
    step=st.sampled_from([0.1, 0.5, 1.0]),
    with_leaves=st.booleans(),
)
def test_rows_and_gaps_add_up_and_nothing_leaves_the_opening(
    book, inset, lay_on, stock, under, over, leaves, height, width, sill, sizes, family, step, with_leaves
):
    plain = book.build_up("lay-on without trim, run of cupboards")
    build_up = {"i": inset, "l": lay_on, "p": plain}[family].model_copy(update={"step": step})
    kinds = [*under, *(["leaves"] if with_leaves else []), *over]
    assume(any(kind != "apron" for kind in kinds))
    rows = [
        f"{kind} {size if size > 40 and kind != 'leaves' else 0}"
        for kind, size in zip(kinds, sizes[: len(kinds)], strict=True)
    ]
    frame = _frame(*rows, width=round(width), height=round(height), leaves=leaves, sill=sill)
    try:
        result = set_out(build_up, stock(build_up), frame)
        whole = set_out(build_up, stock(build_up), replace(frame, rows=()))
    except Infeasible:
        return
    if len(kinds) == 1 and kinds[0] == "leaves":
        assert not result.rows
        return
    total = sum(row.height.value for row in result.rows)
    if len(result.rows) > 1:
        gap = result.dimension("gap between rows").value
        assert gap >= build_up.meeting_gap - 1e-9
        assert gap <= build_up.meeting_gap + len(rows) * step / (len(rows) - 1) + 1e-9
        total += (len(result.rows) - 1) * gap
        for low, high in pairwise(result.rows):
            assert high.foot - low.foot - low.height.value == pytest.approx(gap)
    assert total == pytest.approx(whole.leaf_height.value, abs=1e-6)
    doors = [e for e in whole.elements if e.kind is PartKind.DOOR]
    assert result.rows[0].foot == pytest.approx(doors[0].y)
    front = (PartKind.DOOR, PartKind.DRAWER_FRONT, PartKind.FLAP, PartKind.APRON)
    seen = [e for e in result.elements if e.kind in front]
    assert max(e.y + e.height for e in seen) == pytest.approx(doors[0].y + doors[0].height)
    assert max(e.x + e.width for e in seen) <= frame.width.value + 1e-6
    assert min(e.x for e in seen) >= -1e-6
    for part in (p.part for p in result.parts):
        for bore in part.borings:
            assert 0 < bore.x.value < part.width.value
            assert 0 < bore.y.value < part.length.value


@quiet
@given(
    hand=st.sampled_from(["left", "right"]),
    row=st.sampled_from(["drawer 180", "flap 300", "apron 90"]),
    up=st.booleans(),
)
def test_fronts_are_alike_from_both_sides(inset, stock, hand, row, up):
    """What is no leaf has its holes mirrored about its middle, and legs carry mirrored stays whatever the leaf's hand."""
    fit = replace(stock(inset), drawer_fixing=FIXING, apron_fixing=FIXING, flap_stay=STAY, handle=HANDLE)
    bare = inset.model_copy(update={"hinge_lining": False})
    rows = ("leaves", row) if up else (row, "leaves")
    result = set_out(bare, fit, _frame(*rows, width=600, leaves=1, hand=hand))
    for kind in (PartKind.DRAWER_FRONT, PartKind.FLAP, PartKind.APRON):
        for part in _of(result, kind):
            holes = {(b.kind, round(b.x.value, 6), b.y.value) for b in part.borings}
            assert holes == {(k, round(part.width.value - x, 6), y) for k, x, y in holes}
    legs = {p.hand: p for p in _of(result, PartKind.LINING_LEG)}
    if row.startswith("flap"):
        depth = legs["left"].width.value
        assert _holes(legs["left"], "stay") == [(depth - x, y) for x, y in _holes(legs["right"], "stay")]
        assert len(_holes(legs["left"], "stay")) == 2


def test_a_flap_by_statics():
    """10 kg, 500 high: half its weight 49.03 N at the foot; about the hinges 49.03 N x 0.5 m = 24.52 N m."""
    assert flap_lift(10) == pytest.approx(49.03, abs=0.01)
    assert flap_moment(10, 500) == pytest.approx(24.52, abs=0.01)


@pytest.mark.parametrize(
    ("rows", "said"),
    [
        (("drawer 2000", "leaves"), "the front is 1995.0 mm high, which leaves beside drawer 2000 the leaves"),
        (
            ("drawer 200", "flap 300"),
            "the rows asked for (drawer 200, flap 300) come to 500.0 mm, but with gaps of 3.0 mm",
        ),
        (("flap 100", "leaves"), "the flap would be 100.0 mm high, less than the least of 120 mm; make its row higher"),
    ],
)
def test_what_does_not_go_is_said(inset, stock, rows, said):
    with pytest.raises(Infeasible) as caught:
        set_out(inset, stock(inset), _frame(*rows))
    assert said in str(caught.value)


def test_a_hole_off_its_front_is_said(inset, stock):
    fit = replace(stock(inset), drawer_fixing=FIXING.model_copy(update={"place": 250.0}))
    with pytest.raises(
        Infeasible, match=r"the fixing would be bored 60.0 mm across and -50.0 mm down, off a drawer front"
    ):
        set_out(inset, fit, _frame("drawer 200", "leaves"))


def test_no_aprons_under_a_raked_head(inset, stock):
    frame = RakedFrame(Measure(800, "w"), Measure(1500, "l"), Measure(1000, "r"), 1, "left", sill=False)
    with pytest.raises(Infeasible, match="under a raked head there are no aprons yet"):
        set_out(inset.model_copy(update={"apron_top": 80.0}), stock(inset), frame)


def test_faults_in_rows_are_said_all_at_once():
    opening = Opening.model_validate(
        {
            "mark": "A",
            "state": "planned",
            "head": "raked",
            "leaf": [400, 1800],
            "rows": [
                {"kind": "leaves"},
                {"kind": "leaves", "height": 20},
                {"kind": "drawer", "height": 200, "share": 2},
            ],
        }
    )
    assert [str(fault) for fault in check_opening(opening, Place(("openings", 0)))] == [
        "openings[1].rows: there are leaves in more than one row; leave one of them, or make two openings",
        "openings[1].rows: under a raked head a front is not divided in rows; leave them out",
        "openings[1].rows: a wanted leaf is one of a front that is not divided; give the clear size that is wanted instead",
        "openings[1].rows[2].height: 20 mm is less than the least row, 40 mm; write 0 for what is left over",
        "openings[1].rows[3].share: a row 200 mm high takes no share of what is left; keep one of the two",
    ]


def test_rows_may_be_written_as_a_short_text():
    opening = Opening.model_validate({"mark": "A", "state": "planned", "rows": "drawer 200, Drawer 2 shares; leaves"})
    assert [(r.kind, r.height, r.share) for r in opening.rows] == [
        ("drawer", 200, 1),
        ("drawer", 0, 2),
        ("leaves", 0, 1),
    ]
    with pytest.raises(ValidationError) as caught:
        Opening.model_validate({"mark": "A", "rows": "shelf 3, leaves"})
    (fault,) = faults_of(caught.value, Opening, {"mark": "A", "rows": "shelf 3, leaves"})
    assert "the row 'shelf 3' can't be read; write drawer, flap, leaves or apron" in fault.what
