"""What accuracy has to say."""

SENTENCES = {
    "accuracy.outside_to_where_coefficients_hold": (
        "{m} is outside {least_moisture:g} to {most_moisture}, where the coefficients hold"
    ),
    "accuracy.at_least_one_leaf_one": "at least one leaf and one state of the building are needed",
    "accuracy.not_in_table": "{name!r} is not in the table; it has {timbers}",
    "accuracy.not_in_table_2": "{name!r} is not in the table; it has {boards}",
    "accuracy.not_between_most_air_can": "{moisture_pct} is not between 0 and {most}, the most air can bring",
    "accuracy.outside_table_boards": "{humidity_pct} is outside the table for boards, {first:g} to {last}",
    "accuracy.not_between": "{humidity_pct} is not between 0 and 100%",
    "accuracy.c_outside_to_c": "{temperature_c:g} °C is outside {least_c:g} to {most_c:g} °C",
    "accuracy.to_above_nought_not": "the {what} has to be above nought, not {value:g}",
}
