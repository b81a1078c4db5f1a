"""The desk's log: one line for each thing, and repeated warnings do not take the room that faults need."""

from __future__ import annotations

import logging
import time
from collections.abc import Callable

__all__ = ["RoomForFaults"]

MOST_AN_HOUR = 60
"""Warnings that are written within an hour; errors always are. House assumption."""

LONGEST = 500
"""Signs of a warning that are written."""


class RoomForFaults(logging.Filter):
    """Lets errors pass as they are, and warnings as one line each, so many an hour and none twice on end."""

    def __init__(self, now: Callable[[], float] = time.monotonic) -> None:
        """Start with none written."""
        super().__init__()
        self.now = now
        self._hour, self._count, self._last = 0, 0, ""

    def filter(self, record: logging.LogRecord) -> bool:
        """Say whether a record is written; a warning loses what is beyond its first line."""
        if record.levelno >= logging.ERROR:
            return True
        answer = (record.getMessage().splitlines() or [""])[0][:LONGEST]
        hour = int(self.now() // 3600)
        if hour != self._hour:
            self._hour, self._count = hour, 0
        again, self._last = answer == self._last, answer
        if again or self._count >= MOST_AN_HOUR:
            return False
        self._count += 1
        record.msg, record.args, record.exc_info = answer, (), None
        return True
