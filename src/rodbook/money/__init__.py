"""What parts cost made on site and bought in, which way is cheaper, and from which quantity on.

Money is Decimal and rounded once, when a line is made; totals are sums of rounded lines.
"""

from rodbook.money.bought import BoughtCost, Order, OrderShare, bought_cost, bought_costs, order_of
from rodbook.money.choice import KindChoice, MakeOrBuy, OpeningCost, OpeningShare, Totals
from rodbook.money.compare import make_or_buy, settle
from rodbook.money.lines import CostLine
from rodbook.money.margins import break_even_units, margin_of_mark_up, mark_up_of_margin
from rodbook.money.rates import RATE_UNITS, SiteRate, SiteRates, site_rates
from rodbook.money.rounding import currency_unit, rounded, share_out
from rodbook.money.site import SiteCost, site_cost, site_costs
from rodbook.money.turning import Turning, most_frequent, parts_in_rows, turning_quantity, whole_sheets
from rodbook.money.usage import MaterialUsage, StockShare, StockTaken, bar_usage, shared_usage, sheet_usage

__all__ = [
    "RATE_UNITS",
    "BoughtCost",
    "CostLine",
    "KindChoice",
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
    "bar_usage",
    "bought_cost",
    "bought_costs",
    "break_even_units",
    "currency_unit",
    "make_or_buy",
    "margin_of_mark_up",
    "mark_up_of_margin",
    "most_frequent",
    "order_of",
    "parts_in_rows",
    "rounded",
    "settle",
    "share_out",
    "shared_usage",
    "sheet_usage",
    "site_cost",
    "site_costs",
    "site_rates",
    "turning_quantity",
    "whole_sheets",
]
