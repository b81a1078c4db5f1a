"""One way to save, and no view goes round it: a change is made to the document as it stood where its form was opened."""

import ast
import threading
import time
from pathlib import Path

import pytest
from django.db import connections
from django.test import Client

import rodbook.desk
from rodbook.desk.models import Folder, Kind
from rodbook.desk.platform import store
from rodbook.desk.platform.grid import rows_of
from rodbook.errors import Fault, InputError
from rodbook.job.files import parse_book, parse_job, sample_book_text, sample_text

DESK = Path(rodbook.desk.__file__).parent

SAVES = {
    "platform/saving.py": "the way of every page",
    "openings/receiving.py": "readings from phones, which have no page",
    "make/offcut_ledger.py": "job and book together, both or neither",
}
"""Who calls `store.save`, and why."""

REVISIONS = {
    "platform/store.py": {"create", "add_revision"},
    "platform/actuals.py": {
        "add_revision"
    },  # hours and invoices are added one by one to what stands there now, under the lock
}
"""Who makes revisions."""

MADE_BEFORE = {
    ("openings/receiving.py", "receive"): "made by `found_for` from the job at the base that it gives back",
    ("openings/measuring_views.py", "_put_in"): "made by `found_for` from the job at the base that it gives back",
}
"""Changes that do not look at the document that they are given, and why."""


def _modules():
    for path in sorted(DESK.rglob("*.py")):
        name = path.relative_to(DESK).as_posix()
        if not name.startswith("migrations/"):
            yield name, ast.parse(path.read_text("utf-8"))


def _called(node, what):
    found = node.func
    return (found.attr if isinstance(found, ast.Attribute) else getattr(found, "id", "")) == what


def _changes(tree):
    """Each call that saves a change: the function around it, and what is given as the change."""
    for function in ast.walk(tree):
        if isinstance(function, ast.FunctionDef):
            for node in ast.walk(function):
                if not isinstance(node, ast.Call):
                    continue
                of_store = _called(node, "save") and getattr(getattr(node.func, "value", None), "id", "") == "store"
                if of_store or _called(node, "saved_or_told"):
                    yield function, node.args[3 if _called(node, "saved_or_told") else 2]


def _looks(change, function, tree):
    """Whether a change looks at the document that it is given."""
    if isinstance(change, ast.Name):
        made = [
            n for n in ast.walk(function) if isinstance(n, ast.Assign) and getattr(n.targets[0], "id", "") == change.id
        ]
        inner = [
            n
            for n in ast.walk(function)
            if isinstance(n, ast.FunctionDef) and n.name == change.id and n is not function
        ]
        if inner:
            return _uses(inner[0], inner[0].args.args[0].arg)
        if made:
            return _looks(made[0].value, function, tree)
        return change.id in {
            argument.arg for argument in function.args.args
        }  # handed on from a function that is looked at
    if isinstance(change, ast.Call):
        maker = [
            n for n in ast.walk(tree) if isinstance(n, ast.FunctionDef) and n.name == getattr(change.func, "id", "")
        ]
        inner = [n for n in maker[0].body if isinstance(n, ast.FunctionDef)] if maker else []
        return bool(inner) and _uses(inner[0], inner[0].args.args[0].arg)
    return isinstance(change, ast.Lambda) and _uses(change, change.args.args[0].arg)


def _uses(function, name):
    body = function.body if isinstance(function.body, list) else [function.body]
    return any(isinstance(n, ast.Name) and n.id == name for part in body for n in ast.walk(part))


def test_only_those_named_here_save_and_only_the_store_makes_revisions():
    saves, revisions = set(), {}
    for name, tree in _modules():
        for node in ast.walk(tree):
            if not isinstance(node, ast.Call):
                continue
            text = ast.unparse(node.func)
            if text == "store.save":
                saves.add(name)
            for what in ("create", "bulk_create", "get_or_create", "update", "add_revision"):
                if _called(node, what) and (
                    "Revision.objects" in text or "revisions." in text or what == "add_revision"
                ):
                    revisions.setdefault(name, set()).add(what)
    assert saves == set(SAVES)
    assert revisions == REVISIONS


def test_every_change_is_made_to_the_document_that_it_is_given():
    """Else it would be made to the newest, hold what others saved since, and clash with it or take it back."""
    seen, blind = 0, set()
    for name, tree in _modules():
        for function, change in _changes(tree):
            seen += 1
            if not _looks(change, function, tree):
                blind.add((name, function.name))
    assert seen > 15
    assert blind == set(MADE_BEFORE)


@pytest.fixture
def stair(db):
    book = parse_book(sample_book_text())
    job = parse_job(sample_text("converted-store"), book)
    return store.new_folder(Kind.JOB, job.job.name, job, who="Ann", said="begun"), book


def test_a_fault_of_the_change_is_told_apart_from_one_of_both_together(stair, monkeypatch):
    """Each alone is sound; a job that says both is not, by a rule made up here."""
    folder, book = stair

    def said(name):
        return lambda began: began | {"job": {**began["job"], name: "x"}}

    def check(job, _book):
        return [Fault("job", "plain.text", text="one or the other")] if job.job.note == job.job.client == "x" else []

    with pytest.raises(InputError) as caught:
        store.save(folder, 1, lambda began: began | {"job": {}}, who="Ann", book=book)
    assert not isinstance(caught.value, store.FaultTogether)
    monkeypatch.setattr(store, "check_job", check)
    store.save(folder, 1, said("note"), who="Ann", book=book)
    with pytest.raises(store.FaultTogether):
        store.save(folder, 1, said("client"), who="Ben", book=book)
    assert store.head(folder).number == 2


def _post(browser, pk, form, base, said):
    """One form of those that are about different things; `said` is new each time."""
    job = f"/jobs/{pk}/"
    if form == "header":
        header = store.job_at(Folder.objects.get(pk=pk), base)[1].job.model_dump(mode="json", exclude_defaults=True)
        return browser.post(job + "header/", {**header, "base": base, "note": said})
    if form == "about":
        return browser.post(job + "measure-about/C4/", {"base": base, "leaves": "1", "hand": "left", "note": said})
    return browser.post(job + "dates/days/", {"base": base, "start": "2031-04-02", "by": said})


@pytest.mark.parametrize(
    ("mine", "theirs"), [("header", "about"), ("about", "header"), ("header", "dates"), ("dates", "about")]
)
def test_two_people_at_different_things_never_clash(inside, store_job, mine, theirs):
    """Both opened the job at revision 1; the page of the second holds what stood then, and nothing of the first."""
    folder = Folder.objects.get(pk=store_job)
    assert _post(inside, store_job, theirs, 1, "2031-09-05").status_code == 302
    between = store.head(folder)
    assert between.number == 2
    assert _post(inside, store_job, mine, 1, "2031-09-08").status_code == 302
    now = store.head(folder)
    assert now.number >= 3
    text = str(now.document)
    assert "2031-09-05" in text
    assert "2031-09-08" in text


def test_a_form_with_faults_keeps_the_revision_that_it_was_opened_on(inside, store_job):
    """Else it would be saved as if whoever typed it had seen what others saved meanwhile, and take that back."""
    _post(inside, store_job, "header", 1, "damp in the corner")
    header = store.job_at(Folder.objects.get(pk=store_job), 1)[1].job.model_dump(mode="json", exclude_defaults=True)
    page = inside.post(f"/jobs/{store_job}/header/", {**header, "base": 1, "date": "soon"})
    assert page.status_code == 422
    assert 'name="base" value="1"' in page.content.decode()
    again = inside.post(f"/jobs/{store_job}/header/", {**header, "base": 1, "client": "somebody"})
    assert again.status_code == 302
    now = store.job_now(Folder.objects.get(pk=store_job))[1].job
    assert (now.note, now.client) == ("damp in the corner", "somebody")
    form = {"base": 1}
    for row in rows_of(store.head(Folder.objects.get(pk=store_job)).document["openings"]):
        form |= {f"r{row.number}-was": row.was, **{f"r{row.number}-{name}": cell for name, cell in row.cells.items()}}
    grid = inside.post(f"/jobs/{store_job}/openings/", form | {"r2-hm": "tall"})
    assert grid.status_code == 422
    assert 'name="base" value="1"' in grid.content.decode()


WRITERS, EACH = 8, 6


@pytest.mark.django_db(transaction=True)
def test_eight_who_save_at_once_never_clash_falsely_and_lose_nothing():
    """Each keeps the note of an opening of their own, from the page as they opened it, which is older by the time they save."""
    from rodbook.desk.platform.access import new_key

    book = store.book_now()[2]
    job = parse_job(sample_text("converted-store"), book)
    folder = store.new_folder(Kind.JOB, job.job.name, job, who="Ann", said="begun")
    marks, wrong, said = [o.mark for o in job.openings][:WRITERS], [], {}
    first = Client()
    first.get(f"/enter/{new_key()}/")

    def write(mark):
        try:
            browser = Client()
            browser.cookies = first.cookies.copy()
            for n in range(EACH):
                base = store.head(folder).number
                time.sleep(0.01)
                form = {"base": base, "leaves": "1", "hand": "left", "note": f"{mark} {n}"}
                reply = browser.post(f"/jobs/{folder.pk}/measure-about/{mark}/", form)
                if reply.status_code == 302:
                    said[mark] = f"{mark} {n}"
                else:
                    wrong.append((reply.status_code, mark, n))
        except Exception as error:
            wrong.append(error)
        finally:
            connections.close_all()

    threads = [threading.Thread(target=write, args=(mark,)) for mark in marks]
    for thread in threads:
        thread.start()
    for thread in threads:
        thread.join(timeout=240)
    assert wrong == []
    notes = {o.mark: o.note for o in store.job_now(folder)[1].openings}
    assert {mark: notes[mark] for mark in marks} == said
    assert folder.revisions.count() == 1 + WRITERS * EACH
