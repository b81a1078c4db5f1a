"""Calendar files of the desk: each follows on the one that was last given out, so that a task that is gone is called off."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from datetime import datetime

from django.db import transaction
from django.utils.text import slugify

from rodbook.dates import Programme
from rodbook.desk.models import Folder, GivenOut
from rodbook.papers import Edition, calendar_ended, calendar_file

__all__ = ["EVERYBODY", "Person", "give_calendar", "people_with_calendars"]

EVERYBODY = "dates.ics"
"""The file that has everything in it."""


@dataclass(frozen=True)
class Person:
    """Somebody whose calendar can be taken.

    Parameters
    ----------
    name, file : str
    gone : bool
        Whether they have nothing to do any more, and their file only calls off what they were given before.
    """

    name: str
    file: str
    gone: bool = False


def people_with_calendars(programme: Programme, folder: Folder | None, made: datetime) -> list[Person]:
    """Everybody who is planned, and those who were given a calendar before in which something is still to come.

    Parameters
    ----------
    programme : Programme
    folder : Folder, optional
        The job; None for all jobs together.
    made : datetime
        Now, with its zone.
    """
    planned = [person.name for person in programme.people]
    given = GivenOut.objects.filter(folder=folder).exclude(whose__in=["", *planned])
    gone = [one.whose for one in given if calendar_ended(bytes(one.content), made)]
    named = enumerate([*planned, *gone], 1)
    return [Person(name, f"{n}-{slugify(name) or 'person'}.ics", n > len(planned)) for n, name in named]


def give_calendar(
    programme: Programme, editions: Mapping[str, Edition], folder: Folder | None, person: Person | None, made: datetime
) -> bytes:
    """The calendar file of a person, or of everybody, and keep it as the one that was given out last.

    Parameters
    ----------
    programme : Programme
    editions : mapping of str to Edition
    folder : Folder, optional
        The job; None for all jobs together.
    person : Person, optional
        Everybody where left out.
    made : datetime
        Now, with its zone.
    """
    whose = person.name if person else ""
    with transaction.atomic():
        before = GivenOut.objects.filter(folder=folder, whose=whose).first()
        old = bytes(before.content) if before else b""
        if person and person.gone:
            content = calendar_ended(old, made)
        else:
            content = calendar_file(programme, editions, person=whose, before=old)
        if content != old:
            GivenOut.objects.update_or_create(folder=folder, whose=whose, defaults={"content": content})
    return content
