"""Openings out of workbooks, good ones and ones made to do harm."""

import datetime
import io
import re
import subprocess
import sys
import zipfile

import openpyxl
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from rodbook.errors import RodbookError
from rodbook.job import Opening
from rodbook.job.files import read_openings
from rodbook.job.files.bounded import Bounds, Ended, EndedError, run_bounded
from rodbook.job.files.columns import COLUMNS
from rodbook.job.files.workbook_cells import MOST_CELLS, cells_of
from rodbook.job.files.workbooks import MOST_UNPACKED_BYTES, refuse_harm, rows_from_workbook, rows_in

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

    def read():  # in this process, as one for each would take long
        refuse_harm(bad)
        try:
            found = cells_of(bad, None)
        except Exception:
            return []
        return rows_in(found, None)

    try:
        read()
    except RodbookError:
        told(read)


def test_every_kind_of_cell_comes_out_as_it_went_in():
    moment, day, hour = datetime.datetime(2026, 3, 1, 7, 30), datetime.date(2026, 3, 1), datetime.time(7, 30)  # noqa: DTZ001
    rows = [[1, 2.5, "C1", True, None, moment, day, hour, datetime.timedelta(hours=30)]]
    assert rows_from_workbook(workbook(("first", rows)))[0][1] == [
        1,
        2.5,
        "C1",
        True,
        None,
        moment,
        datetime.datetime(2026, 3, 1),  # noqa: DTZ001
        hour,
        datetime.timedelta(hours=30),
    ]


# --- what it takes ----------------------------------------------------------------------------------------------------


def _many_styles(old):
    style = b'<xf numFmtId="%d" fontId="0" fillId="0" borderId="0"/>'
    return old.replace(b"</cellXfs>", b"".join(style % n for n in range(1_000_000)) + b"</cellXfs>")


def _names(old):
    name = '<definedName name="n%d">first!$A$%d</definedName>'
    return old.replace(b"<definedNames", b"<x").replace(
        b"</sheets>",
        b"</sheets><definedNames>" + "".join(name % (n, n) for n in range(300_000)).encode() + b"</definedNames>",
    )


def _cells(count, width, filled):
    def change(old):
        rows = (
            b"<row>" + b"".join(filled % (r * n % 9973) for n in range(width)) + b"</row>"
            for r in range(count // width)
        )
        return old.replace(b"</sheetData>", b"".join(rows) + b"</sheetData>")

    return change


def _far_right(old):
    rows = b"".join(b'<row r="%d"><c r="XFD%d"><v>1</v></c></row>' % (n, n) for n in range(5, 40_000))
    return old.replace(b"</sheetData>", rows + b"</sheetData>")


def _texts(count, text):
    return lambda _old: (
        b'<sst xmlns="http://schemas.openxmlformats.org/spreadsheetml/2006/main">'
        + b"".join(b"<si><t>%d %s</t></si>" % (n, text) for n in range(count))
        + b"</sst>"
    )


def _noise(count):
    import random

    return "".join(random.Random(1).choices("ab", k=count)).encode()


NASTY = {
    "styles": ("xl/styles.xml", _many_styles, "has more styles or names than any table needs"),
    "names": ("xl/workbook.xml", _names, "has more styles or names than any table needs"),
    "cells": (SHEET, _cells(1_000_000, 20, b"<c><v>%d</v></c>"), f"has more than {MOST_CELLS} cells"),
    "blank cells": (SHEET, _cells(1_000_000, 20, b'<c s="0" x="%d"/>'), f"has more than {MOST_CELLS} cells"),
    "far right": (SHEET, _far_right, f"has more than {MOST_CELLS} cells"),
    "texts": ("xl/sharedStrings.xml", _texts(700_000, b"a"), "has more texts than any table needs"),
    "long texts": ("xl/sharedStrings.xml", _texts(30, _noise(900_000)), "unpacks to far more than it should"),
    "bomb": ("xl/media/x.bin", lambda _: b"\0" * 300_000_000, "unpacks to far more than it should"),
}

_ONE = """
import re, resource, sys
from pathlib import Path
from rodbook.errors import InputError
from rodbook.job.files import price_rows
try:
    print(len(price_rows(sys.argv[1])), "rows")
except InputError as error:
    print(error)
own, child = (resource.getrusage(who) for who in (resource.RUSAGE_SELF, resource.RUSAGE_CHILDREN))
status = Path("/proc/self/status")  # where there is one it knows better: the other figure begins with the one who started this
most = re.search("VmHWM:\\s+(\\d+)", status.read_text())[1] if status.exists() else own.ru_maxrss
print(own.ru_utime + own.ru_stime + child.ru_utime + child.ru_stime, (int(most) + child.ru_maxrss) / 1024)
"""


def taken(path):
    """What reading a list comes to, in a process of its own: the sentence, seconds of work, MB at most."""
    ran = subprocess.run([sys.executable, "-c", _ONE, str(path)], capture_output=True, text=True, check=True)
    *said, used = ran.stdout.splitlines()
    seconds, memory = map(float, used.split())
    return " ".join(said), seconds, memory


@pytest.mark.parametrize("name", NASTY)
def test_a_nasty_workbook_is_answered_soon_and_within_little_memory(tmp_path, name):
    part, change, sentence = NASTY[name]
    path = tmp_path / "table.xlsx"
    path.write_bytes(changed(workbook(("first", ROWS)), part, change))
    said, seconds, memory = taken(path)
    assert sentence in said
    assert seconds < 10
    assert memory < 300


def test_the_size_that_a_sheet_claims_is_not_believed(tmp_path):
    path = tmp_path / "table.xlsx"
    claimed = changed(
        GOOD, SHEET, lambda old: re.sub(rb'<dimension ref="[^"]*"', b'<dimension ref="A1:XFD1048576"', old)
    )
    path.write_bytes(claimed)
    assert b"XFD1048576" in zipfile.ZipFile(io.BytesIO(claimed)).read(SHEET)
    said, seconds, memory = taken(path)
    assert said == "3 rows"
    assert seconds < 10
    assert memory < 300


def test_a_long_list_is_read_within_the_bounds(tmp_path):
    book = openpyxl.Workbook(write_only=True)
    sheet = book.create_sheet("long")
    for row in range(MOST_CELLS // 15):
        sheet.append([f"board {row} {column}" for column in range(15)])
    path = tmp_path / "table.xlsx"
    book.save(path)
    said, seconds, memory = taken(path)
    assert said == "10000 rows"
    assert seconds < 10
    assert memory < 300


@pytest.mark.parametrize(
    ("work", "why"),
    [
        ("while True: pass", Ended.TIME),
        ("import time; time.sleep(60)", Ended.TIME),
        ("x = bytearray(2_000_000_000)", Ended.MEMORY),
        ("raise ValueError", Ended.BROKEN),
        ("import os; os.abort()", Ended.BROKEN),
    ],
)
def test_a_process_that_goes_beyond_its_bounds_is_ended(tmp_path, work, why):
    script = tmp_path / "work.py"
    script.write_text(work)
    with pytest.raises(EndedError) as ended:
        run_bounded(script, b"", bounds=Bounds(cpu_seconds=1, memory_bytes=200_000_000, wall_seconds=15))
    assert ended.value.why is why
