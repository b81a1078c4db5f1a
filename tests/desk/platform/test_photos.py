"""Pictures of openings: kept by their content, shown to nobody as anything else."""

import hashlib
import io
import resource
import struct
import time
import zlib

import pytest
from django.conf import settings as desk
from django.core.files.uploadedfile import SimpleUploadedFile
from PIL import Image

from rodbook.desk.models import Photo
from rodbook.desk.platform import photos
from rodbook.desk.platform.picture_kept import LONGEST_PX
from rodbook.job.files.bounded import Ended, EndedError

from ..pictures import picture

PNG, JPEG, WEBP = (picture(kind, seed=n) for n, kind in enumerate(("PNG", "JPEG", "WEBP")))


def _kept():
    """The one picture that is kept: its row and its bytes."""
    photo = Photo.objects.get()
    return photo, photos.path_of(photo.sha256).read_bytes()


def _send(client, pk, data, name="photo.png", mark="C1"):
    address = f"/jobs/{pk}/photo-add/{mark}/"
    return client.post(address, {"photo": SimpleUploadedFile(name, data)} if data is not None else {}, follow=True)


# What was sent was kept byte for byte before; now what is kept is made anew, and named by the hash of that.
@pytest.mark.parametrize(("data", "kind"), [(PNG, "image/png"), (JPEG, "image/jpeg"), (WEBP, "image/jpeg")])
def test_a_picture_is_kept_under_its_hash_and_shown(inside, store_job, data, kind):
    page = _send(inside, store_job, data, name="x.exe").content.decode()
    photo, kept = _kept()
    assert "The picture is kept." in page
    assert f"/jobs/{store_job}/photos/{photo.sha256}/" in page
    assert hashlib.sha256(kept).hexdigest() == photo.sha256
    reply = inside.get(f"/jobs/{store_job}/photos/{photo.sha256}/")
    assert b"".join(reply.streaming_content) == kept
    assert photos.kind_of(kept) == reply["Content-Type"] == kind
    assert reply["X-Content-Type-Options"] == "nosniff"
    with Image.open(io.BytesIO(kept)) as shown:
        assert shown.size == (60, 40)


def test_a_picture_sent_again_is_kept_once(inside, store_job, monkeypatch):
    _send(inside, store_job, JPEG)
    photo, kept = _kept()
    monkeypatch.setattr(photos, "run_bounded", None)  # it is known, so nothing is made anew
    for data in (JPEG, kept):
        assert "The picture is kept." in _send(inside, store_job, data).content.decode()
    assert _kept() == (photo, kept)
    monkeypatch.undo()
    Photo.objects.update(sent_sha256="")  # as in a desk of before: the same is made of the same
    _send(inside, store_job, JPEG)
    assert _kept() == (photo, kept)
    photos.path_of(photo.sha256).unlink()  # a file that was lost comes back
    _send(inside, store_job, JPEG)
    assert _kept() == (photo, kept)


def test_a_picture_of_before_stays_as_it_is(inside, store_job):
    sha256 = hashlib.sha256(JPEG).hexdigest()
    _send(inside, store_job, PNG)
    photos.path_of(sha256).write_bytes(JPEG)
    Photo.objects.update(sha256=sha256, kind="image/jpeg", sent_sha256="")
    _send(inside, store_job, JPEG)
    assert _kept()[1] == JPEG
    assert b"".join(inside.get(f"/jobs/{store_job}/photos/{sha256}/").streaming_content) == JPEG


@pytest.mark.parametrize("kind", ["JPEG", "PNG", "WEBP"])
def test_where_and_with_what_it_was_taken_stays_behind(inside, store_job, kind):
    exif = Image.Exif()
    exif[0x010F], exif[0x0112], exif[0x9286] = "Maker", 6, "Canary"  # camera, turned to the right, a comment
    exif.get_ifd(0x8825).update({1: "N", 2: (51.0, 30.0, 12.0), 29: "2026:03:01"})
    more = {"JPEG": {"comment": b"Canary", "xmp": b"<x>Canary</x>"}, "WEBP": {"xmp": b"<x>Canary</x>"}}.get(kind, {})
    sent = picture(kind, (80, 40), exif=exif, **more)
    assert b"2026:03:01" in sent
    _send(inside, store_job, sent)
    _, kept = _kept()
    for word in (b"Maker", b"Canary", b"2026:03:01", b"Exif", b"eXIf", b"xmp", b"<x>"):
        assert word not in kept
    with Image.open(io.BytesIO(kept)) as shown:
        assert shown.size == (40, 80)  # upright
        assert not shown.getexif()
        assert set(shown.info) <= {"jfif", "jfif_version", "jfif_unit", "jfif_density"}


@pytest.mark.parametrize("mode", ["L", "1", "P", "RGBA", "LA", "I;16", "CMYK"])
def test_pictures_of_every_kind_of_colour_are_kept(inside, store_job, mode):
    kind = "JPEG" if mode == "CMYK" else "PNG"
    sent = picture(kind, mode=mode)
    assert "The picture is kept." in _send(inside, store_job, sent).content.decode()
    with Image.open(io.BytesIO(_kept()[1])) as shown:
        shown.load()


def _big_png(side):
    """A sound PNG of one colour, as small as it can be packed."""

    def chunk(name, data):
        return struct.pack(">I", len(data)) + name + data + struct.pack(">I", zlib.crc32(name + data))

    packer, row = zlib.compressobj(1), b"\0" * (side // 8 + 1)
    packed = b"".join(packer.compress(row * 1000) for _ in range(side // 1000)) + packer.flush()
    head = struct.pack(">IIBBBBB", side, side, 1, 0, 0, 0, 0)
    return b"\x89PNG\r\n\x1a\n" + chunk(b"IHDR", head) + chunk(b"IDAT", packed) + chunk(b"IEND", b"")


def _scans(count):
    """A JPEG of ten million pixels with its last pass over and over."""
    out = io.BytesIO()
    Image.new("RGB", (4000, 2500), "red").save(out, "JPEG", progressive=True)
    sent = out.getvalue()
    last = sent.rindex(b"\xff\xda")
    return sent[:last] + sent[last:-2] * count + b"\xff\xd9"


NASTY = {
    "60,000 x 60,000": (lambda: _big_png(60_000), "more pixels than can be looked at"),
    "6,000 x 6,000 PNG": (lambda: _big_png(6_000), "more pixels than can be looked at"),
    "JPEG said to be huge": (lambda: _resized(60_000), "more pixels than can be looked at"),
    "passes without end": (lambda: _scans(400), "is broken"),
    "cut off": (lambda: picture("JPEG", (900, 600))[:2000], "is broken"),
    "head alone": (lambda: b"\xff\xd8\xff\xe0" + b"picture" * 20, "is broken"),
    "another kind inside": (lambda: b"RIFF\x10\x00\x00\x00WEBPVP8 " + b"picture", "is broken"),
}


def _resized(side):
    """A JPEG whose head claims another size."""
    sent = bytearray(picture("JPEG"))
    at = sent.index(b"\xff\xc0") + 5
    sent[at : at + 4] = struct.pack(">HH", side, side)
    return bytes(sent)


@pytest.mark.parametrize("name", NASTY)
def test_bombs_and_broken_pictures_are_one_sentence_within_bounds(inside, store_job, name):
    made, sentence = NASTY[name]
    data, lying = made(), set((desk.HOME / "photos").glob("*"))
    before = resource.getrusage(resource.RUSAGE_CHILDREN)
    began = time.process_time()
    assert sentence in _send(inside, store_job, data).content.decode()
    after = resource.getrusage(resource.RUSAGE_CHILDREN)
    assert time.process_time() - began + after.ru_utime + after.ru_stime - before.ru_utime - before.ru_stime < 10
    assert not Photo.objects.exists()
    assert set((desk.HOME / "photos").glob("*")) == lying


@pytest.mark.parametrize(("kind", "size"), [("JPEG", (8000, 6000)), ("JPEG", (16_000, 12_000)), ("PNG", (4000, 3000))])
def test_a_large_photograph_is_kept_at_a_smaller_size(inside, store_job, kind, size):
    page = _send(inside, store_job, picture(kind, size)).content.decode()
    assert "The picture is kept." in page
    with Image.open(io.BytesIO(_kept()[1])) as shown:
        assert max(shown.size) == LONGEST_PX
        assert shown.size[0] * size[1] == pytest.approx(shown.size[1] * size[0], rel=0.001)


def test_all_pictures_together_have_a_limit(inside, store_job, settings):
    _send(inside, store_job, PNG)
    settings.MOST_PICTURE_BYTES = photos.bytes_kept() + 100
    page = _send(inside, store_job, picture("JPEG", seed=99)).content.decode()
    assert "that are set aside for them, so this one was not kept; take pictures away that nobody needs" in page
    assert Photo.objects.count() == 1
    _send(inside, store_job, PNG, mark="C2")  # what is there already takes no more room
    assert Photo.objects.count() == 2


@pytest.mark.parametrize(
    ("why", "status", "sentence"),
    [
        (Ended.TIME, 200, "took longer than 8 s"),
        (Ended.MEMORY, 200, "too much memory"),
        (Ended.BROKEN, 200, "is broken"),
        (Ended.BUSY, 503, "send this one again"),  # a phone does so by itself
    ],
)
def test_what_is_ended_is_told(inside, store_job, monkeypatch, why, status, sentence):
    def ended(*_args, **_more):
        raise EndedError(why)

    monkeypatch.setattr(photos, "run_bounded", ended)
    reply = inside.post(
        f"/jobs/{store_job}/photo-add/C1/",
        {"photo": SimpleUploadedFile("a.png", PNG)},
        headers={"Accept": "application/json"},
    )
    assert reply.status_code == status
    assert reply.json()["state"] == "refused"
    assert sentence in reply.json()["said"]
    assert not Photo.objects.exists()


@pytest.mark.parametrize(
    ("data", "sentence"),
    [
        (b"<svg xmlns='x'><script>1</script></svg>", "is no JPEG, PNG or WebP picture"),
        (b"GIF89a", "is no JPEG, PNG or WebP picture"),
        (b"RIFF\x10\x00\x00\x00WAVE", "is no JPEG, PNG or WebP picture"),
        (JPEG + b"\0" * photos.MOST_BYTES, "larger than 10 MB"),
        (None, "No picture was chosen."),
    ],
)
def test_anything_else_is_one_sentence_and_nothing_stored(inside, store_job, data, sentence):
    assert sentence in _send(inside, store_job, data, name="photo.jpg").content.decode()
    assert not Photo.objects.exists()
    if data is not None:
        assert not photos.path_of(hashlib.sha256(data).hexdigest()).exists()


def test_only_pictures_of_this_job_are_shown(inside, store_job):
    _send(inside, store_job, PNG)
    sha256 = Photo.objects.get().sha256
    other = inside.post("/jobs/sample/", {"sample": "stair"}).headers["Location"].rstrip("/").rsplit("/", 1)[1]
    assert inside.get(f"/jobs/{other}/photos/{sha256}/").status_code == 404
    assert inside.get(f"/jobs/{store_job}/photos/{'0' * 64}/").status_code == 404
    assert inside.get(f"/jobs/{store_job}/photos/..%2fsecret-key/").status_code == 404
    assert inside.post(f"/jobs/{store_job}/photos/{sha256}/").status_code == 405


def test_no_picture_without_an_opening_and_only_by_post(inside, store_job):
    assert _send(inside, store_job, PNG, mark="none").status_code == 404
    assert _send(inside, 999, PNG).status_code == 404
    assert inside.get(f"/jobs/{store_job}/photo-add/C1/").status_code == 405


def test_a_picture_is_taken_away_and_its_file_when_nobody_else_has_it(inside, store_job):
    page = _send(inside, store_job, PNG).content.decode()
    sha256 = Photo.objects.get().sha256
    assert "gone for good" in page
    _send(inside, store_job, PNG, mark="C2")
    inside.post(f"/jobs/{store_job}/photo-out/C1/", {"sha256": sha256})
    assert [photo.mark for photo in Photo.objects.all()] == ["C2"]
    assert photos.path_of(sha256).exists()
    reply = inside.post(f"/jobs/{store_job}/photo-out/C2/", {"sha256": sha256}, follow=True)
    assert "The picture is taken away." in reply.content.decode()
    assert not photos.path_of(sha256).exists()
    assert inside.get(f"/jobs/{store_job}/photos/{sha256}/").status_code == 404
    again = inside.post(f"/jobs/{store_job}/photo-out/C2/", {"sha256": sha256}, follow=True)
    assert "gone already" in again.content.decode()
    assert inside.get(f"/jobs/{store_job}/photo-out/C2/").status_code == 405


def test_a_picture_of_another_job_stays(inside, store_job):
    _send(inside, store_job, JPEG)
    other = inside.post("/jobs/sample/", {"sample": "stair"}).headers["Location"].rstrip("/").rsplit("/", 1)[1]
    inside.post(f"/jobs/{other}/photo-out/C1/", {"sha256": Photo.objects.get().sha256})
    assert Photo.objects.count() == 1
