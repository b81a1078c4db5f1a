"""Who may see what: one table of roles by the path of a field. Pages, papers, files, history and copies on phones all ask it.

A path is the kind of document and the names of the fields on the way, without the entries of lists, such as
``book.boards.sheets.prices``. What a plan works out has paths too. The longest path in the table that leads to a field
decides; nothing else does, and no text is ever looked into.
"""

from __future__ import annotations

import copy
from collections.abc import Iterable, Mapping, Sequence

from rodbook.desk.models import Role
from rodbook.desk.platform.changes import Change, Path, Value

__all__ = [
    "TABLE",
    "hidden_fields",
    "least_role",
    "may_see",
    "may_see_at",
    "seen_by",
    "seen_part",
    "with_hidden_of",
]

TABLE: Mapping[str, Role] = {
    "job": Role.READER,
    "job.price": Role.OWNER,
    "job.price.extras.name": Role.READER,  # what has hours is a task, and makers put hours down for it
    "actuals": Role.READER,
    "actuals.invoices": Role.OWNER,
    "quotes": Role.OWNER,
    "weeks": Role.OWNER,
    "people": Role.OWNER,
    "book": Role.OWNER,  # what the book has beside what is named here
    "book.firm": Role.READER,
    "book.locale": Role.READER,
    "book.currency": Role.READER,
    "book.build_ups": Role.READER,
    "book.hinges": Role.READER,
    "book.hinge_counts": Role.READER,
    "book.fittings": Role.READER,
    "book.instruments": Role.READER,
    "book.saw": Role.READER,
    "book.dates": Role.READER,
    "book.boards": Role.READER,
    "book.boards.sheets.prices": Role.OWNER,
    "book.boards.wanted.worth": Role.OWNER,
    "book.sections": Role.READER,
    "book.sections.lengths.prices": Role.OWNER,
    "book.workshops.name": Role.READER,
    "book.workshops.contact": Role.READER,
    "plan": Role.READER,
    "plan.money": Role.OWNER,
    "plan.turnings": Role.OWNER,
    "plan.outlook": Role.OWNER,
    "plan.materials.cost": Role.OWNER,
}
"""The least role that may see a field, and whatever lies under it."""

_RANK = {Role.READER: 0, Role.MAKER: 1, Role.OWNER: 2}


def least_role(path: str) -> Role:
    """The least role that may see a field.

    Parameters
    ----------
    path : str
        Such as ``job.price.margin``.

    Examples
    --------
    >>> str(least_role("job.price.given.net")), str(least_role("job.openings.widths"))
    ('owner', 'reader')
    """
    names = path.split(".")
    for length in range(len(names), 0, -1):
        if (result := TABLE.get(".".join(names[:length]))) is not None:
            return result
    return Role.OWNER


def may_see(role: str, *paths: str) -> bool:
    """Whether somebody of this role may see all of these fields."""
    return all(_RANK[Role(role)] >= _RANK[least_role(path)] for path in paths)


def _path(kind: str, path: Path) -> str:
    """The path of a field in a document as the table has it: without entries and places in lists."""
    return ".".join((kind, *(step for step in path if not step.startswith(("=", "#")))))


def may_see_at(role: str, kind: str, path: Path) -> bool:
    """Whether somebody of this role may see a place in a document."""
    return may_see(role, _path(kind, path))


def seen_by(role: str, kind: str, changes: Iterable[Change]) -> tuple[tuple[Change, ...], bool]:
    """The changes of a document that somebody may see, and whether there are others."""
    every = tuple(changes)
    seen = tuple(change for change in every if may_see_at(role, kind, change.path))
    return seen, len(seen) < len(every)


def hidden_fields(role: str, kind: str) -> tuple[tuple[str, ...], ...]:
    """The paths in a document of this kind that somebody may not see, each as the names on the way."""
    return tuple(
        tuple(path.split(".")[1:]) for path in TABLE if path.startswith(f"{kind}.") and not may_see(role, path)
    )


def seen_part(role: str, kind: str, document: Mapping[str, Value]) -> dict[str, Value]:
    """A document without what somebody may not see."""
    left = copy.deepcopy(dict(document))
    for path in hidden_fields(role, kind):
        for group in _groups(left, path[:-1]):
            group.pop(path[-1], None)
    return left


def with_hidden_of(role: str, kind: str, sent: Mapping[str, Value], now: Mapping[str, Value]) -> dict[str, Value]:
    """A document that somebody sends, with what they may not see as it stands now.

    Only groups have such fields, no entries of lists: then there is one place for each.
    """
    result = seen_part(role, kind, sent)
    for path in hidden_fields(role, kind):
        for theirs, mine in zip(_groups(now, path[:-1]), _groups(result, path[:-1]), strict=True):
            if path[-1] in theirs:
                mine[path[-1]] = theirs[path[-1]]
    return result


def _groups(value: object, steps: Sequence[str]) -> list[dict[str, Value]]:
    """Every group that a path leads to, through all entries of lists on its way."""
    if isinstance(value, list):
        return [result for entry in value for result in _groups(entry, steps)]
    if not isinstance(value, dict):
        return []
    return _groups(value.get(steps[0]), steps[1:]) if steps else [value]
