"""How the leaves of whole fronts open, and what is said where something is in their way."""

import math

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from rodbook.accuracy import BOARDS, BUILDINGS, board_travel, movement
from rodbook.hinges.swing import inset_frame, lay_on_frame
from rodbook.job.book import Board
from rodbook.job.files import parse_job, update_job, write_job
from rodbook.job.models import Ceiling, Hand, JobHeader, Obstacle, Run
from rodbook.plan import front_swing, leaf_checks, plan_parts
from rodbook.plan.analyses.leaf_checks import MADE_IN
from rodbook.plan.stages.neighbours import neighbours
from rodbook.plan.stages.swings import own_frame
from rodbook.setout import PartKind


def _with(plan, mark, **update):
    """The job planned again with something said of one opening."""
    openings = tuple(o.model_copy(update=update) if o.mark == mark else o for o in plan.job.openings)
    return plan_parts(plan.job.model_copy(update={"openings": openings}), plan.book)


def _entry(plan, mark):
    return next(e for e in plan.openings if e.opening.mark == mark)


@pytest.mark.parametrize("name", ["converted-store", "timber-house"])
def test_every_front_of_the_samples_opens_square(planned, name):
    plan = planned(name)
    fronts = [front for entry in plan.openings if (front := front_swing(entry, plan.book))]
    assert len(fronts) == sum(entry.set_out is not None for entry in plan.openings)
    assert all(front.enough and not front.amiss for front in fronts)
    assert not any("meets" in str(note) for note in plan.remarks)


def test_a_radiator_in_front_of_one_leaf_stops_that_leaf_alone(planned):
    """C1 is a pair; a radiator 300 to 470 out from the wall stands before its left leaf only."""
    radiator = Obstacle(name="radiator", left=10, width=300, out=470, away=300, bottom=150, top=750)
    plan = _with(planned("converted-store"), "C1", obstacles=(radiator,))
    front = front_swing(_entry(plan, "C1"), plan.book)
    left, right = front.leaves
    assert (left.swing.stopped_by, left.swing.enough, right.swing.enough) == ("the radiator", False, True)
    said = [str(note) for note in plan.remarks if note.where == "C1"]
    assert said == [f"C1: The left leaf meets the radiator at {left.swing.free_deg:.1f}°, short of the 90° wanted."]
    assert left.swing.free_deg < 60


def test_what_hangs_over_the_leaf_is_passed(planned):
    shelf = Obstacle(name="shelf", left=10, width=300, out=470, away=300, bottom=2100)
    plan = _with(planned("converted-store"), "C1", obstacles=(shelf,))
    assert front_swing(_entry(plan, "C1"), plan.book).enough


def test_a_ceiling_that_comes_down_is_met(planned):
    plan = _with(planned("converted-store"), "C1", ceiling=Ceiling(height=2100, fall=400))
    front = front_swing(_entry(plan, "C1"), plan.book)
    assert {leaf.swing.stopped_by for leaf in front.leaves} == {"the ceiling"}
    higher = _with(planned("converted-store"), "C1", ceiling=Ceiling(height=2400, fall=400))
    assert front_swing(_entry(higher, "C1"), plan.book).enough


@settings(max_examples=15)
@given(
    left=st.floats(-400, 800),
    width=st.floats(20, 400),
    away=st.floats(30, 400),
    deep=st.floats(10, 300),
    bottom=st.floats(0, 1900),
)
def test_a_mirrored_obstacle_stops_the_mirrored_leaf_at_the_same_angle(planned, left, width, away, deep, bottom):
    plan = planned("converted-store")
    across = _entry(plan, "C1").rectangle.width.value
    one = Obstacle(name="thing", left=left, width=width, out=away + deep, away=away, bottom=bottom)
    other = one.model_copy(update={"left": across - left - width})
    fronts = [front_swing(_entry(_with(plan, "C1", obstacles=(thing,)), "C1"), plan.book) for thing in (one, other)]
    assert fronts[0].leaves[0].swing.free_deg == pytest.approx(fronts[1].leaves[1].swing.free_deg, abs=0.05)
    assert fronts[0].leaves[1].swing.free_deg == pytest.approx(fronts[1].leaves[0].swing.free_deg, abs=0.05)


def test_obstacles_and_ceilings_are_written_and_read_back(planned, book):
    radiator = Obstacle(name="radiator", left=-200, width=110, out=90, bottom=150, top=750)
    plan = _with(planned("converted-store"), "C1", obstacles=(radiator,), ceiling=Ceiling(height=2300, fall=-50))
    text = write_job(plan.job)
    assert 'obstacles = [{name = "radiator", left = -200, width = 110, out = 90, bottom = 150, top = 750}]' in text
    assert parse_job(text, book) == plan.job
    assert update_job(text, plan.job) == text


def test_the_checks_of_a_leaf_say_what_they_rest_on(planned):
    plan = planned("converted-store")
    checks = leaf_checks(_entry(plan, "C3"), plan.book, plan.job.job.building)
    front = _entry(plan, "C3").set_out
    (leaf,) = checks.leaves
    assert leaf.number.count == front.hinges
    assert leaf.load.weight_n[1] == pytest.approx(front.leaf_mass.high * 9.80665, rel=1e-3)
    assert checks.skin.nominal_mm == 22 - plan.book.hinge(plan.book.build_up("inset, painted").hinge).cup_depth
    (gap,) = checks.gaps
    assert (gap.name, gap.leaves) == ("margin at each side", (1,))
    assert gap.year.least_mm < gap.year.made_mm == 3.0
    assert not checks.warnings


def test_a_board_of_which_nothing_is_known_is_named(planned):
    plan = planned("converted-store")
    boards = tuple(b.model_copy(update={"moves_as": None}) for b in plan.book.boards)
    book = plan.book.model_copy(update={"boards": boards})
    checks = leaf_checks(_entry(plan, "C3"), book, plan.job.job.building)
    assert [gap.year for gap in checks.gaps] == [None]
    assert checks.unmoved == "22 mm MDF"


def test_a_tight_margin_in_a_damp_building_is_warned_of(planned):
    plan = planned("converted-store")
    build_ups = tuple(
        b.model_copy(update={"meeting_gap": 1.0, "margin": 1.0}) if b.name == "inset, painted" else b
        for b in plan.book.build_ups
    )
    book = plan.book.model_copy(update={"build_ups": build_ups})
    entry = _entry(plan_parts(plan.job, book), "C1")
    checks = leaf_checks(entry, book, "unheated, or new and drying out")
    assert checks.gaps[0].year.least_mm < 1
    assert checks.warnings


def test_the_book_and_the_job_name_what_can_be_worked_out():
    assert set(Board.model_fields["moves_as"].annotation.__args__[0].__args__) == set(BOARDS)
    assert set(JobHeader.model_fields["building"].annotation.__args__) == set(BUILDINGS)


def test_the_plate_follows_from_how_the_leaf_lies(planned):
    """Inset with hinge linings: 18 thick less the margin of 3, so the leaf lies 15 over; lay-on laps as its build-up says."""
    store = planned("converted-store")
    checks = leaf_checks(_entry(store, "C1"), store.book, store.job.job.building)
    assert checks.leaves[0].hanging.lap_mm == pytest.approx(15)
    plate = checks.leaves[0].plate
    assert plate.arm.constant_mm + plate.boring_distance_mm - plate.plate_height_mm + plate.adjust_mm == pytest.approx(
        15
    )
    house = planned("timber-house")
    entry = _entry(house, "W1")
    checks = leaf_checks(entry, house.book, house.job.job.building)
    assert checks.leaves[0].hanging.lap_mm == pytest.approx(house.book.build_up(entry.build_up).lap)


def test_cups_too_near_the_edge_are_told(planned):
    plan = planned("converted-store")
    hinges = tuple(h.model_copy(update={"cup_edge": 0.5}) for h in plan.book.hinges)
    book = plan.book.model_copy(update={"hinges": hinges})
    checks = leaf_checks(_entry(plan_parts(plan.job, book), "C3"), book, plan.job.job.building)
    assert checks.too_near
    assert all(said.startswith("In the door cup ") for said in checks.too_near)
    assert set(checks.too_near) <= set(checks.warnings)


def test_the_fourth_of_four_leaves_is_named(planned):
    """Four leaves of about 390 mm; a post stands before the last of them only, close to its free edge."""
    plan = _with(planned("converted-store"), "C1", widths=(1600, 1600, 1600), diagonals=None, leaves=4)
    entry = _entry(plan, "C1")
    post = Obstacle(name="post", left=1250, width=60, out=260, away=200)
    plan = _with(plan, "C1", obstacles=(post,))
    front = front_swing(_entry(plan, "C1"), plan.book)
    assert len(front.leaves) == entry.set_out.leaves == 4
    assert [leaf.swing.enough for leaf in front.leaves] == [True, True, True, False]
    said = f"Leaf 4 from the left meets the post at {front.leaves[3].swing.free_deg:.1f}°, short of the 90° wanted."
    assert (front.sentences[3], front.amiss[0]) == (said, said)
    assert f"C1: {front.amiss[0]}" in [str(note) for note in plan.remarks]


def _with_handles(plan, **change):
    """The plan again with bar handles on its inset fronts, their holes changed."""
    build_ups = tuple(
        b.model_copy(update={"handle": "bar handle, 128"}) if b.name == "inset, painted" else b
        for b in plan.book.build_ups
    )
    fittings = tuple(f.model_copy(update=change) if f.name == "bar handle, 128" else f for f in plan.book.fittings)
    book = plan.book.model_copy(update={"build_ups": build_ups, "fittings": fittings})
    return plan_parts(plan.job, book)


def test_handle_holes_right_through_are_no_fault(planned):
    """They were told of in bold, to be bored less deep, which would have spoilt the door."""
    plan = _with_handles(planned("converted-store"))
    for entry in plan.openings:
        checks = leaf_checks(entry, plan.book, plan.job.job.building)
        doors = [placed.part for placed in entry.set_out.parts if placed.part.kind == "door"]
        assert all(sum(b.through for b in door.borings) == 2 for door in doors)
        assert checks.too_near == ()


def test_handle_holes_that_are_meant_to_end_inside_are_told_of(planned):
    plan = _with_handles(planned("converted-store"), depth=21.5)
    checks = leaf_checks(_entry(plan, "C1"), plan.book, plan.job.job.building)
    assert any("leaves 0.5 mm to the outer face" in said for said in checks.too_near)


def test_a_handle_that_is_only_screwed_on_has_no_holes(planned):
    plan = _with_handles(planned("converted-store"), diameter=0.0)
    entry = _entry(plan, "C1")
    kinds = {b.kind for placed in entry.set_out.parts for b in placed.part.borings if placed.part.kind == "door"}
    assert kinds == {"cup", "pilot"}
    assert leaf_checks(entry, plan.book, plan.job.job.building).too_near == ()


# --- each leaf by its own figures ---------------------------------------------------------------------------------


def _checks(plan, mark):
    return leaf_checks(_entry(plan, mark), plan.book, plan.job.job.building)


def test_each_of_uneven_leaves_has_its_own_pull(planned):
    """By hand: mass of each leaf at half its own width, over the distance of its top hinge to its bottom one."""
    plan = _with(planned("converted-store"), "C1", leaf_widths=(0.0, 520.0))
    checks = _checks(plan, "C1")
    sizes = _entry(plan, "C1").set_out.leaf_sizes
    assert [size.width.value for size in sizes] == [262.0, 520.0]
    for leaf, size in zip(checks.leaves, sizes, strict=True):
        ys = next(e for e in _entry(plan, "C1").set_out.elements if e.label == f"leaf {leaf.hanging.number}").hinge_ys
        by_hand = size.mass.high * 9.80665 * size.width.value / 2 / (max(ys) - min(ys))
        assert leaf.load.pull_n[1] == pytest.approx(by_hand)
        assert leaf.load.weight_n[1] == pytest.approx(size.mass.high * 9.80665)
    narrow, wide = checks.leaves
    assert wide.load.pull_n[1] == pytest.approx(narrow.load.pull_n[1] * (520 / 262) ** 2, rel=1e-6)


def test_each_of_uneven_leaves_moves_by_its_own_width(planned):
    """The gap between a narrow and a wide leaf closes as that of two leaves of half their sum."""
    plan = planned("converted-store")
    uneven, even = _checks(_with(plan, "C1", leaf_widths=(0.0, 520.0)), "C1"), _checks(plan, "C1")
    assert uneven.gaps[0].leaves == (1, 2)
    for one, other in zip(uneven.gaps[0].year.seasons, even.gaps[0].year.seasons, strict=True):
        assert sum(one.leaves_mm) == pytest.approx(sum(other.leaves_mm), rel=1e-9)


def test_only_the_head_between_what_two_leaves_hang_on_widens_their_gap(planned):
    """Four leaves are two pairs that hang on the legs and on the division: half the head is between them."""
    plan = _with(planned("converted-store"), "C1", widths=(1600, 1600, 1600), diagonals=None, leaves=4)
    checks = _checks(plan, "C1")
    front = _entry(plan, "C1").set_out
    assert [gap.leaves for gap in checks.gaps] == [(1, 2), (3, 4)]
    for gap in checks.gaps:
        for season in gap.year.seasons:
            half = movement(front.clear_width.value / 2, board_travel("MDF"), made_in=MADE_IN, comes_to=season.air)
            assert season.carriers_mm == pytest.approx(half)


def test_of_three_leaves_the_middle_one_laps_its_division_and_gets_its_own_arm(planned):
    """18 mm boards, gap 4: the division is lapped by (18 - 4) / 2 = 7, the legs by 10: lap = 13 - crank + 5 - plate."""
    plan = planned("timber-house")
    checks = _checks(plan, "W3")
    assert [str(leaf.hanging.on) for leaf in checks.leaves] == ["lining leg", "division", "lining leg"]
    assert [leaf.hanging.lap_mm for leaf in checks.leaves] == pytest.approx([10, 7, 10])
    for leaf in checks.leaves:
        plate = leaf.plate
        reached = plate.arm.constant_mm + plate.boring_distance_mm - plate.plate_height_mm
        assert reached + plate.adjust_mm == pytest.approx(leaf.hanging.lap_mm)
    fits = [(leaf.plate.arm.name, leaf.plate.plate_height_mm) for leaf in checks.leaves]
    assert fits[0] == fits[2] != fits[1]


def _figures(checks):
    """What is said of each leaf and each gap, from the left."""
    leaves = [
        (
            leaf.hanging.edge,
            str(leaf.hanging.on),
            leaf.hanging.lap_mm,
            leaf.number.count,
            leaf.load.pull_n,
            leaf.plate.arm.name,
            leaf.plate.plate_height_mm,
            swing.swing.free_deg,
        )
        for leaf, swing in zip(checks.leaves, checks.swing.leaves, strict=True)
    ]
    return leaves, [(gap.leaves, gap.year.least_mm, gap.year.most_mm) for gap in checks.gaps]


@settings(max_examples=20, deadline=None)
@given(
    widths=st.lists(st.integers(200, 450), min_size=1, max_size=3),
    hand=st.sampled_from(list(Hand)),
    mark=st.sampled_from(["C1", "W1"]),
    data=st.data(),
)
def test_a_mirrored_front_has_mirrored_figures(planned, widths, hand, mark, data):
    plan = planned("converted-store" if mark == "C1" else "timber-house")
    shares = tuple(float(w) for w in (*widths, data.draw(st.integers(200, 450))))
    wide = (round(sum(shares)) + 120.0,) * 3
    size = {"clear": None, "leaf": None} if mark == "C1" else {"leaf": None, "clear": (wide[0], 2000.0)}
    size |= {"widths": wide, "diagonals": None} if mark == "C1" else {}
    one = {"leaves": len(shares), "leaf_shares": shares, "hand": hand, **size}
    other = one | {"leaf_shares": shares[::-1], "hand": Hand.LEFT if hand is Hand.RIGHT else Hand.RIGHT}
    (leaves, gaps), (mirrored, gaps_mirrored) = (
        _figures(_checks(_with(plan, mark, **way), mark)) for way in (one, other)
    )
    swap = {"left": "right", "right": "left"}
    for a, b in zip(leaves, mirrored[::-1], strict=True):
        assert (swap[a[0]], a[1], a[3], a[5], a[6]) == (b[0], b[1], b[3], b[5], b[6])
        assert (a[2], *a[4]) == pytest.approx((b[2], *b[4]), abs=1e-6)
        assert a[7] == pytest.approx(b[7], abs=0.02)
    count = len(shares) + 1
    for a, b in zip(gaps, gaps_mirrored[::-1], strict=True):
        assert a[0] == tuple(count - n for n in reversed(b[0]))
        assert a[1:] == pytest.approx(b[1:], abs=1e-6)


@pytest.mark.parametrize("edge", [3.0, 4.0, 5.0, 6.0, 7.0])
def test_the_swing_follows_from_where_the_book_s_hinge_has_its_cup(planned, edge):
    """A leaf bored further in turns about a point further in: what stands beside it is met at another angle, as by hand."""
    plan = planned("converted-store")
    hinges = tuple(h.model_copy(update={"cup_edge": edge}) for h in plan.book.hinges)
    book = plan.book.model_copy(update={"hinges": hinges})
    across = _entry(plan, "C3").rectangle.width.value
    wall = Obstacle(name="wall", left=-60, width=50, out=700, away=30)
    job = _with(plan, "C3", obstacles=(wall,)).job
    entry = _entry(plan_parts(job, book), "C3")
    front = front_swing(entry, book)
    (leaf,), door = front.leaves, next(e for e in entry.set_out.elements if e.hinge_side)
    thick, width = book.board("22 mm MDF").thickness, door.width
    corner = (across - entry.set_out.outer_width.value) / 2 + door.x
    (met,) = [contact.angle_deg for contact in leaf.swing.contacts if contact.name == "the wall"]
    assert met == pytest.approx(_first_over(corner, thick, width, edge, x=-10.0, from_y=30.0), abs=0.06)


def _first_over(corner, thick, width, edge, *, x, from_y):
    """The first angle at which any point of the leaf's outline stands left of x, more than `from_y` out; step by step."""
    outline = [(k * width / 400, y) for k in range(401) for y in (0.0, -thick)]
    for step in range(1, 1101 * 5):
        angle = math.radians(step / 50)
        sin, cos = math.sin(angle), math.cos(angle)
        more = edge - 5.0
        sx = 13.84 * sin + 6.65 * sin**2 + more * (1 - cos)
        sy = (4.0 - more) * sin
        for qx, qy in outline:
            px = corner + qx * cos - (qy + thick) * sin + sx
            py = qx * sin + (qy + thick) * cos - thick + sy
            if px < x and py > from_y:
                return step / 50
    return None


# --- two leaves side by side --------------------------------------------------------------------------------------


def test_leaves_back_to_back_on_one_division_are_swept_together(planned):
    """Of four inset leaves 22 mm thick and 3 mm apart each of the middle two passes the other one closed, and no further."""
    plan = _with(planned("converted-store"), "C1", widths=(1600, 1600, 1600), diagonals=None, leaves=4)
    front = front_swing(_entry(plan, "C1"), plan.book)
    assert all(leaf.swing.enough for leaf in front.leaves)
    (pair,) = [pair for pair in front.pairs if pair.back_to_back]
    assert (pair.amiss, pair.swept.first, front.enough) == (True, "neither", False)
    assert front.amiss == (str(pair),)
    said = (
        "Leaf 2 from the left and leaf 3 from the left hang back to back, 3.0 mm apart: with one of them wide open the other "
        "opens to 13° only. They want 5.1 mm."
    )
    assert str(pair) == said
    assert f"C1: {said}" in [str(note) for note in plan.remarks]


def test_leaves_back_to_back_with_the_gap_they_want_are_well(planned):
    plan = _with(planned("converted-store"), "C1", widths=(1600, 1600, 1600), diagonals=None, leaves=4)
    build_ups = tuple(
        b.model_copy(update={"meeting_gap": 5.1}) if b.name == "inset, painted" else b for b in plan.book.build_ups
    )
    plan = plan_parts(plan.job, plan.book.model_copy(update={"build_ups": build_ups}))
    front = front_swing(_entry(plan, "C1"), plan.book)
    assert front.enough
    assert not front.amiss


def _over_a_pier(planned, pier):
    """The galley's U2 twice: pairs of 22 mm leaves over the edges of two frames without packers, so much wall between them."""
    plan = planned("galley")
    mine = _entry(plan, "U2")
    build_ups = tuple(
        b.model_copy(update={"leaf_board": "22 mm MDF", "packer_least": 0.0, "packer_wanted": 0.0, "reveal": 0.5})
        if b.name == mine.build_up
        else b
        for b in plan.book.build_ups
    )
    openings = (mine.opening, mine.opening.model_copy(update={"mark": "U4"}))
    runs = (Run(name="base cupboards", openings=("U2", "U4"), piers=(pier,)),)
    job = plan.job.model_copy(update={"openings": openings, "panels": (), "runs": runs})
    return plan_parts(job, plan.book.model_copy(update={"build_ups": build_ups}))


@pytest.mark.parametrize(
    ("pier", "told"),
    [
        (1.0, "2.0 mm apart: with one of them wide open the other opens to 3° only. They want 5.1 mm."),
        (3.0, "4.0 mm apart: open one after the other, or give them 5.1 mm to open both at once."),
        (4.2, ""),
        (38.0, ""),
    ],
)
def test_leaves_on_either_side_of_a_pier_are_swept_together_where_they_come_near(planned, pier, told):
    """Between the hinge edges are the pier and two reveals of 0.5 mm; two 22 mm leaves want 5.006 mm, as on one division."""
    plan = _over_a_pier(planned, pier)
    assert not plan.aside, "the run is planned, so that its pier is looked at"
    found = [str(pair) for _, pair in neighbours(plan.openings, plan.job, plan.book)]
    assert found == ([f"The right leaf of U2 and the left leaf of U4 hang back to back, {told}"] if told else [])


def test_leaves_beside_each_other_over_a_shared_edge_are_swept_together(planned):
    half = half_lapped(planned)
    (found,) = {str(pair) for _, pair in neighbours(half.openings, half.job, half.book)}
    assert "over the shared edge" in found
    assert f"They want {5.1} mm." in found or "to open both at once" in found


def half_lapped(planned):
    """The galley's base cupboards with half laps at their sides, leaves 22 mm: the next front has the other half of the edge."""
    plan = planned("galley")
    mine = plan.book.build_up(_entry(plan, "U2").build_up)
    build_ups = tuple(
        b.model_copy(update={"side_lap": "half", "leaf_board": "22 mm MDF"}) if b.name == mine.name else b
        for b in plan.book.build_ups
    )
    return plan_parts(plan.job, plan.book.model_copy(update={"build_ups": build_ups}))


def _moved(obstacles, x, y):
    return {o.name: {(round(a + x, 6), round(b + y, 6)) for a, b in o.outline} for o in obstacles}


def test_what_stands_beside_the_leaves_is_where_formulas_put_it(planned):
    """The assembly's legs and trims against those worked out from margins, laps and thicknesses alone."""
    inset = _entry(planned("converted-store"), "C1").set_out
    (first, *_, last) = inset.assembly.of(PartKind.DOOR)
    wide = last.face[2] - first.face[0]
    by_formula = inset_frame(
        wide, margins=first.face[0] - 18, lining_thickness=18, lining_depth=140, trim=(58, 18), trim_set_back=6
    )
    assert _moved(own_frame(inset, 0.0), 0, 0) == _moved(by_formula, first.face[0], 0)
    within_trim = next(
        e.set_out
        for e in planned("timber-house").openings
        if e.set_out and e.set_out.family == "lay-on within trim" and not e.set_out.falls_to
    )
    doors = within_trim.assembly.of(PartKind.DOOR)
    leg, trim = within_trim.assembly.of(PartKind.LINING_LEG)[0], within_trim.assembly.of(PartKind.TRIM_LEG)[0]
    lap, thick = leg.across[1] - doors[0].face[0], doors[0].deep[1]
    by_formula = lay_on_frame(
        doors[-1].face[2] - doors[0].face[0],
        leaf_thickness=thick,
        lap=lap,
        margins=doors[0].face[0] - trim.across[1],
        lining_thickness=18,
        lining_depth=-leg.deep[0],
        trim=(trim.across[1] - trim.across[0], trim.deep[1]),
    )
    assert _moved(own_frame(within_trim, 0.0), 0, 0) == _moved(by_formula, doors[0].face[0], thick)
