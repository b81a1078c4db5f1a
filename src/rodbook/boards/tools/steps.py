"""Steps of a search that may fail without taking down what the steps before them found."""

from __future__ import annotations

import logging
from collections.abc import Callable

from rodbook.boards.models import BrokenOff, SearchStep

__all__ = ["Steps"]

_log = logging.getLogger(__name__)


class Steps:
    """Runs the later steps of a search; `broken_off` lists those that failed."""

    def __init__(self) -> None:
        """Start with none."""
        self.broken_off: list[BrokenOff] = []

    def tried[T](self, step: SearchStep, stands: T, do: Callable[[], T]) -> T:
        """Give what a step finds; or what `stands`, where the step fails in whatever way.

        The failure is a fault of Rodbook's own: it is written to the log in full, and named in the answer.
        """
        try:
            return do()
        except Exception as error:
            _log.exception("a search went on without its step %r", step)
            self.broken_off.append(BrokenOff(step, f"{type(error).__name__}: {error}".rstrip(": ")))
            return stands
