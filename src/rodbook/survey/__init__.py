"""Readings to shape: the outline that fits them best, readings that were misread, and the largest front that fits."""

from typing import TYPE_CHECKING

from rodbook.late import late_face

if TYPE_CHECKING:
    from rodbook.survey.assuming import Assumption
    from rodbook.survey.building import BUILDINGS, OLD, Building
    from rodbook.survey.checking import OneMore, one_more_reading
    from rodbook.survey.front import UprightFront, upright_front
    from rodbook.survey.helping import Helps, most_helpful
    from rodbook.survey.instruments import INSTRUMENTS, Instrument
    from rodbook.survey.misread import Retake, Survey, Suspect, survey_opening
    from rodbook.survey.offered import rectangle_from_shape
    from rodbook.survey.packing import CutBack, FrontFit, Packer, fit_front, fixings
    from rodbook.survey.readings import Reading, bow, depth, diagonal, height, level, plumb, width
    from rodbook.survey.rectangle import Station, UprightRectangle, upright_rectangle
    from rodbook.survey.shape import AgreementTest, Depth, ReadingFit, Shape, Vertex, adjust_shape
    from rodbook.survey.slips import Slip
    from rodbook.survey.squareness import corner_angle, lean_from_diagonals
    from rodbook.survey.under_rake import raked_rectangle_from_shape

__all__ = [
    "BUILDINGS",
    "INSTRUMENTS",
    "OLD",
    "AgreementTest",
    "Assumption",
    "Building",
    "CutBack",
    "Depth",
    "FrontFit",
    "Helps",
    "Instrument",
    "OneMore",
    "Packer",
    "Reading",
    "ReadingFit",
    "Retake",
    "Shape",
    "Slip",
    "Station",
    "Survey",
    "Suspect",
    "UprightFront",
    "UprightRectangle",
    "Vertex",
    "adjust_shape",
    "bow",
    "corner_angle",
    "depth",
    "diagonal",
    "fit_front",
    "fixings",
    "height",
    "lean_from_diagonals",
    "level",
    "most_helpful",
    "one_more_reading",
    "plumb",
    "raked_rectangle_from_shape",
    "rectangle_from_shape",
    "survey_opening",
    "upright_front",
    "upright_rectangle",
    "width",
]

late_face(__name__)
