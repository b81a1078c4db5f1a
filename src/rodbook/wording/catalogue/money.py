"""What costs, prices, quotes and accounts have to say."""

SENTENCES = {
    # make
    "money.cant_be_bought": "it can't be bought in: {why_not}",
    # account
    "money.amount_not_of_currency": "{line}: {amount} is no amount of {currency}; write it as it stands there",
    "money.done_not_above_zero": "{done} done can't be; leave it empty where it was not counted",
    "money.invoice_entered_twice": "it is entered twice; keep one of them",
    "money.invoice_in_other_currency": "it is in {currency} and the job in {own}; enter what was paid in {own}",
    "money.minutes_out_of_range": "{minutes} minutes are no day's work; write between 1 and {most_minutes}",
    "money.price_not_above_zero": "a price of {net} is none; write what the client pays",
    "money.prior_too_light": "a prior of {entries:g} entries has no spread; let it weigh more than 2",
    "money.rate_is_no_time": "it is no time above zero, so no hours can say anything of it",
    # costs
    "money.no_rates_to_order_by": "nothing can be ordered where no workshop has rates",
    "money.no_workshop_at_all": "the book has no workshop",
    "money.parts_exceed_stock": (
        "{laid_m2:.3f} m2 of parts can't come out of {there_m2:.3f} m2; correct the counts or sizes"
    ),
    "money.several_kinds_at_once": "it is worked out for one kind of part at a time, not for {kinds}",
    "money.stock_not_laid_out": "there is none, though parts are made from it; lay them out first",
    "money.the_board": "the board {name!r}",
    "money.the_section": "the section {name!r}",
    "money.usage_covers_other_parts": (
        "it covers {laid_m2:.3f} m2 of parts, the schedule has {wanted_m2:.3f} m2; lay the same parts out"
    ),
    "money.way_without_parts": "there are no parts; a way of making has one at the least",
    "money.workshop_without_rate": "{workshop} has no rate for {stocks:or}",
    "money.workshop_without_rates": "{workshop} has no rates that hold on {day}",
    # deciding
    "money.cant_be_bought_as_wished": "it can't be bought in: {why_not}; make it on site or add what is missing",
    "money.day_cost_out_of_range": "{cost} a day won't do; write what a day costs, from zero up",
    "money.jobs_named_alike": "{count} jobs have this name; each needs its own",
    "money.mixtures_of_other_kinds": "the two that are held against each other must be of the same kinds of part",
    "money.more_days_named_alike": "{count} of them have this name; each needs its own",
    "money.more_days_out_of_range": "{days:g} days in week {week} won't do; write how many can be had, from zero up",
    "money.no_interruptions": "The book has no rate for interruptions; none are counted.",
    "money.no_part_to_count_up": "there is no part to count up",
    "money.no_preparation": "The book has no painter's preparation for what is {ways:semi_or}: none is counted there.",
    "money.no_rejects": "The book has no share of rejects for what is {ways:semi_or}: none is counted there.",
    "money.no_size_priced": "no size of it has a price that holds on {day}",
    "money.no_spreads": "The book has no spread for any rate, so only rejects make the cost vary.",
    "money.no_weeks": "there is no week in which anything could be done; give one at the least",
    "money.order_topped_up": (
        "The order's parts come to {amount} {currency}; {workshop} charges {least} {currency} at least, before "
        "delivery."
    ),
    "money.promises_exceed_days": "What is promised can't be done with the crew days there are: {short:semi}.",
    "money.promises_not_solved": (
        "What is promised can't be done with the crew days there are: no answer was found in the work that was allowed."
    ),
    "money.task_weeks_out_of_range": "weeks {first_week} to {last_week} are not among weeks 1 to {last}, in that order",
    "money.task_without_way": "there is no way to do it; give one at the least",
    "money.tasks_named_alike": "{count} tasks have this name; each needs its own",
    "money.unknown_kind_of_part": "there is no kind of part {name!r}{hint}",
    "money.way_below_zero": "days, weeks to wait and money must be numbers from zero up",
    "money.week_days_out_of_range": "days can't be below zero, nor without end",
    "money.week_out_of_range": "week {week} is not among weeks 1 to {last}",
    "money.week_short": "week {week}: {days:.1f} crew days are missing",
    # index
    "money.base_after_last_day": "{first} is after the last day, {last}; change them over",
    "money.basket_cost_nothing": "it cost nothing at the first time, so nothing can be held against it",
    "money.basket_empty": "there is nothing in the basket: no job buys anything",
    "money.basket_name_unknown": "the book has no sheet, length or rate {name!r}{hint}",
    "money.basket_not_in_book": "the book has no {value!r} among its {kind}",
    "money.basket_not_priced": "nothing in the basket has a price on {day}; choose a later day",
    "money.basket_price_missing": "it has no price at one of the two times; give both, or leave it out of the basket",
    "money.basket_quantity_out_of_range": "a quantity of {quantity} can't be bought",
    "money.index_without_base": "there is no day to reckon it for; give the day that is 100 first",
    # pricing
    "money.agreed_price_not_above_zero": "a price of {net} is none; write what was agreed",
    "money.confidence_out_of_range": "{confidence} is out of range; write a share from 0.01 to 0.99",
    "money.contingency_out_of_range": "{contingency} {currency} is below zero or has parts of a unit; round it first",
    "money.cost_is_no_number": "cost and hours must be numbers, and hours not below zero",
    "money.cost_without_spread": "the cost has no spread to take it from; work the chances out first",
    "money.fixed_cost_below_zero": "a fixed cost of {fixed} is below zero",
    "money.margin_and_mark_up": (
        "it has both a margin and a mark-up, which are two ways of saying the same; keep one of them"
    ),
    "money.margin_out_of_range": "{margin} leaves nothing of the price for the cost; a margin is less than 1",
    "money.mark_up_out_of_range": "{mark_up} takes away the whole cost; a mark-up is more than -1",
    "money.no_price_on_day": "it has no price that holds on {day}",
    "money.nothing_to_price": "there is nothing to be priced; give one line at the least",
    "money.options_named_alike": "{count} options have this name; each needs its own",
    "money.overhead_not_carried": "{yearly} can't be carried by {crew_hours} hours; write what was and what is charged",
    "money.plans_in_two_currencies": "one plan is in {currency} and the other in {own}; plan both by the same book",
    "money.plans_the_same": "the two plans are the same, so there is nothing to be priced",
    "money.tax_begins_twice": "{name!r} begins twice on the same day; keep one of the two",
    "money.tax_not_yet_held": "{name!r} does not hold on {day}; the first begins on {first}",
    "money.unit_earns_nothing": "at {price} a unit that costs {variable} earns nothing; no number of them breaks even",
    "money.unknown_option": "there is no option {name!r} in this price",
    "money.unknown_profile": "there is no profile {name!r}{hint}",
    # rates
    "money.draws_too_few": "{draws} draws of {dimensions} things can't be taken; take one of each at least",
    "money.learning_out_of_range": "{learning:g} is no share of a time; write 0.9 where a doubling takes it to 90%",
    "money.lift_below_zero": "a distance or an angle is below zero; measure from the ankles and the floor",
    "money.masses_not_above_zero": (
        "{mass_kg:g} kg against {alone_kg:g} kg for one says nothing; write masses above zero"
    ),
    "money.middle_not_above_zero": "its middle is {median:g}; a time that varies has a middle above zero",
    "money.nine_in_ten_out_of_range": (
        "nine in ten can't stay under {nine_in_ten:g} where the middle is {median:g}; write more"
    ),
    "money.no_rate_on_day": "there is no rate {name!r} that holds on {day}{hint}; add one",
    "money.nothing_to_share_among": "there is nothing to share {total} {currency} among",
    "money.rate_begins_later": " (the first begins on {day})",
    "money.rate_begins_twice": "it begins on {since}, as book.rates[{first}] does; keep one of the two",
    "money.rate_in_other_currency": "it is in {currency} while the book is in {own}; write it in {own}",
    "money.rate_in_other_unit": "its unit is {unit!r}; the site cost reckons it in {wanted!r}",
    "money.rate_learning_no_time": "learning goes with times and not with prices; take it out",
    "money.rate_nine_in_ten_below_middle": (
        "nine in ten stay under {nine_in_ten:g}, which is less than its middle, {middle:g}; write more"
    ),
    "money.rate_rejects_too_large": "a share of {value:g} would spoil every part; write 0.02 for two in a hundred",
    "money.rate_share_too_large": "a {name} of {value:g} can't be; write 0.2 for twenty in a hundred",
    "money.total_not_in_units": "{total} {currency} is not whole in units of {unit}; round it before it is shared",
    "money.unit_below_one": "there is no unit {unit:g}; the first is 1",
    "money.units_below_zero": "{units:g} units can't be made; zero is the least",
    "money.unknown_rate": "the site cost knows no rate {name!r}{hint}",
    "money.weight_below_zero": "a weight of less than zero can't take a share",
    # suppliers
    "money.amount_below_zero": "a {what} of {amount} is below zero",
    "money.amount_too_exact": "a {what} of {amount} has more places than a book keeps; round it",
    "money.amount_too_large": "a {what} of {amount:.4g} is more than anything costs; write what it costs",
    "money.amount_uncertain": "{typed!q} can't be read as a {what} for certain; write it like {example}",
    "money.charge_absent_already": (
        "the book has it without this charge from {since} already; give the list another day, or correct the book"
    ),
    "money.charge_at_two_prices": "row {row} has {other} from {since} and this one {amount}; keep one of them",
    "money.charge_by_other_unit": "the book counts {charge} by the {unit}, not by {typed!r}; give its price so",
    "money.charge_end_not_kept": (
        "Row {row}, {charge}: the list ends it on {until}; in the book it holds until another comes."
    ),
    "money.charge_ends_before_it_begins": "it ends on {until}, before it begins on {since}; change the days over",
    "money.charge_holds_too_long": (
        "it is said to hold until {until}, while the book has {amount} from {since}; end it before"
    ),
    "money.charge_needs_of": "say which {kind} it is for, under the heading {heading!r}",
    "money.charge_of_unknown": "the book has no {kind} {typed!r}{hint}",
    "money.charge_stands_already": (
        "the book has {amount} from {since} already; give the list another day, or correct the book"
    ),
    "money.charge_without_name": "it has a price but does not say what for; write the charge beside it",
    "money.charge_without_of": "{charge} is one price for every board and section; leave {heading!r} empty",
    "money.charges_lacking": (
        "the book has no charges of {workshop} before {day}, so it needs all of them; it lacks {names}"
    ),
    "money.charges_overlap": "it begins on {since}, while row {row} holds until {until}; end that one before",
    "money.column_meant": "The column {column!r} is not read; did you mean {meant}?",
    "money.column_not_read": "The column {column!r} is not read.",
    "money.heading_meant": "; row {row} has {word!r}: did you mean {meant}?",
    "money.later_charges_hold": "From {day} on, the charges hold that the book has from that day already.",
    "money.lines_given_twice": (
        "The lines can't be given out without one being given twice: ask for prices line by line."
    ),
    "money.list_in_other_currency": "it is in {currencies:and} and the book in {own}; a list has to be in {own}",
    "money.no_charge_in_list": "no row has a charge and a price",
    "money.no_headings": "no row has headings for {names:and}; write {written!r:and} over them{hint}",
    "money.no_line_in_list": "no row has a mark and an amount",
    "money.no_workshops_yet": "; put one in first",
    "money.nobody_quotes": "Nobody quotes {marks} as ordered and in time.",
    "money.not_a_lead_time": "{typed!r} is no lead time; write whole working days from 0 to {most}",
    "money.not_a_number_of_parts": "{typed!r} is no number of parts; write a whole number from 1 up",
    "money.nothing_ordered_to_give_out": "nothing is ordered, so nothing can be given out",
    "money.nothing_ordered_to_quote": "nothing is ordered, so no quote can be held against it",
    "money.price_stands_already": (
        "the book has {amount} from {since} already; give the list another day, or correct the book"
    ),
    "money.quote_amount_below_zero": "an amount is below zero; write what it costs, and a rebate as a lower amount",
    "money.quote_ends_before_its_day": "it is valid until {valid_until}, before its own day, {day}",
    "money.quote_in_other_currency": "it is in {currency} and the book in {own}; ask for it in {own}",
    "money.quote_prices_twice": "{mark} is priced {count} times; keep one of them",
    "money.quote_too_long": "it has more than {most} rows; no quote is so long",
    "money.quote_without_quantity": "a line has no quantity; write one at the least",
    "money.row_has_it_already": "row {row} has it already; keep one of them",
    "money.row_priced_otherwise": "row {row} has it at {other} and this one at {price}; keep one of them",
    "money.source_empty": "this is empty; write whose list it is and of when",
    "money.source_too_long": "this is longer than {most} letters; write whose list it is and of when",
    "money.too_many_charges": "it has more than {most} rows; no workshop charges for so much",
    "money.unknown_charge": "the book knows no charge {typed!r}{hint}",
    "money.unknown_workshop": "the book has no workshop {name!r}{hint}",
}
