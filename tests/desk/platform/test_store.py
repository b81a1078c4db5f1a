"""Every save is a revision; nobody's work is lost."""

import importlib
import threading

import pytest
from django.apps import apps as django_apps
from django.db import connections

from rodbook.desk.models import Kind, Revision
from rodbook.desk.platform import store
from rodbook.errors import InputError
from rodbook.job.files import parse_job, sample_text


@pytest.fixture
def book(db):
    return store.book_now()[2]


@pytest.fixture
def folder(book):
    job = parse_job(sample_text("converted-store"), book)
    return store.new_folder(Kind.JOB, job.job.name, job, who="Ann", said="Begun")


def _noted(job, mark, note):
    rows = tuple(o.model_copy(update={"note": note}) if o.mark == mark else o for o in job.openings)
    return job.model_copy(update={"openings": rows})


def test_a_save_is_a_revision_with_who_and_what(folder, book):
    revision, job = store.job_now(folder)
    saved = store.save(folder, revision.number, lambda _: _noted(job, "C3", "damp"), who="Ben", book=book)
    assert (saved.revision.number, saved.revision.who, saved.revision.said) == (2, "Ben", "C3: note nothing → damp")
    assert store.job_at(folder, 1)[1] == job


def test_saving_nothing_new_makes_no_revision(folder, book):
    _, job = store.job_now(folder)
    assert store.save(folder, 1, lambda _: job, who="Ben", book=book).revision.number == 1


def test_the_second_to_save_is_told_and_both_changes_stand(folder, book):
    _, job = store.job_now(folder)
    store.save(folder, 1, lambda _: _noted(job, "C3", "damp"), who="Ann", book=book)
    saved = store.save(folder, 1, lambda _: _noted(job, "C4", "socket"), who="Ben", book=book)
    assert saved.meanwhile.said == "C3: note nothing → damp"
    notes = {o.mark: o.note for o in store.job_now(folder)[1].openings}
    assert (notes["C3"], notes["C4"]) == ("damp", "socket")


def test_a_clash_saves_nothing_and_keeps_both(folder, book):
    _, job = store.job_now(folder)
    store.save(folder, 1, lambda _: _noted(job, "C3", "damp"), who="Ann", book=book)
    with pytest.raises(store.Overtaken) as caught:
        store.save(folder, 1, lambda _: _noted(job, "C3", "dry"), who="Ben", book=book)
    (clash,) = caught.value.both.clashes
    assert (clash.theirs, clash.mine) == ("damp", "dry")
    assert store.head(folder).number == 2


def test_undo_takes_one_back_and_keeps_what_came_after(folder, book):
    _, job = store.job_now(folder)
    store.save(folder, 1, lambda _: _noted(job, "C3", "damp"), who="Ann", book=book)
    _, job = store.job_now(folder)
    store.save(folder, 2, lambda _: _noted(job, "C4", "socket"), who="Ann", book=book)
    saved = store.undo(folder, 2, who="Ann", book=book)
    assert saved.revision.undoes == 2
    notes = {o.mark: o.note for o in store.job_now(folder)[1].openings}
    assert (notes["C3"], notes["C4"]) == ("", "socket")
    store.undo(folder, saved.revision.number, who="Ann", book=book)
    assert {o.mark: o.note for o in store.job_now(folder)[1].openings}["C3"] == "damp"


def test_the_first_revision_can_not_be_taken_back(folder, book):
    with pytest.raises(InputError, match="nothing before the first"):
        store.undo(folder, 1, who="Ann", book=book)


@pytest.mark.django_db(transaction=True)
def test_many_save_at_once_and_no_revision_is_lost():
    book = store.book_now()[2]
    job = parse_job(sample_text("converted-store"), book)
    folder = store.new_folder(Kind.JOB, job.job.name, job, who="Ann", said="Begun")
    marks, failed = [o.mark for o in job.openings][:8], []

    def save(mark):
        try:
            store.save(folder, 1, lambda _: _noted(job, mark, f"seen by {mark}"), who=mark, book=book)
        except Exception as error:
            failed.append(error)
        finally:
            connections.close_all()

    threads = [threading.Thread(target=save, args=(mark,)) for mark in marks]
    for thread in threads:
        thread.start()
    for thread in threads:
        thread.join()
    assert not failed
    assert sorted(r.number for r in folder.revisions.all()) == list(range(1, 10))
    notes = {o.mark: o.note for o in store.job_now(folder)[1].openings}
    assert all(notes[mark] == f"seen by {mark}" for mark in marks)


def test_kept_books_of_format_1_are_brought_up(book, transactional_db):
    """A hole right through was kept as depth 0 in one book, and as nothing at all in most: both mean what they meant."""
    step = importlib.import_module("rodbook.desk.migrations.0007_holes_through")
    folder, revision, _ = store.book_now()
    document = revision.document | {"format": 1}
    document["fittings"] = [dict(fitting) for fitting in document["fittings"]]
    document["fittings"][0]["depth"] = 0
    Revision.objects.filter(pk=revision.pk).update(document=document)
    step.said_through(django_apps, None)
    _, kept, after = store.book_now()
    assert kept.document["format"] == after.format == 2
    assert after.fittings[0].depth == "through"
    assert after == book
    assert folder.head == 1
