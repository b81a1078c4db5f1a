"""What survey has to say."""

SENTENCES = {
    "survey.readings_pull_so_far_apart": "the readings pull so far apart that no shape comes to rest",
    "survey.readings_dont_determine_shape": "the readings don't determine the shape",
    "survey.out_plumb_level_straight_above": (
        "out of plumb, level and straight are above 0 and below 100 mm a metre, ripples 0 or more"
    ),
    "survey.no_shape_these_readings": "no shape has these readings; check them",
    "survey.sides_lean_so_far_nothing": "the sides lean so far that nothing upright fits between them",
    "survey.floor_head_stand_so_far": "the floor and the head stand so far out of level that nothing fits",
    "survey.standard_error_above_below_mm": (
        "a standard error is above 0 and below 100 mm, its growth per metre 0 or more"
    ),
    "survey.no_height_read_so_outline": "no height was read, so the outline can't be found; read the height at left",
    "survey.no_width_read_so_outline": "no width was read, so the outline can't be found; read the width at foot",
    "survey.mm_contradicts_other_readings_beyond": (
        "{value_mm:g} mm contradicts the other readings beyond any error, even without the {rounds} that fit "
        "least; take all of them again"
    ),
    "survey.readings_pull_so_far_apart_2": (
        "the readings pull so far apart that no shape has them; check each for a slip"
    ),
    "survey.readings_give_outline_crosses_itself": (
        "the readings give an outline that crosses itself, and this one fits least; read it again"
    ),
    "survey.two_corners_shape_fall_together": "two corners of the shape fall together",
    "survey.length_spacing_above_distance": "length and spacing are above 0, the distance from the ends 0 or more",
    "survey.mm_cant": "{value} mm can't be; a front's size is above 0",
    "survey.two_heights_given_level_head": (
        "two heights were given for a level head; give one, or say that the head is raked"
    ),
    "survey.mm_not_on_front": "{at_:g} mm is not on the front; {where}, to {furthest:.0f} mm",
    "survey.no_chance": "{risk} is no chance; it is above 0 and below 1",
    "survey.text": "{error}; check each of them for a slip",
    "survey.no_corner_sides_mm_diagonal": "no corner has sides of {a:g} and {b:g} mm and a diagonal of {d:g} mm",
    "survey.diagonal_longer_than_height_beside": "a diagonal is longer than the height beside it; measure it again",
}
