"""What book has to say."""

SENTENCES = {
    "book.apron_too_low": "{height_mm:g} mm is less than the least apron, {least_mm:g} mm; write 0 for none",
    "book.cover_strip_or_none": "a cover strip needs its section, and any other meeting edge none",
    "book.density_low_above_high": "density_low is more than density_high; change them over",
    "book.edging_put_on": "a {way} edge has nothing put on it; leave the thickness out or choose taped or lipped",
    "book.edging_without_thickness": "a {way} edge needs the thickness of what is put on",
    "book.fitting_of_another_sort": "{name!r} is a {sort}, which is no {field}; name it in its own field",
    "book.has_none": "; it has no {sort}s at all",
    "book.hinge_counts_do_not_grow": "heights, masses and counts must all grow from row to row",
    "book.hole_without_size": "there is such a hole, so this has to be more than 0 mm",
    "book.holes_without_spacing": "two holes need the distance between them, more than 0 mm",
    "book.housing_or_none": "a housed head needs a housing of more than 0 mm, and any other head none",
    "book.housing_through_lining": (
        "{value_mm:g} mm goes right through the lining, {lining_mm:g} mm thick; make it less"
    ),
    "book.label_on_offcut": "{label!r} is written on an offcut that lies in the shop; give the piece another label",
    "book.label_on_several": "{label!r} names {count} sizes or offcuts; each needs its own name",
    "book.lap_over_lining": "{value_mm:g} mm is more than the thickness of the lining that it laps, {lining_mm:g} mm",
    "book.name_a_workshop": '; name a workshop of the book, or "{merchant}"',
    "book.no_price_holds": "{name!r} has no price that holds on {day}",
    "book.no_room_for_plate": "{value_mm:g} mm leaves no room for plate holes {in_mm:g} mm in",
    "book.no_such": "the book has no {sort} {name!r}{hint}",
    "book.no_such_currency": "no currency has the code {currency!r}; write its three letters, as in EUR",
    "book.no_such_locale": "{locale!r} is no way of writing numbers; write a language, as in en, de or de_AT",
    "book.no_such_sizes": "it does not have {sizes:semi}",
    "book.no_such_supplier": "there is no supplier {supplier!r}{hint}",
    "book.no_such_workshop": "it has no workshop {workshop!r}",
    "book.nothing_to_confirm": "nothing that waits to be confirmed stands here; look at the list again",
    "book.nothing_to_lap": "{value_mm:g} mm leaves nothing to lap of an edge {edge_mm:g} mm thick",
    "book.nothing_to_lap_by_half": "{value_mm:g} mm leaves nothing to lap by half of an edge {edge_mm:g} mm thick",
    "book.packers_out_of_order": (
        "least {least_mm:g}, wanted {wanted_mm:g}, most {most_mm:g} are out of order; least, wanted and most must "
        "not fall"
    ),
    "book.prices_cant_be_added": "it is laid out in a way that prices can't be added to; put them in by hand",
    "book.prices_of_one_day": "{count} prices of {of!r} hold from {day}; keep one of them",
    "book.rates_of_one_day": "{count} sets of rates hold from {day}; keep one of them",
    "book.rebate_or_none": "rebated meeting edges need a rebate of more than 0 mm, and any other none",
    "book.several_of_one_day": "{name!r} stands {count} times for {day}; keep one of them",
    "book.size_of_stock": "{stock}, {name}",
    "book.trim_missing": "a leaf that lies on within trim needs the trim's section",
    "book.trim_of_plain_leaf": (
        "a leaf that lies on without trim has no trim; leave it out or choose the family within trim"
    ),
    "book.wanted_below_kerf": "{size_mm:g} mm is less than the saw's kerf, {kerf_mm:g} mm; it cannot be cut",
    "book.wanted_larger_than_sheets": (
        "{length_mm:g} × {width_mm:g} mm is larger than any sheet of {board!r}; make it smaller"
    ),
}
