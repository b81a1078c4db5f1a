"""Which openings are shown as one front."""

from types import SimpleNamespace

from rodbook.job.files import parse_book, parse_job, sample_book_text, sample_text
from rodbook.papers.parts_schedule.content import fronts_of
from rodbook.plan import plan_parts


def test_openings_with_another_floor_finish_are_another_front():
    """A leaf over a finish of 15 mm is 15 mm lower, though its lining is of the same size."""
    book = parse_book(sample_book_text())
    job = parse_job(sample_text("converted-store"), book)
    openings = tuple(o.model_copy(update={"floor_finish": 15.0}) if o.mark == "C1" else o for o in job.openings)
    plan = plan_parts(job.model_copy(update={"openings": openings}), book)
    fronts = fronts_of(SimpleNamespace(openings=plan.openings))
    for front in fronts:
        assert len({entry.set_out.leaf_height.value for entry in front.entries if entry.set_out}) == 1
    (mine,) = [front for front in fronts if "C1" in [entry.opening.mark for entry in front.entries]]
    assert [entry.opening.mark for entry in mine.entries] == ["C1"]
