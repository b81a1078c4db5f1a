"""What hinges has to say."""

SENTENCES = {
    "hinges.angle_degrees_cant_wanted": (
        "an angle of {wanted_deg:g} degrees can't be wanted; it has to be above 0, up to 270"
    ),
    "hinges.angle_to_more_than_one": "its angle {row:g} has to be more than the one before, and 270 at most",
    "hinges.at_least_one_arm_boring": (
        "at least one arm, boring distance and plate, and an adjustment from less to more"
    ),
    "hinges.diameter_depth_to_above_nought": "diameter and depth have to be above nought",
    "hinges.dry_film_to_um_thick": "a dry film is 0 to {most_film_um:g} um thick, the thin end first",
    "hinges.each_sides_to_go": "each of its sides has to go from less to more",
    "hinges.flap_needs_height_above_nought": "a flap needs a height above nought and a mass of nought or more",
    "hinges.leaf_mm_high_no_room": (
        "a leaf {leaf_height} mm high has no room for {count} hinges {from_top} mm from its top and {from_bottom} "
        "mm from its bottom; move them nearer to the ends"
    ),
    "hinges.leaf_mm_high_up": (
        "a leaf {height_mm:.0f} mm high of up to {mass_kg:.1f} kg is beyond the book's hinge table, which ends at "
        "{tallest:g} mm and {heaviest:g} kg; divide the leaf, make it lighter or ask the hinge's supplier"
    ),
    "hinges.mass": "{mass_kg:.1f} kg",
    "hinges.mass_between": "{low_kg:.1f} to {high_kg:.1f} kg",
    "hinges.mass_to_nought_more_light": "its mass has to be nought or more, the light end first",
    "hinges.needs_two_rows_more_first": "it needs two rows or more, the first of them (0, 0, 0): the closed leaf",
    "hinges.outline_needs_three_corners_more": (
        "its outline needs three corners or more, an area, and must not cross itself"
    ),
    "hinges.profile_needs_three_corners_more": "a profile needs three corners or more",
    "hinges.sizes_densities_to_above_nought": "sizes and densities have to be above nought",
    "hinges.sizes_to_above_nought_tolerances": (
        "sizes have to be above nought, tolerances and the drill's point nought or more"
    ),
    "hinges.thickness_to_above_nought_less": "its thickness has to be above nought and less than the part",
    "hinges.to_above_nought_not_mm": "its {what} has to be above nought, not {value:g} mm",
    "hinges.to_above_nought_not_mm_2": "{what} has to be above nought, not {value:g} mm",
    "hinges.two_holes_name": "two holes have this name; give each its own",
    "hinges.x_mm_to_fit": "{width_mm:g} x {height_mm:g} mm has to fit on a leaf {width_mm_2:g} x {height_mm_2:g} mm",
}
