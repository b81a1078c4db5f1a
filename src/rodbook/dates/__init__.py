"""Who does what when: tasks, people and calendar become a schedule with its proof, and dates with how sure they are."""

from typing import TYPE_CHECKING

from rodbook.late import late_face

if TYPE_CHECKING:
    from rodbook.dates.calendars import LONGEST_DAYS, WorkCalendar, make_calendar, open_days, public_holidays
    from rodbook.dates.chances import NINE_IN_TEN, Chance, Likely
    from rodbook.dates.checker import breaches
    from rodbook.dates.checks import check_programme, crew_faults
    from rodbook.dates.model import (
        Absence,
        Done,
        Finish,
        OpenDays,
        Person,
        Placed,
        Schedule,
        Stage,
        Task,
        Wait,
        Work,
        quarters_of,
    )
    from rodbook.dates.network import (
        Activity,
        ThreePoint,
        chance_by,
        critical_path,
        path_chance,
        paths_chance,
        three_point,
    )
    from rodbook.dates.ordering import OrderBy
    from rodbook.dates.passes import Slip
    from rodbook.dates.programme import Programme, make_programme, make_schedule
    from rodbook.dates.saying import headline, hundred, order_said, planned_said, slip_said, wanted_said

__all__ = [
    "LONGEST_DAYS",
    "NINE_IN_TEN",
    "Absence",
    "Activity",
    "Chance",
    "Done",
    "Finish",
    "Likely",
    "OpenDays",
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
    "headline",
    "hundred",
    "make_calendar",
    "make_programme",
    "make_schedule",
    "open_days",
    "order_said",
    "path_chance",
    "paths_chance",
    "planned_said",
    "public_holidays",
    "quarters_of",
    "slip_said",
    "three_point",
    "wanted_said",
]

late_face(__name__)
