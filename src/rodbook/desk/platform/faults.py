"""Faults beside the fields where they can be put right, with what was typed kept."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from django.utils.translation import get_language, to_locale

from rodbook.errors import Fault, Message, Place
from rodbook.job.aside import entry_of

__all__ = ["Form", "by_field", "in_list", "in_words", "spot_of", "told"]


def in_words(answer: Message) -> str:
    """What there is to say, in the language of the page."""
    language = get_language()
    return answer.in_language(to_locale(language) if language else "")


def by_field(faults: Sequence[Fault]) -> dict[str, str]:
    """What is wrong with each field of a form, the last fault of each."""
    return {str(fault.at.path[0]): in_words(fault) for fault in faults if len(fault.at.path) == 1}


def in_list(fault: Fault) -> Fault:
    """A fault of a list that was sent or of one of its rows, to stand beside the field of the list.

    >>> print(in_list(Fault(("rows", 3), "money.charge_without_name")).what)
    row 4: it has a price but does not say what for; write the charge beside it
    """
    if fault.at.path in ((), ("list",), ("file",)):
        return fault.moved("list")
    return Fault("list", "desk.list_row", place=fault.at, said=Message(fault))


WHOLE = Place()
"""Where all of a document stands."""

_ROWS = {"openings": "r", "panels": "p", "runs": "t"}


def told(fault: Fault) -> str:
    """A fault as a page says it: the opening by its mark, not by its place in a file.

    Examples
    --------
    >>> told(Fault(Place(("openings", 2, "leaf_widths"), "C3"), "form.not_whole"))
    'C3, leaf widths: write a whole number'
    >>> told(Fault(Place(("openings", 0), "B1"), "plan.opening_aside"))
    'B1: it stands aside'
    >>> told(Fault(("job", "name"), "form.not_whole"))
    'job.name: write a whole number'
    """
    mark, words = fault.at.mark, in_words(fault)
    match fault.at.path:
        case (str(group), int()) if group in _ROWS and mark:
            return f"{mark}: {words}"
        case (str(group), int(), str(field), *further) if (
            group in _ROWS and mark and all(isinstance(step, int) for step in further)
        ):
            return f"{mark}, {field.replace('_', ' ')}: {words}"
    return f"{fault.where}: {words}" if fault.where else words


def spot_of(fault: Fault) -> str:
    """The row on the page of openings where a fault stands; empty where it is of the whole job.

    Examples
    --------
    >>> spot_of(Fault(("openings", 2, "leaf"), "form.not_whole"))
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
    within : Place
        What every place begins with, left off to find the field: ``job`` for the header.

    Examples
    --------
    >>> form = Form({"coats": ""}, [Fault(("job", "coats"), "form.not_whole")], within=Place(("job",)))
    >>> form.fault("coats"), form.typed("coats"), form.elsewhere
    ('write a whole number', '', ())
    """

    def __init__(self, typed: Mapping[str, str], faults: Sequence[Fault] = (), within: Place = WHOLE) -> None:
        """Sort the faults to their fields."""
        self._typed = typed
        self.faults = tuple(faults)
        self._by_field: dict[str, str] = {}
        elsewhere: list[Fault] = []
        for fault in self.faults:
            field = self._field(fault, within)
            if field:
                self._by_field.setdefault(field, in_words(fault))
            if not field or field not in typed:
                elsewhere.append(fault)
        self.elsewhere = tuple(elsewhere)

    @staticmethod
    def _field(fault: Fault, within: Place) -> str:
        own = fault.at.beneath(within)
        if own is None:
            return str(fault.at.path[0]) if len(fault.at.path) == 1 else ""
        return str(own.path[0]) if len(own.path) == 1 else str(Place(own.path))

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
