"""Quotes on the desk: typed or brought in, kept as they came, compared with the order and each other, split where it pays."""

import html
from datetime import date, timedelta
from decimal import Decimal

import pytest
from django.core.files.uploadedfile import SimpleUploadedFile

from rodbook.desk.make.quotes import quote_content, quote_of
from rodbook.desk.models import Record
from rodbook.desk.platform.book_page import date_now
from rodbook.desk.platform.job_page import job_page
from rodbook.desk.platform.planning import planner
from rodbook.job.models import Making
from rodbook.money import LumpSum, Quote, QuoteLine

from ..finished import known

SOON = (date_now() + timedelta(days=30)).isoformat()
TODAY = date_now().isoformat()


@pytest.fixture
def whole(store_job):
    """The converted store, with its layouts and costs worked out."""
    return known(store_job)


def _order(pk):
    plan = job_page(pk).whole
    return plan.lines_made(Making.BOUGHT) or plan.schedule


def _typed(pk, name, each, *, skip=(), **more):
    typed = {"workshop": name, "day": TODAY, "valid_until": SOON, "lead_days": "10", "delivery": "40"}
    for n, line in enumerate(_order(pk)):
        typed[f"line-{n}-mark"] = line.mark
        if line.mark not in skip:
            typed[f"line-{n}-amount"] = f"{line.quantity * each}"
    rows = {"line-TOTAL_FORMS": len(_order(pk)) + 2, "lump-TOTAL_FORMS": 3}
    return typed | rows | {"line-INITIAL_FORMS": 0, "lump-INITIAL_FORMS": 0} | more


def _page(browser, pk, query=""):
    return html.unescape(browser.get(f"/jobs/{pk}/quotes/{query}").content.decode())


def test_before_layouts_and_before_any_quote(inside, store_job):
    planner._works.clear()
    assert "Work it out" in _page(inside, store_job)
    assert "Work it out" in inside.get(f"/jobs/{store_job}/quotes/add/").content.decode()
    known(store_job)
    assert "No quote has come in yet" in _page(inside, store_job)
    assert f"/jobs/{store_job}/quotes/" in inside.get(f"/jobs/{store_job}/orders/").content.decode()


def test_quotes_are_compared_line_by_line_and_given_out_as_costs_least(inside, whole):
    first, second = _order(whole)[:2]
    inside.post(f"/jobs/{whole}/quotes/add/", _typed(whole, "Mill", 30))
    reply = inside.post(
        f"/jobs/{whole}/quotes/add/", _typed(whole, "Barn", 20, skip=[first.mark], **{"line-1-quantity": "1"})
    )
    assert reply.headers["Location"] == f"/jobs/{whole}/quotes/"
    page = _page(inside, whole)
    assert f"{first.mark} is missing: {first.quantity} × {first.part.kind}." in page
    if second.quantity != 1:
        assert f"{second.mark}: 1 is quoted, {second.quantity} are ordered." in page
    assert "It is as ordered." in page
    assert page.count('class="number lowest"') >= len(_order(whole)) - 2
    assert "Who gets what" in page
    assert "which saves" in page
    assert "Give all of it to Mill" in _page(inside, whole, "?trouble=100000")


def test_a_quote_that_is_too_late_says_by_how_much(inside, whole):
    inside.post(f"/jobs/{whole}/quotes/add/", _typed(whole, "Mill", 30))
    page = _page(inside, whole, "?needed=7")
    assert "Left out: it takes 10 working days, 3 more than there are before the parts are needed." in page
    assert "Nobody quotes" in page
    reply = inside.get(f"/jobs/{whole}/quotes/?needed=soon&trouble=lots")
    assert reply.status_code == 422
    assert 'id="fault-needed"' in reply.content.decode()
    assert 'id="fault-trouble"' in reply.content.decode()


def test_a_quote_is_struck_out_and_kept(inside, whole):
    inside.post(f"/jobs/{whole}/quotes/add/", _typed(whole, "Mill", 30))
    pk = Record.objects.get().pk
    inside.post(f"/jobs/{whole}/quotes/{pk}/out/")
    assert "No quote has come in yet" in _page(inside, whole)
    assert Record.objects.get().content["workshop"] == "Mill"
    assert inside.post(f"/jobs/{whole}/quotes/{pk + 1}/out/").status_code == 404


@pytest.mark.parametrize(
    ("field", "value", "sentence"),
    [
        ("workshop", "", "write whose quote it is"),
        ("day", "today", "is not a day"),
        ("valid_until", "2020-01-01", "before the quote’s own day"),
        ("currency", "USD", "the quote is in USD and the book in EUR"),
        ("lead_days", "-2", "write a whole number"),
        ("delivery", "-40", "is below zero"),
        ("delivery", "40 USD", "is in USD and the book in EUR; write it in EUR"),
        ("line-0-amount", "USD 40", "is in USD and the book in EUR; write it in EUR"),
        ("line-0-amount", "1.234", "could be 1234 or 1.234"),
        ("line-0-amount", "-3", "is below zero"),
        ("line-0-quantity", "1.5", "write a whole number"),
        ("line-0-mark", "", "write the part’s mark"),
        ("lump-0-amount", "30", None),
        ("lump-0-marks", "X1, X2", None),
    ],
)
def test_what_is_wrong_is_said_beside_its_field(inside, whole, field, value, sentence):
    reply = inside.post(f"/jobs/{whole}/quotes/add/", _typed(whole, "Mill", 30, **{field: value}))
    page = html.unescape(reply.content.decode())
    assert reply.status_code == 422
    wrong = {"lump-0-amount": "lump-0-marks", "lump-0-marks": "lump-0-amount"}.get(field, field)
    assert f'id="fault-{wrong}"' in page
    assert (sentence or "this is empty") in page
    assert page.count("autofocus") == 1
    assert not Record.objects.exists()


def test_a_mark_that_is_priced_twice_and_a_quote_of_nothing_are_said(inside, whole):
    mark = _order(whole)[0].mark
    typed = _typed(whole, "Mill", 30, **{"lump-0-marks": mark, "lump-0-amount": "50"})
    assert "is priced already" in inside.post(f"/jobs/{whole}/quotes/add/", typed).content.decode()
    none = _typed(whole, "Mill", 30, skip=[line.mark for line in _order(whole)])
    assert "nothing is priced yet" in inside.post(f"/jobs/{whole}/quotes/add/", none).content.decode()


def _send(browser, pk, content, name="list.csv"):
    return browser.post(f"/jobs/{pk}/quotes/bring-in/", {"list": SimpleUploadedFile(name, content)})


def test_a_list_is_looked_at_before_it_is_kept(inside, whole):
    first, second = _order(whole)[:2]
    rows = f"Mark;How many;Each\n{first.mark.lower()};{first.quantity};12,50\n{second.mark};;3\nX9;2;8\n"
    page = html.unescape(_send(inside, whole, rows.encode()).content.decode())
    assert "Nothing is kept yet" in page
    assert f'value="{first.quantity * 12.5:.2f}"' in page
    assert 'value="X9"' in page
    assert not Record.objects.exists()


@pytest.mark.parametrize(
    ("content", "name", "sentence"),
    [
        (b"name,price\nD1,3\n", "list.csv", "no row has headings for mark and amount"),
        (b"mark,amount\nD1,-3\n", "list.csv", "a price of -3 is below zero"),
        (b"mark,amount\nD1,1.234\n", "list.csv", "can't be read as a price for certain"),
        (b"mark,amount,currency\nD1,3,USD\n", "list.csv", "it is in USD and the book in EUR"),
        (b"mark,amount\nD1,3 USD\n", "list.csv", "it is in USD and the book in EUR"),
        (b"mark,amount\nD1,3\nD1,4\n", "list.csv", "row 2 has it already"),
        (b"mark,quantity,amount\nD1,none,3\n", "list.csv", "is no number of parts"),
        (b"PK\x03\x04 no workbook", "list.xlsx", "fault-list"),
        (b"mark,amount\n", "list.exe", "is no list"),
        (b"mark,amount\n", "list.csv", "no row has a mark and an amount"),
    ],
)
def test_a_list_that_does_not_do_says_why(inside, whole, content, name, sentence):
    reply = _send(inside, whole, content, name)
    assert reply.status_code == 422
    assert sentence in html.unescape(reply.content.decode())


def test_no_file_and_a_file_that_is_too_large(inside, whole):
    assert "choose a file first" in inside.post(f"/jobs/{whole}/quotes/bring-in/").content.decode()
    page = _send(inside, whole, b"x" * (10 * 1024 * 1024 + 1)).content.decode()
    assert "no quote is so long" in page


def test_a_quote_is_read_as_it_was_kept():
    quote = Quote(
        "Mill",
        date(2026, 11, 2),
        date(2026, 12, 2),
        "EUR",
        12,
        (QuoteLine("D1", 2, _d("81.00"), "MDF"),),
        (LumpSum(("D2", "D3"), _d("50")),),
        _d("40"),
        _d("100"),
        True,
        "17",
    )
    assert quote_of(quote_content(quote)) == quote


def _d(text):

    return Decimal(text)


def test_the_comparison_is_taken_away_as_a_paper(inside, whole):
    reply = inside.get(f"/jobs/{whole}/quotes/paper/", follow=True)
    assert "There is no paper of it: no quote has come in yet." in html.unescape(reply.content.decode())
    assert "quotes/paper" not in _page(inside, whole)
    inside.post(f"/jobs/{whole}/quotes/add/", _typed(whole, "Mill", 30))
    inside.post(f"/jobs/{whole}/quotes/add/", _typed(whole, "Barn", 20, skip=[_order(whole)[0].mark]))
    page = _page(inside, whole, "?trouble=100000")
    assert "Take all of it from here" in page
    assert "Not taken: " in page
    link = html.unescape(page[page.index("quotes/paper/") :].split('"')[0])
    assert link.endswith("?needed=&trouble=100000")
    reply = inside.get(f"/jobs/{whole}/{link}")
    assert reply.content.startswith(b"%PDF")
    assert reply["Content-Disposition"].endswith('-quotes.pdf"')
    assert reply["Cache-Control"] == "no-store"
    wrong = inside.get(f"/jobs/{whole}/quotes/paper/?trouble=much", follow=True).content.decode()
    assert "There is no paper of it: " in wrong
    assert "is no amount" in html.unescape(wrong)
