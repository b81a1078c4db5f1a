"""Measuring on site: every reading is kept, what stands out is asked, the job takes what is complete."""

import re

import pytest

from rodbook.desk.models import Draft, Folder
from rodbook.desk.openings.measuring import (
    BY_NAME,
    FURTHER,
    PLACES,
    after,
    before,
    doubt_of,
    place_named,
    sketch,
    spoken_slips,
)
from rodbook.desk.platform import store


def _job(pk):
    return store.job_now(Folder.objects.get(pk=pk))[1]


def _opening(pk, mark):
    return next((o for o in _job(pk).openings if o.mark == mark), None)


def _head(pk):
    return Folder.objects.get(pk=pk).head


def _read(client, pk, mark, place, value, *, fragment=False, **more):
    headers = {"HX-Request": "true"} if fragment else {}
    form = {"base": str(_head(pk)), "reading": place, "value": value, **more}
    return client.post(f"/jobs/{pk}/measure/{mark}/", form, headers=headers)


def test_a_slip_of_the_ear_or_the_pencil_is_offered():
    assert doubt_of(BY_NAME["widths-1"], 482, {"widths-0": 842, "widths-2": 843}).offers == (482, 842)
    assert doubt_of(BY_NAME["heights-1"], 2013, {"heights-0": 2031}) is None
    assert doubt_of(BY_NAME["heights-1"], 2113, {"heights-0": 2131}) is None
    assert 2050 in list(spoken_slips(2015))
    assert doubt_of(BY_NAME["widths-0"], 915, {"widths-1": 951, "widths-2": 1150}) is not None
    assert doubt_of(BY_NAME["heights-2"], 1540, {"heights-0": 1985}, raked=True) is None
    assert doubt_of(BY_NAME["depth"], 60, {}) is None
    assert doubt_of(BY_NAME["widths-0"], 84, {}).offers == (840,)


def test_a_diagonal_that_the_sides_do_not_allow_is_asked():
    sides = {"widths-2": 842.0, "heights-2": 2030.0}
    assert doubt_of(BY_NAME["diagonals-0"], 2198, sides) is None
    asked = doubt_of(BY_NAME["diagonals-0"], 2918, sides)
    assert asked.offers == (2918, 2198)
    assert "about 2198" in asked.why


@pytest.mark.parametrize(
    "place",
    [
        *PLACES,
        *FURTHER,
        *map(
            place_named,
            (
                "readings-width-600",
                "readings-height-400",
                "readings-width-foot",
                "readings-diagonal-right",
                "readings-plumb-left-again",
                "readings-depth-top",
            ),
        ),
    ],
    ids=lambda p: p.name,
)
def test_the_sketch_marks_exactly_the_next_reading(place):
    for readings in ({}, {"widths-0": 400.0, "heights-1": 2400.0}, {"widths-0": 5000.0, "heights-1": 300.0}):
        drawn = sketch(readings, place)
        assert [line.look for line in drawn.lines].count("next") == 1
        assert drawn.lines[-1].look == "next"
        assert str(place.words) in drawn.words
        for line in drawn.lines:
            assert all(0 <= v <= 322 for v in (line.x1, line.x2))
            assert all(0 <= v <= 258 for v in (line.y1, line.y2))


def test_the_page_shows_what_comes_next_and_works_without_scripts(inside, store_job):
    page = inside.get(f"/jobs/{store_job}/measure/C1/?reading=widths-1").content.decode()
    assert "width at middle" in page
    assert "<html" in page
    assert re.search(r'<form method="post" action="/jobs/\d+/measure/C1/"[^>]*class="reading"', page)
    assert _read(inside, store_job, "C1", "widths-0", "844,5").status_code == 302
    assert _opening(store_job, "C1").widths[0] == 844.5
    assert Folder.objects.get(pk=store_job).revisions.first().said == "C1: width at foot 842 → 844.5"
    assert not Draft.objects.exists()


def test_a_fragment_for_htmx_goes_on_to_the_next_reading(inside, store_job):
    reply = _read(inside, store_job, "C1", "widths-0", "845", fragment=True)
    page = reply.content.decode()
    assert reply.status_code == 200
    assert "<html" not in page
    assert page.count('id="measure"') == 1
    assert 'name="reading" value="widths-1"' in page
    assert "Saved as revision 2." in page
    assert 'name="base" value="2"' in page


def test_what_stands_out_is_asked_and_nothing_plausible_refused(inside, store_job):
    reply = _read(inside, store_job, "C1", "widths-0", "482", fragment=True)
    page = reply.content.decode()
    assert reply.status_code == 200
    assert re.search(r"482\s+or\s+842\?", page)
    assert 'name="sure" value="482"' in page
    assert 'name="sure" value="842"' in page
    assert not Draft.objects.exists()
    _read(inside, store_job, "C1", "widths-0", "", sure="482")
    assert Draft.objects.get().readings == {"widths-0": 482.0}
    assert _head(store_job) == 1
    page = inside.get(f"/jobs/{store_job}/measure/C1/").content.decode()
    assert "differ by" in page
    assert "Kept, and not in the job yet." in page


def test_an_offer_that_was_not_made_is_asked_again(inside, store_job):
    reply = _read(inside, store_job, "C1", "widths-0", "", sure="84")
    assert "84 mm is less than 150 mm" in reply.content.decode()
    assert not Draft.objects.exists()


@pytest.mark.parametrize("typed", ["", "tall", "1e400", "842,5,1", "-5x"])
def test_what_is_no_length_is_told_beside_the_box_and_kept(inside, store_job, typed):
    inside.post(f"/jobs/{store_job}/measure-begin/", {"mark": "N1", "leaves": "1"})
    reply = _read(inside, store_job, "N1", "widths-0", typed)
    page = reply.content.decode()
    assert reply.status_code == 422
    assert 'aria-describedby="fault-reading"' in page
    assert 'id="fault-reading"' in page
    assert f'name="value" value="{typed}"' in page


def test_an_opening_begun_on_site_goes_into_the_job_when_its_six_are_read(inside, store_job):
    reply = inside.post(f"/jobs/{store_job}/measure-begin/", {"mark": "C15", "room": "porch", "leaves": "2"})
    assert reply.status_code == 302
    for place, value in zip(PLACES[:5], (801, 802, 803, 1990, 1991), strict=True):
        _read(inside, store_job, "C15", place.name, str(value))
    assert _opening(store_job, "C15") is None
    assert len(Draft.objects.get(mark="C15").readings) == 7
    _read(inside, store_job, "C15", "heights-2", "1992")
    found = _opening(store_job, "C15")
    assert (found.widths, found.heights) == ((801, 802, 803), (1990, 1991, 1992))
    assert (found.room, found.leaves) == ("porch", 2)
    assert not Draft.objects.filter(mark="C15").exists()
    assert _head(store_job) == 2
    _read(inside, store_job, "C15", "depth", "61")
    assert Draft.objects.filter(mark="C15").exists() or _opening(store_job, "C15").depth == 61


def test_a_planned_opening_stands_once_it_is_measured(inside):
    reply = inside.post("/jobs/sample/", {"sample": "timber-house"})
    pk = int(reply.headers["Location"].rstrip("/").rsplit("/", 1)[1])
    assert _opening(pk, "W1").state == "planned"
    for place, value in zip(PLACES[:6], (962, 962, 961, 2140, 2140, 2141), strict=True):
        assert _read(inside, pk, "W1", place.name, str(value)).status_code == 302
    found = _opening(pk, "W1")
    assert (found.state, found.leaf, found.leaves) == ("standing", None, 2)
    assert found.heights == (2140, 2140, 2141)


@pytest.mark.parametrize(
    ("typed", "sentence"),
    [
        ({"mark": ""}, "needs its mark"),
        ({"mark": "c1"}, "is there already"),
        ({"mark": "a/b"}, "letters, numbers, spaces and dashes"),
        ({"mark": ".."}, "letters, numbers, spaces and dashes"),
        ({"mark": "X" * 81}, "at most 80"),
        ({"mark": "X", "leaves": "9"}, "one, two or three leaves"),
    ],
)
def test_a_beginning_that_can_not_be_is_told_beside_its_field(inside, store_job, typed, sentence):
    reply = inside.post(f"/jobs/{store_job}/measure-begin/", typed)
    page = reply.content.decode()
    assert reply.status_code == 422
    assert sentence in page
    assert 'aria-invalid="true"' in page
    assert not Draft.objects.exists()


def test_notes_are_kept_in_the_job_and_faults_told(inside, store_job):
    address = f"/jobs/{store_job}/measure-about/C1/"
    form = {"base": "1", "reading": "widths-2", "room": "porch", "leaves": "2", "hand": "left", "head": "level"}
    reply = inside.post(address, form | {"note": "damp wall"})
    assert reply.status_code == 302
    assert reply.headers["Location"].endswith("?reading=widths-2")
    assert _opening(store_job, "C1").note == "damp wall"
    reply = inside.post(address, form | {"base": "2", "note": "x" * 401})
    assert reply.status_code == 422
    assert 'id="fault-note"' in reply.content.decode()
    reply = inside.post(address, form | {"base": "2", "leaves": "7"})
    assert reply.status_code == 422
    assert 'id="fault-leaves"' in reply.content.decode()
    assert _head(store_job) == 2


def test_two_people_reading_the_same_place_are_told_and_the_reading_is_kept(inside, store_job):
    _read(inside, store_job, "C1", "widths-0", "844")
    reply = inside.post(f"/jobs/{store_job}/measure/C1/", {"base": "1", "reading": "widths-0", "value": "846"})
    assert reply.status_code == 409
    assert _opening(store_job, "C1").widths[0] == 844
    assert Draft.objects.get().readings == {"widths-0": 846.0}


def test_lists_name_every_opening_and_what_is_missing_is_not_found(inside, store_job):
    inside.post(f"/jobs/{store_job}/measure-begin/", {"mark": "C15"})
    page = inside.get(f"/jobs/{store_job}/measure/").content.decode()
    assert all(f"/measure/{o.mark}/" in page for o in _job(store_job).openings)
    assert "/measure/C15/" in page
    assert inside.get(f"/jobs/{store_job}/measure/none/").status_code == 404
    assert inside.get("/jobs/999/measure/").status_code == 404
    assert inside.get("/jobs/999/measure/C1/").status_code == 404
    assert inside.get(f"/jobs/{store_job}/measure-begin/").status_code == 405
    assert inside.get(f"/jobs/{store_job}/measure-about/C1/").status_code == 405


# --- further readings ---------------------------------------------------------------------------------------------


def test_further_readings_follow_each_other_and_not_the_usual_ones():
    assert after(PLACES[-1]) is None
    assert after(FURTHER[0]) is FURTHER[1]
    assert after(FURTHER[-1]) is None
    assert before(FURTHER[0]) is PLACES[-1]
    assert place_named("readings-width-600").words == "width at 600 mm"
    assert [place_named(name) for name in ("readings-up", "room", "readings-", "widths-9")] == [None] * 4


def test_what_no_side_is_out_by_is_asked():
    plumb = BY_NAME["readings-plumb-left"]
    assert doubt_of(plumb, -3, {}) is None
    assert doubt_of(plumb, 0, {}) is None
    assert "more than 120 mm" in doubt_of(plumb, 842, {}).why
    assert "less than -120 mm" in doubt_of(plumb, -300, {}).why
    assert doubt_of(BY_NAME["readings-level-head"], -500, {}, raked=True) is None
    assert doubt_of(BY_NAME["readings-level-head"], -500, {}) is not None
    assert doubt_of(place_named("readings-width-600"), 84, {}).offers == (840,)


def test_a_further_reading_goes_into_the_job_with_its_sign(inside, store_job):
    page = inside.get(f"/jobs/{store_job}/measure/C1/?reading=readings-plumb-left").content.decode()
    assert "above 0 where the upper end stands further right" in page
    assert _read(inside, store_job, "C1", "readings-plumb-left", "-2,5").status_code == 302
    assert _read(inside, store_job, "C1", "readings-width-600", "843").status_code == 302
    assert _opening(store_job, "C1").readings == {"plumb-left": -2.5, "width-600": 843}
    said = [r.said for r in Folder.objects.get(pk=store_job).revisions.all()[:2]]
    assert said == ["C1: width 600 nothing → 843", "C1: plumb left nothing → -2.5"]
    assert not Draft.objects.exists()
    page = inside.get(f"/jobs/{store_job}/measure/C1/").content.decode()
    assert 'data-place-row="readings-width-600"' in page
    assert "9 of 9 taken" in page


def test_further_readings_of_an_opening_that_is_only_begun_wait_with_it(inside, store_job):
    inside.post(f"/jobs/{store_job}/measure-begin/", {"mark": "N1", "leaves": "2"})
    _read(inside, store_job, "N1", "readings-plumb-left", "3")
    assert _opening(store_job, "N1") is None
    for place, value in zip(PLACES[:6], (842, 842, 843, 2030, 2030, 2031), strict=True):
        _read(inside, store_job, "N1", place.name, str(value))
    assert _opening(store_job, "N1").readings == {"plumb-left": 3}
    assert not Draft.objects.exists()


def test_the_page_says_what_nothing_checks_and_what_would(inside, store_job):
    page = inside.get(f"/jobs/{store_job}/measure/C1/?reading=depth").content.decode()
    assert "Nothing checks the width at middle, height at middle and depth at foot." in page
    assert "One more reading:" in page
    assert re.search(r"\?reading=(readings|widths|heights|diagonals)-", page)


def test_a_reading_that_stands_out_is_named_on_the_page(inside, store_job):
    for name, value in (("plumb-left", "1"), ("plumb-right", "1"), ("level-floor", "0"), ("level-head", "0")):
        _read(inside, store_job, "C1", f"readings-{name}", value)
    _read(inside, store_job, "C1", "widths-2", "883", sure="883")
    page = inside.get(f"/jobs/{store_job}/measure/C1/").content.decode()
    assert "One of these readings stands out." in page
    assert "Take the width at head again: it says 883 mm" in page


def test_the_page_of_a_shape_shows_drawing_packers_and_readings(inside, store_job):
    page = inside.get(f"/jobs/{store_job}/shape/C1/").content.decode()
    assert 'data-role="shape"' in page
    assert "over the head" in page
    assert "diagonal foot left to head right" in page
    assert "Standard error: two readings in three" in page
    inside.post(f"/jobs/{store_job}/measure-begin/", {"mark": "N1", "leaves": "2"})
    assert "not all read yet" in inside.get(f"/jobs/{store_job}/shape/N1/").content.decode()
    assert inside.get(f"/jobs/{store_job}/shape/nowhere/").status_code == 404
