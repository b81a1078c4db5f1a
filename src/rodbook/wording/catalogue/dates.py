"""What dates has to say."""

SENTENCES = {
    "dates.firm_closed_on_every_day": "the firm is closed on every day that is looked at; leave some open",
    "dates.no_holidays_known": "no holidays are known for {country!r}; {right}",
    "dates.no_working_day_in_week": "there is no working day in the week; name at least one, such as mon-fri",
    "dates.hours_day_wont_do": "{hours:g} hours a day won't do; from 1 to {longest_hours:g} are taken",
    "dates.not_day_on_which_programme": (
        "{start} is not a day on which a programme can begin; from 1990 to 2090 is taken"
    ),
    "dates.hours_day_not_whole_quarters": "{hours:g} hours a day are not whole quarters of an hour; write 7.75 or 8",
    "dates.to_ends_before_begins": "{first} to {last} ends before it begins; write the earlier day first",
    "dates.hours_from_on_do_not": "{hours:g} hours from {begins:%H:%M} on do not end on the same day",
    "dates.plays_tell_nothing": "{draws} plays tell nothing; use a few thousand",
    "dates.nobody_to_do_work": "there is nobody to do the work; name at least one person",
    "dates.takes_hours": "it takes {hours:g} hours; a time is nought or more",
    "dates.begins_on_after_calendars_end": "it begins on {not_before}, after the calendar's end, {days}",
    "dates.done_on_takes_hours_yet": "it was done on {done}, and takes {hours:g} hours yet; it takes none",
    "dates.takes_people": "it takes {hands} people; nought or more is possible",
    "dates.spread_less_than_which": "its spread of {spread:g} is less than 1, which is no spread at all",
    "dates.takes_people_crew": "it takes {hands} people{trade}, and the crew has {able}; add to the crew",
    "dates.somebody_no_name": "somebody has no name; give everybody one",
    "dates.waits_which_not_among_tasks": "it waits for {after!r}, which is not among the tasks; name one that is",
    "dates.wait_after_less_than_nought": "its wait after {shown!r} is less than nought; a wait is nought or more",
    "dates.takes_hours_more_than_calendars": (
        "it takes {hours:g} hours, more than the {longest:g} of the calendar's {days} days; split it, or put more"
        " hands to it"
    ),
    "dates.times": "it is there {count} times; plan it once",
    "dates.to_end_on_before_begins": "it is to end on {due}, before it begins on {begins}; choose a later day",
    "dates.begins_on_after_calendars_end_2": "it begins on {earliest}, after the calendar's end, {days}",
    "dates.no_tasks": "it has no tasks; there is nothing to plan",
    "dates.tasks_name_but_not_among": "tasks name it, but it is not among the jobs",
    "dates.tasks_key": "{count} tasks have the key {key!r}; give each its own",
    "dates.circle_can_never_begin": "{told}: a circle that can never begin; take one wait out of it",
    "dates.times_2": "{name!r} is there {count} times; tell them apart by name",
    "dates.duration_nought_more": "a duration is nought or more",
    "dates.no_activity": "there is no activity {unknown}",
    "dates.not_in_order": "{least:g}, {likely:g}, {most:g} are not in order; least, likeliest, greatest",
    "dates.circle_can_never_begin_2": "{args}: a circle that can never begin",
    "dates.end_after_where_calendar_ends": (
        "{name} would end after {days}, where the calendar ends; add people, or plan fewer jobs at once"
    ),
}
