"""Edges that are seen follow from how each kind of part stands, and are what is worked, priced and told."""

from dataclasses import replace

import pytest

from rodbook.money.costs.lines import DRIVERS
from rodbook.papers.common.shared import edges_in_words, edging_in_words
from rodbook.setout import Frame, PartKind, ScheduleLine, set_out
from rodbook.setout.edges import seen_edges
from rodbook.setout.model import Part
from rodbook.working import Measure


def _part(kind, length=1000.0, width=100.0, **more):
    sizes = (Measure(length, "length"), Measure(width, "width"), Measure(20.0, "thickness"))
    return Part(kind, "board", False, *sizes, edges=seen_edges(kind), **more)


def _front(build_up, stock, **more):
    frame = Frame(Measure(827, "lining width"), Measure(2024, "lining height"), 2, "left", **({"sill": False} | more))
    return {p.part.kind: p.part for p in set_out(build_up, stock, frame).parts}


def test_every_kind_says_which_edges_are_seen():
    assert all(kind.facts.seen for kind in PartKind)


@pytest.mark.parametrize(
    ("kind", "metres"),
    [
        (PartKind.DOOR, 2.2),
        (PartKind.STRIP, 2.2),
        (PartKind.PANEL, 2.2),
        (PartKind.LINING_HEAD, 1.0),
        (PartKind.RAIL, 1.0),
        (PartKind.PLINTH, 1.0),
        (PartKind.END_PANEL, 1.1),
        (PartKind.TRIM_LEG, 2.0),
        (PartKind.TRIM_HEAD, 2.0),
    ],
)
def test_metres_of_edge_of_a_part_of_1000_by_100(kind, metres):
    """Of what lies the top runs along the length: a plinth has a metre of edge, not its height of it."""
    part = _part(kind)
    assert part.edge_m == pytest.approx(metres)
    assert DRIVERS["edges"](ScheduleLine("1-x", part, 3, (("C1", 3),))) == pytest.approx(3 * metres)


def test_trim_shows_its_long_edges_and_butted_heads_their_ends(lay_on, stock):
    parts = _front(lay_on.model_copy(update={"trim_joint": "butted"}), stock(lay_on))
    assert set(parts[PartKind.TRIM_LEG].edges) == {"left", "right"}
    assert set(parts[PartKind.TRIM_HEAD].edges) == {"top", "bottom", "left", "right"}
    mitred = _front(lay_on.model_copy(update={"trim_joint": "mitred"}), stock(lay_on))
    assert set(mitred[PartKind.TRIM_HEAD].edges) == {"top", "bottom"}


def test_only_what_is_not_planed_as_bought_wants_work(lay_on, stock):
    """Legs have two long edges, a butted head its two ends too."""
    butted = lay_on.model_copy(update={"trim_joint": "butted"})
    sawn = _front(butted, stock(lay_on))
    given = stock(lay_on)
    planed = _front(butted, replace(given, trim=given.trim.model_copy(update={"edges": "planed"})))
    leg, head = sawn[PartKind.TRIM_LEG], sawn[PartKind.TRIM_HEAD]
    assert leg.edge_m == pytest.approx(2 * leg.length.value / 1000)
    assert head.edge_m == pytest.approx(2 * (head.length.value + 70) / 1000)
    assert planed[PartKind.TRIM_LEG].edge_m == 0
    assert planed[PartKind.TRIM_HEAD].edge_m == pytest.approx(0.14)
    assert edging_in_words(planed[PartKind.TRIM_LEG]) == "long edges planed as bought"


def test_edges_are_told_by_name():
    assert edges_in_words(_part(PartKind.TRIM_LEG)) == "both long edges"
    assert edges_in_words(_part(PartKind.DOOR)) == "all four"
    assert edges_in_words(_part(PartKind.END_PANEL)) == "front, top"
    assert (
        edges_in_words(replace(_part(PartKind.TRIM_HEAD), edges=("top", "bottom", "left")))
        == "both long edges, left end"
    )


def test_what_lies_is_named_as_it_lies():
    for kind in PartKind:
        part = _part(kind)
        assert part.along("top") == kind.facts.lies
        assert part.along("left") == (not kind.facts.lies)
        assert part.along("front")


def test_a_lipped_plinth_loses_its_lipping_off_its_height(inset, stock):
    build_up = inset.model_copy(update={"plinth": 100.0, "lining_edge": "lipped", "lining_edge_thickness": 6.0})
    plinth = _front(build_up, stock(inset))[PartKind.PLINTH]
    assert plinth.edge_work is not None
    assert (plinth.core[0].value, plinth.core[1].value) == (plinth.length.value, 94.0)
