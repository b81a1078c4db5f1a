"""What comes in from a phone that had no signal: each reading once, what clashes told, and no page kept that must not be."""

import json
import time
import uuid
from pathlib import Path

import pytest
from django.conf import settings

from rodbook.desk.models import Draft, Folder, Photo, Role, Sent
from rodbook.desk.platform import store
from rodbook.desk.platform.job_page import job_page

from ..pictures import picture

PNG = picture()


def _opening(pk, mark):
    return next(o for o in store.job_now(Folder.objects.get(pk=pk))[1].openings if o.mark == mark)


def _head(pk):
    return Folder.objects.get(pk=pk).head


def _send(client, pk, place, value, *, mark="C1", base=1, key=None, device="phone", **more):
    form = {
        "key": str(key or uuid.uuid4()),
        "device": device,
        "reading": place,
        "value": value,
        "base": str(base),
        "at": "2026-03-02T08:15:00Z",
        **more,
    }
    reply = client.post(f"/jobs/{pk}/reading-in/{mark}/", form)
    assert reply.status_code == 200
    return reply.json()


def test_a_reading_sent_twice_is_taken_once(inside, store_job):
    key = uuid.uuid4()
    for _ in range(3):
        assert _send(inside, store_job, "widths-0", "844", key=key)["state"] == "kept"
    assert _head(store_job) == 2
    assert _opening(store_job, "C1").widths[0] == 844
    assert Sent.objects.get().revision == 2
    assert Sent.objects.get().typed.isoformat() == "2026-03-02T08:15:00+00:00"


def test_a_reading_that_came_by_the_page_is_not_taken_again(inside, store_job):
    key = uuid.uuid4()
    form = {"base": "1", "reading": "widths-0", "value": "844", "key": str(key), "device": "phone", "at": ""}
    assert inside.post(f"/jobs/{store_job}/measure/C1/", form).status_code == 302
    assert inside.post(f"/jobs/{store_job}/measure/C1/", form).status_code == 302
    assert _send(inside, store_job, "widths-0", "844", key=key)["state"] == "kept"
    assert _head(store_job) == 2


def test_readings_of_one_base_go_in_one_after_the_other_and_a_correction_is_no_clash(inside, store_job):
    for place, value in (("widths-0", "844"), ("widths-1", "845"), ("widths-0", "846")):
        assert _send(inside, store_job, place, value) == {"state": "kept", "said": "", "offers": []}
    assert _opening(store_job, "C1").widths[:2] == (846, 845)
    assert _head(store_job) == 4


def test_a_clash_is_told_until_it_is_settled_and_never_goes_in_by_itself(inside, store_job):
    _send(inside, store_job, "widths-0", "849", device="another")
    key = uuid.uuid4()
    told = _send(inside, store_job, "widths-0", "844", key=key)
    assert told["state"] == "clash"
    assert "849 there, 844 here" in told["said"]
    assert Draft.objects.get().readings == {"widths-0": 844.0}
    assert _send(inside, store_job, "widths-1", "845", base=2)["state"] == "clash"  # the first is still open
    assert _opening(store_job, "C1").widths[0] == 849
    assert _send(inside, store_job, "widths-0", "844", key=key, choice="mine")["state"] == "kept"
    assert _opening(store_job, "C1").widths[:2] == (844, 845)
    assert not Draft.objects.exists()


def test_leaving_theirs_drops_only_what_clashed(inside, store_job):
    _send(inside, store_job, "widths-0", "849", device="another")
    key = uuid.uuid4()
    _send(inside, store_job, "widths-0", "844", key=key)
    assert _send(inside, store_job, "widths-0", "844", key=key, choice="theirs")["state"] == "kept"
    assert not Draft.objects.exists()
    assert _opening(store_job, "C1").widths[0] == 849
    assert _send(inside, store_job, "widths-1", "845", base=2)["state"] == "kept"
    assert _opening(store_job, "C1").widths[:2] == (849, 845)


def test_changes_of_others_elsewhere_stand_and_are_said(inside, store_job):
    folder = Folder.objects.get(pk=store_job)
    revision, job = store.job_now(folder)
    raw = store.as_document(job)
    raw["job"]["note"] = "Ring first."
    _, _, book = store.book_now()
    store.save(folder, revision.number, lambda _: store.read_job_document(raw, book), who="Ann")
    told = _send(inside, store_job, "widths-0", "844")
    assert "Ann saved meanwhile" in told["said"]
    assert store.job_now(folder)[1].job.note == "Ring first."
    assert _opening(store_job, "C1").widths[0] == 844


def test_what_stands_out_is_asked_and_kept_only_when_it_is_answered(inside, store_job):
    key = uuid.uuid4()
    told = _send(inside, store_job, "widths-0", "482", key=key)
    assert told["state"] == "asks"
    assert told["offers"] == ["482", "842"]
    assert not Sent.objects.exists()
    assert _send(inside, store_job, "widths-0", "482", key=key, sure="482")["state"] == "kept"
    assert _send(inside, store_job, "widths-0", "wide", base=2)["state"] == "refused"
    assert _send(inside, store_job, "widths-0", "844", mark="nowhere")["state"] == "refused"


def test_a_new_opening_read_without_signal_goes_in_when_its_six_are_there(inside, store_job):
    inside.post(f"/jobs/{store_job}/measure-begin/", {"mark": "C20"})
    values = [("widths", 800), ("heights", 2000)]
    for field, value in values:
        for n in range(3):
            assert _send(inside, store_job, f"{field}-{n}", str(value + n), mark="C20")["state"] == "kept"
    assert _opening(store_job, "C20").heights == (2000, 2001, 2002)
    assert _head(store_job) == 2
    assert set(Sent.objects.values_list("revision", flat=True)) == {2}


@pytest.mark.parametrize("form", [{"reading": "door"}, {"key": "x"}, {"base": "-1"}])
def test_what_is_no_reading_is_not_found(inside, store_job, form):
    whole = {"key": str(uuid.uuid4()), "reading": "widths-0", "value": "844", "base": "1", "device": "p", "at": "x"}
    assert inside.post(f"/jobs/{store_job}/reading-in/C1/", whole | form).status_code == 404


def test_a_picture_sent_twice_is_kept_once_and_a_wrong_one_is_told(inside, store_job, tmp_path):
    from django.core.files.uploadedfile import SimpleUploadedFile

    for data, state in ((PNG, "kept"), (PNG, "kept"), (b"GIF89a", "refused")):
        upload = SimpleUploadedFile("wall.png", data)
        reply = inside.post(
            f"/jobs/{store_job}/photo-add/C1/", {"photo": upload}, headers={"Accept": "application/json"}
        )
        assert reply.json()["state"] == state
    assert Photo.objects.count() == 1


def test_the_worker_and_the_manifest_come_from_the_root(client, db):
    worker = client.get("/sw.js")
    assert worker["Content-Type"].startswith("text/javascript")
    assert "no-cache" in worker["Cache-Control"]
    kept = json.loads(worker.content.decode().splitlines()[0].removeprefix("const KEPT = ").removesuffix(";"))
    assert all("." in name.rsplit("/", 1)[1].removesuffix(".js") for name in kept["files"])  # hashed names
    assert all((Path(settings.STATIC_ROOT) / name.removeprefix("/static/")).is_file() for name in kept["files"])
    told = client.get("/manifest.webmanifest").json()
    assert all((Path(settings.STATIC_ROOT) / icon["src"].removeprefix("/static/")).is_file() for icon in told["icons"])
    assert client.get("/no-signal/").status_code == 200


def test_nothing_with_prices_is_taken_along_or_kept(inside, store_job):
    from rodbook.desk.platform.rendering import papers_for

    told = inside.get(f"/jobs/{store_job}/along/").json()
    assert f"/jobs/{store_job}/measure/C1/" in told["pages"]
    priced = {paper.file for paper in papers_for(Role.OWNER)} - {p.file for p in papers_for(Role.READER)}
    assert priced
    assert not [address for address in told["papers"] if address.rstrip("/").rsplit("/", 1)[1] in priced]
    given = {address: inside.get(address).status_code for address in [*told["pages"], *told["papers"]]}
    assert {address: status for address, status in given.items() if status != 200} == {}


def test_what_is_asked_for_first_is_not_taken_along(inside, store_job):
    """The workshop's order rests on a sample's figures, so it is asked about before it leaves: a phone could not answer."""
    page = job_page(store_job, start=True)
    while not page.work.over:
        time.sleep(0.05)
    told = inside.get(f"/jobs/{store_job}/along/").json()
    assert f"/jobs/{store_job}/papers/site-parts.pdf/" in told["papers"]
    assert f"/jobs/{store_job}/papers/workshop-order.pdf/" not in told["papers"]
    assert {inside.get(address).status_code for address in told["papers"]} == {200}


def test_the_mark_for_kept_pages_changes_with_the_session(inside, store_job, client):
    mark = inside.get("/")["X-Rodbook-Keep"]
    assert mark == inside.get(f"/jobs/{store_job}/")["X-Rodbook-Keep"] != "none"
    inside.cookies.clear()
    assert inside.get("/")["X-Rodbook-Keep"] == "none"
    assert inside.get("/outbox/").status_code == 403
