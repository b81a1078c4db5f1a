"""The grid of openings and the lists that are brought in."""

import html
import io
import re

import pytest
from django.core.files.uploadedfile import SimpleUploadedFile

from rodbook.desk import store
from rodbook.desk.grid import COLUMNS, raw_openings, rows_of, rows_typed
from rodbook.desk.models import Folder


def _form(inside, pk):
    """The grid's form as a browser would send it back unchanged."""
    page = inside.get(f"/jobs/{pk}/openings/").content.decode()
    form = {"base": re.search(r'name="base" value="(\d+)"', page)[1]}
    _, job = store.job_now(Folder.objects.get(pk=pk))
    for row in rows_of(store.as_document(job)["openings"]):
        form |= {f"r{row.number}-was": row.was, **{f"r{row.number}-{n}": t for n, t in row.cells.items()}}
    return form


def _openings(pk):
    return {o.mark: o for o in store.job_now(Folder.objects.get(pk=pk))[1].openings}


def test_rows_go_out_and_come_back_the_same(inside, store_job):
    _, job = store.job_now(Folder.objects.get(pk=store_job))
    document = store.as_document(job)
    rows = rows_typed(_form(inside, store_job))
    openings, kept = raw_openings(rows, document["openings"])
    assert len(kept) == 14
    assert store.read_document("job", {**document, "openings": openings}).openings == job.openings


def test_saving_unchanged_makes_no_revision(inside, store_job):
    reply = inside.post(f"/jobs/{store_job}/openings/", _form(inside, store_job))
    assert reply.status_code == 302
    assert Folder.objects.get(pk=store_job).head == 1


def test_a_changed_reading_with_a_decimal_comma_is_saved(inside, store_job):
    form = _form(inside, store_job) | {"r0-wf": "845,5"}
    assert inside.post(f"/jobs/{store_job}/openings/", form).status_code == 302
    assert _openings(store_job)["C1"].widths[0] == 845.5
    assert Folder.objects.get(pk=store_job).revisions.first().said == "C1: width at foot 842 → 845.5"


def test_a_new_row_and_one_taken_out(inside, store_job):
    form = _form(inside, store_job) | {
        "r0-out": "on", "r14-mark": "C15", "r14-leaves": "1", "r14-wf": "524", "r14-wm": "524", "r14-wh": "524",
        "r14-hl": "2030", "r14-hm": "2030", "r14-hr": "2030",
    }  # fmt: skip
    assert inside.post(f"/jobs/{store_job}/openings/", form).status_code == 302
    found = _openings(store_job)
    assert "C1" not in found
    assert found["C15"].leaves == 1


def test_every_fault_stands_in_its_row_and_what_was_typed_is_kept(inside, store_job):
    form = _form(inside, store_job) | {"r0-wf": "84", "r2-hm": "tall", "r3-mark": "C2"}
    reply = inside.post(f"/jobs/{store_job}/openings/", form)
    page = reply.content.decode()
    assert reply.status_code == 422
    assert "84 mm is less than the smallest opening, 150 mm; did you mean 840?" in page
    assert "&#x27;tall&#x27; is not a length" in page
    assert 'value="84"' in page
    assert 'value="tall"' in page
    assert page.count('class="wrong"') >= 2
    assert Folder.objects.get(pk=store_job).head == 1


def test_what_the_grid_does_not_show_is_kept(inside, store_job):
    folder = Folder.objects.get(pk=store_job)
    revision, job = store.job_now(folder)
    first = job.openings[0].model_copy(update={"sill": True})
    store.save(folder, revision.number, job.model_copy(update={"openings": (first, *job.openings[1:])}), who="x")
    inside.post(f"/jobs/{store_job}/openings/", _form(inside, store_job) | {"r0-wf": "844"})
    assert _openings(store_job)["C1"].sill is True


def _list(text, name="list.csv"):
    return SimpleUploadedFile(name, text.encode() if isinstance(text, str) else text)


HEAD = "mark;leaves;width foot;width middle;width head;height left;height middle;height right;note\n"


def test_a_list_is_looked_at_before_it_is_brought_in(inside, store_job):
    text = HEAD + "C1;2;842;843;843;2030;2030;2030;damp\nC20;1;524,5;524;524;2031;2031;2031;\n"
    address = f"/jobs/{store_job}/openings/bring-in/"
    page = inside.post(address, {"list": _list(text)}).content.decode()
    assert "is changed" in page
    assert "note nothing → damp" in page
    assert "is added" in page
    assert Folder.objects.get(pk=store_job).head == 1
    confirmed = re.search(r'name="confirmed" value="([^"]+)"', page)[1].replace("&quot;", '"')
    assert inside.post(address, {"base": "1", "confirmed": confirmed}).status_code == 302
    found = _openings(store_job)
    assert found["C1"].note == "damp"
    assert found["C1"].diagonals is not None
    assert found["C20"].widths[0] == 524.5


def _bring_in(inside, pk, text):
    address = f"/jobs/{pk}/openings/bring-in/"
    page = inside.post(address, {"list": _list(text)}).content.decode()
    confirmed = html.unescape(re.search(r'name="confirmed" value="([^"]+)"', page)[1])
    base = str(Folder.objects.get(pk=pk).head)
    assert inside.post(address, {"base": base, "confirmed": confirmed}).status_code == 302
    return page


def test_a_list_may_say_what_is_so_by_default_too(inside, store_job):
    assert _openings(store_job)["C1"].leaves == 2
    page = _bring_in(inside, store_job, HEAD + "C1;1;842;843;843;2030;2030;2030;\nC2;2;844;844;847;2035;2035;2036;\n")
    assert "leaves 2 →" in page
    assert "stays as it is" in page
    assert _openings(store_job)["C1"].leaves == 1


def test_readings_in_a_list_make_a_planned_opening_a_standing_one(inside):
    reply = inside.post("/jobs/sample/", {"sample": "timber-house"})
    pk = int(reply.headers["Location"].rstrip("/").rsplit("/", 1)[1])
    _bring_in(inside, pk, HEAD + "W1;2;962;962;961;2140;2140;2141;\n")
    found = _openings(pk)["W1"]
    assert (found.state, found.leaf, found.widths) == ("standing", None, (962, 962, 961))
    assert found.room


@pytest.mark.parametrize(
    ("content", "name", "sentence"),
    [
        (HEAD + "C1;2;84;843;843;2030;2030;2030;\n", "a.csv", "did you mean 840?"),
        (b"MZ\x00\x01", "a.exe", "is no list"),
        (b"PK\x03\x04broken", "a.xlsx", ""),
        (b"\x00" * (10 * 1024 * 1024 + 1), "a.csv", "larger than 10 MB"),
        ("", "a.csv", ""),
    ],
)
def test_a_bad_list_is_one_sentence_and_nothing_is_kept(inside, store_job, content, name, sentence):
    reply = inside.post(f"/jobs/{store_job}/openings/bring-in/", {"list": _list(content, name)})
    assert reply.status_code == 422
    assert sentence in reply.content.decode()
    assert Folder.objects.get(pk=store_job).head == 1


def test_what_was_confirmed_can_not_be_anything(inside, store_job):
    for junk in ("{", "[1]", '[{"mark": {}}]', "null", "[[[[" * 2000, io.StringIO("x").read()):
        reply = inside.post(f"/jobs/{store_job}/openings/bring-in/", {"base": "1", "confirmed": junk})
        assert reply.status_code in (200, 422)
        assert Folder.objects.get(pk=store_job).head == 1


def test_a_missing_job_is_not_found(inside):
    assert inside.get("/jobs/999/openings/").status_code == 404
    assert len({c.name for c in COLUMNS}) == len(COLUMNS)
