"""Plans of the sample jobs and of jobs made to annoy, and readers for what comes out: SVG and PDF."""

import io
from functools import cache

import pytest
from defusedxml import ElementTree
from pypdf import PdfReader

from rodbook.job.files import parse_book, parse_job, sample_book_text, sample_text
from rodbook.plan import make_plan
from rodbook.setout import Frame, Stock, Wanted, set_out
from rodbook.setout.widths import EQUAL
from rodbook.working import Measure

NASTY = r'*_<b> $x$ \ @ref #let "q" [br] `c` ~ & äöüß Łódź /* // 1. é'
LONG = "Donaudampfschifffahrtselektrizitätenhauptbetriebswerkbauunterbeamtengesellscha"


@cache
def sample_plan(name):
    book = parse_book(sample_book_text())
    return make_plan(parse_job(sample_text(name), book), book, seconds=3)


@cache
def hostile_plan():
    plan = sample_plan("converted-store")
    job, book = plan.job.model_dump(mode="json"), plan.book.model_dump(mode="json")
    job["job"] |= {
        "name": NASTY,
        "client": LONG,
        "site": NASTY,
        "number": f"={NASTY}",
        "revision": LONG,
        "note": NASTY * 5,
    }
    job["openings"] = job["openings"][:3]
    for opening, mark, room in zip(
        job["openings"], ("*_$x$\\@#[", LONG, "=SUM(A1)"), (NASTY, LONG * 3, "+1"), strict=True
    ):
        opening |= {"mark": mark, "room": room, "note": NASTY}
    book["firm"] = {"name": LONG, "contact": NASTY}
    book["locale"] = "de_AT"
    return make_plan(type(plan.job).model_validate(job), type(plan.book).model_validate(book), seconds=2)


@cache
def raked_plan():
    plan = sample_plan("stair")
    fronts = tuple(
        type(o)(mark=o.mark, room=o.room, head=o.head, hand=o.hand, state="planned", leaf=(560.0, 1500.0))
        for o in plan.job.openings
    )
    return make_plan(plan.job.model_copy(update={"panels": (), "openings": fronts}), plan.book, seconds=2)


@cache
def panels_plan():
    plan = sample_plan("stair")
    return make_plan(plan.job.model_copy(update={"openings": ()}), plan.book, seconds=2)


@pytest.fixture(scope="session")
def plan_of():
    """A plan by name: a sample job, "hostile" for one full of odd text, "raked" without any part, "panels" of one panel."""

    def plan(name):
        return {"hostile": hostile_plan, "raked": raked_plan, "panels": panels_plan}.get(
            name, lambda: sample_plan(name)
        )()

    return plan


@pytest.fixture(scope="session")
def book():
    return parse_book(sample_book_text())


@pytest.fixture(scope="session")
def front(book):
    """Set out a front; keyword arguments change its build-up."""

    def make(name, width, height, leaves, hand="left", *, sill=False, wanted=EQUAL, **changes):
        build_up = book.build_up(name).model_copy(update=changes)
        stock = Stock(
            book.board(build_up.leaf_board),
            book.board(build_up.lining_board),
            book.section(build_up.trim) if build_up.trim else None,
            book.hinge(build_up.hinge),
            book.hinge_counts,
        )
        frame = Frame(Measure(width, "lining width"), Measure(height, "lining height"), leaves, hand, sill, wanted)
        return build_up, set_out(build_up, stock, frame)

    return make


INSET, LAY_ON = "inset, painted", "lay-on within trim, painted"
PLAIN = "lay-on without trim, run of cupboards"


@pytest.fixture(scope="session")
def many_fronts(front):
    """Fronts of all families, narrow and wide, low and tall, with everything that a build-up can change."""
    return [
        front(INSET, 827, 2022, 2),
        front(INSET, 509, 2022, 1, "right", head_joint="over", hinge_lining=False),
        front(INSET, 1200.5, 900, 3, "right", head_joint="housed", housing=6.0, trim_joint="butted"),
        front(INSET, 300, 600, 1, hinge_lining_width=None, lining_depth=600.0, margin=3.25, meeting_gap=4.5),
        front(INSET, 430, 420, 3, trim=None),
        front(INSET, 420, 600, 2, trim=None, sill=True, hinge_lining=False, lining_depth=90.0),
        front(LAY_ON, 914, 2118, 2),
        front(LAY_ON, 1365, 2118, 3, "left"),
        front(LAY_ON, 612, 1466, 1, sill=True),
        front(LAY_ON, 420, 420, 2, sill=True, hinge_lining=True, trim_joint="mitred"),
        front(LAY_ON, 1500, 900, 3, "right", hinge_lining=True, hinge_lining_width=60.0, trim_joint="mitred"),
        front(LAY_ON, 1900, 1500, 3, "right", sill=True, lining_depth=300.0),
        front(INSET, 1840, 2022, 4),
        front(INSET, 827, 2022, 2, plinth=100.0, plinth_set_back=50.0),
        front(LAY_ON, 914, 2118, 2, plinth=80.0, meeting="rebated", meeting_rebate=12.0),
        front(LAY_ON, 1500, 900, 3, "left", wanted=Wanted(widths=(300.0, 0.0, 500.0))),
        front(PLAIN, 900, 2022, 2, wanted=Wanted(shares=(1.0, 2.0))),
        front(PLAIN, 1800, 1500, 4, sill=True, side_lap="half"),
        front(PLAIN, 500, 900, 1, "right", reveal=0.0, head_joint="over"),
    ]


class Svg:
    """An SVG document as marks with roles."""

    def __init__(self, source):
        self.root = ElementTree.fromstring(source)
        self.width = float(self.root.get("width").removesuffix("mm"))
        self.height = float(self.root.get("height").removesuffix("mm"))

    def tagged(self, tag, role=None):
        found = [e for e in self.root.iter() if e.tag.rpartition("}")[2] == tag]
        return [e for e in found if role is None or e.get("data-role") == role]

    def texts(self, role=None):
        return [e.text for e in self.tagged("text", role)]

    def circle(self, role):
        (found,) = self.tagged("circle", role)
        return float(found.get("cx")), float(found.get("cy")), float(found.get("r"))

    def points(self, element):
        return [tuple(map(float, pair.split(","))) for pair in element.get("points").split()]

    def box(self, role):
        """The upright rectangle around all polygons of a role."""
        points = [p for e in self.tagged("polygon", role) for p in self.points(e)]
        xs, ys = [x for x, _ in points], [y for _, y in points]
        return min(xs), min(ys), max(xs), max(ys)


@pytest.fixture(scope="session")
def read_svg():
    from rodbook.papers.drawing.svg import to_svg

    return lambda drawing: Svg(to_svg(drawing))


@pytest.fixture(scope="session")
def sound():
    """Check what holds for every drawing: lettering large enough, inside the drawing, clear of other lettering."""
    from rodbook.papers.drawing.model import Text, box_of, boxes_of_text

    def check(drawing):
        texts = [mark for mark in drawing.marks if isinstance(mark, Text)]
        assert min(text.height for text in texts) >= 2.5
        around = box_of(drawing.marks)
        assert around.left >= 0
        assert around.top >= 0
        assert around.right <= drawing.width
        assert around.bottom <= drawing.height
        boxes = boxes_of_text(drawing.marks)
        covered = [
            (a, b)
            for n, (a, first) in enumerate(boxes)
            for b, second in boxes[n + 1 :]
            if first.overlaps(second, slack=0.05)
        ]
        assert covered == [], drawing.title
        assert drawing.title

    return check


@pytest.fixture(scope="session")
def read_pdf():
    """A PDF's pages as text, soft breaks taken out."""

    def pages(data):
        return [page.extract_text().replace("\u200b", "") for page in PdfReader(io.BytesIO(data)).pages]

    return pages


@pytest.fixture(scope="session")
def text_of(pdf_of, read_pdf):
    """The pages of a paper of a plan as text, read once."""

    @cache
    def pages(plan, paper):
        return read_pdf(pdf_of(plan, paper))

    return pages


@pytest.fixture(scope="session")
def pdf_of(plan_of):
    """A paper of a plan as bytes, made once."""
    from rodbook.papers import paper_pdf

    @cache
    def make(plan, paper):
        return paper_pdf(plan_of(plan), paper)

    return make
