"""What is wrong with an opening of a job."""

SENTENCES = {
    "opening.aprons_alone": "aprons alone close nothing that opens; add leaves, a drawer or a flap",
    "opening.diagonal_to_left": (
        "{value_mm:g} mm from foot right to head left does not go with the widths and heights; about {fair_mm:.0f}"
        " would be right"
    ),
    "opening.diagonal_to_right": (
        "{value_mm:g} mm from foot left to head right does not go with the widths and heights; about {fair_mm:.0f}"
        " would be right"
    ),
    "opening.end_panel_of_standing": (
        "an end panel closes a side where nothing stands yet; mark the opening planned, with the clear size wanted"
    ),
    "opening.floor_finish_of_planned": (
        "a planned opening has the floor still to come in its build-up; leave floor_finish out"
    ),
    "opening.heights_differ": (
        "{values_mm:g} differ by {by_mm:g} mm, more than {most_mm:g}; read {odd_mm:g} again, or mark the head "
        "raked{hint}"
    ),
    "opening.leaf_of_divided": (
        "a wanted leaf is one of a front that is not divided; give the clear size that is wanted instead"
    ),
    "opening.leaf_of_unequal": "a wanted leaf is one of equal leaves; give the clear size that is wanted instead",
    "opening.leaf_too_narrow": (
        "{width_mm:g} mm is less than the least leaf, {least_mm:g} mm; write 0 for what is left over"
    ),
    "opening.leaves_in_two_rows": "there are leaves in more than one row; leave one of them, or make two openings",
    "opening.no_such_reading": "there is no reading {name!r:.60}{hint}",
    "opening.reading_out_of_range": (
        "{value_mm:g} mm can't be this {kind}; it is more than {least_mm:g} and at most {most_mm:g} mm"
    ),
    "opening.readings_differ": (
        "{values_mm:g} differ by {by_mm:g} mm, more than {most_mm:g}; read {odd_mm:g} again{hint}"
    ),
    "opening.readings_of_planned": "a planned opening has no readings yet; leave them out or mark it standing",
    "opening.row_height_and_share": "a row {height_mm:g} mm high takes no share of what is left; keep one of the two",
    "opening.row_too_low": (
        "{height_mm:g} mm is less than the least row, {least_mm:g} mm; write 0 for what is left over"
    ),
    "opening.rows_under_raked_head": "under a raked head a front is not divided in rows; leave them out",
    "opening.size_wanted_of_standing": "a wanted size belongs to a planned opening; this one is standing",
    "opening.size_wanted_once": (
        "a planned opening needs the wanted size once: either leaf or clear, as [width, height]"
    ),
    "opening.three_readings_missing": "an opening that stands needs three {field}; measure them or mark it planned",
    "opening.too_far_bowed": "{value_mm:g} mm is more than {most_mm:g} mm, and nothing is bowed so far; read it again",
    "opening.too_far_out_of_level": (
        "{value_mm:g} mm is more than {most_mm:g} mm, and no {part} is out of level so far; read it again"
    ),
    "opening.too_far_out_of_plumb": (
        "{value_mm:g} mm is more than {most_mm:g} mm, and no side leans so far; read it again"
    ),
    "opening.widths_and_shares": "widths are asked for in millimetres and in shares; keep one of the two",
    "opening.widths_for_leaves": "{widths} widths for {leaves} leaves; give one for each",
}
