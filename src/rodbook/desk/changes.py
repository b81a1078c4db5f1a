"""What changed between two documents, in words, and two people's changes put together. Pure: documents in, values out."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

__all__ = ["Clash", "Merged", "in_words", "merged"]

type Value = bool | int | float | str | list[Value] | dict[str, Value] | None

_PLACES = {
    "widths": ("width at foot", "width at middle", "width at head"),
    "heights": ("height at left", "height at middle", "height at right"),
    "diagonals": ("diagonal from foot left", "diagonal from foot right"),
    "leaf": ("leaf width wanted", "leaf height wanted"),
    "clear": ("clear width wanted", "clear height wanted"),
}
_NOUNS = {
    "openings": "opening", "panels": "panel", "runs": "trim of", "boards": "board", "sections": "section",
    "build_ups": "build-up", "workshops": "workshop", "hinges": "hinge", "fittings": "fitting",
    "rates": "rate", "sheets": "sheet", "offcuts": "offcut", "wanted": "wanted piece", "taken": "piece from waste",
    "lengths": "length", "prices": "price", "obstacles": "obstacle", "hinge_counts": "row of",
    "extras": "extra", "invoices": "invoice", "crew": "person", "tasks": "task",
    "orders": "order from",
}  # fmt: skip
_HEADS = {
    "job": "",
    "firm": "",
    "saw": "",
    "making": "",
    "sizes": "number of sizes",
    "price": "price",
    "dates": "dates",
    "given": "price given",
}
"""What is said before the fields of a table that stands by itself."""

_LABELS = {"take_wanted": "wanted pieces cut from waste"}
"""Fields that are called otherwise than by their names."""

_CAME = {"in": "put into the shop", "out": "used up"}
"""What became of an offcut that a job put down, by which way it went."""

_OWN_HEADS = frozenset({"given"})
"""Tables inside another that are said under their own head."""

_GROUPS = {"readings": "", "read_by": "read with, "}
"""Groups of names and values inside an entry, and what is said before each name."""

_ABSENT = object()


def _key(entry: Mapping[str, Value]) -> str | None:
    """What tells an entry of a list from the others: its mark, its label, its name, the day from which it holds."""
    for name in ("mark", "label", "name", "supplier"):
        if isinstance(found := entry.get(name), str):
            since = entry.get("since")
            return f"{found} from {since}" if isinstance(since, str) and name != "label" else found
    if isinstance(hinges := entry.get("hinges"), int):
        return f"{hinges} hinges"
    return f"from {since}" if isinstance(since := entry.get("since"), str) else None


def _keyed(value: object) -> dict[str, Value] | None:
    """A list of entries that can be told apart, by their keys; None for any other value."""
    if not isinstance(value, list) or not value or not all(isinstance(entry, dict) for entry in value):
        return None
    keys = [_key(entry) for entry in value]
    if None in keys or len(set(keys)) != len(keys):
        return None
    return dict(zip([k for k in keys if k is not None], value, strict=True))


def _plain(value: object) -> str:
    if value is None or value in ("", []):
        return "nothing"
    if isinstance(value, bool):
        return "yes" if value else "no"
    if isinstance(value, float):
        return f"{value:g}"
    if isinstance(value, list):
        return ", ".join(_plain(v) for v in value)
    text = str(value)
    return text if len(text) <= 60 else text[:59] + "…"


def _spoken(name: str, group: object) -> dict[str, Value]:
    """A group with its names in words."""
    found = group if isinstance(group, dict) else {}
    return {_GROUPS[name] + key.replace("-", " "): value for key, value in found.items()}


def _label(name: str) -> str:
    return _LABELS.get(name, name.replace("_", " "))


def _came(entry: object) -> str:
    """How it is said that an entry came."""
    went = entry.get("went") if isinstance(entry, dict) else None
    return _CAME.get(went, "added") if isinstance(went, str) else "added"


def in_words(old: Mapping[str, Value], new: Mapping[str, Value]) -> tuple[str, ...]:
    """Say what changed from one document to another, one sentence a change.

    Parameters
    ----------
    old, new : mapping
        Documents as JSON values.

    Examples
    --------
    >>> in_words({"openings": [{"mark": "C1", "widths": [842, 843, 843]}]},
    ...          {"openings": [{"mark": "C1", "widths": [845, 843, 843]}]})
    ('C1: width at foot 842 → 845',)
    """
    return tuple(_walk(old, new, ""))


def _walk(old: Mapping[str, Value], new: Mapping[str, Value], where: str) -> list[str]:
    said: list[str] = []
    prefix = f"{where}: " if where else ""
    for name in dict.fromkeys((*old, *new)):
        before, after = old.get(name), new.get(name)
        if before == after:
            continue
        if name in _HEADS:  # a table that is not there is one with nothing in it
            before, after = before or {}, after or {}
        if name in _GROUPS:
            before, after = _spoken(name, before), _spoken(name, after)
        mine, yours = _keyed(before), _keyed(after)
        if (
            (mine is not None or yours is not None)
            and (mine is not None or not before)
            and (yours is not None or not after)
        ):
            said += _entries(name, mine or {}, yours or {}, where)
        elif isinstance(before, dict) and isinstance(after, dict):
            said += _walk(
                before, after, _HEADS[name] if name in _OWN_HEADS else where or _HEADS.get(name, _label(name))
            )
        elif (
            name in _PLACES
            and isinstance(before, list)
            and isinstance(after, list)
            and len(before) == len(after) == len(_PLACES[name])
        ):
            said += [
                f"{prefix}{place} {_plain(a)} → {_plain(b)}"
                for place, a, b in zip(_PLACES[name], before, after, strict=True)
                if a != b
            ]
        else:
            said.append(f"{prefix}{_label(name)} {_plain(before)} → {_plain(after)}")
    return said


def _entries(name: str, old: Mapping[str, Value], new: Mapping[str, Value], where: str) -> list[str]:
    noun, prefix = _NOUNS.get(name, _label(name)), f"{where}: " if where else ""
    said = [f"{prefix}{noun} {key} {_came(new[key])}" for key in new if key not in old]
    said += [f"{prefix}{noun} {key} taken out" for key in old if key not in new]
    for key in new:
        before, after = old.get(key), new[key]
        if isinstance(before, dict) and isinstance(after, dict):
            said += _walk(before, after, f"{prefix}{key}")
    kept = [key for key in old if key in new]
    if kept != [key for key in new if key in old]:
        said.append(f"{prefix}{_label(name)} put in another order")
    return said


@dataclass(frozen=True)
class Clash:
    """A value that both changed, each to something else."""

    where: str
    theirs: str
    mine: str


@dataclass(frozen=True)
class Merged:
    """Two people's changes in one document; where they clash, mine stands in it and the clash is listed."""

    document: dict[str, Value]
    clashes: tuple[Clash, ...]


def merged(base: Mapping[str, Value], theirs: Mapping[str, Value], mine: Mapping[str, Value]) -> Merged:
    """Put two changes of one document together.

    Parameters
    ----------
    base : mapping
        What both began with.
    theirs : mapping
        What was saved meanwhile.
    mine : mapping
        What is being saved now.

    Examples
    --------
    >>> merged({"a": 1, "b": 1}, {"a": 2, "b": 1}, {"a": 1, "b": 3}).document
    {'a': 2, 'b': 3}
    """
    clashes: list[Clash] = []
    document = _merge_maps(dict(base), dict(theirs), dict(mine), "", clashes)
    return Merged(document, tuple(clashes))


def _merge_maps(
    base: Mapping[str, object],
    theirs: Mapping[str, object],
    mine: Mapping[str, object],
    where: str,
    clashes: list[Clash],
) -> dict[str, Value]:
    result: dict[str, Value] = {}
    for name in dict.fromkeys((*theirs, *mine)):
        spot = f"{where}: {_label(name)}" if where else _label(name)
        value = _merge(base.get(name, _ABSENT), theirs.get(name, _ABSENT), mine.get(name, _ABSENT), spot, clashes)
        if value is not _ABSENT:
            result[name] = value  # type: ignore[assignment]
    return result


def _merge(base: object, theirs: object, mine: object, where: str, clashes: list[Clash]) -> object:
    if mine == base or theirs == mine:
        return theirs
    if theirs == base:
        return mine
    if isinstance(theirs, dict) and isinstance(mine, dict):
        return _merge_maps(base if isinstance(base, dict) else {}, theirs, mine, where, clashes)
    yours, own = _keyed(theirs), _keyed(mine)
    if yours is not None and own is not None:
        was = _keyed(base) or {}
        both = _merge_maps(was, yours, own, where, clashes)
        order = [key for key in own if key in both] + [key for key in both if key not in own]
        return [both[key] for key in order]
    if (
        isinstance(theirs, list)
        and isinstance(mine, list)
        and isinstance(base, list)
        and len(theirs) == len(mine) == len(base)
    ):
        return [_merge(b, t, m, where, clashes) for b, t, m in zip(base, theirs, mine, strict=True)]
    clashes.append(
        Clash(
            where,
            "taken out" if theirs is _ABSENT else _plain(theirs),
            "taken out" if mine is _ABSENT else _plain(mine),
        )
    )
    return mine
