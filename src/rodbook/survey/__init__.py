"""Readings to shape: how far the sides lean, and the largest upright rectangle that an opening offers."""

from rodbook.survey.rectangle import Station, UprightRectangle, upright_rectangle
from rodbook.survey.squareness import corner_angle, lean_from_diagonals

__all__ = ["Station", "UprightRectangle", "corner_angle", "lean_from_diagonals", "upright_rectangle"]
