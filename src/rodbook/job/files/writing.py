"""Jobs written as TOML that a person reads and goes on writing."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from datetime import date as Date  # noqa: N812
from decimal import Decimal
from enum import Enum
from typing import TYPE_CHECKING

from pydantic import BaseModel, ValidationError

from rodbook.errors import InputError
from rodbook.job.faults import faults_of
from rodbook.job.files.versions import CURRENT
from rodbook.job.models import Job, JobHeader, Opening
from rodbook.late import late_library

if TYPE_CHECKING:
    import tomlkit
    from tomlkit.items import Item
else:
    tomlkit = late_library("tomlkit")

__all__ = ["new_job", "said_fields", "toml_item", "write_job"]

_HEAD = ('A job for Rodbook. Lengths are millimetres, as in 842 or 842.5; text such as "84.2 cm" is read as well.',)
_MAKING = (
    "Who makes each kind of part: site-made, bought-in or cheaper; what is not listed goes where it is cheaper.",
)
_SIZES = (
    "How many standard sizes for the openings of each build-up: more of them pack thinner; the fewest where none is said.",
)
_GAPS = ("Margins and gaps that this job has of its own, by build-up, in place of the book's.",)
_PRICE = ("How the price is made and shown; what is not said here is as the book has it. Shares are as in 0.2.",)
_OPENINGS = (
    "widths are read level at foot, middle and head; heights plumb at left, middle and right;",
    "diagonals from foot left to head right, then from foot right to head left.",
    'An opening still to be framed is state = "planned", with leaf or clear = [width, height] as wanted.',
)
_PANELS = ("length runs along the board's grain, width across it.",)

_RUNS = (
    "Openings beside each other whose trim runs on, from the left; piers is the wall between each two, at the heads.",
)

_TAKEN = ("Wanted pieces that were cut from this job's waste; with any of them here no more are taken.",)
_OFFCUTS = ("Offcuts that went into the shop, left by this job, or out of it, used up by it, once boards were cut.",)
_DATES = ("When the job is begun and wanted; what is not said here is worked out.",)

_EXAMPLE = (
    {
        "mark": "C1",
        "room": "hall",
        "leaves": 2,
        "widths": (842, 843, 843),
        "heights": (2030, 2030.5, 2031),
        "depth": 455,
    },
    {"mark": "W1", "room": "bedroom", "state": "planned", "leaves": 2, "leaf": (447, 2100)},
)
"""Openings for a new job to imitate, one that stands and one that is planned."""


def write_job(job: Job) -> str:
    """Write a job as a document that reads back equal: what differs from the defaults, with a few words on units.

    Parameters
    ----------
    job : Job
        Any job.
    """
    blocks = [_comments(_HEAD) + f"format = {CURRENT}\n", _block("[job]", _header_fields(job.job))]
    if job.making:
        blocks.append(_comments(_MAKING) + _block("[making]", {k: str(v) for k, v in job.making.items()}))
    if job.sizes:
        blocks.append(_comments(_SIZES) + _block("[sizes]", job.sizes))
    if job.gaps:
        blocks.append(_comments(_GAPS) + _block("[gaps]", job.gaps))
    if price := said_fields(job.price):
        blocks.append(_comments(_PRICE) + _block("[price]", price))
    if dates := said_fields(job.dates):
        blocks.append(_comments(_DATES) + _block("[dates]", dates))
    blocks += _entry_blocks("openings", job.openings, _OPENINGS) + _entry_blocks("panels", job.panels, _PANELS)
    blocks += _entry_blocks("runs", job.runs, _RUNS) + _entry_blocks("taken", job.taken, _TAKEN)
    blocks += _entry_blocks("offcuts", job.offcuts, _OFFCUTS)
    return "\n".join(blocks)


def new_job(
    name: str,
    *,
    date: Date,
    build_up: str,
    number: str = "",
    client: str = "",
    site: str = "",
    openings: Sequence[Opening] = (),
) -> str:
    """Write the document of a new job, with examples to imitate where no openings are given.

    Parameters
    ----------
    name : str
        What the job is called on papers.
    date : date
        Date of its first revision.
    build_up : str
        Build-up from the book for openings that name none.
    number, client, site : str
        What else is known of it.
    openings : sequence of Opening
        Openings that are known already, out of a table for instance.

    Raises
    ------
    InputError
        If one of these can't stand in a job.
    """
    header = {"name": name, "number": number, "client": client, "site": site, "date": date, "build_up": build_up}
    raw = {"format": CURRENT, "job": header, "openings": tuple(openings)}
    try:
        text = write_job(Job.model_validate(raw))
    except ValidationError as error:
        raise InputError(faults_of(error, Job, raw)) from None
    if openings:
        return text
    example = "\n".join(_entry_blocks("openings", [Opening.model_validate(raw) for raw in _EXAMPLE], _OPENINGS))
    return (
        f"{text}\n# Openings are written as below, without the # in front; or import them from a table.\n\n"
        + "".join(line if line.startswith(("#", "\n")) else f"# {line}" for line in example.splitlines(keepends=True))
    )


def _comments(lines: Iterable[str]) -> str:
    return "".join(f"# {line}\n" for line in lines)


def _block(heading: str, fields: Mapping[str, object]) -> str:
    container = tomlkit.table()
    for name, value in fields.items():
        container.append(name, toml_item(value))
    return f"{heading}\n{container.as_string()}"


def _entry_blocks(name: str, entries: Sequence[BaseModel], comments: Iterable[str]) -> list[str]:
    blocks = [_block(f"[[{name}]]", said_fields(entry)) for entry in entries]
    return [_comments(comments) + blocks[0], *blocks[1:]] if blocks else []


def said_fields(entry: BaseModel) -> dict[str, object]:
    """The fields of an entry that differ from their defaults."""
    fields = type(entry).model_fields
    return {
        name: value
        for name, value in entry
        if fields[name].is_required() or value != fields[name].get_default(call_default_factory=True)
    }


def _header_fields(header: JobHeader) -> dict[str, object]:
    """The revision goes on every paper, so that it is written even where it is the first."""
    fields = said_fields(header) | {"revision": header.revision}
    return {name: fields[name] for name in JobHeader.model_fields if name in fields}


def toml_item(value: object) -> Item:
    """A value as it is written: whole lengths without decimals, lists and groups on one line."""
    if isinstance(value, Enum):
        return tomlkit.item(str(value.value))
    if isinstance(value, Decimal):
        return tomlkit.item(str(value))
    if isinstance(value, float):
        return tomlkit.item(int(value) if value.is_integer() else value)
    if isinstance(value, BaseModel):
        table = tomlkit.inline_table()
        for name, single in said_fields(value).items():
            table.append(name, toml_item(single))
        return table
    if isinstance(value, Mapping):
        table = tomlkit.inline_table()
        for name, single in value.items():
            table.append(name, toml_item(single))
        return table
    if isinstance(value, tuple | list):
        array = tomlkit.array()
        array.extend(toml_item(single) for single in value)
        return array
    return tomlkit.item(value)
