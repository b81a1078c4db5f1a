"""Framed sizes and spacers."""

from rodbook.sizes import framed_size
from rodbook.working import Measure


def _mm(value: float, name: str) -> Measure:
    return Measure(value, name)


def test_board_on_the_reveal_and_floor_to_come_are_added():
    # By hand: 914 + 2 x 10 + 2 x 12.5 = 959; 2118 + 12 + 12.5 + 15 = 2157.5.
    framed = framed_size(
        _mm(914, "lining width"),
        _mm(2118, "lining height"),
        packer=_mm(10, "packer"),
        head_packer=_mm(12, "packer over the head"),
        reveal_board=_mm(12.5, "reveal board"),
        floor_to_come=_mm(15, "floor to come"),
    )
    assert framed.width.value == 959
    assert framed.height.working() == (
        "framed height = lining height 2118.0 + packer over the head 12.0 + reveal board 12.5 + floor to come 15.0 = 2157.5"
    )
    assert [s.value for s in framed.spacers] == [959, 2157.5]


def test_what_is_zero_is_not_in_the_working():
    framed = framed_size(
        _mm(914, "lining width"),
        _mm(2118, "lining height"),
        packer=_mm(10, "packer"),
        head_packer=_mm(12, "head packer"),
        reveal_board=_mm(0, "reveal board"),
        floor_to_come=_mm(0, "floor to come"),
    )
    assert framed.width.working() == "framed width = lining width 914.0 + 2 × packer 10.0 = 934.0"


def test_a_sill_stands_clear_of_the_floor_with_board_under_it():
    # By hand: 1466 + 12 + 2 x 12.5 = 1503; no floor comes.
    framed = framed_size(
        _mm(612, "lining width"),
        _mm(1466, "lining height"),
        packer=_mm(10, "packer"),
        head_packer=_mm(12, "head packer"),
        reveal_board=_mm(12.5, "reveal board"),
        floor_to_come=_mm(15, "floor to come"),
        sill=True,
    )
    assert framed.height.value == 1503
