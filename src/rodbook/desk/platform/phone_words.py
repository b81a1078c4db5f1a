"""What the desk's script says on a phone without signal. `%n` is a number, `%t` a time, `%w` a name, put in by the script."""

from __future__ import annotations

import json

from django.utils.translation import gettext as _

__all__ = ["words"]


def words() -> str:
    """Every sentence by its name, as JSON."""
    values = {
        "idle": _("Everything is sent."),
        "sent": _("Sent, %t."),
        "sending": _("Sending …"),
        "away": _("No signal."),
        "away_one": _("No signal: 1 reading kept on this phone."),
        "away_many": _("No signal: %n readings kept on this phone."),
        "wait_one": _("1 reading is kept on this phone and not sent yet."),
        "wait_many": _("%n readings are kept on this phone and not sent yet."),
        "photo_one": _("1 picture is kept on this phone and not sent yet."),
        "photo_many": _("%n pictures are kept on this phone and not sent yet."),
        "open_one": _("1 is kept on this phone and asks something:"),
        "open_many": _("%n are kept on this phone and ask something:"),
        "sign_in": _("Sign in again; then they are sent."),
        "others_one": _("1 more is kept for %w and sent when %w signs in on this phone."),
        "others_many": _("%n more are kept for %w and sent when %w signs in on this phone."),
        "refused": _("The desk did not take it: "),
        "no_store": _(
            "This browser keeps nothing (a private window?): readings are lost when this page is closed without signal."
        ),
        "kept_page": _("This page is as it was at %t; readings kept on this phone are added to it."),
        "mine": _("Save mine"),
        "theirs": _("Leave theirs"),
        "drop": _("Throw it away"),
        "read_again": _("Read it again"),
        "on_phone": _("kept on this phone"),
        "was_sent": _("sent"),
        "no_choice": _("Left out, as the list there has no such choice:"),
        "typed_at": _("typed %t"),
        "form_away": _(
            "No signal: only readings and pictures can be kept on this phone. Leave this page open and press "
            "again later."
        ),
        "no_digit": _("Write a length in millimetres, such as 842 or 842,5."),
        "leave_warn": _(
            "Readings are still kept on this phone and not sent. They stay here and are sent when you sign in "
            "again. Sign out?"
        ),
        "along_idle": _(
            "Keeps the job's pages for measuring, its pictures and its papers without prices on this phone, as "
            "they are now."
        ),
        "along_doing": _("Taking along: %n of %m …"),
        "along_done": _(
            "Taken along %t: %n pages, papers and pictures. They stay on this phone until you sign out or your "
            "role changes."
        ),
        "along_left": _("Papers that wait for layouts and costs were not made yet and are not among them."),
        "along_part": _("%n could not be fetched; press again when the signal is better."),
        "along_no": _(
            "This browser keeps no pages here: that needs HTTPS, or the desk's own machine. Readings typed on a "
            "page that is open are kept all the same."
        ),
        "kept_list": _("Kept on this phone"),
        "kept_none": _("No page of a job is kept on this phone."),
        "kept_measure": _("measure on site"),
    }
    return json.dumps(values, ensure_ascii=False)
