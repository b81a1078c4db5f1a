"""Backups on the desk: the owner sees how they stand, makes one, and has them made."""

from datetime import UTC, datetime, timedelta
from pathlib import Path

import pytest
from django.conf import settings as desk_settings
from django.test import Client

from rodbook.desk.entrance import people
from rodbook.desk.keeping import backup_views as page
from rodbook.desk.keeping import backups
from rodbook.desk.keeping.backups.contents import Contents
from rodbook.desk.keeping.keeper import Keeper, backup_state, keeper


@pytest.fixture(autouse=True)
def _nothing_made(tmp_path, monkeypatch):
    """A desk that knows of no backup; its database is the tests' own."""
    for name in ("backup.json", "last-backup.json"):
        (Path(desk_settings.HOME) / name).unlink(missing_ok=True)
    keeper.fault = ""

    def made(_home, to, **more):
        to.write_bytes(b"all of it")
        return backups.Backup(to, 9, more["now"], Contents(2, 7, 0, None), 1)

    monkeypatch.setattr(page, "make_backup", made)
    monkeypatch.setattr("rodbook.desk.keeping.backups.schedule.make_backup", made)


def test_that_there_is_none_is_told_where_jobs_are(inside, store_job):
    assert b"No backup was made yet" in inside.get("/").content
    reply = inside.post("/backups/make/")
    assert b"".join(reply.streaming_content) == b"all of it"
    assert reply["Content-Disposition"].startswith('attachment; filename="rodbook-')
    assert b"The last backup was made today." in inside.get("/").content


def test_an_old_one_is_warned_of(inside, store_job):
    old = datetime.now(UTC) - timedelta(days=9, hours=2)
    backups.note_made(Path(desk_settings.HOME), backups.Backup(Path("x"), 1, old, Contents(1, 1, 0, None), 1))
    said = inside.get("/").content.decode()
    assert "The last backup is 9 days old." in said
    assert 'class="fault" role="alert"' in said


def test_backups_are_set_to_make_themselves_and_what_is_in_the_way_is_told(inside, tmp_path):
    typed = {"folder": str(tmp_path / "stick"), "hours": "24", "newest": "3", "days": "7", "weeks": "5", "months": "12"}
    said = inside.post("/backups/schedule/", {**typed, "hours": "often", "newest": "0"})
    assert said.status_code == 422
    assert b"write a whole number" in said.content
    said = inside.post("/backups/schedule/", {**typed, "folder": "stick", "passphrase": "short"})
    assert b"name a whole path" in said.content
    assert b"a passphrase has at least 12 signs" in said.content
    assert b"short" not in said.content
    assert inside.post("/backups/schedule/", typed).status_code == 302
    assert "is not there: plug it in" in inside.get("/backups/").content.decode()
    (tmp_path / "stick").mkdir()
    assert inside.post("/backups/schedule/", {**typed, "passphrase": "plinth walnut teapot"}).status_code == 302
    assert len(list((tmp_path / "stick").iterdir())) == 1
    assert backups.read_schedule(Path(desk_settings.HOME)).passphrase == "plinth walnut teapot"
    assert b"plinth walnut" not in inside.get("/backups/").content
    assert inside.post("/backups/schedule/", {**typed, "sealed": "1"}).status_code == 302
    assert backups.read_schedule(Path(desk_settings.HOME)).passphrase == "plinth walnut teapot"
    inside.post("/backups/schedule/", {"off": "1"})
    assert backups.read_schedule(Path(desk_settings.HOME)) is None


def test_only_owners_come_to_backups(settings, db):
    settings.SHARED = True
    people.add_person("ben", "maker", "nine kettles under oak")
    client = Client()
    client.post("/login/", {"username": "ben", "password": "nine kettles under oak"})
    assert client.get("/backups/").status_code == 403
    assert client.post("/backups/make/").status_code == 403
    assert b"No backup" not in client.get("/").content


def test_the_keeper_goes_on_whatever_happens(tmp_path, monkeypatch):
    mine = Keeper()
    monkeypatch.setattr("rodbook.desk.keeping.keeper.run_due", lambda *_: 1 / 0)
    mine.look(tmp_path, datetime.now(UTC))
    assert mine.fault.startswith("ZeroDivisionError")
    monkeypatch.setattr("rodbook.desk.keeping.keeper.run_due", lambda *_: object())
    mine.look(tmp_path, datetime.now(UTC))
    assert mine.fault == ""
    assert backup_state(tmp_path).warns
