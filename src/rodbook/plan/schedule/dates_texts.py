"""What is wanted of dates, read from texts as a person types them: on the command line and on the desk alike."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass, replace
from datetime import date as Date  # noqa: N812

from rodbook.dates import Absence, Person
from rodbook.errors import Fault, InputError, Message, Unread
from rodbook.job.dates import WEEKDAYS
from rodbook.job.faults import nearest
from rodbook.job.numerals import as_typed, number_or_none
from rodbook.plan.schedule.dates import FirmDays, WantedDates
from rodbook.plan.schedule.tasks import JOINERY, PAINTING

__all__ = ["DatesTexts", "read_absences", "read_wanted", "read_weekdays"]

TRADES = (JOINERY, PAINTING)


@dataclass(frozen=True)
class DatesTexts:
    """What was typed; what is empty was left out.

    Parameters
    ----------
    crew : str, optional
        Names with commas between them, trades after a colon: ``Ada, Ben: painting``; None where it was left out.
    start, by : str
        Days: ``2026-12-01``.
    holidays : str
        ISO 3166 code.
    days : str
        Days of the week: ``mon-fri``.
    hours : str
        Of work in a day. [h]
    closed : sequence of str
        ``2026-12-24..2027-01-01``.
    off : sequence of str
        ``Ada=2026-12-24..2027-01-06``.
    late : str
        Working days.
    locale : str
        The book's, by which hours are read.
    """

    crew: str | None
    start: str = ""
    by: str = ""
    holidays: str = ""
    days: str = ""
    hours: str = ""
    closed: Sequence[str] = ()
    off: Sequence[str] = ()
    late: str = "3"
    locale: str = "en"


def _day(text: str) -> Date:
    try:
        return Date.fromisoformat(text.strip())
    except ValueError:
        raise Unread("form.not_a_day", typed=text.strip()) from None


def _absence(text: str) -> Absence:
    first, _, last = text.partition("..")
    return Absence(_day(first), _day(last or first))


def read_absences(text: str) -> tuple[Absence, ...]:
    """Days away with commas between them, as in ``2026-12-24..2027-01-06, 2027-02-01``; `Unread` where they can't be read.

    Examples
    --------
    >>> [str(day.last) for day in read_absences("2026-12-24..2027-01-06, 2027-02-01")]
    ['2027-01-06', '2027-02-01']
    """
    return tuple(_absence(stretch) for stretch in text.split(",") if stretch.strip())


def read_weekdays(text: str) -> tuple[int, ...]:
    """Days of the week as in ``mon-fri`` or ``mon,tue,thu``, Monday being 0; `Unread` where they can't be read."""
    results: set[int] = set()
    for stretch in text.lower().split(","):
        first, _, last = (word.strip()[:3] for word in stretch.partition("-"))
        for word in filter(None, (first, last)):
            if word not in WEEKDAYS:
                raise Unread("plan.not_a_day_of_the_week", typed=word, days=WEEKDAYS)
        if first:
            begin = WEEKDAYS.index(first)
            end = WEEKDAYS.index(last) if last else begin
            results.update(n % 7 for n in range(begin, end + (7 if end < begin else 0) + 1))
    return tuple(sorted(results))


def _person(text: str, off: dict[str, list[Absence]]) -> Person:
    name, _, trades = (word.strip() for word in text.partition(":"))
    kept = tuple(trade.strip() for trade in trades.split("+") if trade.strip())
    for trade in kept:
        if trade not in TRADES:
            hint = nearest(trade, TRADES) or Message("plan.trades_there", trades=(JOINERY, PAINTING))
            raise Unread("plan.unknown_trade", typed=trade, hint=hint)
    return Person(name, kept, tuple(off.pop(name, ())))


def _hours(text: str, locale: str) -> float:
    if (result := number_or_none(text, locale)) is None:
        raise Unread("plan.not_hours_a_day", typed=text, example=as_typed(7.5, locale))
    return float(result)


def _whole(text: str) -> int:
    if not text.strip().isdecimal() or len(text.strip()) > 3:
        raise Unread("plan.not_working_days", typed=text)
    return int(text)


class _Reading:
    """Reads texts; what can't be read becomes a fault, so that all of them are told at once."""

    def __init__(self, prefix: str) -> None:
        self.prefix = prefix
        self.faults: list[Fault] = []

    def fault(self, field: str, code: str | Message, /, **parameters: object) -> None:
        self.faults.append(Fault((self.prefix + field,), code, **parameters))

    def read[T](self, field: str, text: str, how: Callable[[str], T], instead: T) -> T:
        if not text.strip():
            return instead
        try:
            return how(text)
        except Unread as error:
            self.fault(field, error.message)
            return instead


def _crew(reading: _Reading, crew: str | None, off: Sequence[str], known: Sequence[Person]) -> tuple[Person, ...]:
    absent: dict[str, list[Absence]] = {}
    for entry in off:
        name, equals, days = entry.partition("=")
        if not equals:
            reading.fault("off", "plan.off_of_nobody", typed=entry)
            continue
        result = reading.read("off", days, _absence, None)
        if result is not None:
            absent.setdefault(name.strip(), []).append(result)
    if crew is None:
        people = [replace(person, off=(*person.off, *absent.pop(person.name, ()))) for person in known]
    else:
        people = _typed_crew(reading, crew, absent)
    for name in absent:
        reading.fault("off", "plan.not_in_crew", name=name, field=f"{reading.prefix}crew")
    return tuple(people)


def _typed_crew(reading: _Reading, crew: str, absent: dict[str, list[Absence]]) -> list[Person]:
    return [
        reading.read("crew", entry, lambda text: _person(text, absent), Person(entry))
        for entry in crew.split(",")
        if entry.strip()
    ]


def read_wanted(texts: DatesTexts, otherwise: WantedDates, *, prefix: str = "") -> WantedDates:
    """Read what is wanted.

    Parameters
    ----------
    texts : DatesTexts
    otherwise : WantedDates
        What holds where nothing is typed; days on which the firm is closed are added to its own.
    prefix : str
        Stands before the names of fields in faults: "--" on the command line.

    Raises
    ------
    InputError
        With every text that can't be read.
    """
    reading = _Reading(prefix)
    first = reading.read("start", texts.start, _day, otherwise.start)
    due = reading.read("by", texts.by, _day, otherwise.due)
    days = FirmDays(
        reading.read("days", texts.days, read_weekdays, otherwise.days.weekdays),
        reading.read("hours", texts.hours, lambda text: _hours(text, texts.locale), otherwise.days.hours),
        country=texts.holidays.strip() or otherwise.days.country,
        closed=(
            *otherwise.days.closed,
            *(reading.read("closed", text, _absence, Absence(first, first)) for text in texts.closed if text.strip()),
        ),
    )
    people = _crew(reading, texts.crew, texts.off, otherwise.people)
    late = reading.read("late", texts.late, _whole, 3)
    if reading.faults:
        raise InputError(reading.faults)
    typed = texts.start.strip()
    return WantedDates(
        first,
        people,
        days,
        due,
        late,
        first if typed else otherwise.unnamed,
        first if typed else otherwise.now,
        otherwise.suppliers,
    )
