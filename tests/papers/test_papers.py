"""The papers as they leave the desk, read back from the PDF."""

import re

import pytest

from rodbook.errors import InputError
from rodbook.papers import file_names, paper_bytes, paper_png

PAPERS = file_names()
NAMES = [file.removesuffix(".pdf") for file in PAPERS if file.endswith(".pdf")]
PLANS = ["timber-house", "stair", "raked"]
EACH = [
    *((plan, paper) for plan in ("stair", "raked") for paper in NAMES),
    ("timber-house", "summary"),
    ("timber-house", "workshop-order"),
    ("converted-store", "summary"),
    ("converted-store", "openings"),
    ("converted-store", "parts-schedule"),
]


def squeezed(text):
    """Text without white space: where a line breaks is the typesetter's business."""
    return re.sub(r"\s", "", text)


@pytest.mark.parametrize(("plan", "paper"), EACH)
def test_every_page_says_whose_what_and_which_page(plan_of, text_of, plan, paper):
    header = plan_of(plan).job.job
    pages = text_of(plan, paper)
    for number, page in enumerate(pages, 1):
        assert header.name in page
        assert "Harrow & Pike, joiners" in page
        assert f"revision {header.revision}" in page
        assert f"Job {header.number}" in page
        assert f"page {number} of {len(pages)}" in page
        assert "at 100%" in page


@pytest.mark.parametrize(("plan", "paper"), EACH)
def test_cautions_stand_on_the_first_page(text_of, plan, paper):
    assert "Take care" in text_of(plan, paper)[0]


def test_no_money_on_the_workshops_paper(text_of):
    for plan in PLANS:
        text = "\n".join(text_of(plan, "workshop-order"))
        assert not re.search(r"[€$£]|EUR|\bprice", text)


def test_the_summary_is_one_page(text_of):
    for plan in ("converted-store", *PLANS):
        assert len(text_of(plan, "summary")) == 1


def test_a_job_without_parts_says_so_on_every_paper(text_of):
    sentences = {
        "summary": "Not worked out yet",
        "parts-schedule": "There are no parts: no front of this job is worked out yet.",
        "workshop-order": "There are no parts to ask for",
        "layouts": "There is nothing to cut",
        "leaves": "There are no leaves in this job: no front of it is worked out.",
        "openings": "Not worked out yet: nothing is made for this opening.",
    }
    for paper, sentence in sentences.items():
        assert squeezed(sentence) in squeezed(text_of("raked", paper)[0])
    assert "0 parts" in text_of("raked", "summary")[0]


@pytest.mark.parametrize("paper", NAMES)
def test_odd_text_stays_as_it_was_typed(plan_of, text_of, paper):
    plan = plan_of("hostile")
    text = squeezed("".join(text_of("hostile", paper)))
    header = plan.job.job
    for said in (header.name, header.client, header.site, header.number, header.revision[:30]):
        assert squeezed(said) in text


def test_odd_marks_and_rooms_stay_as_they_were_typed(plan_of, text_of):
    text = squeezed("".join(text_of("hostile", "openings")))
    for opening in plan_of("hostile").job.openings:
        for said in (opening.mark, opening.room, opening.note):
            assert squeezed(said) in text


def test_nothing_runs_off_the_page(plan_of):
    """A page's outermost millimetres stay white but for the rod: looked at in pixels, with the longest text there is."""
    for paper in NAMES:
        assert _margins_are_white(paper_png(plan_of("hostile"), paper, 1, ppi=24))


def _margins_are_white(png):
    import struct
    import zlib

    width, height = struct.unpack(">II", png[16:24])
    data, at = b"", 8
    while at < len(png):
        (size,) = struct.unpack(">I", png[at : at + 4])
        if png[at + 4 : at + 8] == b"IDAT":
            data += png[at + 8 : at + 8 + size]
        at += size + 12
    rows = _unfiltered(zlib.decompress(data), width, height)
    edge = 9  # 9.5 mm at 24 points to the inch
    return all(row[4 * x : 4 * x + 3] == b"\xff\xff\xff" for row in rows for x in range(width - edge, width))


def _unfiltered(data, width, height):
    stride, rows, before = 4 * width, [], bytes(4 * width)
    for n in range(height):
        kind, line = data[n * (stride + 1)], bytearray(data[n * (stride + 1) + 1 : (n + 1) * (stride + 1)])
        for i in range(stride):
            a, b, c = (line[i - 4] if i >= 4 else 0), before[i], (before[i - 4] if i >= 4 else 0)
            line[i] = (line[i] + _guess(kind, a, b, c)) & 255
        rows.append(bytes(line))
        before = bytes(line)
    return rows


def _guess(kind, a, b, c):
    if kind < 4:
        return (0, a, b, (a + b) // 2)[kind]
    p = a + b - c
    return min((abs(p - a), 0, a), (abs(p - b), 1, b), (abs(p - c), 2, c))[2]


def test_pages_as_pictures(plan_of):
    plan = plan_of("stair")
    first, second = (paper_png(plan, "workshop-order", page) for page in (1, 2))
    assert first.startswith(b"\x89PNG")
    assert first != second
    assert paper_png(plan, "workshop-order", 2) == second


def test_there_is_no_such_page_or_paper(plan_of):
    with pytest.raises(InputError, match=r"^page: summary has pages 1 to 1, not 2$"):
        paper_png(plan_of("stair"), "summary", 2)
    with pytest.raises(
        InputError,
        match=r"^paper: there is no paper 'sumary'; there are summary, survey, survey-blank, openings, packers",
    ):
        paper_png(plan_of("stair"), "sumary")


def test_progress_is_told_paper_by_paper(plan_of):
    told = []
    made = [name for name, _ in paper_bytes(plan_of("raked"), lambda *what: told.append(what))]
    assert tuple(made) == PAPERS
    assert told == [*((name, n, len(PAPERS)) for n, name in enumerate(PAPERS)), ("papers", len(PAPERS), len(PAPERS))]
