"""Hinges: what a leaf weighs, how many it needs, at which heights, and the holes they want."""

from rodbook.hinges.borings import Boring, cup_borings, plate_borings
from rodbook.hinges.count import hinge_count
from rodbook.hinges.heights import hinge_heights
from rodbook.hinges.mass import MassRange, board_mass

__all__ = [
    "Boring",
    "MassRange",
    "board_mass",
    "cup_borings",
    "hinge_count",
    "hinge_heights",
    "plate_borings",
]
