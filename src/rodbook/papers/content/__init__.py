"""What stands on each paper: plain values that can be printed as JSON, every number already written out."""

from rodbook.papers.content.account import AccountRows, account_content, account_rows
from rodbook.papers.content.basket import BasketRows, basket_content, basket_rows
from rodbook.papers.content.change import change_content, effect_said
from rodbook.papers.content.charges import ChargeRow, charge_rows
from rodbook.papers.content.dates import dates_content
from rodbook.papers.content.layouts import layouts_content
from rodbook.papers.content.leaves import leaves_content
from rodbook.papers.content.openings import openings_content
from rodbook.papers.content.order import order_content
from rodbook.papers.content.parts import parts_content
from rodbook.papers.content.price import price_content
from rodbook.papers.content.quotes import QuoteCell, quote_cells, quotes_content
from rodbook.papers.content.reprice import RepriceRows, reprice_content, reprice_rows
from rodbook.papers.content.shared import Content, Sheetful
from rodbook.papers.content.site_parts import site_parts_content
from rodbook.papers.content.summary import summary_content
from rodbook.papers.content.survey import blank_survey_content, packers_content, survey_content
from rodbook.papers.content.weeks import done_in, weeks_content

__all__ = [
    "AccountRows",
    "BasketRows",
    "ChargeRow",
    "Content",
    "QuoteCell",
    "RepriceRows",
    "Sheetful",
    "account_content",
    "account_rows",
    "basket_content",
    "basket_rows",
    "blank_survey_content",
    "change_content",
    "charge_rows",
    "dates_content",
    "done_in",
    "effect_said",
    "layouts_content",
    "leaves_content",
    "openings_content",
    "order_content",
    "packers_content",
    "parts_content",
    "price_content",
    "quote_cells",
    "quotes_content",
    "reprice_content",
    "reprice_rows",
    "site_parts_content",
    "summary_content",
    "survey_content",
    "weeks_content",
]
