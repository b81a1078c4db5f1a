"""Every paper stands in one registry, and a new one needs no more than a line in it."""

from pathlib import Path

import pytest

from rodbook.errors import InputError
from rodbook.papers import paper_file, write_papers
from rodbook.papers.common.shared import Sheetful, frame
from rodbook.papers.registry import Kind, Paper, file_names, paper_of, papers, registered

TEMPLATE = """#import "frame.typ": *
#let d = json("data.json")
#show: paper.with(d.frame)
#head(d.frame)
#d.line
"""


@pytest.fixture
def doors_paper(tmp_path):
    """A paper of one's own, in a folder of its own, that says how many parts there are."""
    template = tmp_path / "doors.typ"
    template.write_text(TEMPLATE)

    def content(plan):
        line = f"There are {sum(line.quantity for line in plan.schedule)} parts in all."
        return Sheetful(template, {"frame": frame(plan, "Doors", title="Doors"), "line": line}, {})

    return Paper("doors", "Doors", "How many parts there are; for whoever carries them.", content)


def test_a_new_paper_is_made_with_all_the_others(plan_of, doors_paper, tmp_path, read_pdf):
    plan = plan_of("stair")
    with registered(doors_paper):
        assert file_names()[-1] == "doors.pdf"
        (page,) = read_pdf(paper_file(plan, "doors.pdf"))
        written = write_papers(plan, tmp_path / "out")
    assert f"There are {sum(line.quantity for line in plan.schedule)} parts in all." in " ".join(page.split())
    assert [path.name for path in written][-1] == "doors.pdf"
    assert "doors.pdf" not in file_names()


def test_names_are_their_own_and_titles_say_what_they_are():
    assert len({paper.name for paper in papers() if paper.kind is Kind.PDF}) == sum(
        paper.kind is Kind.PDF for paper in papers()
    )
    assert len(set(file_names())) == len(file_names())
    assert all(paper.title and paper.purpose.endswith(".") for paper in papers())


def test_each_paper_that_is_typeset_has_its_template_beside_what_stands_on_it(plan_of):
    plan = plan_of("stair")
    for paper in papers():
        content = paper.content(plan)
        if paper.kind is Kind.PDF:
            module = Path(__import__(paper.content.__module__, fromlist=["_"]).__file__)
            assert content.template.parent == module.parent
            assert content.template.is_file()
        else:
            assert isinstance(content, str)


def test_an_unknown_paper_is_refused_with_those_there_are():
    with pytest.raises(InputError, match=r"there is no paper 'nothing'; there are summary, survey"):
        paper_of("nothing")
