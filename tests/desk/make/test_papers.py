"""Orders without prices, papers to take away, and who may take which."""

import io
import time
import zipfile
from datetime import date

import pytest
from django.db import connection
from pypdf import PdfReader

from rodbook.desk.make import paper_views as views
from rodbook.desk.models import Folder, Role
from rodbook.desk.platform import rendering, store
from rodbook.desk.platform.job_page import job_page
from rodbook.desk.platform.planning import planner
from rodbook.desk.platform.rendering import order_pack, paper_file, papers_for
from rodbook.errors import InputError, RenderError
from rodbook.papers.registry import file_names


@pytest.fixture
def whole(store_job):
    page = job_page(store_job, start=True)
    while not page.work.over:
        time.sleep(0.05)
    return store_job


def _make_doors(pk):
    folder = Folder.objects.get(pk=pk)
    revision, job = store.job_now(folder)
    book = store.book_now()[2]
    raw = store.as_document(job) | {"making": {"door": "site-made", "trim leg": "site-made"}}
    store.save(folder, revision.number, lambda _: store.read_job_document(raw, book), who="Ann", book=book)
    page = job_page(pk, start=True)
    while not page.work.over:
        time.sleep(0.05)


def test_orders_wait_for_layouts_and_costs(inside, store_job):
    planner._works.clear()
    page = inside.get(f"/jobs/{store_job}/orders/").content.decode()
    assert "Work it out" in page
    assert "The order as PDF" not in page


def test_an_order_lists_what_is_bought_in_without_a_price(inside, whole):
    _make_doors(whole)
    page = inside.get(f"/jobs/{whole}/orders/").content.decode()
    plan = job_page(whole).whole
    ordered = {line.mark for line in plan.schedule if plan.money.choice_of(line.part.kind).decision == "bought-in"}
    assert ordered
    for line in plan.schedule:
        assert (f'<th scope="row">{line.mark}</th>' in page) == (line.mark in ordered)
    assert "€" not in page
    assert "EUR" not in page
    assert "Quarry Lane Workshop" in page
    assert "Working days from order to delivery: 12" in page


def test_what_the_firm_buys_itself_is_counted_by_size(inside, whole):
    _make_doors(whole)
    page = inside.get(f"/jobs/{whole}/orders/").content.decode()
    plan = job_page(whole).whole
    rows = views.shopping(plan)
    laid = {}
    for material in plan.materials:
        if material.maker == "site-made" and material.sheets:
            for layout in material.sheets.layouts:
                laid[layout.sheet] = laid.get(layout.sheet, 0) + layout.count
    assert laid
    assert laid.items() <= {row.name: row.count for row in rows}.items()
    assert all(row.name in page for row in rows)


def test_nothing_bought_in_asks_for_everything(inside, whole):
    folder = Folder.objects.get(pk=whole)
    book = store.book_now()[2]
    raw = store.as_document(store.job_now(folder)[1])
    raw["making"] = {str(line.part.kind): "site-made" for line in job_page(whole).plan.schedule}
    store.save(folder, 1, lambda _: store.read_job_document(raw, book), who="Ann", book=book)
    page = job_page(whole, start=True)
    while not page.work.over:
        time.sleep(0.05)
    assert "Enquiry to a workshop" in inside.get(f"/jobs/{whole}/orders/").content.decode()


def test_every_paper_is_offered_with_a_line_on_its_purpose():
    owner = papers_for(Role.OWNER)
    assert tuple(paper.file for paper in owner) == file_names()
    assert all(paper.purpose.endswith(".") for paper in owner)


@pytest.mark.parametrize(
    ("name", "start"), [("openings.pdf", b"%PDF"), ("parts.csv", b"mark,"), ("borings.csv", b"mark,")]
)
def test_papers_of_the_parts_need_no_costs(inside, store_job, name, start):
    planner._works.clear()
    reply = inside.get(f"/jobs/{store_job}/papers/{name}/")
    assert reply.content.startswith(start)
    assert f'-b-{name}"' in reply.headers["Content-Disposition"]


def test_a_paper_with_costs_waits_for_them(inside, store_job):
    planner._works.clear()
    reply = inside.get(f"/jobs/{store_job}/papers/summary.pdf/", follow=True)
    assert "needs layouts and costs" in reply.content.decode()
    assert inside.get(f"/jobs/{store_job}/papers/pack/", follow=True).redirect_chain
    with pytest.raises(InputError, match="not worked out yet"):
        paper_file(job_page(store_job).plan, "workshop-order.pdf")


def test_the_pack_holds_every_paper_and_is_the_same_each_time(inside, whole):
    reply = inside.get(f"/jobs/{whole}/papers/pack/?anyway=yes")
    assert reply.headers["Content-Type"] == "application/zip"
    with zipfile.ZipFile(io.BytesIO(reply.content)) as pack:
        assert tuple(pack.namelist()) == file_names()
        assert {entry.date_time[:3] for entry in pack.infolist()} == {(2026, 11, 2)}
        assert pack.testzip() is None
    rendering._files._found.clear()
    assert order_pack(job_page(whole).whole, Role.OWNER) == reply.content
    assert job_page(whole).job.job.date == date(2026, 11, 2)


def test_without_the_right_to_prices_no_paper_has_one(whole):
    plan = job_page(whole).whole
    with zipfile.ZipFile(io.BytesIO(order_pack(plan, Role.MAKER))) as pack:
        assert set(file_names()) - set(pack.namelist()) == {"summary.pdf", "layouts.pdf"}
        for name in pack.namelist():
            read = pack.read(name)
            text = (
                "".join(page.extract_text() for page in PdfReader(io.BytesIO(read)).pages)
                if name.endswith(".pdf")
                else read.decode()
            )
            assert len(text) > 100
            assert "€" not in text
            assert "EUR" not in text
    with_prices = paper_file(plan, "layouts.pdf")
    assert "€" in "".join(page.extract_text() for page in PdfReader(io.BytesIO(with_prices)).pages)


def test_a_paper_that_can_not_be_set_is_one_sentence(inside, whole, monkeypatch):
    def refuse(_plan, _name):
        raise RenderError("papers.not_typeset", name="summary", reason="")

    rendering._files._found.clear()
    monkeypatch.setattr(rendering, "paper_made", refuse)
    for address in ("summary.pdf/", "pack/?anyway=yes"):
        page = inside.get(f"/jobs/{whole}/papers/{address}", follow=True).content.decode()
        assert "ould not be typeset" in page
        assert "Traceback" not in page


@pytest.mark.django_db(transaction=True)
def test_nothing_is_typeset_inside_a_transaction(inside, store_job, monkeypatch):
    inside_one = []

    def look(_plan, _name):
        inside_one.append(connection.in_atomic_block)
        return b"%PDF"

    rendering._files._found.clear()
    monkeypatch.setattr(rendering, "paper_made", look)
    assert inside.get(f"/jobs/{store_job}/papers/openings.pdf/").content == b"%PDF"
    assert inside_one == [False]
    rendering._files._found.clear()


@pytest.mark.parametrize("name", ["x.pdf", "..", "summary", "parts.pdf"])
def test_there_is_no_other_paper(inside, store_job, name):
    assert inside.get(f"/jobs/{store_job}/papers/{name}/").status_code == 404


def test_papers_are_only_looked_at(inside, store_job):
    for address in ("orders", "papers", "papers/parts.csv", "papers/pack"):
        assert inside.post(f"/jobs/{store_job}/{address}/").status_code == 405
