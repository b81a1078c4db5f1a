"""What desk has to say."""

SENTENCES = {
    "desk.not_what_looked": "this is not what was looked at; choose the file again",
    "desk.text": "{fault}",
    "desk.no_day": "{since} is no day; write it as 2026-12-01",
    "desk.nothing_ticked": "nothing is ticked; tick what holds",
    "desk.text_2": "{said}; keep the name",
    "desk.what_offered_not_offered_any": (
        "what was offered is not offered any more, as hours or the book have changed; look again"
    ),
    "desk.hours_up": "hours up to {last} are in it, so it can hold from that day at the earliest",
    "desk.choose_what_price": "choose what the price is for",
    "desk.choose_board": "choose the board that it is of",
    "desk.choose_board_to_cut": "choose the board that it is to be cut from",
    "desk.only_owner": "{user} is the only owner; make somebody else owner first",
    "desk.choose_owner_maker_reader": "choose owner, maker or reader",
    "desk.name_longer_than_characters": "this name is longer than {longest_name} characters",
    "desk.account_already": "there is an account {name!r} already; choose another name",
    "desk.no_second_step": "{user} has no second step",
    "desk.password_given": "this is the password that you were given; choose one that nobody else knows",
    "desk.name_letters_digits": "a name has letters, digits and @ . + - _ in it and no space",
    "desk.not_password_as_stands": "this is not your password as it stands",
    "desk.file_larger_than_mb": "the file is larger than 5 MB, so it is no job file",
    "desk.no_desk_in_missing": "there is no desk in {home}: {database} is missing; name its folder with --home",
    "desk.no_backup_made_as_database": (
        "no backup was made, as the database is damaged ({error}): `rodbook desk-check` says what, and what can be done"
    ),
    "desk.backup_cant_written": (
        "the backup {to} can't be written: {strerror}; make room there, or name another place with --to"
    ),
    "desk.damaged_no_backup_what": (
        "{path} is damaged or no backup: what is in it is not what was written; nothing was changed, take another"
        " backup"
    ),
    "desk.sealed_give_passphrase_made": "{path} is sealed: give the passphrase that it was made with",
    "desk.format_rodbook_reads_format_bring": (
        "{path} has format {form!r}, and this Rodbook reads format {format}: bring it back with the version that "
        "made it"
    ),
    "desk.in_these_files_missing_not": (
        "in {path} these files are missing or not what was written: {wrong}; take another backup"
    ),
    "desk.database_in_backup_damaged": "the database in this backup is damaged ({faults}); take another backup",
    "desk.backup_cant_read": "the backup {path} can't be read: {strerror}; name another file",
    "desk.cant_read_as_backup": "{path} can't be read as a backup ({error}); take another one",
    "desk.cant_brought_back": "{path} can't be brought back: {strerror}; make room, or name another place",
    "desk.no_manifest_can_read": "{path} has no manifest that can be read; take another backup",
    "desk.beside_nothing_can_written": (
        "beside {home} nothing can be written: {strerror}; name another place with --home"
    ),
    "desk.cant_replaced": "{home} can't be replaced: {strerror}; what was there stands as it was",
    "desk.folder_backups_not_plug": "the folder for backups, {folder}, is not there: plug it in, or choose another",
    "desk.not_number": "{self_} is not a number from {least} to {most}",
    "desk.schedule_cant_kept": "the schedule can't be kept in {home}: {strerror}; make room there",
    "desk.name_whole_path_folder": (
        "name a whole path: a folder on a stick, on another disk, or one that is copied elsewhere"
    ),
    "desk.passphrase_at_least_signs": "a passphrase has at least {shortest} signs",
    "desk.desks_folder_cant_kept": (
        "the desk's folder {home} can't be kept from others ({strerror}); it has to belong to whoever starts the "
        "desk: name another with --home, or have its owner changed"
    ),
    "desk.desks_folder_in_use": (
        "the desk's folder {home} is in use by {home_2}: use that desk, stop it first, or name another folder "
        "with --home"
    ),
    "desk.desks_folder_cant_used": "the desk's folder {home} can't be used: {strerror}; name another with --home",
    "desk.damaged_so_nothing_made": "it is damaged, so nothing was made of it",
    "desk.database_in_cant_read_rodbook": (
        "the database in {home} can't be read ({error}): `rodbook desk-check` says what can be done"
    ),
    "desk.database_in_could_not_brought": (
        "the database in {home} could not be brought up to date ({error}): it stands as it was; go on with the "
        "version of Rodbook that you had, and report this"
    ),
    "desk.cant_bought": "it can't be bought in: {why_not}",
    "desk.write_what_invoice_how_much": "write what the invoice is for, and how much",
    "desk.empty": "this is empty; write what it is for",
    "desk.no_such_revision_before_one": "there is no such revision before this one; choose an earlier",
    "desk.longer_than_letters": "this is longer than {longest} letters; say it in a line",
    "desk.no_day_2": "{typed!r} is no day; write it as 2026-12-01",
    "desk.write_mark_with_letters_numbers": "write the mark with letters, numbers, spaces and dashes, as on the labels",
    "desk.already": "{mark} is there already; each opening needs a mark of its own",
    "desk.wont_do_here": "{input!r:.60} won't do here",
    "desk.opening_needs_mark_such": "an opening needs its mark, such as C3",
    "desk.opening_one_two_three_leaves": "an opening has one, two or three leaves",
    "desk.text_longer_than_characters": "this text is longer than 400 characters",
    "desk.mark_at_most_characters": "a mark has at most 80 characters",
    "desk.no_block_grid": "this is no block of a grid; copy it again, or bring it in as a file",
    "desk.block_too_long_to_pasted": "the block is too long to be pasted; save it as a file and bring that in",
    "desk.no_amount": "{amount} is no amount of {currency}; write it as it stands there",
    "desk.choose_what_done": "choose what was done",
    "desk.no_time": "{said!r} is no time; write {value}, 1:30 or 90 min",
    "desk.invoice_put_down_already": "invoice {number} of {supplier} is put down already",
    "desk.no_number": "{done!r} is no number; write it as 12 or {value}",
    "desk.not_in_book_any_more": "{size} is not in the book any more, or has another name now; look at it anew",
    "desk.what_to_changed_not": "what was to be changed is not in the book any more",
    "desk.not_in_book_any_more_2": "{was} is not in the book any more, or has another name now; look at it anew",
    "desk.only_size": "{size} is the only size of {was}; put another in first",
    "desk.not_in_book_any_more_3": "{name} of {stock} is not in the book any more; look at the list again",
    "desk.book_from_already": "the book has {amount} from {since} already; give another day",
    "desk.no_jpeg_png_webp_picture": "this is no JPEG, PNG or WebP picture, so it was not kept",
    "desk.layouts_costs_not_worked_out": "layouts and costs are not worked out yet",
    "desk.not_on_list_wanted_pieces": "{label} is not on the list of wanted pieces any more; look at the list anew",
    "desk.not_in_shop_any_more": "it is not in the shop any more by the book; look at the layouts again",
    "desk.not_in_book_any_more_4": "{board} is not in the book any more; look at the layouts again",
    "desk.book_label_on_something_else": "the book has that label on something else since; look at the layouts again",
    "desk.nothing_before_first_revision": "there is nothing before the first revision to go back to",
    "desk.revision_what_saved_so_nothing": "revision {number} is what was saved, so there is nothing to go back behind",
    "desk.revision_not_what_saved_either": "revision {number} is not what was saved either; go on from an earlier one",
    "desk.choose_file_first": "choose a file first",
    "desk.file_ending_in_no_list": "a file ending in {suffix} is no list; save it as .csv or .xlsx",
    "desk.nothing_begun_anew": "{what}: nothing was begun anew; {home}",
    "desk.no_name_machine": "{name!r} is no name of a machine; write it as people type it, as in desk.example",
    "desk.desks_folder_cant_written_make": (
        "the desk's folder {home} can't be written ({strerror}): make room on its disk, or name another with --home"
    ),
    "desk.cant_used": "{host}:{port} can't be used ({strerror}); choose another",
    "desk.text_3": "{where}{what}",
    "desk.nobody_to_do_work": "there is nobody to do the work; name at least one person",
    "desk.no_working_day_in_week": "there is no working day in the week; choose at least one",
    "desk.hours_wont_do": "{text} hours won't do; from 0 to {most_hours} are taken",
    "desk.already_2": "{name!r} is there already; tell them apart by name",
    "desk.no_trade": "there is no trade {trades!r}; choose one of the list",
    "desk.not_number_hours": "{text!r} is not a number of hours; write 3 or {value}",
    "desk.days_off_nobody": "days off of nobody; write whose they are",
    "desk.cant_wait_itself": "{name!r} can't wait for itself; name another task",
    "desk.no_task": "there is no task {name!r}{name_2}",
    "desk.still_to_come": "{day} is still to come; put hours down when they are worked",
}
