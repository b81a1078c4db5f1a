"""What accuracy has to say."""

SENTENCES = {
    "accuracy.humidity_out_of_range": "{humidity_pct:percent} is not between 0 and 100%",
    "accuracy.humidity_outside_table": (
        "{humidity_pct:percent} is outside the table for boards, {least_pct:g} to {most_pct:percent}"
    ),
    "accuracy.margin_may_close": (
        "The margin of {margin_mm:g} mm may close in the {state} state: leaves may swell by {swell_mm:.1f} mm; it "
        "wants {wanted_mm:.1f} mm, or parts that are made damper."
    ),
    "accuracy.margin_may_fall": "The margin of {margin_mm:g} mm may fall to {least_mm:.1f} mm in the {state} state.",
    "accuracy.moisture_beyond_air": (
        "{moisture_pct:percent} is not between 0 and {most_pct:percent.1}, the most air can bring"
    ),
    "accuracy.moisture_out_of_range": (
        "{moisture_pct:percent} is outside {least_pct:g} to {most_pct:percent}, where the coefficients hold"
    ),
    "accuracy.movement_is_a_guess": (
        "{piece}: {moisture_pct:percent.1} moisture in the {state} state is outside {least_pct:g} to "
        "{most_pct:percent}, where the coefficients hold; the movement there is a guess."
    ),
    "accuracy.no_leaf_or_state": "at least one leaf and one state of the building are needed",
    "accuracy.no_such_board": "{name!r} is not in the table; it has {boards}",
    "accuracy.no_such_timber": "{name!r} is not in the table; it has {timbers}",
    "accuracy.not_above_zero": "the {what} has to be above zero, not {value:g}",
    "accuracy.temperature_out_of_range": "{temperature_c:g} °C is outside {least_c:g} to {most_c:g} °C",
}
