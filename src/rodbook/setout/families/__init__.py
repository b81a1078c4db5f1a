"""The families of build-ups that come with Rodbook: a folder and a line here for each.

Whoever asks for a build-up's family asks here, and not in `family` where they are kept, so that they are registered.
"""

from rodbook.setout.families.inset import INSET
from rodbook.setout.families.lay_on import LAY_ON
from rodbook.setout.families.lay_on_plain import LAY_ON_PLAIN
from rodbook.setout.family import family_named, family_of, register

__all__ = ["FAMILIES", "family_named", "family_of"]

FAMILIES = (INSET, LAY_ON, LAY_ON_PLAIN)
"""In the order in which they are offered."""

for _family in FAMILIES:
    register(_family)
