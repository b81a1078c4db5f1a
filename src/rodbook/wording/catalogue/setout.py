"""What setout has to say."""

SENTENCES = {
    "setout.apron_under_raked_head": (
        "under a raked head there are no aprons yet; take them out of {build_up!r}, or level the head"
    ),
    "setout.beside_rows": " beside {rows}",
    "setout.catch_off_head": (
        "the catch would be bored off the lining head, {along_mm:mm} mm along and {in_mm:mm} mm in"
    ),
    "setout.catch_under_raked_head": (
        "Catches under a raked head are not bored for: hold them in place and mark through."
    ),
    "setout.catch_under_row": (
        "Catches of leaves under another row are not bored for over them: mark through from the leaf."
    ),
    "setout.clear_too_small": "the linings leave {width_mm} by {height_mm} mm, too little for {leaves} leaves",
    "setout.clear_width_too_small": "the linings leave {width_mm} mm of width, too little for {leaves} leaves",
    "setout.corner_not_mitred": "a corner of {corner_deg:g}° can't be mitred; it lies between 0 and 180°",
    "setout.cup_through_leaf": (
        "a cup {cup_mm:g} mm deep goes right through a leaf of {thickness_mm:g} mm; take a thicker board or a "
        "shallower cup"
    ),
    "setout.division_on_plinth": (
        "A division stands on the plinth at its front alone: put a block as high under its back."
    ),
    "setout.drawer_boxes_not_set_out": "Drawer boxes are not set out, and runners are bored for by their own sheet.",
    "setout.end_panel_beside_trim": (
        "where a trim stands round the front no end panel closes its side; take a build-up without trim"
    ),
    "setout.end_panel_too_low_for_screws": (
        "an end panel {height_mm} mm high has no room for screws {from_ends_mm:g} mm from both ends"
    ),
    "setout.family_under_raked_head": "under a raked head a front is inset or lies on within trim, not {family}",
    "setout.flap_beside_hinge_lining": (
        "A flap hangs on the head or a rail, not on a hinge lining: order its hinges for that."
    ),
    "setout.flap_heavy_to_hold": (
        " Without them a hand at its foot holds {force_n:.0f} N: let nobody open it before they are on."
    ),
    "setout.flap_not_hung": "the {row} hangs by its top edge as a leaf by its side, {width_mm} mm long, and {why}",
    "setout.flap_pulls_down": (
        "The {row} {width_mm:g} by {height_mm:g} mm has a mass of {mass}; held level it pulls down with "
        "{moment_nm:.1f} N m about its hinges (mass × 9.81 m/s² × half its height): take stays that hold that, set"
        " by their own sheet.{caution}{two}"
    ),
    "setout.floor_finish_to_come": (
        "A floor finish of {finish_mm:g} mm is still to come: the clearance under the leaf is over it."
    ),
    "setout.gap_closes": (
        "once it is finished {gaps:and}, less than nothing, so it closes; ask for wider margins, fewer coats, or "
        "edging that is taken off the core"
    ),
    "setout.gap_too_small": (
        "once it is finished {gaps:and}, less than the least of {least_mm:g} mm; ask for wider margins, fewer "
        "coats, or edging that is taken off the core"
    ),
    "setout.gap_would_be": "the {gap} would be {seen_mm} mm",
    "setout.head_too_steep": (
        "a head that falls {fall_mm:.0f} mm in a metre is taken for a slip; read the heights again"
    ),
    "setout.hinge_lining_too_narrow": (
        "a hinge lining {width_mm} mm wide has no room for plate holes {in_mm:g} mm in; make the lining deeper"
    ),
    "setout.hinge_lining_too_wide": (
        "a hinge lining {width_mm:g} mm wide does not fit in the {behind_mm} mm behind the leaf; make the lining "
        "deeper or the hinge lining narrower"
    ),
    "setout.hole_off_leaf": (
        "the {hole} would be bored {across_mm:mm} mm across and {down_mm:mm} mm down, off a leaf {width_mm:mm} by "
        "{height_mm:mm} mm"
    ),
    "setout.hole_off_part": (
        "the {hole} would be bored {across_mm} mm across and {down_mm} mm down, off a {part} {width_mm} wide and "
        "{height_mm} mm high; move the fitting in the book or make the row higher"
    ),
    "setout.holes_off_board": "{holes:semi}; move the fitting in the book or take another",
    "setout.leaf_too_narrow": (
        "a leaf would be {width_mm} mm wide, less than the least of {least_mm:g} mm; take fewer leaves, or measure"
        " the opening again"
    ),
    "setout.leaves_under_raked_head": "a raked head takes one leaf or a pair, not {leaves}; divide the opening",
    "setout.leg_cut_too_deep": (
        "of legs {depth_mm:g} mm deep only {left_mm:g} mm would be left behind it, less than the least of "
        "{least_mm:g} mm"
    ),
    "setout.lining_too_shallow_for_screws": (
        "linings {depth_mm} mm deep leave no room for two columns of screws {in_mm:g} mm in; make them deeper"
    ),
    "setout.mitre_beyond_saw": (
        "The trim's corner at the high side is mitred about {mitre_deg:.0f}° from square, more than many saws turn"
        " to ({most_deg:g}°): make a jig, or butt the head over the legs."
    ),
    "setout.no_length_long_enough": (
        "over {mark} alone it would be {length_mm:.1f} mm, and no length is longer than {longest_mm:g} mm"
    ),
    "setout.no_room_for_plate": (
        "a {part} {width_mm} mm wide has no room for plate holes {in_mm:g} mm in; make the lining deeper"
    ),
    "setout.nothing_to_lap": (
        "a {kind} of {lap_mm} mm is left on an edge {thickness_mm} mm thick; make the reveal or the meeting gap smaller"
    ),
    "setout.pier_too_narrow": (
        "between {left} and {right} there are {there_mm:.1f} mm for two legs, each {least_mm:g} mm wide at the least"
    ),
    "setout.piers_too_narrow": "{piers:semi}",
    "setout.plate_above_raked_side": (
        "the top plate would be bored {up_mm} mm up the {side} side, which is only {inner_mm} mm high at its inner"
        " face; set the top hinge lower"
    ),
    "setout.plinth_behind_lining": (
        "a plinth set back {set_back_mm:g} mm stands behind a lining {lining_depth_mm:g} mm deep; set it back less"
    ),
    "setout.plinth_in_bays": "in {build_up!r} the plinth stands in bays between what reaches the floor",
    "setout.rail_too_thin": (
        "a rail {thickness_mm} mm thick does not reach behind both rows beside a gap of {gap_mm} mm"
    ),
    "setout.raked_leaf_too_low": (
        "leaf {leaf} would be {low_mm:.1f} mm high at its low side, less than the least of {least_mm:g} mm; close "
        "that end with a fixed panel and make the opening narrower"
    ),
    "setout.rebated_edge_under_raked_head": (
        "a rebated meeting edge under a raked head puts the tongue on the higher leaf; open the other first"
    ),
    "setout.row_asked": "{row} {height_mm:g}",
    "setout.row_left": "the {row} {height_mm} mm",
    "setout.row_too_low": (
        "the {row} would be {height_mm} mm high, less than the least of {least_mm:g} mm; make its row higher"
    ),
    "setout.rows_left_too_low": (
        "the front is {height_mm} mm high, which leaves{beside} {rows:and}, less than the least of {least_mm:g} "
        "mm; ask for fewer or lower rows"
    ),
    "setout.rows_not_height": (
        "the rows asked for ({rows}) come to {asked_mm:mm} mm, but with gaps of {gap_mm} mm there are {left_mm:mm}"
        " mm for them; leave one of them without a height, so that it takes what is left"
    ),
    "setout.strip_laps_too_little": (
        "a strip {width_mm:g} mm wide laps each leaf by {lap_mm} mm, less than the least of {least_mm:g} mm; take "
        "a wider strip"
    ),
    "setout.thin_under_cup": (
        "Only {left_mm:g} mm are left under the cup: bore with a stop and a short-pointed drill, and try it on waste."
    ),
    "setout.top_hinge_lower": (
        "The top hinge of leaf {leaf} sits {down_mm:mm} mm down instead of {instead_of_mm:g} mm, so that its holes"
        " keep clear of the sloping edge."
    ),
    "setout.trim_bears_little": (
        "The trim bears only {bearing_mm:mm} mm on the lining's edge, less than {least_mm:g} mm: fix it to the "
        "wall and the packers."
    ),
    "setout.two_hang_it": " Two hang it.",
    "setout.widths_leave_nothing": (
        "the widths asked for ({widths_mm:g}) leave nothing of the {left_mm} mm there are for the leaves; make "
        "them narrower"
    ),
    "setout.widths_not_sum": (
        "the widths asked for ({widths_mm:g}) come to {asked_mm:mm} mm, but there are {left_mm} mm for the leaves;"
        " leave one of them 0, so that it takes what is left"
    ),
}
