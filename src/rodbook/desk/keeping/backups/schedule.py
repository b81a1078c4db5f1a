"""When backups are made by themselves, where to, which are kept, and how old the last one is."""

from __future__ import annotations

import json
import os
import re
from collections.abc import Iterable
from contextlib import suppress
from dataclasses import asdict, dataclass
from datetime import UTC, datetime, timedelta
from pathlib import Path

from rodbook.desk.keeping.backups.making import Backup, make_backup
from rodbook.errors import Fault, InputError, StoreError

__all__ = [
    "OLD",
    "Schedule",
    "due",
    "kept",
    "last_made",
    "name_of",
    "note_made",
    "read_schedule",
    "run_due",
    "write_schedule",
]

OLD = timedelta(days=7)
"""A last backup older than this is warned of. House assumption."""

SHORTEST = 12
"""Signs that a passphrase has at the least. House assumption."""

NAME = re.compile(r"rodbook-(\d{4}-\d{2}-\d{2}-\d{6})\.backup")
STAMP = "%Y-%m-%d-%H%M%S"


@dataclass(frozen=True, slots=True)
class Schedule:
    """Into which folder, every how many hours, and how many are kept: the newest, then one a day, a week, a month.

    `passphrase` seals them; it lies in the desk's own folder, which nobody else reads, so it protects what leaves this machine.
    """

    folder: str
    hours: int = 24
    newest: int = 3
    days: int = 7
    weeks: int = 5
    months: int = 12
    passphrase: str = ""

    def faults(self) -> list[Fault]:
        """Say what is wrong, by field."""
        limits = {"hours": (1, 720), "newest": (1, 100), "days": (0, 400), "weeks": (0, 400), "months": (0, 400)}
        results = [
            Fault(name, "form.not_a_number_from_to", typed=getattr(self, name), least=least, most=most)
            for name, (least, most) in limits.items()
            if not least <= getattr(self, name) <= most
        ]
        if not self.folder or not Path(self.folder).is_absolute():
            results.append(Fault("folder", "form.not_a_whole_path"))
        if self.passphrase and len(self.passphrase) < SHORTEST:
            results.append(Fault("passphrase", "form.passphrase_too_short", least=SHORTEST))
        return results


def name_of(made: datetime) -> str:
    """Name a backup by its time (UTC).

    Examples
    --------
    >>> name_of(datetime(2031, 4, 2, 17, 5, tzinfo=UTC))
    'rodbook-2031-04-02-170500.backup'
    """
    return f"rodbook-{made.astimezone(UTC).strftime(STAMP)}.backup"


def kept(times: Iterable[datetime], schedule: Schedule) -> set[datetime]:
    """Say which backups stay: the newest ones, and the newest of each of the last days, weeks and months that have any.

    Examples
    --------
    >>> times = [datetime(2031, 4, day, tzinfo=UTC) for day in range(1, 29)]
    >>> sorted(t.day for t in kept(times, Schedule("x", newest=2, days=3, weeks=3, months=1)))
    [20, 26, 27, 28]
    """
    latest_first = sorted(set(times), reverse=True)
    results = set(latest_first[: schedule.newest])
    for number, period in (
        (schedule.days, lambda t: t.date()),
        (schedule.weeks, lambda t: t.isocalendar()[:2]),
        (schedule.months, lambda t: (t.year, t.month)),
    ):
        seen: dict[object, datetime] = {}
        for t in latest_first:
            seen.setdefault(period(t), t)
        results |= set(list(seen.values())[:number])
    return results


def read_schedule(home: Path) -> Schedule | None:
    """Read a desk's schedule; None where it has none, or none that can be read."""
    try:
        return Schedule(**json.loads((home / "backup.json").read_text("utf-8")))
    except (OSError, ValueError, TypeError):
        return None


def write_schedule(home: Path, schedule: Schedule | None) -> None:
    """Keep a schedule, or none.

    Raises
    ------
    InputError
        With every fault.
    StoreError
        If it can't be written.
    """
    if schedule is not None and (faults := schedule.faults()):
        raise InputError(faults)
    path = home / "backup.json"
    try:
        if schedule is None:
            path.unlink(missing_ok=True)
            return
        part = path.with_name("backup.json.part")
        with os.fdopen(os.open(part, os.O_WRONLY | os.O_CREAT | os.O_TRUNC, 0o600), "w", encoding="utf-8") as out:
            out.write(json.dumps(asdict(schedule), indent=1))
        part.replace(path)
    except OSError as error:
        raise StoreError("desk.schedule_not_kept", home=home, reason=error.strerror or str(error)) from None


def note_made(home: Path, backup: Backup) -> None:
    """Write down that a backup was made, so that its age is known wherever it went."""
    with suppress(OSError):
        values = {"made": backup.made.isoformat(), "path": str(backup.path), "length": backup.length}
        (home / "last-backup.json").write_text(json.dumps(values), "utf-8")


def last_made(home: Path) -> datetime | None:
    """When the last backup of a desk was made; None where none is known of."""
    try:
        return datetime.fromisoformat(json.loads((home / "last-backup.json").read_text("utf-8"))["made"])
    except (OSError, ValueError, TypeError, KeyError):
        return None


def due(home: Path, now: datetime) -> Schedule | None:
    """Give the schedule by which a backup is due; None where none is."""
    schedule = read_schedule(home)
    if schedule is None:
        return None
    last = last_made(home)
    return schedule if last is None or now - last >= timedelta(hours=schedule.hours) else None


def run_due(home: Path, now: datetime) -> Backup | None:
    """Make a backup where one is due, and let those go that the schedule does not keep.

    Raises
    ------
    StoreError
        If the folder is not there (a stick that is not plugged in) or can't be written.
    """
    schedule = due(home, now)
    if schedule is None:
        return None
    folder = Path(schedule.folder)
    if not folder.is_dir():
        raise StoreError("desk.backup_folder_missing", folder=folder)
    backup = make_backup(home, folder / name_of(now), passphrase=schedule.passphrase, now=now)
    note_made(home, backup)
    there = {
        datetime.strptime(result[1], STAMP).replace(tzinfo=UTC): path
        for path in folder.iterdir()
        if (result := NAME.fullmatch(path.name))
    }
    for time in there.keys() - kept(there, schedule):
        with suppress(OSError):
            there[time].unlink()
    return backup
