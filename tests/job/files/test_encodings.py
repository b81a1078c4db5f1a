"""Bytes read as text: as they are, or refused with line and column; never with a letter put in place of another."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from rodbook.errors import InputError
from rodbook.job.files import price_rows, read_job, read_openings, sample_text
from rodbook.job.files.store import NOT_UTF_8, text_of

TABLE = "mark;room;leaf width;leaf height\nC1;Küche;447;2100\nC2;Büro – hinten;447;2100\n"


@pytest.mark.parametrize("encoding", ["utf-8", "utf-8-sig", "utf-16"])
def test_what_says_its_encoding_is_read_in_it(tmp_path, encoding):
    path = tmp_path / "table.csv"
    path.write_bytes(TABLE.encode(encoding))
    assert [opening.room for opening in read_openings(path)] == ["Küche", "Büro – hinten"]
    assert price_rows(path)[1][1][1] == "Küche"
    path.write_bytes(sample_text("stair").replace('name = "', 'name = "Büro ', 1).encode(encoding))
    assert read_job(path).job.name.startswith("Büro ")


def test_the_old_western_encoding_is_asked_and_then_read(tmp_path):
    path = tmp_path / "table.csv"
    path.write_bytes(TABLE.encode("cp1252"))
    with pytest.raises(InputError) as told:
        read_openings(path)
    (fault,) = told.value.faults
    assert (fault.where, fault.code) == ("line 2, column 5", NOT_UTF_8)
    assert fault.what.endswith("it reads: C1;Küche;447;2100")
    assert [opening.room for opening in read_openings(path, western=True)] == ["Küche", "Büro – hinten"]
    assert price_rows(path, western=True)[1][1][1] == "Küche"


def test_utf_8_stays_utf_8_whatever_is_said():
    assert text_of("Küche".encode(), western=True) == "Küche"


@pytest.mark.parametrize(
    ("data", "where"),
    [
        (b"name\nK\x81che", "line 2, column 2"),  # neither UTF-8 nor the old Western one
        (b"a\xc3\xbc\r\nb\r\ncd\xff\x90", "line 3, column 3"),
        ("Küche".encode("utf-16-be"), "line 1, column 1"),
        (b"caf\xe9\x00\x01", "line 1, column 4"),
        ("\ufeffab".encode("utf-32-le"), "line 1, column 1"),
    ],
)
@pytest.mark.parametrize("agreed", [False, True])
def test_anything_else_is_refused_with_its_place_and_no_offer(data, where, agreed):
    with pytest.raises(InputError) as told:
        text_of(data, western=agreed)
    (fault,) = told.value.faults
    assert fault.where == where
    assert fault.code != NOT_UTF_8
    assert "save" in fault.what


@given(st.binary(max_size=60))
def test_no_letter_is_put_in_place_of_another(data):
    try:
        text = text_of(data)
    except InputError:
        return
    little = data[:2] == b"\xff\xfe"
    if little or data[:2] == b"\xfe\xff":
        assert text.encode("utf-16-le" if little else "utf-16-be") == data[2:]
    else:
        assert text.encode() == data.removeprefix(b"\xef\xbb\xbf")


@pytest.mark.parametrize("mark", [b"", b"\xef\xbb\xbf"])
@pytest.mark.parametrize("before", ["", "ab", "K\u00fcche;\n1;\u20ac", "\U0001f6aa"])
@pytest.mark.parametrize("wrong", [b"\xed\xbf\xbf", b"\xff", b"\xc3", b"\xe2\x82"])
def test_a_mark_in_front_changes_neither_what_is_found_nor_where(mark, before, wrong):
    """A broken letter behind a mark stopped the page: its place was counted from behind the mark, and cut a letter in two."""
    data = before.encode() + wrong + b" x\n"

    def found(given):
        with pytest.raises(InputError) as refused:
            text_of(given)
        return refused.value.faults

    assert found(mark + data) == found(data)
    lines = before.split("\n")
    assert f"line {len(lines)}, column {len(lines[-1]) + 1}" in found(mark + data)[0].where
