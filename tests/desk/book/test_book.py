"""The firm's book: every change a new revision, earlier prices and rates kept, faults beside their fields."""

import re
from datetime import date
from decimal import Decimal

import pytest

from rodbook.desk.platform import store
from rodbook.job.book import valid_on

PAGES = [
    "book/",
    "book/rates/",
    "book/boards/",
    "book/workshops/",
    "book/workshops/1/",
    "book/build-ups/",
    "book/build-ups/1/",
    "book/build-ups/2/",
    "book/history/",
    "book/hinges/",
    "book/hinges/1/",
    "book/hinges/new/",
    "book/boards/1/",
    "book/boards/new/",
    "book/sections/2/",
    "book/sections/new/",
    "book/workshops/new/",
    "book/history/?of=paint",
]


def _now():
    return store.book_now()


def _form_of(page):
    """What a browser would send of the first long form on a page."""
    form = re.search(r'<form method="post"[^>]*class="sheet broad">.*?</form>', page, re.S)[0]
    sent = dict(re.findall(r'<input[^>]*name="([^"]+)" value="([^"]*)"[^>]*>', form))
    for name, options in re.findall(r'<select[^>]*name="([^"]+)".*?>(.*?)</select>', form, re.S):
        sent[name] = (re.search(r'value="([^"]*)" selected', options) or [None, ""])[1]
    for tick in re.findall(r'<input[^>]*type="checkbox" name="([^"]+)" value="yes"( checked)?', form):
        sent[tick[0]] = "yes" if tick[1] else ""
    return sent


def test_a_new_middle_keeps_its_spread(inside):
    new = {"base": 1, "name": "size a part", "value": "5", "since": "2026-11-01", "source": "own records"}
    inside.post("/book/rates/put/", new)
    _, _, book = _now()
    old, found = (rate for rate in book.rates if rate.name == "size a part")
    assert (old.value, old.nine_in_ten) == (4, 6)
    assert (found.value, found.nine_in_ten) == (5, 7.5)


@pytest.mark.parametrize("address", PAGES)
def test_every_chapter_opens(inside, address):
    reply = inside.get(f"/{address}")
    assert reply.status_code == 200
    assert "style=" not in reply.content.decode()


def test_a_new_rate_is_added_and_the_old_one_kept(inside):
    new = {"base": 1, "name": "crew hour", "value": "41.5", "since": "2026-11-01", "source": "own records"}
    assert inside.post("/book/rates/put/", new).headers["Location"] == "/book/rates/"
    _, revision, book = _now()
    found = [rate for rate in book.rates if rate.name == "crew hour"]
    assert [rate.value for rate in found] == [38, 41.5]
    assert {rate.unit for rate in found} == {"currency/hour"}
    assert valid_on(tuple(found), date(2026, 10, 31)).value == 38
    assert revision.said == "rate crew hour from 2026-11-01 added"


def test_a_rate_for_the_same_day_puts_a_slip_right(inside):
    new = {"base": 1, "name": "crew hour", "value": "83", "since": "2026-11-01", "source": "own records"}
    inside.post("/book/rates/put/", new)
    inside.post("/book/rates/put/", new | {"base": 2, "value": "38.5"})
    _, revision, book = _now()
    assert [rate.value for rate in book.rates if rate.name == "crew hour"] == [38, 38.5]
    assert "value 83 → 38.5" in revision.said


@pytest.mark.parametrize(
    ("wrong", "field", "said"),
    [
        ({"value": "much"}, "value", "is not a number"),
        ({"value": "-1"}, "value", "at least 0"),
        ({"value": ""}, "value", "this is missing"),
        ({"since": "yesterday"}, "since", "is not a date"),
        ({"since": "20261101"}, "since", "is not a date"),
        ({"source": ""}, "source", "this is missing"),
        ({"name": ""}, "name", "this is missing"),
    ],
)
def test_a_fault_stands_beside_its_field_and_nothing_is_saved(inside, wrong, field, said):
    new = {"base": 1, "name": "paint", "value": "1.25", "since": "2026-11-01", "source": "a list"}
    reply = inside.post("/book/rates/put/", new | wrong)
    page = reply.content.decode()
    assert reply.status_code == 422
    assert said in page[page.index(f'id="fault-{field}"') :][:200]
    assert f'aria-describedby="fault-{field}"' in page
    for name, value in (new | wrong).items():
        assert name == "base" or not value or value in page
    assert _now()[1].number == 1


def test_a_new_price_is_added_and_the_old_one_kept(inside):
    new = {
        "base": 1,
        "size": "boards-1-1",
        "amount": "53.40",
        "since": "2026-11-15",
        "price_source": "a merchant's list",
    }
    assert inside.post("/book/boards/price/", new).headers["Location"] == "/book/boards/"
    _, revision, book = _now()
    assert [price.amount for price in book.boards[0].sheets[0].prices] == [
        Decimal("46.50"),
        Decimal("51.20"),
        Decimal("53.40"),
    ]
    assert revision.said == "22 mm MDF: 22 mm MDF 2440 x 1220: price from 2026-11-15 added"
    inside.post("/book/boards/price/", new | {"base": 2, "size": "sections-1-2", "amount": "8.40"})
    assert _now()[2].sections[0].lengths[1].prices[-1].amount == Decimal("8.40")


@pytest.mark.parametrize(
    ("wrong", "field"),
    [({"amount": "dear"}, "amount"), ({"size": "boards-9"}, "size"), ({"price_source": ""}, "price_source")],
)
def test_a_wrong_price_is_said_beside_its_field(inside, wrong, field):
    new = {"base": 1, "size": "boards-1-1", "amount": "53.40", "since": "2026-11-15", "price_source": "a list"}
    reply = inside.post("/book/boards/price/", new | wrong)
    assert reply.status_code == 422
    assert f'id="fault-{field}"' in reply.content.decode()
    assert _now()[1].number == 1


def test_a_price_of_what_is_not_there_is_said(inside):
    new = {"base": 1, "size": "boards-99-1", "amount": "1", "since": "2026-11-15", "price_source": "a list"}
    reply = inside.post("/book/boards/price/", new)
    assert reply.status_code == 422
    assert "not in the book any more" in reply.content.decode()


def test_offcuts_come_and_go(inside):
    new = {"base": 1, "board": "1", "label": "O-21", "length": "1210", "width": "84.5 cm"}
    inside.post("/book/boards/offcut/", new)
    _, revision, book = _now()
    assert [(o.label, o.length, o.width) for o in book.boards[0].offcuts] == [("O-21", 1210, 845)]
    assert "offcut O-21 added" in revision.said
    inside.post("/book/boards/offcut/out/", {"base": 2, "board": "2", "label": "O-14"})
    _, revision, book = _now()
    assert [o.label for o in book.boards[1].offcuts] == ["O-17"]
    assert "offcut O-14 taken out" in revision.said


@pytest.mark.parametrize(
    ("wrong", "field"), [({"length": "long"}, "length"), ({"board": "0"}, "board"), ({"label": ""}, "label")]
)
def test_a_wrong_offcut_is_said_beside_its_field(inside, wrong, field):
    new = {"base": 1, "board": "1", "label": "O-21", "length": "1210", "width": "845"}
    reply = inside.post("/book/boards/offcut/", new | wrong)
    assert reply.status_code == 422
    assert f'id="fault-{field}"' in reply.content.decode()


def test_two_offcuts_with_one_label_are_refused(inside):
    reply = inside.post(
        "/book/boards/offcut/", {"base": 1, "board": "2", "label": "O-14", "length": "900", "width": "400"}
    )
    assert reply.status_code == 422
    assert "each needs its own name" in reply.content.decode()


def test_a_workshop_gets_new_rates_and_keeps_the_old(inside):
    page = inside.get("/book/workshops/1/").content.decode()
    sent = _form_of(page) | {"since": "2026-11-20", "source": "a quote", "part": "2.45", "board-3": ""}
    assert inside.post("/book/workshops/1/rates/", sent).headers["Location"] == "/book/workshops/1/"
    _, revision, book = _now()
    old, new = book.workshops[0].rates
    assert (old.part, new.part) == (Decimal("2.20"), Decimal("2.45"))
    assert set(old.board_m2) - set(new.board_m2) == {"18 mm birch plywood"}
    assert new.section_m == old.section_m
    assert "rate from 2026-11-20 added" in revision.said


def test_a_wrong_workshop_rate_is_said_beside_its_field(inside):
    sent = _form_of(inside.get("/book/workshops/1/").content.decode())
    reply = inside.post("/book/workshops/1/rates/", sent | {"source": "a quote", "board-1": "dear", "boring": "x"})
    page = reply.content.decode()
    assert reply.status_code == 422
    assert 'id="fault-board-1"' in page
    assert 'id="fault-boring"' in page


def test_a_workshop_is_renamed_or_told(inside):
    about = {
        "base": 1,
        "was": _now()[2].workshops[0].name,
        "name": "Quarry Lane Workshop",
        "contact": "Mo",
        "lead_days": "15",
    }
    inside.post("/book/workshops/1/", about)
    assert (_now()[2].workshops[0].contact, _now()[2].workshops[0].lead_days) == ("Mo", 15)
    reply = inside.post("/book/workshops/1/", about | {"base": 2, "was": "Quarry Lane Workshop", "lead_days": "soon"})
    assert reply.status_code == 422
    assert 'id="fault-lead_days"' in reply.content.decode()


@pytest.mark.parametrize("number", [1, 2])
def test_a_build_up_sent_back_as_it_came_changes_nothing(inside, number):
    sent = _form_of(inside.get(f"/book/build-ups/{number}/").content.decode())
    sent.pop("as_new", None)
    assert inside.post(f"/book/build-ups/{number}/", sent).status_code == 302
    assert _now()[1].number == 1


def test_a_margin_is_changed_and_its_jobs_follow(inside, store_job):
    from rodbook.desk.platform.job_page import job_page

    name = job_page(store_job).job.job.build_up
    number = [b.name for b in _now()[2].build_ups].index(name) + 1
    before = job_page(store_job).plan.schedule[0].part.width.value
    sent = _form_of(inside.get(f"/book/build-ups/{number}/").content.decode()) | {"margin": "5"}
    inside.post(f"/book/build-ups/{number}/", sent)
    assert "margin" in _now()[1].said
    assert job_page(store_job).plan.schedule[0].part.width.value < before


def test_a_build_up_is_copied_under_its_own_name(inside):
    sent = _form_of(inside.get("/book/build-ups/1/").content.decode())
    reply = inside.post("/book/build-ups/1/", sent | {"name": "inset, oiled", "margin": "2.5", "as_new": "1"})
    assert reply.status_code == 302
    book = _now()[2]
    assert [(b.name, b.margin) for b in book.build_ups if b.family == "inset"] == [
        ("inset, painted", 3),
        ("inset, oiled", 2.5),
    ]
    taken = inside.post("/book/build-ups/1/", sent | {"base": 2, "name": "inset, oiled", "as_new": "1"})
    assert taken.status_code == 422
    assert 'id="fault-name"' in taken.content.decode()


def test_a_build_up_that_can_not_be_is_said_beside_its_field(inside):
    sent = _form_of(inside.get("/book/build-ups/1/").content.decode())
    reply = inside.post("/book/build-ups/1/", sent | {"packer_least": "20", "margin": "wide"})
    page = reply.content.decode()
    assert reply.status_code == 422
    assert 'id="fault-margin"' in page
    assert 'value="wide"' in page
    reply = inside.post("/book/build-ups/1/", sent | {"packer_least": "20"})
    assert 'id="fault-packer_least"' in reply.content.decode()


def test_firm_and_saw_are_saved(inside):
    firm = {
        "base": 1,
        "name": "Ash & Elm",
        "contact": "the yard",
        "kerf": "3",
        "edge_trim": "12",
        "turns": "2",
        "source": "measured",
        "currency": "gbp",
        "locale": "en_GB",
    }
    inside.post("/book/", firm)
    folder, _, book = _now()
    assert (book.firm.name, book.saw.kerf, book.saw.turns, folder.name) == ("Ash & Elm", 3, 2, "Ash & Elm")
    assert (book.currency, book.locale) == ("GBP", "en_GB")
    assert "currency EUR → GBP" in _now()[1].said
    reply = inside.post("/book/", firm | {"base": 2, "currency": "XQX", "locale": "quux!"})
    assert 'id="fault-currency"' in reply.content.decode()
    assert 'id="fault-locale"' in reply.content.decode()
    reply = inside.post("/book/", firm | {"base": 2, "name": "", "kerf": "thin", "turns": "0"})
    page = reply.content.decode()
    assert reply.status_code == 422
    assert 'id="fault-name"' in page
    assert 'id="fault-kerf"' in page
    assert 'id="fault-turns"' in page


def test_two_people_who_change_one_figure_are_told_and_others_both_stand(inside):
    new = {"base": 1, "name": "paint", "value": "1.25", "since": "2026-11-01", "source": "a list"}
    inside.post("/book/rates/put/", new)
    assert inside.post("/book/rates/put/", new | {"value": "1.30"}).status_code == 409
    inside.post("/book/rates/put/", new | {"name": "waste away", "value": "0.2"})
    assert {r.name for r in _now()[2].rates if r.since == date(2026, 11, 1)} == {"paint", "waste away"}


def test_the_book_has_its_own_history_and_can_go_back(inside):
    inside.post("/book/boards/offcut/out/", {"base": 1, "board": "2", "label": "O-14"})
    page = inside.get("/book/history/").content.decode()
    assert "offcut O-14 taken out" in page
    inside.post("/book/history/2/undo/")
    assert [o.label for o in _now()[2].boards[1].offcuts] == ["O-14", "O-17"]
    assert "nothing before the first" in inside.post("/book/history/1/undo/", follow=True).content.decode()
    assert inside.post("/book/history/99/undo/").status_code == 404


@pytest.mark.parametrize(
    "address",
    ["rates/put", "boards/price", "boards/offcut", "boards/offcut/out", "workshops/1/rates", "history/1/undo"],
)
def test_changes_of_the_book_are_posted(inside, address):
    assert inside.get(f"/book/{address}/").status_code == 405


@pytest.mark.parametrize("address", ["workshops/9", "build-ups/9", "workshops/0"])
def test_what_is_not_in_the_book_is_not_found(inside, address):
    assert inside.get(f"/book/{address}/").status_code == 404


def test_a_form_that_does_not_say_what_it_was_filled_in_on_is_refused(inside):
    assert inside.post("/book/rates/put/", {"name": "paint"}).status_code == 404


def test_the_least_offcut_that_is_kept_stands_with_the_saw(inside):
    page = inside.get("/book/").content.decode()
    assert re.search(r'name="keep_from" value="0.1"', page)
    sent = {
        "base": 1,
        "name": "Harrow",
        "kerf": "3.2",
        "edge_trim": "10",
        "source": "measured",
        "currency": "EUR",
        "locale": "en",
        "keep_from": "0.25",
    }
    inside.post("/book/", sent)
    assert _now()[2].saw.keep_from == 0.25
    for wrong in ("-1", "nan", "much", "11"):
        reply = inside.post("/book/", sent | {"base": 2, "keep_from": wrong})
        assert reply.status_code == 422
        assert 'id="fault-keep_from"' in reply.content.decode()
