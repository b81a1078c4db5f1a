"""Readings to shape: the outline that fits them best, readings that were misread, and the largest front that fits."""

from rodbook.survey.rectangle import Station, UprightRectangle, upright_rectangle
from rodbook.survey.squareness import corner_angle, lean_from_diagonals
from rodbook.survey.readings import Reading, bow, depth, diagonal, height, level, plumb, width
from rodbook.survey.shape import adjust_shape

__all__ = ["Station", "UprightRectangle", "corner_angle", "lean_from_diagonals", "upright_rectangle"]
