"""The framework's own way to SQLite, with a line before the write lock.

SQLite has whoever finds the write lock taken look again after a while, longer each time, and lets in whoever happens to look
first. Where several save at once somebody unlucky then waits for seconds. One process holds the desk's folder, so a line in this
process is enough: transactions of its threads begin in the order in which they asked. Other processes (a backup, a command)
meet the database's own lock as before.
"""

from __future__ import annotations

from typing import Any

from django.db.backends.sqlite3 import base
from django.db.utils import OperationalError

from rodbook.desk.platform.turns import Turns

__all__ = ["DatabaseWrapper"]

LONGEST_WAIT = 20.0
"""As long as the database itself waits for another process. House assumption. [s]"""

_lines: dict[str, Turns] = {}


class DatabaseWrapper(base.DatabaseWrapper):  # type: ignore[misc]
    """A connection whose transactions stand in line with those of the other threads."""

    def __init__(self, *args: Any, **kwargs: Any) -> None:
        """Outside of any transaction."""
        super().__init__(*args, **kwargs)
        self._through: Turns | None = None

    def _start_transaction_under_autocommit(self) -> None:
        line = _lines.setdefault(str(self.settings_dict["NAME"]), Turns(1))
        if not line.take(LONGEST_WAIT):
            raise OperationalError("database is locked")
        self._through = line
        try:
            super()._start_transaction_under_autocommit()
        except BaseException:
            self._leave()
            raise

    def _leave(self) -> None:
        line, self._through = self._through, None
        if line is not None:
            line.give_back()

    def _commit(self) -> Any:
        super()._commit()
        self._leave()  # where it fails, it is rolled back

    def _rollback(self) -> Any:
        try:
            return super()._rollback()
        finally:
            self._leave()

    def _close(self) -> Any:
        try:
            return super()._close()
        finally:
            self._leave()
