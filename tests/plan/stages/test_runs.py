"""Runs of openings in a plan: their trims joined, or the reason why not; nothing is lost either way."""

import pytest

from rodbook.job.checks import check_job
from rodbook.job.files import parse_book, parse_job, sample_book_text, sample_text, write_job
from rodbook.job.models import Run
from rodbook.plan import plan_parts
from rodbook.setout import PartKind

BOOK = parse_book(sample_book_text())
STORE = parse_job(sample_text("converted-store"), BOOK)


def with_runs(*runs, job=STORE):
    return job.model_copy(update={"runs": tuple(Run(name=n, openings=o, piers=p) for n, o, p in runs)})


def trims(plan, kind):
    return {
        entry.opening.mark: [p.part for p in entry.set_out.parts for _ in range(p.quantity) if p.part.kind is kind]
        for entry in plan.openings
        if entry.set_out
    }


def test_the_head_runs_on_and_the_legs_between_are_square():
    plan = plan_parts(with_runs(("corridor", ("C1", "C2", "C3"), (310, 305))), BOOK)
    heads, legs = trims(plan, PartKind.TRIM_HEAD), trims(plan, PartKind.TRIM_LEG)
    assert [len(heads[mark]) for mark in ("C1", "C2", "C3", "C4")] == [1, 0, 0, 1]
    assert [leg.ends[:8] for leg in legs["C1"]] == ["45° mitr", ""]
    assert [leg.ends for leg in legs["C2"]] == ["", ""]
    sight = plan.openings[1].set_out.dimension("trim sight height").value
    assert {leg.length.value for leg in legs["C2"]} == {sight}
    assert [note.where for note in plan.runs] == ["C1"]
    assert "The trim of corridor runs on over C1 to C3, " in plan.runs[0].sentence
    assert not [r for r in plan.remarks if "corridor" in r.sentence]


def test_the_length_is_sights_and_packed_piers_and_the_trim_at_both_ends():
    plan = plan_parts(with_runs(("corridor", ("C1", "C2"), (310,))), BOOK)
    one, two = plan.openings[:2]
    edges = [(e.set_out.outer_width.value - e.set_out.dimension("trim sight width").value) / 2 for e in (one, two)]
    between = 310 + one.packers.right_mm[-1] + two.packers.left_mm[-1] + sum(edges)
    sights = sum(e.set_out.dimension("trim sight width").value for e in (one, two))
    (head,) = trims(plan, PartKind.TRIM_HEAD)["C1"]
    assert head.length.value == pytest.approx(sights + between + 2 * 58, abs=0.5)
    assert head.length.value <= sights + between + 2 * 58 + 1e-9


def lower(mark, by):
    openings = tuple(
        o.model_copy(update={"heights": tuple(h - by for h in o.heights), "diagonals": None, "readings": {}})
        if o.mark == mark
        else o
        for o in STORE.openings
    )
    return STORE.model_copy(update={"openings": openings})


@pytest.mark.parametrize("pier", [60.0, 310.0])
def test_what_can_not_run_on_keeps_its_own_trim_and_says_why_and_what_is_in_one_place(pier):
    """Heads 200 mm out of line; over a pier of 60 the two trims of 58 lie over each other, and that is said."""
    plan = plan_parts(with_runs(("corridor", ("C1", "C2"), (pier,)), job=lower("C2", 200)), BOOK)
    assert [len(trims(plan, PartKind.TRIM_HEAD)[mark]) for mark in ("C1", "C2")] == [1, 1]
    assert not plan.runs
    (note,) = [r for r in plan.remarks if "can't run on" in r.sentence]
    assert note.where == "C1"
    assert "their heads do not stand in one line" in note.sentence
    one, two = plan.openings[:2]
    room = pier + one.packers.right_mm[-1] + two.packers.left_mm[-1] + 24
    over = f"they would lie over each other by {116 - room:.1f} mm between C1 and C2"
    assert (over in note.sentence) == (pier == 60.0)


def test_legs_over_a_narrow_pier_are_ripped_and_the_head_runs_on():
    """A pier of 60 and its packers leave less than two legs of 58: both are ripped to half of what there is."""
    plan = plan_parts(with_runs(("corridor", ("C1", "C2"), (60,))), BOOK)
    one, two = plan.openings[:2]
    room = 60 + one.packers.right_mm[-1] + two.packers.left_mm[-1] + 24
    width = room / 2 // 0.5 * 0.5
    legs = trims(plan, PartKind.TRIM_LEG)
    assert sorted(leg.width.value for leg in legs["C1"]) == [width, 58]
    assert sorted(leg.width.value for leg in legs["C2"]) == [width, 58]
    (ripped,) = [leg for leg in legs["C2"] if leg.width.value == width]
    assert (ripped.ends, ripped.cut_width) == (f"ripped from 58 to {width:g} mm wide", 58)
    assert [len(trims(plan, PartKind.TRIM_HEAD)[mark]) for mark in ("C1", "C2")] == [1, 0]
    assert f"; legs ripped to {width:g} mm between C1 and C2." in plan.runs[0].sentence


@pytest.mark.parametrize(
    ("run", "said"),
    [
        (("x", ("C1", "C99"), (300,)), "there is no opening 'C99'"),
        (("x", ("C1", "C1"), (300,)), "'C1' stands in it twice"),
        (("x", ("C1", "C2", "C3"), (300,)), "3 openings have 2 piers between them, not 1"),
    ],
)
def test_faults_of_a_run_are_told_where_they_are(run, said):
    (fault,) = check_job(with_runs(run), BOOK)[:1]
    assert fault.where.startswith("runs[1].")
    assert said in fault.what


def test_an_opening_stands_in_one_run_only():
    faults = check_job(with_runs(("a", ("C1", "C2"), (300,)), ("b", ("C2", "C3"), (300,))), BOOK)
    assert [f.where for f in faults] == ["runs[1].openings (a)", "runs[2].openings (b)"]


def test_a_raked_head_takes_no_run():
    stair = parse_job(sample_text("stair"), BOOK)
    plan = plan_parts(with_runs(("stair", ("S1", "S2"), (100,)), job=stair), BOOK)
    assert [one.name for one in plan.aside] == ["stair"]
    assert "the head of 'S1' is raked; a trim runs on over level heads only" in plan.aside[0].why


def test_a_run_is_written_and_read_back():
    job = with_runs(("corridor", ("C1", "C2"), (310.5,)))
    assert parse_job(write_job(job), BOOK) == job


GALLEY = parse_job(sample_text("galley"), BOOK)


def test_a_plinth_runs_on_and_the_legs_are_cut_out_for_it():
    """Clear widths 564, 864 and 764; between them 18 + 6 + 38 + 6 + 18 twice: 2192 + 172 = 2364.

    Set back 40 and 18 thick: 58 out of both legs beside each pier, and out of none at the ends.
    """
    plan = plan_parts(GALLEY, BOOK)
    plinths, legs = trims(plan, PartKind.PLINTH), trims(plan, PartKind.LINING_LEG)
    assert [[p.length.value for p in plinths[mark]] for mark in ("U1", "U2", "U3")] == [[2364], [], []]
    cut = {mark: [leg.hand for leg in legs[mark] if "cut out 58 × 100 mm" in leg.ends] for mark in ("U1", "U2", "U3")}
    assert cut == {"U1": ["right"], "U2": ["left", "right"], "U3": ["left"]}
    assert [len(legs[mark]) for mark in cut] == [2, 2, 2]
    notches = {(leg.notch.deep.value, leg.notch.high.value) for leg in legs["U2"]}
    assert notches == {(58, 100)}
    (note,) = plan.runs
    assert note.sentence == (
        "The plinth of base cupboards runs on under U1 to U3, 2364.0 mm in one length; what is framed between them stands back "
        "58 mm at the foot."
    )


def test_a_plinth_longer_than_a_sheet_is_butted_over_a_pier():
    """Sheets 2440 with 10 off each end yield 2420; with piers of 100 the run is 2488: two pieces, and the longer as short as
    can be: 564 + 74 = 638 and 1850 if butted after U1; 1650 and 838 if after U2, each with 74 to the middle of a pier.
    """
    wide = GALLEY.model_copy(update={"runs": (GALLEY.runs[0].model_copy(update={"piers": (100.0, 100.0)}),)})
    plan = plan_parts(wide, BOOK)
    plinths = trims(plan, PartKind.PLINTH)
    assert [[p.length.value for p in plinths[mark]] for mark in ("U1", "U2", "U3")] == [[1650], [], [838]]
    assert "butted over the middle of the pier between U2 and U3" in plan.runs[0].sentence


def test_a_plinth_in_bays_does_not_run_on():
    bays = BOOK.model_copy(
        update={"build_ups": tuple(b.model_copy(update={"at_plinth": "bays"}) for b in BOOK.build_ups)}
    )
    plan = plan_parts(GALLEY, bays)
    assert [len(found) for mark, found in trims(plan, PartKind.PLINTH).items() if mark.startswith("U")] == [1, 1, 1]
    (note,) = [r for r in plan.remarks if "can't run on" in r.sentence]
    assert "'base cupboards, lay-on' the plinth stands in bays" in note.sentence


def test_a_plinth_does_not_run_on_past_an_end_panel():
    openings = [o.model_copy(update={"end_panels": "right"}) if o.mark == "U1" else o for o in GALLEY.openings]
    plan = plan_parts(GALLEY.model_copy(update={"openings": tuple(openings)}), BOOK)
    assert [len(found) for mark, found in trims(plan, PartKind.PLINTH).items() if mark.startswith("U")] == [1, 1, 1]
    (note,) = [r for r in plan.remarks if "can't run on" in r.sentence]
    assert "U1 has an end panel on the right, where the run goes on" in note.sentence
