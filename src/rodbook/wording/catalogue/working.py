"""What working has to say."""

SENTENCES = {
    "working.rounding_step_mm_not_positive": "a rounding step of {step} mm is not positive",
    "working.nothing_to_take": "there is nothing to take the {word} of",
    "working.not_number_can_built": "{value} is not a number that can be built to",
    "working.cant_divided_by_nought": "it can't be divided by nought",
}
