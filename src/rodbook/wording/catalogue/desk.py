"""What the desk has to say."""

SENTENCES = {
    # book
    "desk.entries_used": "{entries:semi}",
    "desk.entry_used": "{name} is used {users}",
    "desk.for_its_aprons": "for its aprons",
    "desk.for_its_drawers": "for its drawers",
    "desk.for_its_end_panels": "for its end panels",
    "desk.for_its_flaps": "for its flaps",
    "desk.for_its_leaves": "for its leaves",
    "desk.for_its_linings": "for its linings",
    "desk.for_its_meeting_edges": "for its meeting edges",
    "desk.for_its_trim": "for its trim",
    "desk.hours_up_to_day": "hours up to {last} are in it, so it can hold from that day at the earliest",
    "desk.known_by_name": "{used}; keep the name",
    "desk.list_not_looked_at": "this is not what was looked at; choose the file again",
    "desk.no_price_list_so_long": "the list is larger than 10 MB; no price list is so long",
    "desk.offer_gone": "what was offered is not offered any more, as hours or the book have changed; look again",
    "desk.used_by_build_up": "by the build-up {build_up}",
    "desk.used_by_build_up_for": "by the build-up {build_up} {uses:and}",
    "desk.used_by_job": "by the job {job} {places}",
    "desk.used_for_opening": "for {mark}",
    "desk.used_for_panel": "for panel {mark}",
    "desk.used_throughout": "throughout",
    "desk.used_to_make_parts": "to make its parts",
    "desk.users_and_last": "{users}, and {last}",
    # entrance
    "desk.account_there_already": "there is an account {name!r} already; choose another name",
    "desk.no_second_step": "{user} has no second step",
    "desk.only_owner": "{user} is the only owner; make somebody else owner first",
    # jobs
    "desk.job_file_too_large": "the file is larger than 5 MB, so it is no job file",
    # keeping
    "desk.backup_damaged": (
        "{path} is damaged or no backup: what is in it is not what was written; nothing was changed, take another"
        " backup"
    ),
    "desk.backup_database_damaged": "the database in this backup is damaged ({reason}); take another backup",
    "desk.backup_files_wrong": (
        "in {path} these files are missing or not what was written: {files}; take another backup"
    ),
    "desk.backup_folder_missing": "the folder for backups, {folder}, is not there: plug it in, or choose another",
    "desk.backup_not_brought_back": "{path} can't be brought back: {reason}; make room, or name another place",
    "desk.backup_not_read": "the backup {path} can't be read: {reason}; name another file",
    "desk.backup_not_sealed": "this is no sealed backup",
    "desk.backup_not_written": (
        "the backup {path} can't be written: {reason}; make room there, or name another place with --to"
    ),
    "desk.backup_of_damaged": (
        "no backup was made, as the database is damaged ({reason}): `rodbook desk-check` says what, and what can "
        "be done"
    ),
    "desk.backup_of_other_format": (
        "{path} has format {found!r}, and this Rodbook reads format {known}: bring it back with the version that "
        "made it"
    ),
    "desk.backup_sealed": "{path} is sealed: give the passphrase that it was made with",
    "desk.backup_without_manifest": "{path} has no manifest that can be read; take another backup",
    "desk.database_check_said": "{found}",
    "desk.database_not_read": (
        "the database in {home} can't be read ({reason}): `rodbook desk-check` says what can be done"
    ),
    "desk.database_not_upgraded": (
        "the database in {home} could not be brought up to date ({reason}): it stands as it was; go on with the "
        "version of Rodbook that you had, and report this"
    ),
    "desk.folder_in_use": (
        "the desk's folder {home} is in use by {holder}: use that desk, stop it first, or name another folder "
        "with --home"
    ),
    "desk.folder_not_private": (
        "the desk's folder {home} can't be kept from others ({reason}); it has to belong to whoever starts the "
        "desk: name another with --home, or have its owner changed"
    ),
    "desk.folder_not_usable": "the desk's folder {home} can't be used: {reason}; name another with --home",
    "desk.no_desk_here": "there is no desk in {home}: {database} is missing; name its folder with --home",
    "desk.not_a_backup": "{path} can't be read as a backup ({reason}); take another one",
    "desk.not_replaced": "{home} can't be replaced: {reason}; what was there stands as it was",
    "desk.not_writable_beside": "beside {home} nothing can be written: {reason}; name another place with --home",
    "desk.photo_damaged": "it is damaged, so nothing was made of it",
    "desk.schedule_not_kept": "the schedule can't be kept in {home}: {reason}; make room there",
    "desk.sealed_ends_too_soon": "this backup ends too soon: it can't be opened",
    "desk.sealed_line_damaged": "the second line of this backup is damaged: it can't be opened",
    "desk.sealed_not_opened": "this backup can't be opened: the passphrase is another one, or the file is damaged",
    # make
    "desk.job_changed_meanwhile": "the job was changed meanwhile; look at its layouts again",
    "desk.no_quote_so_long": "the list is larger than 10 MB; no quote is so long",
    "desk.piece_neither_left_nor_used": (
        "this job neither leaves it nor uses it up, or it was put down already; look at the layouts again"
    ),
    "desk.piece_not_cut_any_more": "this is not cut from this job any more; look at the list again",
    "desk.pieces_cut_first": "say first which of the pieces wanted elsewhere were cut: what is left over goes by that",
    "desk.pieces_ticked_already": "pieces of this job are ticked off already; none is taken off the list twice",
    # money
    "desk.layouts_stopped": "the layouts were stopped; look again to have them worked out",
    "desk.no_such_revision_before": "there is no such revision before this one; choose an earlier",
    # openings
    "desk.mark_there_already": "{mark} is there already; each opening needs a mark of its own",
    "desk.no_job_so_long": "the list is larger than 10 MB; no job has so many openings",
    # platform
    "desk.board_gone_from_book": "{board} is not in the book any more; look at the layouts again",
    "desk.dates_not_worked_out": "the dates could not be worked out ({reason}); try again",
    "desk.entry_gone_from_book": "what was to be changed is not in the book any more",
    "desk.first_revision": "there is nothing before the first revision to go back to",
    "desk.gone_from_book": "{name} is not in the book any more, or has another name now; look at it anew",
    "desk.gone_from_shop": "it is not in the shop any more by the book; look at the layouts again",
    "desk.gone_from_wanted": "{label} is not on the list of wanted pieces any more; look at the list anew",
    "desk.invoice_there_already": "invoice {number} of {supplier} is put down already",
    "desk.label_taken_since": "the book has that label on something else since; look at the layouts again",
    "desk.layouts_not_worked_out": "the layouts could not be worked out ({reason}); try again",
    "desk.list_row": "{place}: {said}",
    "desk.not_a_picture": "this is no JPEG, PNG or WebP picture, so it was not kept",
    "desk.not_costed_yet": "layouts and costs are not worked out yet",
    "desk.only_size": "{size} is the only size of {stock}; put another in first",
    "desk.picture_broken": "the picture is broken or breaks off, so it was not kept; take or choose it again",
    "desk.picture_too_large": (
        "the picture has more pixels than can be looked at safely, so it was not kept; take it with at most "
        "{most_million:g} million, as a plain JPEG with at most {most_jpeg_million:g} million"
    ),
    "desk.picture_too_much": "the picture took too much memory to open, so it was not kept; take it at a smaller size",
    "desk.picture_too_slow": (
        "the picture took longer than {most_s} s to open, so it was not kept; take it at a smaller size"
    ),
    "desk.pictures_busy": "other pictures are still being taken in; send this one again in a minute",
    "desk.pictures_full": (
        "the pictures of all jobs have reached the {most_mb:g} MB that are set aside for them, so this one was "
        "not kept; take pictures away that nobody needs, or have RODBOOK_DESK_PICTURE_MB raised"
    ),
    "desk.price_stands_already": "the book has {amount} from {since} already; give another day",
    "desk.revision_unreadable": "{name}, revision {number}: what stands there can't be read any more",
    "desk.revision_is_newest": "revision {number} is what was saved, so there is nothing to go back behind",
    "desk.revision_not_saved_either": "revision {number} is not what was saved either; go on from an earlier one",
    "desk.size_gone_from_book": "{name} of {stock} is not in the book any more; look at the list again",
    "desk.the_dates": "the dates",
    "desk.the_layouts": "the layouts",
    "desk.work_ended_from_outside": (
        "{what} broke off, as their worker was ended from outside, perhaps for want of memory; nothing is lost, "
        "try again"
    ),
    "desk.work_failed": "{what} broke off, as the desk itself failed over them ({reason}); nothing is lost, try again",
    "desk.work_not_started": (
        "{what} could not be begun, as the machine would not start a worker for them; close something and try again"
    ),
    "desk.work_silent": (
        "{what} were given up, as their worker told nothing for {silence_s:.0f} seconds; nothing is lost, try again"
    ),
    "desk.work_too_long": (
        "{what} were given up, as they took more than {longest_min:.0f} minutes; nothing is lost, try again, and "
        "where it happens again split the job"
    ),
    # serve
    "desk.address_not_usable": "{host}:{port} can't be used ({reason}); choose another",
    "desk.folder_not_written": (
        "the desk's folder {home} can't be written ({reason}): make room on its disk, or name another with --home"
    ),
    "desk.not_a_machine": "{name!r} is no name of a machine; write it as people type it, as in desk.example",
    "desk.nothing_begun_anew": "{reason}: nothing was begun anew; {hint}",
    # setout
    "desk.not_in_job_yet": "it was not in the job yet where this page was opened; open it again",
    # site
    "desk.job_without_tasks": "the job has no tasks now; have its layouts and costs worked out",
    "desk.nothing_ordered_there": "nothing is ordered from there now; look at what is, and say it again",
    "desk.task_said": "{task}: {said}",
}
