"""Price lists on the command line."""

from __future__ import annotations

import pytest

from rodbook.job.files import read_book, sample_book_text

LIST = "name;price\n22 mm MDF 2440 x 1220;53,00\n70 x 22 trim, 2.4 m;7,90\n18 mm MDF 2440x1220;45\n"


@pytest.fixture
def run(rodbook, monkeypatch, tmp_path):
    (tmp_path / "book.toml").write_text(sample_book_text(), "utf-8")
    (tmp_path / "list.csv").write_text(LIST, "utf-8")
    monkeypatch.chdir(tmp_path)

    def _run(*arguments, code=0):
        return rodbook("price-list", "list.csv", "--book", "book.toml", *arguments, code=code)

    return _run


def test_what_would_change_is_printed_and_nothing_written(run, tmp_path):
    out = run("--since", "2026-12-01").out
    assert "€51.20" in out
    assert "€53.00" in out
    assert "Row 4, '18 mm MDF 2440x1220', was left alone; the book has '18 mm MDF 2440 x 1220'." in out
    assert (tmp_path / "book.toml").read_text("utf-8") == sample_book_text()


def test_written_it_stands_beside_the_old_and_the_rest_of_the_book_stays(run, tmp_path):
    assert "Put 1 price into book.toml." in run("--since", "2026-12-01", "--source", "winter list", "--write").out
    text = (tmp_path / "book.toml").read_text("utf-8")
    kept = [line for line in text.splitlines() if "winter list" not in line]
    assert kept == sample_book_text().splitlines()
    size = read_book(tmp_path / "book.toml").boards[0].sheets[0]
    assert [str(p.amount) for p in size.prices] == ["46.50", "51.20", "53.00"]
    assert "Nothing to write" in run("--since", "2026-12-01", "--write").out


def test_a_day_that_is_none_and_a_list_that_is_none(run, tmp_path):
    assert run("--since", "soon", code=2).err == "--since: 'soon' is not a day; write it as 2026-12-01\n"
    (tmp_path / "list.csv").write_text("a;b\n", "utf-8")
    assert "no row has headings for name and price" in run("--since", "2026-12-01", "--write", code=2).err
