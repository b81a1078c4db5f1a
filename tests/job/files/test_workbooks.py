"""Openings out of workbooks, good ones and ones made to do harm."""

import datetime
import io
import re
import zipfile

import openpyxl
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from rodbook.errors import RodbookError
from rodbook.job import Opening
from rodbook.job.files import read_openings
from rodbook.job.files.columns import COLUMNS
from rodbook.job.files.workbooks import MOST_UNPACKED_BYTES, rows_from_workbook

ROWS = [["mark", "leaf width", "leaf height"], ["W1", 447, "2100"], [None], ["W2", "44,7 cm", 2100.5]]
OPENINGS = tuple(
    Opening.model_validate({"mark": mark, "state": "planned", "leaf": leaf})
    for mark, leaf in [("W1", (447, 2100)), ("W2", (447, 2100.5))]
)
SHEET = "xl/worksheets/sheet1.xml"
DAMAGED = "the file: this workbook can't be read; open it in a spreadsheet and save it again as .xlsx"
HARM = "the file: this workbook unpacks to far more than it should; copy the table into a new one and save that"
ODD = "the file: this workbook holds what none needs, and is not opened; save it again as .xlsx"


def workbook(*sheets):
    book = openpyxl.Workbook()
    book.remove(book.active)
    for title, rows in sheets:
        sheet = book.create_sheet(title)
        for row in rows:
            sheet.append(row)
    out = io.BytesIO()
    book.save(out)
    return out.getvalue()


def changed(data, name, change, *, compression=zipfile.ZIP_DEFLATED):
    """The workbook with one of its parts changed, or put in where there is none."""
    out = io.BytesIO()
    with zipfile.ZipFile(io.BytesIO(data)) as old, zipfile.ZipFile(out, "w", compression) as new:
        for part in old.namelist():
            new.writestr(part, change(old.read(part)) if part == name else old.read(part))
        if name not in old.namelist():
            new.writestr(name, change(b""))
    return out.getvalue()


def test_a_workbook_is_read_with_the_numbers_of_its_rows(tmp_path):
    path = tmp_path / "table.xlsx"
    path.write_bytes(workbook(("Openings", ROWS)))
    assert read_openings(path) == OPENINGS
    assert [number for number, _ in rows_from_workbook(path.read_bytes())] == [1, 2, 4]


def test_columns_in_any_order_and_every_column_of_them(tmp_path, store_job):
    labels = [column.label for column in reversed(COLUMNS) if column.field not in ("leaf", "clear", "state", "rows")]
    fields = {c.label: c for c in COLUMNS}

    def cell(opening, label):
        value = getattr(opening, fields[label].field)
        if isinstance(value, dict):
            return value.get(fields[label].index)
        return value[fields[label].index] if isinstance(value, tuple) else getattr(value, "value", value)

    rows = [["Seed store"], [], labels, *([cell(o, label) for label in labels] for o in store_job.openings)]
    path = tmp_path / "table.xlsx"
    path.write_bytes(workbook(("first", rows)))
    assert read_openings(path) == store_job.openings


def test_the_first_sheet_or_the_one_that_is_named(told, tmp_path):
    path = tmp_path / "table.xlsx"
    path.write_bytes(workbook(("first", ROWS[:2]), ("Second floor", ROWS)))
    assert read_openings(path) == OPENINGS[:1]
    assert read_openings(path, sheet="second floor") == OPENINGS
    assert told(read_openings, path, sheet="Second flor") == [
        "the file: there is no sheet 'Second flor'; did you mean Second floor?"
    ]


def test_a_cell_is_told_with_its_row(told, tmp_path):
    path = tmp_path / "table.xlsx"
    path.write_bytes(workbook(("first", [*ROWS, [], ["W3", datetime.date(2026, 3, 1), "#REF!"]])))
    assert told(read_openings, path) == [
        "row 6, leaf width (W3): this is not a length; write millimetres, as in 842 or 842.5",
        "row 6, leaf height (W3): '#REF!' is not a length; write millimetres, as in 842 or 842.5",
    ]


def test_a_formula_without_a_result_names_its_cell(told, tmp_path):
    path = tmp_path / "table.xlsx"
    path.write_bytes(workbook(("first", [*ROWS, ["W3", "=B2+10", "=C2"]])))
    said = (
        "the result of this formula is not saved; open the workbook in a spreadsheet and save it, "
        "or write the value itself"
    )
    assert told(read_openings, path) == [f"cell B5: {said}", f"cell C5: {said}"]


def test_a_formula_with_its_result_is_read_as_the_result(tmp_path):
    def with_results(sheet):
        assert b"<f>B2+10</f><v />" in sheet or b"<f>B2+10</f><v/>" in sheet or b"<f>B2+10</f><v></v>" in sheet
        sheet = re.sub(rb"<f>B2\+10</f><v ?/?>(</v>)?", b"<f>B2+10</f><v>457</v>", sheet)
        return re.sub(rb'r="D5"><f>A9</f><v ?/?>(</v>)?', b'r="D5" t="str"><f>A9</f><v></v>', sheet)

    data = workbook(("first", [[*ROWS[0], "note"], *ROWS[1:], ["W3", "=B2+10", 2100, "=A9"]]))
    path = tmp_path / "table.xlsx"
    path.write_bytes(changed(data, SHEET, with_results))
    assert [(o.mark, o.leaf, o.note) for o in read_openings(path)][-1] == ("W3", (457.0, 2100.0), "")


def test_a_workbook_goes_by_what_it_is_not_by_its_name(tmp_path):
    path = tmp_path / "table.csv"
    path.write_bytes(workbook(("first", ROWS)))
    assert read_openings(path) == OPENINGS


# --- harm -----------------------------------------------------------------------------------------------------------


def test_a_workbook_that_unpacks_to_far_too_much_is_refused_unread(told):
    row = b'<row r="1"><c r="A1"><v>1</v></c></row>'

    def blown_up(sheet):
        return sheet.replace(b"</sheetData>", row * (MOST_UNPACKED_BYTES // len(row) + 1) + b"</sheetData>")

    data = changed(workbook(("first", ROWS)), SHEET, blown_up)
    assert len(data) < 1_000_000
    assert told(rows_from_workbook, data) == [HARM]


def test_parts_that_shrink_too_well_or_are_too_many_are_refused(told):
    good = workbook(("first", ROWS))
    assert told(rows_from_workbook, changed(good, "xl/media/x.bin", lambda _: b"\0" * 3_000_000)) == [HARM]
    out = io.BytesIO(good)
    with zipfile.ZipFile(out, "a") as archive:
        for number in range(1000):
            archive.writestr(f"xl/media/{number}", b"")
    assert told(rows_from_workbook, out.getvalue()) == [HARM]


@pytest.mark.parametrize(
    "declared",
    [
        '<!DOCTYPE x [<!ENTITY a "aaaa"><!ENTITY b "&a;&a;&a;">]>',
        '<!DOCTYPE x SYSTEM "file:///etc/hostname">',
        '<!-- --><!DOCTYPE x [<!ENTITY a SYSTEM "http://127.0.0.1/">]>',
    ],
)
@pytest.mark.parametrize("encoding", ["utf-8", "utf-8-sig", "utf-16", "utf-16-be"])
@pytest.mark.parametrize("part", [SHEET, "xl/sharedStrings.xml", "[Content_Types].xml", "docProps/core.xml"])
def test_parts_that_define_their_own_abbreviations_are_refused(told, declared, encoding, part):
    def with_declaration(old):
        body = re.sub(r"^\s*<\?xml[^>]*\?>", "", old.decode())
        return f'<?xml version="1.0"?>{declared}{body}'.encode(encoding)

    assert told(rows_from_workbook, changed(workbook(("first", ROWS)), part, with_declaration)) == [ODD]


def test_unusual_encodings_that_could_hide_them_are_refused(told):
    def disguised(old):
        return b'<?xml version="1.0" encoding="cp037"?>' + old.decode().encode("cp037")

    assert told(rows_from_workbook, changed(workbook(("first", ROWS)), SHEET, disguised)) == [ODD]


@pytest.mark.parametrize(
    ("name", "change"),
    [
        (SHEET, lambda old: old[: len(old) // 2]),
        (SHEET, lambda old: old.replace(b'r="A1"', b'r="ZZZZZZ1"')),
        (SHEET, lambda old: old.replace(b't="inlineStr"', b't="s"').replace(b"<is>", b"<v>99999</v><is>")),
        (SHEET, lambda old: old.replace(b"<v>447</v>", b"<v>" + b"9" * 5000 + b"</v>")),
        ("xl/workbook.xml", lambda _: b""),
        ("[Content_Types].xml", lambda _: b"<Types/>"),
        ("xl/styles.xml", lambda _: b"not xml"),
    ],
)
def test_a_damaged_workbook_is_told_in_one_sentence(told, name, change):
    assert told(rows_from_workbook, changed(workbook(("first", ROWS)), name, change)) == [DAMAGED]


@pytest.mark.parametrize(
    ("data", "line"),
    [
        (b"", DAMAGED),
        (b"PK\x03\x04 and no more", DAMAGED),
        (b"\xd0\xcf\x11\xe0 old", "the file: this workbook is of the old kind or locked; save it again as plain .xlsx"),
        (b"\0" * 10_000_001, "the file: it is larger than 10 MB; no real one is, so it is not read"),
    ],
    ids=["empty", "cut off", "old", "large"],
)
def test_what_is_no_workbook_is_told(told, tmp_path, data, line):
    path = tmp_path / "table.xlsx"
    path.write_bytes(data)
    assert told(read_openings, path) == [line]


def test_a_workbook_without_sheets_says_so(told):
    data = changed(workbook(("first", ROWS)), "xl/workbook.xml", lambda _: b"<nothing/>")
    assert told(rows_from_workbook, data) == ["the file: this workbook has no sheet with cells"]


def test_a_cell_far_below_the_table_does_not_take_forever(told):
    data = changed(workbook(("first", ROWS)), SHEET, lambda old: old.replace(b'<row r="4"', b'<row r="99999999999"'))
    assert told(rows_from_workbook, data) == [
        "the file: this sheet goes on below row 100000; copy the table into a new workbook and save that"
    ]


def test_parts_nested_without_end_do_no_harm(told):
    def nested(sheet):
        return sheet.replace(b"<sheetData>", b"<sheetData>" + b"<a>" * 100_000).replace(
            b"</sheetData>", b"</a>" * 100_000 + b"</sheetData>"
        )

    data = changed(workbook(("first", ROWS)), SHEET, nested)
    assert [number for number, _ in rows_from_workbook(data)] == [1, 2, 4]
    assert told(rows_from_workbook, changed(data, SHEET, lambda old: old.replace(b"</a>", b""))) == [DAMAGED]


GOOD = workbook(("first", ROWS))


@settings(max_examples=60, deadline=None)
@given(data=st.data())
def test_whatever_bytes_a_workbook_has_it_is_read_or_told(data, told):
    name = data.draw(st.sampled_from([SHEET, "xl/workbook.xml", "xl/styles.xml", "xl/_rels/workbook.xml.rels"]))
    start, length = data.draw(st.integers(0, 1500)), data.draw(st.integers(0, 60))
    junk = data.draw(
        st.binary(max_size=20) | st.sampled_from([b"<a>", b'"', b"<v>-1</v>", b' r="B0"', b"&#0;", b"&lol;"])
    )
    bad = changed(GOOD, name, lambda old: old[: start % len(old)] + junk + old[start % len(old) + length :])
    try:
        rows_from_workbook(bad)
    except RodbookError:
        told(rows_from_workbook, bad)
