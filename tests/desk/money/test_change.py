"""A change of a job in money: an earlier revision against the job as it stands; a paper for the client without a cost."""

import io
import time

import pypdf
import pytest
from django.contrib.auth import get_user_model
from django.test import Client

from rodbook.desk.entrance import people
from rodbook.desk.models import Folder
from rodbook.desk.platform import store


@pytest.fixture
def changed(inside):
    """The stair, whose third opening the client gives up in revision 2."""
    reply = inside.post("/jobs/sample/", {"sample": "stair"})
    folder = Folder.objects.get(pk=int(reply.headers["Location"].rstrip("/").rsplit("/", 1)[1]))
    job = store.job_now(folder)[1]
    store.save(folder, 1, lambda _: job.model_copy(update={"openings": job.openings[:2]}), who="Ann")
    return folder.pk


def _shown(browser, pk, query):
    """The page, once both are worked out."""
    for _ in range(600):
        page = browser.get(f"/jobs/{pk}/change/?{query}").content.decode()
        if "are being worked out" not in page:
            return page
        time.sleep(0.1)
    raise AssertionError("not worked out within a minute")


def test_what_falls_away_is_saved_unless_it_is_made_already(inside, changed):
    page = inside.get(f"/jobs/{changed}/change/").content.decode()
    assert "revision 1: " in page
    page = _shown(inside, changed, "from=1&what=without+the+third")
    assert "door: 1 falls away:" in page
    assert "EUR less." in page
    assert "% with it as priced, and " in page
    made = _shown(inside, changed, "from=1&made=door")
    assert "it is made already, so nothing is saved: no difference in cost." in made
    assert 'value="door" checked' in made
    assert store.head(Folder.objects.get(pk=changed)).number == 2


def test_the_client_s_paper_says_what_changes_and_no_cost(inside, changed):
    page = _shown(inside, changed, "from=1&what=without+the+third")
    reply = inside.get(f"/jobs/{changed}/change/paper/?from=1&what=without+the+third&anyway=yes")
    assert reply["Cache-Control"] == "no-store"
    text = "".join(p.extract_text() for p in pypdf.PdfReader(io.BytesIO(reply.content)).pages)
    assert "without the third" in text
    cost = page.split("<tfoot>")[1].split('data-word="Cost">')[1].split("<")[0]
    net = page.split("<tfoot>")[1].split('data-word="Net price">')[1].split("<")[0]
    assert cost != net
    assert cost not in text
    assert "crew" not in text.lower()
    assert "less by this" in text
    assert "is left without it" not in text


@pytest.mark.parametrize("number", ["", "2", "9", "x", "-1", "1" * 30])
def test_a_revision_that_is_not_before_this_one(inside, changed, number):
    reply = inside.get(f"/jobs/{changed}/change/?from={number}")
    page = reply.content.decode()
    assert reply.status_code == 422
    assert 'id="fault-from"' in page
    assert page.count("autofocus") == 1
    assert inside.get(f"/jobs/{changed}/change/paper/?from={number}").status_code == 404


def test_words_that_are_too_long(inside, changed):
    reply = inside.get(f"/jobs/{changed}/change/?from=1&what={'x' * 200}")
    assert reply.status_code == 422
    assert "say it in a line" in reply.content.decode()


def test_two_that_are_the_same(inside, changed):
    inside.post(f"/jobs/{changed}/history/2/undo/")
    assert "nothing to be priced" in _shown(inside, changed, "from=1")


def test_a_job_of_one_revision(inside, store_job):
    assert "one revision only" in inside.get(f"/jobs/{store_job}/change/").content.decode()


def test_makers_have_none_of_it(changed, settings):
    settings.SHARED = True
    people.add_person("mo", "maker", "seven larch boards")
    client = Client()
    client.force_login(get_user_model().objects.get(username="mo"))
    assert client.get(f"/jobs/{changed}/change/?from=1").status_code == 403
    assert client.get(f"/jobs/{changed}/change/paper/?from=1").status_code == 403
