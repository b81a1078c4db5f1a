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


CHARGES = (
    "charge;of;per;price;from\nset-up;;distinct part;10,00;\nboard;22 mm MDF;m²;26,50;2027-06-01\nlead time;;;15;\n"
)
SHOP = "Quarry Lane Workshop"


def test_a_workshop_s_charges_are_looked_at_and_then_put_beside_the_old(run, tmp_path):
    (tmp_path / "list.csv").write_text(CHARGES, "utf-8")
    out = run("--workshop", SHOP.lower(), "--since", "2027-01-01").out
    for said in ("set-up", "€9.00", "€10.00", "+11.1%", "1 January 2027", "board, 22 mm MDF", "1 June 2027", "15"):
        assert said in out, said
    assert "Not in the list: handling;" in out
    assert (tmp_path / "book.toml").read_text("utf-8") == sample_book_text()
    asked = ("--workshop", SHOP, "--since", "2027-01-01", "--source", "winter list", "--write")
    assert "Put 3 prices into book.toml." in run(*asked).out
    rates = read_book(tmp_path / "book.toml").workshops[0].rates
    assert [(r.since.isoformat(), str(r.set_up), r.lead_days) for r in rates] == [
        ("2026-03-02", "9.00", None),
        ("2027-01-01", "10.00", 15),
        ("2027-06-01", "10.00", 15),
    ]
    assert "Nothing to write" in run(*asked).out


def test_a_workshop_s_list_at_fault_writes_nothing(run, tmp_path):
    (tmp_path / "list.csv").write_text("charge;price\nset-up;-1\nvarnishing;3\n", "utf-8")
    err = run("--workshop", SHOP, "--since", "2027-01-01", "--write", code=2).err
    assert "row 2 (set-up): a price of -1 is below zero" in err
    assert "row 3: the book knows no charge 'varnishing'" in err
    assert (tmp_path / "book.toml").read_text("utf-8") == sample_book_text()
    assert "did you mean Quarry Lane Workshop" in run("--workshop", "Quary Lane", "--since", "2027-01-01", code=2).err
    assert "--since: say from which day" in run("--workshop", SHOP, code=2).err


@pytest.mark.parametrize(("more", "count"), [((), 7), (("--workshop", SHOP), 13)])
@pytest.mark.parametrize("kind", ["csv", "xlsx"])
def test_a_blank_list_is_written_once(rodbook, run, tmp_path, more, count, kind):
    out = rodbook("price-list", f"blank.{kind}", "--book", "book.toml", "--blank", *more).out
    assert f"a blank list of {count} rows" in out
    again = rodbook("price-list", f"blank.{kind}", "--book", "book.toml", "--blank", *more, code=1).err
    assert "is there already" in again
    asked = ("price-list", f"blank.{kind}", "--book", "book.toml", "--since", "2027-01-01", *more)
    if more:
        assert "no row has a charge and a price" in rodbook(*asked, code=2).err
    else:
        assert "No price would change." in rodbook(*asked).out
    assert "written as .csv or .xlsx" in rodbook("price-list", "x.ods", "--book", "book.toml", "--blank", code=2).err
