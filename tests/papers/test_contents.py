"""What stands on the papers, before it is set."""

import json
import re
from dataclasses import replace
from functools import cache

import pytest

from rodbook.boards import Saw
from rodbook.job.models import Making
from rodbook.papers.common.shared import (
    common_finish,
    edges_in_words,
    finish_in_words,
    holes_in_words,
    openings_in_words,
)
from rodbook.papers.layouts.content import layouts_content, saw_in_words
from rodbook.papers.numbers import Numbers
from rodbook.papers.openings.content import openings_content
from rodbook.papers.parts_schedule.content import fronts_of, parts_content
from rodbook.papers.site_parts.content import site_parts_content
from rodbook.papers.summary.content import summary_content
from rodbook.papers.survey.content import blank_survey_content, packers_content, survey_content
from rodbook.papers.workshop_order.content import order_content, ordered_lines
from rodbook.plan import from_waste
from rodbook.setout import PartKind

ALL = {
    "summary": summary_content,
    "parts-schedule": parts_content,
    "workshop-order": order_content,
    "layouts": layouts_content,
    "openings": openings_content,
    "survey": survey_content,
    "survey-blank": blank_survey_content,
    "packers": packers_content,
    "site-parts": site_parts_content,
}


@pytest.fixture(scope="module")
def content(plan_of):
    """What stands on a paper of a plan, made once."""

    @cache
    def made(name, paper):
        return ALL[paper](plan_of(name))

    return made


PLANS = ["converted-store", "timber-house", "stair", "hostile", "raked"]


@pytest.mark.parametrize("paper", ALL)
@pytest.mark.parametrize("name", PLANS)
def test_contents_are_plain_values_and_the_same_each_time(plan_of, content, name, paper):
    first, second = content(name, paper), ALL[paper](plan_of(name))
    assert json.loads(json.dumps(first.content)) == json.loads(json.dumps(second.content))
    assert first == second


@pytest.mark.parametrize("paper", ALL)
def test_no_float_is_left_to_be_written_by_chance(content, paper):
    """Pictures carry their size on paper as numbers; everything else is already written out."""

    def floats(value, place=""):
        if isinstance(value, dict):
            return [f for key, inner in value.items() for f in floats(inner, key)]
        if isinstance(value, list | tuple):
            return [f for inner in value for f in floats(inner, place)]
        return [place] if isinstance(value, float) else []

    assert set(floats(content("timber-house", paper).content)) <= {"width", "height"}


@pytest.mark.parametrize("name", PLANS)
def test_every_picture_asked_for_is_there(content, name):
    def asked(value):
        if isinstance(value, dict):
            own = [value["file"]] if "file" in value else []
            return own + [f for inner in value.values() for f in asked(inner)]
        return [f for inner in value for f in asked(inner)] if isinstance(value, list | tuple) else []

    for paper in ALL:
        sheet = content(name, paper)
        assert set(asked(sheet.content)) == set(sheet.pictures)


def test_nothing_on_the_order_tells_a_price(plan_of, content):
    for name in PLANS:
        plan = plan_of(name)
        told = json.dumps(content(name, "workshop-order").content, ensure_ascii=False)
        assert plan.book.currency not in told
        assert not re.search("[€$£]|price|cost you|amount|per part", told.replace("$x$", "").replace("*_$", ""))
        if plan.money is not None:
            amounts = {str(a) for k in plan.money.kinds for a in (k.site_amount, k.bought_amount) if a is not None}
            assert not [amount for amount in amounts if amount in told]


def test_the_order_is_for_what_is_bought_in(plan_of, content):
    name, lines = ordered_lines(plan_of("timber-house"))
    assert name == "Order"
    assert {str(line.part.kind) for line in lines} == {"door", "lining leg", "lining head", "lining sill", "division"}
    order = content("timber-house", "workshop-order").content
    assert [row[0] for row in order["rows"]] == [line.mark for line in lines]
    assert [s["mark"] for s in order["sheets"]] + [c["mark"] for c in order["cards"]] == [
        *(line.mark for line in lines if line.part.borings),
        *(line.mark for line in lines if not line.part.borings),
    ]


def test_where_nothing_is_bought_in_it_is_an_enquiry_for_everything(plan_of):
    plan = plan_of("panels")
    assert not plan.lines_made(Making.BOUGHT)
    name, lines = ordered_lines(plan)
    assert (name, lines) == ("Enquiry", plan.schedule)
    assert order_content(plan).content["frame"]["title"] == "Enquiry to a workshop"


def test_every_hole_is_in_the_table_of_its_part(plan_of):
    plan = plan_of("converted-store")
    parts = {line.mark: line.part for line in plan.schedule}
    for sheet in order_content(plan).content["sheets"]:
        told = sorted((row[1], float(row[2]), float(row[3]), float(row[4]), float(row[5])) for row in sheet["holes"])
        wanted = sorted(
            (b.kind, round(b.x.value, 3), round(b.y.value, 3), b.diameter, b.depth)
            for b in parts[sheet["mark"]].borings
        )
        assert told == wanted
        assert [row[0] for row in sheet["holes"]] == [str(n) for n in range(1, len(wanted) + 1)]


def test_the_schedule_lists_every_part_once(plan_of):
    plan = plan_of("timber-house")
    rows = parts_content(plan).content["rows"]
    assert [(row[0], row[2], float(row[3]), float(row[4])) for row in rows] == [
        (line.mark, str(line.quantity), line.part.length.value, line.part.width.value) for line in plan.schedule
    ]


def test_fronts_gather_the_openings_that_are_alike(plan_of):
    plan = plan_of("converted-store")
    assert [(f.name, [e.opening.mark for e in f.entries]) for f in fronts_of(plan)] == [
        ("Size 1", ["C1", "C2", "C4", "C5", "C8", "C11"]),
        ("Size 3", ["C3", "C6", "C9", "C12", "C14"]),
        ("Size 2", ["C7", "C10", "C13"]),
    ]
    front = next(f for f in parts_content(plan).content["fronts"] if f["name"] == "Size 3")
    assert [(e["hung"], e["openings"]) for e in front["elevations"]] == [
        ("hung left", "C3, C9, C12"),
        ("hung right", "C6, C14"),
    ]


def test_the_working_ends_in_the_sizes_of_the_parts(plan_of, content):
    for name in ("converted-store", "timber-house"):
        plan = plan_of(name)
        fronts = content(name, "parts-schedule").content["fronts"]
        told = {
            (mark, float(value))
            for f in fronts
            for marks, *_, value in f["working"]["steps"]
            for mark in marks.split(", ")
        }
        for line in plan.schedule:
            shape = line.mark.partition("-")[0]
            given = {float(v) for f in fronts for _, v, _ in f["working"]["given"]}
            for measure in (line.part.length, line.part.width):
                assert (shape, measure.value) in told or measure.value in given, (line.mark, measure.working())


def test_no_line_of_working_is_told_twice(content):
    for front in content("converted-store", "parts-schedule").content["fronts"]:
        steps = [tuple(step) for step in front["working"]["steps"]]
        assert len(steps) == len(set(steps))


def test_the_summary_counts(plan_of):
    plan = plan_of("converted-store")
    figures = {word: int(n) for n, word in summary_content(plan).content["figures"]}
    assert figures == {
        "openings": 14,
        "leaves": 23,
        "standard sizes": 3,
        "parts": sum(line.quantity for line in plan.schedule),
        "distinct parts": len(plan.schedule),
    }


def test_the_summary_says_how_good_the_layouts_are(plan_of, content):
    rows = {row[0]: row for row in content("converted-store", "summary").content["stock"]}
    material = next(m for m in plan_of("converted-store").materials if m.stock == "18 mm MDF")
    count = sum(layout.count for layout in material.sheets.layouts)
    assert material.sheets.proven
    assert rows["18 mm MDF"][3] == f"{count} sheets; {count - 1} is impossible"
    assert rows["22 mm MDF"][3].startswith("€")


def test_a_layout_that_is_not_proven_tells_its_bound(plan_of):
    from rodbook.papers.common.shared import writer
    from rodbook.papers.summary.content import proof_in_words

    plan = plan_of("converted-store")
    material = next(m for m in plan.materials if m.stock == "18 mm MDF")
    price = material.sheets.layouts[0].price
    looser = replace(material, sheets=replace(material.sheets, proven=False, bound=price * 3 + 1))
    count = sum(layout.count for layout in material.sheets.layouts)
    assert proof_in_words(plan, looser, writer(plan)) == f"{count} sheets; the bound is 4"


def test_offcuts_alone_cost_nothing(content):
    (row,) = content("panels", "summary").content["stock"]
    assert row[2:] == [["offcut O-17"], "from offcuts alone; nothing to buy"]


def test_packers_of_each_size_as_a_range(plan_of):
    plan = plan_of("converted-store")
    (first, *_) = summary_content(plan).content["sizes"]
    packers = [e.packers for e in plan.openings if e.size == 1]
    sides = [mm for p in packers for mm in (*p.left_mm, *p.right_mm)]
    assert first[4] == f"{min(sides):.1f} to {max(sides):.1f}"


def test_planned_openings_have_frame_and_spacers(plan_of):
    plan = plan_of("timber-house")
    rows = summary_content(plan).content["framed"]
    assert rows[0][0] == "959.0 × 2157.5"
    assert ", ".join(row[3] for row in rows).split(", ").sort() == [o.mark for o in plan.job.openings].sort()
    block = openings_content(plan).content["blocks"][0]
    assert any("framed width = " in line for line in block["working"])


def test_each_opening_has_its_block(plan_of):
    for name in PLANS:
        plan = plan_of(name)
        blocks = openings_content(plan).content["blocks"]
        assert [b["mark"] for b in blocks] == [o.mark for o in plan.job.openings]
        for block, entry in zip(blocks, plan.openings, strict=True):
            assert bool(block["packers"]) == (entry.packers is not None)
            assert block["worked_out"] == (entry.set_out is not None)


def test_what_is_not_worked_out_is_on_every_paper_that_lists_parts(plan_of):
    plan = plan_of("raked")
    for make in (summary_content, parts_content, order_content, layouts_content):
        assert [row[0] for row in make(plan).content["not_worked_out"]] == ["S1", "S2", "S3"]
    assert all(block["notes"] for block in openings_content(plan).content["blocks"])


CAUTIONS = {
    "summary": {"Lifting", "Structure", "Fire"},
    "parts-schedule": {"Dust", "Blades"},
    "workshop-order": {"Dust", "Lifting", "Fire"},
    "layouts": {"Dust", "Blades", "Lifting"},
    "openings": {"Structure", "Fire", "Lifting"},
    "survey": {"Structure"},
    "survey-blank": {"Height", "Structure"},
    "packers": {"Structure", "Fire"},
    "site-parts": {"Dust", "Blades"},
}


@pytest.mark.parametrize("paper", ALL)
def test_each_paper_carries_its_cautions(content, paper):
    told = {word for word, _ in content("converted-store", paper).content["cautions"]}
    assert told == CAUTIONS[paper]


def test_the_heaviest_leaf_is_told_as_a_range(plan_of):
    plan = plan_of("converted-store")
    mass = max((e.set_out.leaf_mass for e in plan.openings), key=lambda m: m.high)
    sentences = dict(openings_content(plan).content["cautions"])
    assert f"{mass.low:.1f} to {mass.high:.1f} kg" in sentences["Lifting"]


def test_words_for_parts(plan_of):
    lines = {line.mark: line for line in plan_of("converted-store").schedule}
    assert edges_in_words(lines["1-door-left"].part) == "all four"
    assert edges_in_words(lines["1-leg"].part) == "front"
    assert finish_in_words(lines["1-leg"].part) == "primed, 2 coats"
    assert finish_in_words(replace(lines["1-leg"].part, coats=1)) == "primed, 1 coat"
    assert finish_in_words(replace(lines["1-leg"].part, finish="")) == ""
    assert holes_in_words(lines["1-door-left"].part) == "5 cups, 10 pilots"
    assert openings_in_words(lines["1-door-left"]) == "C7, C10, C13"
    assert openings_in_words(lines["1-leg"]).startswith("2 each: C1, C2")
    assert common_finish(list(lines.values())) == "primed, 2 coats"
    bare = replace(lines["1-leg"], part=replace(lines["1-leg"].part, finish=""))
    assert common_finish([bare, lines["1-head"]]) == ""


def test_figures_on_drawings_follow_the_locale(content):
    order = content("hostile", "workshop-order")
    figures = " ".join(re.findall(r'data-role="figure">([^<]*)<', "".join(order.pictures.values())))
    assert "22,5" in figures.split()
    assert not re.search(r"\d\.\d", figures)


def test_pieces_wanted_elsewhere_are_listed_with_their_layouts(plan_of, content):
    made, found = content("galley", "layouts").content, from_waste(plan_of("galley"))
    assert found
    assert made["from_waste"] == [
        [
            w.label,
            str(w.number),
            "18 mm MDF",
            f"{w.length:g} × {w.width:g}",
            ", ".join(str(n) for n, _ in w.layouts),
            w.purpose,
        ]
        for w in found
    ]
    for number, sheet in enumerate(made["sheets"], 1):
        cut = {w.name: dict(w.layouts).get(number, 0) // sheet["count"] for w in found}
        said = {name: int(count) for count, name in re.findall(r"(\d+) × (W-\d)", sheet["sum"])}
        assert said == {name: count for name, count in cut.items() if count}
        yields = [entry[-1] for entry in sheet["cuts"]]
        for name, count in said.items():
            # the last of a row may be free without a cut of its own
            assert 0 < sum(name == entry for entry in yields) <= count
    for w in found:
        assert f"{w.number} × {w.name}" in content("galley", "summary").content["from_waste"]
    assert content("stair", "summary").content["from_waste"] == ""
    assert content("stair", "layouts").content["from_waste"] == []


def test_the_saw_is_told_with_its_turns():
    write = Numbers("en_GB", "EUR")
    assert saw_in_words(Saw(kerf=3.2, edge_trim=10), write) == "Kerf 3.2 mm, 10 mm off each raw edge."
    assert saw_in_words(Saw(max_turns=1), write).endswith(
        "edge. The cutting direction turns at most once on the way to a part."
    )
    assert "at most 2 times" in saw_in_words(Saw(max_turns=2), write)


def test_what_is_made_on_site_is_drawn_and_bored_as_an_ordered_part_is(plan_of):
    """The same page whoever makes it: every hole of every bored part in a table, and no part left out."""
    plan = plan_of("timber-house")
    kinds = {line.part.kind for line in plan.schedule}
    on_site, bought = (
        replace(plan, money=replace(plan.money, kinds=tuple(replace(k, decision=maker) for k in plan.money.kinds)))
        for maker in (Making.SITE, Making.BOUGHT)
    )
    site, order = site_parts_content(on_site).content, order_content(bought).content
    assert (site["sheets"], site["cards"]) == (order["sheets"], order["cards"])
    assert {sheet["kind"] for sheet in site["sheets"]} | {card["kind"] for card in site["cards"]} == set(kinds)
    holes = {line.mark: len(line.part.borings) for line in plan.schedule if line.part.borings}
    assert {sheet["mark"]: len(sheet["holes"]) for sheet in site["sheets"]} == holes
    assert site_parts_content(bought).content["sheets"] == []


def test_an_opening_says_where_its_division_stands(plan_of):
    plan = plan_of("timber-house")
    (entry,) = [e for e in plan.openings if e.set_out and e.set_out.divisions]
    (block,) = [b for b in openings_content(plan).content["blocks"] if b["mark"] == entry.opening.mark]
    (row,) = [row for row in block["rows"] if row[0] == "Division"]
    (place,) = entry.set_out.divisions
    assert row[1] == f"left face {Numbers('en', 'EUR').short(place.value)} from the inside of the left leg"
    (stands,) = [e for e in entry.set_out.elements if e.kind is PartKind.DIVISION]
    inside = (entry.set_out.outer_width.value - entry.set_out.clear_width.value) / 2
    assert stands.x == pytest.approx(inside + place.value)
    assert "first leaf from the left leg's inside" in "; ".join(place.trail())
