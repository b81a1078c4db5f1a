"""The paper of dates and the calendar files, read back."""

from __future__ import annotations

import json
from dataclasses import replace
from datetime import UTC, date, datetime, timedelta
from itertools import pairwise

import pytest
from babel.dates import format_date
from icalendar import Calendar

from rodbook.dates import Person, Stage
from rodbook.job.dates import JobDates
from rodbook.papers import Edition, calendar_ended, calendar_file, write_dates
from rodbook.papers.dates.content import WIDTH_MM, dates_content
from rodbook.papers.drawing.model import Line, Shape, Text, box_of
from rodbook.papers.papers import dates_bytes
from rodbook.papers.pictures.gantt import busy_days, draw_gantt, draw_key, gantt_rows, stretches
from rodbook.papers.typeset import set_png
from rodbook.plan.schedule.dates import FirmDays, WantedDates, plan_dates

MADE = datetime(2026, 11, 30, 9, 30, tzinfo=UTC)


@pytest.fixture(scope="module")
def programme(plan_of):
    wanted = WantedDates(date(2026, 12, 1), (Person("Ada"), Person("Ben")), FirmDays(country="AT"))
    return plan_dates([plan_of("timber-house")], wanted, effort=0.1)


def test_every_task_has_its_bar_and_nothing_leaves_the_page(programme):
    rows = gantt_rows(programme)
    written = {day: f"{day:%d.%m.}" for day in programme.calendar.days}
    assert sum(len(row.entries) for row in rows) == len(programme.schedule.placed)
    days = stretches(programme, 1000)
    assert len(days) == 1
    drawing = draw_gantt(programme, rows, days[0], width=WIDTH_MM, written=written)
    bars = [mark for mark in drawing.marks if isinstance(mark, Shape) and mark.role == "bar"]
    assert len(bars) == len(programme.schedule.placed)
    assert drawing.width <= WIDTH_MM + 2
    assert box_of(drawing.marks).right <= WIDTH_MM + 2
    leads = [mark for mark in drawing.marks if isinstance(mark, Line) and mark.role == "lead time"]
    assert len(leads) == len(programme.orders)
    for row in rows:
        for before, after in pairwise(row.entries):
            assert before.end <= after.start, "bars of a row do not overlap"


def test_dates_over_the_bars_do_not_run_into_each_other(programme):
    written = {day: f"{day:%A %d.%m.}" for day in programme.calendar.days}
    drawing = draw_gantt(programme, gantt_rows(programme), stretches(programme, 30)[0], width=WIDTH_MM, written=written)
    boxes = [box_of([mark]) for mark in drawing.marks if isinstance(mark, Text) and mark.role == "date"]
    assert len(boxes) > 2
    assert not any(a.overlaps(b) for n, a in enumerate(boxes) for b in boxes[:n])


def test_long_programmes_take_several_pictures(programme):
    parts = stretches(programme, 2)
    busy = busy_days(programme)
    assert all(sum(day in busy for day in range(*part)) <= 2 for part in parts)
    assert {day for part in parts for day in range(*part)} >= busy


def test_the_key_fits_the_page():
    assert draw_key().width <= WIDTH_MM


def test_the_paper_says_it_all(programme, plan_of):
    sheet = dates_content(programme, [plan_of("timber-house")])
    json.dumps(sheet.content)
    nine = format_date(programme.chance.jobs["1"].nine_in_ten, "d MMMM y", locale="en")
    assert sheet.content["sentence"] == f"Hand-over: nine in ten by {nine}."
    assert sheet.content["sure"][0][1] == format_date(programme.chance.jobs["1"].nine_in_ten, "EEE d MMM", locale="en")
    assert len(sheet.content["orders_said"]) == len(programme.orders)
    names = [person["name"] for person in sheet.content["people"]]
    assert names == ["Ada", "Ben"]
    told = sum(len(person["rows"]) for person in sheet.content["people"])
    assert told == sum(len(entry.people) for entry in programme.schedule.placed)
    assert any("Mariä Empfängnis" in line for line in sheet.content["rests"])
    assert len(set_png(sheet, ppi=20)) >= 3


def test_files_have_names_of_their_own(programme, plan_of):
    people = tuple(Person(name) for name in ("Ada L.", "Ada-L", "Żaneta"))
    named = plan_dates([plan_of("stair")], WantedDates(date(2026, 12, 1), people), effort=0)
    files = [name for name, _ in dates_bytes(named, [plan_of("stair")], made=MADE)]
    assert files == ["dates.pdf", "dates.ics", "dates-ada-l.ics", "dates-ada-l-2.ics", "dates-żaneta.ics"]


def test_a_calendar_file_reads_back_as_the_schedule(programme):
    events = Calendar.from_ical(calendar_file(programme, Edition(MADE))).walk("VEVENT")
    spans = [span for entry in programme.schedule.placed for span in programme.calendar.spans(entry.start, entry.end)]
    timed = [event for event in events if isinstance(event.decoded("dtstart"), datetime)]
    assert sorted((event.decoded("dtstart"), event.decoded("dtend")) for event in timed) == sorted(spans)
    whole = [event for event in events if not isinstance(event.decoded("dtstart"), datetime)]
    orders = [event for event in whole if str(event["summary"]).startswith("last day to order")]
    (hand_over,) = (event for event in whole if event not in orders)
    assert hand_over["summary"] == "hand-over: nine in ten by this day, Timber house at the orchard"
    assert hand_over.decoded("dtstart") == programme.chance.jobs["1"].nine_in_ten
    assert sorted(event.decoded("dtstart") for event in orders) == sorted(order.latest for order in programme.orders)
    assert len({str(event["uid"]) for event in events}) == len(events)
    assert calendar_file(programme, Edition(MADE)) == calendar_file(programme, Edition(MADE))
    assert {event.decoded("dtstamp") for event in events} == {MADE}


def test_a_persons_file_has_only_what_they_do(programme):
    events = Calendar.from_ical(calendar_file(programme, Edition(MADE), person="Ben")).walk("VEVENT")
    mine = programme.schedule.by_person("Ben")
    assert len(events) == sum(len(list(programme.calendar.spans(e.start, e.end))) for e in mine)
    assert any(entry.task.stage is Stage.DELIVER for entry in mine)


def test_what_is_done_and_ordered_stands_on_the_paper_and_asks_for_nothing(plan_of):
    plan = plan_of("timber-house")
    asked = {
        "tasks": [{"name": "read openings once more", "done": "2026-11-30"}],
        "orders": [{"supplier": "the merchant", "ordered": "2026-11-30", "promised": "2026-12-04"}],
    }
    begun = replace(plan, job=plan.job.model_copy(update={"dates": JobDates.model_validate(asked)}))
    wanted = WantedDates(date(2026, 12, 1), (Person("Ada"), Person("Ben")), now=date(2026, 12, 1))
    found = plan_dates([begun], wanted, effort=0.05)
    content = dates_content(found, [begun]).content
    assert [row[:2] for row in content["done"]] == [
        ["Mon 30 Nov", "read openings once more"],
        ["Mon 30 Nov", "order boards, hinges and fittings"],
    ]
    assert [row[:4] for row in content["placed"]] == [["the merchant", "Mon 30 Nov", "Fri 4 Dec", "Fri 4 Dec"]]
    assert "the merchant" not in [row[0] for row in content["orders"]]
    assert next(iter(dates_bytes(found, [begun], made=MADE)))[1].startswith(b"%PDF")
    told = calendar_file(found, Edition(MADE)).decode()
    assert "last day to order from the merchant" not in told
    rows = gantt_rows(found)
    days = stretches(found, 1000)[0]
    drawing = draw_gantt(
        found, rows, days, width=WIDTH_MM, written={day: f"{day:%d.%m.}" for day in found.calendar.days}
    )
    bars = [mark for mark in drawing.marks if isinstance(mark, Shape) and mark.role == "bar"]
    assert len(bars) == len(found.to_do)


# --- files that follow on one another -----------------------------------------------------------------------------

CREW = (Person("Ada"), Person("Ben"))


def _events(content: bytes):
    """Events by their UIDs, as a calendar that imports the file knows them; no two share one."""
    events = Calendar.from_ical(content).walk("VEVENT")
    found = {str(event["uid"]): event for event in events}
    assert len(found) == len(events)
    return found


def _first_days(content: bytes):
    """UIDs of the first day of every task, and of days to order and to hand over; a task may go on over a night or not."""
    return {uid for uid, event in _events(content).items() if "(day 2 of" not in str(event["summary"])}


def _planned(plans, **more):
    return plan_dates(plans, WantedDates(date(2026, 12, 1), CREW, **more), effort=0.0)


def _number(event) -> int:
    return int(event["sequence"])


def test_a_task_keeps_its_uid_whoever_is_planned_beside_it(plan_of):
    stair, house = plan_of("stair"), plan_of("timber-house")
    alone, other, first, last = (
        calendar_file(_planned(plans), Edition(MADE)) for plans in ([stair], [house], [stair, house], [house, stair])
    )
    assert _first_days(first) == _first_days(last) == _first_days(alone) | _first_days(other)
    assert not _first_days(alone) & _first_days(other)
    together = _events(first)
    for uid in _first_days(alone):
        names = [str(one[uid]["summary"]).partition(" as planned")[0] for one in (_events(alone), together)]
        assert names[0].partition(" (day")[0] == names[1].partition(" (day")[0]


def test_tasks_that_come_besides_leave_the_others_their_uids(plan_of):
    stair = plan_of("stair")
    terms = JobDates.model_validate({"tasks": [{"name": "read openings once more", "hours": 20}]})
    longer = replace(stair, job=stair.job.model_copy(update={"dates": terms}))
    before = _first_days(calendar_file(_planned([stair]), Edition(MADE)))
    after = _first_days(calendar_file(_planned([longer]), Edition(MADE)))
    assert before < after, "the same tasks, and two more days of reading"
    assert len(after) == len(before) + 2


def test_two_jobs_of_one_name_do_not_share_events(plan_of):
    stair = plan_of("stair")
    both = _first_days(calendar_file(_planned([stair, stair]), Edition(MADE)))
    assert len(both) == 2 * len(_first_days(calendar_file(_planned([stair]), Edition(MADE))))


def test_what_has_not_changed_keeps_its_sequence_and_its_day_and_what_has_rises(plan_of):
    stair, later = plan_of("stair"), MADE + timedelta(days=1)
    first = calendar_file(_planned([stair]), Edition(MADE))
    assert calendar_file(_planned([stair]), Edition(later), before=first) == first
    terms = JobDates.model_validate({"tasks": [{"name": "hand over", "hours": 3}]})
    longer = _planned([replace(stair, job=stair.job.model_copy(update={"dates": terms}))])
    before, after = _events(first), _events(calendar_file(longer, Edition(later), before=first))
    changed = {uid for uid in after if _number(after[uid])}
    assert {str(after[uid]["summary"]).partition(" as")[0] for uid in changed} >= {"hand over"}
    assert 0 < len(changed) < len(after)
    for uid, event in after.items():
        same = [event.decoded(what) for what in ("dtstart", "dtend", "summary", "description")] == [
            before[uid].decoded(what) for what in ("dtstart", "dtend", "summary", "description")
        ]
        assert (uid in changed) == (not same)
        assert _number(event) == (1 if uid in changed else 0)
        assert event.decoded("dtstamp") == (later if uid in changed else MADE)


def test_what_is_no_more_is_called_off_and_can_come_back(plan_of):
    stair, house = plan_of("stair"), plan_of("timber-house")
    two, one = _planned([stair, house]), _planned([stair])
    first = calendar_file(two, Edition(MADE))
    second = calendar_file(one, Edition(MADE + timedelta(hours=1)), before=first)
    third = calendar_file(two, Edition(MADE + timedelta(hours=2)), before=second)
    gone = {uid for uid, event in _events(second).items() if event.get("status") == "CANCELLED"}
    assert gone == set(_events(first)) - set(_events(calendar_file(one, Edition(MADE))))
    assert all(_number(_events(second)[uid]) == 1 for uid in gone)
    assert all(_number(_events(third)[uid]) == 2 and "status" not in _events(third)[uid] for uid in gone)
    assert calendar_file(one, Edition(MADE), before=b"no calendar at all") == calendar_file(one, Edition(MADE))


def test_who_is_not_planned_any_more_has_what_was_to_come_called_off(plan_of, tmp_path):
    stair = plan_of("stair")
    write_dates(_planned([stair]), [stair], tmp_path, made=MADE)
    first = _events((tmp_path / "dates-ben.ics").read_bytes())
    alone = plan_dates([stair], WantedDates(date(2026, 12, 1), CREW[:1]), effort=0.0)
    written = write_dates(alone, [stair], tmp_path, made=MADE + timedelta(hours=1))
    assert "dates-ben.ics" in [path.name for path in written]
    second = _events((tmp_path / "dates-ben.ics").read_bytes())
    assert first
    assert second.keys() == first.keys()
    assert all(event["status"] == "CANCELLED" for event in second.values())
    assert all(_number(event) == _number(first[uid]) + 1 for uid, event in second.items())
    assert calendar_ended((tmp_path / "dates-ben.ics").read_bytes(), MADE + timedelta(days=900)) == b""
    late = write_dates(alone, [stair], tmp_path, made=MADE + timedelta(days=900))
    assert "dates-ben.ics" not in [path.name for path in late], "nothing of it is still to come"


def test_files_in_a_folder_follow_on_those_that_were_there(plan_of, tmp_path):
    stair = plan_of("stair")
    write_dates(_planned([stair]), [stair], tmp_path, made=MADE)
    first = (tmp_path / "dates.ics").read_bytes()
    write_dates(_planned([stair]), [stair], tmp_path, made=MADE + timedelta(days=3))
    assert (tmp_path / "dates.ics").read_bytes() == first
    write_dates(_planned([stair], due=date(2027, 3, 1)), [stair], tmp_path, made=MADE + timedelta(days=3))
    again = _events((tmp_path / "dates.ics").read_bytes())
    orders = [event for event in again.values() if str(event["summary"]).startswith("last day to order")]
    assert {_number(event) for event in orders} == {1}, "a day that is wanted later leaves more time to order"
