"""What job has to say."""

SENTENCES = {
    "job.not_utf_8": "{text}",
    "job.text": "{said}; keep one of them",
    "job.out_order": "{shown} are out of order; least, wanted and most must not fall",
    "job.cover_strip_needs_section_any": "a cover strip needs its section, and any other meeting edge none",
    "job.two_holes_need_distance_between": "two holes need the distance between them, more than 0 mm",
    "job.density_low_more_than_density": "density_low is more than density_high; change them over",
    "job.no_currency_code": "no currency has the code {currency!r}; write its three letters, as in EUR",
    "job.heights_masses_counts_must_all": "heights, masses and counts must all grow from row to row",
    "job.to_ends_before_begins": "{first} to {last} ends before it begins; write the earlier day first",
    "job.no_supplier": "there is no supplier {supplier!r}{right}",
    "job.such_hole_so_to_more": "there is such a hole, so this has to be more than 0 mm",
    "job.hold": "{count} {what} hold from {day}; keep one of them",
    "job.names_sizes_offcuts": "{label!r} names {count} sizes or offcuts; each needs its own name",
    "job.stands_times": "{name!r} stands {count} times for {day}; keep one of them",
    "job.no_way_writing_numbers": "{locale!r} is no way of writing numbers; write a language, as in en, de or de_AT",
    "job.margin_too_which_says_same": "there is a margin too, which says the same another way; keep one of the two",
    "job.margin_leaves_nothing_cost": "a margin of {margin:g} leaves nothing for the cost; write 0.2 for a fifth",
    "job.out_range": "{confidence:g} is out of range; write a share from 0.01 to 0.99",
    "job.before_start": "{by} is before the start, {start}; choose a later day",
    "job.no_day_given": "no day is given for {supplier!r}; give the day of the order, or take it out",
    "job.before_ordered": "{promised} is before it was ordered, {ordered}; put one of the two right",
    "job.before_ordered_2": "{came} is before it was ordered, {ordered}; put one of the two right",
    "job.stands_here_twice": "{name!r} stands here twice; give each its own name",
    "job.mm_less_than_linings_depth": (
        "{depth:g} mm is less than the lining's depth in {name!r}, {lining_depth:g} mm; measure again or choose a"
        " shallower build-up"
    ),
    "job.no_kind_part": "there is no kind of part {kind!r}{kind_2}",
    "job.cant_wait_itself": "{name!r} can't wait for itself; name another task",
    "job.no_price_holds": "{name!r} has no price that holds on {day}",
    "job.widths_asked_in_millimetres": "widths are asked for in millimetres and in shares; keep one of the two",
    "job.leaves_in_more_than_one": "there are leaves in more than one row; leave one of them, or make two openings",
    "job.aprons_alone_close_nothing_opens": "aprons alone close nothing that opens; add leaves, a drawer or a flap",
    "job.under_raked_head_front_not": "under a raked head a front is not divided in rows; leave them out",
    "job.planned_opening_needs_wanted_size": (
        "a planned opening needs the wanted size once: either leaf or clear, as [width, height]"
    ),
    "job.mm_from_does_not_go": (
        "{value:g} mm from {end} does not go with the widths and heights; about {fair:.0f} would be right"
    ),
    "job.wanted_size_belongs_to_planned": "a wanted size belongs to a planned opening; this one is standing",
    "job.no_reading": "there is no reading {name!r}{name_2}",
    "job.widths_leaves": "{asked} widths for {leaves} leaves; give one for each",
    "job.wanted_leaf_one_equal_leaves": (
        "a wanted leaf is one of equal leaves; give the clear size that is wanted instead"
    ),
    "job.planned_opening_no_readings_yet": "a planned opening has no readings yet; leave them out or mark it standing",
    "job.text_2": "{said}; write the wall between each two, from the left",
    "job.their_build_ups_differ": "their build-ups differ ({listed}), so their trims can't run on",
    "job.stands_in_another_run_too": "{mark!r} stands in another run too; keep it in one",
    "job.book": "the book has no {what} {name!r}{hint}",
    "job.nothing_waits_to_confirmed_stands": "nothing that waits to be confirmed stands here; look at the list again",
    "job.job_book_hours_invoices_needed": (
        "this is a job or a book, and hours and invoices are needed here; name their own file"
    ),
    "job.blank_list_written_as_csv": "a blank list is written as .csv or .xlsx, not as {kind!r}",
    "job.does_not": "it does not have {missing}",
    "job.no_workshop": "it has no workshop {workshop!r}",
    "job.laid_out_in_way_prices": "it is laid out in a way that prices can't be added to; put them in by hand",
    "job.more_faults_not_listed": "{faults} more faults are not listed; mend these first",
    "job.book_job_needed_here": "this is a book, and a job is needed here; name the job's own file",
    "job.job_book_needed_here": "this is a job, and the book is needed here; name the book's own file",
    "job.quotation_marks_do_not_match": "quotation marks do not match; a mark inside a cell is written twice",
    "job.quotation_marks_do_not_match_2": (
        "quotation marks do not match here, or a cell is far too long; a mark inside a cell is written twice"
    ),
    "job.larger_than_mb": "it is larger than {most:g} MB; no real one is, so it is not read",
    "job.not_file": "{shown} is not a file; name the file itself",
    "job.no_file": "there is no file {shown}; check its name and folder",
    "job.may_not_read": "{shown} may not be read; its permissions keep you out",
    "job.cant_read": "{shown} can't be read: {reason}",
    "job.file_ends_here": "the file ends here, and {sentence}",
    "job.table_csv_xlsx_file": "a table is a .csv or .xlsx file, and this is {kind}; save it so",
    "job.table_empty": "this table is empty; its first row holds the headings, such as mark and room",
    "job.table_headings_no_openings_below": "this table has headings and no openings below them; add a row for each",
    "job.rows_stand_here": "{body} rows stand here; at most {most_rows} are read from one table",
    "job.no_column_mark": "there is no column 'mark'; each opening needs its name",
    "job.no_columns_sizes": (
        "there are no columns of sizes; give readings (width foot, width middle, width head, height left, height "
        "middle, height right), or the wanted leaf width and leaf height"
    ),
    "job.no_column": "there is no column {shown!r}{hint}",
    "job.missing": "{said} missing; all of {group} are needed, or none of them",
    "job.missing_2": "this is missing; add the line format = {current} above the first heading",
    "job.not_whole_number": "this is not a whole number; write format = {current}",
    "job.file_written_by_newer_rodbook": (
        "this file was written by a newer Rodbook (format {shown}; this one reads up to {current})"
    ),
    "job.never_format": "there never was a format {found}; write format = {current}",
    "job.workbook_no_sheet_with_cells": "this workbook has no sheet with cells",
    "job.result_formula_not_saved": (
        "the result of this formula is not saved; open the workbook in a spreadsheet and save it, or write the "
        "value itself"
    ),
    "job.workbook_old_kind_locked": "this workbook is of the old kind or locked; save it again as plain .xlsx",
    "job.workbook_unpacks_to_far_more": (
        "this workbook unpacks to far more than it should; copy the table into a new one and save that"
    ),
    "job.workbook_holds_what_none_needs": (
        "this workbook holds what none needs, and is not opened; save it again as .xlsx"
    ),
    "job.workbook_more_than_any_table": "this workbook has more {what} than any table needs; {smaller}",
    "job.begins_with_figure_as_marks": (
        "{mark!r} begins with a figure, as the marks of parts do ({value}); begin it with a letter, such as R{mark_2}"
    ),
    "job.no_build_up_in_book": "there is no build-up {name!r} in the book{name_2}",
    "job.build_up_no_such_gap": "this build-up has no such gap; take it out",
}
