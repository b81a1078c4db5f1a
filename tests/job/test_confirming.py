"""What came with a sample is marked, each entry at its place, until somebody of the firm says that it holds."""

import copy

import pytest
import tomlkit

from rodbook.errors import InputError
from rodbook.job.book import Book
from rodbook.job.confirming import FigureKind, confirm, confirmed, marked_as, unconfirmed
from rodbook.job.files import new_book_text, parse_book, sample_book_text


@pytest.fixture(scope="module")
def sample():
    return parse_book(sample_book_text())


def test_every_price_rate_charge_and_tax_of_the_sample_is_marked(sample):
    found = unconfirmed(sample)
    kinds = {kind: sum(figure.kind is kind for figure in found) for kind in FigureKind}
    sold = [size for board in sample.boards for size in board.sheets]
    assert kinds == {
        FigureKind.FIRM: 1,
        FigureKind.SHEET: sum(len(size.prices) for size in sold),
        FigureKind.LENGTH: sum(len(size.prices) for section in sample.sections for size in section.lengths),
        FigureKind.RATE: len(sample.rates),
        FigureKind.WORKSHOP: 1,
        FigureKind.TAX: 1,
        FigureKind.CREW: len(sample.dates.crew),
        FigureKind.OFFCUT: sum(len(board.offcuts) for board in sample.boards),
    }


def test_a_new_firm_has_its_own_name_an_empty_shop_nothing_wanted_and_one_person(sample):
    text = new_book_text(
        "Mill & Daughters", contact="the mill", person="Ann", currency="CHF", locale="de_CH", holidays="CH"
    )
    book = parse_book(text)
    assert (book.firm.name, book.firm.contact, book.firm.confirmed) == ("Mill & Daughters", "the mill", True)
    assert [(board.offcuts, board.wanted) for board in book.boards] == [((), ())] * len(sample.boards)
    assert [person.name for person in book.dates.crew] == ["Ann"]
    assert (book.currency, book.locale, book.dates.holidays) == ("CHF", "de_CH", "CH")
    for invented in (
        sample.firm.name,
        sample.firm.contact,
        *(p.name for p in sample.dates.crew),
        *(w.name for w in sample.workshops),
    ):
        assert f'"{invented}"' not in text
    left = [
        figure
        for figure in unconfirmed(sample)
        if figure.kind not in (FigureKind.FIRM, FigureKind.CREW, FigureKind.OFFCUT)
    ]
    assert len(unconfirmed(book)) == len(left)
    assert book.build_ups == sample.build_ups


def test_a_new_firm_without_a_person_has_a_crew_of_one():
    assert len(parse_book(new_book_text("Mill")).dates.crew) == 1


@pytest.mark.parametrize(
    ("what", "where"), [({"firm": ""}, "firm.name"), ({"locale": "??"}, "locale"), ({"currency": "E"}, "currency")]
)
def test_what_is_wrong_with_a_new_firm_is_told_at_its_place(what, where):
    with pytest.raises(InputError) as refused:
        new_book_text(what.pop("firm", "Mill"), **what)
    assert where in [fault.where for fault in refused.value.faults]


def test_confirming_takes_the_mark_off_and_changes_nothing_else(sample):
    paths = [figure.path for figure in unconfirmed(sample)]
    raw = sample.model_dump(mode="json")
    for number, path in enumerate(paths):
        left = unconfirmed(sample.model_validate(confirmed(raw, paths[: number + 1])))
        assert path not in [figure.path for figure in left]
        assert len(left) == len(paths) - number - 1
    whole = sample.model_validate(confirmed(raw, paths))
    assert whole.model_dump(mode="json") == {**sample.model_dump(mode="json"), **_all_confirmed(raw)}


def _all_confirmed(value):
    if isinstance(value, dict):
        return {k: True if k == "confirmed" else _all_confirmed(v) for k, v in value.items()}
    return [_all_confirmed(v) for v in value] if isinstance(value, list) else value


def test_a_documents_comments_stay():
    document = tomlkit.parse(sample_book_text())
    confirm(document, ["rates[1]", "boards[1].sheets[1].prices[2]"])
    written = tomlkit.dumps(document)
    assert "# --- hinges" in written
    assert len(unconfirmed(parse_book(written))) == len(unconfirmed(parse_book(sample_book_text()))) - 2


@pytest.mark.parametrize("path", ["rates[999]", "boards[1]", "rates", "saw", "", "rates[0]", "firm.name"])
def test_a_place_where_nothing_waits_is_refused(sample, path):
    with pytest.raises(InputError, match="nothing that waits to be confirmed"):
        confirmed(sample.model_dump(mode="json"), [path])


def test_what_equals_the_sample_is_marked_and_what_is_the_firms_own_is_not(sample):
    plain = sample.model_dump(mode="json", exclude_defaults=True)
    old = _without_marks(plain)
    assert unconfirmed(Book.model_validate(old)) == ()
    again, count = marked_as(old, plain)
    assert (again, count) == (plain, len(unconfirmed(sample)))
    own = copy.deepcopy(old)
    own["firm"]["name"] = "Mill & Daughters"
    own["dates"]["crew"][0]["name"] = "Ann"
    own["boards"][0]["sheets"][0]["prices"][1]["amount"] = "53.00"
    own["rates"][0]["value"] += 1
    own["boards"][0]["name"] = "our own board"
    mine, marked = marked_as(own, plain)
    waiting = {figure.path for figure in unconfirmed(Book.model_validate(mine))}
    first = {figure.path for figure in unconfirmed(sample) if figure.path.startswith("boards[1].")}
    assert {figure.path for figure in unconfirmed(sample)} - waiting == {"firm", "dates.crew[1]", "rates[1]", *first}
    assert marked == len(waiting)
    assert marked_as(mine, plain) == (mine, marked)


def _without_marks(value):
    if isinstance(value, dict):
        return {name: _without_marks(inner) for name, inner in value.items() if name != "confirmed"}
    return [_without_marks(inner) for inner in value] if isinstance(value, list) else value
