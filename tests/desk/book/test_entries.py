"""Boards, sections, hinges, workshops and build-ups put into the book and taken out of it."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from rodbook.desk.book.uses import entry_used, used_in_book, used_in_jobs
from rodbook.desk.models import Folder
from rodbook.desk.platform import book_edits, store
from rodbook.errors import Message

BOARD = {
    "base": 1,
    "name": "19 mm spruce board",
    "thickness": "19",
    "density_low": "430",
    "density_high": "480",
    "grain": "yes",
    "source": "from memory",
    "size_name": "19 spruce 2500 x 1250",
    "size_length": "2500",
    "size_width": "1250",
    "amount": "61.20",
    "since": "2026-11-01",
    "price_source": "a quote",
}
SECTION = {
    "base": 1,
    "name": "40 x 15 oak bead",
    "width": "40",
    "thickness": "15",
    "density_low": "650",
    "density_high": "720",
    "source": "from memory",
    "size_name": "oak bead, 3 m",
    "size_length": "3 m",
    "amount": "11",
    "since": "2026-11-01",
    "price_source": "a quote",
}
HINGE = {
    "base": 1,
    "name": "wide cup hinge",
    "cup_diameter": "40",
    "cup_depth": "13.5",
    "cup_edge": "4",
    "plate_set_back": "37",
    "plate_spacing": "32",
    "plate_diameter": "5",
    "plate_depth": "11",
    "source": "measured",
}

FITTING = {
    "base": 1,
    "name": "gas stay, long",
    "sort": "flap stay",
    "holes": "2",
    "spacing": "32",
    "diameter": "3",
    "depth": "12",
    "from_edge": "28",
    "place": "150",
    "leg_diameter": "5",
    "leg_depth": "12",
    "leg_set_back": "37",
    "leg_down": "260",
    "source": "its own sheet",
}


def _now():
    return store.book_now()


def _head():
    return _now()[1].number


def _beside(page, field):
    """What is said beside a field."""
    return page[page.index(f'id="fault-{field}"') :][:220]


@pytest.mark.parametrize(
    ("kind", "sent"), [("boards", BOARD), ("sections", SECTION), ("hinges", HINGE), ("fittings", FITTING)]
)
def test_one_more_is_put_in_and_the_history_says_so(inside, kind, sent):
    assert inside.post(f"/book/{kind}/new/", sent).status_code == 302
    _, revision, book = _now()
    entry = getattr(book, kind)[-1]
    assert entry.name == sent["name"]
    assert revision.said == f"{kind.removesuffix('s')} {sent['name']} added"
    assert inside.get(f"/book/{kind}/{len(getattr(book, kind))}/").status_code == 200
    inside.post("/book/history/2/undo/")
    assert sent["name"] not in [e.name for e in getattr(_now()[2], kind)]


def test_a_new_board_has_its_first_size_and_price(inside):
    inside.post("/book/boards/new/", BOARD)
    board = _now()[2].boards[-1]
    assert (board.thickness, board.grain, board.sheets[0].width) == (19, True, 1250)
    assert str(board.sheets[0].prices[0].amount) == "61.20"
    inside.post("/book/sections/new/", SECTION | {"base": 2})
    assert _now()[2].sections[-1].lengths[0].length == 3000


@pytest.mark.parametrize(
    ("kind", "sent", "wrong", "field"),
    [
        ("boards", BOARD, {"thickness": "thick"}, "thickness"),
        ("boards", BOARD, {"name": ""}, "name"),
        ("boards", BOARD, {"name": "22 mm MDF"}, "name"),
        ("boards", BOARD, {"density_low": "900"}, "density_low"),
        ("boards", BOARD, {"size_width": "wide"}, "size_width"),
        ("boards", BOARD, {"size_name": ""}, "size_name"),
        ("boards", BOARD, {"amount": "dear"}, "amount"),
        ("boards", BOARD, {"since": "soon"}, "since"),
        ("boards", BOARD, {"price_source": ""}, "price_source"),
        ("boards", BOARD, {"source": ""}, "source"),
        ("sections", SECTION, {"width": ""}, "width"),
        ("sections", SECTION, {"size_length": "99 m"}, "size_length"),
        ("hinges", HINGE, {"cup_depth": "deep"}, "cup_depth"),
        ("hinges", HINGE, {"name": "cup hinge"}, "name"),
    ],
)
def test_a_fault_stands_beside_its_field_and_what_was_typed_is_kept(inside, kind, sent, wrong, field):
    reply = inside.post(f"/book/{kind}/new/", sent | wrong)
    page = reply.content.decode()
    assert reply.status_code == 422
    assert _beside(page, field)
    assert f'aria-describedby="fault-{field}"' in page
    for name, value in (sent | wrong).items():
        assert name == "base" or not value or f'value="{value}"' in page
    assert _head() == 1


def test_a_new_name_goes_to_all_in_the_book_that_use_it(inside):
    board = _now()[2].boards[0]
    sent = {
        "base": 1,
        "was": board.name,
        "name": "22 mm fibreboard",
        "thickness": "22",
        "density_low": "690",
        "density_high": "760",
        "source": "from memory",
    }
    assert inside.post("/book/boards/1/", sent).status_code == 302
    book = _now()[2]
    assert book.boards[0].name == "22 mm fibreboard"
    assert book.boards[0].sheets == board.sheets
    assert {b.leaf_board for b in book.build_ups} >= {"22 mm fibreboard"}
    assert "22 mm fibreboard" in book.workshops[0].rates[0].board_m2
    assert board.name not in book.workshops[0].rates[0].board_m2


def test_what_has_another_name_by_now_is_not_changed(inside):
    sent = HINGE | {"was": "pivot"}
    reply = inside.post("/book/hinges/1/", sent)
    assert reply.status_code == 422
    assert "pivot is not in the book any more" in reply.content.decode()
    assert _head() == 1


def _with_panel(pk, board):
    folder = Folder.objects.get(pk=pk)
    revision, job = store.job_now(folder)
    raw = store.as_document(job) | {"panels": [{"mark": "P1", "board": board, "length": 900, "width": 400}]}
    store.save(folder, revision.number, lambda _: store.read_job_document(raw, _now()[2]), who="x")


def test_what_is_used_stays_and_the_page_says_by_what(inside, store_job):
    _with_panel(store_job, "18 mm birch plywood")
    page = inside.get("/book/boards/3/").content.decode()
    assert "18 mm birch plywood is used" in page
    assert "for panel P1" in page
    assert "Yes, take it out" not in page
    reply = inside.post("/book/boards/3/out/", {"base": 1, "was": "18 mm birch plywood"}, follow=True)
    assert "so it stays in the book" in reply.content.decode()
    assert _head() == 1
    reply = inside.post("/book/boards/3/", {"base": 1, "was": "18 mm birch plywood", "name": "birch"})
    assert "keep the name" in _beside(reply.content.decode(), "name")


@pytest.mark.parametrize(
    ("kind", "number", "said"),
    [
        ("boards", 1, "for its leaves"),
        ("sections", 1, "for its trim"),
        ("hinges", 1, "only hinge"),
        ("build_ups", 1, "the job"),
    ],
)
def test_every_kind_of_use_is_said(inside, store_job, kind, number, said):
    name = getattr(_now()[2], kind)[number - 1].name
    reply = inside.post(f"/book/{kind}/{number}/out/", {"base": 1, "was": name}, follow=True)
    assert said in reply.content.decode()
    assert _head() == 1


def test_what_nothing_uses_is_taken_out_and_comes_back(inside):
    inside.post("/book/boards/new/", BOARD)
    number = len(_now()[2].boards)
    assert "Yes, take it out" in inside.get(f"/book/boards/{number}/").content.decode()
    inside.post(f"/book/boards/{number}/out/", {"base": 2, "was": BOARD["name"]})
    _, revision, book = _now()
    assert BOARD["name"] not in [b.name for b in book.boards]
    assert revision.said == f"board {BOARD['name']} taken out"
    inside.post("/book/history/3/undo/")
    assert _now()[2].boards[-1].name == BOARD["name"]


def test_the_last_workshop_may_go_and_one_come(inside):
    shop = _now()[2].workshops[0]
    sent = {
        "base": 1,
        "name": "Mill End Joinery Shop",
        "lead_days": "12",
        "since": "2026-11-01",
        "source": "a quote",
        "board-1": "31",
        "section-1": "2.10",
        "set_up": "4",
        "part": "2",
        "edge_m": "1",
        "boring": "0.5",
        "coat_m2": "7",
        "delivery": "45",
    }
    wrong = inside.post("/book/workshops/new/", sent | {"lead_days": "", "board-1": "dear", "part": ""})
    assert wrong.status_code == 422
    for field in ("lead_days", "board-1", "part"):
        assert _beside(wrong.content.decode(), field)
    assert inside.post("/book/workshops/new/", sent).status_code == 302
    new = _now()[2].workshops[-1]
    assert (new.name, new.rates[0].board_m2) == ("Mill End Joinery Shop", {"22 mm MDF": 31})
    for at in range(len(_now()[2].workshops), 0, -1):
        inside.post(f"/book/workshops/{at}/out/", {"base": _head(), "was": _now()[2].workshops[at - 1].name})
    assert _now()[2].workshops == ()
    assert shop.name in _now()[1].said


def test_a_workshop_that_a_job_names_keeps_its_name(inside, store_job):
    folder, shop = Folder.objects.get(pk=store_job), _now()[2].workshops[0].name
    revision, job = store.job_now(folder)
    named = job.model_copy(update={"job": job.job.model_copy(update={"workshop": shop})})
    store.save(folder, revision.number, lambda _: named, who="x")
    about = {"base": 1, "was": shop, "name": "Another", "contact": "", "lead_days": "15"}
    reply = inside.post("/book/workshops/1/", about)
    assert "keep the name" in _beside(reply.content.decode(), "name")
    assert "to make its parts" in inside.get("/book/workshops/1/").content.decode()


def test_sizes_come_and_go_but_for_the_last(inside):
    was = _now()[2].sections[1].name
    new = {
        "base": 1,
        "was": was,
        **{k: v for k, v in SECTION.items() if k.startswith(("size", "amount", "since", "price"))},
    }
    wrong = inside.post("/book/sections/2/size/", new | {"size_length": "long", "price_source": ""})
    assert wrong.status_code == 422
    assert _beside(wrong.content.decode(), "size_length")
    assert _beside(wrong.content.decode(), "price_source")
    assert inside.post("/book/sections/2/size/", new).status_code == 302
    first, second = (size.name for size in _now()[2].sections[1].lengths)
    inside.post("/book/sections/2/size/out/", {"base": 2, "was": was, "size": first})
    assert [size.name for size in _now()[2].sections[1].lengths] == [second]
    reply = inside.post("/book/sections/2/size/out/", {"base": 3, "was": was, "size": second}, follow=True)
    assert "is the only size" in reply.content.decode()


def test_hinge_counts_are_changed_in_words_and_told_in_their_row(inside):
    table = {"base": 1, "counts_source": "own records"}
    for n, (hinges, height, mass) in enumerate(
        [("2", "1000", "5"), ("", "", ""), ("3", "1600", "9"), ("5", "2438", "22")], 1
    ):
        table |= {f"count-{n}-hinges": hinges, f"count-{n}-height": height, f"count-{n}-mass": mass}
    assert inside.post("/book/hinges/counts/", table).status_code == 302
    _, revision, book = _now()
    assert [(c.hinges, c.height) for c in book.hinge_counts] == [(2, 1000), (3, 1600), (5, 2438)]
    assert "row of 4 hinges taken out" in revision.said
    assert "2 hinges: height 1016 → 1000" in revision.said
    wrong = inside.post("/book/hinges/counts/", table | {"base": 2, "count-3-mass": "heavy", "counts_source": ""})
    assert wrong.status_code == 422
    assert "heavy" in _beside(wrong.content.decode(), "count-3-mass")
    assert _beside(wrong.content.decode(), "counts_source")
    falling = inside.post("/book/hinges/counts/", table | {"base": 2, "count-3-height": "900"})
    assert "must all grow" in falling.content.decode()


def test_a_copied_build_up_can_go_again_and_the_used_one_stays(inside, store_job):
    raw = store.as_document(_now()[2])
    more = {**raw["build_ups"][0], "name": "inset, oiled"}
    folder, revision, _ = _now()
    store.save(folder, revision.number, lambda began: {**began, "build_ups": [*raw["build_ups"], more]}, who="x")
    number = len(_now()[2].build_ups)
    assert "Yes, take it out" in inside.get(f"/book/build-ups/{number}/").content.decode()
    assert inside.post(f"/book/build_ups/{number}/out/", {"base": 2, "was": "inset, oiled"}).status_code == 302
    assert "inset, oiled" not in [b.name for b in _now()[2].build_ups]


@pytest.mark.parametrize("address", ["gates/new/", "gates/1/", "boards/99/", "hinges/0/"])
def test_what_is_no_list_or_no_entry_is_not_found(inside, address):
    assert inside.get(f"/book/{address}").status_code == 404


@pytest.mark.parametrize("address", ["gates/1/out/", "gates/1/size/", "hinges/1/size/", "hinges/1/size/out/"])
def test_what_has_no_sizes_or_is_no_list_takes_nothing(inside, address):
    assert inside.post(f"/book/{address}", {"base": 1}).status_code == 404


def test_the_history_of_one_rate(inside):
    new = {"base": 1, "name": "paint", "value": "1.25", "since": "2026-11-01", "source": "a list"}
    inside.post("/book/rates/put/", new)
    inside.post("/book/boards/new/", BOARD | {"base": 2})
    assert "spruce" in inside.get("/book/").content.decode()  # what was saved is said once, on the next page
    page = inside.get("/book/history/?of=paint").content.decode()
    assert "rate paint" in page
    assert "spruce" not in page


def test_a_size_gets_another_name_and_length_and_keeps_its_prices(inside):
    board = _now()[2].boards[0]
    sold, address = board.sheets[0], "/book/boards/1/size/"
    page = inside.get("/book/boards/1/", {"size": sold.name}).content.decode()
    assert f'name="size" value="{sold.name}"' in page
    assert 'name="amount"' not in page
    new = {
        "base": 1,
        "was": board.name,
        "size": sold.name,
        "size_name": "short sheet",
        "size_length": "2,44 m",
        "size_width": "",
    }
    wrong = inside.post(address, new)
    assert wrong.status_code == 422
    assert _beside(wrong.content.decode(), "size_width")
    assert f'name="size" value="{sold.name}"' in wrong.content.decode()
    assert inside.post(address, new | {"size_width": "1210"}).status_code == 302
    changed = _now()[2].boards[0].sheets[0]
    assert (changed.name, changed.length, changed.width, changed.prices) == ("short sheet", 2440, 1210, sold.prices)
    again = inside.post(address, new | {"base": 2, "size_width": "1210"})
    assert again.status_code == 422
    assert "is not in the book any more" in again.content.decode()


def _sent_of(number):
    entry = store.as_document(_now()[2])["build_ups"][number - 1]
    return {k: "yes" if v is True else v for k, v in entry.items() if k not in ("name", "family")} | {"base": _head()}


def test_a_build_up_gets_another_name_unless_a_job_knows_it(inside, store_job):
    used = store.as_document(store.job_now(Folder.objects.get(pk=store_job))[1])["job"]["build_up"]
    names = [b.name for b in _now()[2].build_ups]
    number, other = names.index(used) + 1, next(n for n, name in enumerate(names, 1) if name != used)
    refused = inside.post(f"/book/build-ups/{number}/", _sent_of(number) | {"name": "new", "rename": "1"})
    assert refused.status_code == 422
    assert "keep the name" in _beside(refused.content.decode(), "name")
    empty = inside.post(f"/book/build-ups/{other}/", _sent_of(other) | {"name": "", "rename": "1"})
    assert empty.status_code == 422
    assert _beside(empty.content.decode(), "name")
    assert inside.post(f"/book/build-ups/{other}/", _sent_of(other) | {"name": "new", "rename": "1"}).status_code == 302
    assert _now()[2].build_ups[other - 1].name == "new"


def test_taking_back_does_not_take_from_a_job_what_it_uses(inside, store_job):
    inside.post("/book/boards/new/", BOARD)
    _with_panel(store_job, BOARD["name"])
    page = inside.post("/book/history/2/undo/", follow=True).content.decode()
    assert "is used by the job" in page
    assert "for panel P1" in page
    assert _now()[2].boards[-1].name == BOARD["name"]


NAMES = st.text("abc", min_size=1, max_size=3)


@given(st.lists(NAMES, min_size=1, max_size=5, unique=True), st.data())
def test_a_rename_leaves_no_trace_of_the_old_name(names, data):
    raw = {
        "boards": [{"name": name} for name in names],
        "build_ups": [{"name": "b", "leaf_board": data.draw(st.sampled_from(names)), "lining_board": names[0]}],
        "workshops": [{"rates": [{"board_m2": dict.fromkeys(names, "1")}]}],
    }
    at = data.draw(st.integers(1, len(names)))
    was, used = names[at - 1], used_in_book(raw, "boards", names[at - 1])
    changed, where = book_edits.put_entry(raw, "boards", at, was, {"name": "new"})
    assert where.path == ("boards", at - 1)
    assert used_in_book(changed, "boards", was) == []
    assert used_in_book(changed, "boards", "new") == used
    assert list(changed["workshops"][0]["rates"][0]["board_m2"]) == ["new" if name == was else name for name in names]
    assert raw["boards"][at - 1] == {"name": was}


def test_uses_are_one_sentence():
    jobs = [
        ("Barn", {"job": {"build_up": "inset"}, "openings": [{"mark": f"C{n}", "build_up": "inset"} for n in range(4)]})
    ]
    assert str(entry_used("inset", used_in_jobs(jobs, "build_ups", "inset"))) == (
        "inset is used by the job Barn throughout, for C0, for C1, for C2, for C3"
    )
    assert entry_used("x", []) is None
    builds = [Message("desk.used_by_build_up", build_up=str(n)) for n in range(7)]
    assert str(entry_used("x", builds)).endswith("by the build-up 5, and by the build-up 6")


def test_a_stay_called_something_else_is_so_in_every_build_up(inside):
    book = _now()[2]
    number = next(n for n, f in enumerate(book.fittings, 1) if f.sort == "flap stay")
    stay = book.fittings[number - 1]
    sent = FITTING | {"base": _head(), "was": stay.name, "name": "gas stay 80 N"}
    assert inside.post(f"/book/fittings/{number}/", sent).status_code == 302
    assert _now()[2].build_up("wall cupboards, lay-on").flap_stay == "gas stay 80 N"
    page = inside.get(f"/book/fittings/{number}/").content.decode()
    assert "the build-up wall cupboards, lay-on for its flaps" in page
    assert "gas stay 80 N" in inside.get("/book/hinges/").content.decode()


def test_a_workshops_days_go_with_its_name():
    raw = {"workshops": [{"name": "old"}], "dates": {"suppliers": [{"supplier": "old"}, {"supplier": "the merchant"}]}}
    changed, _where = book_edits.put_entry(raw, "workshops", 1, "old", {"name": "new"})
    assert [one["supplier"] for one in changed["dates"]["suppliers"]] == ["new", "the merchant"]
    changed, _where = book_edits.take_out_entry(changed, "workshops", 1, "new")
    assert changed["dates"]["suppliers"] == [{"supplier": "the merchant"}]
    assert raw["dates"]["suppliers"][0] == {"supplier": "old"}
