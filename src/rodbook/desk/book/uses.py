"""What names an entry of the book, so that it can be neither taken out nor, by jobs, called something else. Pure."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from typing import Any

from rodbook.errors import Message

__all__ = ["entry_used", "lost_to_jobs", "used_in_book", "used_in_jobs"]

_BUILD_UP_FIELDS = {
    "boards": {
        "leaf_board": "desk.for_its_leaves",
        "lining_board": "desk.for_its_linings",
        "end_panel_board": "desk.for_its_end_panels",
    },
    "sections": {"trim": "desk.for_its_trim", "cover_strip": "desk.for_its_meeting_edges"},
    "hinges": {"hinge": ""},
    "fittings": {
        "handle": "",
        "catch": "",
        "drawer_fixing": "desk.for_its_drawers",
        "apron_fixing": "desk.for_its_aprons",
        "flap_stay": "desk.for_its_flaps",
    },
}
"""Fields of a build-up that name an entry, and what for; nothing where its name says that."""

type Named = Iterable[tuple[str, Mapping[str, Any]]]
"""Names of jobs with their documents."""


def used_in_book(book: Mapping[str, Any], group: str, name: str) -> list[Message]:
    """Build-ups that name a board, a section or a hinge, each with what for.

    Parameters
    ----------
    book : mapping
        The book's plain values.
    group : str
        Name of the list.
    name : str
        Name of the entry.
    """
    results = []
    for build_up in book.get("build_ups", []):
        fields = [what for field, what in _BUILD_UP_FIELDS.get(group, {}).items() if build_up.get(field) == name]
        uses = [Message(what) for what in fields if what]
        if uses:
            results.append(Message("desk.used_by_build_up_for", build_up=build_up["name"], uses=uses))
        elif fields:
            results.append(Message("desk.used_by_build_up", build_up=build_up["name"]))
    return results


def used_in_jobs(jobs: Named, group: str, name: str) -> list[Message]:
    """Jobs that name a board, a build-up or a workshop, each with where.

    Parameters
    ----------
    jobs : iterable of (str, mapping)
        Names and documents.
    group, name : str
        See `used_in_book`.
    """
    results = []
    for job, document in jobs:
        header = document.get("job", {})
        places: list[Message] = []
        if group == "build_ups":
            places += [Message("desk.used_throughout")] if header.get("build_up") == name else []
            places += [
                Message("desk.used_for_opening", mark=opening["mark"])
                for opening in document.get("openings", [])
                if opening.get("build_up") == name
            ]
        elif group == "workshops":
            places += [Message("desk.used_to_make_parts")] if header.get("workshop") == name else []
        elif group == "boards":
            places += [
                Message("desk.used_for_panel", mark=panel["mark"])
                for panel in document.get("panels", [])
                if panel.get("board") == name
            ]
        if places:
            results.append(Message("desk.used_by_job", job=job, places=places))
    return results


def lost_to_jobs(jobs: Named, old: Mapping[str, Any], new: Mapping[str, Any]) -> list[Message]:
    """What a new state of the book does not have any more and jobs use.

    Parameters
    ----------
    jobs : iterable of (str, mapping)
    old, new : mapping
        The book's plain values.
    """
    listed, answer = list(jobs), []
    for group in ("boards", "build_ups", "workshops"):
        left = {entry["name"] for entry in new.get(group, [])}
        gone = [entry["name"] for entry in old.get(group, []) if entry["name"] not in left]
        answer += [used for name in gone if (used := entry_used(name, used_in_jobs(listed, group, name)))]
    return answer


def entry_used(name: str, users: list[Message]) -> Message | None:
    """Say who uses an entry, without a full stop; None where nobody does.

    Examples
    --------
    >>> job = Message("desk.used_by_job", job="Barn", places=(Message("desk.used_for_panel", mark="P1"),))
    >>> print(entry_used("18 mm MDF", [Message("desk.used_by_build_up", build_up="inset"), job]))
    18 mm MDF is used by the build-up inset, and by the job Barn for panel P1
    """
    if not users:
        return None
    if not users[1:]:
        return Message("desk.entry_used", name=name, users=users)
    return Message("desk.entry_used", name=name, users=Message("desk.users_and_last", users=users[:-1], last=users[-1]))
