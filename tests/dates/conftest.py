"""Short ways to make tasks, crews and calendars."""

from __future__ import annotations

from datetime import date

import pytest

from rodbook.dates import Person, Stage, Task, Wait, Work, WorkCalendar, make_calendar

START = date(2026, 12, 1)
"""A Tuesday."""


def task(key: str, quarters: int, *after: str | Wait, **more) -> Task:
    waits = tuple(Wait(a) if isinstance(a, str) else a for a in after)
    return Task(key, f"task {key}", more.pop("job", "j"), more.pop("stage", Stage.MAKE), quarters, waits=waits, **more)


def crew(names: str) -> list[Person]:
    return [Person(name) for name in names]


WORKS = [Work("j", "Mill")]


@pytest.fixture
def calendar() -> WorkCalendar:
    return make_calendar(START, length=60)
