"""Who does what when: tasks, people and calendar become a schedule with its proof, and dates with how sure they are."""

from rodbook.dates.calendars import LONGEST_DAYS, WorkCalendar, make_calendar, public_holidays
from rodbook.dates.chances import Chance, Likely
from rodbook.dates.checker import breaches
from rodbook.dates.checks import check_programme, crew_faults
from rodbook.dates.model import Absence, Done, Finish, Person, Placed, Schedule, Stage, Task, Wait, Work, quarters_of
from rodbook.dates.network import Activity, ThreePoint, chance_by, critical_path, path_chance, paths_chance, three_point
from rodbook.dates.passes import OrderBy, Slip
from rodbook.dates.programme import Programme, make_programme, make_schedule

__all__ = [
    "LONGEST_DAYS",
    "Absence",
    "Activity",
    "Chance",
    "Done",
    "Finish",
    "Likely",
    "OrderBy",
    "Person",
    "Placed",
    "Programme",
    "Schedule",
    "Slip",
    "Stage",
    "Task",
    "ThreePoint",
    "Wait",
    "Work",
    "WorkCalendar",
    "breaches",
    "chance_by",
    "check_programme",
    "crew_faults",
    "critical_path",
    "make_calendar",
    "make_programme",
    "make_schedule",
    "path_chance",
    "paths_chance",
    "public_holidays",
    "quarters_of",
    "three_point",
]
