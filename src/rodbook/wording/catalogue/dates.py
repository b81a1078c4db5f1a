"""What dates has to say."""

SENTENCES = {
    "dates.begins_after_calendar": "it begins on {begins}, after the calendar's end, {calendar_ends}",
    "dates.circle_of_activities": "{names:before}: a circle that can never begin",
    "dates.circle_of_tasks": "{tasks!r:/waits}: a circle that can never begin; take one wait out of it",
    "dates.done_task_takes_hours": "it was done on {done}, and takes {hours:g} hours yet; it takes none",
    "dates.due_before_begin": "it is to end on {due}, before it begins on {begins}; choose a later day",
    "dates.duration_below_zero": "a duration is zero or more",
    "dates.durations_out_of_order": (
        "{least_hours:g}, {likely_hours:g}, {most_hours:g} are not in order; least, likeliest, greatest"
    ),
    "dates.ends_after_calendar": (
        "{task} would end after {calendar_ends}, where the calendar ends; add people, or plan fewer jobs at once"
    ),
    "dates.hands_below_zero": "it takes {people} people; zero or more is possible",
    "dates.holidays_of_parts": "no holidays are known for {country!r}; {code} has {parts}",
    "dates.holidays_without_part": (
        "no holidays are known for {country!r}; there is no part {part!r} of {code}; write {code}"
    ),
    "dates.hours_no_whole_quarters": "{hours:g} hours a day are not whole quarters of an hour; write 7.75 or 8",
    "dates.hours_out_of_range": "{hours:g} hours a day won't do; from 1 to {most_hours:g} are taken",
    "dates.hours_past_midnight": "{hours:g} hours from {begins:%H:%M} on do not end on the same day",
    "dates.job_of_tasks_missing": "tasks name it, but it is not among the jobs",
    "dates.job_twice": "it is there {count} times; plan it once",
    "dates.job_without_tasks": "it has no tasks; there is nothing to plan",
    "dates.key_twice": "{count} tasks have the key {key!r}; give each its own",
    "dates.more_hands_than_crew": "it takes {people} people{trade}, and the crew has {crew}; add to the crew",
    "dates.never_open": "the firm is closed on every day that is looked at; leave some open",
    "dates.no_such_activity": "there is no activity {names}",
    "dates.no_such_country": (
        "no holidays are known for {country!r}; write an ISO 3166 code such as AT, GB-ENG or US-VT"
    ),
    "dates.no_working_day": "there is no working day in the week; name at least one, such as mon-fri",
    "dates.nobody_works": "there is nobody to do the work; name at least one person",
    "dates.person_twice": "{name!r} is there {count} times; tell them apart by name",
    "dates.person_without_name": "somebody has no name; give everybody one",
    "dates.spread_below_one": "its spread of {spread:g} is less than 1, which is no spread at all",
    "dates.start_out_of_range": "{start} is not a day on which a programme can begin; from 1990 to 2090 is taken",
    "dates.task_below_zero": "it takes {hours:g} hours; a time is zero or more",
    "dates.task_longer_than_calendar": (
        "it takes {hours:g} hours, more than the {calendar_hours:g} of the calendar's {days} days; split it, or "
        "put more hands to it"
    ),
    "dates.too_few_plays": "{draws} plays tell nothing; use a few thousand",
    "dates.wait_below_zero": "its wait after {after!r} is less than zero; a wait is zero or more",
    "dates.waits_for_no_task": "it waits for {after!r}, which is not among the tasks; name one that is",
    "dates.who_do": " who do {trade}",
}
