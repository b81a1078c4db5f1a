"""What working has to say."""

SENTENCES = {
    "working.divided_by_zero": "it can't be divided by zero",
    "working.not_a_number": "{value} is not a number that can be built to",
    "working.nothing_to_choose": "there is nothing to take the {which} of",
    "working.step_not_positive": "a rounding step of {step_mm} mm is not positive",
}
