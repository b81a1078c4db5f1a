"""Drawings whose figures can be touched: each is a link to the working of the size that it shows. Pure.

Paper gets none of this: `svg` draws what is seen, and this adds links over it for the page. A link's target is as large as
a thumb wants it, cut back halfway to its neighbours where figures stand closer than that.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass, replace
from itertools import combinations, groupby

from django.utils.translation import gettext as _

from rodbook.desk.platform.pictures import working_lines, written
from rodbook.papers.drawing.model import Asked, Box, Circle, Drawing, Mark, Text, box_of
from rodbook.papers.drawing.svg import svg_marks, svg_words
from rodbook.papers.numbers import Numbers
from rodbook.working import Measure

__all__ = ["THUMB_PX", "Room", "Target", "Working", "Workings", "live_svg", "targets"]

THUMB_PX = 44.0
"""What a thumb hits without looking twice. [CSS pixels] WCAG 2.2, 2.5.5; 2.5.8 asks for 24."""

_AIR_PX = 7.0
"""A target may reach so far over the drawing's edge: the air that the page leaves around it. [CSS pixels]"""

_RING = 0.5
"""Between a figure and the ring around it. [mm on paper]"""


@dataclass(frozen=True)
class Room:
    """How much of a phone's screen a kind of drawing gets: what the desk's style sheet gives it. [CSS pixels]"""

    width: float
    height: float

    def per_mm(self, drawing: Drawing) -> float:
        """Pixels for a millimetre of this drawing."""
        return min(self.width / drawing.width, self.height / drawing.height)


@dataclass(frozen=True)
class Working:
    """A size with what stands behind it: where it is found on the page, what it is, its value, and its lines."""

    ident: str
    words: str
    value: str
    lines: tuple[str, ...]


class Workings:
    """Collects what the drawings of a page can be asked, like ones once, in the order in which they are met."""

    def __init__(self, write: Numbers, prefix: str) -> None:
        """Begin with none; every one gets an address that starts with `prefix`."""
        self._write, self._prefix = write, prefix
        self._found: dict[tuple[str, str, tuple[str, ...]], Working] = {}

    def ask(self, asked: Asked | Measure) -> Working:
        """The working of something."""
        if isinstance(asked, Measure):
            asked = Asked((asked,))
        lines = asked.lines or working_lines(asked.measures, self._write)
        value = " and ".join(dict.fromkeys(self._write.short(measure.value) for measure in asked.measures))
        key = asked.name, value, lines
        if key not in self._found:
            self._found[key] = Working(f"{self._prefix}-{len(self._found) + 1}", *key)
        return self._found[key]

    @property
    def found(self) -> tuple[Working, ...]:
        """All of them."""
        return tuple(self._found.values())


@dataclass(frozen=True)
class Target:
    """What can be touched: the figure's own box, where it can be touched, and the figure as it is read. [mm on paper]"""

    asked: Asked
    figure: str
    box: Box
    hit: Box
    upright: bool = False


def _asking(marks: Iterable[Mark]) -> Iterator[tuple[Asked, list[Text | Circle]]]:
    """What is asked, with the marks that ask it; marks that follow on each other and ask the same belong together."""
    asking = [(mark.asks, mark) for mark in marks if isinstance(mark, Text | Circle) and mark.asks]
    for asks, group in groupby(asking, key=lambda pair: pair[0]):
        yield asks, [mark for _, mark in group]


def targets(drawing: Drawing, per_mm: float) -> tuple[Target, ...]:
    """Everything in a drawing that can be touched, no two of them overlapping.

    Parameters
    ----------
    drawing : Drawing
    per_mm : float
        Pixels for a millimetre.
    """
    half = THUMB_PX / per_mm / 2
    air = _AIR_PX / per_mm
    sheet = Box(-air, -air, drawing.width + air, drawing.height + air)
    results: list[Target] = []
    for asks, marks in _asking(drawing.marks):
        box = box_of(marks)
        texts = [mark for mark in marks if isinstance(mark, Text)]
        figure = " ".join(text.content for text in texts)
        x, y = (box.left + box.right) / 2, (box.top + box.bottom) / 2
        wanted = box.around(Box(x - half, y - half, x + half, y + half))
        if len(asks.ends) == 2:
            (x1, y1), (x2, y2) = asks.ends
            wanted = wanted.around(Box(min(x1, x2), min(y1, y2), max(x1, x2), max(y1, y2)))
        upright = bool(texts) and texts[-1].upright
        results.append(Target(asks, figure, box, _within(wanted, sheet), upright))
    return _kept_apart(results)


def _within(box: Box, sheet: Box) -> Box:
    return Box(
        max(box.left, sheet.left), max(box.top, sheet.top), min(box.right, sheet.right), min(box.bottom, sheet.bottom)
    )


def _kept_apart(results: list[Target]) -> tuple[Target, ...]:
    """Cut any two that overlap back to the middle between their figures, where these stand further apart."""
    hits = [target.hit for target in results]
    for i, j in combinations(range(len(results)), 2):
        if not hits[i].overlaps(hits[j]):
            continue
        a, b = results[i].box, results[j].box
        across = max(a.left, b.left) - min(a.right, b.right)
        down = max(a.top, b.top) - min(a.bottom, b.bottom)
        if across >= down:
            first, second = (i, j) if a.left + a.right <= b.left + b.right else (j, i)
            middle = (results[first].box.right + results[second].box.left) / 2
            hits[first] = replace(hits[first], right=min(hits[first].right, middle))
            hits[second] = replace(hits[second], left=max(hits[second].left, middle))
        else:
            first, second = (i, j) if a.top + a.bottom <= b.top + b.bottom else (j, i)
            middle = (results[first].box.bottom + results[second].box.top) / 2
            hits[first] = replace(hits[first], bottom=min(hits[first].bottom, middle))
            hits[second] = replace(hits[second], top=max(hits[second].top, middle))
    return tuple(replace(target, hit=hit) for target, hit in zip(results, hits, strict=True))


def live_svg(drawing: Drawing, write: Numbers, workings: Workings, room: Room) -> str:
    """A drawing for a page, with a link on every figure that has a working.

    Parameters
    ----------
    drawing : Drawing
    write : Numbers
    workings : Workings
        Gets what the drawing can be asked; the page has to show it where the links lead.
    room : Room
        What it gets on a phone.

    Returns
    -------
    str
        To those who hear it, a group by the drawing's title, with one link for each figure and nothing else.
    """
    drawing = written(drawing, write)
    width, height = f"{drawing.width:.3f}", f"{drawing.height:.3f}"
    links = "\n".join(_link(target, workings.ask(target.asked)) for target in targets(drawing, room.per_mm(drawing)))
    return (
        f'<svg xmlns="http://www.w3.org/2000/svg" class="touch-drawing" width="{width}mm" height="{height}mm" '
        f'viewBox="0 0 {width} {height}" role="group" aria-label="{svg_words(drawing.title)}">\n'
        f'<g aria-hidden="true">\n{svg_marks(drawing.marks)}\n</g>\n{links}\n</svg>\n'
    )


def _rect(look: str, box: Box, air: float = 0.0) -> str:
    return (
        f'<rect class="{look}" x="{box.left - air:.2f}" y="{box.top - air:.2f}" '
        f'width="{box.width + 2 * air:.2f}" height="{box.height + 2 * air:.2f}"/>'
    )


def _said(target: Target, working: Working) -> str:
    """What a link is called; it begins with the figure as it stands in the drawing, so that it can be called by it."""
    name = f"{working.words} {working.value} mm" if working.value else working.words
    return name if target.figure in name else f"{target.figure}: {name}"


def _link(target: Target, working: Working) -> str:
    box, parts = target.box, [_rect("hit", target.hit), _rect("ring", target.box, _RING)]
    if target.figure:
        ends = (
            (box.right, box.top, box.right, box.bottom)
            if target.upright
            else (box.left, box.bottom, box.right, box.bottom)
        )
        parts.append('<path class="under" d="M{:.2f} {:.2f}L{:.2f} {:.2f}"/>'.format(*ends))
    if len(target.asked.ends) == 2:
        (x1, y1), (x2, y2) = target.asked.ends
        parts.append(f'<path class="stretch" d="M{x1:.2f} {y1:.2f}L{x2:.2f} {y2:.2f}"/>')
    answer = svg_words(_("%(what)s: show working") % {"what": _said(target, working)})
    return f'<a class="dim" href="#{working.ident}" aria-label="{answer}">{"".join(parts)}</a>'
