"""Compiling the loops before somebody waits for them.

Compiled code is kept on disk, so only the first use after an installation takes long. `python -m
rodbook.boards.warm` does that at set-up; otherwise it happens in a thread of its own, and a search that cannot
wait for it goes without patterns.
"""

from __future__ import annotations

import threading
from decimal import Decimal

from rodbook.boards.tools.clock import Clock

__all__ = ["compiler_is_there", "ready", "warm"]

LOOK = 0.2
"""How often somebody who waits may call it off. [s]"""

_started: list[threading.Thread] = []
_lock = threading.Lock()


def compiler_is_there() -> bool:
    """Say whether loops are compiled on this machine."""
    try:
        import numba  # noqa: F401
    except ImportError:
        return False
    return True


def warm() -> None:
    """Call every loop once with the types it is used with."""
    import numpy as np

    from rodbook.boards.asked.task import task_of
    from rodbook.boards.kernels import knapsack
    from rodbook.boards.kernels.refilling import refill
    from rodbook.boards.models import Piece, Saw, Sheet
    from rodbook.boards.values.dearest import Dearest
    from rodbook.boards.values.gathered import gather

    pieces = [Piece("a", 40.0, 30.0, 3), Piece("b", 30.0, 20.0, 2)]
    sheets = [Sheet("s", 100.0, 60.0, Decimal(1))]
    for turns in (None, 1):
        task = task_of(pieces, sheets, Saw(1.0, 0.0, turns))
        dearest = Dearest(task, [3, 2])
        dearest.fillings([12, 6])
        if turns is None:
            dearest.held([12, 6], [3, 2])
            dearest.tightest([1, 1])
            result = gather(dearest, [12, 6], [40.0], 40.0, 1000)
            assert result is not None
            result.shape(max(result.patterns, key=lambda pattern: sum(pattern[1])))
    whole = np.array([3, 2], dtype=np.int64)
    knapsack.dearest(7, whole, whole, whole, 100)
    knapsack.by_table(7, whole, whole, whole)
    knapsack.dear_enough(7, whole, whole, whole, 4, 10, 100)
    refill(
        np.array([[4, 3], [3, 2]], dtype=np.int64),
        np.array([False, True]),
        np.array([[10, 6]], dtype=np.int64),
        np.full(2, -1, dtype=np.int64),
        np.zeros((2, 4), dtype=np.int64),
        np.ones(2),
        1,
        3,
        0.05,
    )


def ready(clock: Clock) -> bool:
    """Say whether the loops can be called without a wait, after waiting for it no longer than there is time.

    Where work is counted, the answer must not hang on how fast a machine compiles: there it is waited for to the end, once
    after an installation, and the clock stands still meanwhile.
    """
    with _lock:
        if not _started:
            # not a daemon: what it compiles is kept for the next time even if the program ends meanwhile
            thread = threading.Thread(target=warm, name="compiling")
            thread.start()
            _started.append(thread)
    began = clock.now()
    while _started[0].is_alive() and not clock.struck():
        _started[0].join(LOOK if clock.counts else max(0.0, min(LOOK, clock.by_clock())))
        if clock.counts:
            clock.start, began = clock.start + clock.now() - began, clock.now()
    return not _started[0].is_alive()


if __name__ == "__main__":
    warm()
