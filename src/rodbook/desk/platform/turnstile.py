"""The turnstile before every password that is checked: few at once, and not many tries from one place.

A check takes much memory and time on purpose, so a stranger who asks for many at once would stop the desk. Here at most
`AT_ONCE` run, a few wait, and whoever comes then is told to try again; none of them takes a turn away from pages. Wrong tries are
counted for the place that they come from: an address of the network or, where somebody signed in from this browser before, that
browser, so that a stranger's tries never keep its owner out.
"""

from __future__ import annotations

import ipaddress
import threading
import time
from collections import OrderedDict, deque
from collections.abc import Callable, Iterator
from contextlib import contextmanager

from rodbook.desk.platform.turns import aside

__all__ = ["Refused", "Turnstile", "place_of"]

AT_ONCE = 1
"""Passwords checked at once: each takes 100 MB and a core for a quarter of a second, and pages need one too. House assumption."""

IN_LINE = 4
"""How many may wait besides. House assumption."""

FROM_ONE = 2
"""How many of them from one place. House assumption."""

LONGEST_WAIT = 5.0
"""How long one waits in line before it is told to try again. [s]"""

MOST_TRIES, WINDOW = 20, 900.0
"""Wrong tries from one place within this time; then the place waits. House assumption. [s]"""

TRIES_KNOWN = 6
"""Wrong tries from a browser that somebody signed in from before."""

MOST_PLACES = 10_000
"""Places that are remembered; the oldest give way."""


class Refused(Exception):  # noqa: N818  says what happened
    """No password is checked now; try again after so many seconds."""

    def __init__(self, seconds: float) -> None:
        """Keep how long."""
        super().__init__(f"try again in {seconds:.0f} s")
        self.seconds = max(1, round(seconds))


def place_of(address: str) -> str:
    """Name the place of an address: itself, or of the newer kind the network that one household has whole.

    Examples
    --------
    >>> place_of("192.0.2.20"), place_of("2001:db8::20"), place_of("")
    ('192.0.2.20', '2001:db8::/64', 'nowhere')
    """
    try:
        result = ipaddress.ip_address(address)
    except ValueError:
        return "nowhere"
    if isinstance(result, ipaddress.IPv6Address):
        if result.ipv4_mapped is not None:
            return str(result.ipv4_mapped)
        return str(ipaddress.ip_network((int(result) >> 64 << 64, 64)))
    return str(result)


class Turnstile:
    """Counts tries by place and checks few passwords at once."""

    def __init__(self, now: Callable[[], float] = time.monotonic) -> None:
        """Start with nobody in line."""
        self.now = now
        self._lock = threading.Lock()
        self._free = {known: threading.BoundedSemaphore(AT_ONCE) for known in (False, True)}
        self._in_line: dict[bool, list[str]] = {False: [], True: []}
        self._tries: OrderedDict[str, deque[float]] = OrderedDict()

    @contextmanager
    def passed(self, place: str, *, known: bool = False) -> Iterator[None]:
        """Let one check through.

        Raises
        ------
        Refused
            If too many wrong tries came from this place, or too many wait.
        """
        self._look(place, TRIES_KNOWN if known else MOST_TRIES)
        free, line = self._free[known], self._in_line[known]
        with self._lock:
            if len(line) >= AT_ONCE + IN_LINE or line.count(place) >= FROM_ONE:
                raise Refused(LONGEST_WAIT)
            line.append(place)
        try:
            with aside():
                if not free.acquire(timeout=LONGEST_WAIT):
                    raise Refused(LONGEST_WAIT)
                try:
                    yield
                finally:
                    free.release()
        finally:
            with self._lock:
                line.remove(place)

    def _look(self, place: str, most: int) -> None:
        """Refuse a place with too many wrong tries."""
        with self._lock:
            times = self._tries.get(place)
            while times and times[0] <= self.now() - WINDOW:
                times.popleft()
            if times and len(times) >= most:
                raise Refused(times[0] + WINDOW - self.now())

    def wrong(self, place: str) -> None:
        """Count a wrong try."""
        with self._lock:
            self._tries.setdefault(place, deque(maxlen=MOST_TRIES)).append(self.now())
            self._tries.move_to_end(place)
            while len(self._tries) > MOST_PLACES:
                self._tries.popitem(last=False)

    def right(self, place: str) -> None:
        """Forget the wrong tries of a place that knew the password."""
        with self._lock:
            self._tries.pop(place, None)
