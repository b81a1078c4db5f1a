"""No code decides by looking into a sentence, a place in words or a name; and the search for such code finds it."""

import importlib.util
from pathlib import Path

import pytest

_SCRIPT = Path(__file__).parent.parent / "scripts" / "words_lint.py"
_SPEC = importlib.util.spec_from_file_location("words_lint", _SCRIPT)
words_lint = importlib.util.module_from_spec(_SPEC)
_SPEC.loader.exec_module(words_lint)


def test_no_code_decides_by_words_but_what_is_listed_with_its_reason():
    left, gone = words_lint.lint()
    assert [str(one) for one in left] == []
    assert gone == set(), "listed to stay, and not there any more"
    assert all(words_lint.STAYS.values())


@pytest.mark.parametrize(
    "line",
    [
        'if "No depth" in note.sentence: pass',
        'if fault.where == "openings": pass',
        'fault.where.split(" (")',
        're.match("row", fault.where)',
        "names = {fault.where: 1 for fault in faults}",
        "known.get(fault.where, 0)",
        'str(error).startswith("no")',
        "seen = {fault.where for fault in faults}",
        "words[fault.what]",
        'if rate.name.startswith("rejects, "): pass',
        'if measure.name == "plinth height": pass',
        'if fault.where.lower() in ("a", "b"): pass',
        'if element.label in ("door", "flap"): pass',
    ],
)
def test_what_decides_by_words_is_found(line):
    assert len(list(words_lint.found_in(line, "m"))) == 1


@pytest.mark.parametrize(
    "line",
    [
        'if fault.code == "plan.no_depth_read": pass',
        'if fault.at.path == ("openings",): pass',
        "print(fault.where)",
        'text = f"{fault.where}: {fault.what}"',
        "if rate.name == RateName.MARGIN: pass",
        'path.name.startswith("new-")',
        "if hanging.what is PartKind.DOOR: pass",
        "if entry.name == name: pass",
    ],
)
def test_what_decides_by_data_is_not(line):
    assert list(words_lint.found_in(line, "m")) == []
