"""Backups: what comes back is what was there, what is damaged is refused, and nothing is lost by trying."""

import hashlib
import json
import os
import random
import shutil
import sqlite3
import stat
import tarfile
import threading
from datetime import UTC, datetime, timedelta
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from rodbook.desk.keeping import backups
from rodbook.desk.keeping.backups import Schedule, kept, make_backup, name_of, read_backup, rehearse, restore
from rodbook.desk.keeping.backups.contents import same_rows
from rodbook.desk.keeping.backups.sealed import PIECE
from rodbook.desk.keeping.home import hold
from rodbook.errors import InputError, StoreError

TABLES = """
CREATE TABLE desk_folder (id INTEGER PRIMARY KEY, kind TEXT, name TEXT);
CREATE TABLE desk_revision (id INTEGER PRIMARY KEY, folder_id INTEGER REFERENCES desk_folder(id), number INTEGER,
  document TEXT, who TEXT, "when" TEXT);
CREATE TABLE desk_photo (id INTEGER PRIMARY KEY, sha256 TEXT);
CREATE TABLE django_session (session_key TEXT PRIMARY KEY, session_data TEXT);
"""


@pytest.fixture
def home(tmp_path):
    """A desk's folder, made without the desk: two documents, forty revisions, a few pictures."""
    folder = tmp_path / "home"
    (folder / "photos").mkdir(parents=True)
    database = sqlite3.connect(folder / "desk.sqlite3")
    database.executescript("PRAGMA journal_mode=WAL;" + TABLES)
    database.executemany("INSERT INTO desk_folder VALUES (?, 'job', ?)", [(1, "Mill loft"), (2, "Fennel Row 4")])
    database.executemany(
        "INSERT INTO desk_revision VALUES (?, ?, ?, ?, 'Ada', ?)",
        [(n, 1 + n % 2, n // 2 + 1, json.dumps({"w": n * 7.5}), f"2031-04-02 10:{n:02}:00") for n in range(1, 41)],
    )
    database.execute("INSERT INTO django_session VALUES ('secret', 'of somebody who is signed in')")
    for n in range(3):
        data = random.Random(n).randbytes(700_000)
        name = hashlib.sha256(data).hexdigest()
        (folder / "photos" / name).write_bytes(data)
        database.execute("INSERT INTO desk_photo VALUES (?, ?)", (n, name))
    database.commit()
    database.close()
    (folder / "secret-key").write_text("key")
    return folder


def _photos(folder):
    return {path.name: path.read_bytes() for path in (folder / "photos").iterdir()}


@pytest.mark.parametrize("passphrase", ["", "plinth walnut teapot"])
def test_what_comes_back_is_what_was_there(home, tmp_path, passphrase):
    backup = make_backup(home, tmp_path / "b", passphrase=passphrase)
    assert (backup.contents.documents, backup.contents.revisions, backup.contents.photos) == (2, 40, 3)
    assert stat.S_IMODE(backup.path.stat().st_mode) == 0o600
    found = restore(backup.path, tmp_path / "new", passphrase=passphrase)
    assert found.contents == backup.contents
    assert found.contents.newest.when == "2031-04-02 10:40:00"
    assert same_rows(home / "desk.sqlite3", tmp_path / "new" / "desk.sqlite3") == []
    assert _photos(home) == _photos(tmp_path / "new")
    sessions = sqlite3.connect(tmp_path / "new" / "desk.sqlite3")
    assert sessions.execute("SELECT count(*) FROM django_session").fetchone() == (0,)
    sessions.close()
    assert not any(path.name.startswith("backup-") for path in home.iterdir())


def test_a_backup_is_an_archive_that_any_tool_opens(home, tmp_path):
    make_backup(home, tmp_path / "b")
    with tarfile.open(tmp_path / "b") as archive:
        names = archive.getnames()
        manifest = json.load(archive.extractfile("manifest.json"))
    assert names[0] == "desk.sqlite3"
    assert names[-1] == "manifest.json"
    assert [file["name"] for file in manifest["files"]] == names[:-1]


def test_a_sealed_backup_shows_nothing_and_opens_with_its_passphrase_alone(home, tmp_path):
    make_backup(home, tmp_path / "b", passphrase="plinth walnut teapot")
    data = (tmp_path / "b").read_bytes()
    assert len(data) > 2 * PIECE
    assert b"Mill loft" not in data
    assert b"photos" not in data
    for passphrase, said in (
        ("", "is sealed: give the passphrase"),
        ("plinth walnut teapots", "the passphrase is another one"),
        ("\ud800", "the passphrase is another one"),  # what no text can have is no passphrase that was given
    ):
        with pytest.raises(StoreError, match=said):
            rehearse(tmp_path / "b", passphrase=passphrase)
    assert make_backup(home, tmp_path / "c", passphrase="plinth walnut teapot").path.read_bytes() != data


@pytest.mark.parametrize("passphrase", ["", "plinth walnut teapot"])
def test_any_byte_that_changed_or_is_missing_is_noticed_and_nothing_is_changed(home, tmp_path, passphrase):
    backup = make_backup(home, tmp_path / "b", passphrase=passphrase)
    good, draw = backup.path.read_bytes(), random.Random(7)
    before = sorted(path.name for path in home.rglob("*"))
    for n in range(30):
        data = bytearray(good)
        if n % 3:
            data[draw.randrange(len(data))] ^= 1 << draw.randrange(8)
        else:
            del data[draw.randrange(len(data)) :]
        (tmp_path / "d").write_bytes(data)
        with pytest.raises(StoreError) as error:
            restore(tmp_path / "d", home, passphrase=passphrase)
        assert "backup" in str(error.value)
    assert sorted(path.name for path in home.rglob("*") if path.name != "desk.lock") == before
    assert [path.name for path in tmp_path.iterdir() if "coming" in path.name] == []


def test_pieces_of_a_sealed_backup_cannot_be_left_out_or_moved(home, tmp_path):
    make_backup(home, tmp_path / "b", passphrase="plinth walnut teapot")
    data = (tmp_path / "b").read_bytes()[: -len(b"sha256 ") - 65]
    head = data.index(b"\n", data.index(b"\n") + 1) + 1
    size = PIECE + 16
    pieces = [data[n : n + size] for n in range(head, len(data), size)]
    for wrong in (pieces[:-1], pieces[1:], [pieces[1], pieces[0], *pieces[2:]], [*pieces, pieces[-1]]):
        body = data[:head] + b"".join(wrong)
        (tmp_path / "d").write_bytes(body + b"sha256 " + hashlib.sha256(body).hexdigest().encode() + b"\n")
        with pytest.raises(StoreError, match=r"can't be opened|ends too soon"):
            rehearse(tmp_path / "d", passphrase="plinth walnut teapot")


@pytest.mark.parametrize("name", ["../out", "/etc/out", "photos/../../out", "photos", "else/where", "photos/a\\b"])
def test_names_that_lead_elsewhere_are_refused(tmp_path, name):
    with tarfile.open(tmp_path / "t", "w") as archive:
        info = tarfile.TarInfo(name)
        archive.addfile(info)
    body = (tmp_path / "t").read_bytes()
    (tmp_path / "b").write_bytes(body + b"sha256 " + hashlib.sha256(body).hexdigest().encode() + b"\n")
    with pytest.raises(StoreError, match="has no place in a backup"):
        rehearse(tmp_path / "b")


def test_what_is_restored_over_stands_beside_it(home, tmp_path):
    backup = make_backup(home, tmp_path / "b")
    database = sqlite3.connect(home / "desk.sqlite3")
    database.execute("DELETE FROM desk_revision WHERE id > 5")
    database.commit()
    database.close()
    found = restore(backup.path, home, now=datetime(2031, 4, 3, 9, 0, 0, tzinfo=UTC))
    assert found.before == home.with_name("home-before-2031-04-03-090000")
    assert found.contents.revisions == 40
    assert (home / "secret-key").read_text() == "key"
    rows = sqlite3.connect(found.before / "desk.sqlite3")
    assert rows.execute("SELECT count(*) FROM desk_revision").fetchone() == (5,)
    rows.close()


def test_nothing_is_restored_over_a_desk_that_runs(home, tmp_path):
    backup = make_backup(home, tmp_path / "b")
    held = hold(home)
    with pytest.raises(StoreError, match="is in use by process"):
        restore(backup.path, home)
    held.let_go()
    assert (home / "desk.sqlite3").is_file()


def test_a_backup_of_a_desk_that_saves_meanwhile_is_of_one_moment(home, tmp_path):
    stop, saved = threading.Event(), []

    def save():
        database = sqlite3.connect(home / "desk.sqlite3", timeout=20)
        n = 100
        while not stop.is_set():
            with database:  # two rows in one transaction: both are there or none
                database.execute("INSERT INTO desk_revision VALUES (?, 1, ?, '{}', 'Ben', '2031-05-01')", (n, n))
                database.execute("INSERT INTO desk_photo VALUES (?, 'x')", (n,))
            saved.append(n)
            n += 1
        database.close()

    writer = threading.Thread(target=save)
    writer.start()
    try:
        for n in range(10):
            before = len(saved)
            found = make_backup(home, tmp_path / f"b{n}").contents
            assert found.revisions - 40 == found.photos - 3 >= before
    finally:
        stop.set()
        writer.join()


def test_what_has_no_desk_or_a_damaged_one_gives_no_backup(home, tmp_path):
    with pytest.raises(StoreError, match=r"there is no desk in .*: desk\.sqlite3 is missing"):
        make_backup(tmp_path / "nowhere", tmp_path / "b")
    with (home / "desk.sqlite3").open("r+b") as out:
        out.seek(4096 + 8)
        out.write(os.urandom(3000))
    with pytest.raises(StoreError, match="no backup was made, as the database is damaged"):
        make_backup(home, tmp_path / "b")
    assert not (tmp_path / "b").exists()
    assert not (tmp_path / "b.part").exists()
    with pytest.raises(StoreError, match="can't be written: No such file or directory; make room there"):
        shutil.copytree(home, tmp_path / "c") and make_backup(_sound(tmp_path), tmp_path / "no" / "b")


def _sound(tmp_path):
    folder = tmp_path / "sound"
    folder.mkdir()
    database = sqlite3.connect(folder / "desk.sqlite3")
    database.executescript(TABLES)
    database.close()
    return folder


@given(
    st.lists(st.integers(0, 900 * 24), max_size=120),
    st.integers(1, 9),
    st.integers(0, 9),
    st.integers(0, 9),
    st.integers(0, 9),
)
def test_what_is_kept_is_few_and_reaches_far_back(hours, newest, days, weeks, months):
    times = {datetime(2030, 1, 1, tzinfo=UTC) + timedelta(hours=n) for n in hours}
    stay = kept(times, Schedule("x", newest=newest, days=days, weeks=weeks, months=months))
    assert stay <= times
    assert len(stay) <= newest + days + weeks + months
    assert set(sorted(times)[-newest:]) <= stay
    for number, period in ((days, lambda t: t.date()), (months, lambda t: (t.year, t.month))):
        asked = sorted({period(t) for t in times})[-number:] if number else []
        assert {period(t) for t in stay} >= set(asked)


def test_backups_make_themselves_and_old_ones_go(home, tmp_path):
    folder = tmp_path / "stick"
    backups.write_schedule(home, Schedule(str(folder), hours=24, newest=2, days=0, weeks=0, months=0))
    begin = datetime(2031, 4, 1, tzinfo=UTC)
    with pytest.raises(StoreError, match=r"the folder for backups, .*, is not there: plug it in"):
        backups.run_due(home, begin)
    folder.mkdir()
    (folder / "something else").write_text("stays")
    for day in range(4):
        assert backups.run_due(home, begin + timedelta(days=day)) is not None
        assert backups.run_due(home, begin + timedelta(days=day, hours=23)) is None
        assert backups.last_made(home) == begin + timedelta(days=day)
    times = [begin + timedelta(days=day) for day in (2, 3)]
    assert {path.name for path in folder.iterdir()} == {"something else", *map(name_of, times)}
    backups.write_schedule(home, None)
    assert backups.due(home, begin + timedelta(days=99)) is None


def test_a_schedule_that_cannot_be_is_told(home):
    with pytest.raises(InputError) as error:
        backups.write_schedule(home, Schedule("stick", hours=0, newest=0, passphrase="short"))
    assert [fault.where for fault in error.value.faults] == ["hours", "newest", "folder", "passphrase"]
    assert backups.read_schedule(home) is None


def test_a_manifest_of_another_format_is_refused(home, tmp_path):
    backup = make_backup(home, tmp_path / "b")
    with tarfile.open(backup.path) as archive:
        archive.extractall(tmp_path / "x", filter="data")
    manifest = json.loads((tmp_path / "x" / "manifest.json").read_text())
    for change, said in (
        ({"format": 2}, "has format 2"),
        ({"files": manifest["files"][:-1]}, "missing or not what was written"),
    ):
        (tmp_path / "x" / "manifest.json").write_text(json.dumps(manifest | change))
        with tarfile.open(tmp_path / "t", "w") as archive:
            for name in ("desk.sqlite3", "photos", "manifest.json"):
                for path in [tmp_path / "x" / name] if name != "photos" else sorted((tmp_path / "x" / name).iterdir()):
                    archive.add(path, path.relative_to(tmp_path / "x").as_posix())
        body = (tmp_path / "t").read_bytes()
        Path(tmp_path / "d").write_bytes(body + b"sha256 " + hashlib.sha256(body).hexdigest().encode() + b"\n")
        with pytest.raises(StoreError, match=said):
            read_backup(tmp_path / "d", _empty(tmp_path))


def _empty(tmp_path):
    folder = tmp_path / f"empty-{len(list(tmp_path.iterdir()))}"
    folder.mkdir()
    return folder
