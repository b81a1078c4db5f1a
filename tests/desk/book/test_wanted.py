"""The book's page of pieces wanted from waste: put in, changed, taken out, and what is refused."""

import re
from datetime import date
from decimal import Decimal

import pytest

from rodbook.desk.models import Folder
from rodbook.desk.platform import shop_edits, store
from rodbook.desk.platform.planning import Work, content_key, planner
from rodbook.errors import InputError
from rodbook.job.models import Making
from rodbook.plan import from_waste, make_plan

NEW = {
    "base": 1,
    "was": "",
    "board": "2",
    "label": "W-9",
    "length": "410",
    "width": "12 cm",
    "number": "3",
    "worth": "1.20",
    "purpose": "shelf in the van",
    "since": "2026-11-20",
}


def _now():
    return store.book_now()


def _wanted():
    return {piece.label: piece for board in _now()[2].boards for piece in board.wanted}


def test_the_list_says_all_of_every_piece(inside):
    page = re.sub(r">\s+<", "><", inside.get("/book/wanted/").content.decode())
    for label, piece in _wanted().items():
        assert f'<th scope="row">{label}</th><td class="number" data-word="Wanted">{piece.number}</td>' in page
        assert piece.purpose in page
    assert "by its area" in page
    assert 'value="W-5"' in page
    assert 'aria-current="page">wanted pieces' in page
    assert not re.search(r"<style|\sstyle=|<script(?![^>]*src=)", page)


def test_pieces_come_and_go(inside):
    assert inside.post("/book/wanted/put/", NEW).headers["Location"] == "/book/wanted/"
    _, revision, book = _now()
    piece = book.boards[1].wanted[-1]
    assert (piece.label, piece.length, piece.width, piece.number, piece.worth, piece.purpose, piece.since) == (
        "W-9",
        410,
        120,
        3,
        Decimal("1.20"),
        "shelf in the van",
        date(2026, 11, 20),
    )
    assert "wanted piece W-9 added" in revision.said
    inside.post("/book/wanted/out/", {"base": 2, "label": "W-9"})
    assert "wanted piece W-9 taken out" in _now()[1].said
    assert "W-9" not in _wanted()
    inside.post("/book/wanted/out/", {"base": 3, "label": "W-9"})
    assert _now()[1].number == 3  # nothing to take out twice


def test_the_same_form_sent_twice_puts_one_piece_in(inside):
    inside.post("/book/wanted/put/", NEW)
    inside.post("/book/wanted/put/", NEW)
    assert _now()[1].number == 2
    reply = inside.post("/book/wanted/put/", NEW | {"base": 2})
    assert reply.status_code == 422
    assert "each needs its own" in reply.content.decode()


def test_a_piece_is_changed_in_its_place_and_goes_over_to_another_board(inside):
    page = inside.get("/book/wanted/?change=W-2").content.decode()
    assert 'name="was" value="W-2"' in page
    assert 'value="cleats and stops for jigs"' in page
    inside.post("/book/wanted/put/", NEW | {"was": "W-2", "label": "W-2", "number": "7"})
    _, revision, book = _now()
    assert [piece.label for piece in book.boards[1].wanted] == ["W-1", "W-2", "W-3"]
    assert "W-2: number 12 → 7" in revision.said
    inside.post("/book/wanted/put/", NEW | {"base": 2, "was": "W-2", "label": "W-2", "board": "1"})
    assert [[piece.label for piece in board.wanted] for board in _now()[2].boards] == [
        ["W-4", "W-2"],
        ["W-1", "W-3"],
        [],
    ]
    reply = inside.post("/book/wanted/put/", NEW | {"base": 3, "was": "W-77"})
    assert reply.status_code == 422
    assert "W-77 is not on the list of wanted pieces any more" in reply.content.decode()


@pytest.mark.parametrize(
    ("wrong", "field", "said"),
    [
        ({"board": ""}, "board", "choose the board"),
        ({"board": "99"}, "board", "choose the board"),
        ({"label": ""}, "label", "this is missing"),
        ({"label": "O-14"}, "label", "is written on an offcut"),
        ({"length": "long"}, "length", "long"),
        ({"length": "0"}, "length", "more than"),
        ({"length": "9999"}, "length", "larger than any sheet"),
        ({"width": "-3"}, "width", "more than"),
        ({"width": "nan"}, "width", "nan"),
        ({"width": "1"}, "width", "less than the saw"),
        ({"number": "0"}, "number", "at least"),
        ({"number": "1e9"}, "number", "whole number"),
        ({"number": "501"}, "number", "at most"),
        ({"worth": "0"}, "worth", "more than"),
        ({"worth": "2 USD"}, "worth", "is in USD and the book in EUR"),
        ({"worth": "NaN"}, "worth", "can&#x27;t be used|not a number"),
        ({"since": "yesterday"}, "since", "not a date"),
    ],
)
def test_what_is_wrong_is_said_beside_its_field_and_what_was_typed_stays(inside, wrong, field, said):
    reply = inside.post("/book/wanted/put/", NEW | wrong)
    page = reply.content.decode()
    assert reply.status_code == 422
    found = re.search(rf'id="fault-{field}">([^<]*)<', page)
    assert found
    assert re.search(said, found[1])
    assert 'value="shelf in the van"' in page
    assert _now()[1].number == 1


def test_only_owners_see_the_list(inside, monkeypatch):
    monkeypatch.setattr("rodbook.desk.platform.access.role_of", lambda _request: "maker")
    assert inside.get("/book/wanted/").status_code == 403
    assert inside.post("/book/wanted/put/", NEW).status_code == 403
    assert inside.post("/book/wanted/out/", {"base": 1, "label": "W-2"}).status_code == 403


def test_an_empty_list_says_so(inside):
    for base, label in enumerate(_wanted(), 1):
        inside.post("/book/wanted/out/", {"base": base, "label": label})
    page = inside.get("/book/wanted/").content.decode()
    assert "Nothing is wanted." in page
    assert 'value="W-1"' in page


def test_the_next_label_is_a_free_one():
    raw = {"boards": [{"wanted": [{"label": "Z9"}, {"label": "shelf"}]}, {"wanted": [{"label": "Z10"}]}]}
    assert shop_edits.next_wanted_label(raw) == "Z11"
    assert shop_edits.next_wanted_label(raw, ["z11", "Z12"]) == "Z13"
    assert shop_edits.next_wanted_label({"boards": []}) == "W-1"


def test_ticking_off_leaves_what_is_still_wanted_and_tells_every_label_that_is_gone():
    raw = {"boards": [{"wanted": [{"label": "A", "number": 5}, {"label": "B"}]}]}
    assert shop_edits.tick_off_wanted(raw, {"A": 3}) == {
        "boards": [{"wanted": [{"label": "A", "number": 2}, {"label": "B"}]}]
    }
    assert shop_edits.tick_off_wanted(raw, {"A": 9, "B": 1}) == {"boards": [{}]}
    with pytest.raises(InputError) as told:
        shop_edits.tick_off_wanted(raw, {"C": 1, "A": 1, "D": 1})
    assert len(told.value.faults) == 2


@pytest.fixture(scope="module")
def kept():
    return {}


@pytest.fixture
def galley(inside, kept, monkeypatch):
    """The galley, whose boxes are cut on site, with its layouts."""
    reply = inside.post("/jobs/sample/", {"sample": "galley"})
    pk = int(reply.headers["Location"].rstrip("/").rsplit("/", 1)[1])
    job, book = store.job_now(Folder.objects.get(pk=pk))[1], _now()[2]
    plan = make_plan(job, book, kept=kept)
    monkeypatch.setitem(planner._works, plan_key := content_key(job, book), Work(plan_key, "done", plan=plan))
    return pk, plan


def test_parts_of_a_job_are_put_on_the_list_for_others(inside, galley, kept):
    pk, plan = galley
    page = inside.get(f"/jobs/{pk}/boards/wanted/").content.decode()
    on_site = [line for line in plan.lines_made(Making.SITE) if not line.part.sectional]
    assert on_site
    for line in on_site:
        assert f'name="number-{line.mark}"' in page
    for line in plan.lines_made(Making.BOUGHT):
        assert f'name="number-{line.mark}"' not in page
    line = next(line for line in on_site if line.mark == "2-head")
    address, sent = f"/jobs/{pk}/boards/wanted/", {"base": 1, "number-2-head": "1", "number-S1": ""}
    assert inside.post(address, sent).headers["Location"] == "/book/wanted/"
    piece = _wanted()["2-head of 26-061"]
    assert (piece.length, piece.width, piece.number) == (line.part.cut_length, line.part.cut_width, 1)
    assert piece.purpose == plan.job.job.name
    assert piece in _now()[2].board(line.part.stock).wanted
    # the job that they are parts of does not cut them twice, and another one may
    assert "2-head of 26-061" not in {w.label for w in from_waste(make_plan(plan.job, _now()[2], kept=kept))}
    header = plan.job.job.model_copy(update={"name": "another galley"})
    other = make_plan(plan.job.model_copy(update={"job": header}), _now()[2], kept=kept)
    assert "2-head of 26-061" in {w.label for m in other.materials for w in m.wanted}


def test_parts_are_put_on_the_list_once_however_often_they_are_sent(inside, galley, kept, monkeypatch):
    pk, plan = galley
    for _time in range(2):
        inside.post(f"/jobs/{pk}/boards/wanted/", {"base": _now()[1].number, "number-1-leg-left": "1"})
        key = content_key(plan.job, _now()[2])
        done = make_plan(plan.job, _now()[2], kept=kept)
        monkeypatch.setitem(planner._works, key, Work(key, "done", plan=done))
    assert sum(label.startswith("1-leg-left") for label in _wanted()) == 1
    assert "on the list already: 1" in inside.get(f"/jobs/{pk}/boards/wanted/").content.decode()


@pytest.mark.parametrize("number", ["2", "-1", "x", "nan", "1e0", "99999", "²"])
def test_no_more_parts_are_put_on_the_list_than_the_job_has(inside, galley, number):
    pk, _plan = galley
    reply = inside.post(f"/jobs/{pk}/boards/wanted/", {"base": 1, "number-2-head": number})
    page = reply.content.decode()
    assert reply.status_code == 422
    assert 'id="fault-number-2-head"' in page
    assert "write 0 to 1" in page
    assert _now()[1].number == 1


def test_parts_for_others_need_layouts_a_number_and_the_owner(inside, galley, store_job, monkeypatch):
    pk, _plan = galley
    none = inside.post(f"/jobs/{pk}/boards/wanted/", {"base": 1})
    assert none.status_code == 422
    assert "no number is typed" in none.content.decode()
    with monkeypatch.context() as patch:
        patch.setattr(planner, "_works", {})  # another test may have had the same job laid out
        reply = inside.get(f"/jobs/{store_job}/boards/wanted/")
    assert reply.headers["Location"] == f"/jobs/{store_job}/boards/"
    monkeypatch.setattr("rodbook.desk.platform.access.role_of", lambda _request: "maker")
    assert inside.get(f"/jobs/{pk}/boards/wanted/").status_code == 403
    assert inside.post(f"/jobs/{pk}/boards/wanted/", {"base": 1, "number-2-head": "1"}).status_code == 403
