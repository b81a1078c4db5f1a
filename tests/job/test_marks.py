"""Nobody can take a part's mark for an opening's, nor one opening's for another's."""

import pytest
from hypothesis import assume, given
from hypothesis import strategies as st

from rodbook.job.checks import check_job
from rodbook.job.marks import begins_like_part, mark_faults, part_mark, spoken
from rodbook.setout import PartKind

MARK_WORDS = sorted(kind.facts.mark for kind in PartKind)

PART_MARKS = st.builds(
    part_mark, st.integers(1, 999), st.sampled_from(MARK_WORDS), st.sampled_from(["", "left", "right"])
)


def _said(*marks):
    return [fault.what for fault in mark_faults((f"openings[{n}]", mark) for n, mark in enumerate(marks, 1))]


@given(PART_MARKS, st.text(min_size=1, max_size=12))
def test_a_mark_that_the_check_lets_through_is_never_read_as_a_part(part, mark):
    """They are unlike from the first character that can be heard, so neither can be the beginning of the other."""
    assume(mark.strip())
    assert begins_like_part(part)
    if not _said(mark):
        assert spoken(part)[0] != spoken(mark)[0]
        assert not spoken(part).startswith(spoken(mark))
        assert not spoken(mark).startswith(spoken(part))


@given(st.lists(st.tuples(st.integers(1, 99), st.sampled_from(MARK_WORDS), st.sampled_from(["", "left", "right"]))))
def test_no_two_parts_sound_alike(parts):
    assert len({spoken(part_mark(*part)) for part in parts}) == len(set(parts))


def test_every_kind_has_a_word_of_its_own_that_is_no_month():
    assert len(set(MARK_WORDS)) == len(PartKind)
    months = {
        "jan",
        "feb",
        "mar",
        "apr",
        "may",
        "jun",
        "jul",
        "aug",
        "sep",
        "oct",
        "nov",
        "dec",
        "mai",
        "dez",
        "okt",
        "e",
    }
    assert not months & set(MARK_WORDS)


@pytest.mark.parametrize("mark", ["1", "101", "3-leg-left", "2b", "(12)", "٣"])
def test_a_figure_in_front_is_refused_with_what_would_be_right(mark):
    (said,) = _said(mark)
    assert said.startswith(
        f"{mark!r} begins with a figure, as the marks of parts do (1-leg-left); begin it with a letter"
    )
    assert not _said("R" + spoken(mark))


def test_marks_that_sound_alike_are_refused():
    assert _said("C1", "C2", "K1") == []
    assert _said("C1", "c1") == ["'c1' is already the mark of openings[1]; each needs its own"]
    assert _said("C1", "C-1") == ["'C-1' sounds like 'C1', the mark of openings[1]; said aloud each needs its own"]


def test_the_check_of_a_job_says_so(store_job, book):
    job = store_job
    first = job.openings[0].model_copy(update={"mark": "1"})
    faults = check_job(job.model_copy(update={"openings": (first, *job.openings[1:]), "runs": ()}), book)
    assert [fault.where for fault in faults if "begins with a figure" in fault.what] == ["openings[1].mark (1)"]
