"""Checks that jobs and books have in common: names that stand twice or are not known, and text that no paper can print."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from enum import StrEnum

from pydantic import BaseModel

from rodbook.errors import Fault, Message, Place
from rodbook.job.faults import nearest

__all__ = ["Sort", "duplicates", "odd_character", "unknown_name", "unprintable"]

_MANY_LINES = frozenset({"note", "contact", "client", "site"})
"""Text that may have more than one line; all other text goes on labels and into tables."""


class Sort(StrEnum):
    """What a book has by name."""

    BOARD = "board"
    BUILD_UP = "build-up"
    FITTING = "fitting"
    HINGE = "hinge"
    INSTRUMENT = "instrument"
    SECTION = "section"
    TAXES = "tax profile"
    WORKSHOP = "workshop"


def duplicates(named: Iterable[tuple[Place, str]], field: str) -> Iterator[Fault]:
    """Names that stand twice; each pair is a place and the name that stands in it."""
    first: dict[str, Place] = {}
    for at, name in named:
        if name.casefold() in first:
            of = first[name.casefold()]
            yield Fault((at / field).marked(name), "name.taken", name=name, field=field, of=of)
        else:
            first[name.casefold()] = at


def unknown_name(at: Place, sort: Sort, name: str, known: Sequence[str]) -> Iterator[Fault]:
    """A name that the book does not have, with the nearest that it has."""
    if name not in known:
        hint = nearest(name, known) or Message("book.has_none", sort=sort)
        yield Fault(at, "book.no_such", sort=sort, name=name, hint=hint)


def unprintable(entry: BaseModel, at: Place) -> Iterator[Fault]:
    """Text with characters that no paper can print, or with line breaks where one line has to do."""
    for name, value in entry:
        singles = value if isinstance(value, tuple) else (value,)
        for number, single in enumerate(singles):
            if isinstance(single, BaseModel):
                yield from unprintable(single, at / name / number if isinstance(value, tuple) else at / name)
            for text in single if isinstance(single, dict) else (single,):
                if isinstance(text, str) and (answer := odd_character(text, many_lines=name in _MANY_LINES)):
                    yield Fault(at / name, answer)


def odd_character(text: str, *, many_lines: bool) -> Message | None:
    """What is wrong with a text that can't be printed as it is."""
    for character in text:
        if character in "\n\r\t\v\f\u2028\u2029":
            if not many_lines or character not in "\n\r\t":
                return Message("text.more_than_one_line")
        elif ord(character) < 32 or 0x7F <= ord(character) < 0xA0 or ord(character) & 0xFFFE == 0xFFFE:
            return Message("text.unprintable", code_point=ord(character))
    return None
