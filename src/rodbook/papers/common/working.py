"""The working behind sizes, as lines that a joiner can follow."""

from __future__ import annotations

from collections.abc import Iterable, Mapping

from rodbook.papers.common.shared import Json
from rodbook.papers.numbers import Numbers
from rodbook.working import Measure

__all__ = ["working_of"]


def working_of(measures: Iterable[Measure], marks: Mapping[str, str], write: Numbers) -> Json:
    """Bring the trails of several measures together, each line once.

    Parameters
    ----------
    measures : iterable of Measure
        In the order in which they should come about.
    marks : mapping of str to str
        Marks of the parts that a line gives a size of, by the line.
    write : Numbers

    Returns
    -------
    dict
        ``given``: name, value, source of what was not worked out; ``steps``: marks, name, expression and value.
    """
    lines: dict[str, None] = {}
    for measure in measures:
        for line in measure.trail():
            lines.setdefault(line)
    given: list[Json] = []
    steps: list[Json] = []
    for line in lines:
        name, _, rest = line.partition(" = ")
        expression, equals, value = rest.rpartition(" = ")
        if equals:
            steps.append([marks.get(line, ""), name, write.in_working(expression), write.in_working(value)])
        else:
            value, _, source = rest.partition(" (")
            given.append([name, write.in_working(value), source.removesuffix(")")])
    return {"given": given, "steps": steps}
