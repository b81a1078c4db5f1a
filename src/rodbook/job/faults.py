"""A model library's complaints, translated into the sentences that a joiner reads."""

from __future__ import annotations

import difflib
import types
import typing
from collections.abc import Iterable, Mapping, Sequence

from pydantic import BaseModel, ValidationError

from rodbook.errors import Fault

__all__ = ["faults_of", "nearest", "place"]

_READING_FIELDS = frozenset({"widths", "heights", "diagonals", "leaf", "clear"})
"""Fields whose single values are named by the field alone: the sentence quotes the value."""

_TAGS = frozenset({"inset", "lay-on within trim"})
"""Marks that the model library puts into a place for its own use."""


def nearest(word: str, choices: Iterable[str]) -> str:
    """``; did you mean …?`` for a near miss, else the choices, else nothing.

    >>> nearest("lft", ["left", "right"])
    '; did you mean left?'
    >>> nearest("up", ["left", "right"])
    '; one of left, right would be'
    """
    known = [c for c in choices if c]
    close = difflib.get_close_matches(word.lower(), [c.lower() for c in known], n=1, cutoff=0.6)
    if close:
        return f"; did you mean {next(c for c in known if c.lower() == close[0])}?"
    if not known:
        return ""
    listed = ", ".join(known[:12]) + (" …" if len(known) > 12 else "")
    return f"; one of {listed} would be"


def place(location: Sequence[str | int], raw: object = None) -> str:
    """Write a place the way a reader looks for it, counting from 1, with the mark where there is one.

    >>> place(("openings", 2, "widths", 0), {"openings": [{}, {}, {"mark": "C3"}]})
    'openings[3].widths (C3)'
    """
    kept = [step for step in location if not (isinstance(step, str) and step in _TAGS)]
    if len(kept) >= 2 and isinstance(kept[-1], int) and kept[-2] in _READING_FIELDS:
        kept.pop()
    text, mark, at = "", "", raw
    for step in kept:
        text += f"[{step + 1}]" if isinstance(step, int) else f".{step}" if text else step
        at = _child(at, step)
        if isinstance(at, Mapping) and isinstance(name := at.get("mark", at.get("name")), str) and name.strip():
            mark = name.strip()[:40] if isinstance(step, int) else mark
    return f"{text} ({mark})" if mark else text


def _child(at: object, step: str | int) -> object:
    if isinstance(at, Mapping):
        return at.get(step)
    if isinstance(at, list | tuple) and isinstance(step, int) and step < len(at):
        return at[step]
    return None


def _models_in(annotation: object) -> list[type[BaseModel]]:
    """The document models inside an annotation, whatever it is wrapped in."""
    if isinstance(annotation, type) and issubclass(annotation, BaseModel):
        return [annotation]
    if isinstance(annotation, types.UnionType) or typing.get_origin(annotation) is not None:
        return [model for arg in typing.get_args(annotation) for model in _models_in(arg)]
    return []


def _fields_at(model: type[BaseModel], location: Sequence[str | int]) -> list[str]:
    """Names that are allowed where an unknown one stood."""
    models = [model]
    for step in location[:-1]:
        if isinstance(step, str) and step not in _TAGS:
            fields = [m.model_fields[step].annotation for m in models if step in m.model_fields]
            models = [found for annotation in fields for found in _models_in(annotation)]
    return sorted({name for m in models for name in m.model_fields})


def _description(model: type[BaseModel], location: Sequence[str | int]) -> str:
    models = [model]
    text = ""
    for step in location:
        if not isinstance(step, str) or step in _TAGS:
            continue
        found = [m.model_fields[step] for m in models if step in m.model_fields]
        text = next((f.description for f in found if f.description), "")
        models = [inner for f in found for inner in _models_in(f.annotation)]
    return text


def _shown(value: object) -> str:
    text = repr(value)
    return text if len(text) <= 60 else text[:57] + "…"


_PLAIN = {
    "int_parsing": "is not a whole number",
    "int_from_float": "is not a whole number",
    "int_type": "is not a whole number",
    "float_parsing": "is not a number",
    "float_type": "is not a number",
    "decimal_parsing": "is not an amount of money",
    "decimal_type": "is not an amount of money",
    "bool_parsing": "is neither true nor false",
    "bool_type": "is neither true nor false",
    "string_type": "is not text; put it in quotation marks",
    "date_from_datetime_parsing": "is not a date; write it as 2026-11-25",
    "date_parsing": "is not a date; write it as 2026-11-25",
    "date_type": "is not a date; write it as 2026-11-25",
    "finite_number": "is not a number",
    "tuple_type": "is not a list; write it in square brackets",
    "list_type": "is not a list; write it in square brackets",
    "dict_type": "is not a group of names and values",
    "model_type": "is not a group of names and values",
    "model_attributes_type": "is not a group of names and values",
}

_LIMITS = {
    "greater_than": ("gt", "has to be more than"),
    "greater_than_equal": ("ge", "has to be at least"),
    "less_than": ("lt", "has to be less than"),
    "less_than_equal": ("le", "has to be at most"),
}


def _sentence(error: Mapping[str, typing.Any], model: type[BaseModel]) -> str:  # noqa: C901, PLR0911
    kind, context, value = error["type"], error.get("ctx") or {}, error.get("input")
    location = error["loc"]
    if kind in ("length", "implausible"):
        return str(error["msg"])
    if kind == "missing":
        what = _description(model, location)
        if location and isinstance(location[-1], int):
            return f"value {location[-1] + 1} is missing here"
        return f"this is missing{': ' + what[0].lower() + what[1:].rstrip('.') if what else ''}"
    if kind == "extra_forbidden":
        name = str(location[-1])
        return f"there is no {name!r} here{nearest(name, _fields_at(model, location))}"
    if kind in ("literal_error", "enum"):
        choices = [c.strip(" '") for c in str(context.get("expected", "")).replace(" or ", ",").split(",")]
        return f"{_shown(value)} is not known here{nearest(str(value), choices)}"
    if kind in ("union_tag_invalid", "union_tag_not_found"):
        return f"the family of a build-up is missing or unknown{nearest(str(_child(value, 'family')), sorted(_TAGS))}"
    if kind in _LIMITS:
        key, words = _LIMITS[kind]
        return f"{_shown(value)} won't do; it {words} {context.get(key)}"
    if kind == "too_long" and context.get("field_type") == "Tuple":
        return f"{context.get('actual_length')} values stand here; at most {context.get('max_length')} fit"
    if kind == "too_short":
        return f"at least {context.get('min_length')} must be given here"
    if kind == "string_too_short":
        return "this is empty; write a name"
    if kind == "string_too_long":
        return f"this text is longer than {context.get('max_length')} characters"
    if kind in _PLAIN:
        return f"{_shown(value)} {_PLAIN[kind]}"
    return f"{_shown(value)} can't be used here: {error['msg'][0].lower()}{error['msg'][1:]}"


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
        Fault(place(_without_key(entry["loc"]), raw), _sentence(typing.cast("Mapping[str, typing.Any]", entry), model))
        for entry in error.errors(include_url=False)
    ]
    return list(dict.fromkeys(found))


def _without_key(location: tuple[int | str, ...]) -> tuple[int | str, ...]:
    return tuple(step for step in location if step != "[key]")
