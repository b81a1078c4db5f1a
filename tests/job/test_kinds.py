"""Kinds of part: all that is known of one stands in one table, and adding one touches few files."""

import ast
from pathlib import Path

import rodbook
from rodbook.job.kinds import FACTS, PartKind, Stands, kinds_that

SOURCE = Path(rodbook.__file__).parent

TABLES = {
    "job/kinds.py": "the table of all facts",
    "plan/stages/swings.py": "which kinds a leaf may strike, and what they are called there",
    "papers/pictures/foot.py": "uprights, in the order in which one is looked for",
    "setout/rows/parts.py": "what each kind of row is made of",
}
"""Modules that hold more than one kind of part together, and why."""


def _is_kind(node):
    node = node.value if isinstance(node, ast.Starred) else node
    return isinstance(node, ast.Attribute) and isinstance(node.value, ast.Name) and node.value.id == "PartKind"


def _tables(tree):
    for node in ast.walk(tree):
        if (
            (isinstance(node, ast.Dict) and any(key is not None and _is_kind(key) for key in node.keys))
            or (isinstance(node, ast.Dict) and sum(map(_is_kind, node.values)) > 1)
            or (
                isinstance(node, ast.Tuple | ast.List | ast.Set)
                and len(node.elts) > 1
                and any(map(_is_kind, node.elts))
            )
        ):
            yield node


def test_every_kind_has_its_facts_and_a_word_of_its_own():
    assert set(FACTS) == set(PartKind)
    assert len({facts.mark for facts in FACTS.values()}) == len(PartKind)
    assert all(facts.seen for facts in FACTS.values())


def test_what_the_facts_say_goes_together():
    for kind, facts in FACTS.items():
        assert not (facts.lies and facts.drawn_lying), f"{kind} lies, or stands and is drawn lying"
        assert not facts.alike or facts.gridded
        assert not facts.opens or facts.stands is Stands.FACE
        assert not facts.gives_way or facts.behind_plinth
    assert kinds_that(lambda facts: facts.carries == "above") == (PartKind.LINING_HEAD, PartKind.RAIL)


def test_kinds_are_brought_together_in_one_place():
    """32 tables in 18 modules were to be gone through for a new kind, and a list of names besides."""
    found = {
        str(file.relative_to(SOURCE)) for file in SOURCE.rglob("*.py") if any(_tables(ast.parse(file.read_text())))
    }
    assert found == set(TABLES)
