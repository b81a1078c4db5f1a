"""One bad opening does not blank the job: it stands aside with its sentence, and the others are planned without it."""

from decimal import Decimal

import pytest

from rodbook.errors import Fault, InputError, Place
from rodbook.job import Panel
from rodbook.job.aside import Aside, asides_of, entry_of, numbered_as, without
from rodbook.job.files import parse_book, parse_job, parse_job_apart, sample_book_text, sample_text, write_job
from rodbook.plan import make_plan, plan_json, plan_parts

BOOK = parse_book(sample_book_text())
STORE = parse_job(sample_text("converted-store"), BOOK)
TIMBER = parse_job(sample_text("timber-house"), BOOK)


def with_opening(job, mark, **changes):
    openings = tuple(o.model_copy(update=changes) if o.mark == mark else o for o in job.openings)
    return job.model_copy(update={"openings": openings})


def without_marks(job, *marks):
    return job.model_copy(update={"openings": tuple(o for o in job.openings if o.mark not in marks)})


BAD = (
    ("C2", {"widths": (843.0, 700.0, 843.0)}, "differ by 143 mm"),  # a slip of the tape, told by the checks
    ("C2", {"build_up": "no such"}, "the book has no build-up 'no such'"),  # a name that the book lost
    ("C2", {"leaf_widths": (125.0, 0.0), "leaves": 2}, ""),  # what only the set-out can tell
)


@pytest.mark.parametrize(("mark", "change", "why"), BAD)
def test_a_bad_opening_stands_aside_and_the_others_are_planned_as_if_it_were_not_there(mark, change, why):
    if not why:
        change = {**change, "rows": STORE.openings[0].rows, "leaf_widths": (5000.0, 0.0)}
    job = with_opening(STORE, mark, **change)
    plan = plan_parts(job, BOOK)
    number = [o.mark for o in STORE.openings].index(mark) + 1
    (one,) = (a for a in plan.aside if a.group == "openings")
    assert (one.number, one.mark) == (number, mark)
    assert why in " ".join(one.why)
    assert all(entry_of(fault) == ("openings", number) for fault in one.faults)
    alone = plan_parts(without(job, plan.aside)[0], BOOK)
    assert (plan.openings, plan.schedule, plan.sizes) == (alone.openings, alone.schedule, alone.sizes)
    assert plan.job == job


def test_money_has_nothing_in_it_of_what_stands_aside():
    job = with_opening(STORE, "C2", widths=(843.0, 700.0, 843.0))
    plan = make_plan(job, BOOK, seconds=1.0)
    alone = make_plan(without(job, plan.aside)[0], BOOK, seconds=1.0)
    assert [one.mark for one in plan.missing] == ["C2"]
    assert plan.money == alone.money
    assert "C2" not in {mark for line in plan.schedule for mark, _ in line.openings}
    assert Decimal(0) < plan.money.totals.decided < make_plan(STORE, BOOK, seconds=1.0).money.totals.decided
    told = plan_json(plan)["aside"]
    assert told[0]["mark"] == "C2"


def test_a_run_with_an_opening_that_stands_aside_stands_aside_too_and_says_so():
    run = TIMBER.runs[0]
    job = with_opening(TIMBER, run.openings[0], leaf=(447.0, 2600.0))
    plan = plan_parts(job, BOOK)
    told = {one.group: one for one in plan.aside}
    assert told["runs"].name == run.name
    assert told["runs"].why[0].startswith(f"{run.openings[0]} stands aside, so nothing runs on here")
    assert run.openings[0] not in {entry.opening.mark for entry in plan.openings}
    assert plan.missing == (told["openings"],)


def test_a_part_longer_than_any_length_sets_its_own_opening_aside():
    section = BOOK.section("70 x 22 MDF trim")
    short = section.model_copy(update={"lengths": section.lengths[1:]})
    small = BOOK.model_copy(update={"sections": tuple(short if s is section else s for s in BOOK.sections)})
    job = TIMBER.model_copy(update={"runs": ()})
    wide = with_opening(job, "W3", leaf=(790.0, 1500.0))
    plan = make_plan(wide, small, seconds=1.0)
    assert [one.name for one in plan.missing] == ["W3"]
    assert plan.missing[0].why[0].startswith("its trim head can't be cut: ")
    assert plan.money == make_plan(without_marks(job, "W3"), small, seconds=1.0).money


def test_with_nothing_left_every_fault_is_raised():
    job = STORE.model_copy(
        update={
            "openings": tuple(o.model_copy(update={"widths": (843.0, 700.0, 843.0)}) for o in STORE.openings[:3]),
            "panels": (),
        }
    )
    with pytest.raises(InputError) as caught:
        plan_parts(job, BOOK)
    assert [entry_of(fault)[1] for fault in caught.value.faults] == [1, 2, 3, 3, 3]


def test_a_fault_of_the_whole_job_is_no_fault_of_an_opening():
    with pytest.raises(InputError, match=r"job\.build_up"):
        plan_parts(STORE.model_copy(update={"job": STORE.job.model_copy(update={"build_up": "none"})}), BOOK)


def test_entries_that_could_not_be_read_keep_the_numbers_of_the_document():
    unread = Aside("openings", 1, "C1", (Fault(Place(("openings", 0, "widths"), "C1"), "field.empty"),))
    rest = with_opening(without_marks(STORE, "C1"), "C3", widths=(843.0, 700.0, 843.0))
    plan = plan_parts(rest, BOOK, aside=[unread])
    assert [(one.mark, one.number) for one in plan.missing] == [("C1", 1), ("C3", 3)]
    assert plan.missing[1].faults[0].where.startswith("openings[3].widths")


def test_numbers_step_over_all_that_stand_aside_before_them():
    earlier = [Aside("openings", n, "", ()) for n in (4, 1, 2)]
    faults = asides_of(
        [Fault(("openings", 0), "field.empty"), Fault(("openings", 1, "leaf"), "field.empty")],
        {"openings": ["a", "b"]},
    )
    assert [one.number for one in numbered_as(faults, earlier)] == [3, 5]


@pytest.mark.parametrize("at", ["openings", ("openings", "C1"), ("job", "name"), "price", ("openings[1]x",), ""])
def test_a_place_that_is_no_entry_is_none(at):
    assert entry_of(Fault(at, "field.empty")) is None


def test_a_bad_panel_stands_aside():
    sound = Panel(mark="P1", board=BOOK.boards[0].name, length=900.0, width=400.0)
    job = STORE.model_copy(update={"panels": (sound.model_copy(update={"mark": "P0", "board": "no such"}), sound)})
    plan = plan_parts(job, BOOK)
    assert [(one.group, one.name) for one in plan.missing] == [("panels", "P0")]
    assert plan.panels == (sound,)


def as_text(job, *changes):
    """A job's document with these texts in it put for others."""
    text = write_job(job)
    for old, new in changes:
        assert text.count(old) >= 1, old
        text = text.replace(old, new, 1)
    return text


def test_a_document_is_read_without_its_bad_openings_and_runs():
    run = TIMBER.runs[0]
    head, mark, rest = write_job(TIMBER).partition(f'mark = "{run.openings[0]}"')
    text = head + mark + rest.replace(" = [", " = [0, ", 1)
    with pytest.raises(InputError):
        parse_job(text, BOOK)
    job, aside = parse_job_apart(text, BOOK)
    first = next(one for one in aside if one.group == "openings")
    assert first.mark == run.openings[0]
    assert [one.name for one in aside if one.group == "runs"] == [run.name]
    assert job.openings == tuple(o for o in TIMBER.openings if o.mark != first.mark)
    assert not any("there is no opening" in why for one in aside for why in one.why)
    assert plan_parts(job, BOOK, aside=aside).aside == aside


def test_a_sound_document_has_nothing_aside():
    assert parse_job_apart(write_job(STORE), BOOK) == (STORE, ())


def test_a_document_with_a_fault_of_the_whole_job_is_not_read():
    with pytest.raises(InputError, match=r"job\.date"):
        parse_job_apart(as_text(STORE, ("date = ", "date = 12 #")), BOOK)


def test_a_document_with_nothing_sound_in_it_is_not_read():
    lone = STORE.model_copy(update={"openings": STORE.openings[:1], "panels": (), "runs": ()})
    with pytest.raises(InputError, match=r"openings\[1\]\.widths"):
        parse_job_apart(write_job(lone).replace("widths = [", "widths = [1, ", 1), BOOK)
