"""The page of an opening's shape: what all its readings say together, which to take again, and how its lining is packed."""

import html
import itertools
import re

import pytest

from rodbook.desk.models import Folder
from rodbook.desk.platform import store


def _head(pk):
    return Folder.objects.get(pk=pk).head


def _opening(pk, mark):
    return next(o for o in store.job_now(Folder.objects.get(pk=pk))[1].openings if o.mark == mark)


def _read(client, pk, mark, place, value):
    form = {"base": str(_head(pk)), "reading": place, "value": value}
    return client.post(f"/jobs/{pk}/measure/{mark}/", form, follow=True)


def _shape(client, pk, mark="C1"):
    return html.unescape(client.get(f"/jobs/{pk}/shape/{mark}/").content.decode())


@pytest.fixture
def read_twelve(inside, store_job):
    """C1 of the corridor with its sides plumbed, and floor and head levelled, as its diagonals let expect."""
    for place, value in (("plumb-left", "3"), ("plumb-right", "4"), ("level-floor", "0"), ("level-head", "0")):
        _read(inside, store_job, "C1", f"readings-{place}", value)
    return store_job


def test_the_openings_lead_to_the_shapes_and_these_to_each_other(inside, store_job):
    assert f'href="/jobs/{store_job}/shape/"' in inside.get(f"/jobs/{store_job}/openings/").content.decode()
    reply = inside.get(f"/jobs/{store_job}/shape/", follow=True)
    page = reply.content.decode()
    here = reply.redirect_chain[-1][0]
    assert re.search(rf'href="{here}" aria-current="page"', page)
    marks = [o.mark for o in store.job_now(Folder.objects.get(pk=store_job))[1].openings if o.state != "planned"]
    assert all(f'href="/jobs/{store_job}/shape/{mark}/"' in page for mark in marks)
    assert f'href="/jobs/{store_job}/shape/C1/"' in inside.get(f"/jobs/{store_job}/measure/C1/").content.decode()


def test_without_openings_there_is_a_sentence(inside):
    inside.post("/jobs/new/", {"name": "Barn", "build_up": "inset, painted"})
    empty_job = Folder.objects.get(name="Barn").pk
    page = inside.get(f"/jobs/{empty_job}/shape/")
    assert page.status_code == 200
    assert "No opening stands yet" in page.content.decode()
    assert inside.get(f"/jobs/{empty_job}/shape/C1/").status_code == 404


def test_there_is_a_survey_sheet_before_anything_is_measured(inside):
    inside.post("/jobs/new/", {"name": "Barn", "build_up": "inset, painted"})
    job = Folder.objects.get(name="Barn").pk
    address = f"/jobs/{job}/papers/survey-blank.pdf/"
    assert f'href="{address}"' in inside.get(f"/jobs/{job}/measure/").content.decode()
    reply = inside.get(address)
    assert reply.headers["Content-Type"] == "application/pdf"
    assert reply.content.startswith(b"%PDF")
    assert inside.get(f"/jobs/{job}/papers/survey.pdf/").status_code == 302


def test_every_reading_stands_with_what_checks_it_and_one_more_is_named(inside, store_job):
    page = _shape(inside, store_job)
    assert "Nothing checks the width at middle, height at middle and depth at foot." in page
    assert re.search(r"One more reading: <a href=\"[^\"]+\?reading=[a-z0-9-]+\">", page)
    rows = re.findall(
        r'<tr><th scope="row">([^<]+)</th>(?:<td class="number">[^<]+</td>){4}<td class="whole">([^<]+)</td>', page
    )
    assert [name for name, _ in rows][:2] == ["width at foot", "width at middle"]
    assert dict(rows)["width at middle"] == "by nothing"
    assert dict(rows)["width at foot"].startswith("slips from ")


def test_packers_stand_beside_the_drawing_with_their_doubt(inside, read_twelve):
    page = _shape(inside, read_twelve)
    assert 'role="region" aria-label="Shape of C1"' in page
    sides = re.findall(
        r'<th scope="row" class="number">(\d+)</th><td class="number">(.*?)</td><td class="number">(.*?)</td>', page
    )
    heights = [int(at) for at, _, _ in sides]
    assert heights == sorted(heights, reverse=True)
    assert max(a - b for a, b in itertools.pairwise(heights)) <= 600
    assert all(re.fullmatch(r"\d+\.\d ± \d+\.\d", cell) for row in sides for cell in row[1:])
    assert "over the head" in page


def test_the_largest_front_and_every_place_stand_with_their_errors(inside, read_twelve):
    page = _shape(inside, read_twelve)
    assert re.search(
        r"<summary>upright width <strong>8\d\d\.\d ± \d\.\d</strong></summary>\s*<ol class=\"working\"", page
    )
    places = page.split("Where each place is</h2>")[1]
    assert re.findall(r'<tr><th scope="row">([^<]+)</th>(?:<td class="number">-?\d+\.\d</td>){4}', places)[:3] == [
        "foot left",
        "middle of the floor",
        "foot right",
    ]
    assert "(degrees of freedom)" in page


def test_a_misread_plumb_line_is_named_and_nothing_is_changed(inside, read_twelve):
    _read(inside, read_twelve, "C1", "readings-plumb-left", "23")
    assert _opening(read_twelve, "C1").readings["plumb-left"] == 23
    page = _shape(inside, read_twelve)
    assert "One of these readings stands out." in page
    assert "left side out of plumb at head" in page.split('class="faults"')[1].split("</ul>")[0]
    assert _opening(read_twelve, "C1").readings["plumb-left"] == 23
    assert inside.get(f"/jobs/{read_twelve}/shape/", follow=True).redirect_chain[-1][0].endswith("/shape/C1/")
    assert re.search(r">C1 <small>to read again</small>", page)


def test_each_of_two_readings_of_the_same_is_a_place_to_go_to(inside, read_twelve):
    _read(inside, read_twelve, "C1", "readings-plumb-left-again", "-33")
    page = _shape(inside, read_twelve)
    assert "left side out of plumb at head, second reading" in page
    again = page.split('class="faults"')[1].split("</div>")[0]
    assert "?reading=readings-plumb-left-again" in again


def test_readings_that_are_only_kept_are_in_the_shape_too(inside, store_job):
    inside.post(f"/jobs/{store_job}/measure-begin/", {"mark": "C90", "leaves": "1"})
    assert "are not all read yet" in _shape(inside, store_job, "C90")
    for n, (wide, high) in enumerate(((842, 2030), (843, 2031), (842, 2030))):
        _read(inside, store_job, "C90", f"widths-{n}", str(wide))
        _read(inside, store_job, "C90", f"heights-{n}", str(high))
    page = _shape(inside, store_job, "C90")
    assert "Nothing checks the" in page
    assert "Assumed where too little was read" in page
    assert "sides plumb ±" in page
    assert "<strong>Read the " in page
