"""Jobs rewritten without losing what a person wrote around them."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from typing import Any

import tomlkit
from pydantic import BaseModel, ValidationError
from tomlkit.items import AoT, Array, Comment, InlineTable, Item, Table, Whitespace

from rodbook.job.faults import loose_faults
from rodbook.job.files.syntax import read_values
from rodbook.job.files.versions import CURRENT
from rodbook.job.files.writing import said_fields, toml_item, write_job
from rodbook.job.models import Job, JobHeader, JobOffcut, Opening, Panel, Run, TakenPiece
from rodbook.job.units import parse_length

__all__ = ["update_job"]


def update_job(text: str, job: Job) -> str:
    """Rewrite a job's document so that it reads as `job`, leaving everything else in it as it was written.

    Comments, order, blank lines and ways of writing stay, also ``"84.2 cm"`` where the length is the same. Openings
    and panels are known by their marks. Where a document is laid out so oddly that this can't be done, it is
    written anew.

    Parameters
    ----------
    text : str
        The document as it is.
    job : Job
        What it has to say.

    Raises
    ------
    InputError
        If `text` is not TOML.
    """
    if _says_already(read_values(text), job):
        return text
    try:
        document = tomlkit.parse(text)
        _set_fields(document, {"format": CURRENT}, keep=Job.model_fields)
        _set_entry(document, "job", JobHeader, job.job)
        _set_table(document, "making", {name: str(value) for name, value in job.making.items()})
        _set_table(document, "sizes", job.sizes)
        _set_table(document, "gaps", job.gaps)
        _set_table(document, "price", said_fields(job.price))
        _set_table(document, "dates", said_fields(job.dates))
        _set_entries(document, "openings", Opening, job.openings)
        _set_entries(document, "panels", Panel, job.panels)
        _set_entries(document, "runs", Run, job.runs)
        _set_entries(document, "taken", TakenPiece, job.taken)
        _set_entries(document, "offcuts", JobOffcut, job.offcuts)
        written = tomlkit.dumps(document)
        sound = _says_already(read_values(written), job)
    except Exception:  # the library lets out whatever goes wrong deep inside it; the check below is what counts
        sound, written = False, ""
    return written if sound else write_job(job)


def _says_already(raw: dict[str, Any], job: Job) -> bool:
    """Whether a document reads as a job, without anything being turned into something else on the quiet."""
    try:
        return Job.model_validate(raw) == job and not loose_faults(Job, raw)
    except ValidationError:
        return False


def _set_fields(table: Any, fields: Mapping[str, object], *, keep: Iterable[str] = ()) -> None:
    """Write fields into a table: those that are there in their places, others after the last; take out all the rest."""
    for name in [name for name in table if name not in fields and name not in keep]:
        del table[name]
    for name, value in fields.items():
        if name in table:
            _replace(table, name, value)
        else:
            tail = _cut_tail(table)
            table.append(name, toml_item(value))
            _put_tail(table, tail)


def _replace(table: Any, name: str, value: object) -> None:
    there = table[name]
    if isinstance(there, Array) and isinstance(value, tuple) and len(there) == len(value):
        for index, single in enumerate(value):
            if not _says(there[index], single):
                there[index] = toml_item(single)
    elif not _says(there, value):
        table[name] = toml_item(value)


def _says(there: Any, value: object) -> bool:
    """Whether what is written says a value already, numbers in whichever way they are written."""
    written = there.unwrap() if hasattr(there, "unwrap") else there
    if isinstance(value, int | float) and not isinstance(value, bool):
        try:
            return parse_length(written) == value
        except ValueError:
            return False
    answer = toml_item(value).unwrap()
    return type(written) is type(answer) and bool(written == answer)


def _set_entry(parent: Any, name: str | int, model: type[BaseModel], entry: BaseModel) -> None:
    """Bring one table up to what an entry says; lengths that are the same stay written as they are."""
    if isinstance(name, str) and name not in parent:
        parent.append(name, tomlkit.table())
    table = parent[name]
    raw = table.unwrap()
    try:
        old = None if loose_faults(model, raw) else model.model_validate(raw)
    except ValidationError:
        old = None
    same = {field for field in table if old is not None and getattr(old, field, None) == getattr(entry, field, None)}
    values = {
        field: value
        for field, value in entry
        if field not in same and value is not None and (field in table or field in said_fields(entry))
    }
    _set_fields(table, values, keep=same)


def _set_table(document: Any, name: str, fields: Mapping[str, object]) -> None:
    """Bring a table of plain values up to what it has to say, and add it where there is none."""
    if name in document:
        _set_fields(document[name], fields)
    elif fields:
        table = tomlkit.table()
        for key, value in fields.items():
            table.append(key, toml_item(value))
        _end_with_blank(document)
        document.append(name, table)


def _set_entries(document: Any, name: str, model: type[BaseModel], entries: Sequence[Any]) -> None:
    """Bring a list of tables up to what the entries say: changed, put in, taken out and in their order."""
    there = document.get(name)
    if there is not None and not isinstance(there, AoT):
        if len(there) == len(entries) and all(isinstance(entry, InlineTable) for entry in there):
            for index, entry in enumerate(entries):
                _set_entry(there, index, model, entry)
            return
        del document[name]
        there = None
    if not entries:
        if there is not None:
            del document[name]
        return
    if there is None:
        _end_with_blank(document)
        there = tomlkit.aot()
        document.append(name, there)
        there = document[name]
    above = _rearrange(there, [_called(entry) for entry in entries], _said_by_mark(entries))
    for index, entry in enumerate(entries):
        _set_entry(there, index, model, entry)
    there[0].trivia.indent = above + there[0].trivia.indent


def _said_by_mark(entries: Sequence[Any]) -> dict[str, dict[str, object]]:
    return {_called(entry): said_fields(entry) for entry in entries}


def _rearrange(tables: AoT, marks: Sequence[str], texts: Mapping[str, Mapping[str, object]]) -> str:
    """Put the tables into the order of the marks, new ones in their places; comments go with what stands below them.

    Comments that now have to stand above the first are handed back: no table of the list is there to hold them.
    """
    old = list(tables.body)
    matched = _matched([_mark(table) for table in old], marks)
    if matched == list(range(len(old))):
        return ""
    leads = _leads(old)
    last = leads.pop(len(old), [])
    while len(tables):
        del tables[0]
    ordered: list[Table] = []
    for index, mark in zip(matched, marks, strict=True):
        if ordered:
            _end_with_blank(ordered[-1])
            _put_tail(ordered[-1], leads.get(index, []))
        if index is None:
            table = tomlkit.table()
            for field, value in texts[mark].items():
                table.append(field, toml_item(value))
        else:
            table = old[index]
        ordered.append(table)
    for table in ordered:
        tables.append(table)
    if last:
        _end_with_blank(ordered[-1])
        _put_tail(ordered[-1], last)
    return "".join(item.as_string() for item in leads.get(matched[0], []))


_KEYS = ("mark", "label", "name")
"""What entries of a list are known by; the first of these that they have."""


def _called(entry: BaseModel) -> str:
    return str(getattr(entry, next(key for key in _KEYS if key in type(entry).model_fields)))


def _mark(table: Table) -> str:
    return str(next((table[key] for key in _KEYS if key in table), "")).strip()


def _matched(old: Sequence[str], new: Sequence[str]) -> list[int | None]:
    """For each new mark the table that bears it; failing that, the unclaimed one in its place, for marks change too."""
    claimed: dict[int, int] = {}
    for position, mark in enumerate(new):
        index = next((n for n, name in enumerate(old) if name == mark and n not in claimed.values()), None)
        if index is not None:
            claimed[position] = index
    for position in range(min(len(new), len(old))):
        if len(old) == len(new) and position not in claimed and position not in claimed.values():
            claimed[position] = position
    return [claimed.get(position) for position in range(len(new))]


def _leads(tables: Sequence[Table]) -> dict[int | None, list[Item]]:
    """Cut the comments that stand, after a blank line, below each table: they belong to the next one."""
    leads: dict[int | None, list[Item]] = {}
    for number, table in enumerate(tables, 1):
        tail = _cut_tail(table)
        gap = next((n for n, item in enumerate(tail) if isinstance(item, Whitespace)), len(tail))
        first = next((n for n, item in enumerate(tail) if n > gap and isinstance(item, Comment)), len(tail))
        leads[number] = tail[first:]
        _put_tail(table, tail[:first])
    return {number: lead for number, lead in leads.items() if lead}


def _body(container: Any) -> list[Any]:
    return container.value.body if isinstance(container, Table) else getattr(container, "body", [])


def _cut_tail(container: Any) -> list[Item]:
    """Take off the blank lines and comments below the last field; none where there is no field at all."""
    body = _body(container)
    keep = len(body)
    while keep and isinstance(body[keep - 1][1], Whitespace | Comment):
        keep -= 1
    keep = keep or len(body)
    tail = [item for _, item in body[keep:]]
    del body[keep:]
    return tail


def _put_tail(container: Any, tail: Iterable[Item]) -> None:
    _body(container).extend((None, item) for item in tail)


def _end_with_blank(container: Any) -> None:
    text = container.as_string()
    if text and not text.endswith("\n"):
        _put_tail(container, [tomlkit.nl()])
    if text and not text.endswith("\n\n"):
        _put_tail(container, [tomlkit.nl()])
