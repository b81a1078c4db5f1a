"""Who did what: noted by itself, kept as codes, shown to the owner alone, bounded."""

from datetime import timedelta

import pytest
from django.db import DatabaseError
from django.test import Client
from django.urls import get_resolver, reverse
from django.utils import timezone

from rodbook.desk.entrance import audit as noting
from rodbook.desk.entrance import people
from rodbook.desk.entrance.deeds_in_words import _SAID, said
from rodbook.desk.keeping.backups import Backup, Contents
from rodbook.desk.keeping.backups.sealed import FIRST_LINE
from rodbook.desk.models import Deed, Folder, Person
from rodbook.desk.platform import deeds, store
from rodbook.desk.platform.deeds import DESK, HERE, KEPT, OF_STRANGERS, Doing, note_by

GOOD = "plinth walnut teapot"


@pytest.fixture
def owner(settings, db):
    settings.SHARED = True
    store.the_book_folder()
    people.add_person("ada", "owner", GOOD)
    client = Client()
    client.post("/login/", {"username": "ada", "password": GOOD}, REMOTE_ADDR="192.0.2.7")
    return client


def _lines():
    return [(d.who, d.place, d.doing, d.parameters) for d in Deed.objects.order_by("pk")]


def test_coming_in_and_going_out_are_noted_with_name_and_place(owner):
    owner.post("/logout/", REMOTE_ADDR="192.0.2.7")
    assert _lines() == [("ada", "192.0.2.7", "signed-in", {}), ("ada", "192.0.2.7", "signed-out", {})]


def test_wrong_tries_are_counted_together_and_a_name_that_nobody_has_is_not_written_down(owner):
    Deed.objects.all().delete()
    stranger = Client()
    for _ in range(3):
        stranger.post("/login/", {"username": "ada", "password": "no"}, REMOTE_ADDR="192.0.2.9")
    stranger.post("/login/", {"username": GOOD, "password": "ada"}, REMOTE_ADDR="192.0.2.9")
    assert [(d.who, d.place, d.doing, d.times) for d in Deed.objects.order_by("pk")] == [
        ("ada", "192.0.2.9", "wrong-password", 3),
        ("", "192.0.2.9", "wrong-password", 1),
    ]
    assert GOOD not in str(list(Deed.objects.values()))


def test_what_is_done_to_accounts_is_noted(owner):
    Deed.objects.all().delete()
    owner.post("/people/add/", {"name": "ben", "role": "maker", "password": "nine kettles under oak"})
    ben = Person.objects.get(user__username="ben").pk
    owner.post(f"/people/{ben}/role/", {"role": "reader"})
    owner.post(f"/people/{ben}/role/", {"role": "boss"})  # refused, so nothing was done
    owner.post(f"/people/{ben}/password/", {"password": "ten kettles under ash"})
    owner.post(f"/people/{ben}/active/", {"active": "0"})
    owner.post(f"/people/{ben}/active/", {"active": "1"})
    owner.post("/password/", {"old": "no", "password": "zwölf Türen im Flur"})
    owner.post("/password/", {"old": GOOD, "password": "zwölf Türen im Flur"})
    assert [(d.doing, d.parameters) for d in Deed.objects.order_by("pk")] == [
        ("account-made", {"person": "ben", "role": "maker"}),
        ("role-changed", {"person": "ben", "before": "maker", "after": "reader"}),
        ("password-given", {"person": "ben"}),
        ("account-shut", {"person": "ben"}),
        ("account-opened", {"person": "ben"}),
        ("wrong-password", {}),
        ("password-changed", {}),
    ]
    assert {d.who for d in Deed.objects.all()} == {"ada"}
    kept = str(list(Deed.objects.values()))
    assert not any(secret in kept for secret in (GOOD, "kettles", "Türen"))


def test_every_file_that_leaves_is_noted_whatever_view_gives_it(inside, store_job):
    Deed.objects.all().delete()
    taken = 0
    arguments = {"pk": store_job, "number": 1, "mark": "C1", "name": "parts-schedule.pdf", "kind": "csv"}
    for pattern in get_resolver().url_patterns:
        needs = set(pattern.pattern.converters)
        if pattern.name and needs <= set(arguments) and pattern.name not in ("login", "logout"):
            address = reverse(pattern.name, kwargs={k: arguments[k] for k in needs})
            reply = inside.get(address)
            if "attachment" in reply.get("Content-Disposition", ""):
                taken += 1
                last = Deed.objects.order_by("-pk").first()
                assert last.doing == "file-taken", address
                assert last.parameters["page"] == pattern.name
                assert last.parameters["file"] in reply["Content-Disposition"]
                assert inside.head(address).status_code == 200
    assert taken >= 2
    assert Deed.objects.count() == taken  # looking, and asking for a head alone, takes nothing
    job = Deed.objects.get(parameters__page="job-file")
    name = Folder.objects.get(pk=store_job).name
    assert job.parameters["job"] == name
    assert job.parameters["prices"] is True
    assert said(job).endswith(f", of {name}, with prices")
    paper = Deed.objects.get(parameters__page="paper")
    assert paper.parameters["prices"] is False
    assert paper.who == "this desk"


def test_backups_are_noted_those_the_desk_makes_itself_too(inside, store_job, tmp_path, monkeypatch):
    Deed.objects.all().delete()
    form = {"folder": str(tmp_path), "hours": "24", "newest": "3", "days": "7", "weeks": "5", "months": "12"}
    inside.post("/backups/schedule/", form)
    inside.post("/backups/schedule/", {"off": "1"})
    assert [(d.doing, d.parameters["on"]) for d in Deed.objects.order_by("pk")] == [
        ("backups-set", True),
        ("backups-set", False),
    ]
    path = tmp_path / "b.backup"
    path.write_bytes(FIRST_LINE)
    monkeypatch.setattr(noting.connections, "close_all", lambda: None)  # the test's own database lives in it
    noting.note_own_backup(Backup(path, 24, timezone.now(), Contents(1, 1, 0, None), 1))
    last = Deed.objects.first()
    assert (last.who, last.place, last.parameters["file"], last.parameters["sealed"]) == (DESK, HERE, "b.backup", True)
    assert said(last) == "made the backup b.backup, sealed"


def test_only_the_owner_reads_it_and_whoever_else_asks_is_noted(owner):
    people.add_person("ben", "maker", "nine kettles under oak")
    ben = Client()
    ben.post("/login/", {"username": "ben", "password": "nine kettles under oak"})
    for _ in range(2):
        assert ben.get("/deeds/").status_code == 403
    refused = Deed.objects.get(doing="refused")
    assert (refused.who, refused.parameters, refused.times) == ("ben", {"page": "deeds"}, 2)
    page = owner.get("/deeds/").content.decode()
    assert "asked for what their role may not have: deeds" in page
    assert "(2 times within the hour)" in page
    assert "signed in" in page
    only = owner.get("/deeds/?only=wrong&who=ben").content.decode()
    assert "signed in" not in only
    assert "asked for" in only
    assert "Nothing yet" in owner.get("/deeds/?who=nobody").content.decode()
    assert owner.get("/deeds/?page=9999999&who=%00").status_code == 200
    assert '"/deeds/"' in owner.get("/people/").content.decode()


def test_it_is_bounded_by_age_and_strangers_do_not_fill_it(db, monkeypatch, rf):
    now = timezone.now()
    note_by("ada", HERE, Doing.FILE_TAKEN, file="x")
    note_by("ada", HERE, Doing.FILE_TAKEN, file="y")
    Deed.objects.filter(parameters__file="x").update(when=now - KEPT - timedelta(days=1))
    Deed.objects.filter(parameters__file="y").update(when=now - KEPT + timedelta(days=1))
    note_by("ada", HERE, Doing.SIGNED_IN)
    assert [d.doing for d in Deed.objects.order_by("pk")] == ["file-taken", "signed-in"]
    monkeypatch.setattr(deeds, "MOST_OF_STRANGERS", 20)
    for n in range(50):
        note_by("", f"192.0.2.{n}", Doing.WRONG_PASSWORD)
    assert Deed.objects.filter(doing="wrong-password").count() == 20
    assert Deed.objects.filter(doing="wrong-password").order_by("pk").first().place == "192.0.2.30"
    assert Deed.objects.filter(doing__in=("file-taken", "signed-in")).count() == 2


def test_what_can_not_be_written_down_stops_nobody(owner, monkeypatch, caplog):
    def full(**_):
        raise DatabaseError("disk full")

    monkeypatch.setattr(Deed.objects, "create", full)
    assert owner.get("/book/boards/price-list/sheets.csv").status_code in (200, 404)
    assert owner.post("/logout/").status_code == 302
    assert "signed-out by ada" in caplog.text


def test_each_kind_has_its_words(db):
    assert set(_SAID) == set(Doing)
    assert set(Doing) > OF_STRANGERS
    for doing in Doing:
        assert said(Deed(doing=doing.value, parameters={}))
    assert said(Deed(doing="of-another-version", parameters={})) == "of-another-version"
