"""Does a leaf clear what stands around it, how far does it open, and which leaf of a pair goes first?

Plan: x to the right along the front, y towards the room, heights above the floor.
"""

from typing import TYPE_CHECKING

from rodbook.late import late_face

if TYPE_CHECKING:
    from rodbook.hinges.swing.contact import Contact, Swing, swing
    from rodbook.hinges.swing.gaps import LeastGap, fixed_pivot_gap, least_gap
    from rodbook.hinges.swing.leaf import Handle, Leaf
    from rodbook.hinges.swing.obstacles import Obstacle, SlopingPlane, block, high_spot, inset_frame, lay_on_frame
    from rodbook.hinges.swing.pairs import OpeningOrder, opening_order
    from rodbook.hinges.swing.paths import FixedPivot, Path, PathTable, cup_hinge_path
    from rodbook.hinges.swing.picture import Arc, SwingPicture, swing_picture
    from rodbook.hinges.swing.together import Together, together

__all__ = [
    "Arc",
    "Contact",
    "FixedPivot",
    "Handle",
    "Leaf",
    "LeastGap",
    "Obstacle",
    "OpeningOrder",
    "Path",
    "PathTable",
    "SlopingPlane",
    "Swing",
    "SwingPicture",
    "Together",
    "block",
    "cup_hinge_path",
    "fixed_pivot_gap",
    "high_spot",
    "inset_frame",
    "lay_on_frame",
    "least_gap",
    "opening_order",
    "swing",
    "swing_picture",
    "together",
]

late_face(__name__)
