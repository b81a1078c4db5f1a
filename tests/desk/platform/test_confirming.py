"""A new firm gives its own name first; what came with the sample is marked, and papers that rest on it say so and ask."""

import importlib
import re
from dataclasses import replace

import pypdf
import pytest
from django.apps import apps as django_apps

from rodbook.desk.models import Folder
from rodbook.desk.platform import store
from rodbook.desk.platform.job_page import job_page
from rodbook.desk.platform.planning import Work, content_key, planner
from rodbook.job.confirming import unconfirmed
from rodbook.plan import make_plan
from rodbook.plan.analyses.unconfirmed import PaperFor, not_confirmed_under

FIRM = {
    "name": "Mill & Daughters",
    "contact": "the mill",
    "person": "Ann",
    "currency": "eur",
    "locale": "de",
    "holidays": "at",
}


def test_a_new_desk_asks_for_the_firms_name_before_anything_else(newcomer):
    for address in ("/", "/book/", "/jobs/new/", "/weeks/", "/dates/"):
        assert newcomer.get(address).headers["Location"] == "/begin/"
    assert not store.has_book()
    refused = newcomer.post("/begin/", {**FIRM, "name": " "})
    assert refused.status_code == 422
    assert "write what stands on every paper" in refused.content.decode()
    assert newcomer.post("/begin/", {**FIRM, "locale": "??"}).status_code == 422
    assert not store.has_book()
    assert newcomer.post("/begin/", FIRM).headers["Location"] == "/"
    book = store.book_now()[2]
    assert (book.firm.name, [person.name for person in book.dates.crew], book.locale) == (FIRM["name"], ["Ann"], "de")
    assert not any(board.offcuts or board.wanted for board in book.boards)
    assert newcomer.get("/begin/").headers["Location"] == "/"
    page = newcomer.get("/book/dates/").content.decode() + newcomer.get("/book/").content.decode()
    assert "Harrow" not in page


@pytest.mark.parametrize("sample", ["converted-store", "galley", "stair", "timber-house"])
def test_a_sample_job_goes_with_the_book_of_a_new_firm(newcomer, sample):
    newcomer.post("/begin/", FIRM)
    reply = newcomer.post("/jobs/sample/", {"sample": sample})
    assert re.fullmatch(r"/jobs/\d+/", reply.headers["Location"])


def test_the_samples_firm_can_be_looked_at_and_says_what_it_is(newcomer):
    assert newcomer.post("/begin/", {"sample": "yes"}).status_code == 302
    assert "invented" in newcomer.get("/").content.decode()
    assert not store.book_now()[2].firm.confirmed


def _planned(pk):
    page = job_page(pk)
    plan = make_plan(page.job, page.book, outlook=True)
    key = content_key(page.job, page.book)
    planner._works[key] = Work(key, "done", plan=plan)
    return plan


def _text(reply):
    import io

    return " ".join(page.extract_text() for page in pypdf.PdfReader(io.BytesIO(reply.content)).pages)


@pytest.fixture
def stair_job(inside):
    reply = inside.post("/jobs/sample/", {"sample": "stair"})
    return int(reply.headers["Location"].rstrip("/").rsplit("/", 1)[1])


@pytest.mark.parametrize(("address", "paper"), [("price/paper/", "price"), ("papers/workshop-order.pdf/", "order")])
def test_a_paper_for_client_or_supplier_asks_first_and_says_so(inside, stair_job, address, paper):
    plan = _planned(stair_job)
    asked = inside.get(f"/jobs/{stair_job}/{address}")
    assert asked.headers["Location"] == f"/book/not-confirmed/?job={stair_job}&paper={paper}"
    page = inside.get(asked.headers["Location"]).content.decode()
    figures = not_confirmed_under(plan, PaperFor.CLIENT if paper == "price" else PaperFor.SUPPLIER)
    assert re.findall(r'name="path" value="([^"]+)"', page) == [figure.path for figure in figures]
    anyway = re.search(r'href="([^"]+anyway=yes)"', page)
    assert "Not to be relied on yet" in _text(inside.get(anyway[1]))
    base = store.book_now()[1].number
    sent = {"base": base, "path": [figure.path for figure in figures], "job": stair_job, "paper": paper}
    assert inside.post("/book/not-confirmed/put/", sent).status_code == 302
    assert job_page(stair_job).whole is not None, "a plan stands while its figures are confirmed"
    made = inside.get(f"/jobs/{stair_job}/{address}")
    assert made["Content-Type"] == "application/pdf"
    assert "relied on" not in _text(made)
    assert "confirmed" in store.book_now()[1].said


def test_what_is_typed_is_confirmed(inside):
    before = {figure.path for figure in unconfirmed(store.book_now()[2])}
    base = store.book_now()[1].number
    price = {"base": base, "size": "boards-1-1", "amount": "52", "since": "2026-09-01", "price_source": "their list"}
    assert inside.post("/book/boards/price/", price).status_code == 302
    left = {figure.path for figure in unconfirmed(store.book_now()[2])}
    assert before - left == {"boards[1].sheets[1].prices[2]"}
    firm = {
        "base": base + 1,
        "name": "Mill",
        "contact": "",
        "kerf": "3.2",
        "edge_trim": "10",
        "turns": "",
        "keep_from": "",
        "source": "own",
        "currency": "EUR",
        "locale": "en",
    }
    same = {**firm, "name": "Harrow & Pike, joiners", "contact": "the yard, Tuesdays and Thursdays", "kerf": "3"}
    inside.post("/book/", same)
    assert not store.book_now()[2].firm.confirmed, "a saw that is typed does not confirm a name"
    inside.post("/book/", {**firm, "base": base + 2})
    assert store.book_now()[2].firm.confirmed


def test_pages_of_the_book_mark_what_is_not_confirmed(inside):
    for address, least in (("/book/rates/", 12), ("/book/boards/", 4), ("/book/workshops/1/", 1)):
        assert inside.get(address).content.decode().count(">not confirmed</a>") - 1 >= least


def test_nothing_ticked_is_a_sentence(inside):
    reply = inside.post("/book/not-confirmed/put/", {"base": store.book_now()[1].number})
    assert reply.status_code == 422
    assert "tick what holds" in reply.content.decode()


def test_a_confirmed_book_asks_nothing(inside, stair_job):
    folder, revision, book = store.book_now()
    paths = [figure.path for figure in unconfirmed(book)]
    inside.post("/book/not-confirmed/put/", {"base": revision.number, "listed": paths, "path": paths[:1], "all": "yes"})
    assert unconfirmed(store.book_now()[2]) == ()
    assert not_confirmed_under(replace(_planned(stair_job), book=store.book_now()[2]), PaperFor.CLIENT) == ()
    assert "Everything here is confirmed." in inside.get("/book/not-confirmed/").content.decode()
    assert folder == Folder.objects.get(pk=folder.pk)


def test_the_pack_asks_first_as_single_papers_do(inside, stair_job):
    figures = not_confirmed_under(_planned(stair_job), PaperFor.CLIENT)
    asked = inside.get(f"/jobs/{stair_job}/papers/pack/")
    assert asked.headers["Location"] == f"/book/not-confirmed/?job={stair_job}&paper=pack"
    page = inside.get(asked.headers["Location"]).content.decode()
    assert "Papers of Stair at the chapel cottage that leave the firm rest on what stands below." in page
    assert re.findall(r'name="path" value="([^"]+)"', page) == [figure.path for figure in figures]
    anyway = re.search(r'href="([^"]+anyway=yes)"', page)
    assert inside.get(anyway[1])["Content-Type"] == "application/zip"
    _confirm_all(inside)
    assert inside.get(f"/jobs/{stair_job}/papers/pack/")["Content-Type"] == "application/zip"


def _confirm_all(inside):
    _folder, revision, book = store.book_now()
    paths = [figure.path for figure in unconfirmed(book)]
    inside.post("/book/not-confirmed/put/", {"base": revision.number, "listed": paths, "all": "yes"})


def test_who_stays_in_the_crew_keeps_their_mark(inside):
    base = store.book_now()[1].number
    typed = {
        "base": base,
        "person-0-name": "Ada",
        "person-1-name": "Dora",
        "days": "mon",
        "holidays": "",
        "closed": "",
        "person-TOTAL_FORMS": 2,
        "person-INITIAL_FORMS": 0,
        "supplier-TOTAL_FORMS": 0,
        "supplier-INITIAL_FORMS": 0,
    }
    assert inside.post("/dates/firm/", typed).status_code == 302
    assert [(one.name, one.confirmed) for one in store.book_now()[2].dates.crew] == [("Ada", False), ("Dora", True)]


def _unmarked(value):
    if isinstance(value, dict):
        return {name: _unmarked(inner) for name, inner in value.items() if name != "confirmed"}
    return [_unmarked(inner) for inner in value] if isinstance(value, list) else value


@pytest.mark.parametrize("own", [False, True])
def test_a_book_begun_before_there_were_marks_has_its_sample_marked_once(inside, own):
    marked = {figure.path for figure in unconfirmed(store.book_now()[2])}
    folder = Folder.objects.get(kind="book")
    for one in folder.revisions.all():
        one.document = _unmarked(one.document)
        one.changes = None
        if own:
            one.document["firm"]["name"] = "Mill & Daughters"
            one.document["boards"][0]["sheets"][0]["prices"][0]["amount"] = "47.10"
        one.save()
    assert unconfirmed(store.book_now()[2]) == ()
    step = importlib.import_module("rodbook.desk.migrations.0014_samples_marked")
    step.marked(django_apps, None)
    revision, book = store.book_now()[1:]
    expected = marked - ({"firm", "boards[1].sheets[1].prices[1]"} if own else set())
    assert {figure.path for figure in unconfirmed(book)} == expected
    assert revision.seal == revision.sealed()
    assert revision.text == f"Marked as not confirmed: {len(expected)} entries that came with the sample"
    _confirm_all(inside)
    step.marked(django_apps, None)
    assert unconfirmed(store.book_now()[2]) == (), "what somebody has confirmed is not asked for again"
