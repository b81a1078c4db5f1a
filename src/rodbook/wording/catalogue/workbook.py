"""Why a spreadsheet workbook is not read."""

SENTENCES = {
    "workbook.damaged": "this workbook can't be read; open it in a spreadsheet and save it again as .xlsx",
    "workbook.formula_without_result": (
        "the result of this formula is not saved; open the workbook in a spreadsheet and save it, or write the "
        "value itself"
    ),
    "workbook.made_to_do_harm": "this workbook holds what none needs, and is not opened; save it again as .xlsx",
    "workbook.no_cells": "this workbook has no sheet with cells",
    "workbook.no_such_sheet": "there is no sheet {sheet!r}{hint}",
    "workbook.of_the_old_kind": "this workbook is of the old kind or locked; save it again as plain .xlsx",
    "workbook.others_being_read": "other workbooks are still being read; send this one again in a minute",
    "workbook.too_many_cells": (
        "this sheet has more than {most} cells, blank ones between others counted; copy the table alone into a new"
        " workbook and save that"
    ),
    "workbook.too_many_rows": "this sheet goes on below row {most}; copy the table into a new workbook and save that",
    "workbook.too_many_styles": (
        "this workbook has more styles or names than any table needs; copy the table alone into a new workbook and"
        " save that"
    ),
    "workbook.too_many_texts": (
        "this workbook has more texts than any table needs; copy the table alone into a new workbook and save that"
    ),
    "workbook.took_too_long": (
        "this workbook took longer than {seconds} s to read, so it was left; copy the table alone into a new "
        "workbook and save that"
    ),
    "workbook.took_too_much_memory": (
        "this workbook took more than {most_mb:g} MB of memory, so it was left; copy the table alone into a new "
        "workbook and save that"
    ),
    "workbook.unpacks_too_large": (
        "this workbook unpacks to far more than it should; copy the table into a new one and save that"
    ),
}
