"""Papers that leave the desk: drawings, schedules, orders, layouts and tables.

`write_papers` puts all of them into a folder; `paper_pdf` and `paper_png` make one, `survey_sheet_pdf` the one that goes to
site first. `write_dates` does it for dates.
"""

from typing import TYPE_CHECKING

from rodbook.late import late_face

if TYPE_CHECKING:
    from rodbook.papers.calendar_file import Edition, calendar_ended, calendar_file
    from rodbook.papers.drawn import Drawn, draw_layout, draw_opening
    from rodbook.papers.papers import (
        account_pdf,
        basket_pdf,
        change_pdf,
        paper_bytes,
        paper_file,
        paper_pdf,
        paper_png,
        price_pdf,
        price_png,
        quotes_pdf,
        repricing_pdf,
        survey_sheet_pdf,
        weeks_pdf,
    )
    from rodbook.papers.registry import file_names
    from rodbook.papers.write import write_dates, write_papers

__all__ = [
    "Drawn",
    "Edition",
    "account_pdf",
    "basket_pdf",
    "calendar_ended",
    "calendar_file",
    "change_pdf",
    "draw_layout",
    "draw_opening",
    "file_names",
    "paper_bytes",
    "paper_file",
    "paper_pdf",
    "paper_png",
    "price_pdf",
    "price_png",
    "quotes_pdf",
    "repricing_pdf",
    "survey_sheet_pdf",
    "weeks_pdf",
    "write_dates",
    "write_papers",
]

late_face(__name__)
