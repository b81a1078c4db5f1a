"""What is asked of the layout engine."""

import pytest

from rodbook.boards import Board
from rodbook.job.files import parse_book, parse_job, sample_book_text, sample_text
from rodbook.job.models import Making
from rodbook.plan.parts import plan_parts
from rodbook.plan.stages.materials import lay_out_lines


def _turns(board: Board, cut: str | None = None) -> int:
    """How often the cutting direction turns below a board that came from cuts in this direction."""
    if board.use != "cut":
        return 0
    return (cut is not None and board.cut != cut) + max(_turns(part, board.cut) for part in board.parts)


@pytest.mark.parametrize("turns", [1, 2])
def test_no_layout_turns_more_often_than_the_books_saw(turns):
    book = parse_book(sample_book_text())
    book = book.model_copy(update={"saw": book.saw.model_copy(update={"turns": turns})})
    job = parse_job(sample_text("converted-store"), book)
    found = lay_out_lines(plan_parts(job, book).schedule, job, book, Making.SITE, seconds=1.0, seed=0)
    layouts = [layout for material in found if material.sheets for layout in material.sheets.layouts]
    assert layouts
    assert max(_turns(layout.tree) for layout in layouts) == turns
