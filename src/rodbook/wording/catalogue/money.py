"""What money has to say."""

SENTENCES = {
    "money.price_none": "a price of {net} is none; write what the client pays",
    "money.minutes_no_days_work": "{minutes} minutes are no day's work; write between 1 and {longest_day_minutes}",
    "money.done_cant": "{done} done can't be; leave it empty where it was not counted",
    "money.in_job": "it is in {currency} and the job in {currency_2}; enter what was paid in {currency_2}",
    "money.entered_twice": "it is entered twice; keep one of them",
    "money.no_amount": "{what}: {amount} is no amount of {currency}; write it as it stands there",
    "money.no_time_above_nought": "it is no time above nought, so no hours can say anything of it",
    "money.prior_entries_no_spread": "a prior of {entries:g} entries has no spread; let it weigh more than 2",
    "money.nothing_can_ordered_where": "nothing can be ordered where no workshop has rates",
    "money.worked_out_one_kind_part": "it is worked out for one kind of part at a time, not for {kinds}",
    "money.no_parts": "there are no parts; a way of making has one at the least",
    "money.covers_m_parts_schedule_m": (
        "it covers {laid:.3f} m2 of parts, the schedule has {wanted:.3f} m2; lay the same parts out"
    ),
    "money.m_parts_cant_come_out": (
        "{laid:.3f} m2 of parts can't come out of {there:.3f} m2; correct the counts or sizes"
    ),
    "money.none_though_parts_made": "there is none, though parts are made from it; lay them out first",
    "money.no_part_to_count_up": "there is no part to count up",
    "money.no_size_price_holds": "no size of it has a price that holds on {day}",
    "money.week_not_among_weeks": "week {week} is not among weeks 1 to {weeks}",
    "money.no_kind_part": "there is no kind of part {name!r}{name_2}",
    "money.cant_bought": "it can't be bought in: {why_not}; make it on site or add what is missing",
    "money.no_week_in_which_anything": "there is no week in which anything could be done; give one at the least",
    "money.no_way_to_do": "there is no way to do it; give one at the least",
    "money.weeks_to_not_among_weeks": (
        "weeks {first_week} to {last_week} are not among weeks 1 to {last}, in that order"
    ),
    "money.days_cant_below_nought_nor": "days can't be below nought, nor without end",
    "money.them_name": "{count} of them have this name; each needs its own",
    "money.day_wont_do": "{day_cost} a day won't do; write what a day costs, from nought up",
    "money.jobs_name": "{count} jobs have this name; each needs its own",
    "money.days_weeks_to_wait_money": "days, weeks to wait and money must be numbers from nought up",
    "money.week_not_among_weeks_2": "week {week} is not among weeks 1 to {last}",
    "money.days_in_week_wont_do": "{days:g} days in week {week} won't do; write how many can be had, from nought up",
    "money.tasks_name": "{count} tasks have this name; each needs its own",
    "money.two_held_against_each_other": "the two that are held against each other must be of the same kinds of part",
    "money.book_no_among": "the book has no {value!r} among its {kind}",
    "money.nothing_in_basket_price": "nothing in the basket has a price on {last}; choose a later day",
    "money.nothing_in_basket_no_job": "there is nothing in the basket: no job buys anything",
    "money.after_last_day": "{first} is after the last day, {last}; change them over",
    "money.nothing_in_basket_price_2": "nothing in the basket has a price on {first}; choose a later day",
    "money.no_price_at_one_two": "it has no price at one of the two times; give both, or leave it out of the basket",
    "money.quantity_cant_bought": "a quantity of {q} can't be bought",
    "money.book_no_sheet_length_rate": "the book has no sheet, length or rate {name!r}{name_2}",
    "money.no_day_to_reckon": "there is no day to reckon it for; give the day that is 100 first",
    "money.cost_nothing_at_first_time": "it cost nothing at the first time, so nothing can be held against it",
    "money.one_plan_in_other": "one plan is in {currency} and the other in {currency_2}; plan both by the same book",
    "money.two_plans_same_so_nothing": "the two plans are the same, so there is nothing to be priced",
    "money.fixed_cost_below_nought": "a fixed cost of {fixed} is below nought",
    "money.at_unit_costs_earns_nothing": (
        "at {price} a unit that costs {variable} earns nothing; no number of them breaks even"
    ),
    "money.takes_away_whole_cost": "{mark_up} takes away the whole cost; a mark-up is more than -1",
    "money.leaves_nothing_price_cost": "{margin} leaves nothing of the price for the cost; a margin is less than 1",
    "money.cost_hours_must_numbers_hours": "cost and hours must be numbers, and hours not below nought",
    "money.options_name": "{count} options have this name; each needs its own",
    "money.below_nought_parts_unit": "{contingency} {currency} is below nought or has parts of a unit; round it first",
    "money.nothing_to_priced": "there is nothing to be priced; give one line at the least",
    "money.no_option_in_price": "there is no option {name!r} in this price",
    "money.cant_bought_2": "it can't be bought in: {why_not}",
    "money.price_none_2": "a price of {net} is none; write what was agreed",
    "money.no_price_holds": "it has no price that holds on {day}",
    "money.cant_carried_by_hours": (
        "{yearly} can't be carried by {crew_hours} hours; write what was and what is charged"
    ),
    "money.cost_no_spread_to_take": "the cost has no spread to take it from; work the chances out first",
    "money.out_range": "{confidence} is out of range; write a share from 0.01 to 0.99",
    "money.both_margin_mark_up_which": (
        "it has both a margin and a mark-up, which are two ways of saying the same; keep one of them"
    ),
    "money.no_profile": "there is no profile {name!r}{name_2}",
    "money.begins_twice_on_same_day": "{name!r} begins twice on the same day; keep one of the two",
    "money.does_not_hold": "{name!r} does not hold on {day}; the first begins on {days}",
    "money.no_share_time": "{learning:g} is no share of a time; write 0.9 where a doubling takes it to 90%",
    "money.units_cant_made": "{n:g} units can't be made; nought is the least",
    "money.no_unit": "there is no unit {n:g}; the first is 1",
    "money.distance_angle_below_nought": (
        "a distance or an angle is below nought; measure from the ankles and the floor"
    ),
    "money.kg_against_kg_one_says": (
        "{mass_kg:g} kg against {alone_kg:g} kg for one says nothing; write masses above nought"
    ),
    "money.not_whole_in_units": "{total} {currency} is not whole in units of {unit}; round it before it is shared",
    "money.weight_less_than_nought_cant": "a weight of less than nought can't take a share",
    "money.nothing_to_share_among": "there is nothing to share {total} {currency} among",
    "money.no_rate_holds": "there is no rate {name!r} that holds on {day}{later}; add one",
    "money.site_cost_knows_no_rate": "the site cost knows no rate {name!r}{name_2}",
    "money.begins_on_as_book_rates": "it begins on {since}, as book.rates[{first}] does; keep one of the two",
    "money.draws_things_cant_taken": "{draws} draws of {dimensions} things can't be taken; take one of each at least",
    "money.middle": "its middle is {median:g}; a time that varies has a middle above nought",
    "money.nine_in_ten_cant_stay": (
        "nine in ten can't stay under {nine_in_ten:g} where the middle is {median:g}; write more"
    ),
    "money.more_than_rows": "it has more than {most_rows} rows; no workshop charges for so much",
    "money.no_row_charge_price": "no row has a charge and a price",
    "money.price_but_does_not_say": "it has a price but does not say what for; write the charge beside it",
    "money.no_row_headings": "no row has headings for {names}; write {written} over them{meant}",
    "money.empty": "this is empty; write whose list it is and of when",
    "money.longer_than_letters": "this is longer than {most_source} letters; write whose list it is and of when",
    "money.book_from_already": (
        "the book has {amount} from {since} already; give the list another day, or correct the book"
    ),
    "money.row_at_one": "row {first} has it at {other_price} and this one at {price}; keep one of them",
    "money.more_than_rows_2": "it has more than {most_lines} rows; no quote is so long",
    "money.no_row_mark_amount": "no row has a mark and an amount",
    "money.row_already": "row {found} has it already; keep one of them",
    "money.in_book": "it is in {currency} and the book in {currency_2}; ask for it in {currency_2}",
    "money.valid_until_before_own_day": "it is valid until {valid_until}, before its own day, {day}",
    "money.amount_below_nought": "an amount is below nought; write what it costs, and a rebate as a lower amount",
    "money.line_no_quantity": "a line has no quantity; write one at the least",
    "money.nothing_ordered_so_no_quote": "nothing is ordered, so no quote can be held against it",
    "money.priced_times": "{mark} is priced {count} times; keep one of them",
    "money.nobody_quotes_as_ordered": "Nobody quotes {nobody} as ordered and in time.",
    "money.lines_cant_given_out_without": (
        "The lines can't be given out without one being given twice: ask for prices line by line."
    ),
    "money.nothing_ordered_so_nothing_can": "nothing is ordered, so nothing can be given out",
    "money.book_no_workshop": "the book has no workshop {name!r}{said}",
    "money.book": "the book has {has}; give the list another day, or correct the book",
}
