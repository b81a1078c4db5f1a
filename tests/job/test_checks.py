"""What no single field can tell."""

import datetime

import pytest
from pydantic import ValidationError

from rodbook.errors import Place
from rodbook.job import Book, Job, Opening
from rodbook.job.book import WantedPiece
from rodbook.job.checks import (
    BookParts,
    JobParts,
    check_book,
    check_book_parts,
    check_job,
    check_job_parts,
    check_opening,
)
from rodbook.job.dates import JobDates
from rodbook.job.files import parse_job, sample_text

STANDING = {"mark": "C1", "widths": (842, 843, 840), "heights": (2030, 2030, 2031)}


def opening_faults(**change):
    opening = Opening.model_validate({**STANDING, **change})
    return [str(fault) for fault in check_opening(opening, Place(("openings", 0)))]


def test_a_sound_opening_has_no_faults():
    assert opening_faults() == []
    # By hand: hypot(840, 2031) = 2197.9 and hypot(842, 2030) = 2197.7; a lean of 5 mm moves each by about 2 mm.
    assert opening_faults(diagonals=(2200, 2196)) == []


def test_readings_that_differ_too_much_name_the_odd_one():
    assert opening_faults(widths=(842, 912, 840)) == [
        "openings[1].widths: 842, 912, 840 differ by 72 mm, more than 60; read 912 again"
    ]


def test_two_digits_changed_over_are_offered():
    assert opening_faults(widths=(842, 482, 840)) == [
        "openings[1].widths: 842, 482, 840 differ by 360 mm, more than 60; read 482 again; did you mean 842?"
    ]


def test_heights_may_differ_under_a_raked_head_only():
    heights = (2030, 1900, 1770)
    assert opening_faults(heights=heights, head="raked") == []
    assert opening_faults(heights=heights) == [
        "openings[1].heights: 2030, 1900, 1770 differ by 260 mm, more than 60; read 2030 again, or mark the head raked"
    ]


def test_a_misread_diagonal_is_told_its_fair_value():
    # By hand: hypot(840, 2031) = 2197.86; 1297 is shorter than the opening is tall.
    assert opening_faults(diagonals=(1297, 2198)) == [
        (
            "openings[1].diagonals: 1297 mm from foot left to head right does not go with the widths and heights; "
            "about 2198 would be right"
        )
    ]
    assert opening_faults(diagonals=(1297, 2198), head="raked") == []


def test_a_standing_opening_needs_its_readings_and_no_wanted_size():
    assert opening_faults(widths=None, heights=None, leaf=(447, 2100)) == [
        "openings[1].widths: an opening that stands needs three widths; measure them or mark it planned",
        "openings[1].heights: an opening that stands needs three heights; measure them or mark it planned",
        "openings[1].leaf: a wanted size belongs to a planned opening; this one is standing",
    ]


@pytest.mark.parametrize("sizes", [{}, {"leaf": (447, 2100), "clear": (880, 2100)}])
def test_a_planned_opening_needs_its_wanted_size_once(sizes):
    assert opening_faults(state="planned", widths=None, heights=None, **sizes) == [
        "openings[1]: a planned opening needs the wanted size once: either leaf or clear, as [width, height]"
    ]


def test_a_planned_opening_has_no_readings():
    assert opening_faults(state="planned", heights=None, leaf=(447, 2100)) == [
        "openings[1].widths: a planned opening has no readings yet; leave them out or mark it standing"
    ]


def job(**change):
    header = {"name": "x", "date": datetime.date(2026, 11, 2), "build_up": "inset, painted"}
    return Job.model_validate({"job": {**header, **change.pop("job", {})}, "openings": [STANDING], **change})


def job_faults(book=None, **change):
    return [str(fault) for fault in check_job(job(**change), book)]


def test_a_sound_job_has_no_faults(book, store_job):
    assert job_faults(book) == []
    assert check_job(store_job, book) == []


def test_marks_are_not_given_twice_not_even_in_other_letters():
    panel = {"mark": "c1", "board": "x", "length": 500, "width": 400}
    assert job_faults(panels=[panel]) == [
        "panels[1].mark (c1): 'c1' is already the mark of openings[1]; each needs its own"
    ]


def test_a_job_without_openings_and_panels_is_told_to_add_one():
    assert job_faults(openings=[]) == [
        "openings: the job has neither openings nor panels; add one, or import a list of them"
    ]


def test_names_are_looked_up_in_the_book(book):
    panel = {"mark": "P1", "board": "18 mm MDFF", "length": 500, "width": 400}
    found = job_faults(
        book,
        job={"build_up": "inset paint", "workshop": "Quarry"},
        openings=[{**STANDING, "build_up": "lay on"}],
        panels=[panel],
    )
    assert found == [
        "job.build_up: the book has no build-up 'inset paint'; did you mean inset, painted?",
        "job.workshop: the book has no workshop 'Quarry'; use one of: Quarry Lane Workshop",
        (
            "openings[1].build_up (C1): the book has no build-up 'lay on'; "
            "use one of: inset, painted, lay-on within trim, painted, lay-on without trim, run of cupboards, "
            "base cupboards, lay-on, wall cupboards, lay-on"
        ),
        "panels[1].board (P1): the book has no board '18 mm MDFF'; did you mean 18 mm MDF?",
    ]


def test_a_book_without_workshops_says_so(book):
    bare = book.model_copy(update={"workshops": ()})
    assert job_faults(bare, job={"workshop": "Quarry"}) == [
        "job.workshop: the book has no workshop 'Quarry'; it has no workshops at all"
    ]


def test_kinds_of_part_are_known_even_without_a_book():
    assert job_faults(making={"dor": "cheaper"}) == ["making.dor: there is no kind of part 'dor'; did you mean door?"]


def test_an_opening_has_to_be_as_deep_as_its_lining(book):
    assert job_faults(book, openings=[{**STANDING, "depth": 100}]) == [
        (
            "openings[1].depth (C1): 100 mm is less than the lining's depth in 'inset, painted', 140 mm; "
            "measure again or choose a shallower build-up"
        )
    ]


def test_every_board_and_section_needs_a_price_on_the_day(book):
    found = job_faults(book, job={"date": datetime.date(2025, 12, 31)})
    assert found[0] == "book, board '22 mm MDF': '22 mm MDF 2440 x 1220' has no price that holds on 2025-12-31"
    assert found[-1].startswith("book, section '58 x 18 softwood trim': ")
    assert len(found) == 7


def test_text_that_no_label_or_paper_can_show_is_refused():
    openings = [{**STANDING, "mark": "C\n1", "note": "two\nlines are fine", "room": "hall\x07"}]
    assert job_faults(openings=openings, job={"name": "a\tb", "note": "\x00"}) == [
        "job.name: this has to stand on one line; take the line break or tab out",
        "job.note: a character that can't be printed (U+0000) stands here; take it out",
        "openings[1].mark (C\\n1): this has to stand on one line; take the line break or tab out",
        "openings[1].room (C\\n1): a character that can't be printed (U+0007) stands here; take it out",
    ]


def test_parts_of_nothing_have_no_faults(book):
    assert check_job_parts(JobParts(), book) == []
    assert check_book_parts(BookParts()) == []


# --- the book -----------------------------------------------------------------------------------------------------


def changed(book, path, **change):
    """The book with one entry of a list changed."""
    raw = book.model_dump()
    name, number = path
    raw[name] = list(raw[name])
    raw[name][number] = {**raw[name][number], **change}
    return [str(fault) for fault in check_book(Book.model_validate(raw))]


def test_the_sample_book_is_sound(book):
    assert check_book(book) == []


ORDER = "are out of order; least, wanted and most must not fall"


@pytest.mark.parametrize(
    ("path", "change", "field", "said"),
    [
        ("boards", {"density_low": 800}, "density_low", "density_low is more than density_high; change them over"),
        (
            "build_ups",
            {"leaf_board": "22 MDF"},
            "leaf_board",
            "the book has no board '22 MDF'; did you mean 22 mm MDF?",
        ),
        ("build_ups", {"lining_board": "oak"}, "lining_board", "the book has no board 'oak'"),
        ("build_ups", {"trim": "70 trim"}, "trim", "the book has no section '70 trim'; did you mean 70 x 22 MDF trim?"),
        ("build_ups", {"hinge": "cup"}, "hinge", "the book has no hinge 'cup'; use one of: cup hinge"),
        ("build_ups", {"packer_least": 9}, "packer_least", f"least 9, wanted 8, most 16 {ORDER}"),
        ("build_ups", {"head_packer_most": 8}, "head_packer_least", f"least 4, wanted 10, most 8 {ORDER}"),
        ("build_ups", {"head_joint": "housed"}, "housing", "a housed head needs a housing of more than 0 mm"),
        (
            "build_ups",
            {"housing": 5},
            "housing",
            "a housed head needs a housing of more than 0 mm, and any other head none",
        ),
        (
            "build_ups",
            {"head_joint": "housed", "housing": 18},
            "housing",
            "18 mm goes right through the lining, 18 mm thick; make it less",
        ),
        ("build_ups", {"lining_depth": 41}, "lining_depth", "41 mm leaves no room for plate holes 37 mm in"),
        (
            "build_ups",
            {"hinge_lining_width": 30},
            "hinge_lining_width",
            "30 mm leaves no room for plate holes 37 mm in",
        ),
        (
            "rates",
            {"source": "from\nmemory"},
            "source",
            "this has to stand on one line; take the line break or tab out",
        ),
    ],
)
def test_a_fault_in_the_first_of_a_list_is_one_sentence(book, path, change, field, said):
    mark = getattr(book, path)[0].name
    (found,) = changed(book, (path, 0), **change)
    assert found.startswith(f"{path}[1].{field} ({mark}): {said}")


@pytest.mark.parametrize(
    ("change", "field", "said"),
    [
        ({"trim": None}, "trim", "a leaf that lies on within trim needs the trim's section"),
        ({"lap": 19}, "lap", "19 mm is more than the thickness of the lining that it laps, 18 mm"),
    ],
)
def test_a_leaf_that_lies_on_needs_trim_and_lining_to_suit(book, change, field, said):
    assert changed(book, ("build_ups", 1), **change) == [f"build_ups[2].{field} (lay-on within trim, painted): {said}"]


def test_rows_and_names_that_do_not_go_together_are_told(book):
    assert changed(book, ("boards", 1), name="22 MM mdf")[0] == (
        "boards[2].name (22 MM mdf): '22 MM mdf' is already the name of boards[1]; each needs its own"
    )
    assert changed(book, ("hinge_counts", 0), height=1600) == [
        "hinge_counts: heights, masses and counts must all grow from row to row"
    ]
    assert changed(book, ("rates", 1), name="crew hour") == [
        "rates: 'crew hour' stands 2 times for 2026-01-05; keep one of them"
    ]


def test_names_of_sizes_and_offcuts_and_days_of_prices_stand_once(book):
    board = book.boards[1].model_dump()
    board["offcuts"][1]["label"] = "O-14"
    board["sheets"][0]["prices"][1]["since"] = datetime.date(2026, 1, 5)
    assert changed(book, ("boards", 1), **board) == [
        "boards[2] (18 mm MDF): 'O-14' names 2 sizes or offcuts; each needs its own name",
        "boards[2] (18 mm MDF): 2 prices of '18 mm MDF 2440 x 1220' hold from 2026-01-05; keep one of them",
    ]


def test_every_fault_of_what_is_wanted_from_waste_is_told(book):
    board = book.boards[1].model_dump()
    board["wanted"] = [
        {"label": "O-14", "length": 300, "width": 90},
        {"label": "w-4", "length": 300, "width": 90},
        {"label": "W-5", "length": 1300, "width": 2430},
        {"label": "W-6", "length": 2, "width": 300, "purpose": "two\nlines"},
    ]
    assert changed(book, ("boards", 1), **board) == [
        "boards[2].wanted[4].purpose (18 mm MDF): this has to stand on one line; take the line break or tab out",
        "boards[2].wanted[3].length (W-5): 1300 × 2430 mm is larger than any sheet of '18 mm MDF'; make it smaller",
        "boards[2].wanted[2].label (w-4): 'w-4' is already the label of boards[1].wanted[1]; each needs its own",
        "boards[2].wanted[1].label (O-14): 'O-14' is written on an offcut that lies in the shop; give the piece another label",
        "boards[2].wanted[4].length (W-6): 2 mm is less than the saw's kerf, 3.2 mm; it cannot be cut",
    ]


def test_with_grain_a_wanted_piece_has_to_lie_along_the_sheet(book):
    plywood = book.boards[2].model_dump()
    plywood["wanted"] = [{"label": "W-8", "length": 1200, "width": 2000}]
    assert changed(book, ("boards", 2), **plywood) == [
        "boards[3].wanted[1].length (W-8): 1200 × 2000 mm is larger than any sheet of '18 mm birch plywood'; make it smaller"
    ]
    assert changed(book, ("boards", 2), **plywood | {"grain": False}) == []


@pytest.mark.parametrize(
    "wrong",
    [
        {"length": 0},
        {"length": "nan"},
        {"width": -3},
        {"number": 0},
        {"number": 501},
        {"worth": 0},
        {"worth": "-1"},
        {"worth": "nan"},
        {"label": ""},
        {"label": " "},
        {"since": "yesterday"},
        {"colour": "red"},
    ],
)
def test_a_wanted_piece_that_is_none_is_refused(wrong):
    with pytest.raises(ValidationError):
        WantedPiece.model_validate({"label": "W-1", "length": 300, "width": 90} | wrong)


def test_what_was_taken_from_a_jobs_waste_stands_there_once(book, store_job):
    taken = {"label": "W-1", "board": "a board of before", "length": 300, "width": 90, "number": 2, "on": "2026-11-25"}
    job = Job.model_validate(store_job.model_dump() | {"taken": [taken, taken | {"purpose": "a\tb"}]})
    assert [str(fault) for fault in check_job(job, book)] == [
        "taken[2].label (W-1): 'W-1' is already the label of taken[1]; each needs its own",
        "taken[2].purpose (W-1): this has to stand on one line; take the line break or tab out",
    ]


def test_an_offcut_was_moved_by_a_job_once(book, store_job):
    moved = {
        "label": "O-18",
        "board": "a board of before",
        "length": 300,
        "width": 90,
        "went": "in",
        "on": "2026-11-25",
    }
    job = Job.model_validate(store_job.model_dump() | {"offcuts": [moved, moved | {"went": "out"}]})
    assert [str(fault) for fault in check_job(job, book)] == [
        "offcuts[2].label (O-18): 'O-18' is already the label of offcuts[1]; each needs its own",
    ]
    for wrong in ({"went": "away"}, {"length": -1}, {"width": "nan"}, {"on": "today"}, {"label": ""}):
        with pytest.raises(ValidationError):
            Job.model_validate(store_job.model_dump() | {"offcuts": [moved | wrong]})


def test_a_workshop_prices_what_the_book_has(book):
    workshop = book.workshops[0].model_dump()
    workshop["rates"][0]["board_m2"]["23 mm MDF"] = 3
    workshop["rates"][0]["section_m"]["rope"] = 3
    assert changed(book, ("workshops", 0), **workshop) == [
        (
            "workshops[1].rates[1].board_m2 (Quarry Lane Workshop): the book has no board '23 mm MDF'; "
            "did you mean 22 mm MDF?"
        ),
        (
            "workshops[1].rates[1].section_m (Quarry Lane Workshop): the book has no section 'rope'; "
            "use one of: 70 x 22 MDF trim, 58 x 18 softwood trim"
        ),
    ]
    workshop = book.workshops[0].model_dump()
    workshop["rates"] *= 2
    assert changed(book, ("workshops", 0), **workshop) == [
        "workshops[1].rates (Quarry Lane Workshop): 2 sets of rates hold from 2026-03-02; keep one of them"
    ]


@pytest.mark.parametrize(
    ("field", "value", "said"),
    [
        ("currency", "EUX", "no currency has the code 'EUX'; write its three letters, as in EUR"),
        ("locale", "xx_YY", "'xx_YY' is no way of writing numbers; write a language, as in en, de or de_AT"),
        ("locale", "de-AT!", "'de-AT!' is no way of writing numbers; write a language, as in en, de or de_AT"),
        ("hinge_counts_source", "a\tb", "this has to stand on one line; take the line break or tab out"),
    ],
)
def test_currency_locale_and_sources_are_usable(book, field, value, said):
    raw = {**book.model_dump(), field: value}
    assert [str(fault) for fault in check_book(Book.model_validate(raw))] == [f"{field}: {said}"]


def test_the_firm_and_the_saw_are_looked_at_too(book):
    raw = book.model_dump()
    raw["firm"]["contact"], raw["firm"]["name"] = "the yard\nby day", "a\u2028b"
    raw["saw"]["source"] = "x\x7f"
    assert [str(fault) for fault in check_book(Book.model_validate(raw))] == [
        "firm.name: this has to stand on one line; take the line break or tab out",
        "saw.source: a character that can't be printed (U+007F) stands here; take it out",
    ]


# --- further readings ---------------------------------------------------------------------------------------------


def test_further_readings_are_taken_as_they_stand():
    readings = {"plumb-left": 3, "level-floor": -1.5, "bow-head": 2, "width-600": "84.3 cm", "depth-top": 460}
    assert opening_faults(readings=readings, read_by={"width": "laser", "plumb-left": "laser"}) == []


def test_an_unknown_further_reading_gets_the_nearest_name():
    assert opening_faults(readings={"plum-left": 3}) == [
        "openings[1].readings.plum-left: there is no reading 'plum-left'; did you mean plumb-left?"
    ]
    assert opening_faults(read_by={"widht": "laser"}) == [
        "openings[1].read_by.widht: there is no reading 'widht'; did you mean width?"
    ]


@pytest.mark.parametrize(
    ("name", "value", "said"),
    [
        ("plumb-left", 842, "842 mm is more than 120 mm, and no side leans so far; read it again"),
        ("level-floor", -200, "-200 mm is more than 120 mm, and no floor is out of level so far; read it again"),
        ("bow-right", 121, "121 mm is more than 120 mm, and nothing is bowed so far; read it again"),
        ("width-600", 84, "84 mm can't be this width; it is more than 150 and at most 6000 mm"),
        ("depth-top", 0, "0 mm can't be this depth; it is more than 0 and at most 6000 mm"),
    ],
)
def test_a_further_reading_that_nothing_has_is_refused(name, value, said):
    assert opening_faults(readings={name: value}) == [f"openings[1].readings.{name}: {said}"]


def test_under_a_raked_head_the_head_may_be_far_out_of_level():
    raked = {"head": "raked", "heights": (2030, 1800, 1500)}
    assert opening_faults(**raked, readings={"level-head": -530}) == []
    assert len(opening_faults(**raked, readings={"level-floor": -530})) == 1


def test_a_planned_opening_has_no_further_readings():
    opening = Opening.model_validate(
        {"mark": "W", "state": "planned", "leaf": (450, 2000), "readings": {"plumb-left": 1}}
    )
    assert [str(f) for f in check_opening(opening, Place(("openings", 0)))] == [
        "openings[1].readings: a planned opening has no readings yet; leave them out or mark it standing"
    ]


def test_an_instrument_is_one_of_the_book_or_a_usual_one(store_job, book):
    own = {"name": "rod", "error": 0.8, "source": "own trials"}
    wider = Book.model_validate({**book.model_dump(), "instruments": [own]})
    first = Opening.model_validate({**STANDING, "read_by": {"width": "rod"}})
    changed = Job.model_validate({**dict(store_job), "openings": (first,)})
    assert check_job(changed, wider) == []
    assert str(check_job(changed, book)[0]) == (
        "openings[1].read_by.width (C1): the book has no instrument 'rod'; use one of: tape, laser, level, plumb"
    )


@pytest.mark.parametrize(
    ("order", "said"),
    [
        ({"ordered": "2026-12-02", "came": "2026-12-01"}, "dates.orders[1].came: 2026-12-01 is before it was ordered"),
        ({"ordered": "2026-12-02", "promised": "2026-12-01"}, "dates.orders[1].promised: 2026-12-01 is before it was"),
        (
            {"promised": "2026-12-01"},
            "dates.orders[1].ordered: no day is given for 'the merchant'; give the day of the order",
        ),
        (
            {"ordered": "1802-12-01"},
            "dates.orders[1].ordered: 1802-12-01 is not a day of a job; from 1990 to 2090 is taken",
        ),
    ],
)
def test_an_order_that_can_not_be(order, said):
    job = parse_job(sample_text("stair"))
    dates = JobDates.model_validate({"orders": [{"supplier": "the merchant", **order}]})
    assert any(said in str(fault) for fault in check_job(job.model_copy(update={"dates": dates}), None))


def test_one_supplier_twice_and_a_day_of_another_age():
    job = parse_job(sample_text("stair"))
    two = [{"supplier": "the merchant", "ordered": "2026-12-01"}] * 2
    dates = JobDates.model_validate({"orders": two, "tasks": [{"name": "hand over", "done": "1802-01-01"}]})
    said = [str(fault) for fault in check_job(job.model_copy(update={"dates": dates}), None)]
    assert any("the merchant" in one and "dates.orders[" in one for one in said)
    assert any("dates.tasks[1].done: 1802-01-01 is not a day of a job" in one for one in said)


MORE = "there is such a hole, so this has to be more than 0 mm"


@pytest.mark.parametrize(
    ("group", "name", "change", "said"),
    [
        ("hinges", "cup hinge", {"pilot_depth": 0}, f"pilot_depth (cup hinge): {MORE}"),
        ("hinges", "cup hinge", {"pilot_diameter": 0}, f"pilot_diameter (cup hinge): {MORE}"),
        ("hinges", "cup hinge", {"pilot_spacing": 0, "pilot_depth": 0}, None),
        ("fittings", "gas stay", {"leg_depth": 0}, f"leg_depth (gas stay): {MORE}"),
        (
            "fittings",
            "gas stay",
            {"spacing": 0},
            "spacing (gas stay): two holes need the distance between them, more than 0 mm",
        ),
        ("fittings", "push-to-open, bored in", {"head_depth": 0}, f"head_depth (push-to-open, bored in): {MORE}"),
    ],
)
def test_a_hole_needs_its_depth(book, group, name, change, said):
    number = next(n for n, entry in enumerate(getattr(book, group)) if entry.name == name)
    assert changed(book, (group, number), **change) == ([] if said is None else [f"{group}[{number + 1}].{said}"])
