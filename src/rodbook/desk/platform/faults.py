"""Faults beside the fields where they can be put right, with what was typed kept."""

from __future__ import annotations

import re
from collections.abc import Mapping, Sequence

from rodbook.errors import Fault
from rodbook.job.aside import entry_of

__all__ = ["Form", "spot_of", "told"]

_PLACE = re.compile(r"(?:openings|panels|runs)\[\d+\](?:\.([a-z_]+))?(?:\[\d+\])?(?: \((.+)\))?")


def told(fault: Fault) -> str:
    """A fault as a page says it: the opening by its mark, not by its place in a file.

    Examples
    --------
    >>> told(Fault("openings[3].leaf (C3)", "plain.text", text="this is empty"))
    'C3, leaf: this is empty'
    >>> told(Fault("openings[1] (B1)", "plain.text", text="no hinge carries it"))
    'B1: no hinge carries it'
    >>> told(Fault("job.name", "plain.text", text="this is empty"))
    'job.name: this is empty'
    """
    place = _PLACE.fullmatch(fault.where)
    if place is None or not place[2]:
        return str(fault)
    field = f", {place[1].replace('_', ' ')}" if place[1] else ""
    return f"{place[2]}{field}: {fault.what}"


_ROWS = {"openings": "r", "panels": "p", "runs": "t"}


def spot_of(fault: Fault) -> str:
    """The row on the page of openings where a fault stands; empty where it is of the whole job.

    Examples
    --------
    >>> spot_of(Fault("openings[3].leaf (C3)", "plain.text", text="this is empty"))
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
    >>> form = Form({"name": ""}, [Fault("job.name", "plain.text", text="this is empty; write a name")], prefix="job.")
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
            field = self._field(fault.where, prefix)
            if field:
                self._by_field.setdefault(field, fault.what)
            if not field or field not in typed:
                elsewhere.append(fault)
        self.elsewhere = tuple(elsewhere)

    @staticmethod
    def _field(where: str, prefix: str) -> str:
        place = where.split(" (")[0]
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
