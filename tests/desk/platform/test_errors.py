"""Where there is no page to show: a sentence and a way on, in the desk's own look."""

import pytest
from django.test import Client

from rodbook.desk.models import Folder
from rodbook.desk.platform import store


@pytest.mark.parametrize("address", ["/jobs/9999/", "/nowhere/", "/jobs/9999/openings/", "/static/desk/none.css"])
def test_what_is_not_there_is_said_and_leads_back(inside, address):
    reply = inside.get(address)
    page = reply.content.decode()
    assert reply.status_code == 404
    assert "There is nothing here" in page
    assert 'href="/"' in page
    assert 'class="top"' in page


def test_a_stranger_learns_nothing_from_an_address_that_is_wrong(client, db):
    page = client.get("/nowhere/").content.decode()
    assert "There is nothing here" in page
    assert "/book/" not in page.split("<main", 1)[1]


def test_a_fault_of_the_desk_s_own_is_a_sentence_and_no_traceback(inside, store_job, monkeypatch):
    def fall(*_args, **_more):
        raise RuntimeError("a secret of the inside")

    monkeypatch.setattr("rodbook.desk.overview.views.job_page", fall)
    inside.raise_request_exception = False
    reply = inside.get(f"/jobs/{store_job}/")
    page = reply.content.decode()
    assert reply.status_code == 500
    assert "The desk itself is at fault, not you." in page
    assert "secret" not in page
    assert "<script" not in page


def test_the_same_page_comes_where_the_database_can_not_be_read(inside, monkeypatch):
    from django.db import OperationalError

    def fall(*_args, **_more):
        raise OperationalError("disk I/O error")

    monkeypatch.setattr("django.db.models.query.QuerySet._fetch_all", fall)
    inside.raise_request_exception = False
    reply = inside.get("/")
    assert reply.status_code == 500
    assert "The desk itself is at fault" in reply.content.decode()


def test_a_form_without_its_token_is_told_to_load_the_page_anew(db):
    from rodbook.desk.platform.access import new_key

    client = Client(enforce_csrf_checks=True)
    client.get(f"/enter/{new_key()}/")
    reply = client.post("/jobs/new/", {"name": "Barn"})
    assert reply.status_code == 403
    assert "load the page anew" in reply.content.decode()
    assert not Folder.objects.filter(name="Barn").exists()


def test_a_foreign_host_gets_a_sentence(inside):
    reply = inside.get("/", headers={"host": "elsewhere.example"})
    assert reply.status_code == 400
    assert "can&#x27;t be read here" in reply.content.decode()


def test_more_than_anything_may_have_is_refused_before_it_is_read(inside, store_job, settings):
    settings.MOST_SENT = 1000
    reply = inside.post(f"/jobs/{store_job}/openings/bring-in/", {"list": "x" * 2000})
    assert reply.status_code == 413
    assert "nothing of it was kept" in reply.content.decode()
    assert store.head(Folder.objects.get(pk=store_job)).number == 1


@pytest.mark.parametrize("stage", ["sizes", "parts", "leaves", "boards", "orders", "papers", "make-or-buy"])
def test_an_empty_job_is_not_called_faulty(inside, stage):
    assert inside.post("/jobs/new/", {"name": "Barn", "build_up": "inset, painted"}).status_code == 302
    page = inside.get(f"/jobs/{Folder.objects.get(name='Barn').pk}/{stage}/").content.decode()
    assert "Nothing is measured yet, so there is nothing to" in page
    assert "has faults" not in page
