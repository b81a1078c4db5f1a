"""Faults beside the fields where they can be put right, with what was typed kept."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from rodbook.errors import Fault
from rodbook.job.aside import entry_of

__all__ = ["Form", "spot_of", "told"]


def told(fault: Fault) -> str:
    """A fault as a page says it: the opening by its mark, not by its place in a file.

    Examples
    --------
    >>> told(Fault(Place(("openings", 2, "leaf"), "C3"), "field.empty"))
    'C3, leaf: this is empty; write a name'
    >>> told(Fault(Place(("openings", 0), "B1"), "field.empty"))
    'B1: this is empty; write a name'
    >>> told(Fault(("job", "name"), "field.empty"))
    'job.name: this is empty; write a name'
    """
    at = fault.at
    if entry_of(fault) is None or not at.mark:
        return str(fault)
    field = f", {str(at.path[2]).replace('_', ' ')}" if len(at.path) > 2 else ""
    return f"{at.mark}{field}: {fault.what}"


_ROWS = {"openings": "r", "panels": "p", "runs": "t"}


def spot_of(fault: Fault) -> str:
    """The row on the page of openings where a fault stands; empty where it is of the whole job.

    Examples
    --------
    >>> spot_of(Fault(("openings", 2, "leaf"), "field.empty"))
    'r2'
    """
    entry = entry_of(fault)
    return "" if entry is None else f"{_ROWS[entry[0]]}{entry[1] - 1}"


class Form:
    """A form as it was filled in, and its faults by field.

    Parameters
    ----------
    typed : mapping
        Fields and what was typed.
    faults : sequence of Fault
    prefix : str
        What every place begins with, left off to find the field: ``job.`` for the header.

    Examples
    --------
    >>> form = Form({"name": ""}, [Fault(("job", "name"), "field.empty")], prefix="job.")
    >>> form.fault("name"), form.typed("name"), form.elsewhere
    ('this is empty; write a name', '', ())
    """

    def __init__(self, typed: Mapping[str, str], faults: Sequence[Fault] = (), prefix: str = "") -> None:
        """Sort the faults to their fields."""
        self._typed = typed
        self.faults = tuple(faults)
        self._by_field: dict[str, str] = {}
        elsewhere: list[Fault] = []
        for fault in self.faults:
            field = self._field(fault, prefix)
            if field:
                self._by_field.setdefault(field, fault.what)
            if not field or field not in typed:
                elsewhere.append(fault)
        self.elsewhere = tuple(elsewhere)

    @staticmethod
    def _field(fault: Fault, prefix: str) -> str:
        path = fault.at.path
        place = str(path[0]) if len(path) == 1 else str(fault.at.marked(""))
        place = place.split(" (")[0]
        if prefix and not place.startswith(prefix):
            return place if "." not in place and "[" not in place else ""
        return place.removeprefix(prefix)

    def fault(self, field: str) -> str:
        """The sentence for a field, or nothing."""
        return self._by_field.get(field, "")

    def typed(self, field: str, otherwise: object = "") -> str:
        """What was typed in a field; what stands there where nothing was."""
        value = self._typed.get(field)
        return str(otherwise if value is None else value)

    @property
    def values(self) -> Mapping[str, str]:
        """What was typed, by field."""
        return self._typed

    @property
    def first(self) -> str:
        """The first field that has a fault, to put the cursor there."""
        return next(iter(self._by_field), "")
