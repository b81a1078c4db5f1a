"""What a plan rests on: a book without everything else gives the same plan, and what matters is in it."""

from __future__ import annotations

import json
from dataclasses import replace

import pytest

from rodbook.job import Book
from rodbook.plan import as_json, make_plan, plan_parts
from rodbook.plan.analyses.resting import NAMED, rests_on

SAMPLES = ("converted-store", "timber-house", "stair", "galley")


def _bare(job, book) -> Book:
    """The book with nothing but what the job's plan is said to rest on."""
    kept = rests_on(job, book)
    raw = book.model_dump(mode="json")
    lists = {group: kept[group] or raw[group][:1] for group in NAMED}
    workshops = [{**kept["workshop"], "contact": "another"}]
    return Book.model_validate(
        raw | {name: kept[name] for name in kept if name in raw} | lists | {"workshops": workshops, "taxes": []}
    )


@pytest.mark.parametrize("name", SAMPLES)
def test_what_a_plan_does_not_rest_on_does_not_move_its_parts(planned, name):
    plan = planned(name)
    bare = _bare(plan.job, plan.book)
    assert len(bare.build_ups) < len(plan.book.build_ups)
    first, second = plan_parts(plan.job, plan.book), plan_parts(plan.job, bare)
    assert replace(second, book=first.book) == first


def test_nor_its_layouts_and_costs(planned):
    plan = planned("stair")

    def told(book: Book) -> dict[str, object]:
        made = as_json(make_plan(plan.job, book, outlook=True))
        return {name: json.loads(json.dumps(value)) for name, value in made.items() if name != "book"}

    assert told(_bare(plan.job, plan.book)) == told(plan.book)


def test_what_the_job_names_counts_and_what_nothing_names_does_not(planned):
    plan = planned("stair")
    job, book = plan.job, plan.book
    before = rests_on(job, book)
    used = {one["name"] for one in before["boards"]}
    unused = [board.name for board in book.boards if board.name not in used]
    assert used
    assert unused, "the sample has a board that this job does not use"

    def dearer(name: str) -> Book:
        boards = tuple(
            board if board.name != name else board.model_copy(update={"density_high": board.density_high + 1})
            for board in book.boards
        )
        return book.model_copy(update={"boards": boards})

    assert rests_on(job, dearer(unused[0])) == before
    assert rests_on(job, dearer(next(iter(used)))) != before
    firm = book.firm.model_copy(update={"contact": "another"})
    assert rests_on(job, book.model_copy(update={"firm": firm, "taxes": ()})) == before
    assert rests_on(job, book.model_copy(update={"currency": "CHF"})) != before
