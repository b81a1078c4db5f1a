"""The page of sizes: picture, what sets each size, and how many sizes against how much packing."""

import re

import pytest

from rodbook.desk.models import Folder
from rodbook.desk.platform import store
from rodbook.desk.platform.planning import planner
from rodbook.desk.setout.sizes import framed_rows, size_rows, trade_tables
from rodbook.plan.analyses.trade_off import MOST_MORE
from rodbook.plan.stages.openings import offers_by_build_up, packer_range
from rodbook.sizes import trade_off


def _plan(pk):
    _, job = store.job_now(Folder.objects.get(pk=pk))
    return planner.parts(job, store.book_now()[2])


def test_every_opening_is_a_point_and_every_size_a_corner(inside, store_job):
    page = inside.get(f"/jobs/{store_job}/sizes/").content.decode()
    plan = _plan(store_job)
    svg = page[page.index('class="touch-drawing"') : page.index("</svg>", page.index('class="touch-drawing"'))]
    assert svg.count('data-role="size"') == 2 * len(plan.sizes.sizes)  # a corner and its name
    for opening in plan.job.openings:
        assert re.search(rf">(\w+, )*{opening.mark}(, \w+)*</text>", svg)
    assert len(re.findall('<circle[^>]*data-role="opening"', svg)) == len(plan.job.openings)
    assert "3 sizes</strong> serve every opening that stands; fewer are impossible with these packers" in page


def test_each_size_says_what_sets_it_with_its_working(inside, store_job):
    page = inside.get(f"/jobs/{store_job}/sizes/").content.decode()
    assert "width by C4, the narrowest; height by C9, the lowest" in page
    offered = next(e.rectangle for e in _plan(store_job).openings if e.opening.mark == "C9").height.value
    assert f"lining height = (height of C9 {offered:.3f} − least packer over the head 4.0 = {offered - 4:.3f})" in page
    rows = size_rows(_plan(store_job))
    assert sum(row.count for row in rows) == 14
    assert all(row.sides and row.heads for row in rows)


def test_the_trade_off_begins_where_the_job_stands_and_packs_less_with_every_size(inside, store_job):
    plan = _plan(store_job)
    (table,) = trade_tables(plan)
    assert [row.now for row in table.rows] == [True] + [False] * (len(table.rows) - 1)
    figures = plan.book.build_up(table.build_up)
    assert figures.packer_least <= float(table.rows[-1].side) <= float(table.rows[0].side) <= figures.packer_most
    packing = [float(row.packing) for row in table.rows]
    assert packing == sorted(packing, reverse=True)
    assert len(table.rows) <= MOST_MORE + 1
    page = inside.get(f"/jobs/{store_job}/sizes/").content.decode()
    assert "this job" in page
    assert f">{table.rows[1].packing}<" in page
    assert table.svg.strip() in page


def test_an_opening_that_spoils_it_is_named(inside, store_job):
    page = inside.get(f"/jobs/{store_job}/sizes/").content.decode()
    (table,) = trade_tables(_plan(store_job))
    assert table.without == 2
    assert ("2 sizes would do: " + table.spoilers in page) == bool(table.spoilers)


def test_the_offers_are_those_that_the_plan_chose_by(inside, store_job):
    plan = _plan(store_job)
    (offers,) = offers_by_build_up(plan.openings, planned=True).values()
    packers = packer_range(plan.book.build_up(plan.job.job.build_up))
    assert trade_off(offers, packers, more=0)[0].number == len(plan.sizes.sizes)
    for size in plan.sizes.sizes:
        for offer in offers:
            if offer.name in size.openings:
                assert packers.serves(offer, size.width, size.height)


def _without_token(page):
    """A page but for the token of its forms, which is written another way each time."""
    return re.sub(r'(name="csrfmiddlewaretoken" value=")[^"]*', r"\1", page)


def test_with_many_openings_the_trade_off_waits_until_it_is_asked_for(inside, store_job, monkeypatch):
    monkeypatch.setattr("rodbook.desk.setout.size_views.AT_ONCE", 5)
    page = inside.get(f"/jobs/{store_job}/sizes/").content.decode()
    assert "takes some seconds" in page
    assert "this job" not in page
    address = f"/jobs/{store_job}/sizes/trade-off/"
    fragment = inside.get(address, headers={"HX-Request": "true"}).content.decode()
    assert fragment.lstrip().startswith('<section id="trade-off"')
    assert "this job" in fragment
    whole = inside.get(address).content.decode()
    assert _without_token(fragment).strip() in _without_token(whole)


def test_planned_openings_have_framed_sizes_and_spacers(inside):
    reply = inside.post("/jobs/sample/", {"sample": "timber-house"})
    address = reply.headers["Location"] + "sizes/"
    page = inside.get(address).content.decode()
    rows = framed_rows(_plan(int(address.split("/")[2])))
    assert rows
    for row in rows:
        cells = (row.spacers, row.lining)
        assert "".join(f'<td class="whole">{cell}</td>' for cell in cells) in page
        assert row.framed == row.spacers.replace(" and ", " × ")
    assert "framed width = lining width" in page


def test_a_job_without_sizes_says_so(inside):
    reply = inside.post("/jobs/sample/", {"sample": "stair"})
    page = inside.get(reply.headers["Location"] + "sizes/")
    assert page.status_code == 200
    assert "There are no sizes yet" in page.content.decode()


@pytest.mark.parametrize("address", ["sizes/", "sizes/trade-off/"])
def test_it_is_only_looked_at_and_a_missing_job_is_not_found(inside, store_job, address):
    assert inside.get(f"/jobs/999/{address}").status_code == 404
    assert inside.post(f"/jobs/{store_job}/{address}").status_code == 405


def test_no_drawing_has_a_style_of_its_own(inside, store_job):
    page = inside.get(f"/jobs/{store_job}/sizes/").content.decode()
    assert not re.search(r"<style|\sstyle=|<script(?![^>]*src=)", page)


def _choose(inside, pk, number, build_up=None):
    revision, job = store.job_now(Folder.objects.get(pk=pk))
    form = {"base": revision.number, "build_up": job.job.build_up if build_up is None else build_up, "number": number}
    return inside.post(f"/jobs/{pk}/sizes/choose/", form, follow=True).content.decode()


def test_another_number_of_sizes_is_chosen_and_everything_follows(inside, store_job):
    page = _choose(inside, store_job, "5")
    assert "Saved as revision 2." in page
    assert "5 sizes</strong> serve every opening that stands, as many as were asked for; 3 would do" in page
    assert len(size_rows(_plan(store_job))) == 5
    (table,) = trade_tables(_plan(store_job))
    assert [row.number for row in table.rows if row.now] == [5]
    assert (
        f"number of sizes: {_plan(store_job).job.job.build_up} nothing → 5"
        in inside.get(f"/jobs/{store_job}/history/").content.decode()
    )
    page = _choose(inside, store_job, "")
    assert "3 sizes</strong> serve every opening that stands; fewer are impossible" in page
    assert not store.job_now(Folder.objects.get(pk=store_job))[1].sizes


@pytest.mark.parametrize(
    ("number", "build_up", "said"),
    [("-2", None, "sizes"), ("many", None, "sizes"), ("3", "no such", "the book has no build-up")],
)
def test_a_number_that_makes_no_sense_is_refused_and_nothing_is_saved(inside, store_job, number, build_up, said):
    page = _choose(inside, store_job, number, build_up)
    assert 'class="said' in page
    assert said in page
    assert store.job_now(Folder.objects.get(pk=store_job))[0].number == 1


def test_better_leaves_are_looked_for_when_asked(inside):
    address = inside.post("/jobs/sample/", {"sample": "timber-house"}).headers["Location"]
    page = inside.get(address + "sizes/").content.decode()
    assert "Look for better leaves" in page
    fragment = inside.get(address + "sizes/frame-ahead/", headers={"HX-Request": "true"}).content.decode()
    assert fragment.lstrip().startswith('<section id="frame-ahead"')
    assert "<h3>W6</h3>" in fragment
    assert "No leaf near the wanted one takes less board" in fragment or "The first of these saves" in fragment
    assert fragment.strip() in inside.get(address + "sizes/frame-ahead/").content.decode()
