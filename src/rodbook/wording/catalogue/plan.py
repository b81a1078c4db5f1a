"""What plan has to say."""

SENTENCES = {
    "plan.nothing_to_hold_against_until": "there is nothing to hold it against until layouts and costs are worked out",
    "plan.mm_makes_no_sense_here": "{value:g} mm makes no sense here; write 0 to 500",
    "plan.layouts_costs_not_worked_out": "its layouts and costs are not worked out",
    "plan.last_day_before_first": (
        "the last day, {to_day}, is before the first, {from_day}; write the earlier one first"
    ),
    "plan.from_to_firm_works": "from {from_day} to {to_day} the firm works on no day of these weeks; write other days",
    "plan.nothing_to_priced_until_layouts": (
        "there is nothing to be priced until layouts and costs of both are worked out"
    ),
    "plan.both_to_planned_one_day": (
        "both have to be planned for one day, or prices that moved would count as the change"
    ),
    "plan.book_names_nobody_who_works": (
        "the book names nobody who works, so no days can be planned; give names in its [dates]"
    ),
    "plan.nothing_to_priced_until_layouts_2": "there is nothing to be priced until layouts and costs are worked out",
    "plan.all_done_so_no_dates": "all of it is done, so there are no dates to plan",
    "plan.no_job_to_plan_dates": "there is no job to plan dates for; name at least one",
    "plan.working_days_wont_do": "{late_days} working days won't do; from 0 to 60 are taken",
    "plan.still_to_come": "{day} is still to come on {now}; give the day on which it was done, once it is",
    "plan.done": "it was done on {said} and on {day}; keep one of the two days",
    "plan.no_parts_yet": "it has no parts yet, so there are no dates to plan",
    "plan.text": "{clash}",
    "plan.ticked_off_as_cut": (
        "{number} of it were ticked off as cut from this job's waste, and {laid} find a place in the layouts as "
        "they are now: the job or the book has changed since."
    ),
    "plan.step_search_layouts_failed": (
        "A step of the search for its layouts failed by a fault of Rodbook's own ({broken_off}): the layouts hold"
        " and were checked, but cheaper ones may have been missed."
    ),
    "plan.cant_cut": "its {kind} can't be cut: {why}",
    "plan.one_mm_wide_cover_pack": "{said}: one {wide:.0f} mm wide would cover it, or pack out the wall.",
    "plan.no_depth_read_nothing_checks": "No depth was read: nothing checks that the lining goes in.",
    "plan.head_raked_what_still": "The head is raked: what is still to be framed under one is not worked out yet.",
    "plan.sides_lean_so_far_nothing": "the sides lean so far that nothing upright fits between them",
    "plan.their_heads_do_not_stand": "their heads do not stand in one line ({listed} mm from the floor to the trim)",
    "plan.stand_already_walls_between": "{stands} stand already, and the walls between are in a plinth's way",
    "plan.not_set_out": "{mark} is not set out",
    "plan.end_panel_on_where_run": "{mark} has an end panel on the {side}, where the run goes on",
}
