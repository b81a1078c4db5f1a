"""Panels that belong to a front against that front and its build-up."""

from __future__ import annotations

from collections.abc import Iterator, Mapping

from rodbook.errors import Fault
from rodbook.job.book import AnyBuildUp
from rodbook.job.faults import nearest, one_line
from rodbook.job.models import Opening, Panel

__all__ = ["panel_faults"]


def panel_faults(
    panels: Mapping[int, Panel], openings: Mapping[str, Opening], build_ups: Mapping[str, AnyBuildUp], own: str | None
) -> Iterator[Fault]:
    """Every fault between a job's panels and the fronts that they belong to.

    Parameters
    ----------
    panels : mapping
        By their number from 1.
    openings : mapping
        By mark.
    build_ups : mapping
        By name; empty where there is no book to look in.
    own : str, optional
        The job's own build-up.
    """
    for number, panel in panels.items():
        mark = f" ({one_line(panel.mark, 40)})"
        for field, what in _of_one(panel, openings, build_ups, own):
            yield Fault(f"panels[{number}].{field}{mark}", what)


def _of_one(
    panel: Panel, openings: Mapping[str, Opening], build_ups: Mapping[str, AnyBuildUp], own: str | None
) -> Iterator[tuple[str, str]]:
    if panel.kind == "panel":
        yield from _by_itself(panel)
        return
    if panel.of is None:
        yield "of", f"an {panel.kind} belongs to a front; write the mark of its opening"
    elif panel.of not in openings:
        yield "of", f"there is no opening {panel.of!r}{nearest(panel.of, list(openings))}"
    if panel.kind == "apron":
        yield from _apron(panel)
        return
    if panel.side is None:
        yield "side", "an end panel closes one side; write left or right, seen from the front"
    opening = openings.get(panel.of or "")
    build_up = build_ups.get((opening.build_up if opening else None) or own or "")
    if opening is not None and build_up is not None and build_up.trim is not None:
        said = f"{panel.of!r} is built as {build_up.name!r}, whose trim lies on the wall beside it, so no side of it is seen"
        yield "of", said


def _by_itself(panel: Panel) -> Iterator[tuple[str, str]]:
    missing = "this is missing: a panel that belongs to no front is made to the size that is given"
    needless = "only an end panel or an apron has this; say which it is, or leave it out"
    yield from ((field, missing) for field in ("length", "width") if getattr(panel, field) is None)
    yield from ((field, needless) for field in ("of", "side", "scribe") if getattr(panel, field))


def _apron(panel: Panel) -> Iterator[tuple[str, str]]:
    if panel.width is None:
        yield "width", "this is missing: how wide the apron is, across its grain"
    needless = "only an end panel has this; an apron runs across the whole front"
    yield from ((field, needless) for field in ("side", "scribe") if getattr(panel, field))
