"""What is wrong with a run of openings."""

from rodbook.wording.rendering import Many

SENTENCES: dict[str, str | Many] = {
    "run.build_ups_differ": "their build-ups differ ({build_ups}), so their trims can't run on",
    "run.no_such_opening": "there is no opening {mark!r}{hint}",
    "run.nothing_runs_on": "{mark!r} is built as {build_up!r}, which has neither trim nor plinth that could run on",
    "run.opening_in_another": "{mark!r} stands in another run too; keep it in one",
    "run.opening_stands_aside": Many(
        "{marks} stands aside, so nothing runs on here and each of the others keeps its own",
        "{marks} stand aside, so nothing runs on here and each of the others keeps its own",
        "marks",
    ),
    "run.opening_twice": "{mark!r} stands in it twice; name each opening once, from the left",
    "run.piers_do_not_fit": Many(
        (
            "{openings} openings have {needed} pier between them, not {piers}; write the wall between each two, from"
            " the left"
        ),
        (
            "{openings} openings have {needed} piers between them, not {piers}; write the wall between each two, "
            "from the left"
        ),
        "needed",
    ),
    "run.raked_head": "the head of {mark!r} is raked; a trim runs on over level heads only",
    "run.sill": "{mark!r} has a sill, so its trim goes all round and can't run on",
}
