"""Everything that can be set out can be drawn: elevation, level section, and the plumb section at the foot."""

import random

from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from rodbook.papers.pictures.foot import draw_foot
from rodbook.papers.pictures.front import draw_front
from rodbook.papers.pictures.part import draw_whole_part
from rodbook.papers.pictures.plain import draw_plain_part
from rodbook.papers.pictures.section import draw_section
from rodbook.setout import PartKind

from .random_fronts import random_front
from .test_assembled import BOOK


@settings(max_examples=60, deadline=None, suppress_health_check=[HealthCheck.too_slow])
@given(seed=st.integers(0, 10**9))
def test_whatever_is_set_out_is_drawn(seed):
    made = random_front(random.Random(seed), BOOK)
    assert draw_front(made.front, "x").marks
    if any(p.part.kind in (PartKind.DOOR, PartKind.DRAWER_FRONT, PartKind.FLAP) for p in made.front.parts):
        assert draw_section(made.front, made.build_up, "x", packer_mm=6.0, packer_words="packer").marks
    foot = draw_foot(made.front, "x")
    assert (foot is not None) == any(p.part.kind is PartKind.PLINTH for p in made.front.parts)
    for placed in made.front.parts:
        if placed.part.notch is not None:
            draw = draw_whole_part if placed.part.borings else draw_plain_part
            assert draw(placed.part, "K1").marks
