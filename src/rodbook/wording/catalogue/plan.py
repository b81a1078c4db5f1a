"""What a plan and its notes have to say."""

from rodbook.wording.rendering import Many

SENTENCES: dict[str, str | Many] = {
    # analyses
    "plan.job_not_costed": "its layouts and costs are not worked out",
    "plan.last_day_before_first": "the last day, {last}, is before the first, {first}; write the earlier one first",
    "plan.no_working_day": "from {first} to {last} the firm works on no day of these weeks; write other days",
    "plan.nobody_works": "the book names nobody who works, so no days can be planned; give names in its [dates]",
    "plan.not_costed_both": "there is nothing to be priced until layouts and costs of both are worked out",
    "plan.not_costed_to_compare": "there is nothing to hold it against until layouts and costs are worked out",
    "plan.not_costed_to_price": "there is nothing to be priced until layouts and costs are worked out",
    "plan.planned_for_two_days": "both have to be planned for one day, or prices that moved would count as the change",
    "plan.size_out_of_range": "{size_mm:g} mm makes no sense here; write 0 to 500",
    # model
    "plan.opening_aside": "it stands aside",
    "plan.unknown_opening": "there is no such opening; there are {marks}",
    # schedule
    "plan.all_done": "all of it is done, so there are no dates to plan",
    "plan.done_on_two_days": "it was done on {first} and on {other}; keep one of the two days",
    "plan.done_out_of_turn": (
        "it was done on {day}, before {before!r}, which comes first, on {other}; put one of the two days right"
    ),
    "plan.done_still_to_come": "{day} is still to come on {today}; give the day on which it was done, once it is",
    "plan.hand_lent": "{job}: some tasks are better done by two; with a crew of one somebody has to lend a hand.",
    "plan.job_all_done": "{job}: all of it is done.",
    "plan.late_days_out_of_range": "{days} working days won't do; from 0 to 60 are taken",
    "plan.no_jobs_for_dates": "there is no job to plan dates for; name at least one",
    "plan.no_parts_for_dates": "it has no parts yet, so there are no dates to plan",
    "plan.no_public_holidays": "No public holidays are kept, as no country is named.",
    "plan.no_such_task": "{job}: there is no task {name!r}, so what is said of it is left aside.",
    "plan.not_a_day_of_the_week": "{typed!r} is not a day of the week; write {days}, as in mon-fri or mon,tue,thu",
    "plan.not_hours_a_day": "{typed!r} is not a number of hours; write 8 or {example}",
    "plan.not_in_crew": "{name!r} is not in the crew; name somebody of {field}",
    "plan.not_working_days": "{typed!r} is not a number of working days; write 3",
    "plan.nothing_ordered_now": "{job}: nothing is ordered from {supplier!r} now, so what is said of it is left aside.",
    "plan.off_of_nobody": "{typed!r} names nobody; write it as Ada=2026-12-24..2027-01-06",
    "plan.openings_without_tasks": "{job}: {marks} are not worked out yet and have no tasks.",
    "plan.promised_not_come": (
        "{job}: {supplier} promised {promised}, and it has not come: it is taken to come on the next working day."
    ),
    "plan.suppliers_days_taken": (
        "Lead times count the days on which suppliers work. Of {suppliers} it is taken to be Monday to "
        "Friday{besides} (common practice), as the book says nothing else."
    ),
    "plan.taken_as_done": "{job}: taken as done, as what comes after is: {tasks}.",
    "plan.times_assumed": "{job}: house assumptions, as the book holds no time of the firm's own for: {names}.",
    "plan.trades_there": "; there are {trades:and}",
    "plan.unknown_trade": "there is no trade {typed!r}{hint}",
    "plan.wanted_day_past": "{job}: it was wanted by {due}, which is past.",
    "plan.without_holidays": " without the public holidays of {country}",
    # stages
    "plan.butt_between": "between {left} and {right}",
    "plan.cut_from_waste_otherwise": (
        "{number} of it were ticked off as cut from this job's waste, and {laid} find a place in the layouts as "
        "they are now: the job or the book has changed since."
    ),
    "plan.end_panel_within_run": "{mark} has an end panel on the {side}, where the run goes on",
    "plan.fewer_sizes_do": (
        "{asked}, but with {number} each has the largest lining that it can take, so there are {number}."
    ),
    "plan.head_bows_higher": (
        "The head is not straight: its middle is {by_mm:.1f} mm higher than a line between its ends."
    ),
    "plan.head_bows_lower": (
        "The head is not straight: its middle is {by_mm:.1f} mm lower than a line between its ends."
    ),
    "plan.head_raked": "The head is raked: what is still to be framed under one is not worked out yet.",
    "plan.heads_not_in_line": "their heads do not stand in one line ({heights_mm} mm from the floor to the trim)",
    "plan.height_of": "{mark} {height}",
    "plan.in_pieces": Many(
        "in one length",
        "in {pieces} pieces",
        by="pieces",
    ),
    "plan.leg_between": "{width_mm:g} mm between {left} and {right}",
    "plan.more_sizes_needed": "{asked}, but they need {number} at the least, so there are {number}.",
    "plan.no_depth_read": "No depth was read: nothing checks that the lining goes in.",
    "plan.no_size_to_pack": "no size in whole millimetres can be packed; widen the packer range",
    "plan.offcut_not_left": (
        "It was put into the shop as left by this job, and the layouts as they are now do not: the job or the "
        "book has changed since."
    ),
    "plan.offcut_not_used": (
        "It was used up by this job, and the layouts as they are now do not: the job or the book has changed since."
    ),
    "plan.overlap_between": "{over_mm:.1f} mm between {left} and {right}",
    "plan.part_cant_be_cut": "its {kind} can't be cut: {why}",
    "plan.part_unplaced": "{why}; choose a larger size of {stock} in the book",
    "plan.part_with_clash": "in the {kind} {clash}",
    "plan.plinth_butted": ", butted over the middle of the pier {joints}",
    "plan.plinth_not_running": "The plinth of {run} can't run on, and each opening keeps its own: {why}.",
    "plan.plinth_runs_on": (
        "The plinth of {run} runs on under {first} to {last}, {length_mm:.1f} mm {pieces}{joints}; what is framed"
        " between them stands back {deep_mm:g} mm at the foot."
    ),
    "plan.plinth_walls_in_the_way": "{marks} stand already, and the walls between are in a plinth's way",
    "plan.run_not_set_out": "{mark} is not set out",
    "plan.scarf_between": "between {left} and {right}, {at_mm:.1f} mm from its left end",
    "plan.sides_lean_too_far": "the sides lean so far that nothing upright fits between them",
    "plan.sizes_asked_for": Many(
        "{wanted} size was asked for the openings in {build_up!r}",
        "{wanted} sizes were asked for the openings in {build_up!r}",
        by="wanted",
    ),
    "plan.step_of_search_failed": (
        "A step of the search for its layouts failed by a fault of Rodbook's own ({steps}): the layouts hold and "
        "were checked, but cheaper ones may have been missed."
    ),
    "plan.trim_not_running": "The trim of {run} can't run on, and each opening keeps its own: {why}.{overlap}",
    "plan.trim_ripped": "; legs ripped to {legs}",
    "plan.trim_runs_on": (
        "The trim of {run} runs on over {first} to {last}, {length_mm:.1f} mm {pieces}{joints}{ripped}."
    ),
    "plan.trim_scarfed": "; scarfed over the middle of the pier {joints}",
    "plan.trim_short_at_left": (
        "The trim reaches only {cover_mm:.1f} mm past the packer at the left ({packer_mm:.1f} mm): one "
        "{width_mm:.0f} mm wide would cover it, or pack out the wall."
    ),
    "plan.trim_short_at_right": (
        "The trim reaches only {cover_mm:.1f} mm past the packer at the right ({packer_mm:.1f} mm): one "
        "{width_mm:.0f} mm wide would cover it, or pack out the wall."
    ),
    "plan.trim_short_over_head": (
        "The trim reaches only {cover_mm:.1f} mm past the packer over the head ({packer_mm:.1f} mm): one "
        "{width_mm:.0f} mm wide would cover it, or pack out the wall."
    ),
    "plan.trims_overlap": (
        " As they are drawn they would lie over each other by {places}: take a narrower trim, or rip it there."
    ),
}
