"""End panels by hand and by property, and what is framed beside a side that stands free."""

from itertools import pairwise

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from rodbook.errors import Infeasible, Place
from rodbook.job.checks import check_opening
from rodbook.job.models import Opening
from rodbook.setout import Frame, PartKind, set_out
from rodbook.sizes import framed_size
from rodbook.working import Measure

quiet = settings(max_examples=50, deadline=None, suppress_health_check=[HealthCheck.function_scoped_fixture])


@pytest.fixture
def base(book):
    return book.build_up("base cupboards, lay-on")


def _frame(ends, width=800, height=870, leaves=2):
    return Frame(
        Measure(width, "lining width"), Measure(height, "lining height"), leaves, "left", sill=False, end_panels=ends
    )


def _panels(result):
    return {p.part.hand: p.part for p in result.parts if p.part.kind is PartKind.END_PANEL}


def test_an_end_panel_by_hand(base, stock):
    """Linings 520 deep, leaf 18 over their edge, scribe 15: 553 wide and as high as the lining, 870.

    Screws 50 in from both edges of the leg, that is 68 and 488 from the panel's front; 100 from both ends and 670 between:
    two stretches of 335, as one would be more than 500. On the right the front edge is on the right of the inner face.
    """
    result = set_out(base, stock(base), _frame("right"))
    (panel,) = _panels(result).values()
    assert (panel.length.value, panel.width.value, panel.thickness.value) == (870, 553, 18)
    assert panel.edges == ("front", "top")
    assert "15 mm to scribe" in panel.ends
    assert [(b.x.value, b.y.value) for b in panel.borings] == [
        (485, 100),
        (65, 100),
        (485, 435),
        (65, 435),
        (485, 770),
        (65, 770),
    ]
    assert result.dimension("width over the end panels").value == 818
    assert result.outer_width.value == 800


@quiet
@given(height=st.integers(400, 2000), leaves=st.integers(1, 2))
def test_two_end_panels_mirror_each_other(book, stock, height, leaves):
    base = book.build_up("base cupboards, lay-on").model_copy(update={"handle": None})
    result = set_out(base, stock(base), _frame("both", height=height, leaves=leaves))
    left, right = _panels(result)["left"], _panels(result)["right"]
    assert {(b.x.value, b.y.value) for b in left.borings} == {
        (right.width.value - b.x.value, b.y.value) for b in right.borings
    }
    heights = sorted({b.y.value for b in left.borings})
    assert heights[0] == 100
    assert height - 101 <= heights[-1] <= height - 100
    assert max(b - a for a, b in pairwise(heights)) <= 501
    ends = [e for e in result.elements if e.kind is PartKind.END_PANEL]
    assert [e.x for e in ends] == [-18, 800]


def test_beside_a_trim_there_is_no_end_panel(inset, stock):
    with pytest.raises(Infeasible, match="where a trim stands round the front no end panel closes its side"):
        set_out(inset, stock(inset), _frame("left"))


def test_an_end_panel_closes_a_side_where_nothing_stands_yet():
    opening = Opening.model_validate(
        {"mark": "A", "widths": [800, 800, 800], "heights": [900, 900, 900], "end_panels": "left"}
    )
    (fault,) = check_opening(opening, Place(("openings", 0)))
    assert str(fault) == (
        "openings[1].end_panels: an end panel closes a side where nothing stands yet; mark the opening planned, with the "
        "clear size wanted"
    )


@pytest.mark.parametrize(("free", "width"), [(0, 800 + 12), (1, 800 + 6 + 18), (2, 800 + 36)])
def test_a_free_side_has_neither_timber_nor_packing(free, width):
    """Lining 800, packers 6, panels 18: the framer's width goes to the panel's outer face."""
    nothing = Measure(0, "nothing")
    framed = framed_size(
        Measure(800, "lining width"),
        Measure(870, "lining height"),
        packer=Measure(6, "packer"),
        head_packer=nothing,
        reveal_board=nothing,
        floor_to_come=nothing,
        free=free,
        end_panel=Measure(18, "end panel"),
    )
    assert framed.width.value == width
