"""Backups: one file with all that a firm keeps, made while the desk runs, checked, and brought back to a new place."""

from rodbook.desk.keeping.backups.contents import Contents, Newest
from rodbook.desk.keeping.backups.making import Backup, make_backup
from rodbook.desk.keeping.backups.restoring import Restored, is_sealed, read_backup, rehearse, restore
from rodbook.desk.keeping.backups.schedule import (
    OLD,
    Schedule,
    due,
    kept,
    last_made,
    name_of,
    note_made,
    read_schedule,
    run_due,
    write_schedule,
)

__all__ = [
    "OLD",
    "Backup",
    "Contents",
    "Newest",
    "Restored",
    "Schedule",
    "due",
    "is_sealed",
    "kept",
    "last_made",
    "make_backup",
    "name_of",
    "note_made",
    "read_backup",
    "read_schedule",
    "rehearse",
    "restore",
    "run_due",
    "write_schedule",
]
