"""Amounts and numbers typed into the desk's forms are read in the way of the firm's book."""

import pytest

from rodbook.desk.platform import store

FIRST_PRICE = {"size": "boards-1-1", "since": "2027-01-04", "price_source": "a list"}


@pytest.fixture
def german(inside):
    folder, revision, book = store.book_now()
    store.save(folder, revision.number, lambda _: book.model_copy(update={"locale": "de"}), who="Ann")
    return inside


def _base():
    return {"base": store.book_now()[1].number}


@pytest.mark.parametrize(
    ("typed", "kept"),
    [
        ("1.234,50", "1234.50"),
        ("48,5", "48.5"),
        ("EUR 48,50", "48.50"),
        ("52", "52"),
        ("48,50 €", "48.50"),
        ("€48.50", "48.50"),
    ],
)
def test_a_price_is_read_as_the_book_writes_it(german, typed, kept):
    assert german.post("/book/boards/price/", {**FIRST_PRICE, **_base(), "amount": typed}).status_code == 302
    newest = store.book_now()[2].boards[0].sheets[0].prices[-1]
    assert str(newest.amount) == kept


@pytest.mark.parametrize(
    ("typed", "sentence"),
    [
        ("1.234", "could be 1234 or 1,234"),
        ("48,50 USD", "is in USD and the book in EUR; write it in EUR"),
        ("£48,50", "is in GBP and the book in EUR; write it in EUR"),
        ("12.34,5", "is no amount of money; write it like 48,00"),
    ],
)
def test_a_price_that_could_be_two_is_refused_beside_its_field(german, typed, sentence):
    before = store.book_now()[2]
    reply = german.post("/book/boards/price/", {**FIRST_PRICE, **_base(), "amount": typed})
    page = reply.content.decode()
    assert reply.status_code == 422
    assert sentence in page
    assert typed in page
    assert store.book_now()[2] == before


def test_a_rate_is_read_and_shown_as_the_book_writes_it(german):
    rate = {"name": "size a part", "value": "1.234,25", "since": "2027-01-04", "source": "own records", **_base()}
    assert german.post("/book/rates/put/", rate).status_code == 302
    assert store.book_now()[2].rates[-1].value == 1234.25
    refused = german.post("/book/rates/put/", {**rate, **_base(), "value": "1.500"})
    assert refused.status_code == 422
    assert "could be 1500 or 1,500" in refused.content.decode()


def test_a_workshops_rates_shown_and_sent_back_as_they_stand_change_no_figure(german):
    before = store.book_now()[2].workshops[0].rates[-1]
    page = german.get("/book/workshops/1/").content.decode()
    assert 'value="25,50"' in page
    fields = {
        "set_up": "9,00",
        "part": "2,20",
        "edge_m": "1,1250",
        "boring": "0,125",
        "coat_m2": "4,20",
        "delivery": "85,00",
        "least_order": "1.250,00",
        "board-1": "25,50",
        "board-2": "21,80",
        "board-3": "46,00",
        "section-1": "4,30",
        "section-2": "3,60",
        "since": "2027-01-04",
        "source": "their list",
        **_base(),
    }
    assert german.post("/book/workshops/1/rates/", fields).status_code == 302
    after = store.book_now()[2].workshops[0].rates[-1]
    assert (str(after.edge_m), str(after.boring), str(after.least_order)) == ("1.1250", "0.125", "1250.00")
    assert after.board_m2 == before.board_m2
    refused = german.post("/book/workshops/1/rates/", {**fields, **_base(), "board-2": "1.800", "delivery": "1.000"})
    assert refused.status_code == 422
    assert refused.content.decode().count("write it without a mark for the thousands") == 2


def test_a_board_with_its_density_and_first_price(german):
    new = {
        "name": "25 mm board",
        "thickness": "25",
        "density_low": "690,5",
        "density_high": "1.250",
        "source": "a sheet",
        "size_name": "25 mm board 2800",
        "size_length": "2800",
        "size_width": "2070",
        "amount": "1.061,20",
        "since": "2027-01-04",
        "price_source": "a list",
    }
    refused = german.post("/book/boards/new/", {**new, **_base()})
    assert refused.status_code == 422
    assert "could be 1250 or 1,250" in refused.content.decode()
    assert german.post("/book/boards/new/", {**new, "density_high": "720", **_base()}).status_code == 302
    board = store.book_now()[2].boards[-1]
    assert (board.density_low, str(board.sheets[0].prices[0].amount)) == (690.5, "1061.20")


def test_a_pieces_worth_and_a_kept_offcuts_area(german):
    piece = {
        "board": "1",
        "label": "W-9",
        "length": "400",
        "width": "300,5",
        "number": "2",
        "worth": "3,60",
        "purpose": "",
        "since": "",
        "was": "",
    }
    assert german.post("/book/wanted/put/", {**piece, **_base()}).status_code == 302
    assert str(store.book_now()[2].boards[0].wanted[-1].worth) == "3.60"
    assert 'value="3,60"' in german.get("/book/wanted/?change=W-9").content.decode()
    refused = german.post("/book/wanted/put/", {**piece, "was": "W-9", "number": "1.000", **_base()})
    assert refused.status_code == 422
    assert store.book_now()[2].boards[0].wanted[-1].number == 2


def test_a_jobs_extras_margin_and_hours(german, store_job):
    terms = {
        "base": 1,
        "earn_how": "margin",
        "earn": "22,5",
        "extra-0-name": "Fitting",
        "extra-0-cost": "1.200,50",
        "extra-0-hours": "7,5",
        "lines": "one sum",
        "extra-TOTAL_FORMS": 2,
        "extra-INITIAL_FORMS": 0,
    }
    assert german.post(f"/jobs/{store_job}/price/put/", terms).status_code == 302
    price = store.job_now(store.Folder.objects.get(pk=store_job))[1].price
    assert (str(price.margin), str(price.extras[0].cost), str(price.extras[0].hours)) == ("0.225", "1200.50", "7.5")
    page = german.get(f"/jobs/{store_job}/price/").content.decode()
    assert 'value="22,5"' in page
    assert 'value="1200,50"' in page
    refused = german.post(f"/jobs/{store_job}/price/put/", {**terms, "base": 2, "extra-0-cost": "1.200"})
    assert "could be 1200 or 1,200" in refused.content.decode()


def test_a_length_in_the_grid_is_never_a_thousandth(german, store_job):
    from rodbook.desk.platform.grid import _number, rows_of

    assert [_number(text) for text in ("2,030", "2.030", "842,5", "0.125")] == ["2,030", "2.030", 842.5, 0.125]
    row = rows_of([{"mark": "A1", "depth": 310.25}], locale="de")[0]
    assert row.cells["depth"] == "310,25"


def test_hours_are_read_as_the_book_writes_them(german, store_job):
    hours = {"task": "fit", "person": "Ann", "day": "2026-11-02", "hours": "1.250", "done": "", "key": "a"}
    assert "write 1,5, 1:30 or 90 min" in german.post(f"/jobs/{store_job}/hours/", hours).content.decode()
    assert german.post(f"/jobs/{store_job}/hours/", {**hours, "hours": "1,25"}).status_code == 302
