"""What accuracy has to say."""

SENTENCES = {
    "accuracy.humidity_out_of_range": "{humidity_pct:percent} is not between 0 and 100%",
    "accuracy.humidity_outside_table": (
        "{humidity_pct:percent} is outside the table for boards, {least_pct:g} to {most_pct:percent}"
    ),
    "accuracy.moisture_beyond_air": (
        "{moisture_pct:percent} is not between 0 and {most_pct:percent.1}, the most air can bring"
    ),
    "accuracy.moisture_out_of_range": (
        "{moisture_pct:percent} is outside {least_pct:g} to {most_pct:percent}, where the coefficients hold"
    ),
    "accuracy.no_leaf_or_state": "at least one leaf and one state of the building are needed",
    "accuracy.no_such_board": "{name!r} is not in the table; it has {boards}",
    "accuracy.no_such_timber": "{name!r} is not in the table; it has {timbers}",
    "accuracy.not_above_nought": "the {what} has to be above nought, not {value:g}",
    "accuracy.temperature_out_of_range": "{temperature_c:g} °C is outside {least_c:g} to {most_c:g} °C",
}
