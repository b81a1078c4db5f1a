"""Every text on every paper is whole, and its figures are written as the book writes them."""

import pytest
from tests.said import gaps_in, points_in

from rodbook.job.files import parse_book, parse_job, sample_book_text, sample_text
from rodbook.papers import papers, registry
from rodbook.papers.common.shared import writer
from rodbook.papers.price.content import price_content
from rodbook.plan import make_plan, price_job


def _strings(value, key=""):
    if isinstance(value, dict):
        return [s for name, part in value.items() for s in _strings(part, name)]
    if isinstance(value, list | tuple):
        return [s for part in value for s in _strings(part, key)]
    return [value] if isinstance(value, str) and key not in ("ink", "accent", "tint", "file") else []


@pytest.mark.parametrize("sample", ["galley", "stair"])
def test_no_text_of_a_paper_has_an_empty_place_or_a_point_for_a_comma(sample):
    book = parse_book(sample_book_text()).model_copy(update={"locale": "de"})
    plan = make_plan(parse_job(sample_text(sample), book), book, outlook=True)
    write, found = writer(plan), {}
    names = {s for s in _strings([plan.job.model_dump(mode="json"), book.model_dump(mode="json")]) if "." in s}
    sheets = {paper.name: paper.content(plan) for paper in registry.papers() if paper.kind is registry.Kind.PDF}
    sheets["price"] = price_content(plan, price_job(plan))
    for paper, sheetful in sheets.items():
        for text in _strings(papers._in_words(sheetful.content, write)):
            for what, place in gaps_in(text):
                found.setdefault(f"{what}: {place}", paper)
            for place in points_in(text, names):
                found.setdefault(f"a decimal point: {place}", paper)
    assert found == {}
