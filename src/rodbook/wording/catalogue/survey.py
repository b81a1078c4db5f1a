"""What survey has to say."""

SENTENCES = {
    "survey.building_out_of_range": (
        "out of plumb, level and straight are above 0 and below 100 mm a metre, ripples 0 or more"
    ),
    "survey.centimetres_for_inches": "Is it that centimetres were read for inches, and it was {was_mm:mm} mm?",
    "survey.check_for_a_slip": "{why}; check each of them for a slip",
    "survey.compares_with_itself": "it compares a place with itself; give two places",
    "survey.corners_fall_together": "two corners of the shape fall together",
    "survey.cut_floor_back": (
        "Cut the floor back from {from_mm:.0f} to {to_mm:.0f} mm from its left leg, most at {most_at_mm:.0f} mm: "
        "{most_mm:.1f} mm."
    ),
    "survey.cut_head_back": (
        "Cut the head back from {from_mm:.0f} to {to_mm:.0f} mm from its left leg, most at {most_at_mm:.0f} mm: "
        "{most_mm:.1f} mm."
    ),
    "survey.cut_side_back": (
        "Cut the {side} side back from {from_mm:.0f} to {to_mm:.0f} mm from the front's foot, most at "
        "{most_at_mm:.0f} mm: {most_mm:.1f} mm."
    ),
    "survey.diagonal_too_long": "a diagonal is longer than the height beside it; measure it again",
    "survey.digits_exchanged": "Were two digits exchanged, and it was {was_mm:mm} mm?",
    "survey.exchanged_with": "Was it exchanged with the {other}, {other_mm:mm} mm?",
    "survey.fixings_out_of_range": "length and spacing are above 0, the distance from the ends 0 or more",
    "survey.floor_and_head_too_far_out": "the floor and the head stand so far out of level that nothing fits",
    "survey.for_the_reading": " For the {name}: {said}",
    "survey.front_without_size": "{size_mm} mm can't be; a front's size is above 0",
    "survey.head_fixing_off_front": (
        "{at_mm:g} mm is not on the front; the head is fixed from the left leg onwards, to {furthest_mm:.0f} mm"
    ),
    "survey.inches_for_centimetres": "Is it that inches were read for centimetres, and it was {was_mm:mm} mm?",
    "survey.leg_fixing_off_front": (
        "{at_mm:g} mm is not on the front; legs are fixed from the front's foot upwards, to {furthest_mm:.0f} mm"
    ),
    "survey.near": "{near_mm:.0f} mm, give or take {give_or_take_mm:.0f} mm",
    "survey.no_height_read": "no height was read, so the outline can't be found; read the height at left",
    "survey.no_shape": "no shape has these readings; check them",
    "survey.no_shape_comes_to_rest": "the readings pull so far apart that no shape comes to rest",
    "survey.no_standard_error": "a standard error of {error_mm:g} mm can't be; it is above 0",
    "survey.no_such_corner": (
        "no corner has sides of {side_mm:g} and {other_mm:g} mm and a diagonal of {diagonal_mm:g} mm"
    ),
    "survey.no_such_instrument": "{name!r} is no instrument in the table, which has {instruments}",
    "survey.no_such_part": "{part!r} has none; it is one of {parts}",
    "survey.no_such_place": (
        "{place!r} is no place to read at; give {names} or {last}, or millimetres from the left foot"
    ),
    "survey.no_such_place_mm": (
        "{place_mm:g} mm is no place to read at; give {names} or {last}, or millimetres from the left foot"
    ),
    "survey.no_width_read": "no width was read, so the outline can't be found; read the width at foot",
    "survey.not_a_chance": "{risk} is no chance; it is above 0 and below 1",
    "survey.not_a_length": "{value} is not a length; write it in millimetres",
    "survey.one_of_these": "{name} ({value_mm:tenths} mm, near {near} if it is this one)",
    "survey.one_wrong": (
        "One of these readings is wrong, and the others can't tell which. Take them again: "
        "{readings:semi}.{best}{asked:none}"
    ),
    "survey.other_written_here": "Was the {other} written here, which should be near {near_mm:.0f} mm?",
    "survey.out_by_too_much": "{value_mm:g} mm is more than {most_mm:g} mm, which no {part} is out by",
    "survey.out_the_other_way": "Is it out the other way, {was_mm:mm} mm?",
    "survey.outline_crosses_itself": (
        "the readings give an outline that crosses itself, and this one fits least; read it again"
    ),
    "survey.raked_reading_missing": (
        "the head is raked and the outline can't be found from these readings; read the {name} as well"
    ),
    "survey.read_out_by": "Was it read {by_mm} mm out, and was {was_mm:mm} mm?",
    "survey.reading_contradicts_others": (
        "{value_mm:g} mm contradicts the other readings beyond any error, even without the {rounds} that fit "
        "least; take all of them again"
    ),
    "survey.reading_missing": "the outline can't be found from these readings; read the {name} as well",
    "survey.readings_contradict": "the readings pull so far apart that no shape has them; check each for a slip",
    "survey.readings_missing": (
        "the outline can't be found from these readings; read three widths, three heights and both diagonals"
    ),
    "survey.several_wrong": (
        "More than one reading may be wrong, and the others can't tell which: {ways:semi_or}. Take them again: "
        "{readings:semi}.{best}{asked:none}"
    ),
    "survey.shape_not_determined": "the readings don't determine the shape",
    "survey.sides_lean_too_far": "the sides lean so far that nothing upright fits between them",
    "survey.size_out_of_range": "{value_mm:g} mm can't be; a {kind} is above 0 and not above {most_mm:g} mm",
    "survey.standard_error_out_of_range": (
        "a standard error is above 0 and below 100 mm, its growth per metre 0 or more"
    ),
    "survey.take_again": "Take the {name} again: it says {value_mm:tenths} mm, but should be near {near}.{asked:none}",
    "survey.then": " {said}",
    "survey.two_heights_of_level_head": (
        "two heights were given for a level head; give one, or say that the head is raked"
    ),
    "survey.way": "{names:and}",
    "survey.would_tell_apart": " The {name} would tell them apart best.",
    "survey.written_in_centimetres": "Was it written in centimetres, and was {was_mm:mm} mm?",
    "survey.written_in_tenths": "Was it written in tenths of a millimetre, and was {was_mm:mm} mm?",
    "survey.no_diagonals": "No diagonals: the sides are taken as plumb, and nothing checks it. Read both diagonals.",
    "survey.floor_taken_level": "The floor is taken as level.",
    "survey.sides_lean_right": "The sides lean {lean_mm:mm} mm to the right.",
    "survey.sides_lean_left": "The sides lean {lean_mm:mm} mm to the left.",
    "survey.diagonals_disagree": "The two diagonals disagree by {lean_mm:mm} mm of lean: read them again.",
    "survey.left_side_leans_right": "The left side leans {lean_mm:mm} mm to the right.",
    "survey.left_side_leans_left": "The left side leans {lean_mm:mm} mm to the left.",
}
