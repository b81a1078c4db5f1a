"""What hinges has to say."""

SENTENCES = {
    "hinges.angle_not_growing": "its angle {angle_deg:g} has to be more than the one before, and 270 at most",
    "hinges.angle_out_of_range": "an angle of {wanted_deg:g} degrees can't be wanted; it has to be above 0, up to 270",
    "hinges.bore_less_deep": "bore it {by_mm:.1f} mm less deep",
    "hinges.cup_out_of_range": "sizes have to be above zero, tolerances and the drill's point zero or more",
    "hinges.film_out_of_range": "a dry film is 0 to {most_film_um:g} um thick, the thin end first",
    "hinges.flap_out_of_range": "a flap needs a height above zero and a mass of zero or more",
    "hinges.hole_without_size": "diameter and depth have to be above zero",
    "hinges.leaf_beyond_table": (
        "a leaf {height_mm:.0f} mm high of up to {mass_kg:.1f} kg is beyond the book's hinge table, which ends at "
        "{tallest_mm:g} mm and {heaviest_kg:g} kg; divide the leaf, make it lighter or ask the hinge's supplier"
    ),
    "hinges.lipping_out_of_range": "its thickness has to be above zero and less than the part",
    "hinges.mass": "{mass_kg:.1f} kg",
    "hinges.mass_between": "{low_kg:.1f} to {high_kg:.1f} kg",
    "hinges.mass_out_of_order": "its mass has to be zero or more, the light end first",
    "hinges.move_in": "move it in by {by_mm:.1f} mm",
    "hinges.move_one": "move one by {by_mm:.1f} mm",
    "hinges.move_one_or_bore_less": "move one by {by_mm:.1f} mm, or bore less deep",
    "hinges.no_room_for_hinges": (
        "a leaf {height_mm} mm high has no room for {count} hinges {top_mm} mm from its top and {bottom_mm} mm "
        "from its bottom; move them nearer to the ends"
    ),
    "hinges.not_above_zero": "its {what} has to be above zero, not {value_mm:g} mm",
    "hinges.outline_without_area": "its outline needs three corners or more, an area, and must not cross itself",
    "hinges.pane_larger_than_leaf": (
        "{width_mm:g} x {height_mm:g} mm has to fit on a leaf {leaf_width_mm:g} x {leaf_height_mm:g} mm"
    ),
    "hinges.path_too_short": "it needs two rows or more, the first of them (0, 0, 0): the closed leaf",
    "hinges.plates_incomplete": "at least one arm, boring distance and plate, and an adjustment from less to more",
    "hinges.profile_without_area": "a profile needs three corners or more",
    "hinges.pull_not_above_zero": "{what} has to be above zero, not {value_mm:g} mm",
    "hinges.runs_into": "{first} runs into {second}; there have to be {least_mm:g} mm: {remedy}",
    "hinges.sides_out_of_order": "each of its sides has to go from less to more",
    "hinges.size_not_above_zero": "sizes and densities have to be above zero",
    "hinges.too_near": "{first} leaves {distance_mm:.1f} mm to {second}; there have to be {least_mm:g} mm: {remedy}",
    "hinges.two_holes_of_one_name": "two holes have this name; give each its own",
}
