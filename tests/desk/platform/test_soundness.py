"""Damage is noticed and named; nothing false is said; a backup brings all back."""

import errno
import html
import json
import random
import sqlite3

import pytest
from django.db import DatabaseError
from django.test import RequestFactory

from rodbook.desk.keeping.backups import make_backup, restore
from rodbook.desk.keeping.backups.contents import same_rows
from rodbook.desk.keeping.logs import MOST_AN_HOUR, RoomForFaults
from rodbook.desk.keeping.trouble import Trouble, TroubleKind, kind_of
from rodbook.desk.keeping.way_back import in_words
from rodbook.desk.platform.soundness import Damage, DamageKind, Kept, check_home, forget_pages, note_pages, seal_of
from rodbook.desk.serve import look
from rodbook.errors import StoreError

TABLES = """
CREATE TABLE desk_folder (id INTEGER PRIMARY KEY, kind TEXT, name TEXT);
CREATE TABLE desk_revision (id INTEGER PRIMARY KEY, folder_id INTEGER REFERENCES desk_folder(id), number INTEGER,
  document TEXT, text TEXT, changes TEXT, who TEXT, "when" TEXT, undoes INTEGER, seal TEXT);
CREATE TABLE desk_photo (id INTEGER PRIMARY KEY, sha256 TEXT);
"""


@pytest.fixture
def home(tmp_path):
    folder = tmp_path / "home"
    (folder / "photos").mkdir(parents=True)
    database = sqlite3.connect(folder / "desk.sqlite3")
    database.executescript("PRAGMA journal_mode=WAL;" + TABLES)
    database.executemany("INSERT INTO desk_folder VALUES (?, 'job', ?)", [(1, "Mill loft"), (2, "Fennel Row 4")])
    for n in range(1, 41):
        document = {"w": n * 7.5, "name": "Fenster für Süd " + "x" * 200}
        kept = Kept(1 + n % 2, n // 2 + 1, document, "said", None, "Ada", f"2031-04-02 10:{n:02}:00")
        row = (
            n,
            kept.folder,
            kept.number,
            json.dumps(document),
            kept.text,
            None,
            kept.who,
            kept.when,
            None,
            seal_of(kept),
        )
        database.execute("INSERT INTO desk_revision VALUES (?, ?, ?, ?, ?, ?, ?, ?, ?, ?)", row)
    database.commit()
    database.close()
    (folder / "secret-key").write_text("key")
    note_pages(folder)
    return folder


def test_a_sound_desk_and_a_new_one_have_nothing_damaged(home, tmp_path):
    assert check_home(home) == []
    assert check_home(tmp_path / "new") == []
    assert look(home) == []


def test_any_byte_that_changed_while_no_desk_ran_is_noticed_and_a_backup_brings_all_back(home, tmp_path):
    backup = make_backup(home, tmp_path / "b").path
    good, draw = (home / "desk.sqlite3").read_bytes(), random.Random(11)
    (tmp_path / "good.sqlite3").write_bytes(good)
    for _ in range(200):
        data = bytearray(good)
        for at in range(start := draw.randrange(len(data)), min(len(data), start + draw.choice((1, 1, 8, 600)))):
            data[at] ^= draw.randrange(1, 256)
        (home / "desk.sqlite3").write_bytes(data)
        found = check_home(home)
        assert found
        assert all(in_words(damage) for damage in found)
    found = restore(backup, home)
    assert same_rows(tmp_path / "good.sqlite3", home / "desk.sqlite3") == []
    assert found.contents.revisions == 40
    assert check_home(home) == []


def test_a_revision_that_is_not_what_was_saved_is_named_also_where_the_desk_was_killed(home):
    forget_pages(home)
    database = sqlite3.connect(home / "desk.sqlite3")
    database.execute("UPDATE desk_revision SET document = replace(document, '37.5', '73.5') WHERE id = 5")
    database.execute("UPDATE desk_revision SET who = 'Eve' WHERE id = 6")
    database.execute("UPDATE desk_revision SET document = '{' WHERE id = 8")
    database.commit()
    database.close()
    found = [(damage.kind, damage.what, damage.number) for damage in check_home(home)]
    assert found == [
        (DamageKind.REVISION, "Fennel Row 4", 3),
        (DamageKind.REVISION, "Mill loft", 4),
        (DamageKind.REVISION, "Mill loft", 5),
    ]
    assert in_words(check_home(home)[0]) == "Fennel Row 4, revision 3: what stands there is not what was saved"


def test_pictures_that_are_missing_or_changed_are_named(home):
    forget_pages(home)
    database = sqlite3.connect(home / "desk.sqlite3")
    database.executemany("INSERT INTO desk_photo VALUES (?, ?)", [(1, "a" * 64), (2, "b" * 64)])
    database.commit()
    database.close()
    (home / "photos" / ("b" * 64)).write_bytes(b"something else")
    kinds = [(damage.kind, damage.what[:1]) for damage in check_home(home)]
    assert kinds == [(DamageKind.PHOTO_MISSING, "a"), (DamageKind.PHOTO_CHANGED, "b")]
    assert check_home(home, photos=False) == []


def test_a_desk_whose_database_is_gone_or_unreadable_does_not_begin_anew(home, tmp_path):
    backup = make_backup(home, tmp_path / "b").path
    (home / "desk.sqlite3").unlink()
    with pytest.raises(StoreError, match=r"desk\.sqlite3 is missing from .*: nothing was begun anew; if there is"):
        look(home)
    assert not (home / "desk.sqlite3").exists()
    (home / "desk.sqlite3").write_bytes(b"no database" * 900)
    with pytest.raises(StoreError, match="can't be read"):
        look(home)
    restore(backup, home)
    assert look(home) == []


@pytest.mark.parametrize(
    ("error", "kind", "status", "said"),
    [
        (OSError(errno.ENOSPC, "x"), TroubleKind.FULL, 507, "The disk is full, so nothing was saved"),
        (OSError(errno.EROFS, "x"), TroubleKind.READ_ONLY, 503, "can't be written"),
        (sqlite3.SQLITE_FULL, TroubleKind.FULL, 507, "The disk is full"),
        (sqlite3.SQLITE_READONLY, TroubleKind.READ_ONLY, 503, "can't be written"),
        (sqlite3.SQLITE_CORRUPT, TroubleKind.DAMAGED, 503, "is damaged where this page reads it"),
    ],
)
def test_what_disk_and_database_refuse_is_told(error, kind, status, said):
    if isinstance(error, int):
        beneath = sqlite3.OperationalError("in whatever words")
        beneath.sqlite_errorcode = error
        error = DatabaseError("in others")
        error.__cause__ = beneath

    def answer(_):
        raise error

    assert kind_of(error) is kind
    reply = Trouble(answer)(RequestFactory().get("/"))
    assert reply.status_code == status
    assert said in html.unescape(reply.content.decode())


def test_other_errors_go_on():
    with pytest.raises(ZeroDivisionError):
        Trouble(lambda _: 1 / 0)(RequestFactory().get("/"))
    assert kind_of(DatabaseError("database disk image is malformed")) is None


def test_warnings_leave_room_for_faults():
    import logging

    time = [0.0]
    room = RoomForFaults(lambda: time[0])

    def record(level, said):
        return logging.LogRecord("x", level, "x", 1, said, (), None)

    assert sum(room.filter(record(logging.WARNING, f"w {n}")) for n in range(500)) == MOST_AN_HOUR
    assert all(room.filter(record(logging.ERROR, "e")) for _ in range(500))
    time[0] = 3600.0
    assert [room.filter(record(logging.WARNING, "same")) for _ in range(3)] == [True, False, False]
    long = record(logging.WARNING, "first line\nsecond" + "x" * 5000)
    assert room.filter(long)
    assert long.getMessage() == "first line"


def test_all_kinds_of_damage_are_said():
    assert Damage(DamageKind.REVISION, "Mill \udcf0loft").what == "Mill ?loft"
    assert len({in_words(Damage(kind, "a", 1, "b")) for kind in DamageKind}) == len(DamageKind)


def test_damage_that_is_no_text_any_more_is_named_too(home, monkeypatch):
    """What the database says of a damaged page may hold its bytes, and be no text itself."""
    forget_pages(home)

    class Opened:
        def execute(self, _statement, *_):
            return b"\xf0(".decode()

        def close(self):
            pass

    monkeypatch.setattr("rodbook.desk.platform.soundness.sqlite3.connect", lambda *_, **__: Opened())
    kinds = {damage.kind for damage in check_home(home)}
    assert DamageKind.STRUCTURE in kinds
    assert all(in_words(damage) for damage in check_home(home))
