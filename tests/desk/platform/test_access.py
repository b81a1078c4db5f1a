"""Nobody comes in without the key; the key opens once."""

import pytest
from django.urls import get_resolver

from rodbook.desk.platform.access import OPEN_PAGES, new_key, owns_key

ARGUMENTS = {"pk": 1, "number": 1, "key": "x", "mark": "C1", "name": "x", "kind": "x", "sha256": "0" * 64, "index": 0}


def _addresses():
    from django.urls import reverse

    for pattern in get_resolver().url_patterns:
        if pattern.name and pattern.name not in OPEN_PAGES:
            wanted = pattern.pattern.converters
            yield pattern.name, reverse(pattern.name, kwargs={k: ARGUMENTS[k] for k in wanted})


def test_every_page_but_the_way_in_refuses_a_stranger(client, db):
    addresses = dict(_addresses())
    assert len(addresses) > 5
    for name, address in addresses.items():
        for method in ("get", "post"):
            assert getattr(client, method)(address).status_code == 403, name


def test_the_key_opens_once(client, db, settings):
    key = new_key()
    assert client.get(f"/enter/{key}/").status_code == 302
    other = client.__class__()
    assert other.get(f"/enter/{key}/").status_code == 403
    assert client.get("/").headers["Location"] == "/begin/"


@pytest.mark.parametrize("wrong", ["", "x", "\ud800", "é" * 10])
def test_a_wrong_key_opens_nothing(wrong, db):
    key = new_key()
    assert not owns_key(wrong)
    assert owns_key(key)
    assert not owns_key(key)


def test_a_foreign_host_is_refused(inside):
    assert inside.get("/", headers={"host": "evil.example"}).status_code == 400


def test_a_post_without_the_token_is_refused(db):
    from django.test import Client

    strict = Client(enforce_csrf_checks=True)
    strict.get(f"/enter/{new_key()}/")
    assert strict.post("/jobs/sample/", {"sample": "stair"}).status_code == 403


def test_pages_carry_a_strict_policy(inside):
    policy = inside.get("/").headers["Content-Security-Policy"]
    assert "default-src 'none'" in policy
    assert "unsafe" not in policy


@pytest.mark.parametrize("address", ["/static/../desk.sqlite3", "/static/%2e%2e/secret-key", "/static/..%2fsecret-key"])
def test_no_path_leads_out_of_the_static_files(inside, address):
    assert inside.get(address).status_code in (403, 404)
