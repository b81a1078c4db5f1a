"""What is wrong with what was written as a length, or as rows of a front."""

SENTENCES = {
    "length.above_largest_opening": "{value_mm:g} mm is more than the largest opening, {limit_mm:g} mm{hint}",
    "length.below_smallest_opening": "{value_mm:g} mm is less than the smallest opening, {limit_mm:g} mm{hint}",
    "length.list": "a list is not a length; write millimetres, as in 842 or 842.5",
    "length.missing": "a length is missing here; write millimetres, as in 842 or 842.5",
    "length.no_depth_of_hole": (
        "{depth_mm:g} mm is no depth of a hole (above 0, up to {most_mm:g} mm); write millimetres, or through for "
        "a hole right through the board"
    ),
    "length.no_number": "this is no number at all; write millimetres, as in 842 or 842.5",
    "length.no_row_of_front": (
        "the row {row!r:.40} can't be read; write drawer, flap, leaves or apron, each with its height in mm or "
        "with nothing for what is left, as in drawer 200, leaves"
    ),
    "length.not_a_length": "{text!r:.40} is not a length; write millimetres, as in 842 or 842.5",
    "length.or_through": "{said}, or through",
    "length.something_else": "this is not a length; write millimetres, as in 842 or 842.5",
    "length.too_long": "a length of more than 100 m is a slip; write millimetres, as in 842 or 842.5",
    "length.two_readings": (
        "{text!r} could be {one_mm:g} mm or {other_mm:g} mm; write it without a mark for the thousands"
    ),
    "length.yes_or_no": "yes or no is not a length; write millimetres, as in 842 or 842.5",
}
