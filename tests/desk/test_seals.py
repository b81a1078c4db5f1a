"""Seals of revisions on the desk's own database: whatever makes one seals it, and what is changed by hand is named."""

import json
import sqlite3
import subprocess
import sys
import time
from contextlib import closing

import pytest
from django.apps import apps as django_apps
from django.db import connection

from rodbook.desk.models import Folder, Kind, Revision
from rodbook.desk.platform import actuals, store
from rodbook.desk.platform.soundness import DamageKind, check_home
from rodbook.job.files import parse_book, parse_job, sample_book_text, sample_text

MAKE = """
import sys
from pathlib import Path
from rodbook.desk.serve import prepare
prepare(Path(sys.argv[1]))
from rodbook.desk.platform import actuals, store
from rodbook.desk.models import Kind
from rodbook.job.files import parse_job, sample_text
book = store.book_now()[2]
job = parse_job(sample_text("stair"), book)
folder = store.new_folder(Kind.JOB, "Mill loft", job, who="Ann", said="begun")
noted = lambda said: lambda began: began | {"job": {**began["job"], "note": said}}
client = lambda said: lambda began: began | {"job": {**began["job"], "client": said}}
store.save(folder, 1, noted("größer \\u2013 ½"), who="Ann", book=book)
store.save(folder, 1, client("somebody"), who="Ben", book=book)  # put together with what Ann saved
store.undo(folder, 2, who="Ben", book=book)
entry = actuals.hours_of({"day": "2031-04-02", "person": "Ann", "task": "fitting", "hours": "1.5"}, "en")
actuals.put_hours(folder, entry, who="Ann")
"""


@pytest.fixture(scope="module")
def made(tmp_path_factory):
    """A desk's folder in which revisions were begun, saved, put together, taken back, and hours put down."""
    home = tmp_path_factory.mktemp("sealed") / "home"
    subprocess.run([sys.executable, "-c", MAKE, str(home)], check=True, timeout=300)
    return home


@pytest.fixture
def home(made, tmp_path):
    """A copy of it."""
    with (
        closing(sqlite3.connect(made / "desk.sqlite3")) as source,
        closing(sqlite3.connect(tmp_path / "desk.sqlite3")) as copy,
    ):
        source.backup(copy)
    return tmp_path


def _by_hand(home, statement):
    with closing(sqlite3.connect(home / "desk.sqlite3")) as database:
        database.execute("PRAGMA ignore_check_constraints = 1")  # damage asks no constraint
        assert database.execute(statement).rowcount == 1
        database.commit()


def test_whatever_makes_a_revision_seals_it(home):
    with closing(sqlite3.connect(home / "desk.sqlite3")) as database:
        seals = [row[0] for row in database.execute("SELECT seal FROM desk_revision")]
    assert len(seals) == 7  # the book; four of the job; a beginning and hours of what it took
    assert all(len(seal) == 64 for seal in seals)
    assert len(set(seals)) == 7
    assert check_home(home) == []


@pytest.mark.parametrize(
    "change",
    [
        "document = replace(document, 'somebody', 'somebodx')",
        "who = 'Eve'",
        "undoes = 3",
        "\"when\" = '2031-04-02 10:00:00'",
        "changes = replace(changes, 'note', 'nota')",
        "text = 'x'",
        "document = '{'",
        "document = substr(document, 9)",
        "number = 9",
    ],
)
def test_a_revision_changed_by_hand_is_named(home, change):
    _by_hand(home, f"UPDATE desk_revision SET {change} WHERE folder_id = 2 AND number = 4")
    found = [damage for damage in check_home(home) if damage.kind is DamageKind.REVISION]
    number = 9 if change == "number = 9" else 4
    assert [(damage.what, damage.number) for damage in found] == [("Stair at the chapel cottage", number)]


def test_what_was_kept_before_there_were_seals_is_sealed_as_it_stands(db):
    import importlib

    job = parse_job(sample_text("stair"), parse_book(sample_book_text()))
    folder = store.new_folder(Kind.JOB, "Mill loft", job, who="Ann", said="begun")
    revision = store.head(folder)
    seal = revision.seal
    Revision.objects.filter(pk=revision.pk).update(seal="")
    importlib.import_module("rodbook.desk.migrations.0011_seals").seal_all(django_apps, None)
    revision.refresh_from_db()
    assert revision.seal == seal == revision.sealed()


def test_a_seal_costs_a_save_next_to_nothing(db):
    book = parse_book(sample_book_text())
    job = parse_job(sample_text("converted-store"), book)
    openings = [o.model_copy(update={"mark": f"{o.mark}-{n}"}) for n in range(15) for o in job.openings]
    folder = store.new_folder(
        Kind.JOB, "Long", job.model_copy(update={"openings": tuple(openings)}), who="Ann", said="begun"
    )
    revision = store.head(folder)
    assert len(json.dumps(revision.document)) > 30_000
    took = []
    for _ in range(5):
        began = time.process_time()
        revision.sealed()
        took.append(time.process_time() - began)
    assert min(took) < 0.02


def test_hours_are_put_down_sealed(db):
    job = parse_job(sample_text("stair"), parse_book(sample_book_text()))
    folder = store.new_folder(Kind.JOB, "Mill loft", job, who="Ann", said="begun")
    entry = actuals.hours_of({"day": "2031-04-02", "person": "Ann", "task": "fitting", "hours": "1.5"}, "en")
    revision = actuals.put_hours(folder, entry, who="Ann")
    assert revision.seal == Revision.objects.get(pk=revision.pk).sealed()
    assert Folder.objects.get(of=folder).head == 2


def _damaged(pk, number, what="substr(document, 9)"):
    with connection.cursor() as cursor:
        cursor.execute("PRAGMA ignore_check_constraints = 1")
        cursor.execute(f"UPDATE desk_revision SET document = {what} WHERE folder_id = %s AND number = %s", (pk, number))
        assert cursor.rowcount == 1
        cursor.execute("PRAGMA ignore_check_constraints = 0")


def _noted(browser, pk, said):
    header = store.job_now(Folder.objects.get(pk=pk))[1].job.model_dump(mode="json", exclude_defaults=True)
    form = {**header, "note": said, "base": Folder.objects.get(pk=pk).head}
    assert browser.post(f"/jobs/{pk}/header/", form).status_code == 302


@pytest.mark.parametrize("what", ["substr(document, 9)", "'{}'"])
def test_a_job_whose_newest_revision_is_damaged_stands_aside_and_its_owner_goes_on_from_the_newest_sound_one(
    inside, store_job, what
):
    other = int(inside.post("/jobs/sample/", {"sample": "stair"}).url.split("/")[2])
    for said in ("one", "two", "three"):
        _noted(inside, store_job, said)
    _damaged(store_job, 4, what)
    _damaged(store_job, 3, "replace(document, 'two', 'twx')")  # can be read, and is not what was saved
    for page in ("/", f"/jobs/{other}/", "/dates/", "/book/prices/", "/weeks/", "/book/"):
        assert inside.get(page).status_code == 200, page
    reply = inside.get(f"/jobs/{store_job}/")
    page = reply.content.decode()
    assert reply.status_code == 503
    assert "Go on from revision 2" in page
    assert inside.post(f"/documents/{store_job}/go-on/", {"number": "3"}).status_code == 302
    assert Folder.objects.get(pk=store_job).head == 4  # 3 is not sound, so nothing was done
    assert inside.post(f"/documents/{store_job}/go-on/", {"number": "2"}).status_code == 302
    assert inside.get(f"/jobs/{store_job}/").status_code == 200
    revision, job = store.job_now(Folder.objects.get(pk=store_job))
    assert (revision.number, job.job.note) == (5, "one")
    assert revision.seal == revision.sealed()
    assert "Gone on from revision 2" in inside.get(f"/jobs/{store_job}/history/").content.decode()
    for n in (4, 5):
        assert inside.post(f"/jobs/{store_job}/history/{n}/undo/").status_code == 302
    assert inside.get(f"/jobs/{store_job}/history/compare/?from=4&to=5").status_code in (200, 302)
    assert inside.get(f"/jobs/{store_job}/change/?from=4").status_code in (200, 422, 503)
    inside.post(f"/documents/{store_job}/go-on/", {"number": "1"})
    assert Folder.objects.get(pk=store_job).head == 5  # the newest is sound now: there is nothing to go back behind
    assert inside.post(f"/documents/{store_job}/go-on/", {"number": "x"}).status_code == 404


def test_a_book_that_is_damaged_says_so_on_every_page_and_its_owner_goes_on(inside, store_job):
    folder, revision, book = store.book_now()
    store.save(folder, revision.number, lambda _: book.model_copy(update={"locale": "de"}), who="Ann")
    _damaged(folder.pk, 2)
    reply = inside.get(f"/jobs/{store_job}/")
    assert reply.status_code == 503
    assert "Go on from revision 1" in reply.content.decode()
    assert inside.get("/").status_code == 200
    inside.post(f"/documents/{folder.pk}/go-on/", {"number": "1"})
    assert inside.get(f"/jobs/{store_job}/").status_code == 200
    assert store.book_now()[2] == book
