"""What job has to say."""

SENTENCES = {
    "job.before_order": "{day} is before it was ordered, {ordered}; put one of the two right",
    "job.confidence_out_of_range": "{confidence:g} is out of range; write a share from 0.01 to 0.99",
    "job.day_out_of_range": "{day} is not a day of a job; from {first_year} to {last_year} is taken",
    "job.empty": "the job has neither openings nor panels; add one, or import a list of them",
    "job.margin_and_mark_up": "there is a margin too, which says the same another way; keep one of the two",
    "job.margin_too_high": "a margin of {margin:g} leaves nothing for the cost; write 0.2 for a fifth",
    "job.no_build_up_in_book": "there is no build-up {name!r} in the book{hint}",
    "job.no_kind_of_part": "there is no kind of part {kind!r}{hint}",
    "job.no_such_gap": "this build-up has no such gap; take it out",
    "job.opening_too_shallow": (
        "{depth_mm:g} mm is less than the lining's depth in {build_up!r}, {lining_mm:g} mm; measure again or "
        "choose a shallower build-up"
    ),
    "job.order_without_day": "no day is given for {supplier!r}; give the day of the order, or take it out",
    "job.task_waits_for_itself": "{name!r} can't wait for itself; name another task",
    "job.wanted_before_start": "{by} is before the start, {start}; choose a later day",
}
