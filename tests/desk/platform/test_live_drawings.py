"""Drawings that can be touched: every link has a working, targets keep apart, and nothing shows but what is drawn."""

import re
from itertools import combinations

import pytest
from defusedxml import ElementTree
from hypothesis import given, settings
from hypothesis import strategies as st

from rodbook.desk.platform.live_drawings import THUMB_PX, Room, Workings, live_svg, targets
from rodbook.desk.platform.pictures import svg_of
from rodbook.papers.drawing.dimensions import Span, chain
from rodbook.papers.drawing.model import Asked, Drawing, Text
from rodbook.papers.numbers import Numbers
from rodbook.working import Measure

WRITE = Numbers("en", "EUR")
ADDRESSES = ("parts/", "sizes/", "parts/part/1-door-left/", "parts/part/3-cross/")


@pytest.mark.parametrize("address", ADDRESSES)
def test_every_link_of_a_drawing_leads_to_a_working(inside, store_job, address):
    page = inside.get(f"/jobs/{store_job}/{address}").content.decode()
    links = re.findall(r'<a class="dim" href="#([^"]+)" aria-label="([^"]+): show working"', page)
    assert links
    for ident, _ in links:
        found = re.findall(rf'<ol class="working" id="{ident}"[^>]*>(.*?)</ol>', page)
        assert len(found) == 1, ident
        assert "<li>" in found[0]
    idents = re.findall(r'\sid="([^"]+)"', page)
    assert len(idents) == len(set(idents))
    assert not re.search(r"<style|\sstyle=|<script(?![^>]*src=)|\son\w+=", page)


def test_a_link_is_called_by_what_it_shows_and_says_its_value(inside, store_job):
    page = inside.get(f"/jobs/{store_job}/parts/").content.decode()
    assert 'aria-label="leaf width 391 mm: show working"' in page
    assert 'aria-label="lining 827: lining width 827 mm: show working"' in page
    ident = re.search(r'href="#([^"]+)" aria-label="leaf width 391 mm', page)[1]
    working = re.search(rf'id="{ident}" data-words="leaf width" data-value="391 mm">(.*?)</ol>', page)[1]
    assert "(clear width 791.0 − 2 × margin 3.0 − 1 × meeting gap 3.0) ÷ 2 = 391.0" in working


def test_a_part_has_a_page_and_no_other_mark_has(inside, store_job):
    page = inside.get(f"/jobs/{store_job}/parts/part/1-door-left/").content.decode()
    assert "The top hinge, enlarged" in page
    assert "hole 1, pilot from the leaf&#x27;s top" in page
    assert inside.get(f"/jobs/{store_job}/parts/part/D99/").status_code == 404


def _row(sizes, scale):
    spans, at = [], 0.0
    for number, size in enumerate(sizes):
        spans.append(Span(at, at + size / scale, f"{size:g}", Measure(size, f"size {number}")))
        at += size / scale
    return Drawing.around(chain("x", spans, line=10.0, feature=0.0), title="a row", scale=scale)


SIZES = st.lists(st.floats(2, 900).map(lambda v: round(v, 1)), min_size=1, max_size=8)


@given(SIZES, st.sampled_from([5, 10, 20]), st.floats(1.5, 6))
@settings(deadline=None, max_examples=60)
def test_targets_never_overlap_and_each_holds_its_own_figure(sizes, scale, per_mm):
    found = targets(_row(sizes, scale), per_mm)
    assert len(found) == len(sizes)
    for a, b in combinations(found, 2):
        assert not a.hit.overlaps(b.hit)
    for target in found:
        assert target.hit.left <= target.box.left + 1e-6
        assert target.hit.right >= target.box.right - 1e-6
        assert target.hit.top <= target.box.top + 1e-6
        assert target.hit.bottom >= target.box.bottom - 1e-6


def test_one_dimension_alone_is_as_large_as_a_thumb_wants_it():
    drawing = _row([400.0], 10)
    (target,) = targets(drawing, 4.0)
    assert target.hit.width * 4.0 >= THUMB_PX
    assert target.hit.height * 4.0 >= THUMB_PX * 0.8  # the drawing itself is not higher


def test_what_is_seen_is_the_same_as_on_paper():
    drawing = _row([400.0, 3.0], 10)
    touched = ElementTree.fromstring(live_svg(drawing, WRITE, Workings(WRITE, "w"), Room(340, 600)))
    plain = ElementTree.fromstring(svg_of(drawing, WRITE))
    seen = [ElementTree.tostring(mark).strip() for mark in touched[0]]
    assert seen == [ElementTree.tostring(mark).strip() for mark in plain[1:]]
    assert touched.get("role") == "group"
    assert touched[0].get("aria-hidden") == "true"


def test_words_from_a_job_stay_words():
    asked = Asked((Measure(4.0, '"><script>'),))
    drawing = Drawing.around([Text(0, 0, '"<4', asks=asked)], title='<b> & "it"', scale=1)
    picture = live_svg(drawing, WRITE, Workings(WRITE, "w"), Room(340, 600))
    assert "<script>" not in picture
    assert ElementTree.fromstring(picture).get("aria-label") == '<b> & "it"'


def test_like_workings_stand_once():
    workings = Workings(WRITE, "w-1")
    gap = Measure(3.0, "meeting gap", source="book")
    first, again = workings.ask(gap), workings.ask(Asked((gap,), ends=((0, 0), (1, 0))))
    assert first == again
    assert [w.ident for w in workings.found] == ["w-1-1"]
    assert first.lines == ("meeting gap = 3.0 (book)",)
