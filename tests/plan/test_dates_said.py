"""What books and jobs say of dates: people and days, starts, times and turns of single tasks."""

from __future__ import annotations

from dataclasses import replace
from datetime import date

import pytest

from rodbook.dates import Absence, Person
from rodbook.job.checks import check_book, check_job
from rodbook.job.dates import FirmDates, JobDates
from rodbook.plan.schedule.dates import FirmDays, SupplierOpen, WantedDates, dates_faults, plan_dates, wanted_by
from rodbook.plan.schedule.tasks import tasks_of

TODAY = date(2026, 12, 1)


def _saying(plan, **said):
    return replace(plan, job=plan.job.model_copy(update={"dates": JobDates.model_validate(said)}))


def _book(plan, **said):
    return plan.book.model_copy(update={"dates": FirmDates.model_validate(said)})


def test_a_given_time_replaces_what_was_worked_out_and_is_split_into_days(planned):
    plan = _saying(planned("stair"), tasks=[{"name": "hand over", "hours": 20}])
    found = tasks_of(plan, key="1", people=2)
    pieces = [task for task in found.tasks if task.name.startswith("hand over")]
    assert [task.name for task in pieces] == [f"hand over, {n} of 3" for n in (1, 2, 3)]
    assert sum(task.quarters for task in pieces) == 3 * 27  # 20 h ÷ 3, each up to a quarter of an hour
    assert {task.working for task in pieces} == {"20 hours, as given for this job"}
    named = next(task for task in found.named if task.name == "hand over")
    assert (named.reckoned, named.hours) == (1.0, 20)


def test_a_task_waits_for_what_the_job_names_besides(planned):
    plan = planned("stair")
    names = [task.name for task in tasks_of(plan, key="1", people=2).named]
    first, second = [name for name in names if name.startswith("linings, ")][:2]
    said = _saying(plan, tasks=[{"name": first, "after": [second]}])
    schedule = plan_dates([said], WantedDates(TODAY, (Person("Ada"), Person("Ben"))), effort=0.0).schedule
    placed = {entry.task.name: entry for entry in schedule.placed}
    assert placed[first].start >= placed[second].end


def test_what_is_said_of_a_task_that_is_gone_is_told_and_left_aside(planned):
    plan = _saying(planned("stair"), tasks=[{"name": "linings, attic", "hours": 3}])
    found = tasks_of(plan, key="1", people=2)
    assert (
        "Stair at the chapel cottage: there is no task 'linings, attic', so what is said of it is left aside."
        in map(str, found.remarks)
    )
    assert found.tasks == tasks_of(planned("stair"), key="1", people=2).tasks


def test_a_circle_is_a_fault_and_nothing_is_planned(planned):
    plan = _saying(planned("stair"), tasks=[{"name": "read openings once more", "after": ["hand over"]}])
    (fault,) = dates_faults([plan], WantedDates(TODAY, (Person("Ada"), Person("Ben"))))
    assert fault.what.endswith("a circle that can never begin; take one wait out of it")


def test_jobs_begin_on_their_own_days_and_the_others_today(planned):
    early, late = _saying(planned("stair"), start=date(2026, 11, 9)), _saying(planned("stair"), start=date(2027, 1, 11))
    book = _book(early, crew=[{"name": "Ada"}, {"name": "Ben"}])
    plans = [early, planned("stair"), late]
    wanted = wanted_by(book, [plan.job for plan in plans], today=TODAY)
    assert wanted.start == date(2026, 11, 9)
    programme = plan_dates(plans, wanted, effort=0.0)
    begins = [
        min(programme.start_of(e) for e in programme.schedule.placed if e.task.job == key) for key in ("1", "2", "3")
    ]
    assert begins[0] == date(2026, 11, 9)
    assert begins[1] >= TODAY
    assert begins[2] == date(2027, 1, 11)


def test_the_books_people_and_days(planned):
    crew = [{"name": "Ada", "trades": ["joinery"], "off": [{"first": "2026-12-09", "last": "2026-12-11"}]}]
    book = _book(planned("stair"), crew=crew, days=["sat", "mon"], holidays="AT", closed=[])
    wanted = wanted_by(book, [], today=TODAY)
    assert (wanted.people[0].name, wanted.people[0].trades) == ("Ada", ("joinery",))
    assert wanted.people[0].off[0].last == date(2026, 12, 11)
    assert (wanted.days.weekdays, wanted.days.country) == ((0, 5), "AT")


@pytest.mark.parametrize(
    ("said", "what"),
    [
        ({"start": "2026-12-02", "by": "2026-12-01"}, "2026-12-01 is before the start, 2026-12-02; choose a later day"),
        ({"tasks": [{"name": "a", "after": ["a"]}]}, "'a' can't wait for itself; name another task"),
        ({"tasks": [{"name": "a"}, {"name": "a"}]}, "'a' is already the name of dates.tasks[1]; each needs its own"),
    ],
)
def test_faults_of_a_job(planned, said, what):
    assert [fault.what for fault in check_job(_saying(planned("stair"), **said).job, None)] == [what]


def test_faults_of_a_book(planned):
    away = {"first": "2027-01-06", "last": "2026-12-24"}
    said = {"crew": [{"name": "Ada", "off": [away]}, {"name": "ada"}], "closed": [away]}
    ends = "2027-01-06 to 2026-12-24 ends before it begins; write the earlier day first"
    assert [fault.what for fault in check_book(_book(planned("stair"), **said))] == [
        "'ada' is already the name of dates.crew[1]; each needs its own",
        ends,
        ends,
    ]


def test_the_days_of_suppliers(planned):
    shut = {"first": "2026-12-07", "last": "2026-12-18"}
    said = {"supplier": "Quarry Lane Workshop", "days": ["mon", "tue"], "holidays": "", "closed": [shut]}
    book = _book(planned("stair"), crew=[{"name": "Ada"}], holidays="AT", suppliers=[said])
    assert list(check_book(book)) == []
    (one,) = wanted_by(book, [], today=TODAY).suppliers
    assert (one.name, one.weekdays, one.country) == ("Quarry Lane Workshop", (0, 1), "")
    assert one.closed[0].last == date(2026, 12, 18)


def test_faults_of_suppliers(planned):
    away = {"first": "2027-01-06", "last": "2026-12-24"}
    said = [{"supplier": "Quarry Lane Workshp"}, {"supplier": "the merchant", "closed": [away]}]
    assert [(f.where, f.what) for f in check_book(_book(planned("stair"), suppliers=said))] == [
        (
            "dates.suppliers[1].supplier",
            "there is no supplier 'Quarry Lane Workshp'; did you mean Quarry Lane Workshop?",
        ),
        (
            "dates.suppliers[2].closed (the merchant)",
            "2027-01-06 to 2026-12-24 ends before it begins; write the earlier day first",
        ),
    ]


def test_a_firm_that_is_closed_does_not_hold_up_its_supplier(planned):
    def comes(**more):
        wanted = WantedDates(TODAY, (Person("Ada"), Person("Ben")), **more)
        programme = plan_dates([planned("stair")], wanted, effort=0.0)
        return next(order.delivered for order in programme.orders if order.supplier != "the merchant")

    closed = (Absence(date(2026, 12, 7), date(2026, 12, 18)),)
    assert comes() == date(2026, 12, 17)
    assert comes(days=FirmDays(closed=closed)) == date(2026, 12, 21), "it was 4 January"
    assert comes(suppliers=(SupplierOpen("Quarry Lane Workshop", closed=closed),)) == date(2026, 12, 31)
