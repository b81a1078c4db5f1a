"""What the desk does by itself while it runs: backups when they are due, and a look at what is kept."""

from __future__ import annotations

import logging
import threading
from collections.abc import Callable, Sequence
from datetime import UTC, datetime, timedelta
from pathlib import Path

from rodbook.desk.keeping.backups import OLD, Backup, last_made, read_schedule, run_due
from rodbook.desk.keeping.way_back import in_words, way_back
from rodbook.desk.platform.soundness import Damage, check_home
from rodbook.errors import RodbookError

__all__ = ["BackupState", "Keeper", "backup_state", "keeper"]

LOOK_SECONDS = 600.0
"""How often the keeper looks whether something is due. [s]"""

CHECK_EVERY = timedelta(hours=24)
"""How often all that is kept is looked at, and once soon after the start. House assumption."""

STRIPPED_AT_ONCE = 20
"""Pictures of before that are made anew on end. House assumption."""

BETWEEN_STRIPS = 10.0
"""Then others have the machine for so long. House assumption. [s]"""

_log = logging.getLogger(__name__)


class Keeper:
    """Looks now and then, in a thread of its own.

    `fault` is why the last backup that was due was not made; `damage` what the last look found; `tell` is told of each backup.
    """

    def __init__(self) -> None:
        """Start with nothing wrong."""
        self.fault = ""
        self.damage: tuple[Damage, ...] = ()
        self.tell: Callable[[Backup], None] = lambda _backup: None
        self._unstripped: set[str] = set()
        self._stop = threading.Event()
        self._thread: threading.Thread | None = None

    def start(self, home: Path) -> None:
        """Look from now on."""
        self._stop.clear()
        self._thread = threading.Thread(target=self._run, args=(home,), name="keeper", daemon=True)
        self._thread.start()

    def stop(self) -> None:
        """Look no more; a backup that is being made is not waited for, and its part is no backup."""
        self._stop.set()

    def look(self, home: Path, now: datetime) -> None:
        """Make a backup where one is due."""
        try:
            if (made := run_due(home, now)) is not None:
                self.fault = ""
                self.tell(made)
        except RodbookError as error:
            self.fault = str(error)
            _log.warning("a backup was due and not made: %s", error)
        except Exception as error:  # the keeper goes on whatever happens
            self.fault = f"{type(error).__name__}: {error}"
            _log.exception("a backup was due and not made")

    def check(self, home: Path) -> None:
        """Look at all that is kept, pictures too."""
        try:
            self.damage = tuple(check_home(home))
        except Exception:  # the keeper goes on whatever happens
            _log.exception("what the desk keeps could not be looked at")
        for damage in self.damage:
            _log.error("damaged: %s", in_words(damage))

    def strip(self) -> bool:
        """Make a few pictures anew that are kept as they were sent; whether there are more."""
        from django.db import connections

        from rodbook.desk.keeping.stripping import strip_some

        try:
            done, left = strip_some(STRIPPED_AT_ONCE, but=self._unstripped)
        except Exception:  # the keeper goes on whatever happens
            _log.exception("pictures that are kept as they were sent could not be made anew")
            return False
        finally:
            connections.close_all()
        self._unstripped |= set(left)
        return done > 0

    def _run(self, home: Path) -> None:
        checked: datetime | None = None
        while not self._stop.wait(5.0 if checked is None else BETWEEN_STRIPS if self.strip() else LOOK_SECONDS):
            now = datetime.now(UTC)
            self.look(home, now)
            if checked is None or now - checked >= CHECK_EVERY:
                self.check(home)
                checked = now


keeper = Keeper()
"""The desk's own."""


class BackupState:
    """How backups stand: the `last` one, whether it is `old`, how they make themselves, the last `fault`, and `damage`."""

    def __init__(self, home: Path, now: datetime, fault: str = "", damage: Sequence[Damage] = ()) -> None:
        """Read it from the desk's folder."""
        self.damage = [in_words(result) for result in damage]
        self.way_back = way_back(home) if damage else ""
        self.last = last_made(home)
        self.age: timedelta | None = None if self.last is None else now - self.last
        self.old = self.age is not None and self.age >= OLD
        self.schedule = read_schedule(home)
        self.fault = fault

    @property
    def days(self) -> int | None:
        """Age in whole days."""
        return None if self.age is None else self.age.days

    @property
    def warns(self) -> bool:
        """Whether the owner has to do something."""
        return self.last is None or self.old or bool(self.fault or self.damage)


def backup_state(home: Path) -> BackupState:
    """How backups of the desk stand now."""
    return BackupState(home, datetime.now(UTC), keeper.fault, keeper.damage)
