"""Blocks that are pasted into the grid: the matcher and the look of lists that are brought in, with headings or without."""

import html
import json

import pytest

from rodbook.desk.models import Folder
from rodbook.desk.openings.pasting import pasted_openings
from rodbook.desk.platform import store
from rodbook.errors import InputError

HEADED = (
    "height right\theight middle\theight left\twidth head\twidth middle\tWidth at the foot (mm)\topening\n"
    "2031\t2030\t2029\t820,1\t819,5\t818,9\tN1\n"
)
NAMES = ["mark", "leaves", "wf", "wm", "wh", "hl", "hm", "hr"]


def _filled(*rows):
    return json.dumps([NAMES, *rows])


def test_a_block_with_headings_goes_by_them_and_not_by_where_it_lies():
    ((opening,), faults) = pasted_openings(HEADED, _filled(["818,9", "x", "", "", "", "", "", ""]))
    assert (opening.mark, opening.widths, opening.heights) == ("N1", (818.9, 819.5, 820.1), (2029, 2030, 2031))
    assert faults == ()


def test_a_block_without_headings_fills_the_rows_of_the_grid_by_the_same_matcher():
    filled = _filled(["N1", "pair", "818,9", "819,5", "820,1", "2029", "2030", "2031"])
    ((opening,), faults) = pasted_openings("818,9\t819,5\t820,1", filled)
    assert (opening.leaves, opening.widths) == (2, (818.9, 819.5, 820.1))
    assert faults == ()


def test_a_bad_row_stays_out_and_the_others_come_in(inside, store_job):
    there = f"/jobs/{store_job}/openings/bring-in/"
    bad = "2031\t2030\t2029\t820,1\t819,5\tfoot\tN2\n"
    page = html.unescape(inside.post(there, {"pasted": HEADED + bad, "filled": ""}).content.decode())
    assert "These rows stay out until they are put right:" in page
    assert "row 3, width foot (N2): 'foot' is not a length" in page
    assert "leaves 2; widths 818.9, 819.5, 820.1" in page
    confirmed = page.split('name="confirmed" value="')[1].split('"><button')[0]
    inside.post(there, {"confirmed": confirmed, "base": "1"})
    found = {o.mark: o for o in store.job_now(Folder.objects.get(pk=store_job))[1].openings}
    assert found["N1"].leaves == 2
    assert "N2" not in found


def test_a_block_in_which_no_row_is_sound_names_every_fault(inside, store_job):
    there = f"/jobs/{store_job}/openings/bring-in/"
    rows = "".join(f"2031\t2030\t2029\t820\t819\tx{n}\tN{n}\n" for n in range(30))
    reply = inside.post(there, {"pasted": HEADED.splitlines()[0] + "\n" + rows, "filled": ""})
    page = html.unescape(reply.content.decode())
    assert reply.status_code == 422
    assert all(f"'x{n}' is not a length" in page for n in range(30))
    assert Folder.objects.get(pk=store_job).head == 1


def test_a_row_without_a_mark_is_told(inside, store_job):
    reply = inside.post(
        f"/jobs/{store_job}/openings/bring-in/",
        {"pasted": "1\t2", "filled": _filled(["", "", "818,9", "819,5", "820,1", "2029", "2030", "2031"])},
    )
    assert reply.status_code == 422
    assert "row 2, mark" in reply.content.decode()


@pytest.mark.parametrize("filled", ["", "{}", "[]", '[["mark"]]', "[[1],[2]]", "[" * 5000])
def test_what_the_grid_does_not_send_is_one_sentence(filled):
    with pytest.raises(InputError, match="this is no block of a grid"):
        pasted_openings("1\t2", filled)
