"""How a place in what was given is named."""

from __future__ import annotations

from collections.abc import Sequence

__all__ = ["place"]


def place(path: Sequence[str | int], mark: str = "") -> str:
    """Write a place the way a reader looks for it: entries counted from 1, the name of the entry behind.

    Parameters
    ----------
    path : sequence of str and int
        Names of fields, and numbers of entries from 0.
    mark : str
        What the entry calls itself.

    Examples
    --------
    >>> place(("openings", 2, "widths"), "C3")
    'openings[3].widths (C3)'
    >>> place(())
    ''
    """
    text = ""
    for step in path:
        if isinstance(step, int):
            text += f"[{step + 1}]"
        else:
            text += f".{step}" if text else step
    if not mark:
        return text
    return f"{text} ({mark})" if text else mark
