"""References of a docstring become a list under it: their numbers begin anew in each, and many stand on one page."""

from __future__ import annotations

import re
from typing import Any

__all__ = ["listed", "setup"]

_FIRST = re.compile(r"(\s*)\.\. (\[\d+\] .*)")


def listed(lines: list[str]) -> list[str]:
    """The lines with each reference on one line of a list, and what points to it as plain text.

    >>> listed(["As in [1]_.", "", ".. [1] Somebody, *Work*,", "   1999.", "", "After."])
    ['As in [1].', '', '* [1] Somebody, *Work*, 1999.', '', 'After.']
    """
    done: list[str] = []
    inside = False
    for line in lines:
        first = _FIRST.fullmatch(line)
        if first:
            done.append(f"{first[1]}* {first[2]}")
        elif inside and line.strip():
            done[-1] += f" {line.strip()}"
        else:
            done.append(re.sub(r"(\[\d+\])_", r"\1", line))
        inside = bool(first or (inside and line.strip()))
    return done


def _in_place(app: Any, what: str, name: str, obj: object, options: Any, lines: list[str]) -> None:  # noqa: ARG001
    lines[:] = listed(lines)


def setup(app: Any) -> dict[str, object]:
    """Put it before the reading of numpy sections."""
    app.connect("autodoc-process-docstring", _in_place, priority=100)
    return {"version": "1", "parallel_read_safe": True, "parallel_write_safe": True}
