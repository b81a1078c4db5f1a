"""The errors Rodbook raises, and the one-sentence faults that they carry.

::

    RodbookError
      InputError(ValueError)   what was given is wrong; carries every fault found, each with its place
      Infeasible               the input is sound but no answer exists; carries the items in the way
      StoreError               a file could not be read or written
      RenderError              a paper could not be typeset

The command line turns an `InputError` into exit code 2 and the others into 1.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

__all__ = ["Fault", "Infeasible", "InputError", "RenderError", "RodbookError", "StoreError"]


@dataclass(frozen=True)
class Fault:
    """One thing that is wrong with what was given.

    Parameters
    ----------
    where : str
        The place, as a reader would look for it: ``openings[3].widths``, ``row 5, column width``.
    what : str
        One sentence without its full stop: what is wrong, and what would be right.
    code : str
        What kind of fault it is, where something may be offered for it; never said.

    Examples
    --------
    >>> print(Fault("openings[3].widths", "84 mm is less than the smallest leaf; did you mean 840?"))
    openings[3].widths: 84 mm is less than the smallest leaf; did you mean 840?
    """

    where: str
    what: str
    code: str = ""

    def __str__(self) -> str:
        """Place and sentence on one line."""
        return f"{self.where}: {self.what}" if self.where else self.what


class RodbookError(Exception):
    """Whatever Rodbook raises on purpose."""


class InputError(RodbookError, ValueError):
    """What was given is wrong; `faults` holds everything found, not just the first."""

    def __init__(self, faults: Fault | Iterable[Fault]) -> None:
        """Take one fault or several."""
        self.faults: tuple[Fault, ...] = (faults,) if isinstance(faults, Fault) else tuple(faults)
        super().__init__("\n".join(map(str, self.faults)))

    @classmethod
    def at(cls, where: str, what: str) -> InputError:
        """Make an error of a single fault."""
        return cls(Fault(where, what))


class Infeasible(RodbookError):  # noqa: N818  it says what is so, and is a word of the field
    """The input is sound but no answer exists; `items` names what stands in the way."""

    def __init__(self, message: str, items: Iterable[str] = ()) -> None:
        """Take the sentence and the names of the offending items."""
        self.items: tuple[str, ...] = tuple(items)
        super().__init__(message)


class StoreError(RodbookError):
    """A file could not be read or written."""


class RenderError(RodbookError):
    """A paper could not be typeset."""
