"""Bringing a database to the form that this version keeps: a copy first, and only a copy that came out whole takes its place."""

from __future__ import annotations

import os
import sqlite3
from contextlib import closing, suppress
from pathlib import Path

from rodbook import __version__
from rodbook.desk.keeping.backups.making import snapshot
from rodbook.errors import StoreError

__all__ = ["upgrade"]


def _waiting() -> bool:
    """Whether there is anything to bring in."""
    from django.db import connection
    from django.db.migrations.executor import MigrationExecutor

    executor = MigrationExecutor(connection)
    return bool(executor.migration_plan(executor.loader.graph.leaf_nodes()))


def _migrate() -> None:
    from django.core.management import call_command

    call_command("migrate", verbosity=0, interactive=False)


def upgrade(home: Path) -> Path | None:
    """Bring the desk's database up to date; Django has to be set up for it, and no desk may run in the folder.

    Parameters
    ----------
    home : Path

    Returns
    -------
    Path or None
        Where the database lies as it was before; None where it is new or was up to date.

    Raises
    ------
    StoreError
        If it can't be brought up to date: then it stands as it was.
    """
    from django.db import connections

    database = home / "desk.sqlite3"
    if not database.exists():
        _migrate()
        connections.close_all()
        return None
    try:
        if not _waiting():
            return None
    except Exception as error:
        raise StoreError("desk.database_not_read", home=home, reason=str(error)) from None
    finally:
        connections.close_all()
    copy, before = home / "upgrading.sqlite3", home / f"before-{__version__}.sqlite3"
    settings = connections["default"].settings_dict
    name = settings["NAME"]
    try:
        copy.unlink(missing_ok=True)
        snapshot(database, copy)
        settings["NAME"] = copy
        _migrate()
        connections.close_all()
        with closing(sqlite3.connect(copy)) as fresh:
            fresh.execute("PRAGMA wal_checkpoint(TRUNCATE)")
            (result,) = fresh.execute("PRAGMA integrity_check(1)").fetchone()
        _refuse(result)
        with closing(sqlite3.connect(database)) as old:
            old.execute("PRAGMA wal_checkpoint(TRUNCATE)")
        before.unlink(missing_ok=True)
        os.link(database, before)
        copy.replace(database)
    except Exception as error:
        raise StoreError("desk.database_not_upgraded", home=home, reason=str(error)) from error
    finally:
        settings["NAME"] = name
        connections.close_all()
        for left in (copy, *(copy.with_name(f"{copy.name}-{end}") for end in ("wal", "shm", "journal"))):
            with suppress(OSError):
                left.unlink(missing_ok=True)
    return before


def _refuse(result: str) -> None:
    if result != "ok":
        raise StoreError("desk.database_check_said", found=result)
