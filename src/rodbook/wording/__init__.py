"""What Rodbook says: sentences made from codes and parameters, last of all, per language.

`catalogue/` has the sentences, one module for each subject; `places` how a place is named; `rendering` puts parameters in;
`figures` and `texts` write a figure, and what somebody typed.
Nothing else makes a sentence about a fault or a note, and nothing reads one.
"""

from rodbook.wording.data import said_as_data
from rodbook.wording.figures import number, percent
from rodbook.wording.places import place
from rodbook.wording.rendering import Many, entry, sentence
from rodbook.wording.texts import one_line

__all__ = ["Many", "entry", "marked", "number", "one_line", "percent", "place", "said_as_data", "sentence"]


def marked(text: str) -> str:
    """A name or line that is translated where it is shown, so that it is collected; itself, in English."""
    return text
