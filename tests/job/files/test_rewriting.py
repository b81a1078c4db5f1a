"""Jobs rewritten without losing what a person wrote around them."""

import difflib

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from rodbook.job import Job, Opening
from rodbook.job.files import parse_job, sample_names, sample_text, update_job, write_job

TEXT = """\
# The seed store, as measured in the rain.
format = 1   # never change this

[job]
name="Seed store" # the client says granary
date = 2026-11-02
build_up = 'inset, painted'

# --- north bay ---
[[openings]]
mark = "C1"  # by the stairs
widths = [
  840, # foot, under the lino
  "84.1 cm",
  842,
]
heights = [2_030, 2030.0, 2030]
# nails in the left side

# --- south bay ---

[[openings]]
room = 'by the window'
mark = "C2"
widths = [840, 840, 840]
heights = [2000, 2000, 2000] # checked twice

[[openings]] # the odd one
mark = "C3"
widths = [840, 840, 840]
heights = [2000, 2000, 2000]
depth = "45,5 cm"

# --- panels ---
[[panels]]
mark = "P1"
board = "18 mm MDF"
length = 500
width = 300"""

JOB = parse_job(TEXT)
C1, C2, C3 = JOB.openings
NEW = Opening.model_validate({"mark": "N", "state": "planned", "leaf": (447, 2100)})


def rewritten(**change):
    """The lines that were taken out and put in, and the whole; which reads as it should."""
    job = Job.model_validate({**dict(JOB), **change})
    text = update_job(TEXT, job)
    assert parse_job(text) == job
    lines = difflib.ndiff(TEXT.splitlines(), text.splitlines())
    return [line for line in lines if line[0] in "+-"], text


@pytest.mark.parametrize("text", [TEXT, *map(sample_text, sample_names())])
def test_nothing_changes_where_nothing_changed(text):
    assert update_job(text, parse_job(text)) == text


def test_only_what_changed_is_written_anew_and_comments_stay():
    opening = C1.model_copy(update={"widths": (840, 841, 850), "mark": "C9"})
    assert rewritten(openings=(opening, C2, C3))[0] == [
        '- mark = "C1"  # by the stairs',
        '+ mark = "C9"  # by the stairs',
        "-   842,",
        "+   850,",
    ]
    header = JOB.job.model_copy(update={"name": "Granary", "revision": "B", "note": "x"})
    assert rewritten(job=header)[0] == [
        '- name="Seed store" # the client says granary',
        '+ name="Granary" # the client says granary',
        '+ revision = "B"',
        '+ note = "x"',
    ]


def test_new_fields_stand_below_the_others_and_fields_without_value_go():
    opening = C2.model_copy(update={"note": "damp", "room": ""})
    gone = C3.model_copy(update={"depth": None})
    assert rewritten(openings=(C1, opening, gone))[0] == [
        "- room = 'by the window'",
        '+ room = ""',
        '+ note = "damp"',
        '- depth = "45,5 cm"',
    ]


def test_a_new_opening_stands_in_its_place():
    lines, text = rewritten(openings=(C1, NEW, C2, C3))
    assert len(lines) == 5
    assert (
        "# nails in the left side\n\n"
        '[[openings]]\nmark = "N"\nstate = "planned"\nleaf = [447, 2100]\n\n'
        "# --- south bay ---\n\n[[openings]]\n"
    ) in text
    lines, text = rewritten(openings=(C1, C2, C3, NEW))
    assert all(line.startswith("+") for line in lines)
    assert 'leaf = [447, 2100]\n\n# --- panels ---\n[[panels]]\nmark = "P1"' in text


def test_an_opening_that_goes_takes_its_own_comments_along():
    lines, text = rewritten(openings=(C1, C3))
    assert "# --- south bay ---" not in text
    assert all(line.startswith("-") for line in lines)
    assert len(lines) == 8  # a comment, a heading, four fields, and a blank line after each block


def test_comments_above_an_opening_move_with_it():
    _, text = rewritten(openings=(C3, C2, C1))
    assert "# --- south bay ---\n\n[[openings]]\nroom = 'by the window'" in text
    assert "# --- north bay ---\n[[openings]] # the odd one\n" in text
    assert "# nails in the left side\n\n# --- panels ---\n" in text
    _, text = rewritten(openings=(C2, NEW))
    assert "# --- north bay ---\n# --- south bay ---\n\n[[openings]]\nroom" in text


def test_all_openings_may_go_and_come():
    _, bare = rewritten(openings=())
    assert "openings" not in bare
    assert "# The seed store" in bare
    back = update_job(bare, JOB)
    assert parse_job(back) == JOB
    assert "# never change this" in back


def test_makers_of_parts_are_put_in_changed_and_taken_out():
    _, text = rewritten(making={"door": "bought-in", "trim leg": "site-made"})
    assert text.endswith('\n\n[making]\ndoor = "bought-in"\n"trim leg" = "site-made"\n')
    changed = update_job(text, Job.model_validate({**dict(JOB), "making": {"trim leg": "cheaper"}}))
    assert changed.endswith('\n\n[making]\n"trim leg" = "cheaper"\n')


def test_older_documents_are_brought_up_to_date_in_place():
    old = (
        TEXT.replace("format = 1 ", "format = 0 ")
        .replace("widths = [840", "w = [840")
        .replace("heights = [2000", "h = [2000")
    )
    text = update_job(old, parse_job(old))
    assert parse_job(text) == JOB
    assert "format = 1   # never change this" in text
    assert "# the client says granary" in text


def test_openings_written_as_one_list_are_changed_in_it():
    head = TEXT.split("\n# --- north bay")[0]
    text = (
        f'openings = [ {{ mark = "C1", widths = [840, 841, 842], heights = [2030, 2030, 2030] }}, ] # short\n{head}\n'
    )
    job = parse_job(text)
    changed = job.model_copy(update={"openings": (job.openings[0].model_copy(update={"leaves": 2}),)})
    written = update_job(text, changed)
    assert parse_job(written) == changed
    assert "# short" in written
    more = job.model_copy(update={"openings": (*job.openings, NEW)})
    assert parse_job(update_job(text, more)) == more


def test_a_document_with_faults_is_mended():
    bad = TEXT.replace('mark = "C2"', 'mark = "C2"\nhand = "lft"').replace("840, # foot", '"wide", # foot')
    text = update_job(bad, JOB)
    assert parse_job(text) == JOB
    assert "840, # foot, under the lino" in text
    assert "lft" not in text


HEAD = 'format = 1\n[job]\nname = "x"\ndate = 2026-01-01\nbuild_up = "b"\n'
PLANNED = '[[openings]]\nmark = "{}"\nstate = "planned"\nleaf = [447, 2000] # kept\n'
PAIR = PLANNED.format("A") + "# between\n" + PLANNED.format("B")
ODD = {
    "list in two pieces": "format = 1\n" + PLANNED.format("A") + HEAD[11:] + PLANNED.format("B"),
    "names with dots": 'format = 1\njob.name = "x"\njob.date = 2026-01-01\njob.build_up = "b"\n' + PAIR,
    "job on one line": 'format = 1\njob = {name = "x", date = 2026-01-01, build_up = "b"}\n' + PAIR,
    "other line ends": (HEAD + PAIR).replace("\n", "\r\n"),
    "quoted names": HEAD.replace("name", '"name"') + PAIR,
    "maker with a dot": HEAD.replace("[job]", 'making.door = "cheaper"\n[job]') + PAIR,
    "text of many lines": HEAD.replace('"x"', '"""\nx"""') + PAIR,
    "no last line end": (HEAD + PAIR).rstrip(),
    "set in": HEAD + "  " + PAIR.replace("\n", "\n  ").rstrip(),
}


@pytest.mark.parametrize("text", ODD.values(), ids=ODD)
def test_odd_layouts_are_kept_as_far_as_they_can_be(text):
    job = parse_job(text)
    first, second = job.openings
    assert update_job(text, job) == text
    for openings in [
        (second, first),
        (NEW, first, second),
        (second,),
        (first.model_copy(update={"note": "n"}), second),
    ]:
        changed = job.model_copy(update={"openings": openings})
        written = update_job(text, changed)
        assert parse_job(written) == changed
        assert written.count("# kept") == sum(opening is not NEW for opening in openings)


@pytest.mark.parametrize("text", ODD.values(), ids=ODD)
def test_whatever_the_layout_the_job_that_is_asked_for_is_written(text):
    job = parse_job(text)
    header = job.job.model_copy(update={"name": "y", "note": "new"})
    changed = Job.model_validate({**dict(job), "job": header, "making": {"panel": "site-made"}})
    assert parse_job(update_job(text, changed)) == changed


def test_values_that_read_on_the_quiet_are_written_properly():
    text = update_job(TEXT.replace('mark = "C2"', 'mark = "C2"\nleaves = true # or so'), JOB)
    assert parse_job(text) == JOB
    assert 'mark = "C2"\nleaves = 1 # or so\n' in text


def test_what_goes_wrong_inside_the_library_costs_no_job(monkeypatch):
    def fail(_text):
        raise IndexError

    monkeypatch.setattr("rodbook.job.files.rewriting.tomlkit.parse", fail)
    changed = JOB.model_copy(update={"openings": (C1, NEW)})
    assert update_job(TEXT, changed) == write_job(changed)


def test_a_document_that_is_none_is_told(told):
    assert told(update_job, "[job", JOB)[0].startswith("line 1: ")


def test_a_document_without_anything_gets_everything():
    assert parse_job(update_job("# mine\n", JOB)) == JOB
    assert update_job("# mine\n", JOB).startswith("# mine\n")


@settings(max_examples=30, deadline=None)
@given(data=st.data())
def test_any_job_can_be_written_over_any_other(data, some_jobs):
    first, second = data.draw(some_jobs), data.draw(some_jobs)
    if data.draw(st.booleans()):
        kept = data.draw(st.permutations(first.openings))
        taken = {o.mark.casefold() for o in kept}
        added = [o for o in second.openings if o.mark.casefold() not in taken]
        second = second.model_copy(update={"openings": (*kept, *added), "panels": first.panels})
    text = "# kept\n" + write_job(first).replace("format = 1", "format = 1 # kept too")
    written = update_job(text, second)
    assert Job.model_validate(parse_job(written)) == second
    assert written.startswith("# kept\n")
    assert "format = 1 # kept too" in written


def test_numbers_of_sizes_are_added_and_read_back():
    _, text = rewritten(sizes={"inset, painted": 4})
    assert text.endswith('\n\n[sizes]\n"inset, painted" = 4\n')
    assert parse_job(text).sizes == {"inset, painted": 4}


def test_further_readings_are_written_as_a_group_on_one_line():
    changed = C1.model_copy(update={"readings": {"plumb-left": 3.0, "level-floor": -1.5}})
    text = update_job(TEXT, Job.model_validate({**dict(JOB), "openings": (changed, C2, C3)}))
    assert "readings = {plumb-left = 3, level-floor = -1.5}" in text
    assert parse_job(text).openings[0].readings == {"plumb-left": 3.0, "level-floor": -1.5}
    more = changed.model_copy(update={"readings": {"plumb-left": 3.0, "bow-head": 2.0}})
    again = update_job(text, Job.model_validate({**dict(JOB), "openings": (more, C2, C3)}))
    assert parse_job(again).openings[0] == more
    assert "# foot, under the lino" in again


def test_runs_dates_and_what_was_taken_are_changed_in_their_places():
    more = """
# when they want it
[dates]
by = 2026-12-01 # they said

# along the yard
[[runs]]
name = "yard wall" # the long one
openings = ["C1", "C2"]
piers = [200]

[[taken]]
label = "W-1" # the cleats
board = "18 mm MDF"
length = 300
width = 90
number = 4
on = 2026-11-20

[[offcuts]]
label = "O-18" # by the window
board = "18 mm MDF"
length = 812.5
width = 600
went = "in"
on = 2026-11-20
"""
    job = parse_job(TEXT + more)
    (left,) = job.offcuts
    (piece,) = job.taken
    pieces = (piece.model_copy(update={"number": 5}), piece.model_copy(update={"label": "W-2"}))
    offcuts = (left, left.model_copy(update={"label": "O-14", "went": "out"}))
    changed = job.model_copy(
        update={"taken": pieces, "offcuts": offcuts, "dates": job.dates.model_copy(update={"by": None})}
    )
    written = update_job(TEXT + more, changed)
    assert parse_job(written) == changed
    for comment in ("# along the yard", "# the long one", "# the cleats", "# by the window", "# by the stairs"):
        assert comment in written
    assert parse_job(write_job(changed)) == changed
    assert parse_job(write_job(job)) == job
    gone = changed.model_copy(update={"taken": (), "offcuts": (), "runs": ()})
    assert parse_job(update_job(written, gone)) == gone
