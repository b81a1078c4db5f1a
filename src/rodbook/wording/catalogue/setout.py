"""What setout has to say."""

SENTENCES = {
    "setout.corner_cant_mitred": "a corner of {corner_degrees:g}° can't be mitred; it lies between 0 and 180°",
    "setout.where_trim_stands_round_front": (
        "where a trim stands round the front no end panel closes its side; take a build-up without trim"
    ),
    "setout.linings_mm_deep_leave": (
        "linings {depth} mm deep leave no room for two columns of screws {fixing_in_mm:g} mm in; make them deeper"
    ),
    "setout.end_panel_mm_high": (
        "an end panel {length} mm high has no room for screws {fixing_ends_mm:g} mm from both ends"
    ),
    "setout.under_raked_head_no_aprons": (
        "under a raked head there are no aprons yet; take them out of {name!r}, or level the head"
    ),
    "setout.under_raked_head_front_inset": "under a raked head a front is inset or lies on within trim, not {family}",
    "setout.once_finished_less": (
        "once it is finished {tight}, less than {least}; ask for wider margins, fewer coats, or edging that is "
        "taken off the core"
    ),
    "setout.text": "{off}; move the fitting in the book or take another",
    "setout.plinth_set_back_mm_stands": (
        "a plinth set back {plinth_set_back:g} mm stands behind a lining {lining_depth:g} mm deep; set it back less"
    ),
    "setout.leaf_mm_wide_less": (
        "a leaf would be {width} mm wide, less than the least of {least_leaf_mm:g} mm; take fewer leaves, or "
        "measure the opening again"
    ),
    "setout.mm_wide_no_room_plate": (
        "a {kind} {width} mm wide has no room for plate holes {plate_set_back:g} mm in; make the lining deeper"
    ),
    "setout.cup_mm_deep_goes_right": (
        "a cup {cup_depth:g} mm deep goes right through a leaf of {thickness:g} mm; take a thicker board or a "
        "shallower cup"
    ),
    "setout.linings_leave_by_mm_too": "the linings leave {width} by {height} mm, too little for {leaves} leaves",
    "setout.hinge_lining_mm_wide_does": (
        "a hinge lining {hinge_lining_width:g} mm wide does not fit in the {behind} mm behind the leaf; make the "
        "lining deeper or the hinge lining narrower"
    ),
    "setout.leaf_lies_on_within_trim": "a leaf that lies on within trim needs the trim's section",
    "setout.mm_left_on_edge_mm": (
        "a {name} of {lap} mm is left on an edge {thickness} mm thick; make the reveal or the meeting gap smaller"
    ),
    "setout.strip_mm_wide_laps_each": (
        "a strip {width:g} mm wide laps each leaf by {over} mm, less than the least of {least_strip_lap_mm:g} mm;"
        " take a wider strip"
    ),
    "setout.rebated_meeting_edge_under_raked": (
        "a rebated meeting edge under a raked head puts the tongue on the higher leaf; open the other first"
    ),
    "setout.raked_head_takes_one_leaf": "a raked head takes one leaf or a pair, not {leaves}; divide the opening",
    "setout.linings_leave_mm_width_too": "the linings leave {clear} mm of width, too little for {leaves} leaves",
    "setout.leaf_mm_high_at_low": (
        "leaf {number} would be {low:.1f} mm high at its low side, less than the least of {least_side_mm:g} mm; "
        "close that end with a fixed panel and make the opening narrower"
    ),
    "setout.head_falls_mm_in_metre": (
        "a head that falls {value:.0f} mm in a metre is taken for a slip; read the heights again"
    ),
    "setout.hinge_lining_mm_wide": (
        "a hinge lining {across} mm wide has no room for plate holes {plate_set_back:g} mm in; make the lining deeper"
    ),
    "setout.top_plate_bored_mm_up": (
        "the top plate would be bored {ups} mm up the {side} side, which is only {inner} mm high at its inner "
        "face; set the top hinge lower"
    ),
    "setout.bored_mm_across_mm_down": (
        "the {kind} would be bored {x} mm across and {y} mm down, off a {kind_2} {width} wide and {length} mm "
        "high; move the fitting in the book or make the row higher"
    ),
    "setout.mm_high_less_than_least": (
        "the {name} would be {height} mm high, less than the least of {least_leaf_mm:g} mm; make its row higher"
    ),
    "setout.rail_mm_thick_does_not": (
        "a rail {thickness} mm thick does not reach behind both rows beside a gap of {gap} mm"
    ),
    "setout.hangs_by_top_edge": "the {name} hangs by its top edge as a leaf by its side, {width} mm long, and {error}",
    "setout.front_mm_high_which_leaves": (
        "the front is {height} mm high, which leaves{asked_for} {low}, less than the least of {least_row_mm:g} "
        "mm; ask for fewer or lower rows"
    ),
    "setout.rows_asked_come_to_mm": (
        "the rows asked for ({listed}) come to {asked} mm, but with gaps of {gap} mm there are {value} mm for "
        "them; leave one of them without a height, so that it takes what is left"
    ),
    "setout.over_alone_mm_no_length": (
        "over {mark} alone it would be {stretches:.1f} mm, and no length is longer than {longest:g} mm"
    ),
    "setout.in_plinth_stands_in_bays": "in {name!r} the plinth stands in bays between what reaches the floor",
    "setout.legs_mm_deep_only_mm": (
        "of legs {lining_depth:g} mm deep only {lining_depth_2:g} mm would be left behind it, less than the least"
        " of {least_behind_mm:g} mm"
    ),
    "setout.widths_asked_come_to_mm": (
        "the widths asked for ({widths}) come to {widths_2} mm, but there are {left} mm for the leaves; leave one"
        " of them 0, so that it takes what is left"
    ),
    "setout.widths_asked_leave_nothing_mm": (
        "the widths asked for ({widths}) leave nothing of the {left} mm there are for the leaves; make them narrower"
    ),
}
