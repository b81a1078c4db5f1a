"""Codes in the code and in the catalogue are the same, and each sentence gets the parameters that it has.

Read from the syntax tree of the source: nothing is run.
"""

import ast
import re
from collections import Counter
from pathlib import Path
from runpy import run_path

import rodbook
from rodbook.wording.catalogue import sentences

ROOT = Path(rodbook.__file__).parent
parameters_of = run_path(str(Path(__file__).parent.parent.parent / "scripts" / "error_codes.py"))["parameters_of"]
CATALOGUE = sentences()
MAKERS = {
    "Fault": 1,
    "Note": 1,
    "at": 1,
    "Message": 0,
    "Infeasible": 0,
    "StoreError": 0,
    "RenderError": 0,
    "Unread": 0,
    "RodbookError": 0,
}
"""What takes a code, and which of its arguments that is."""

OWN = {"items"}
"""Keywords that are no parameters of a sentence."""

PLAIN = ("plan/", "survey/")
"""Rooms in which a sentence is still made where it is known, and handed on as text: what the readings of a survey look like, and
what a plan says of them and of leaves that swing."""

GLUED = ("boards/asked/inputs.py", "desk/", "hinges/swing/paths.py")
"""Modules in which places are still put together as text: those of `boards` count from 0, as Python's callers do; the desk
has names of fields of a form, one for each row."""


def _name(call):
    return call.func.attr if isinstance(call.func, ast.Attribute) else getattr(call.func, "id", "")


def _codes(node):
    """The codes that an argument may be; None where that is not written there."""
    if isinstance(node, ast.Constant) and isinstance(node.value, str):
        return [node.value]
    if isinstance(node, ast.IfExp):
        one, other = _codes(node.body), _codes(node.orelse)
        return one + other if one and other else None
    return None


def _sites():
    for path in sorted(ROOT.rglob("*.py")):
        where = path.relative_to(ROOT).as_posix()
        if where.startswith("wording/catalogue/"):
            continue
        for node in ast.walk(ast.parse(path.read_text("utf-8"))):
            if isinstance(node, ast.Call) and (place := MAKERS.get(_name(node))) is not None and len(node.args) > place:
                if _name(node) == "at" and ast.unparse(node.func) != "InputError.at":
                    continue
                yield where, node, node.args[place], node.args[0] if place else None


SITES = list(_sites())


def test_every_code_that_is_used_stands_in_the_catalogue():
    unknown = [
        f"{where}:{node.lineno} {code}"
        for where, node, said, _ in SITES
        for code in _codes(said) or ()
        if code not in CATALOGUE
    ]
    assert not unknown


def test_every_code_of_the_catalogue_is_used():
    words = re.compile(r"[\"']([a-z_0-9]+\.[a-z_0-9]+)[\"']")
    used = {
        word
        for path in ROOT.rglob("*.py")
        if "catalogue" not in path.parts
        for word in words.findall(path.read_text("utf-8"))
    }
    assert sorted(CATALOGUE.keys() - used) == []


def test_each_sentence_gets_the_parameters_that_it_has():
    wrong = []
    for where, node, said, _ in SITES:
        codes = [code for code in _codes(said) or () if code in CATALOGUE]
        if not codes or any(keyword.arg is None for keyword in node.keywords):
            continue
        given = {keyword.arg for keyword in node.keywords} - OWN
        every = set().union(*(parameters_of(CATALOGUE[code]) for code in codes))
        lacking = {name for code in codes for name in parameters_of(CATALOGUE[code])} - given
        if (lacking and len(codes) == 1) or given - every:
            wrong.append(f"{where}:{node.lineno} {codes}: lacks {sorted(lacking)}, has beyond {sorted(given - every)}")
    assert not wrong


def test_a_sentence_is_handed_on_as_text_only_where_it_may_be():
    used = Counter(where for where, _, said, _ in SITES if _codes(said) == ["plain.text"])
    assert [where for where in used if not where.startswith(PLAIN)] == []


def test_no_place_is_put_together_as_text():
    glued = [
        f"{where}:{node.lineno}"
        for where, node, _, at in SITES
        if isinstance(at, ast.JoinedStr | ast.BinOp)
        and not where.startswith(GLUED)
        and not (isinstance(at, ast.BinOp) and isinstance(at.op, ast.Div))
    ]
    assert not glued


def test_a_code_is_a_subject_and_what_is_wrong():
    assert [code for code in CATALOGUE if not re.fullmatch(r"[a-z_]+\.[a-z_0-9]+", code)] == []


def test_the_sites_are_found():
    """The checks above see what is there: hundreds of codes that are written where they are used."""
    assert len({code for *_, said, _ in SITES for code in _codes(said) or ()}) > len(CATALOGUE) / 2
