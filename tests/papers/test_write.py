"""Papers into a folder: all or none."""

import pytest

from rodbook.errors import RenderError, StoreError
from rodbook.papers import file_names, papers, write_papers
from rodbook.papers.registry import Paper, registered


def test_every_paper_is_written_under_its_name(plan_of, tmp_path):
    written = write_papers(plan_of("raked"), tmp_path / "new" / "papers")
    assert tuple(path.name for path in written) == file_names()
    assert sorted(p.name for p in (tmp_path / "new" / "papers").iterdir()) == sorted(file_names())
    assert written[0].read_bytes().startswith(b"%PDF")


def test_a_string_is_a_folder_too(plan_of, tmp_path):
    assert write_papers(plan_of("raked"), str(tmp_path))[0].parent == tmp_path


def test_the_same_plan_writes_the_same_bytes(plan_of, tmp_path):
    first = [path.read_bytes() for path in write_papers(plan_of("stair"), tmp_path / "a")]
    second = [path.read_bytes() for path in write_papers(plan_of("stair"), tmp_path / "b")]
    assert first == second


def test_old_papers_are_replaced_and_other_files_left_alone(plan_of, tmp_path):
    (tmp_path / "summary.pdf").write_text("old")
    (tmp_path / "notes.txt").write_text("mine")
    write_papers(plan_of("raked"), tmp_path)
    assert (tmp_path / "summary.pdf").read_bytes().startswith(b"%PDF")
    assert (tmp_path / "notes.txt").read_text() == "mine"


def test_nothing_is_written_where_the_last_paper_fails(plan_of, tmp_path):
    def fail(_plan):
        raise RenderError("papers.not_typeset", name="last", reason="")

    (tmp_path / "summary.pdf").write_text("old")
    with registered(Paper("last", "Last", "Never made.", fail)), pytest.raises(RenderError):
        write_papers(plan_of("raked"), tmp_path)
    assert [p.name for p in tmp_path.iterdir()] == ["summary.pdf"]
    assert (tmp_path / "summary.pdf").read_text() == "old"


def test_a_full_disk_leaves_the_old_papers_and_no_litter(plan_of, tmp_path, monkeypatch):
    import errno
    import os

    def full(_file):
        raise OSError(errno.ENOSPC, "No space left on device")

    (tmp_path / "summary.pdf").write_text("old")
    monkeypatch.setattr(os, "fsync", full)
    with pytest.raises(StoreError) as caught:
        write_papers(plan_of("raked"), tmp_path)
    assert str(caught.value) == f"{str(tmp_path)!r} can't take the papers: no space left on device"
    assert [p.name for p in tmp_path.iterdir()] == ["summary.pdf"]
    assert (tmp_path / "summary.pdf").read_text() == "old"


@pytest.mark.parametrize("below", ["", "sub"])
def test_a_file_is_no_folder(plan_of, tmp_path, below):
    (tmp_path / "there").write_text("a file")
    target = tmp_path / "there" / below
    with pytest.raises(StoreError) as caught:
        write_papers(plan_of("raked"), target)
    assert (
        str(caught.value) == f"{str(target)!r} can't take the papers: it, or what it lies in, is a file; name a folder"
    )


def test_a_folder_that_may_not_be_written_to(plan_of, tmp_path, monkeypatch):
    import tempfile

    def refuse(*_args, **_more):
        raise PermissionError(13, "Permission denied")

    monkeypatch.setattr(tempfile, "mkdtemp", refuse)
    monkeypatch.setattr(papers, "set_pdf", lambda *_args, **_more: b"%PDF")
    with pytest.raises(StoreError, match=r"can't take the papers: its permissions do not let you write there$"):
        write_papers(plan_of("raked"), tmp_path)


def test_a_folder_in_the_place_of_a_paper(plan_of, tmp_path):
    (tmp_path / "summary.pdf" / "inside").mkdir(parents=True)
    with pytest.raises(StoreError, match=r"there is a folder with the name of one of them; move it away$"):
        write_papers(plan_of("raked"), tmp_path)


def test_a_name_that_no_folder_can_have(plan_of):
    with pytest.raises(StoreError, match=r"can't take the papers: no folder can have such a name$"):
        write_papers(plan_of("raked"), "bad\0name")
