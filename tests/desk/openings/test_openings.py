"""The grid of openings and the lists that are brought in."""

import html
import io
import re

import pytest
from django.core.files.uploadedfile import SimpleUploadedFile

from rodbook.desk.models import Draft, Folder, Photo, Revision
from rodbook.desk.openings.drafts import keep
from rodbook.desk.platform import store
from rodbook.desk.platform.grid import COLUMNS, PANELS, raw_openings, rows_of, rows_typed


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
        "r0-out": "on",
        "r14-mark": "C15",
        "r14-leaves": "1",
        "r14-wf": "524",
        "r14-wm": "524",
        "r14-wh": "524",
        "r14-hl": "2030",
        "r14-hm": "2030",
        "r14-hr": "2030",
    }
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


def test_head_sill_build_up_and_clear_size_are_typed(inside):
    reply = inside.post("/jobs/sample/", {"sample": "timber-house"})
    pk = int(reply.headers["Location"].rstrip("/").rsplit("/", 1)[1])
    mark, opening = next((m, o) for m, o in _openings(pk).items() if o.leaf)
    other = next(b.name for b in store.book_now()[2].build_ups if b.name != "inset, painted")
    n = list(_openings(pk)).index(mark)
    changes = {"lw": "", "lh": "", "cw": "900", "ch": "2 m", "head": "level", "sill": "yes", "build": other}
    form = _form(inside, pk) | {f"r{n}-{name}": text for name, text in changes.items()}
    assert inside.post(f"/jobs/{pk}/openings/", form).status_code == 302
    found = _openings(pk)[mark]
    assert (found.leaf, found.clear, found.sill, found.build_up) == (None, (900, 2000), True, other)
    said = Folder.objects.get(pk=pk).revisions.first().said
    assert f"{mark}: build up nothing → {other}" in said or f"{mark}: build up {opening.build_up} → {other}" in said
    assert f"{mark}: sill nothing → yes" in said
    page = inside.get(f"/jobs/{pk}/openings/").content.decode()
    assert re.search(r'name="more" value="yes" checked', page)
    assert inside.post(f"/jobs/{pk}/openings/", _form(inside, pk)).status_code == 302
    assert _openings(pk)[mark] == found


def test_rows_of_a_front_are_typed_in_one_cell(inside):
    pk = re.search(r"/jobs/(\d+)/", inside.post("/jobs/sample/", {"sample": "galley"}).url)[1]
    form = _form(inside, pk)
    assert [form[f"r{n}-rows"] for n in range(3)] == [
        "drawer 2 shares, drawer 2 shares, drawer 140",
        "leaves, apron 140",
        "leaves, drawer 140",
    ]
    assert inside.post(f"/jobs/{pk}/openings/", form).status_code == 302
    assert Folder.objects.get(pk=pk).head == 1
    reply = inside.post(f"/jobs/{pk}/openings/", form | {"r1-rows": "leaves, shelf 140"})
    assert reply.status_code == 422
    assert "the row 'shelf 140' can't be read" in html.unescape(reply.content.decode())
    assert inside.post(f"/jobs/{pk}/openings/", form | {"r1-rows": "drawer 150.5, leaves"}).status_code == 302
    assert [(row.kind, row.height) for row in _openings(pk)["U2"].rows] == [("drawer", 150.5), ("leaves", 0)]


def test_the_few_columns_show_only_when_they_are_used_or_at_fault(inside, store_job):
    page = inside.get(f"/jobs/{store_job}/openings/").content.decode()
    assert re.search(r'name="more" value="yes">', page)
    for name, wrong, said, status in (
        ("head", "domed", "level", 422),
        ("sill", "perhaps", "sill", 422),
        ("build", "none such", "no build-up", 200),  # kept, and stands aside
    ):
        reply = inside.post(
            f"/jobs/{store_job}/openings/", _form(inside, store_job) | {f"r0-{name}": wrong}, follow=True
        )
        page = html.unescape(reply.content.decode())
        assert reply.status_code == status, name
        assert said in page
        assert wrong in page
        assert 'name="more" value="yes" checked' in page


def test_the_words_that_a_list_may_use_may_be_pasted(inside, store_job):
    form = _form(inside, store_job) | {"r0-leaves": "pair", "r1-hand": "R", "r2-sill": "x", "r3-head": "Sloping"}
    assert inside.post(f"/jobs/{store_job}/openings/", form).status_code == 302
    first, second, third, fourth = list(_openings(store_job).values())[:4]
    assert (first.leaves, second.hand, third.sill, fourth.head) == (2, "right", True, "raked")


def test_a_form_without_a_column_leaves_what_stands_there(inside, store_job):
    inside.post(f"/jobs/{store_job}/openings/", _form(inside, store_job) | {"r0-sill": "yes", "r0-head": "raked"})
    older = {k: v for k, v in _form(inside, store_job).items() if not k.endswith(("-sill", "-head", "-build", "-cw"))}
    assert inside.post(f"/jobs/{store_job}/openings/", older | {"r0-note": "damp"}).status_code == 302
    found = _openings(store_job)["C1"]
    assert (found.sill, found.head, found.note) == (True, "raked", "damp")


def _panels(pk):
    return {p.mark: p for p in store.job_now(Folder.objects.get(pk=pk))[1].panels}


def _panel_form(inside, pk):
    raw = store.as_document(store.job_now(Folder.objects.get(pk=pk))[1])
    form = _form(inside, pk)
    for row in rows_of(raw.get("panels", []), PANELS):
        form |= {f"p{row.number}-was": row.was, **{f"p{row.number}-{n}": t for n, t in row.cells.items()}}
    return form


def test_panels_are_added_changed_and_taken_out_beside_the_openings(inside, store_job):
    address, before = f"/jobs/{store_job}/openings/", set(_panels(store_job))
    n = len(before)
    new = {
        f"p{n}-mark": "P9",
        f"p{n}-board": "18 mm MDF",
        f"p{n}-length": "1,2 m",
        f"p{n}-width": "400",
        f"p{n}-quantity": "3",
    }
    assert inside.post(address, _panel_form(inside, store_job) | new | {"r0-note": "damp"}).status_code == 302
    panel = _panels(store_job)["P9"]
    assert (panel.board, panel.length, panel.width, panel.quantity) == ("18 mm MDF", 1200, 400, 3)
    assert _openings(store_job)["C1"].note == "damp"
    assert "panel P9 added" in Revision.objects.filter(folder=store_job).first().said
    inside.post(address, _panel_form(inside, store_job) | {f"p{n}-width": "410"})
    assert _panels(store_job)["P9"].width == 410
    assert "P9: width 400 → 410" in Revision.objects.filter(folder=store_job).first().said
    inside.post(address, _form(inside, store_job))
    assert "P9" in _panels(store_job)
    inside.post(address, _panel_form(inside, store_job) | {f"p{n}-out": "on"})
    assert set(_panels(store_job)) == before


def test_a_fault_of_a_panel_stands_in_its_row(inside, store_job):
    n = len(_panels(store_job))
    new = {f"p{n}-mark": "C1", f"p{n}-board": "", f"p{n}-length": "long", f"p{n}-width": "400"}
    reply = inside.post(f"/jobs/{store_job}/openings/", _panel_form(inside, store_job) | new)
    page = reply.content.decode()
    assert reply.status_code == 422
    assert "&#x27;long&#x27; is not a length" in page
    assert f'aria-describedby="faults-p{n}"' in page
    assert 'value="long"' in page
    assert "<details open>" in page
    assert Folder.objects.get(pk=store_job).head == 1


def test_what_is_begun_on_site_shows_and_can_be_thrown_away(inside, store_job, client):
    folder = Folder.objects.get(pk=store_job)
    keep(folder, "C70", {"room": "attic", "widths-0": 842.0, "widths-1": 843.0, "widths-2": 843.0})
    keep(folder, "C1", {"depth": 400.0})
    Photo.objects.create(folder=folder, mark="C70", sha256="0" * 64, kind="image/png", who="x")
    page = " ".join(inside.get(f"/jobs/{store_job}/openings/").content.decode().split())
    assert re.search(r"C70</strong> is begun on site and not in the job yet: 3 readings", page)
    assert "and its picture" in page
    assert re.search(r"C1</strong> has readings that are not in the job yet: 1 reading ?<", page)
    assert f"/jobs/{store_job}/measure/C70/" in page
    assert inside.get(f"/jobs/{store_job}/measure-out/C70/").status_code == 405
    reply = inside.post(f"/jobs/{store_job}/measure-out/C70/", follow=True)
    assert "The beginning of C70 is thrown away." in reply.content.decode()
    assert not Photo.objects.exists()
    inside.post(f"/jobs/{store_job}/measure-out/C1/")
    assert not Draft.objects.exists()
    assert _openings(store_job)["C1"].widths
    assert "gone already" in inside.post(f"/jobs/{store_job}/measure-out/C1/", follow=True).content.decode()
    assert Folder.objects.get(pk=store_job).head == 1


def test_what_the_grid_does_not_show_is_kept(inside, store_job):
    folder = Folder.objects.get(pk=store_job)
    revision, job = store.job_now(folder)
    first = job.openings[0].model_copy(update={"sill": True})
    store.save(
        folder, revision.number, lambda _: job.model_copy(update={"openings": (first, *job.openings[1:])}), who="x"
    )
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


def test_a_list_brings_head_sill_build_up_and_clear_size(inside):
    reply = inside.post("/jobs/sample/", {"sample": "timber-house"})
    pk = int(reply.headers["Location"].rstrip("/").rsplit("/", 1)[1])
    other = store.book_now()[2].build_ups[1].name
    _bring_in(
        inside,
        pk,
        f"mark;clear width;clear height;sill;build-up;head\nW1;900;2000;yes;{other};level\nN1;800;1900;no;;raked\n",
    )
    found = _openings(pk)
    assert (found["W1"].leaf, found["W1"].clear, found["W1"].sill, found["W1"].build_up) == (
        None,
        (900, 2000),
        True,
        other,
    )
    assert (found["N1"].head, found["N1"].state) == ("raked", "planned")


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


def test_a_run_of_trim_is_typed_told_and_follows_a_new_mark(inside, store_job):
    there = f"/jobs/{store_job}/openings/"
    form = _form(inside, store_job) | {"t0-mark": "corridor", "t0-openings": "C1, C2", "t0-piers": "310,5"}
    reply = inside.post(there, form, follow=True)
    assert "2 openings have 1 pier between them, not 2" in reply.content.decode()
    right = _form(inside, store_job) | {
        "t0-was": "corridor",
        "t0-mark": "corridor",
        "t0-openings": "C1, C2",
        "t0-piers": "310,5;",
    }
    assert inside.post(there, right).status_code == 302
    job = store.job_now(Folder.objects.get(pk=store_job))[1]
    assert [(r.name, r.openings, r.piers) for r in job.runs] == [("corridor", ("C1", "C2"), (310.5,))]
    page = inside.get(there).content.decode()
    assert "The trim of corridor runs on over C1 to C2" in page
    assert 'value="C1; C2"' in page
    assert inside.post(there, _form(inside, store_job) | {"r0-mark": "D1"}).status_code == 302
    assert store.job_now(Folder.objects.get(pk=store_job))[1].runs[0].openings == ("D1", "C2")


SIZES = ("wf", "wm", "wh", "hl", "hm", "hr")


def _row(number, mark, width, height="2030", **more):
    sizes = dict(zip(SIZES, (width, width, width, height, height, height), strict=True))
    cells = {"mark": mark, "leaves": "", **sizes, **more}
    return {f"r{number}-{name}": text for name, text in cells.items()}


def test_a_bad_opening_is_kept_stands_aside_in_its_row_and_the_others_are_planned(inside, store_job):
    there = f"/jobs/{store_job}/openings/"
    page = inside.post(there, _form(inside, store_job) | {"r1-wf": "700"}, follow=True).content.decode()
    assert _openings(store_job)["C2"].widths[0] == 700
    told = html.unescape(page)
    assert "Stands aside, and nothing here has any of it: C2, widths: 700, 844, 847 differ by 147 mm" in told
    assert f'href="{there}#r1"' in page
    row = page[page.index('id="faults-r1"') :][:400]
    assert "differ by 147 mm" in row
    assert "13 of 14 openings" in told
    from rodbook.desk.platform.job_page import job_page

    plan = job_page(store_job).plan
    assert [one.mark for one in plan.missing] == ["C2"]
    assert len(plan.openings) == 13
    for other in ("parts", "sizes", "boards", "papers", "price", "dates"):
        assert (
            "Stands aside, and nothing here has any of it: C2"
            in inside.get(f"/jobs/{store_job}/{other}/").content.decode()
        )


def test_with_a_bad_opening_the_rest_of_the_job_can_still_be_changed(inside, store_job):
    inside.post(f"/jobs/{store_job}/openings/", _form(inside, store_job) | {"r1-wf": "700"})
    about = {"name": "Renamed", "revision": "B", "date": "2026-11-02", "build_up": "inset, painted", "base": "2"}
    assert inside.post(f"/jobs/{store_job}/header/", about).status_code == 302
    assert store.job_now(Folder.objects.get(pk=store_job))[1].job.name == "Renamed"


def test_a_row_that_can_not_be_read_keeps_nobody_from_saving_the_others(inside, store_job):
    there = f"/jobs/{store_job}/openings/"
    form = (
        _form(inside, store_job)
        | {"r0-depth": "411", "r2-hm": "tall"}
        | _row(14, "C15", "524")
        | _row(15, "C16", "wide")
    )
    reply = inside.post(there, form)
    page = html.unescape(reply.content.decode())
    assert reply.status_code == 422
    found = _openings(store_job)
    assert (found["C1"].depth, found["C15"].widths, "C16" in found) == (411, (524, 524, 524), False)
    assert found["C3"].heights[1] != 0
    assert "'tall' is not a length" in page
    assert 'value="wide"' in page
    assert "The rows at fault are not in it" in page
    base = re.search(r'name="base" value="(\d+)"', page)[1]
    again = form | {"base": base, "r2-hm": "2032", "r14-was": "C15"} | _row(15, "C16", "529")
    assert 'name="r14-was" value="C15"' in page
    assert inside.post(there, again).status_code == 302
    assert list(_openings(store_job)) == [f"C{n}" for n in range(1, 17)]


def test_two_rows_of_one_mark_are_not_both_kept(inside, store_job):
    reply = inside.post(f"/jobs/{store_job}/openings/", _form(inside, store_job) | _row(14, "C3", "524"))
    assert reply.status_code == 422
    assert "is already the mark of" in html.unescape(reply.content.decode())
    assert len(_openings(store_job)) == 14


def test_leaves_are_proposed_by_width_where_nobody_says_them(inside, store_job):
    form = _form(inside, store_job)
    for n, width in enumerate(("524", "842,5", "1300", "1500"), 14):
        form |= _row(n, f"N{n}", width)
    form |= _row(18, "N18", "842", leaves="1")
    assert inside.post(f"/jobs/{store_job}/openings/", form).status_code == 302
    found = _openings(store_job)
    assert [found[f"N{n}"].leaves for n in range(14, 19)] == [1, 2, 2, 3, 1]
    assert '<option value="" label="by width"' in inside.get(f"/jobs/{store_job}/openings/").content.decode()
