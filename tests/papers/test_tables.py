"""Parts and holes as separated text."""

import csv
import io

import pytest

from rodbook.papers.tables import BORING_COLUMNS, PART_COLUMNS, borings_csv, parts_csv
from rodbook.papers.workshop_order.content import order_content, ordered_lines


def rows_of(text):
    return list(csv.DictReader(io.StringIO(text, newline="")))


@pytest.mark.parametrize("name", ["converted-store", "timber-house", "hostile"])
def test_parts_read_back(plan_of, name):
    plan = plan_of(name)
    rows = rows_of(parts_csv(plan))
    assert tuple(rows[0]) == PART_COLUMNS
    assert [
        (
            r["mark"],
            r["kind"],
            int(r["quantity"]),
            float(r["length mm"]),
            float(r["width mm"]),
            float(r["thickness mm"]),
            r["stock"],
        )
        for r in rows
    ] == [
        (
            s.mark,
            str(s.part.kind),
            s.quantity,
            s.part.length.value,
            s.part.width.value,
            s.part.thickness.value,
            s.part.stock,
        )
        for s in plan.schedule
    ]
    assert [r["hand"] for r in rows] == [s.part.hand for s in plan.schedule]


def test_holes_read_back(plan_of):
    plan = plan_of("timber-house")
    rows = rows_of(borings_csv(plan))
    assert tuple(rows[0]) == BORING_COLUMNS
    told = sorted(
        (
            r["mark"],
            r["kind"],
            float(r["x mm"]),
            float(r["y mm"]),
            float(r["diameter mm"]),
            r["depth mm"] if r["depth mm"] == "through" else float(r["depth mm"]),
        )
        for r in rows
    )
    wanted = sorted(
        (s.mark, b.kind, b.x.value, b.y.value, b.diameter, b.depth) for s in plan.schedule for b in s.part.borings
    )
    assert told == wanted


def test_a_hole_right_through_says_so_in_table_and_order(plan_of):
    handled = plan_of("galley")
    rows = [r for r in rows_of(borings_csv(handled)) if r["kind"] == "handle"]
    assert rows
    assert {r["depth mm"] for r in rows} == {"through"}
    _, lines = ordered_lines(handled)
    sheets = order_content(handled).content["sheets"]
    bored = [hole for sheet in sheets for hole in sheet["holes"] if hole[1] == "handle"]
    assert len(bored) == sum(b.kind == "handle" for line in lines for b in line.part.borings) > 0
    assert {hole[5] for hole in bored} == {"through"}


def test_numbers_have_a_decimal_point_whatever_the_locale(plan_of):
    assert plan_of("hostile").book.locale == "de_AT"
    assert {"," in row["length mm"] for row in rows_of(parts_csv(plan_of("hostile")))} == {False}


def test_no_cell_is_a_formula(plan_of):
    for text in (parts_csv(plan_of("hostile")), borings_csv(plan_of("hostile"))):
        cells = [cell for row in csv.reader(io.StringIO(text, newline="")) for cell in row]
        assert not [cell for cell in cells if cell[:1] in ("=", "+", "-", "@", "\t", "\r")]
    assert any(row["openings"] == "'=SUM(A1)" for row in rows_of(parts_csv(plan_of("hostile"))))


def test_a_job_without_parts_has_headings_only(plan_of):
    assert rows_of(parts_csv(plan_of("raked"))) == []
    assert parts_csv(plan_of("raked")).startswith("mark,kind,quantity")


def test_the_same_each_time(plan_of):
    plan = plan_of("converted-store")
    assert parts_csv(plan) == parts_csv(plan)
    assert borings_csv(plan).isascii() or borings_csv(plan).encode().decode() == borings_csv(plan)
