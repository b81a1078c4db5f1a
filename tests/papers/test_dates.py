"""The paper of dates and the calendar files, read back."""

from __future__ import annotations

import json
from dataclasses import replace
from datetime import date, datetime
from itertools import pairwise

import pytest
from babel.dates import format_date
from icalendar import Calendar

from rodbook.dates import Person, Stage
from rodbook.job.dates import JobDates
from rodbook.papers import calendar_file
from rodbook.papers.content import dates_content
from rodbook.papers.content.dates import WIDTH_MM
from rodbook.papers.drawing.model import Line, Shape, Text, box_of
from rodbook.papers.papers import dates_bytes
from rodbook.papers.pictures.gantt import busy_days, draw_gantt, draw_key, gantt_rows, stretches
from rodbook.papers.typeset import set_png
from rodbook.plan.dates import FirmDays, WantedDates, plan_dates


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
    files = [name for name, _ in dates_bytes(named, [plan_of("stair")])]
    assert files == ["dates.pdf", "dates.ics", "dates-ada-l.ics", "dates-ada-l-2.ics", "dates-żaneta.ics"]


def test_a_calendar_file_reads_back_as_the_schedule(programme):
    events = Calendar.from_ical(calendar_file(programme)).walk("VEVENT")
    spans = [span for entry in programme.schedule.placed for span in programme.calendar.spans(entry.start, entry.end)]
    timed = [event for event in events if isinstance(event.decoded("dtstart"), datetime)]
    assert sorted((event.decoded("dtstart"), event.decoded("dtend")) for event in timed) == sorted(spans)
    orders = [event for event in events if not isinstance(event.decoded("dtstart"), datetime)]
    assert sorted(event.decoded("dtstart") for event in orders) == sorted(order.latest for order in programme.orders)
    assert len({str(event["uid"]) for event in events}) == len(events)
    assert calendar_file(programme) == calendar_file(programme)


def test_a_persons_file_has_only_what_they_do(programme):
    events = Calendar.from_ical(calendar_file(programme, person="Ben")).walk("VEVENT")
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
        ["Mon 30 Nov", "read openings once more"], ["Mon 30 Nov", "order boards, hinges and fittings"],
    ]  # fmt: skip
    assert [row[:4] for row in content["placed"]] == [["the merchant", "Mon 30 Nov", "Fri 4 Dec", "Fri 4 Dec"]]
    assert "the merchant" not in [row[0] for row in content["orders"]]
    assert next(iter(dates_bytes(found, [begun])))[1].startswith(b"%PDF")
    told = calendar_file(found).decode()
    assert "last day to order from the merchant" not in told
    rows = gantt_rows(found)
    days = stretches(found, 1000)[0]
    drawing = draw_gantt(
        found, rows, days, width=WIDTH_MM, written={day: f"{day:%d.%m.}" for day in found.calendar.days}
    )
    bars = [mark for mark in drawing.marks if isinstance(mark, Shape) and mark.role == "bar"]
    assert len(bars) == len(found.to_do)
