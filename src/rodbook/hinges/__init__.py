"""Hinges: what a leaf weighs, how many it needs, at which heights, what they carry, their holes, and how the leaf swings.

The swing of leaves is a package of its own below this one, `rodbook.hinges.swing`.
"""

from typing import TYPE_CHECKING

from rodbook.late import late_face

if TYPE_CHECKING:
    from rodbook.hinges.borings import Boring, cup_borings, head_cup_borings, plate_borings
    from rodbook.hinges.clashes import Clash, CutOut, EdgeHole, FaceHole, Least, Lipping, PartSize, clashes
    from rodbook.hinges.count import COMMON_COUNTS, CountRow, HingeNumber, hinge_count, hinge_number
    from rodbook.hinges.flaps import LIFT_CAUTION_N, TWO_HANG_KG, flap_lift, flap_moment
    from rodbook.hinges.heights import hinge_heights
    from rodbook.hinges.mass import Film, Fitting, LeafMass, MassRange, Pane, board_mass, leaf_mass
    from rodbook.hinges.plates import COMMON_ARMS, Arm, PlateFit, arm_for, lap_reached, plate_fits, plate_line
    from rodbook.hinges.pull import HingeLoad, hinge_load, top_hinge_pull
    from rodbook.hinges.skin import Skin, Spread, at_least_one, deepest_boring, skin_under

__all__ = [
    "COMMON_ARMS",
    "COMMON_COUNTS",
    "LIFT_CAUTION_N",
    "TWO_HANG_KG",
    "Arm",
    "Boring",
    "Clash",
    "CountRow",
    "CutOut",
    "EdgeHole",
    "FaceHole",
    "Film",
    "Fitting",
    "HingeLoad",
    "HingeNumber",
    "LeafMass",
    "Least",
    "Lipping",
    "MassRange",
    "Pane",
    "PartSize",
    "PlateFit",
    "Skin",
    "Spread",
    "arm_for",
    "at_least_one",
    "board_mass",
    "clashes",
    "cup_borings",
    "deepest_boring",
    "flap_lift",
    "flap_moment",
    "head_cup_borings",
    "hinge_count",
    "hinge_heights",
    "hinge_load",
    "hinge_number",
    "lap_reached",
    "leaf_mass",
    "plate_borings",
    "plate_fits",
    "plate_line",
    "skin_under",
    "top_hinge_pull",
]

late_face(__name__)
