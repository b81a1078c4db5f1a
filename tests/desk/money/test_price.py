"""A job's price on the desk: how it comes about, changed by its owner, given, on the client's paper; nobody else sees it."""

from decimal import Decimal
from io import BytesIO

import pytest
from pypdf import PdfReader

from rodbook.desk.models import Folder
from rodbook.desk.platform import store
from rodbook.desk.platform.job_page import job_page
from rodbook.desk.platform.planning import planner
from rodbook.plan import price_job

from ..finished import known


@pytest.fixture
def whole(store_job):
    """The converted store, with its layouts and costs worked out."""
    return known(store_job)


def _job(pk):
    return store.job_now(Folder.objects.get(pk=pk))[1]


TERMS = {
    "base": 1,
    "earn_how": "margin",
    "earn": "25",
    "confidence": "90",
    "taxes": "with tax",
    "holds_days": "14",
    "lines": "by opening",
    "words": "Half at the start.",
    "extra-0-name": "Fitting",
    "extra-0-cost": "1.250,50",
    "extra-0-hours": "12",
    "extra-2-name": "Mirror inside",
    "extra-2-cost": "70",
    "extra-2-option": "yes",
    "extra-TOTAL_FORMS": 3,
    "extra-INITIAL_FORMS": 0,
}


def test_without_costs_the_work_is_offered(inside, store_job):
    planner._works.clear()
    page = inside.get(f"/jobs/{store_job}/price/").content.decode()
    assert "Work it out" in page
    assert "How this job is priced" in page


def test_costs_earnings_and_sums_stand_on_the_page(inside, whole):
    page = inside.get(f"/jobs/{whole}/price/").content.decode()
    found = price_job(job_page(whole).whole)
    for amount in (found.price.cost, found.price.earned, found.price.gross, found.contingency, found.nine_in_ten):
        assert f"€{amount:,}" in page
    assert f"<strong>{100 * found.price.margin:.1f}%</strong>" in page
    assert f"<strong>{100 * found.price.mark_up:.1f}%</strong>" in page
    assert f"In {100 * found.not_losing:.0f} of 100 such jobs or more" in page
    assert "No crew hours are in this price" in page


def test_what_is_typed_becomes_a_revision_and_the_layouts_stay(inside, whole):
    before = job_page(whole).work
    reply = inside.post(f"/jobs/{whole}/price/put/", TERMS)
    assert reply.headers["Location"] == f"/jobs/{whole}/price/"
    terms = _job(whole).price
    assert (terms.margin, terms.confidence, terms.taxes, terms.holds_days) == (
        Decimal("0.25"),
        Decimal("0.9"),
        "with tax",
        14,
    )
    assert [(e.name, e.cost, e.hours, e.option) for e in terms.extras] == [
        ("Fitting", Decimal("1250.50"), Decimal(12), False),
        ("Mirror inside", Decimal(70), Decimal(0), True),
    ]
    said = store.head(Folder.objects.get(pk=whole)).said
    assert "price: margin nothing → 0.25" in said
    assert "price: extra Fitting added" in said
    assert job_page(whole).work is before
    page = inside.get(f"/jobs/{whole}/price/").content.decode()
    assert "<strong>25.0%</strong>" in page
    assert 'value="1250.50"' in page
    assert "Mirror inside" in page


@pytest.mark.parametrize(
    ("field", "value", "sentence"),
    [
        ("earn", "100", "out of range; write 0 to 99"),
        ("earn", "-5", "out of range"),
        ("earn", "much", "is no percentage"),
        ("earn", "", "this is empty"),
        ("confidence", "100", "out of range; write 1 to 99"),
        ("taxes", "no such", "the book has no tax profile"),
        ("holds_days", "0", "holds_days"),
        ("extra-0-cost", "-4", "is below zero"),
        ("extra-0-cost", "4 USD", "is in USD and the book in EUR; write it in EUR"),
        ("extra-0-hours", "1.234", "is no number of hours; write 7 or 7.5"),
        ("extra-2-name", "", "empty"),
    ],
)
def test_what_is_wrong_is_said_beside_its_field(inside, whole, field, value, sentence):
    reply = inside.post(f"/jobs/{whole}/price/put/", {**TERMS, field: value})
    page = reply.content.decode()
    assert reply.status_code == 422
    assert f'id="fault-{field}"' in page
    assert sentence in page
    assert 'value="Half at the start."' in page
    assert page.count("autofocus") == 1
    assert store.head(Folder.objects.get(pk=whole)).number == 1


def test_two_owners_who_price_differently_are_told(inside, whole):
    inside.post(f"/jobs/{whole}/price/put/", TERMS)
    reply = inside.post(f"/jobs/{whole}/price/put/", {**TERMS, "earn": "30"})
    assert reply.status_code == 409
    assert "0.25" in reply.content.decode()


def test_that_it_was_given_is_kept_and_a_move_is_seen(inside, whole):
    found = price_job(job_page(whole).whole).price
    inside.post(f"/jobs/{whole}/price/given/", {"base": 1})
    assert (_job(whole).price.given.net, _job(whole).price.given.gross) == (found.net, found.gross)
    page = inside.get(f"/jobs/{whole}/price/").content.decode()
    assert "Given on" in page
    assert "another one today" not in page
    inside.post(f"/jobs/{whole}/price/put/", {**TERMS, "base": 2})
    assert _job(whole).price.given.net == found.net
    assert "another one today" in inside.get(f"/jobs/{whole}/price/").content.decode()
    inside.post(f"/jobs/{whole}/price/given/", {"base": 1})
    assert _job(whole).price.given.net == found.net


def test_the_clients_paper_shows_no_cost_and_no_margin(inside, whole):
    inside.post(f"/jobs/{whole}/price/put/", TERMS)
    reply = inside.get(f"/jobs/{whole}/price/paper/?anyway=yes")
    assert reply.headers["Cache-Control"] == "no-store"
    found = price_job(job_page(whole).whole)
    text = "\n".join(page.extract_text() for page in PdfReader(BytesIO(reply.content)).pages)
    assert f"{found.price.gross:,}" in text
    assert "Half at the start." in text
    for hidden in (found.price.cost, found.price.earned, found.parts_cost, found.price.overhead):
        assert f"{hidden:,}" not in text
    for word in ("margin", "mark-up", "contingency", "overhead"):
        assert word not in text.lower()


def test_a_paper_before_there_is_a_price_is_said(inside, store_job):
    planner._works.clear()
    assert inside.get(f"/jobs/{store_job}/price/paper/?anyway=yes").headers["Location"] == f"/jobs/{store_job}/price/"
    assert "have them worked out first" in inside.get(f"/jobs/{store_job}/price/").content.decode()


def test_rows_that_came_without_their_number_are_refused_in_words(inside, whole):
    bare = {name: value for name, value in TERMS.items() if not name.startswith("extra-")}
    reply = inside.post(f"/jobs/{whole}/price/put/", bare)
    assert reply.status_code == 422
    assert "how many rows there are did not come with it; load the page again" in reply.content.decode()
    assert store.head(Folder.objects.get(pk=whole)).number == 1
