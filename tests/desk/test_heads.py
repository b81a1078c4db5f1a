"""What the head of every answer says, and that texts which people type are shown as texts."""

import pytest
from django.urls import get_resolver, reverse

from rodbook.desk.models import Deed, Folder

NASTY = "<script>alert(1)</script>\"'><b>{{ 7|add:7 }}' OR 1=1 --"


def _addresses(pk):
    arguments = {"pk": pk, "number": 1, "mark": "C1", "name": "parts-schedule.pdf", "kind": "csv"}
    for pattern in get_resolver().url_patterns:
        needs = set(pattern.pattern.converters)
        if pattern.name and needs <= set(arguments) and pattern.name != "logout":
            yield reverse(pattern.name, kwargs={k: arguments[k] for k in needs})


def test_every_answer_says_what_it_is_and_is_not_framed_sniffed_or_told_to_others(inside, store_job):
    seen = 0
    for address in [*_addresses(store_job), "/no-such-page/"]:
        reply = inside.get(address)
        seen += 1
        assert reply["X-Content-Type-Options"] == "nosniff", address
        assert reply["Referrer-Policy"] == "same-origin", address
        assert "default-src 'none'" in reply["Content-Security-Policy"], address
        assert "frame-ancestors 'none'" in reply["Content-Security-Policy"], address
        assert "Access-Control-Allow-Origin" not in reply, address
        assert "Server" not in reply, address
        assert "X-Powered-By" not in reply, address
        if reply.status_code == 200:
            assert reply["Content-Type"], address
            if reply["Content-Type"].startswith("text/"):
                assert "charset=utf-8" in reply["Content-Type"], address
    assert seen > 60


@pytest.mark.parametrize("method", ["PUT", "DELETE", "PATCH", "TRACE"])
def test_no_page_takes_another_method(inside, store_job, method):
    token = Folder.objects.get(pk=store_job).head
    for address in _addresses(store_job):
        assert inside.generic(method, address).status_code in (403, 404, 405), address
    assert Folder.objects.get(pk=store_job).head == token


def test_a_name_that_is_code_is_shown_as_a_name(inside, store_job):
    Folder.objects.filter(pk=store_job).update(name=NASTY[:120])
    Deed.objects.create(doing="file-taken", who=NASTY, place="x", parameters={"file": NASTY}, when="2031-04-02T12:00Z")
    for address in ("/", "/deeds/", f"/jobs/{store_job}/history/"):
        page = inside.get(address).content.decode()
        assert "<script>alert" not in page, address
        assert "<b>" not in page, address
        assert "&lt;b&gt;14" not in page, address
    assert "&lt;script&gt;alert(1)" in inside.get("/deeds/").content.decode()


def test_sign_in_leads_nowhere_else(client, settings, db):
    from rodbook.desk.entrance import people

    settings.SHARED = True
    people.add_person("ada", "owner", "plinth walnut teapot")
    for away in ("https://evil.example/", "//evil.example", "javascript:alert(1)"):
        reply = client.post("/login/", {"username": "ada", "password": "plinth walnut teapot", "next": away})
        assert reply.headers["Location"] == "/"


def test_no_default_account_and_no_path_of_a_session_in_an_address(client, settings, db):
    from django.contrib.auth import get_user_model

    assert get_user_model().objects.count() == 0
    settings.SHARED = True
    reply = client.get("/login/")
    assert settings.SESSION_COOKIE_NAME not in reply.content.decode()
    assert 'autocomplete="current-password"' in reply.content.decode()
    assert "onpaste" not in reply.content.decode()
