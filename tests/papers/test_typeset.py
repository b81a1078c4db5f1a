"""Typesetting: the same bytes each time, the papers' own fonts, and clear sentences when it fails."""

import io
from datetime import date

import pytest
from pypdf import PdfReader

from rodbook.errors import RenderError
from rodbook.papers import paper_pdf
from rodbook.papers.common.shared import Sheetful
from rodbook.papers.typeset import set_pdf, set_png

PAPERS = ["summary", "openings", "parts-schedule", "workshop-order", "layouts"]


def fonts_in(data):
    found = set()
    for page in PdfReader(io.BytesIO(data)).pages:
        waiting = [page["/Resources"]]
        while waiting:
            resources = waiting.pop().get_object()
            found |= {str(font.get_object()["/BaseFont"]) for font in resources.get("/Font", {}).values()}
            inner = [x.get_object() for x in resources.get("/XObject", {}).values()]
            waiting += [x["/Resources"] for x in inner if "/Resources" in x]
    return found


@pytest.mark.parametrize("paper", PAPERS)
def test_the_only_fonts_are_the_papers_own(pdf_of, paper):
    names = {name.lstrip("/").partition("+")[2] for name in fonts_in(pdf_of("converted-store", paper))}
    assert names
    assert {name.partition("-")[0] for name in names} == {"Barlow"}


@pytest.mark.parametrize("paper", PAPERS)
def test_the_same_plan_gives_the_same_bytes(plan_of, pdf_of, paper):
    assert paper_pdf(plan_of("stair"), paper) == pdf_of("stair", paper)


@pytest.mark.parametrize("paper", PAPERS)
def test_every_paper_is_tagged_and_says_what_it_is(pdf_of, paper):
    reader = PdfReader(io.BytesIO(pdf_of("converted-store", paper)))
    assert reader.trailer["/Root"]["/MarkInfo"]["/Marked"]
    assert "Old seed store, first-floor corridor" in reader.metadata.title
    assert reader.metadata.author == "Harrow & Pike, joiners"
    xmp = reader.trailer["/Root"]["/Metadata"].get_object().get_data().decode()
    assert "pdfuaid" in xmp
    assert "pdfaid" in xmp


def test_the_date_is_the_jobs(pdf_of):
    made = PdfReader(io.BytesIO(pdf_of("converted-store", "summary"))).metadata.creation_date
    assert made.date() == date(2026, 11, 2)


def with_client(plan, client):
    from dataclasses import replace

    header = plan.job.job.model_copy(update={"client": client})
    return replace(plan, job=plan.job.model_copy(update={"job": header}))


def test_greek_is_set_in_the_typesetters_own_face(plan_of, read_pdf):
    data = paper_pdf(with_client(plan_of("stair"), "Ωμέγα"), "summary")
    assert "Ωμέγα" in read_pdf(data)[0]


def test_a_letter_that_no_font_has_is_named(plan_of):
    message = (
        "summary: the papers' lettering, Barlow, has no '日', which stands in the job or the book; "
        "write it with other letters"
    )
    with pytest.raises(RenderError) as caught:
        paper_pdf(with_client(plan_of("stair"), "日本"), "summary")
    assert str(caught.value) == message


@pytest.fixture
def template(tmp_path):
    def used(source):
        path = tmp_path / "test.typ"
        path.write_bytes(source)
        return Sheetful(path, {}, {})

    return used


def test_a_warning_stops_the_paper(template):
    sheet = template(b'#set text(font: "No Such Face")\nhello')
    with pytest.raises(RenderError, match="a paper could not be typeset cleanly: unknown font family: no such face"):
        set_png(sheet)


@pytest.mark.parametrize("set_it", [lambda s: set_pdf(s, day=date(2026, 1, 1)), set_png])
def test_a_fault_in_a_template_is_a_render_error(template, set_it):
    with pytest.raises(RenderError, match="test: it could not be typeset: unknown variable: nothing"):
        set_it(template(b"#nothing"))


def test_templates_reach_nothing_outside_themselves(template, tmp_path, monkeypatch):
    (tmp_path / "secret.txt").write_text("secret")
    monkeypatch.chdir(tmp_path)
    for source in (b'#read("secret.txt")', b'#read("/secret.txt")', f'#read("{tmp_path}/secret.txt")'.encode()):
        with pytest.raises(RenderError):
            set_png(template(source))
