"""Pictures and beginnings stay with their opening when its mark changes."""

from django.core.files.uploadedfile import SimpleUploadedFile

from rodbook.desk.models import Draft, Folder, Photo
from rodbook.desk.platform import store

from ..pictures import picture

PNG = picture()


def _grid(inside, pk):
    """What a browser would send for the grid as it stands."""
    import re
    from html import unescape

    page = inside.get(f"/jobs/{pk}/openings/").content.decode()
    form = {m[1]: unescape(m[2]) for m in re.finditer(r'<input[^>]*name="([^"]+)"[^>]*value="([^"]*)"', page)}
    for name, options in re.findall(r'<select[^>]*name="([^"]+)"[^>]*>(.*?)</select>', page, re.S):
        chosen = re.search(r'<option(?: value="([^"]*)")?[^>]*selected[^>]*>([^<]*)', options)
        form[name] = unescape(chosen[1] if chosen and chosen[1] is not None else chosen[2] if chosen else "")
    return {k: v for k, v in form.items() if not k.endswith("-out") and k not in ("csrfmiddlewaretoken", "more")}


def _pictures(pk):
    return sorted((p.mark, p.sha256[:4]) for p in Photo.objects.filter(folder=pk))


def test_a_new_mark_takes_pictures_and_readings_along_and_an_undo_brings_them_back(inside, store_job):
    inside.post(f"/jobs/{store_job}/photo-add/C1/", {"photo": SimpleUploadedFile("a.png", PNG)})
    Draft.objects.create(folder_id=store_job, mark="C1", readings={"depth": 430.0})
    form = _grid(inside, store_job)
    assert form["r0-mark"] == form["r0-was"] == "C1"
    inside.post(f"/jobs/{store_job}/openings/", {**form, "r0-mark": "N1"})
    assert store.job_now(Folder.objects.get(pk=store_job))[1].openings[0].mark == "N1"
    assert [mark for mark, _ in _pictures(store_job)] == ["N1"]
    assert Draft.objects.get().mark == "N1"
    assert "photos/" in inside.get(f"/jobs/{store_job}/measure/N1/").content.decode()
    inside.post(f"/jobs/{store_job}/history/2/undo/")
    assert [mark for mark, _ in _pictures(store_job)] == ["C1"]
    assert Draft.objects.get().mark == "C1"


def test_two_openings_that_change_marks_change_pictures_too(inside, store_job):
    for mark, data in (("C1", PNG), ("C2", picture(seed=2))):
        inside.post(f"/jobs/{store_job}/photo-add/{mark}/", {"photo": SimpleUploadedFile("a.png", data)})
    before = dict(_pictures(store_job))
    inside.post(f"/jobs/{store_job}/openings/", {**_grid(inside, store_job), "r0-mark": "C2", "r1-mark": "C1"})
    assert dict(_pictures(store_job)) == {"C1": before["C2"], "C2": before["C1"]}


def test_a_save_that_fails_moves_nothing(inside, store_job):
    inside.post(f"/jobs/{store_job}/photo-add/C1/", {"photo": SimpleUploadedFile("a.png", PNG)})
    reply = inside.post(f"/jobs/{store_job}/openings/", {**_grid(inside, store_job), "r0-mark": "N1", "r0-wf": "2"})
    assert reply.status_code == 422
    assert [mark for mark, _ in _pictures(store_job)] == ["C1"]
