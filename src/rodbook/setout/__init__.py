"""A size and a build-up become parts, edges and borings; one folder for each family of build-ups."""

from typing import TYPE_CHECKING

from rodbook.late import late_face

if TYPE_CHECKING:
    from rodbook.job.kinds import PartKind
    from rodbook.setout.asked import Frame, Stock
    from rodbook.setout.assembly import Assembly, Body, Prism
    from rodbook.setout.cuts import Cut, Side, cut_brief, cut_words, mitre, mitre_unequal, past_the_corner
    from rodbook.setout.dimensions import Dimension, DimensionName
    from rodbook.setout.families import FAMILIES, family_named, family_of
    from rodbook.setout.family import Family, Span, Surround
    from rodbook.setout.figures import given
    from rodbook.setout.hangings import LeafHanging, hangings
    from rodbook.setout.model import (
        EdgeWork,
        Element,
        Joint,
        LeafSize,
        Notch,
        Part,
        Placed,
        RowSize,
        SeenGap,
        SetOut,
    )
    from rodbook.setout.panels import panel_part
    from rodbook.setout.raked.line import RakedFrame, SlopingLine
    from rodbook.setout.runs.common import Bay, LongRun, between_sights
    from rodbook.setout.runs.plinths import PlinthRun, plinth_runs_on, with_plinth_run
    from rodbook.setout.runs.trims import TrimRun, run_on, with_run
    from rodbook.setout.schedule import ScheduleLine, marks_in, schedule
    from rodbook.setout.set_out import outer_size_wanted, set_out
    from rodbook.setout.trims import trim_cover, trim_wanted
    from rodbook.setout.widths import Wanted

__all__ = [
    "FAMILIES",
    "Assembly",
    "Bay",
    "Body",
    "Cut",
    "Dimension",
    "DimensionName",
    "EdgeWork",
    "Element",
    "Family",
    "Frame",
    "Joint",
    "LeafHanging",
    "LeafSize",
    "LongRun",
    "Notch",
    "Part",
    "PartKind",
    "Placed",
    "PlinthRun",
    "Prism",
    "RakedFrame",
    "RowSize",
    "ScheduleLine",
    "SeenGap",
    "SetOut",
    "Side",
    "SlopingLine",
    "Span",
    "Stock",
    "Surround",
    "TrimRun",
    "Wanted",
    "between_sights",
    "cut_brief",
    "cut_words",
    "family_named",
    "family_of",
    "given",
    "hangings",
    "marks_in",
    "mitre",
    "mitre_unequal",
    "outer_size_wanted",
    "panel_part",
    "past_the_corner",
    "plinth_runs_on",
    "run_on",
    "schedule",
    "set_out",
    "trim_cover",
    "trim_wanted",
    "with_plinth_run",
    "with_run",
]

late_face(__name__)
