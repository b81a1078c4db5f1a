"""Headings as people write them."""

import pytest

from rodbook.job import Opening
from rodbook.job.files.columns import COLUMNS, column_of
from rodbook.wording.places import column_letter


@pytest.mark.parametrize(
    ("heading", "label"),
    [
        ("Mark", "mark"),
        ("opening", "mark"),
        (" NAME ", "mark"),
        ("Doors", "leaves"),
        ("hinged_on", "hand"),
        ("Build-up", "build-up"),
        ("build up", "build-up"),
        ("Sill?", None),
        ("width at foot", "width foot"),
        ("Foot width (mm)", "width foot"),
        ("WIDTH 2", "width middle"),
        ("width-3", "width head"),
        ("height centre", "height middle"),
        ("right height [mm]", "height right"),
        ("Diagonal 1", "diagonal foot left"),
        ("diagonal, foot left to head right", "diagonal foot left"),
        ("diagonal from foot right to head left", "diagonal foot right"),
        ("door height", "leaf height"),
        ("clear_width", "clear width"),
        ("remarks", "note"),
        ("width", None),
        ("width foot (cm)", None),
        ("", None),
        (None, None),
        (7, None),
    ],
)
def test_a_heading_means_one_column_or_none(heading, label):
    found = column_of(heading)
    assert (found.label if found else None) == label


def test_every_field_of_an_opening_has_its_columns():
    assert {column.field for column in COLUMNS} == set(Opening.model_fields) - {
        "obstacles",
        "ceiling",
        "leaf_widths",
        "leaf_shares",
        "read_by",
    }  # lists of their own
    for field, count in [("widths", 3), ("heights", 3), ("diagonals", 2), ("leaf", 2), ("clear", 2)]:
        assert [column.index for column in COLUMNS if column.field == field] == list(range(count))


def test_no_two_columns_go_by_one_heading():
    for column in COLUMNS:
        for heading in (column.label, *column.also):
            assert column_of(heading) is column, heading


def test_letters_go_on_after_z():
    assert [column_letter(n) for n in (0, 25, 26, 51, 52, 701, 702)] == ["A", "Z", "AA", "AZ", "BA", "ZZ", "AAA"]
