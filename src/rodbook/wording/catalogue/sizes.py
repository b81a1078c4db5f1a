"""What sizes has to say."""

SENTENCES = {
    "sizes.fewer_than_fewest": "fewer than the fewest sizes can't be looked at",
    "sizes.fewest_not_found": "The search for the fewest sizes did not come to an end; try a wider step.",
    "sizes.least_packing_not_found": "The search for the least packing did not come to an end; try a wider step.",
    "sizes.no_whole_size": (
        "No size in whole steps can be packed into {openings}: the packer range is narrower than the step; widen "
        "the range or make the step finer."
    ),
    "sizes.none_serve": "{number} sizes serve no opening; write one or more",
    "sizes.not_a_price": "{value} can't be a price; write zero or more",
    "sizes.packing_out_of_order": "the least packing must be zero or more, and not above the most",
    "sizes.step_not_above_zero": "sizes can't go in steps of {step_mm} mm; write a step above zero",
    "sizes.too_few": "{number} sizes can't serve every opening.",
    "sizes.two_of_one_name": "two openings have the same name; each needs its own",
}
