"""What names an entry of the book, so that it can be neither taken out nor, by jobs, called something else. Pure."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from typing import Any

__all__ = ["in_sentence", "lost_to_jobs", "used_in_book", "used_in_jobs"]

_BUILD_UP_FIELDS = {
    "boards": {
        "leaf_board": "for its leaves",
        "lining_board": "for its linings",
        "end_panel_board": "for its end panels",
    },
    "sections": {"trim": "for its trim", "cover_strip": "for its meeting edges"},
    "hinges": {"hinge": ""},
    "fittings": {
        "handle": "",
        "catch": "",
        "drawer_fixing": "for its drawers",
        "apron_fixing": "for its aprons",
        "flap_stay": "for its flaps",
    },
}

type Named = Iterable[tuple[str, Mapping[str, Any]]]
"""Names of jobs with their documents."""


def used_in_book(book: Mapping[str, Any], group: str, name: str) -> list[str]:
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
    found = []
    for build_up in book.get("build_ups", []):
        uses = [what for field, what in _BUILD_UP_FIELDS.get(group, {}).items() if build_up.get(field) == name]
        if uses:
            found.append(f"the build-up {build_up['name']} {' and '.join(uses)}".rstrip())
    return found


def used_in_jobs(jobs: Named, group: str, name: str) -> list[str]:
    """Jobs that name a board, a build-up or a workshop, each with where.

    Parameters
    ----------
    jobs : iterable of (str, mapping)
        Names and documents.
    group, name : str
        See `used_in_book`.
    """
    found = []
    for job, document in jobs:
        header = document.get("job", {})
        places: list[str] = []
        if group == "build_ups":
            places += ["throughout"] if header.get("build_up") == name else []
            places += [f"for {o['mark']}" for o in document.get("openings", []) if o.get("build_up") == name]
        elif group == "workshops":
            places += ["to make its parts"] if header.get("workshop") == name else []
        elif group == "boards":
            places += [f"for panel {p['mark']}" for p in document.get("panels", []) if p.get("board") == name]
        if places:
            found.append(f"the job {job} {', '.join(places)}")
    return found


def lost_to_jobs(jobs: Named, old: Mapping[str, Any], new: Mapping[str, Any]) -> list[str]:
    """Sentences on what a new state of the book does not have any more and jobs use.

    Parameters
    ----------
    jobs : iterable of (str, mapping)
    old, new : mapping
        The book's plain values.
    """
    listed, said = list(jobs), []
    for group in ("boards", "build_ups", "workshops"):
        left = {entry["name"] for entry in new.get(group, [])}
        gone = [entry["name"] for entry in old.get(group, []) if entry["name"] not in left]
        said += [sentence for name in gone if (sentence := in_sentence(name, used_in_jobs(listed, group, name)))]
    return said


def in_sentence(name: str, uses: list[str]) -> str:
    """Say who uses an entry, in one sentence without its full stop; nothing where nobody does.

    Examples
    --------
    >>> in_sentence("18 mm MDF", ["the build-up inset for its linings", "the job Barn for panel P1"])
    '18 mm MDF is used by the build-up inset for its linings, and by the job Barn for panel P1'
    """
    if not uses:
        return ""
    said = f"{', '.join(f'by {use}' for use in uses[:-1])}, and by {uses[-1]}" if uses[1:] else f"by {uses[0]}"
    return f"{name} is used {said}"
