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

from rodbook.errors import Fault, Message, Place
from rodbook.job.build_ups.base import BuildUpBase
from rodbook.job.build_ups.registry import families, models
from rodbook.job.numerals import in_figures

__all__ = ["MOST_FAULTS", "complaints_of", "faults_of", "loose_faults", "nearest", "place"]

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


def place(location: Location, raw: object = None) -> Place:
    """Make a place of the steps of the model library, with the mark where there is one.

    >>> print(place(("openings", 2, "widths", 0), {"openings": [{}, {}, {"mark": "C3"}]}))
    openings[3].widths (C3)
    """
    kept = _steps(location)
    if len(kept) >= 2 and isinstance(kept[-1], int) and kept[-2] in _READING_FIELDS:
        kept.pop()
    mark, at = "", raw
    for step in kept:
        at = _child(at, step)
        if isinstance(at, Mapping) and isinstance(name := at.get("mark", at.get("name")), str) and name.strip():
            mark = name.strip() if isinstance(step, int) else mark
    return Place(tuple(kept) or ("file",), mark)


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
    results = [leaf for leaf in _leaves_of(annotation) if issubclass(leaf, BaseModel)]
    return [one for leaf in results for one in (models() if leaf is BuildUpBase else (leaf,))]


def _models_at(model: type[BaseModel], steps: Location) -> _Models:
    """The documents that may stand at a place."""
    standing = [model]
    for step in steps:
        if isinstance(step, str):
            fields = [m.model_fields[step].annotation for m in standing if step in m.model_fields]
            standing = [result for annotation in fields for result in _models_in(annotation)]
    return standing


def _described(model: type[BaseModel], steps: Location) -> str:
    """What the model says of a field; nothing where it says nothing, or the place is none."""
    if not steps or not isinstance(steps[-1], str):
        return ""
    results = [m.model_fields[steps[-1]] for m in _models_at(model, steps[:-1]) if steps[-1] in m.model_fields]
    return next((f.description for f in results if f.description), "")


def _description(model: type[BaseModel], steps: Location) -> Message | None:
    """What the model says of a field, as the end of a sentence."""
    text = _described(model, steps).rstrip(".")
    text = re.sub(r"\.? ?\[([^]]+)\]$", r", in \1", text)
    return Message("field.described", text=f"{text[0].lower()}{text[1:]}") if text else None


def _shown(value: object) -> object:
    """A value as a sentence can show it; what is no single value is called by what it is."""
    if isinstance(value, str | bool | float) or (isinstance(value, int) and value.bit_length() <= 64):
        return value
    for kind, code in _CALLED:
        if isinstance(value, kind):
            return Message(code)
    if value is None:
        return Message("value.nothing")
    return value if isinstance(value, Date | Decimal) else Message("value.written", text=str(value)[:400])


_CALLED: tuple[tuple[type | tuple[type, ...], str], ...] = (
    (Mapping, "value.group"),
    ((list, tuple), "value.list"),
    (int, "value.long_number"),
)
"""What is called by what it is: groups, lists and numbers that are too long to be read."""

_PLAIN = {
    "int_parsing": "field.not_a_whole_number",
    "int_parsing_size": "field.whole_number_too_large",
    "int_from_float": "field.not_a_whole_number",
    "int_type": "field.not_a_whole_number",
    "float_parsing": "field.not_a_number",
    "float_type": "field.not_a_number",
    "finite_number": "field.not_a_usable_number",
    "bool_parsing": "field.neither_true_nor_false",
    "bool_type": "field.neither_true_nor_false",
    "string_type": "field.not_a_text",
    "string_unicode": "field.character_of_no_text",
    "string_pattern_mismatch": "field.not_as_written",
    "date_from_datetime_parsing": "field.not_a_date",
    "date_from_datetime_inexact": "field.date_with_time",
    "date_parsing": "field.not_a_date",
    "date_type": "field.not_a_date",
    "dict_type": "field.not_a_group",
    "model_type": "field.not_a_group",
    "model_attributes_type": "field.not_a_group",
}

_EXACT = (
    ("currency", "field.amount_of_money", "46.50"),
    ("h", "field.number_of_hours", "2.5"),
    ("%", "field.percentage", "7.5"),
    ("1", "field.share", "0.2"),
    ("", "field.number", "2.5"),
)
"""What a number is that is kept as it was written, by the unit that its description ends with."""

_LIMITS = {
    "greater_than": ("gt", "field.not_more_than"),
    "greater_than_equal": ("ge", "field.not_at_least"),
    "less_than": ("lt", "field.not_less_than"),
    "less_than_equal": ("le", "field.not_at_most"),
}


class _Entry(typing.NamedTuple):
    """One complaint: its kind, what it is about, and where it stands."""

    kind: str
    context: Mapping[str, typing.Any]
    value: object
    steps: list[str | int]
    model: type[BaseModel]
    raw: object


def _missing(entry: _Entry) -> Message:
    if entry.steps and isinstance(entry.steps[-1], int):
        given = _at(entry.raw, entry.steps[:-1])
        number = len(given) if isinstance(given, list | tuple) else 0
        return Message("field.too_few_values", count=number, needed=entry.context["needed"])
    described = _description(entry.model, entry.steps)
    return Message("field.missing", described=described, heading=_heading(entry))


def _heading(entry: _Entry) -> Message | None:
    """How a whole group that is missing from the document is headed."""
    name = str(entry.steps[0]) if len(entry.steps) == 1 else ""
    if name not in entry.model.model_fields or not _models_at(entry.model, entry.steps):
        return None
    listed = typing.get_origin(entry.model.model_fields[name].annotation) is tuple
    return Message("field.head_each_with" if listed else "field.head_it_with", name=name)


def _unknown_name(entry: _Entry) -> Message:
    names = sorted({name for m in _models_at(entry.model, entry.steps[:-1]) for name in m.model_fields})
    name = str(entry.steps[-1])
    return Message("field.no_such_name", name=name, hint=nearest(name, names))


def _unknown_word(entry: _Entry) -> Message:
    if entry.kind in ("union_tag_invalid", "union_tag_not_found"):
        word = _child(entry.value, "family")
        hint = nearest(word if isinstance(word, str) else "", sorted(families()))
        return Message("field.family_missing" if word is None else "field.family_unknown", hint=hint)
    expected = str(entry.context.get("expected", "")).replace(" or ", ",").split(",")
    word = entry.value if isinstance(entry.value, str) else ""
    return Message(
        "field.unknown_word", value=_shown(entry.value), hint=nearest(word, [c.strip(" '") for c in expected])
    )


def _no_list(entry: _Entry) -> Message:
    last = str(entry.steps[-1]) if entry.steps else ""
    if isinstance(entry.value, Mapping) and _models_at(entry.model, entry.steps):
        return Message("field.single_group", name=last)
    return Message("field.not_a_list", value=_shown(entry.value))


def _too_many(entry: _Entry) -> Message:
    count = entry.context.get("actual_length")
    number = count if isinstance(count, int) else len(entry.value) if isinstance(entry.value, list) else 0
    hint = Message("field.decimal_point_as_in") if _READING_FIELDS.intersection(entry.steps[-1:]) else None
    return Message("field.too_many_values", count=number, most=entry.context.get("max_length"), hint=hint)


def _exactly(entry: _Entry) -> Message:
    """What is wrong with a number that is kept as it was written: money, hours, a percentage, a share."""
    result = re.search(r"\[([^]]+)\]$", _described(entry.model, entry.steps).rstrip("."))
    unit = result[1] if result else ""
    what, example = next(
        (code, example)
        for known, code, example in _EXACT
        if known == unit or not known or (known == "currency" and known in unit)
    )
    typed = isinstance(entry.value, str) and not in_figures(
        entry.value
    )  # in a form it may be a book with a decimal comma
    how = Message("field.write_in_figures") if typed else Message("field.write_as", example=example)
    short = entry.kind in ("decimal_parsing", "decimal_type")
    code = "field.not_exact" if short else "field.too_many_digits"
    return Message(code, value=_shown(entry.value), what=Message(what), how=how)


def _beyond(entry: _Entry) -> Message:
    key, code = _LIMITS[entry.kind]
    limit = entry.context.get(key)
    if isinstance(limit, float) and limit.is_integer():
        limit = int(limit)
    return Message(code, value=_shown(entry.value), limit=limit)


def _plainly(entry: _Entry) -> Message:
    comma = isinstance(entry.value, str) and "," in entry.value
    code = _PLAIN[entry.kind]
    if code == "field.not_a_number":
        return Message(code, value=_shown(entry.value), hint=Message("field.decimal_point") if comma else None)
    return Message(code, value=_shown(entry.value))


def _message(entry: _Entry) -> Message:
    if isinstance(answer := entry.context.get("said"), Message):
        return answer
    if entry.kind in _LIMITS:
        return _beyond(entry)
    if entry.kind in _PLAIN:
        return _plainly(entry)
    result = _BY_KIND.get(entry.kind)
    return result(entry) if result else Message("field.wont_do", value=_shown(entry.value))


_BY_KIND: dict[str, typing.Callable[[_Entry], Message]] = {
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
    "too_short": lambda entry: Message("field.too_few", least=entry.context.get("min_length")),
    "string_too_short": lambda _: Message("field.empty"),
    "string_too_long": lambda entry: Message("field.text_too_long", most=entry.context.get("max_length")),
}


def complaints_of(error: ValidationError, model: type[BaseModel], raw: object) -> list[tuple[Location, Message]]:
    """Every complaint in a model library's error: where it stands, in steps, and what is wrong.

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
    results: list[tuple[Location, Message]] = []
    for complaint in complaints:
        context = typing.cast("Mapping[str, typing.Any]", complaint.get("ctx") or {})
        context = {**context, "needed": needed.get(complaint["loc"][:-1])}
        steps = _steps(complaint["loc"])
        entry = _Entry(complaint["type"], context, complaint.get("input"), steps, model, raw)
        results.append((complaint["loc"], _message(entry)))
    return results


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
    results = [Fault(place(loc, raw), answer) for loc, answer in complaints_of(error, model, raw)]
    return list(dict.fromkeys(results))


def loose_faults(model: type[BaseModel], raw: object) -> list[Fault]:
    """What the model library would quietly turn into something else: true into 1, or 20261125 into a day in 1970.

    Parameters
    ----------
    model : type[BaseModel]
        The document that is being read.
    raw : object
        What was read.
    """
    return [Fault(place(steps, raw), answer) for steps, answer in _loose(model, raw, ())]


def _loose(model: type[BaseModel], raw: object, at: tuple[str | int, ...]) -> Iterable[tuple[Location, Message]]:
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
            elif answer := _quiet_change(single, {leaf for leaf in leaves if not issubclass(leaf, Enum)}):
                yield steps, answer


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


def _quiet_change(value: object, leaves: set[type]) -> Message | None:
    if isinstance(value, bool) and bool not in leaves and leaves & {int, float, Decimal}:
        return Message("field.not_a_number", value=value, hint=None)
    if Date in leaves:
        number = isinstance(value, int | float) or (isinstance(value, str) and value.strip().count("-") != 2)
        return Message("field.not_a_date", value=_shown(value)) if number else None
    return None
