"""What is said of reading and writing files."""

SENTENCES = {
    "file.blank_list_of_another_kind": "a blank list is written as .csv or .xlsx, not as {kind!r}",
    "file.book_for_job": "this is a book, and a job is needed here; name the job's own file",
    "file.cant_be_read": "{path!r:.300} can't be read: {reason}",
    "file.format_missing": "this is missing; add the line format = {current} above the first heading",
    "file.format_no_whole_number": "this is not a whole number; write format = {current}",
    "file.hours_needed": "this is a job or a book, and hours and invoices are needed here; name their own file",
    "file.impossible_name": "{path!r:.300} can't be read: its name is not one that a file can have",
    "file.job_for_book": "this is a job, and the book is needed here; name the book's own file",
    "file.may_not_be_read": "{path!r:.300} may not be read; its permissions keep you out",
    "file.more_faults": "{faults} more faults are not listed; mend these first",
    "file.neither_encoding": "a character here is not UTF-8; save the file again as UTF-8",
    "file.no_such_format": "there never was a format {format}; write format = {current}",
    "file.no_such_sample": "there is no sample {name!r}{hint}",
    "file.not_a_file": "{path!r:.300} is not a file; name the file itself",
    "file.not_found": "there is no file {path!r:.300}; check its name and folder",
    "file.not_utf_8": (
        "a character here is not UTF-8; save the file again as UTF-8; in the old Western encoding it reads: {line:.80}"
    ),
    "file.nul_character": (
        "no text has this character (NUL); the file is in another encoding, so save it again as UTF-8"
    ),
    "file.of_newer_format": (
        "this file was written by a newer Rodbook (format {format}; this one reads up to {current})"
    ),
    "file.too_large": "it is larger than {most_mb:g} MB; no real one is, so it is not read",
    "file.utf_16_damaged": "the UTF-16 text breaks off or is damaged here; save the file again as UTF-8",
    "file.cant_be_written": "{path} can't be written: {reason}.",
    "file.there_already": "{path} is there already; choose another name, nothing was written.",
}
