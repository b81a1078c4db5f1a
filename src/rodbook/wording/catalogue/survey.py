"""What survey has to say."""

SENTENCES = {
    "survey.building_out_of_range": (
        "out of plumb, level and straight are above 0 and below 100 mm a metre, ripples 0 or more"
    ),
    "survey.check_for_a_slip": "{why}; check each of them for a slip",
    "survey.corners_fall_together": "two corners of the shape fall together",
    "survey.diagonal_too_long": "a diagonal is longer than the height beside it; measure it again",
    "survey.fixings_out_of_range": "length and spacing are above 0, the distance from the ends 0 or more",
    "survey.floor_and_head_too_far_out": "the floor and the head stand so far out of level that nothing fits",
    "survey.front_without_size": "{size_mm} mm can't be; a front's size is above 0",
    "survey.head_fixing_off_front": (
        "{at_mm:g} mm is not on the front; the head is fixed from the left leg onwards, to {furthest_mm:.0f} mm"
    ),
    "survey.leg_fixing_off_front": (
        "{at_mm:g} mm is not on the front; legs are fixed from the front's foot upwards, to {furthest_mm:.0f} mm"
    ),
    "survey.no_height_read": "no height was read, so the outline can't be found; read the height at left",
    "survey.no_shape": "no shape has these readings; check them",
    "survey.no_shape_comes_to_rest": "the readings pull so far apart that no shape comes to rest",
    "survey.no_such_corner": (
        "no corner has sides of {side_mm:g} and {other_mm:g} mm and a diagonal of {diagonal_mm:g} mm"
    ),
    "survey.no_width_read": "no width was read, so the outline can't be found; read the width at foot",
    "survey.not_a_chance": "{risk} is no chance; it is above 0 and below 1",
    "survey.outline_crosses_itself": (
        "the readings give an outline that crosses itself, and this one fits least; read it again"
    ),
    "survey.reading_contradicts_others": (
        "{value_mm:g} mm contradicts the other readings beyond any error, even without the {rounds} that fit "
        "least; take all of them again"
    ),
    "survey.readings_contradict": "the readings pull so far apart that no shape has them; check each for a slip",
    "survey.shape_not_determined": "the readings don't determine the shape",
    "survey.sides_lean_too_far": "the sides lean so far that nothing upright fits between them",
    "survey.standard_error_out_of_range": (
        "a standard error is above 0 and below 100 mm, its growth per metre 0 or more"
    ),
    "survey.two_heights_of_level_head": (
        "two heights were given for a level head; give one, or say that the head is raked"
    ),
}
