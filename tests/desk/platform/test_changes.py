"""Changes in words, and two people's changes put together."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from rodbook.desk.platform.changes import in_words, merged

BASE = {
    "format": 1,
    "job": {"name": "Store", "date": "2026-11-02"},
    "openings": [
        {"mark": "C1", "widths": [842, 843, 843], "leaves": 2},
        {"mark": "C2", "widths": [845, 845, 845]},
    ],
}


def _with(**changes):
    import copy

    document = copy.deepcopy(BASE)
    for path, value in changes.items():
        at = document
        *steps, last = path.split("__")
        for step in steps:
            at = at[int(step)] if step.isdecimal() else at[step]
        at[int(last) if last.isdecimal() else last] = value
    return document


@pytest.mark.parametrize(
    ("new", "said"),
    [
        (_with(job__name="Old store"), ("name Store → Old store",)),
        (_with(openings__0__widths__0=845), ("C1: width at foot 842 → 845",)),
        (_with(openings=BASE["openings"][:1]), ("opening C2 taken out",)),
        (
            _with(offcuts=[{"label": "O-18", "went": "in"}, {"label": "O-14", "went": "out"}]),
            ("offcut O-18 put into the shop", "offcut O-14 used up"),
        ),
        (_with(openings=[*BASE["openings"], {"mark": "C3"}]), ("opening C3 added",)),
        (_with(openings=BASE["openings"][::-1]), ("openings put in another order",)),
        (_with(openings__1__note="damp"), ("C2: note nothing → damp",)),
        (_with(openings__0__hand="right"), ("C1: hand nothing → right",)),
        (BASE, ()),
    ],
)
def test_what_changed_is_said(new, said):
    assert in_words(BASE, new) == said


def test_changes_of_different_values_both_stand():
    both = merged(BASE, _with(openings__0__widths__0=850), _with(openings__0__widths__2=851, openings__1__note="damp"))
    assert not both.clashes
    assert both.document["openings"][0]["widths"] == [850, 843, 851]
    assert both.document["openings"][1]["note"] == "damp"


def test_the_same_value_changed_twice_is_a_clash_and_mine_is_kept():
    both = merged(BASE, _with(openings__0__widths__0=850), _with(openings__0__widths__0=860))
    assert [(c.where, c.theirs, c.mine) for c in both.clashes] == [("openings: C1: widths", "850", "860")]
    assert both.document["openings"][0]["widths"][0] == 860


def test_openings_added_by_both_are_both_there():
    theirs, mine = (
        _with(openings=[*BASE["openings"], {"mark": "C3"}]),
        _with(openings=[*BASE["openings"], {"mark": "C4"}]),
    )
    assert [o["mark"] for o in merged(BASE, theirs, mine).document["openings"]] == ["C1", "C2", "C4", "C3"]


def test_taken_out_by_one_and_changed_by_the_other_is_a_clash():
    both = merged(BASE, _with(openings=BASE["openings"][:1]), _with(openings__1__widths__0=850))
    assert [c.theirs for c in both.clashes] == ["taken out"]


marks = st.lists(st.sampled_from(["C1", "C2", "C3", "C4"]), unique=True, max_size=4)
documents = st.builds(
    lambda ms, values, name: {
        "job": {"name": name},
        "openings": [{"mark": m, "leaves": v} for m, v in zip(ms, values[: len(ms)], strict=True)],
    },
    marks,
    st.lists(st.integers(1, 3), min_size=4, max_size=4),
    st.sampled_from(["a", "b"]),
)


@given(documents, documents)
def test_who_changed_nothing_gets_the_others_document(base, other):
    assert merged(base, other, base).document == other
    assert merged(base, base, other).document == other
    assert merged(base, other, other).document == other


@given(documents, documents)
def test_something_is_said_whenever_something_changed(old, new):
    assert bool(in_words(old, new)) == (old != new)
