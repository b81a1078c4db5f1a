"""What Rodbook says: sentences made from codes and parameters, last of all, per language.

`catalogue/` has the sentences, one module for each subject; `places` how a place is named; `rendering` puts parameters in.
Nothing else makes a sentence about a fault or a note, and nothing reads one.
"""

from rodbook.wording.places import place
from rodbook.wording.rendering import Many, entry, sentence

__all__ = ["Many", "entry", "place", "sentence"]
