"""A size and a build-up become parts, edges and borings; one file for each family of build-ups."""

from rodbook.setout.families import Frame, Stock, outer_size_wanted, set_out
from rodbook.setout.figures import given
from rodbook.setout.model import Element, Part, PartKind, Placed, SetOut
from rodbook.setout.panels import panel_part
from rodbook.setout.schedule import ScheduleLine, schedule
from rodbook.setout.trims import trim_cover

__all__ = [
    "Element",
    "Frame",
    "Part",
    "PartKind",
    "Placed",
    "ScheduleLine",
    "SetOut",
    "Stock",
    "given",
    "outer_size_wanted",
    "panel_part",
    "schedule",
    "set_out",
    "trim_cover",
]
