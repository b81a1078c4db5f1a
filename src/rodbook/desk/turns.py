"""Turns: few requests are worked on at once, in the order in which they came.

Python runs one thread at a time. Where many requests are begun at once, each gives way to all others whenever it asks the
database something, so that a save, which asks often, waits longest of all. Worked on few at a time and in order, each is done
sooner and none is overtaken. Whatever waits for something else than Python (a password being hashed, a picture or a list read by
a process of its own, a backup) steps aside meanwhile.
"""

from __future__ import annotations

import threading
from collections import deque
from collections.abc import Callable, Iterable, Iterator
from contextlib import contextmanager
from typing import Any

__all__ = ["AT_WORK", "InTurn", "Turns", "aside", "turns"]

AT_WORK = 3
"""Requests worked on at once. House assumption, measured by `benchmarks/desk_attacks.py writers`."""

type Environ = dict[str, Any]
type Application = Callable[[Environ, Callable[..., Any]], Iterable[bytes]]


class Turns:
    """Lets so many through at a time, whoever came first; may be given back by another thread."""

    def __init__(self, at_once: int) -> None:
        """Start with nobody in it."""
        self._lock = threading.Lock()
        self._free = at_once
        self._waiting: deque[threading.Event] = deque()

    def take(self, seconds: float | None = None) -> bool:
        """Wait for one's turn, at most so long; whether it came. [s]"""
        with self._lock:
            if self._free:
                self._free -= 1
                return True
            mine = threading.Event()
            self._waiting.append(mine)
        if mine.wait(seconds):
            return True
        with self._lock:
            if mine.is_set():  # it came just now
                return True
            self._waiting.remove(mine)
            return False

    def give_back(self) -> None:
        """Let the next one through."""
        with self._lock:
            if self._waiting:
                self._waiting.popleft().set()
            else:
                self._free += 1


turns = Turns(AT_WORK)
"""The desk's own."""

_mine = threading.local()


class InTurn:
    """Has requests answered in turn."""

    def __init__(self, application: Application) -> None:
        """Take what answers."""
        self.application = application

    def __call__(self, environ: Environ, start_response: Callable[..., Any]) -> Iterable[bytes]:
        """Wait for a turn and answer."""
        turns.take()
        _mine.has = True
        try:
            return self.application(environ, start_response)
        finally:
            _mine.has = False
            turns.give_back()


@contextmanager
def aside() -> Iterator[None]:
    """Let others go on while this request waits for something that is not Python; nothing may be locked meanwhile.

    Where this thread has no turn (a test, a command) it does nothing.
    """
    if not getattr(_mine, "has", False):
        yield
        return
    _mine.has = False
    turns.give_back()
    try:
        yield
    finally:
        turns.take()
        _mine.has = True
