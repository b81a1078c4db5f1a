"""What parts cost made on site and bought in, which way is cheaper, and from which quantity on.

Money is Decimal and rounded once, when a line is made; totals are sums of rounded lines.
"""

from typing import TYPE_CHECKING

from rodbook.late import late_face

if TYPE_CHECKING:
    from rodbook.money.account.actuals import (
        AccountLine,
        FinalAccount,
        Invoice,
        InvoiceLine,
        Planned,
        TimeEntry,
        final_account,
        planned_of,
    )
    from rodbook.money.account.own_rates import LogTimes, Question, RateUpdate, prior_of, rate_update, updated
    from rodbook.money.costs.bought import BoughtCost, Order, OrderShare, bought_cost, bought_costs, order_of
    from rodbook.money.costs.lines import CostLine
    from rodbook.money.costs.outcome import Rejects
    from rodbook.money.costs.site import SiteCost, site_cost, site_costs
    from rodbook.money.costs.usage import MaterialUsage, StockShare, StockTaken, bar_usage, shared_usage, sheet_usage
    from rodbook.money.costs.ways import WayCost, way_costs
    from rodbook.money.deciding.break_even import TurningPoint, TurningPoints, points_in_words, turning_points
    from rodbook.money.deciding.break_even_quantity import ASSUMED, Turning, most_frequent, turning_quantity
    from rodbook.money.deciding.capacity import CapacityAnswer, Decision, MoreUse, WeekUse, capacity
    from rodbook.money.deciding.capacity_weeks import WeekWork
    from rodbook.money.deciding.choice import KindChoice, MakeOrBuy, OpeningCost, OpeningShare, Totals
    from rodbook.money.deciding.compare import make_or_buy, settle
    from rodbook.money.deciding.decision import Deciding, Mover, WhatIf, makers_of
    from rodbook.money.deciding.demand import JobWanted, MoreDays, Offered, TaskWanted, WeekDays
    from rodbook.money.deciding.job_demand import job_wanted
    from rodbook.money.deciding.risk import Chances, KindChances, chances
    from rodbook.money.deciding.sensitivity import Sway, difference_of, set_up_of_a_size, sways
    from rodbook.money.deciding.simulation import CashOut, Figures, Likely
    from rodbook.money.deciding.weighing import Mixture, Weighing, weighing
    from rodbook.money.index.firm_basket import (
        BasketKey,
        BasketKind,
        FirmIndex,
        FirmItem,
        GroupIndex,
        IndexLine,
        firm_basket,
        firm_index,
    )
    from rodbook.money.index.index import BasketItem, IndexDay, basket_of, index_through, laspeyres, paasche
    from rodbook.money.pricing.changes import ChangeLine, ChangeOrder, change_order
    from rodbook.money.pricing.margins import break_even_units, margin_of_mark_up, mark_up_of_margin
    from rodbook.money.pricing.price import (
        ClientPrice,
        CostItem,
        Option,
        Price,
        PricedOption,
        PriceLine,
        TaxAmount,
        for_client,
        make_price,
        with_options,
    )
    from rodbook.money.pricing.repricing import Moved, Repriced, reprice, usage_on
    from rodbook.money.pricing.rules import PriceRules, contingency, overhead_an_hour, price_rules, share_under
    from rodbook.money.rates.even import even_draws
    from rodbook.money.rates.learning import average_factor, learned_units, learning_exponent, unit_factor
    from rodbook.money.rates.lifting import Lift, guideline_share, lifting_index, people_to_lift, recommended_kg
    from rodbook.money.rates.rounding import currency_unit, rounded, share_out
    from rodbook.money.rates.site_rates import (
        FITTING_UNITS,
        KNOWN_UNITS,
        OPTIONAL_UNITS,
        RATE_UNITS,
        SiteRate,
        SiteRates,
        Way,
        site_rates,
    )
    from rodbook.money.rates.spread import LogNormal
    from rodbook.money.suppliers.charges import CHARGES, ListedCharge, blank_charges, read_charges
    from rodbook.money.suppliers.price_lists import PriceChange, PriceList, blank_prices, price_list, with_prices
    from rodbook.money.suppliers.quote_choice import SHUT_OUT, QuotesHeld, QuoteVerdict, hold_quotes
    from rodbook.money.suppliers.quote_lists import QUOTE_HEADINGS, quote_lines
    from rodbook.money.suppliers.quotes import (
        ComparedQuote,
        Finding,
        FindingKind,
        LumpSum,
        Quote,
        QuoteLine,
        compare_quotes,
    )
    from rodbook.money.suppliers.split_orders import SplitOrder, SplitOrders, split_orders
    from rodbook.money.suppliers.workshop_lists import (
        ChargeChange,
        WorkshopList,
        hold_charges,
        with_charges,
        workshop_list,
        workshop_named,
    )

__all__ = [
    "ASSUMED",
    "CHARGES",
    "FITTING_UNITS",
    "KNOWN_UNITS",
    "OPTIONAL_UNITS",
    "QUOTE_HEADINGS",
    "RATE_UNITS",
    "SHUT_OUT",
    "AccountLine",
    "BasketItem",
    "BasketKey",
    "BasketKind",
    "BoughtCost",
    "CapacityAnswer",
    "CashOut",
    "Chances",
    "ChangeLine",
    "ChangeOrder",
    "ChargeChange",
    "ClientPrice",
    "ComparedQuote",
    "CostItem",
    "CostLine",
    "Deciding",
    "Decision",
    "Figures",
    "FinalAccount",
    "Finding",
    "FindingKind",
    "FirmIndex",
    "FirmItem",
    "GroupIndex",
    "IndexDay",
    "IndexLine",
    "Invoice",
    "InvoiceLine",
    "JobWanted",
    "KindChances",
    "KindChoice",
    "Lift",
    "Likely",
    "ListedCharge",
    "LogNormal",
    "LogTimes",
    "LumpSum",
    "MakeOrBuy",
    "MaterialUsage",
    "Mixture",
    "MoreDays",
    "MoreUse",
    "Moved",
    "Mover",
    "Offered",
    "OpeningCost",
    "OpeningShare",
    "Option",
    "Order",
    "OrderShare",
    "Planned",
    "Price",
    "PriceChange",
    "PriceLine",
    "PriceList",
    "PriceRules",
    "PricedOption",
    "Question",
    "Quote",
    "QuoteLine",
    "QuoteVerdict",
    "QuotesHeld",
    "RateUpdate",
    "Rejects",
    "Repriced",
    "SiteCost",
    "SiteRate",
    "SiteRates",
    "SplitOrder",
    "SplitOrders",
    "StockShare",
    "StockTaken",
    "Sway",
    "TaskWanted",
    "TaxAmount",
    "TimeEntry",
    "Totals",
    "Turning",
    "TurningPoint",
    "TurningPoints",
    "Way",
    "WayCost",
    "WeekDays",
    "WeekUse",
    "WeekWork",
    "Weighing",
    "WhatIf",
    "WorkshopList",
    "average_factor",
    "bar_usage",
    "basket_of",
    "blank_charges",
    "blank_prices",
    "bought_cost",
    "bought_costs",
    "break_even_units",
    "capacity",
    "chances",
    "change_order",
    "compare_quotes",
    "contingency",
    "currency_unit",
    "difference_of",
    "even_draws",
    "final_account",
    "firm_basket",
    "firm_index",
    "for_client",
    "guideline_share",
    "hold_charges",
    "hold_quotes",
    "index_through",
    "job_wanted",
    "laspeyres",
    "learned_units",
    "learning_exponent",
    "lifting_index",
    "make_or_buy",
    "make_price",
    "makers_of",
    "margin_of_mark_up",
    "mark_up_of_margin",
    "most_frequent",
    "order_of",
    "overhead_an_hour",
    "paasche",
    "people_to_lift",
    "planned_of",
    "points_in_words",
    "price_list",
    "price_rules",
    "prior_of",
    "quote_lines",
    "rate_update",
    "read_charges",
    "recommended_kg",
    "reprice",
    "rounded",
    "set_up_of_a_size",
    "settle",
    "share_out",
    "share_under",
    "shared_usage",
    "sheet_usage",
    "site_cost",
    "site_costs",
    "site_rates",
    "split_orders",
    "sways",
    "turning_points",
    "turning_quantity",
    "unit_factor",
    "updated",
    "usage_on",
    "way_costs",
    "weighing",
    "with_charges",
    "with_options",
    "with_prices",
    "workshop_list",
    "workshop_named",
]

late_face(__name__)
