"""How many source files each of the four recipes of CONTRIBUTING.md touches: counted in the source, said there, and kept."""

import re
from pathlib import Path

import rodbook
from rodbook.desk.platform.grid import COLUMNS as ON_THE_PAGE
from rodbook.job import Opening
from rodbook.job.files.columns import COLUMNS

SOURCE = Path(rodbook.__file__).parent
TEXT = (Path(__file__).parent.parent / "CONTRIBUTING.md").read_text("utf-8")


def _naming(*words):
    """Source files that have one of these words."""
    pattern = re.compile(rf"\b({'|'.join(words)})\b")
    return {
        path.relative_to(SOURCE).as_posix()
        for path in SOURCE.rglob("*.py")
        if "migrations" not in path.parts and pattern.search(path.read_text("utf-8"))
    }


def _said(recipe):
    """What CONTRIBUTING.md says a recipe touches now, in its table."""
    (row,) = re.findall(rf"^\| {recipe} \| ([^|]+) \| (\d+) \|", TEXT, re.MULTILINE)
    return int(row[1])


FIELD = {
    "job/models.py": "the field, with its range and what it is",
    "job/files/columns.py": "its column in lists",
    "desk/platform/grid.py": "its column on the page of openings",
    "job/checks/openings.py": "what it goes with, where it has a rule",
    "plan/stages/openings.py": "handed to the set-out",
    "setout/asked.py": "what a front is asked for",
}
"""What a field of an opening that changes its front touches before the set-out itself uses it."""


def test_a_field_of_an_opening_touches_six_files_and_what_uses_it():
    naming = _naming("end_panels")
    uses = {"setout/end_panels.py", "setout/set_out.py", "plan/stages/runs.py"}
    assert naming - uses == set(FIELD)
    assert _said("a field of an opening") == len(FIELD)


def test_a_field_that_is_only_noted_touches_three():
    listed = {column.field for column in COLUMNS}
    on_the_page = {column.field for column in ON_THE_PAGE}
    by_themselves = {
        "obstacles",
        "ceiling",
        "read_by",
        "leaf_widths",
        "leaf_shares",
    }  # each has rows or a page of its own
    assert set(Opening.model_fields) - by_themselves - listed == set()
    assert set(Opening.model_fields) - by_themselves - on_the_page <= {"note", "diagonals", "depth", "readings"}


def test_a_family_touches_its_folder_its_model_and_two_lines():
    model = "job/build_ups/lay_on_plain.py"
    naming = _naming("lay_on_plain") | {model}
    folder = {name for name in naming if name.startswith("setout/families/lay_on_plain/")}
    lines = {"job/build_ups/registry.py", "setout/families/__init__.py"}
    said_in_passing = {"job/build_ups/__init__.py"}  # its face, which names every model
    assert naming - folder - said_in_passing == lines | {model}
    assert _said("a family of build-ups") == len(lines) + 1 + 1  # the folder is one


def test_a_kind_of_part_touches_two_to_four():
    """An end panel: the facts, the set-out that makes it, and two pictures that show it another way."""
    assert len(_naming(r"PartKind\.END_PANEL")) <= _said("a kind of part")


def test_a_paper_touches_its_folder_and_the_registry():
    naming = {name for name in _naming("sizes_content", "sizes.typ") if not name.startswith("papers/sizes/")}
    assert naming == {"papers/registry.py"}
    files = [path for path in (SOURCE / "papers" / "sizes").iterdir() if path.suffix in (".py", ".typ")]
    command = _naming("sizes:sizes") | {"cli/sizes.py"}
    touched = len(naming) + len([path for path in files if path.name != "__init__.py"]) + len(command)
    assert touched == _said("a paper with page and command")
