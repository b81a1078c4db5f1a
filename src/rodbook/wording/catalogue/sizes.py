"""What sizes has to say."""

SENTENCES = {
    "sizes.no_size_in_whole_steps": (
        "No size in whole steps can be packed into {missing}: the packer range is narrower than the step; widen "
        "the range or make the step finer."
    ),
    "sizes.least_packing_must_nought_more": "the least packing must be nought or more, and not above the most",
    "sizes.cant_price": "{value} can't be a price; write nought or more",
    "sizes.search_fewest_sizes_did_not": "The search for the fewest sizes did not come to an end; try a wider step.",
    "sizes.sizes_cant_serve_every_opening": "{number} sizes can't serve every opening.",
    "sizes.search_least_packing_did_not": "The search for the least packing did not come to an end; try a wider step.",
    "sizes.two_openings_same_name": "two openings have the same name; each needs its own",
    "sizes.step": "sizes can't go in steps of {step} mm; write a step above nought",
    "sizes.fewer_than_fewest_sizes_cant": "fewer than the fewest sizes can't be looked at",
    "sizes.none_serve": "{number} sizes serve no opening; write one or more",
}
