"""What parts cost made on site and bought in, which way is cheaper, and from which quantity on.

Money is Decimal and rounded once, when a line is made; totals are sums of rounded lines.
"""

from rodbook.money.bought import BoughtCost, Order, OrderShare, bought_cost, bought_costs, order_of
from rodbook.money.choice import KindChoice, MakeOrBuy, OpeningCost, OpeningShare, Totals
from rodbook.money.compare import make_or_buy, settle
from rodbook.money.learning import average_factor, learned_units, learning_exponent, unit_factor
from rodbook.money.lifting import Lift, guideline_share, lifting_index, people_to_lift, recommended_kg
from rodbook.money.lines import CostLine
from rodbook.money.margins import break_even_units, margin_of_mark_up, mark_up_of_margin
from rodbook.money.rates import KNOWN_UNITS, OPTIONAL_UNITS, RATE_UNITS, SiteRate, SiteRates, Way, site_rates
from rodbook.money.rounding import currency_unit, rounded, share_out
from rodbook.money.site import SiteCost, site_cost, site_costs
from rodbook.money.spread import LogNormal, even_draws
from rodbook.money.turning import Turning, most_frequent, parts_in_rows, turning_quantity, whole_sheets
from rodbook.money.usage import MaterialUsage, StockShare, StockTaken, bar_usage, shared_usage, sheet_usage

__all__ = [
    "KNOWN_UNITS",
    "OPTIONAL_UNITS",
    "RATE_UNITS",
    "BoughtCost",
    "CostLine",
    "KindChoice",
    "Lift",
    "LogNormal",
    "MakeOrBuy",
    "MaterialUsage",
    "OpeningCost",
    "OpeningShare",
    "Order",
    "OrderShare",
    "SiteCost",
    "SiteRate",
    "SiteRates",
    "StockShare",
    "StockTaken",
    "Totals",
    "Turning",
    "Way",
    "average_factor",
    "bar_usage",
    "bought_cost",
    "bought_costs",
    "break_even_units",
    "currency_unit",
    "even_draws",
    "guideline_share",
    "learned_units",
    "learning_exponent",
    "lifting_index",
    "make_or_buy",
    "margin_of_mark_up",
    "mark_up_of_margin",
    "most_frequent",
    "order_of",
    "parts_in_rows",
    "people_to_lift",
    "recommended_kg",
    "rounded",
    "settle",
    "share_out",
    "shared_usage",
    "sheet_usage",
    "site_cost",
    "site_costs",
    "site_rates",
    "turning_quantity",
    "unit_factor",
    "whole_sheets",
]
