"""Pictures of openings: kept by their content, shown to nobody as anything else."""

import hashlib

import pytest
from django.conf import settings
from django.core.files.uploadedfile import SimpleUploadedFile

from rodbook.desk import photos
from rodbook.desk.models import Photo

PNG = b"\x89PNG\r\n\x1a\n" + b"picture" * 20
JPEG = b"\xff\xd8\xff\xe0" + b"picture" * 20
WEBP = b"RIFF\x10\x00\x00\x00WEBPVP8 " + b"picture"


def _send(client, pk, data, name="photo.png", mark="C1"):
    address = f"/jobs/{pk}/photo-add/{mark}/"
    return client.post(address, {"photo": SimpleUploadedFile(name, data)} if data is not None else {}, follow=True)


@pytest.mark.parametrize(("data", "kind"), [(PNG, "image/png"), (JPEG, "image/jpeg"), (WEBP, "image/webp")])
def test_a_picture_is_kept_under_its_hash_and_shown(inside, store_job, data, kind):
    page = _send(inside, store_job, data, name="x.exe").content.decode()
    sha256 = hashlib.sha256(data).hexdigest()
    assert "The picture is kept." in page
    assert f"/jobs/{store_job}/photos/{sha256}/" in page
    assert (settings.HOME / "photos" / sha256).read_bytes() == data
    reply = inside.get(f"/jobs/{store_job}/photos/{sha256}/")
    assert b"".join(reply.streaming_content) == data
    assert reply["Content-Type"] == kind
    assert reply["X-Content-Type-Options"] == "nosniff"
    _send(inside, store_job, data)
    assert Photo.objects.count() == 1


@pytest.mark.parametrize(
    ("data", "sentence"),
    [
        (b"<svg xmlns='x'><script>1</script></svg>", "is no JPEG, PNG or WebP picture"),
        (b"GIF89a", "is no JPEG, PNG or WebP picture"),
        (b"RIFF\x10\x00\x00\x00WAVE", "is no JPEG, PNG or WebP picture"),
        (JPEG + b"\x00" * photos.MOST_BYTES, "larger than 10 MB"),
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
    sha256 = hashlib.sha256(PNG).hexdigest()
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
    sha256 = hashlib.sha256(PNG).hexdigest()
    page = _send(inside, store_job, PNG).content.decode()
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
    inside.post(f"/jobs/{other}/photo-out/C1/", {"sha256": hashlib.sha256(JPEG).hexdigest()})
    assert Photo.objects.count() == 1
