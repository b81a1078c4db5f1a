"""Every wait of the desk has an end: for a worker, a lock, a thread, or an answer on its way to a browser."""

import ast
import re
from pathlib import Path

import rodbook.desk

DESK = Path(rodbook.desk.__file__).parent

NEVER_ENDING = {"acquire", "communicate", "join", "recv", "result", "wait"}
"""Calls that wait without an end where they are given neither a number nor a time."""

ENDED_OTHERWISE = {
    ("planning.py", "_labour", "recv"): "the worker's own life: it ends with the desk, which closes the other end",
    ("planning.py", "told", "recv"): "polled with a time just before; half a message is ended by whoever looks",
}


def _waits():
    for path in sorted(DESK.rglob("*.py")):
        tree = ast.parse(path.read_text("utf-8"))
        for function in ast.walk(tree):
            if not isinstance(function, ast.FunctionDef | ast.AsyncFunctionDef):
                continue
            for call in ast.walk(function):
                if (
                    isinstance(call, ast.Call)
                    and isinstance(call.func, ast.Attribute)
                    and call.func.attr in NEVER_ENDING
                    and not call.args
                    and not call.keywords
                ):
                    yield path.name, function.name, call.func.attr


def test_no_wait_in_the_desk_is_without_an_end():
    assert sorted(set(_waits()) - ENDED_OTHERWISE.keys()) == []
    assert sorted(ENDED_OTHERWISE.keys() - set(_waits())) == [], "these are gone; take them out of the list"


def test_every_answer_that_a_page_asks_for_by_itself_has_an_end():
    """One that is lost on its way would else hold all that waits behind it."""
    asked = [
        line.strip()
        for path in (DESK / "static" / "desk").glob("*.js")
        for line in path.read_text("utf-8").splitlines()
        for _ in re.findall(r"\bfetch\(", line)
        if "AbortSignal.timeout(" not in line
    ]
    assert asked == []
