"""The errors Rodbook raises, and the faults and notes that they and its results carry: data, of which sentences are made last.

::

    RodbookError
      InputError(ValueError)   what was given is wrong; carries every fault found, each with its place
      Infeasible               the input is sound but no answer exists; carries the items in the way
      StoreError               a file could not be read or written
      RenderError              a paper could not be typeset

The command line turns an `InputError` into exit code 2 and the others into 1. What a code means stands in `rodbook.wording`,
which makes the sentence; nothing decides by looking into one.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, replace
from enum import StrEnum
from typing import Self

from rodbook import wording

__all__ = [
    "Fault",
    "Infeasible",
    "InputError",
    "Message",
    "Note",
    "Place",
    "RenderError",
    "RodbookError",
    "Severity",
    "StoreError",
    "Unread",
]


class Severity(StrEnum):
    """How much weighs what is said."""

    FAULT = "fault"
    """Wrong: what it stands at is not worked out before it is put right."""
    DOUBT = "doubt"
    """Looked at again before anybody acts on it."""
    NOTE = "note"
    """Worth knowing."""


@dataclass(frozen=True)
class Place:
    """Where something stands in what was given.

    Parameters
    ----------
    path : tuple of str and int
        Names of fields and numbers of entries, from 0: ``("openings", 2, "widths")``.
    mark : str
        How the entry calls itself, where it does.
    document : str
        In which document, where there are several: the name of a file, or what it is.

    Examples
    --------
    >>> at = Place(("openings",)) / 2
    >>> print((at / "widths").marked("C3"))
    openings[3].widths (C3)
    >>> print((at / "widths").within("job.toml"))
    job.toml, openings[3].widths
    """

    path: tuple[str | int, ...] = ()
    mark: str = ""
    document: str = ""

    @classmethod
    def of(cls, at: Place | str | Iterable[str | int]) -> Place:
        """A place as it may be given: itself, the name of one field, or a path."""
        if isinstance(at, Place):
            return at
        if isinstance(at, str):
            return cls((at,)) if at else cls()
        return cls(tuple(at))

    def __truediv__(self, step: str | int | Place) -> Place:
        """A place within this one."""
        further = step if isinstance(step, Place) else Place((step,))
        return replace(self, path=(*self.path, *further.path), mark=further.mark or self.mark)

    def marked(self, mark: str) -> Place:
        """This place, with what its entry calls itself."""
        return replace(self, mark=mark)

    def within(self, document: str) -> Place:
        """This place, in a document of that name."""
        return replace(self, document=", ".join(filter(None, (document, self.document))))

    def beneath(self, place: Place) -> Place | None:
        """What is left of this place from another one on; None where it does not stand in that.

        >>> Place(("openings", 2, "widths")).beneath(Place(("openings", 2)))
        Place(path=('widths',), mark='', document='')
        """
        steps = len(place.path)
        return replace(self, path=self.path[steps:]) if self.path[:steps] == place.path else None

    def in_language(self, language: str) -> str:
        """As a reader of that language looks for it."""
        return wording.place(self.path, self.mark, self.document, language)

    def __str__(self) -> str:
        """As a reader looks for it, counted from 1."""
        return self.in_language("")


@dataclass(frozen=True, init=False)
class Message:
    """What there is to say, before it is a sentence: a code of `rodbook.wording`, and its parameters.

    Parameters
    ----------
    code : str
    given : tuple of (str, object)
        Parameters in the order of their names. A message may be one of them.

    Examples
    --------
    >>> print(Message("sizes.none_serve", number=0))
    0 sizes serve no opening; write one or more
    """

    code: str
    given: tuple[tuple[str, object], ...]

    def __init__(self, code: str | Message, /, **parameters: object) -> None:
        """Take a code and its parameters, or what another message says."""
        if isinstance(code, Message):
            parameters = {**code.parameters, **parameters}
        object.__setattr__(self, "code", code.code if isinstance(code, Message) else code)
        object.__setattr__(self, "given", tuple(sorted((name, _kept(value)) for name, value in parameters.items())))

    @property
    def parameters(self) -> Mapping[str, object]:
        """By name."""
        return dict(self.given)

    @property
    def codes(self) -> frozenset[str]:
        """Its own code, and those of the messages that it quotes."""
        return frozenset({self.code}).union(*(value.codes for _, value in self.given if isinstance(value, Message)))

    @property
    def sentence(self) -> str:
        """In English; only to be shown."""
        return self.in_language("")

    def in_language(self, language: str) -> str:
        """In words, which are English where there is no translation."""
        return wording.sentence(self.code, self.parameters, language)

    def __str__(self) -> str:
        """The sentence in English."""
        return self.sentence


def _kept(value: object) -> object:
    """A parameter that can be compared, hashed and sent."""
    if isinstance(value, list | set | frozenset) or (isinstance(value, Iterable) and hasattr(value, "__next__")):
        return tuple(value)
    return value


@dataclass(frozen=True, init=False)
class _Placed(Message):
    at: Place
    severity: Severity

    def __init__(self, at: Place | str | Iterable[str | int], code: str | Message, /, **parameters: object) -> None:
        super().__init__(code, **parameters)
        object.__setattr__(self, "at", Place.of(at))
        object.__setattr__(self, "severity", code.severity if isinstance(code, _Placed) else self._usual)

    def of(self, severity: Severity) -> Self:
        """The same, with another weight."""
        result = type(self)(self.at, self)
        object.__setattr__(result, "severity", severity)
        return result

    _usual = Severity.FAULT

    def moved(self, at: Place | str) -> Self:
        """The same, said of another place."""
        return type(self)(at, self)

    @property
    def where(self) -> str:
        """The place in words; only to be shown."""
        return str(self.at)

    def __str__(self) -> str:
        """Place and sentence on one line."""
        return f"{self.where}: {self.sentence}" if self.where else self.sentence


@dataclass(frozen=True, init=False)
class Fault(_Placed):
    """One thing that is wrong with what was given.

    Parameters
    ----------
    at : Place
        Where: made from a path, or from the name of one field.
    code : str
        What is wrong, as `rodbook.wording` has it.
    severity : Severity

    Examples
    --------
    >>> print(Fault("step", "sizes.step_not_above_zero", step_mm=0))
    step: sizes can't go in steps of 0 mm; write a step above zero
    """

    @property
    def what(self) -> str:
        """The sentence in English; only to be shown."""
        return self.sentence


@dataclass(frozen=True, init=False)
class Note(_Placed):
    """One thing worth knowing about a place: most often the mark of an opening, nothing for the whole job."""

    _usual = Severity.NOTE

    def __init__(self, at: Place | str | Iterable[str | int], code: str | Message, /, **parameters: object) -> None:
        """Take a place, or the mark of what it is about; and what there is to know."""
        super().__init__(Place((), at) if isinstance(at, str) else at, code, **parameters)


class RodbookError(Exception):
    """Whatever Rodbook raises on purpose; `message` is what it says."""

    def __init__(self, code: str | Message, /, **parameters: object) -> None:
        """Take what went wrong as a code and its parameters."""
        self.message = Message(code, **parameters)
        super().__init__(self.message)

    def __str__(self) -> str:
        """The sentence in English."""
        return str(self.message)


class InputError(RodbookError, ValueError):
    """What was given is wrong; `faults` holds everything found, not just the first."""

    def __init__(self, faults: Fault | Iterable[Fault]) -> None:
        """Take one fault or several."""
        self.faults: tuple[Fault, ...] = (faults,) if isinstance(faults, Fault) else tuple(faults)
        Exception.__init__(self, self.faults)

    def __str__(self) -> str:
        """Each fault on a line."""
        return "\n".join(map(str, self.faults))

    @classmethod
    def at(cls, at: Place | str | Iterable[str | int], code: str | Message, /, **parameters: object) -> InputError:
        """Make an error of a single fault."""
        return cls(Fault(at, code, **parameters))


class Unread(ValueError):  # noqa: N818  says what is so
    """What somebody wrote is not what is wanted there; `message` says why, and no place is known yet."""

    def __init__(self, code: str | Message, /, **parameters: object) -> None:
        """Take what is wrong as a code and its parameters."""
        self.message = Message(code, **parameters)
        super().__init__(self.message)

    def __str__(self) -> str:
        """The sentence in English."""
        return str(self.message)


class Infeasible(RodbookError):  # noqa: N818  it says what is so, and is a word of the field
    """The input is sound but no answer exists; `items` names what stands in the way."""

    def __init__(self, code: str | Message, /, items: Iterable[str] = (), **parameters: object) -> None:
        """Take what stands in the way, and the names of the offending items."""
        super().__init__(code, **parameters)
        self.items: tuple[str, ...] = tuple(items)


class StoreError(RodbookError):
    """A file could not be read or written."""


class RenderError(RodbookError):
    """A paper could not be typeset."""
