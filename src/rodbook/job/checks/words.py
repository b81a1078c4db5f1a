"""Checks that jobs and books have in common: names that stand twice or are not known, and text that no paper can print."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence

from pydantic import BaseModel

from rodbook.errors import Fault
from rodbook.job.faults import nearest, one_line

__all__ = ["duplicates", "in_brackets", "odd_character", "unknown_name", "unprintable"]

_MANY_LINES = frozenset({"note", "contact", "client", "site"})
"""Text that may have more than one line; all other text goes on labels and into tables."""


def duplicates(named: Iterable[tuple[str, str]], what: str) -> Iterator[Fault]:
    """Names that stand twice; each pair is a place and the name that stands in it."""
    first: dict[str, str] = {}
    for where, name in named:
        if name.casefold() in first:
            said = f"{name!r} is already the {what} of {first[name.casefold()]}; each needs its own"
            yield Fault(f"{where}.{what} ({one_line(name, 40)})", "plain.text", text=said)
        else:
            first[name.casefold()] = where


def unknown_name(where: str, what: str, name: str, known: Sequence[str]) -> Iterator[Fault]:
    """A name that the book does not have, with the nearest that it has."""
    if name not in known:
        hint = nearest(name, known) or f"; it has no {what}s at all"
        yield Fault(where, "job.book", what=what, name=name, hint=hint)


def unprintable(entry: BaseModel, where: str, mark: str = "") -> Iterator[Fault]:
    """Text with characters that no paper can print, or with line breaks where one line has to do."""
    for name, value in entry:
        at = f"{where}.{name}" if where else name
        singles = value if isinstance(value, tuple) else (value,)
        for number, single in enumerate(singles, 1):
            if isinstance(single, BaseModel):
                yield from unprintable(single, f"{at}[{number}]" if isinstance(value, tuple) else at, mark)
            for text in single if isinstance(single, dict) else (single,):
                if isinstance(text, str) and (said := odd_character(text, many_lines=name in _MANY_LINES)):
                    yield Fault(at + mark, "plain.text", text=said)


def odd_character(text: str, *, many_lines: bool) -> str:
    """What is wrong with a text that can't be printed as it is; empty where nothing is."""
    for character in text:
        if character in "\n\r\t\v\f\u2028\u2029":
            if not many_lines or character not in "\n\r\t":
                return "this has to stand on one line; take the line break or tab out"
        elif ord(character) < 32 or 0x7F <= ord(character) < 0xA0 or ord(character) & 0xFFFE == 0xFFFE:
            return f"a character that can't be printed (U+{ord(character):04X}) stands here; take it out"
    return ""


def in_brackets(name: str | None) -> str:
    """A mark or name as it stands after a place; empty where there is none."""
    return f" ({one_line(name, 40)})" if name else ""
