"""Files in another encoding, sent to the desk: refused with their place, or read as somebody agreed."""

import pytest
from django.core.files.uploadedfile import SimpleUploadedFile

from rodbook.desk.platform import store
from rodbook.job.files import sample_text

from .finished import known

TICK = 'name="western"'
JOB = sample_text("stair").replace('name = "', 'name = "Küche ', 1)
LIST = "mark;room;leaf width;leaf height\nKü1;Küche;447;2100\n"
QUOTE = "mark;amount\nKü1;12\n"


def _file(text, encoding, name):
    return SimpleUploadedFile(name, text.encode(encoding))


@pytest.mark.parametrize("encoding", ["utf-8", "utf-8-sig", "utf-16"])
def test_a_job_file_that_says_its_encoding_is_read(inside, encoding):
    assert inside.post("/jobs/new/", {"file": _file(JOB, encoding, "a.toml")}).status_code == 302
    assert store.jobs()[0].name.startswith("Küche ")


def test_a_job_file_in_the_old_encoding_is_asked_and_then_read(inside):
    reply = inside.post("/jobs/new/", {"file": _file(JOB, "cp1252", "a.toml")})
    page = reply.content.decode()
    assert reply.status_code == 422
    assert not store.jobs()
    assert "�" not in page
    assert "column 10: a character here is not UTF-8" in page
    assert TICK in page
    assert inside.post("/jobs/new/", {"file": _file(JOB, "cp1252", "a.toml"), "western": "yes"}).status_code == 302
    assert store.jobs()[0].name.startswith("Küche ")


def test_a_job_file_in_no_known_encoding_is_refused(inside):
    broken = JOB.encode("cp1252").replace(b"K\xfcche", b"K\x81che")
    reply = inside.post("/jobs/new/", {"file": SimpleUploadedFile("a.toml", broken), "western": "yes"})
    assert reply.status_code == 422
    assert "a character here is not UTF-8" in reply.content.decode()
    assert TICK not in reply.content.decode()
    assert not store.jobs()


@pytest.mark.parametrize(
    ("address", "text", "about"),
    [
        ("/jobs/{}/openings/bring-in/", LIST, {}),
        ("/jobs/{}/quotes/bring-in/", QUOTE, {}),
        ("/book/boards/price-list/", "name;price\nKüche;12\n", {"of": "", "since": "2026-12-01", "source": "list"}),
    ],
)
def test_lists_are_asked_in_the_same_way(inside, store_job, address, text, about):
    address = address.format(store_job)
    if "quotes" in address:
        known(store_job)  # a quote is held against the order
    reply = inside.post(address, {"list": _file(text, "cp1252", "a.csv"), **about})
    assert reply.status_code == 422, address
    assert TICK in reply.content.decode()
    agreed = inside.post(address, {"list": _file(text, "cp1252", "a.csv"), "western": "yes", **about}).content.decode()
    assert TICK not in agreed
    assert "not UTF-8" not in agreed
    assert ("Kü" in agreed) == ("price-list" not in address)  # there, what the book does not have is left out
