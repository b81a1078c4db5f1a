"""What changed between two documents, in words, and two people's changes put together. Pure: documents in, values out."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from typing import cast

__all__ = ["Change", "Clash", "Merged", "Path", "changed", "in_words", "merged", "names", "sentence"]

type Value = bool | int | float | str | list[Value] | dict[str, Value] | None

type Path = tuple[str, ...]
"""The way to a field: names of fields, ``=`` and its key for an entry of a list, ``#`` and its number for a place in one."""


@dataclass(frozen=True)
class Change:
    """One change of a document, as data.

    Parameters
    ----------
    path : tuple of str
    before, after : Value
        None where there is nothing. Of an entry that came, only by which way it went.
    kind : str
        ``value``, ``added``, ``out`` or ``order``.
    """

    path: Path
    before: Value = None
    after: Value = None
    kind: str = "value"

    def kept(self) -> list[Value]:
        """As plain values."""
        return [list(self.path), self.before, self.after, self.kind]

    @classmethod
    def of(cls, kept: Sequence[object]) -> Change:
        """Out of plain values."""
        path, before, after, kind = kept
        return cls(tuple(map(str, cast("list[str]", path))), cast("Value", before), cast("Value", after), str(kind))


_PLACES = {
    "widths": ("width at foot", "width at middle", "width at head"),
    "heights": ("height at left", "height at middle", "height at right"),
    "diagonals": ("diagonal from foot left", "diagonal from foot right"),
    "leaf": ("leaf width wanted", "leaf height wanted"),
    "clear": ("clear width wanted", "clear height wanted"),
}
_NOUNS = {
    "openings": "opening",
    "panels": "panel",
    "runs": "trim of",
    "boards": "board",
    "sections": "section",
    "build_ups": "build-up",
    "workshops": "workshop",
    "hinges": "hinge",
    "fittings": "fitting",
    "rates": "rate",
    "sheets": "sheet",
    "offcuts": "offcut",
    "wanted": "wanted piece",
    "taken": "piece from waste",
    "lengths": "length",
    "prices": "price",
    "obstacles": "obstacle",
    "hinge_counts": "row of",
    "extras": "extra",
    "invoices": "invoice",
    "crew": "person",
    "tasks": "task",
    "orders": "order from",
}
_HEADS = {
    "job": "",
    "firm": "",
    "saw": "",
    "making": "",
    "sizes": "number of sizes",
    "gaps": "",
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
        if isinstance(result := entry.get(name), str):
            since = entry.get("since")
            return f"{result} from {since}" if isinstance(since, str) and name != "label" else result
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
    text = " ".join(str(value).split())
    return text if len(text) <= 60 else text[:59] + "…"


def _label(name: str) -> str:
    return _LABELS.get(name, name.replace("_", " "))


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
    return tuple(sentence(change) for change in changed(old, new))


def changed(old: Mapping[str, Value], new: Mapping[str, Value]) -> tuple[Change, ...]:
    """What changed from one document to another.

    Parameters
    ----------
    old, new : mapping
        Documents as JSON values.

    Examples
    --------
    >>> changed({"openings": [{"mark": "C1", "depth": 300}]}, {"openings": [{"mark": "C1", "depth": 310}]})
    (Change(path=('openings', '=C1', 'depth'), before=300, after=310, kind='value'),)
    """
    return tuple(_walk(old, new, ()))


def _walk(old: Mapping[str, Value], new: Mapping[str, Value], way: Path) -> Iterator[Change]:
    for name in dict.fromkeys((*old, *new)):
        before, after, path = old.get(name), new.get(name), (*way, name)
        if before == after:
            continue
        if name in _HEADS or name in _GROUPS or way == ("gaps",):  # a table that is not there is one with nothing in it
            before, after = before or {}, after or {}
        mine, yours = _keyed(before), _keyed(after)
        if (
            (mine is not None or yours is not None)
            and (mine is not None or not before)
            and (yours is not None or not after)
        ):
            yield from _entries(mine or {}, yours or {}, path)
        elif isinstance(before, dict) and isinstance(after, dict):
            yield from _walk(before, after, path)
        elif (
            name in _PLACES
            and isinstance(before, list)
            and isinstance(after, list)
            and len(before) == len(after) == len(_PLACES[name])
        ):
            for n, (a, b) in enumerate(zip(before, after, strict=True)):
                if a != b:
                    yield Change((*path, f"#{n}"), a, b)
        else:
            yield Change(path, before, after)


def _entries(old: Mapping[str, Value], new: Mapping[str, Value], path: Path) -> Iterator[Change]:
    for key, entry in new.items():
        if key not in old:
            went = entry.get("went") if isinstance(entry, dict) else None
            yield Change((*path, f"={key}"), None, went, "added")
    for key in old:
        if key not in new:
            yield Change((*path, f"={key}"), kind="out")
    for key, after in new.items():
        before = old.get(key)
        if isinstance(before, dict) and isinstance(after, dict):
            yield from _walk(before, after, (*path, f"={key}"))
    kept = [key for key in old if key in new]
    if kept != [key for key in new if key in old]:
        yield Change(path, kind="order")


def _where(path: Path) -> str:
    """What is said before a change: the entries on the way to it, or the head of the table that it is in."""
    where = ""
    for n, step in enumerate(path):
        if step.startswith("="):
            where = f"{where}: {step[1:]}" if where else step[1:]
        elif n + 1 < len(path) and path[n + 1].startswith("="):
            continue  # a list: its entry is named
        elif step in _OWN_HEADS:
            where = _HEADS[step]
        else:
            where = where or _HEADS.get(step, _label(step))
    return f"{where}: " if where else ""


def sentence(change: Change, *, new: bool = False) -> str:
    """A change as a person reads it, on one line; of what is new, without the nothing that was there before.

    Examples
    --------
    >>> sentence(Change(("price", "given", "net"), None, 1200))
    'price given: net nothing → 1200'
    """
    *way, last = change.path
    if change.kind in ("added", "out"):
        key, name = last.removeprefix("="), way[-1]
        came = _CAME.get(str(change.after), "added") if change.kind == "added" else "taken out"
        text = f"{_where(tuple(way[:-1]))}{_NOUNS.get(name, _label(name))} {key} {came}"
    elif change.kind == "order":
        text = f"{_where(tuple(way))}{_label(last)} put in another order"
    elif last.startswith("#"):
        text = f"{_where(tuple(way[:-1]))}{_PLACES[way[-1]][int(last[1:])]} {_arrow(change, new)}"
    elif last == "confirmed":  # a figure without the mark is one that holds
        text = f"{_where(tuple(way)) or 'the firm’s name: '}{'not confirmed' if change.after is False else 'confirmed'}"
    else:
        group = _GROUPS.get(way[-1]) if way else None
        label = _label(last) if group is None else group + _label(last).replace("-", " ")
        text = f"{_where(tuple(way))}{label} {_arrow(change, new)}"
    return " ".join(text.split())


def names(changes: Iterable[Change], name: str) -> bool:
    """Whether one of these changes is of an entry of that name, or gave an entry that name."""
    return any(
        any(step == f"={name}" or step.startswith(f"={name} from ") for step in change.path)
        or (change.path[-1] in ("name", "mark", "label") and name in (change.before, change.after))
        for change in changes
    )


def _arrow(change: Change, new: bool) -> str:  # noqa: FBT001
    if new:
        return _plain(change.after)
    return f"{_plain(change.before)} → {_plain(change.after)}"


@dataclass(frozen=True)
class Clash:
    """A value that both changed, each to something else."""

    where: str
    theirs: str
    mine: str
    path: Path = ()


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
    document = _merge_maps(dict(base), dict(theirs), dict(mine), ("", ()), clashes)
    return Merged(document, tuple(clashes))


def _merge_maps(
    base: Mapping[str, object],
    theirs: Mapping[str, object],
    mine: Mapping[str, object],
    at: tuple[str, Path],
    clashes: list[Clash],
    *,
    keyed: bool = False,
) -> dict[str, Value]:
    result: dict[str, Value] = {}
    where, way = at
    for name in dict.fromkeys((*theirs, *mine)):
        text = f"{where}: {_label(name)}" if where else _label(name)
        spot = text, (*way, f"={name}" if keyed else name)
        value = _merge(base.get(name, _ABSENT), theirs.get(name, _ABSENT), mine.get(name, _ABSENT), spot, clashes)
        if value is not _ABSENT:
            result[name] = value  # type: ignore[assignment]
    return result


def _merge(base: object, theirs: object, mine: object, at: tuple[str, Path], clashes: list[Clash]) -> object:
    if mine == base or theirs == mine:
        return theirs
    if theirs == base:
        return mine
    if isinstance(theirs, dict) and isinstance(mine, dict):
        return _merge_maps(base if isinstance(base, dict) else {}, theirs, mine, at, clashes)
    yours, own = _keyed(theirs), _keyed(mine)
    if yours is not None and own is not None:
        was = _keyed(base) or {}
        both = _merge_maps(was, yours, own, at, clashes, keyed=True)
        order = [key for key in own if key in both] + [key for key in both if key not in own]
        return [both[key] for key in order]
    if (
        isinstance(theirs, list)
        and isinstance(mine, list)
        and isinstance(base, list)
        and len(theirs) == len(mine) == len(base)
    ):
        return [_merge(b, t, m, at, clashes) for b, t, m in zip(base, theirs, mine, strict=True)]
    clashes.append(
        Clash(
            at[0],
            "taken out" if theirs is _ABSENT else _plain(theirs),
            "taken out" if mine is _ABSENT else _plain(mine),
            at[1],
        )
    )
    return mine
