"""Pictures of before lose where they were taken: a few at a time, and none is lost however it ends."""

import errno
import io
import os
from pathlib import Path

import pytest
from PIL import Image

from rodbook.desk.keeping import stripping
from rodbook.desk.keeping.keeper import Keeper
from rodbook.desk.keeping.stripping import as_sent, strip_some
from rodbook.desk.keeping.trouble import TroubleKind, sentence
from rodbook.desk.models import Folder, Photo
from rodbook.desk.platform import photos

from ..pictures import picture

PLACE = 0x8825
"""Number of the block that says where a picture was taken (EXIF 2.3, table 4)."""


def _with_place(seed):
    exif = Image.Exif()
    exif[PLACE] = {1: "N", 2: (48.0, 1.0, 2.0)}
    out = io.BytesIO()
    Image.open(io.BytesIO(picture("JPEG", seed=seed))).save(out, "JPEG", exif=exif)
    return out.getvalue()


def _of_before(pk, data, mark="C1"):
    """Keep a picture as a desk did that did not make it anew."""
    sha256 = photos.hash_of(data)
    photos.path_of(sha256).parent.mkdir(exist_ok=True)
    photos.path_of(sha256).write_bytes(data)
    return Photo.objects.create(folder_id=pk, mark=mark, sha256=sha256, kind="image/jpeg", who="Ann")


def _places():
    found = []
    for photo in Photo.objects.order_by("pk"):
        with Image.open(io.BytesIO(photos.path_of(photo.sha256).read_bytes())) as shown:
            found.append(PLACE in shown.getexif())
    return found


@pytest.fixture(autouse=True)
def _no_pictures(settings, tmp_path):
    settings.HOME = tmp_path
    (tmp_path / "photos").mkdir()


def test_pictures_of_before_lose_where_they_were_taken_a_few_at_a_time(inside, store_job):
    old = [_of_before(store_job, _with_place(n), mark=mark) for n, mark in enumerate(("C1", "C2", "C3"))]
    _of_before(store_job, _with_place(0), mark="C4")  # the same picture for another opening
    assert _places() == [True] * 4
    assert strip_some(2) == (2, [])
    assert _places() == [False, False, True, False]
    assert strip_some(20) == (1, [])
    assert _places() == [False] * 4
    assert as_sent() == []
    assert strip_some(20) == (0, [])
    for photo in Photo.objects.order_by("pk"):
        assert photos.hash_of(photos.path_of(photo.sha256).read_bytes()) == photo.sha256
        shown = inside.get(f"/jobs/{store_job}/photos/{photo.sha256}/")
        assert b"".join(shown.streaming_content) == photos.path_of(photo.sha256).read_bytes()
    for photo in old:
        assert not photos.path_of(photo.sha256).exists()
    assert Photo.objects.first().sent_sha256 == old[0].sha256, "so that a phone that sends it again sends nothing new"


def test_one_that_was_sent_again_since_is_there_once(store_job):
    photo = _of_before(store_job, _with_place(1))
    kept = photos.made_anew(_with_place(1))
    photos.keep(kept)
    Photo.objects.create(
        folder_id=store_job, mark="C1", sha256=kept.sha256, kind=kept.kind, who="Ben", sent_sha256=photo.sha256
    )
    assert strip_some(5) == (1, [])
    assert [p.sha256 for p in Photo.objects.all()] == [kept.sha256]
    assert photos.path_of(kept.sha256).is_file()


@pytest.mark.parametrize("what", ["keep", "commit"])
def test_where_it_is_broken_off_the_picture_is_there_and_it_goes_on_later(store_job, monkeypatch, what):
    photo = _of_before(store_job, _with_place(2))

    def full(*_, **__):
        raise OSError(errno.ENOSPC, os.strerror(errno.ENOSPC))

    if what == "keep":
        monkeypatch.setattr(os, "fsync", full)
    else:
        monkeypatch.setattr(Photo, "save", full)
    assert strip_some(5) == (0, [photo.sha256])
    monkeypatch.undo()
    assert photos.path_of(photo.sha256).read_bytes() == _with_place(2)
    assert Photo.objects.get().sha256 == photo.sha256
    assert strip_some(5) == (1, [])
    assert _places() == [False]


def test_one_that_cannot_be_made_anew_stays_and_keeps_no_other_waiting(store_job):
    broken = _of_before(store_job, b"\xff\xd8\xff broken")
    damaged = _of_before(store_job, _with_place(3), mark="C2")
    photos.path_of(damaged.sha256).write_bytes(_with_place(3) + b"x")
    gone = _of_before(store_job, _with_place(4), mark="C3")
    photos.path_of(gone.sha256).unlink()
    _of_before(store_job, _with_place(5), mark="C4")
    done, left = strip_some(20)
    assert (done, left) == (1, [broken.sha256, damaged.sha256, gone.sha256])
    assert photos.path_of(broken.sha256).read_bytes() == b"\xff\xd8\xff broken"
    assert strip_some(20, but=left) == (0, [])


def test_a_full_set_aside_room_keeps_none_from_being_made_anew(store_job, settings):
    photo = _of_before(store_job, _with_place(6))
    settings.MOST_PICTURE_BYTES = photos.path_of(photo.sha256).stat().st_size
    assert strip_some(5) == (1, [])


def test_the_keeper_does_it_and_does_not_try_again_what_can_not_be(store_job, monkeypatch):
    _of_before(store_job, b"\xff\xd8\xff broken")
    _of_before(store_job, _with_place(7), mark="C2")
    monkeypatch.setattr("django.db.connections.close_all", lambda: None)  # a test has one connection, and its own
    keeper = Keeper()
    assert keeper.strip()
    monkeypatch.setattr(stripping, "_strip", None)
    assert not keeper.strip(), "nothing is left to be tried"


# --- a full disk ---


def test_a_picture_on_a_full_disk_leaves_nothing_and_is_told_as_every_save(inside, store_job, monkeypatch, settings):
    def full(*_):
        raise OSError(errno.ENOSPC, os.strerror(errno.ENOSPC))

    monkeypatch.setattr(os, "fsync", full)
    from django.core.files.uploadedfile import SimpleUploadedFile

    address = f"/jobs/{store_job}/photo-add/C1/"

    def send(**headers):
        return inside.post(address, {"photo": SimpleUploadedFile("a.jpg", _with_place(8))}, headers=headers)

    reply = send()
    assert reply.status_code == 507
    assert sentence(TroubleKind.FULL)[:40] in reply.content.decode()
    phone = send(Accept="application/json")
    assert phone.status_code == 507
    assert phone.json() == {"state": "later", "said": sentence(TroubleKind.FULL)}
    assert list((Path(settings.HOME) / "photos").iterdir()) == [], "no part of it takes the room that a save needs"
    assert not Photo.objects.exists()
    assert Folder.objects.get(pk=store_job).head == 1
