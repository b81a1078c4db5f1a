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


SENT_IN_A_ROW = 3
"""So often what is sent goes before what is only looked at; then the other comes. House assumption."""


class ByPlace[T]:
    """What waits, by the place that it came from: places take turns.

    Of one place what somebody sends goes before what is only looked at, though not always; each kind is in its own order.

    Examples
    --------
    >>> line = ByPlace[str]()
    >>> for place, what in (("a", "a1"), ("a", "a2"), ("a", "a3"), ("b", "b1")):
    ...     line.append(place, what)
    >>> line.append("a", "sent", sent=True)
    >>> [line.pop() for _ in range(len(line))]
    ['sent', 'b1', 'a1', 'a2', 'a3']
    """

    def __init__(self) -> None:
        """Start empty."""
        self._places: OrderedDict[str, tuple[deque[T], deque[T]]] = OrderedDict()
        self._in_a_row = 0

    def __len__(self) -> int:
        """How much waits."""
        return sum(len(sent) + len(rest) for sent, rest in self._places.values())

    def append(self, place: str, what: T, *, sent: bool = False) -> None:
        """Put it behind what is of the same place and kind."""
        self._places.setdefault(place, (deque(), deque()))[0 if sent else 1].append(what)

    def pop(self) -> T:
        """Take the next one of the place whose turn it is."""
        place, (sent, rest) = self._places.popitem(last=False)
        if sent and (not rest or self._in_a_row < SENT_IN_A_ROW):
            self._in_a_row += 1
            first = sent.popleft()
        else:
            self._in_a_row = 0
            first = rest.popleft()
        if sent or rest:
            self._places[place] = (sent, rest)
        return first

    def remove(self, place: str, what: T) -> None:
        """Take out what no longer waits."""
        sent, rest = self._places[place]
        (sent if what in sent else rest).remove(what)
        if not sent and not rest:
            del self._places[place]


class Turns:
    """Lets so many through at a time, see `ByPlace`; a turn may be given back by another thread."""

    def __init__(self, at_once: int) -> None:
        """Start with nobody in it."""
        self._lock = threading.Lock()
        self._free = at_once
        self._waiting: ByPlace[threading.Event] = ByPlace()

    def take(self, seconds: float | None = None, *, place: str = "", sent: bool = False) -> bool:
        """Wait for one's turn, at most so long; whether it came. [s]"""
        with self._lock:
            if self._free:
                self._free -= 1
                return True
            mine = threading.Event()
            self._waiting.append(place, mine, sent=sent)
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
        turns.take(place=_mine.place, sent=environ.get("REQUEST_METHOD") == "POST")
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
