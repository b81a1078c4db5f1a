"""Packers and spacers, written where they go."""

import pytest

from rodbook.papers.pictures.packing import draw_framed, draw_packing
from rodbook.sizes import FramedSize, Packers
from rodbook.working import Measure

PACKERS = Packers(Measure(4, "side"), Measure(5, "head"), (4.125, 10.5, 12.2), (5.1, 11.5, 13.2), (14.2, 13.3, 9.0))
FRAMED = FramedSize(
    Measure(959.0, "w"), Measure(2157.5, "h"), (Measure(959.0, "width spacer"), Measure(2157.5, "height spacer"))
)


def test_every_packer_is_written_to_the_tenth(many_fronts, read_svg):
    for _build_up, set_out in many_fronts:
        svg = read_svg(draw_packing(set_out, PACKERS, "C1"))
        assert sorted(svg.texts("packer figure")) == sorted(
            ["4.1", "10.5", "12.2", "5.1", "11.5", "13.2", "14.2", "13.3", "9"]
        )
        assert len(svg.tagged("polygon", "packer")) == 9


def test_foot_is_below_head_and_left_is_left(front, read_svg):
    _build_up, set_out = front("inset, painted", 827, 2022, 2)
    svg = read_svg(draw_packing(set_out, PACKERS, "C1"))
    at = {t.text: (float(t.get("x")), float(t.get("y"))) for t in svg.tagged("text", "packer figure")}
    assert at["4.1"][1] > at["10.5"][1] > at["12.2"][1] > at["13.3"][1]
    assert at["4.1"][0] < at["14.2"][0] < at["13.3"][0] < at["9"][0] < at["5.1"][0]


def test_spacers_are_written(many_fronts, read_svg):
    for _build_up, set_out in many_fronts:
        svg = read_svg(draw_framed(set_out, FRAMED, "W1"))
        assert svg.texts("figure") == ["spacer 959", "spacer 2157.5"]
        assert len(svg.tagged("polygon", "timber")) == 3


@pytest.mark.parametrize("draw", [draw_packing, draw_framed])
def test_every_drawing_is_sound(many_fronts, sound, draw):
    for _build_up, set_out in many_fronts:
        drawing = draw(set_out, PACKERS if draw is draw_packing else FRAMED, "C1")
        sound(drawing)
        assert drawing.width <= 80
