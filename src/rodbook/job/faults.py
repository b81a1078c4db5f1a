"""A model library's complaints, translated into the sentences that a joiner reads."""

from __future__ import annotations

import difflib
import re
import types
import typing
from collections.abc import Iterable, Mapping, Sequence
from datetime import date as Date  # noqa: N812
from decimal import Decimal
from enum import Enum

from pydantic import BaseModel, ValidationError

from rodbook.errors import Fault, Message
from rodbook.job.build_ups.base import BuildUpBase
from rodbook.job.build_ups.registry import families, models
from rodbook.job.numerals import in_figures
from rodbook.wording import one_line

__all__ = ["MOST_FAULTS", "faults_of", "loose_faults", "nearest", "one_line", "place", "sentences_of"]

MOST_FAULTS = 2000
"""More faults than this are not listed one by one: as many as a job may have openings. It is no job then, or one slip is behind
them all."""

type Location = Sequence[str | int]
type _Models = list[type[BaseModel]]

_READING_FIELDS = frozenset({"widths", "heights", "diagonals", "leaf", "clear"})
"""Fields whose single values are named by the field alone: the sentence quotes the value."""


def nearest(word: str, choices: Iterable[str]) -> Message | None:
    """``; did you mean …?`` for a near miss, else the choices, else nothing.

    >>> print(nearest("lft", ["left", "right"]))
    ; did you mean left?
    >>> print(nearest("up", ["left", "right"]))
    ; use one of: left, right
    """
    known = [c for c in choices if c]
    close = difflib.get_close_matches(word.lower()[:80], [c.lower() for c in known], n=1, cutoff=0.6)
    if close:
        return Message("value.did_you_mean", word=next(c for c in known if c.lower() == close[0]))
    if not known:
        return None
    return Message("value.one_of" if len(known) <= 12 else "value.one_of_more", words=tuple(known[:12]))


def place(location: Location, raw: object = None) -> str:
    """Write a place the way a reader looks for it, counting from 1, with the mark where there is one.

    >>> place(("openings", 2, "widths", 0), {"openings": [{}, {}, {"mark": "C3"}]})
    'openings[3].widths (C3)'
    """
    kept = _steps(location)
    if len(kept) >= 2 and isinstance(kept[-1], int) and kept[-2] in _READING_FIELDS:
        kept.pop()
    text, mark, at = "", "", raw
    for step in kept:
        name = f"[{step + 1}]" if isinstance(step, int) else one_line(step, 60) or '""'
        text += name if isinstance(step, int) or not text else f".{name}"
        at = _child(at, step)
        if isinstance(at, Mapping) and isinstance(name := at.get("mark", at.get("name")), str) and name.strip():
            mark = one_line(name.strip(), 40) if isinstance(step, int) else mark
    return f"{text} ({mark})" if mark else text


def _steps(location: Location) -> list[str | int]:
    """A place without the marks of the model library: the family, after the number of a build-up."""
    kept = list(location)
    if len(kept) > 2 and kept[0] == "build_ups" and kept[2] in families():
        del kept[2]
    if len(kept) > 2 and kept[-1] == "[key]":
        kept.pop()
    return kept


def _child(at: object, step: str | int) -> object:
    if isinstance(at, Mapping):
        return at.get(step)
    if isinstance(at, list | tuple) and isinstance(step, int) and step < len(at):
        return at[step]
    return None


def _at(raw: object, location: Location) -> object:
    for step in location:
        raw = _child(raw, step)
    return raw


def _leaves_of(annotation: object) -> list[type]:
    """The plain types and document models inside an annotation, whatever it is wrapped in."""
    if isinstance(annotation, typing.TypeAliasType):
        return _leaves_of(annotation.__value__)
    if isinstance(annotation, types.UnionType) or typing.get_origin(annotation) is not None:
        return [leaf for arg in typing.get_args(annotation) for leaf in _leaves_of(arg)]
    return [annotation] if isinstance(annotation, type) else []


def _models_in(annotation: object) -> _Models:
    found = [leaf for leaf in _leaves_of(annotation) if issubclass(leaf, BaseModel)]
    return [one for leaf in found for one in (models() if leaf is BuildUpBase else (leaf,))]


def _models_at(model: type[BaseModel], steps: Location) -> _Models:
    """The documents that may stand at a place."""
    standing = [model]
    for step in steps:
        if isinstance(step, str):
            fields = [m.model_fields[step].annotation for m in standing if step in m.model_fields]
            standing = [found for annotation in fields for found in _models_in(annotation)]
    return standing


def _described(model: type[BaseModel], steps: Location) -> str:
    """What the model says of a field; nothing where it says nothing, or the place is none."""
    if not steps or not isinstance(steps[-1], str):
        return ""
    found = [m.model_fields[steps[-1]] for m in _models_at(model, steps[:-1]) if steps[-1] in m.model_fields]
    return next((f.description for f in found if f.description), "")


def _description(model: type[BaseModel], steps: Location) -> str:
    text = _described(model, steps).rstrip(".")
    text = re.sub(r"\.? ?\[([^]]+)\]$", r", in \1", text)
    return f": {text[0].lower()}{text[1:]}" if text else ""


def _shown(value: object) -> str:
    """A value as the file has it, as far as one line can show it."""
    if isinstance(value, bool):
        return "true" if value else "false"
    if isinstance(value, Mapping):
        return "a group of names and values"
    if isinstance(value, list | tuple):
        return "a list"
    if isinstance(value, str):
        return repr(one_line(value, 60)) if value.isprintable() else f"'{one_line(value, 60)}'"
    if isinstance(value, int) and value.bit_length() > 64:
        return "a number of more than 19 digits"
    if isinstance(value, int | float):
        return repr(value)
    return "nothing" if value is None else one_line(str(value), 60)


_PLAIN = {
    "int_parsing": "is not a whole number",
    "int_parsing_size": "is not a whole number of a sensible size",
    "int_from_float": "is not a whole number",
    "int_type": "is not a whole number",
    "float_parsing": "is not a number",
    "float_type": "is not a number",
    "finite_number": "is not a number that can be used",
    "bool_parsing": "is neither true nor false",
    "bool_type": "is neither true nor false",
    "string_type": "is not text; put it in quotation marks",
    "string_unicode": "has a character that no text can have",
    "string_pattern_mismatch": "is not written as it should be",
    "date_from_datetime_parsing": "is not a date; write it as 2026-11-25",
    "date_from_datetime_inexact": "is a date with a time of day; leave the time out, as in 2026-11-25",
    "date_parsing": "is not a date; write it as 2026-11-25",
    "date_type": "is not a date; write it as 2026-11-25",
    "dict_type": "is not a group of names and values",
    "model_type": "is not a group of names and values",
    "model_attributes_type": "is not a group of names and values",
}

_EXACT = (
    ("currency", "an amount of money", "46.50"),
    ("h", "a number of hours", "2.5"),
    ("%", "a percentage", "7.5"),
    ("1", "a share", "0.2"),
    ("", "a number", "2.5"),
)
"""What a number is that is kept as it was written, by the unit that its description ends with."""

_LIMITS = {
    "greater_than": ("gt", "has to be more than"),
    "greater_than_equal": ("ge", "has to be at least"),
    "less_than": ("lt", "has to be less than"),
    "less_than_equal": ("le", "has to be at most"),
}


class _Entry(typing.NamedTuple):
    """One complaint: its kind, what it is about, and where it stands."""

    kind: str
    context: Mapping[str, typing.Any]
    value: object
    message: str
    steps: list[str | int]
    model: type[BaseModel]
    raw: object


def _missing(entry: _Entry) -> str:
    if entry.steps and isinstance(entry.steps[-1], int):
        given = _at(entry.raw, entry.steps[:-1])
        number = len(given) if isinstance(given, list | tuple) else 0
        return _counted(number, f"{entry.context['needed']} are needed")
    return f"this is missing{_description(entry.model, entry.steps)}{_heading(entry)}"


def _heading(entry: _Entry) -> str:
    """How a whole group that is missing from the document is headed."""
    name = str(entry.steps[0]) if len(entry.steps) == 1 else ""
    if name not in entry.model.model_fields or not _models_at(entry.model, entry.steps):
        return ""
    listed = typing.get_origin(entry.model.model_fields[name].annotation) is tuple
    return f"; head each with [[{name}]]" if listed else f"; head it with [{name}]"


def _counted(count: int, rule: str) -> str:
    return f"{count} value{'' if count == 1 else 's'} stand{'s' if count == 1 else ''} here; {rule}"


def _unknown_name(entry: _Entry) -> str:
    names = sorted({name for m in _models_at(entry.model, entry.steps[:-1]) for name in m.model_fields})
    name = str(entry.steps[-1])
    return f"there is no {_shown(name)} here{nearest(name, names)}"


def _unknown_word(entry: _Entry) -> str:
    if entry.kind in ("union_tag_invalid", "union_tag_not_found"):
        word = _child(entry.value, "family")
        hint = nearest(word if isinstance(word, str) else "", sorted(families()))
        return f"the family of this build-up is {'missing' if word is None else 'unknown'}{hint}"
    expected = str(entry.context.get("expected", "")).replace(" or ", ",").split(",")
    word = entry.value if isinstance(entry.value, str) else ""
    return f"{_shown(entry.value)} is not known here{nearest(word, [c.strip(" '") for c in expected])}"


def _no_list(entry: _Entry) -> str:
    last = str(entry.steps[-1]) if entry.steps else ""
    if isinstance(entry.value, Mapping) and _models_at(entry.model, entry.steps):
        return f"this is a single group where a list is needed; head each of its entries with [[{last}]]"
    return f"{_shown(entry.value)} is not a list; write it in square brackets"


def _too_many(entry: _Entry) -> str:
    most = entry.context.get("max_length")
    count = entry.context.get("actual_length")
    number = count if isinstance(count, int) else len(entry.value) if isinstance(entry.value, list) else 0
    hint = "; decimals take a point, as in 842.5" if _READING_FIELDS.intersection(entry.steps[-1:]) else ""
    return _counted(number, f"at most {most} fit{hint}")


def _exactly(entry: _Entry) -> str:
    """What is wrong with a number that is kept as it was written: money, hours, a percentage, a share."""
    found = re.search(r"\[([^]]+)\]$", _described(entry.model, entry.steps).rstrip("."))
    unit = found[1] if found else ""
    what, example = next(
        (words, example)
        for known, words, example in _EXACT
        if known == unit or not known or (known == "currency" and known in unit)
    )
    typed = isinstance(entry.value, str) and not in_figures(
        entry.value
    )  # in a form it may be a book with a decimal comma
    how = "write it in figures" if typed else f"write it as {example}"
    wrong = "is not" if entry.kind in ("decimal_parsing", "decimal_type") else "has too many digits for"
    return f"{_shown(entry.value)} {wrong} {what}; {how}"


def _sentence(entry: _Entry) -> str:
    kind = entry.kind
    if kind in ("length", "implausible", "rows"):
        return entry.message
    if kind in _LIMITS:
        key, words = _LIMITS[kind]
        limit = entry.context.get(key)
        return f"{_shown(entry.value)} won't do; it {words} {f'{limit:g}' if isinstance(limit, float) else limit}"
    if kind in _PLAIN:
        comma = "; decimals take a point" if isinstance(entry.value, str) and "," in entry.value else ""
        return f"{_shown(entry.value)} {_PLAIN[kind]}{comma if kind.startswith('float') else ''}"
    return _BY_KIND[kind](entry) if kind in _BY_KIND else f"{_shown(entry.value)} can't be used here"


_BY_KIND: dict[str, typing.Callable[[_Entry], str]] = {
    "missing": _missing,
    "decimal_parsing": _exactly,
    "decimal_type": _exactly,
    "decimal_max_digits": _exactly,
    "decimal_max_places": _exactly,
    "decimal_whole_digits": _exactly,
    "extra_forbidden": _unknown_name,
    "invalid_key": _unknown_name,
    "literal_error": _unknown_word,
    "enum": _unknown_word,
    "union_tag_invalid": _unknown_word,
    "union_tag_not_found": _unknown_word,
    "tuple_type": _no_list,
    "list_type": _no_list,
    "too_long": _too_many,
    "too_short": lambda entry: f"at least {entry.context.get('min_length')} must be given here",
    "string_too_short": lambda _: "this is empty; write a name",
    "string_too_long": lambda entry: f"this text is longer than {entry.context.get('max_length')} characters",
}


def sentences_of(error: ValidationError, model: type[BaseModel], raw: object) -> list[tuple[Location, str]]:
    """Every complaint in a model library's error: where it stands, in steps, and its sentence.

    Parameters
    ----------
    error : ValidationError
        What `model` said of `raw`.
    model : type[BaseModel]
        The document that was being read.
    raw : object
        What was read.
    """
    complaints = error.errors(include_url=False)[: 5 * MOST_FAULTS]
    inner = {c["loc"][:length] for c in complaints for length in range(len(c["loc"]))}
    complaints = [
        c for c in complaints if c["type"] != "too_short" or c["loc"] not in inner
    ]  # what follows from another
    needed: dict[Location, int] = {}
    for loc in (c["loc"] for c in complaints if c["type"] == "missing"):
        if isinstance(loc[-1], int):
            needed[loc[:-1]] = max(needed.get(loc[:-1], 0), loc[-1] + 1)
    found: list[tuple[Location, str]] = []
    for complaint in complaints:
        context = typing.cast("Mapping[str, typing.Any]", complaint.get("ctx") or {})
        context = {**context, "needed": needed.get(complaint["loc"][:-1])}
        steps = _steps(complaint["loc"])
        entry = _Entry(complaint["type"], context, complaint.get("input"), complaint["msg"], steps, model, raw)
        found.append((complaint["loc"], _sentence(entry)))
    return found


def faults_of(error: ValidationError, model: type[BaseModel], raw: object) -> list[Fault]:
    """Every fault in a model library's error, each with its place and one sentence.

    Parameters
    ----------
    error : ValidationError
        What `model` said of `raw`.
    model : type[BaseModel]
        The document that was being read.
    raw : object
        What was read, for the marks in the places.
    """
    found = [
        Fault(place(loc, raw) or "the file", "plain.text", text=sentence)
        for loc, sentence in sentences_of(error, model, raw)
    ]
    return list(dict.fromkeys(found))


def loose_faults(model: type[BaseModel], raw: object) -> list[Fault]:
    """What the model library would quietly turn into something else: true into 1, or 20261125 into a day in 1970.

    Parameters
    ----------
    model : type[BaseModel]
        The document that is being read.
    raw : object
        What was read.
    """
    return [Fault(place(steps, raw), "plain.text", text=sentence) for steps, sentence in _loose(model, raw, ())]


def _loose(model: type[BaseModel], raw: object, at: tuple[str | int, ...]) -> Iterable[tuple[Location, str]]:
    if not isinstance(raw, Mapping):
        return
    for name, field in model.model_fields.items():
        leaves = _leaves_of(field.annotation)
        documents = [leaf for leaf in leaves if issubclass(leaf, BaseModel)]
        value = raw.get(name)
        for step, single in _singles(value):
            steps = (*at, name, *step)
            if documents:
                yield from _loose(_fitting(documents, single), single, steps)
            elif sentence := _quiet_change(single, {leaf for leaf in leaves if not issubclass(leaf, Enum)}):
                yield steps, sentence


def _singles(value: object) -> Iterable[tuple[tuple[str | int, ...], object]]:
    if isinstance(value, list | tuple):
        return [((n,), entry) for n, entry in enumerate(value)]
    if isinstance(value, Mapping) and not any(isinstance(entry, Mapping) for entry in value.values()):
        return [((), value), *(((key,), entry) for key, entry in value.items())]
    return [((), value)]


def _fitting(documents: _Models, raw: object) -> type[BaseModel]:
    """The document of several whose family is the one that stands there; the first for want of a better."""
    families = {d.model_fields["family"].default: d for d in documents if "family" in d.model_fields}
    family = _child(raw, "family")
    return families.get(family, documents[0]) if isinstance(family, str) else documents[0]


def _quiet_change(value: object, leaves: set[type]) -> str:
    if isinstance(value, bool) and bool not in leaves and leaves & {int, float, Decimal}:
        return f"{_shown(value)} is not a number"
    if Date in leaves:
        number = isinstance(value, int | float) or (isinstance(value, str) and value.strip().count("-") != 2)
        return f"{_shown(value)} is not a date; write it as 2026-11-25" if number else ""
    return ""
