"""Every sentence of every page is whole, and its figures are written as the book writes them."""

import re

import pytest
from django.urls import get_resolver, reverse
from tests.said import gaps_in, points_in, texts_of

from rodbook.desk.platform import store
from rodbook.desk.platform.job_page import date_now, job_page
from rodbook.desk.platform.planning import EFFORT, Work, content_key, dates_key, planner
from rodbook.job.files import new_book_text, parse_book
from rodbook.plan import make_plan
from rodbook.plan.schedule.dates import plan_dates, wanted_by

SAMPLES = ("converted-store", "galley", "stair", "timber-house")
NOT_PAGES = {
    "enter",
    "health",
    "worker",
    "manifest",
    "outbox",
    "along",
    "job-file",
    "paper",
    "papers-pack",
    "photo",
    "logout",
    "dates-file",
    "all-dates-file",
}


def _addresses(pk, mark, part):
    arguments = {"pk": pk, "number": 1, "mark": mark}
    for pattern in get_resolver().url_patterns:
        needs = set(pattern.pattern.converters)
        if pattern.name and pattern.name not in NOT_PAGES and needs <= set(arguments):
            chosen = {**arguments, "mark": part} if pattern.name == "part" else arguments
            yield reverse(pattern.name, kwargs={k: chosen[k] for k in needs})


def _worked_out(pk):
    page = job_page(pk)
    if page.plan is None or not page.plan.schedule:
        return page
    plan, asked = make_plan(page.job, page.book, outlook=True), wanted_by(page.book, [page.job], today=date_now())
    key = content_key(page.job, page.book)
    planner._works[key] = Work(key, "done", plan=plan)
    key = dates_key([page.job], page.book, asked)
    planner._works[key] = Work(key, "done", programme=plan_dates((plan,), asked, effort=EFFORT), dates=True)
    return job_page(pk)


def _strings(value):
    if isinstance(value, dict):
        return [s for key, v in value.items() for s in (key, *_strings(v))]
    if isinstance(value, list):
        return [s for v in value for s in _strings(v)]
    return [value] if isinstance(value, str) else []


def _read(client, pk):
    """Each text of every page, with its address."""
    page = _worked_out(pk)
    mark = page.job.openings[0].mark if page.job.openings else "C1"
    part = page.plan.schedule[0].mark if page.plan and page.plan.schedule else "P1"
    for address in _addresses(pk, mark, part):
        reply = client.get(address)
        if reply.status_code == 200 and reply["Content-Type"].startswith("text/html"):
            yield from ((address, text) for text in texts_of(reply.content.decode()))


def _names():
    revision = store.book_now()[1].document
    documents = [revision, *(document for _, document in store.job_documents())]
    return {s for document in documents for s in _strings(document) if re.search(r"\d\.\d", s)}


def _wrong(client, pk, *, comma):
    names = _names()
    found = {}
    for address, text in _read(client, pk):
        for what, place in gaps_in(text):
            found.setdefault(f"{what}: {place}", address)
        for place in points_in(text, names) if comma else ():
            found.setdefault(f"a decimal point: {place}", address)
    return found


@pytest.fixture
def german(inside):
    folder, revision, book = store.book_now()
    store.save(folder, revision.number, lambda _: book.model_copy(update={"locale": "de"}), who="Ann")
    return inside


@pytest.mark.parametrize("sample", SAMPLES)
def test_no_sentence_of_a_page_has_an_empty_place_or_a_point_for_a_comma(german, sample):
    reply = german.post("/jobs/sample/", {"sample": sample})
    pk = int(reply.headers["Location"].rstrip("/").rsplit("/", 1)[1])
    assert _wrong(german, pk, comma=True) == {}


def test_nor_has_one_of_an_empty_job_in_the_book_of_a_new_firm(newcomer):
    store.begin_book(parse_book(new_book_text("Mill", locale="de")), who="Ann")
    name = store.book_now()[2].build_ups[0].name
    pk = int(newcomer.post("/jobs/new/", {"name": "Loft", "build_up": name}).headers["Location"].split("/")[2])
    assert _wrong(newcomer, pk, comma=True) == {}


def test_nor_has_one_of_a_book_with_as_little_as_a_book_may_have(newcomer):
    book = parse_book(new_book_text("Mill"))
    bare = book.model_copy(
        update={
            "workshops": (),
            "taxes": (),
            "fittings": (),
            "rates": book.rates[:1],
            "sections": (),
            "build_ups": tuple(
                b.model_copy(
                    update={
                        "trim": None,
                        "handle": None,
                        "catch": None,
                        "drawer_fixing": None,
                        "flap_stay": None,
                        "apron_fixing": None,
                        "apron_top": 0,
                        "apron_bottom": 0,
                    }
                )
                for b in book.build_ups
                if b.family == "inset"
            ),
            "boards": tuple(b for b in book.boards if b.name in ("22 mm MDF", "18 mm MDF")),
            "dates": book.dates.model_copy(update={"crew": ()}),
        }
    )
    store.begin_book(bare, who="Ann")
    name = store.book_now()[2].build_ups[0].name
    pk = int(newcomer.post("/jobs/new/", {"name": "Loft", "build_up": name}).headers["Location"].split("/")[2])
    assert _wrong(newcomer, pk, comma=False) == {}


def test_the_search_finds_what_is_wrong():
    page = (
        "<p>Empty: <strong></strong>. by the book’s times.</p><p>It took 3.5 h (), and the.</p><p>Lies at 12,5 mm.</p>"
    )
    texts = texts_of(page)
    assert texts == ["Empty: . by the book’s times.", "It took 3.5 h (), and the.", "Lies at 12,5 mm."]
    assert [len(gaps_in(text)) > 0 for text in texts] == [True, True, False]
    assert [len(points_in(text, ())) for text in texts] == [0, 1, 0]
    assert points_in("70 x 22 trim, 4.4 m", {"70 x 22 trim, 4.4 m"}) == []
