"""A merchant's price list brought into the book: looked at first, put beside what stands, refused where it is unclear."""

import io
import json

import openpyxl
import pytest
from django.core.files.uploadedfile import SimpleUploadedFile

from rodbook.desk.platform import store, uploads

ADDRESS = "/book/boards/price-list/"
ABOUT = {"base": 1, "since": "2026-12-01", "source": "winter list"}
LIST = "name;price\n22 mm MDF 2440 x 1220;53,00\n70 x 22 trim, 2.4 m;7,90\n18 mm MDF 2440x1220;45\nScrews;3\n"


def _sent(text=LIST, name="list.csv", **about):
    data = text if isinstance(text, bytes) else text.encode()
    return ABOUT | about | {"list": SimpleUploadedFile(name, data)}


def _prices(book):
    return {(size.name, str(p.amount), p.source) for b in book.boards for size in b.sheets for p in size.prices}


def _confirmed(page):
    found = page.split('name="confirmed" value="')[1].split('"')[0]
    return found.replace("&quot;", '"')


def test_what_would_change_is_said_row_by_row_and_nothing_is_kept_yet(inside):
    page = inside.post(ADDRESS, _sent()).content.decode()
    for text in ("€51.20", "€53.00", "+3.5%", "Prices that stay", "70 x 22 trim, 2.4 m", "18 mm MDF 2440x1220"):
        assert text in page, text
    assert "Screws" not in page
    assert store.book_now()[1].number == 1


def test_then_the_new_price_stands_beside_the_old(inside):
    page = inside.post(ADDRESS, _sent()).content.decode()
    reply = inside.post(ADDRESS, {"base": 1, "confirmed": _confirmed(page)})
    assert reply.headers["Location"] == "/book/boards/"
    _, revision, book = store.book_now()
    assert revision.said == "22 mm MDF: 22 mm MDF 2440 x 1220: price from 2026-12-01 added"
    assert {amount for name, amount, _ in _prices(book) if name == "22 mm MDF 2440 x 1220"} == {
        "46.50",
        "51.20",
        "53.00",
    }
    page = inside.post(ADDRESS, _sent(base=2)).content.decode()
    assert "Nothing in this list would change the book." in page


def test_a_workbook_is_read_too(inside):
    book, out = openpyxl.Workbook(), io.BytesIO()
    for row in (["article", "net"], ["22 mm MDF 2440 x 1220", 55.5]):
        book.active.append(row)
    book.save(out)
    assert "€55.50" in inside.post(ADDRESS, _sent(out.getvalue(), "list.xlsx")).content.decode()


@pytest.mark.parametrize(
    ("sent", "field", "said"),
    [
        (ABOUT, "list", "choose a file first"),
        (_sent(name="list.exe"), "list", "a file ending in .exe is no list"),
        (_sent(b"\xff\xfe\x00"), "list", "UTF-16 text breaks off"),
        (_sent(b"PK no book"), "list", ""),
        (_sent("a;b\n1;2\n"), "list", "no row has headings"),
        (_sent("name;price\n22 mm MDF 2440 x 1220;-3\n"), "list", "below zero"),
        (_sent("name;price;currency\n22 mm MDF 2440 x 1220;53;GBP\n"), "list", "it is in GBP and the book in EUR"),
        (_sent("name;price\n22 mm MDF 2440 x 1220;1.234\n"), "list", "read as a price for certain"),
        (_sent("name;price\n22 mm MDF 2440 x 1220;99\n", since="2026-09-01"), "list", "from 2026-09-01 already"),
        (_sent(since=""), "since", "is not a day"),
        (_sent(since="2026-13-01"), "since", "is not a day"),
        (_sent(source=""), "source", "whose list it is"),
    ],
)
def test_what_is_wrong_stands_beside_its_field_and_nothing_is_taken(inside, sent, field, said):
    for value in sent.values():
        if hasattr(value, "seek"):
            value.seek(0)
    reply = inside.post(ADDRESS, sent)
    page = reply.content.decode()
    assert reply.status_code == 422
    beside = page[page.index(f'id="fault-{field}"') :][:400]
    assert said in beside
    assert page.count("autofocus") == 1
    assert "<th" not in page
    assert store.book_now()[1].number == 1


def test_all_faults_are_told_at_once(inside):
    page = inside.post(ADDRESS, _sent("name;price\n22 mm MDF 2440 x 1220;-3\n", since="", source="")).content.decode()
    assert all(f'id="fault-{field}"' in page for field in ("list", "since", "source"))


def test_a_list_that_is_too_long_is_refused(inside, monkeypatch):
    monkeypatch.setattr(uploads, "MOST_BYTES", 10)
    reply = inside.post(ADDRESS, _sent())
    assert reply.status_code == 422
    assert "no price list is so long" in reply.content.decode()


@pytest.mark.parametrize("sent", ["x", "[]", '{"since": "2026-12-01", "source": "x", "prices": [1]}', "[" * 4000])
def test_what_was_not_looked_at_is_not_taken(inside, sent):
    reply = inside.post(ADDRESS, {"base": 1, "confirmed": sent})
    assert reply.status_code == 422
    assert "choose the file again" in reply.content.decode()


def test_a_forged_price_is_held_to_the_book_s_own_rules(inside):
    for stock, name, amount in (
        ("22 mm MDF", "none", "3"),
        ("22 mm MDF", "22 mm MDF 2440 x 1220", "-3"),
        ("22 mm MDF", "22 mm MDF 2440 x 1220", "dear"),
    ):
        sent = json.dumps({"since": "2026-12-01", "source": "x", "prices": [[stock, name, amount]]})
        assert inside.post(ADDRESS, {"base": 1, "confirmed": sent}).status_code == 422
    assert store.book_now()[1].number == 1


def test_two_lists_of_the_same_day_that_differ_are_not_put_over_each_other(inside):
    looked = _confirmed(inside.post(ADDRESS, _sent()).content.decode())
    other = looked.replace('"53.00"', '"54.00"')
    inside.post(ADDRESS, {"base": 1, "confirmed": looked})
    reply = inside.post(ADDRESS, {"base": 2, "confirmed": other})
    assert reply.status_code == 422
    assert "the book has 53.00 from 2026-12-01 already" in reply.content.decode()


SHOP = "Quarry Lane Workshop"
CHARGES = "charge;of;per;price;from\nset-up;;distinct part;10,00;\n22 mm MDF;;;26,50;2027-06-01\nedges;;;1.15;\nlead time;;;15;\n"


def test_a_workshop_s_charges_are_said_row_by_row_and_then_stand_beside_the_old(inside):
    page = inside.post(ADDRESS, _sent(CHARGES, of=SHOP, since="2027-01-01")).content.decode()
    for text in ("€9.00", "€10.00", "+11.1%", "1 June 2027", "board, 22 mm MDF", "Charges that stay", "carried over"):
        assert text in page, text
    assert store.book_now()[1].number == 1
    reply = inside.post(ADDRESS, {"base": 1, "confirmed": _confirmed(page)})
    assert reply.headers["Location"] == "/book/workshops/1/"
    _, revision, book = store.book_now()
    assert revision.said == f"{SHOP}: rate from 2027-01-01 added\n{SHOP}: rate from 2027-06-01 added"
    rates = book.workshops[0].rates
    assert [(str(r.since), str(r.set_up), r.lead_days) for r in rates] == [
        ("2026-03-02", "9.00", None),
        ("2027-01-01", "10.00", 15),
        ("2027-06-01", "10.00", 15),
    ]
    page = inside.post(ADDRESS, _sent(CHARGES, of=SHOP, since="2027-01-01", base=2)).content.decode()
    assert "Nothing in this list would change the book." in page
    assert 'name="confirmed"' not in page


@pytest.mark.parametrize(
    ("text", "about", "field", "said"),
    [
        ("charge;price\nbord;3\n", {}, "list", "did you mean"),
        ("charge;price\nset-up;-3\n", {}, "list", "row 2 (set-up): a price of -3 is below zero"),
        ("charge;price;currency\nset-up;3;GBP\n", {}, "list", "it is in GBP"),
        ("charge;price;from;until\nset-up;3;2027-01-01;2027-05-01\nset-up;4;2027-04-01;\n", {}, "list", "holds until"),
        ("name;price\n22 mm MDF 2440 x 1220;53,00\n", {}, "list", "the book knows no charge"),
        (CHARGES, {"of": "Nobody"}, "of", "the book has no workshop"),
        (CHARGES, {"since": "soon"}, "since", "is not a day"),
        (CHARGES, {"source": "x" * 351}, "source", "longer than 350 letters"),
    ],
)
def test_what_is_wrong_with_a_workshop_s_list_stands_beside_its_field(inside, text, about, field, said):
    reply = inside.post(ADDRESS, _sent(text, **({"of": SHOP} | about)))
    page = reply.content.decode()
    assert reply.status_code == 422
    assert said in page[page.index(f'id="fault-{field}"') :][:400].replace("&#x27;", "'")
    assert page.count("autofocus") == 1
    assert store.book_now()[1].number == 1


@pytest.mark.parametrize(
    "entry",
    [
        "[1]",
        '["x","set_up","","3","2027-01-01",null]',
        '[2,"nothing","","3","2027-01-01",null]',
        '[2,"set_up","22 mm MDF","3","2027-01-01",null]',
        '[2,"lead_days","","3.5","2027-01-01",null]',
        '[2,"set_up","","NaN","2027-01-01",null]',
        '[2,"set_up","","3","soon",null]',
    ],
)
def test_charges_that_were_not_looked_at_are_not_taken(inside, entry):
    sent = f'{{"workshop": "{SHOP}", "source": "x", "charges": [{entry}]}}'
    reply = inside.post(ADDRESS, {"base": 1, "confirmed": sent})
    assert reply.status_code == 422
    assert "choose the file again" in reply.content.decode()


@pytest.mark.parametrize(
    ("amount", "of", "field", "said"),
    [
        ("-3", "", "set_up", "set_up"),
        ("3", "no board", "board_m2", "no board"),
        ("1e30", "", "set_up", "set_up"),
        ("400", "", "lead_days", "lead_days"),
    ],
)
def test_forged_charges_are_held_to_the_book_s_own_rules(inside, amount, of, field, said):
    sent = {"workshop": SHOP, "source": "x", "charges": [[2, field, of, amount, "2027-01-01", None]]}
    reply = inside.post(ADDRESS, {"base": 1, "confirmed": json.dumps(sent)})
    assert reply.status_code == 422
    assert said in reply.content.decode()
    assert store.book_now()[1].number == 1


def test_in_a_second_tab_the_same_day_is_not_put_over(inside):
    looked = _confirmed(inside.post(ADDRESS, _sent("charge;price\nset-up;10\n", of=SHOP)).content.decode())
    inside.post(ADDRESS, {"base": 1, "confirmed": looked})
    reply = inside.post(ADDRESS, {"base": 1, "confirmed": looked.replace('"10"', '"11"')})
    assert reply.status_code == 409
    reply = inside.post(ADDRESS, {"base": 2, "confirmed": looked.replace('"10"', '"11"')})
    assert reply.status_code == 422
    assert "the book has 10 from 2026-12-01 already" in reply.content.decode()
    assert [str(r.set_up) for r in store.book_now()[2].workshops[0].rates] == ["9.00", "10"]


def test_the_page_of_a_workshop_leads_to_its_list(inside):
    assert "?of=Quarry%20Lane%20Workshop" in inside.get("/book/workshops/1/").content.decode()
    page = inside.get(f"{ADDRESS}?of={SHOP}").content.decode()
    assert f'<option value="{SHOP}" selected>' in page


def test_blank_lists_can_be_had(inside):
    for what, first in (("prices", b"name;price"), ("charges", b"charge;of;per;price")):
        reply = inside.get(f"{ADDRESS}{what}.csv")
        assert first in reply.content
        assert reply["Content-Disposition"] == f'attachment; filename="{what}.csv"'
        assert inside.get(f"{ADDRESS}{what}.xlsx").content.startswith(b"PK")
    for wrong in ("prices.ods", "all.csv"):
        assert inside.get(f"{ADDRESS}{wrong}").status_code == 404


def test_a_lead_time_from_a_day_on_is_typed_too(inside):
    page = inside.get("/book/workshops/1/").content.decode()
    assert 'name="rates_lead"' in page
    sent = {
        "base": 1,
        "since": "2027-01-01",
        "source": "x",
        "set_up": "9",
        "part": "2",
        "edge_m": "1",
        "boring": "1",
        "coat_m2": "4",
        "delivery": "80",
        "least_order": "0",
        "board-1": "25",
        "rates_lead": "20",
    }
    wrong = inside.post("/book/workshops/1/rates/", sent | {"rates_lead": "long"})
    assert wrong.status_code == 422
    assert 'id="fault-rates_lead"' in wrong.content.decode()
    assert inside.post("/book/workshops/1/rates/", sent).status_code == 302
    assert store.book_now()[2].workshops[0].rates[-1].lead_days == 20
