"""The way back from damage: which backup is known of, and how it is brought in. Sentences for the command line and the owner."""

from __future__ import annotations

import json
from pathlib import Path

from rodbook.desk.keeping.backups import last_made, read_schedule
from rodbook.desk.platform.soundness import Damage, DamageKind

__all__ = ["in_words", "way_back"]


def way_back(home: Path) -> str:
    """Say which backup brings a desk back, as far as the desk's folder knows."""
    made, schedule = last_made(home), read_schedule(home)
    command = f"bring it back with `rodbook restore FILE --home {home}`"
    if made is not None:
        try:
            path = json.loads((home / "last-backup.json").read_text("utf-8"))["path"]
        except (OSError, ValueError, KeyError):
            path = ""
        return f"the last backup was made {made:%Y-%m-%d %H:%M} UTC ({path}): {command}"
    if schedule is not None:
        return f"backups are in {schedule.folder}: {command}"
    return f"if there is a backup, {command}; to begin anew, name another folder with --home or move this one away"


_SAID = {
    DamageKind.DATABASE_MISSING: "the database desk.sqlite3 is missing",
    DamageKind.DATABASE_UNREADABLE: "the database can't be read: {found}",
    DamageKind.PAGES_CHANGED: "{number} pages of the database changed while no desk ran: {found}",
    DamageKind.STRUCTURE: "the database's own check found: {found}",
    DamageKind.REVISION: "{what}, revision {number}: what stands there is not what was saved{after}",
    DamageKind.PHOTO_MISSING: "picture {what} is missing",
    DamageKind.PHOTO_CHANGED: "picture {what} is not what was kept",
}


def in_words(damage: Damage) -> str:
    """Say what is damaged."""
    after = f" ({damage.found})" if damage.found else ""
    return _SAID[damage.kind].format(what=damage.what, number=damage.number, found=damage.found, after=after)
