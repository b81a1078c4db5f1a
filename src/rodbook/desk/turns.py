"""Turns: few requests are worked on at once, in the order in which they came, and no address keeps the others waiting.

Python runs one thread at a time. Where many requests are begun at once, each gives way to all others whenever it asks the
database something, so that a save, which asks often, waits longest of all. Worked on few at a time and in order, each is done
sooner and none is overtaken. Whatever waits for something else than Python (a password being hashed, a picture or a list read by
a process of its own, a backup) steps aside meanwhile.
"""

from __future__ import annotations

import threading
from collections import OrderedDict, deque
from collections.abc import Callable, Iterable, Iterator
from contextlib import contextmanager
from typing import Any

__all__ = ["AT_WORK", "ByPlace", "InTurn", "Turns", "aside", "turns"]

AT_WORK = 3
"""Requests worked on at once. House assumption, measured by `benchmarks/desk_attacks.py writers`."""

type Environ = dict[str, Any]
type Application = Callable[[Environ, Callable[..., Any]], Iterable[bytes]]


class ByPlace[T]:
    """What waits, by the place that it came from: places take turns, and what is of one place is in its own order.

    Examples
    --------
    >>> line = ByPlace[str]()
    >>> for place, what in (("a", "a1"), ("a", "a2"), ("a", "a3"), ("b", "b1")):
    ...     line.append(place, what)
    >>> [line.pop() for _ in range(len(line))]
    ['a1', 'b1', 'a2', 'a3']
    """

    def __init__(self) -> None:
        """Start empty."""
        self._places: OrderedDict[str, deque[T]] = OrderedDict()

    def __len__(self) -> int:
        """How much waits."""
        return sum(map(len, self._places.values()))

    def append(self, place: str, what: T) -> None:
        """Put it behind what is of the same place."""
        self._places.setdefault(place, deque()).append(what)

    def pop(self) -> T:
        """Take the first one of the place whose turn it is."""
        place, mine = self._places.popitem(last=False)
        first = mine.popleft()
        if mine:
            self._places[place] = mine
        return first

    def remove(self, place: str, what: T) -> None:
        """Take out what no longer waits."""
        mine = self._places[place]
        mine.remove(what)
        if not mine:
            del self._places[place]


class Turns:
    """Lets so many through at a time, see `ByPlace`; a turn may be given back by another thread."""

    def __init__(self, at_once: int) -> None:
        """Start with nobody in it."""
        self._lock = threading.Lock()
        self._free = at_once
        self._waiting: ByPlace[threading.Event] = ByPlace()

    def take(self, seconds: float | None = None, *, place: str = "") -> bool:
        """Wait for one's turn, at most so long; whether it came. [s]"""
        with self._lock:
            if self._free:
                self._free -= 1
                return True
            mine = threading.Event()
            self._waiting.append(place, mine)
        if mine.wait(seconds):
            return True
        with self._lock:
            if mine.is_set():  # it came just now
                return True
            self._waiting.remove(place, mine)
            return False

    def give_back(self) -> None:
        """Let the next one through."""
        with self._lock:
            if self._waiting:
                self._waiting.pop().set()
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
        _mine.place = str(environ.get("REMOTE_ADDR", ""))
        turns.take(place=_mine.place)
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
        turns.take(place=_mine.place)
        _mine.has = True
