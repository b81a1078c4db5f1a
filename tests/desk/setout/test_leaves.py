"""The page of leaves: how they open, what is known before they are cut, and what stands near an opening."""

import re

import pytest

from rodbook.desk.models import Folder
from rodbook.desk.platform import store


def _job(pk):
    return store.job_now(Folder.objects.get(pk=pk))


def _near(inside, pk, mark="C1", **typed):
    revision, _ = _job(pk)
    form = {"base": revision.number, "n0-mark": "", "height": "", "fall": "", **typed}
    return inside.post(f"/jobs/{pk}/leaves/{mark}/", form, follow=True)


RADIATOR = {
    "n0-mark": "radiator",
    "n0-left": "10",
    "n0-width": "300",
    "n0-reach": "470",
    "n0-away": "300",
    "n0-bottom": "150",
    "n0-top": "750",
}


def test_the_first_opening_is_shown_with_what_is_known_of_its_leaves(inside, store_job):
    reply = inside.get(f"/jobs/{store_job}/leaves/", follow=True)
    assert reply.redirect_chain[-1][0] == f"/jobs/{store_job}/leaves/C1/"
    page = reply.content.decode()
    assert "2 leaves of 391 × 1992 mm" in page
    assert page.count('data-role="open leaf"') == 2
    assert "height and mass ask for them (by height 4, by mass 4)" in page
    assert "Meeting gap through the year" in page
    assert page.count('<a class="button quiet" href="/jobs') >= 14


def test_something_near_is_saved_and_stops_the_leaf(inside, store_job):
    page = _near(inside, store_job, **RADIATOR).content.decode()
    assert "Saved as revision 2." in page
    (radiator,) = _job(store_job)[1].openings[0].obstacles
    assert (radiator.name, radiator.left, radiator.out, radiator.top) == ("radiator", 10, 470, 750)
    assert re.search(r"The left leaf meets the radiator at \d\d\.\d°, short of the 90° wanted\.", page)
    standing = inside.get(f"/jobs/{store_job}/").content.decode()
    assert "meets the radiator" in standing
    assert "obstacle radiator added" in inside.get(f"/jobs/{store_job}/history/").content.decode()
    page = _near(inside, store_job, **RADIATOR, **{"n0-was": "radiator", "n0-out": "yes"}).content.decode()
    assert not _job(store_job)[1].openings[0].obstacles
    assert "Nothing stands near C1 as far as the job knows." in page


def test_a_sloping_ceiling_is_saved_and_met(inside, store_job):
    page = _near(inside, store_job, height="2100", fall="400").content.decode()
    assert "meets the ceiling" in page
    assert _job(store_job)[1].openings[0].ceiling.fall == 400
    _near(inside, store_job)
    assert _job(store_job)[1].openings[0].ceiling is None


@pytest.mark.parametrize(
    ("typed", "said"),
    [
        ({**RADIATOR, "n0-reach": "-5"}, "-5.0 won&#x27;t do; it has to be more than 0"),
        ({**RADIATOR, "n0-width": "wide"}, "is not a length"),
        ({"height": "high", "fall": "3"}, "is not a length"),
        ({"height": "2300"}, "this is missing"),
    ],
)
def test_faults_stand_where_they_can_be_put_right_and_nothing_is_saved(inside, store_job, typed, said):
    reply = _near(inside, store_job, **typed)
    assert reply.status_code == 422
    page = reply.content.decode()
    assert said in page
    for value in typed.values():
        assert f'value="{value}"' in page
    assert _job(store_job)[0].number == 1


def test_an_opening_that_is_not_there_is_not_found(inside, store_job):
    assert inside.get(f"/jobs/{store_job}/leaves/nobody/").status_code == 404


def test_a_job_without_fronts_says_so(inside, store_job):
    revision, job = _job(store_job)
    raw = {**store.as_document(job), "openings": []}
    raw["panels"] = [{"mark": "P1", "board": "18 mm MDF", "length": 600, "width": 300}]
    book = store.book_now()[2]
    empty = store.read_job_document(raw, book)
    store.save(Folder.objects.get(pk=store_job), revision.number, lambda _: empty, who="somebody", book=book)
    assert "There are no leaves yet" in inside.get(f"/jobs/{store_job}/leaves/").content.decode()
