"""A value that remembers how it came about.

A `Measure` is a number with a name and the expression that it came from, built by ordinary arithmetic on other
Measures, so that the working is never written twice:

>>> clear = Measure(842.0, "clear width")
>>> margin, gap = Measure(3.0, "margin"), Measure(3.0, "meeting gap")
>>> leaves = 2
>>> leaf = ((clear - 2 * margin - (leaves - 1) * gap) / leaves).named("leaf width")
>>> print(leaf.working())
leaf width = (clear width 842.0 − 2 × margin 3.0 − 1 × meeting gap 3.0) ÷ 2 = 416.5

A named Measure stands in later workings by its name and value; `Measure.trail` goes back to where all of it came from.
"""

from __future__ import annotations

import math
from collections.abc import Iterable, Iterator
from dataclasses import dataclass, field, replace
from decimal import Decimal

from rodbook.errors import InputError
from rodbook.wording.figures import number, percent

__all__ = ["Measure", "greatest", "least", "number", "percent"]

_SUM, _PRODUCT, _ATOM = 1, 2, 3
"""How tightly an expression binds; a looser one inside a tighter one is put in brackets."""

_TOLERANCE = 1e-6
"""Slack when rounding to a step, in units of the step: far above float error, far below what a saw can set."""


def _plain(value: float) -> str:
    return str(int(value)) if float(value).is_integer() else number(value)


@dataclass(frozen=True)
class Measure:
    """A number with a name, a unit and the expression that it came from.

    Parameters
    ----------
    value : float
        The number itself; must be finite. [`unit`]
    name : str
        What it is, in the trade's words; empty for a step on the way.
    unit : str
        "mm" unless said otherwise.
    source : str
        For a value that was given and not worked out: where it came from ("reading", "book: common practice").

    Raises
    ------
    InputError
        If `value` is not a finite number.
    """

    value: float
    name: str = ""
    unit: str = "mm"
    source: str = ""
    expression: str = ""
    parts: tuple[Measure, ...] = field(default=(), repr=False)
    binding: int = field(default=_ATOM, repr=False, compare=False)

    def __post_init__(self) -> None:
        """Refuse what is not a finite number."""
        if not math.isfinite(self.value):
            raise InputError.at(self.name or "measure", "working.not_a_number", value=self.value)

    # -- how it reads

    def __str__(self) -> str:
        """Value alone, as the trade reads it."""
        return number(self.value)

    def __float__(self) -> float:
        """Value alone."""
        return float(self.value)

    def term(self) -> str:
        """How it stands inside another expression: ``margin 3.0``, or its own expression where it has no name."""
        if self.name:
            return f"{self.name} {number(self.value)}"
        return self.expression or _plain(self.value)

    def working(self) -> str:
        """One line: name, expression with the numbers in it, value."""
        if not self.expression:
            tail = f" ({self.source})" if self.source else ""
            return f"{self.name or 'value'} = {number(self.value)}{tail}"
        return f"{self.name or 'value'} = {self.expression} = {number(self.value)}"

    def trail(self) -> tuple[str, ...]:
        """All the lines behind this value, given values first, itself last, none twice."""
        lines: dict[str, None] = {}
        for measure in self._ancestors():
            if measure.name:
                lines.setdefault(measure.working())
        lines.setdefault(self.working())
        return tuple(lines)

    def _ancestors(self) -> Iterator[Measure]:
        for part in self.parts:
            yield from part._ancestors()
            yield part

    # -- arithmetic

    def named(self, name: str) -> Measure:
        """Give a step its name; what it came from stays with it.

        >>> (Measure(842.0, "clear width") + 0).named("leaf block").name
        'leaf block'
        """
        if self.name and not self.expression:
            return Measure(self.value, name, self.unit, "", self.term(), (self,))
        if self.name:
            return replace(self, name=name, expression=self.term(), parts=(self,), binding=_ATOM)
        return replace(self, name=name)

    def _combine(self, other: object, sign: str, value: float, binding: int, *, swapped: bool = False) -> Measure:
        other_measure = other if isinstance(other, Measure) else _constant(other)
        left, right = (other_measure, self) if swapped else (self, other_measure)
        strict = sign in ("−", "÷")
        expression = f"{_wrap(left, binding)} {sign} {_wrap(right, binding, strict=strict)}"
        kept = tuple(part for part in (left, right) if part.name or part.parts)
        return Measure(value, "", self.unit, "", expression, kept, binding)

    def __add__(self, other: Measure | float) -> Measure:
        """Sum."""
        return self._combine(other, "+", self.value + float(other), _SUM)

    def __radd__(self, other: float) -> Measure:
        """Sum, the plain number first."""
        return self._combine(other, "+", float(other) + self.value, _SUM, swapped=True)

    def __sub__(self, other: Measure | float) -> Measure:
        """Difference."""
        return self._combine(other, "−", self.value - float(other), _SUM)

    def __rsub__(self, other: float) -> Measure:
        """Difference, the plain number first."""
        return self._combine(other, "−", float(other) - self.value, _SUM, swapped=True)

    def __mul__(self, other: Measure | float) -> Measure:
        """Product."""
        return self._combine(other, "×", self.value * float(other), _PRODUCT)

    def __rmul__(self, other: float) -> Measure:
        """Product, the plain number first: ``2 × margin 3.0``."""
        return self._combine(other, "×", float(other) * self.value, _PRODUCT, swapped=True)

    def __truediv__(self, other: Measure | float) -> Measure:
        """Quotient.

        Raises
        ------
        InputError
            If `other` is zero.
        """
        if float(other) == 0:
            raise InputError.at(self.name or "measure", "working.divided_by_zero")
        return self._combine(other, "÷", self.value / float(other), _PRODUCT)

    # -- rounding

    def rounded_down(self, step: float) -> Measure:
        """The nearest multiple of `step` that is not larger; itself where it is one already. [mm]

        >>> print((Measure(842.0, "clear width") / 3).named("third").rounded_down(0.5).working())
        third = (clear width 842.0 ÷ 3 = 280.667) rounded down to 0.5 = 280.5

        Raises
        ------
        InputError
            If `step` is not positive.
        """
        return self._rounded(step, math.floor(_in_steps(self, step) + _TOLERANCE), "down")

    def rounded_up(self, step: float) -> Measure:
        """The nearest multiple of `step` that is not smaller; itself where it is one already. [mm]"""
        return self._rounded(step, math.ceil(_in_steps(self, step) - _TOLERANCE), "up")

    def _rounded(self, step: float, steps: int, way: str) -> Measure:
        value = float(steps * Decimal(repr(step)))
        if abs(value - self.value) <= _TOLERANCE * step:
            return self if value == self.value else replace(self, value=value)
        inner = f"{self.expression} = {number(self.value)}" if self.expression else self.term()
        text = f"({inner}) rounded {way} to {_plain(step)}"
        return Measure(value, self.name, self.unit, "", text, self.parts or ((self,) if self.name else ()))


def _in_steps(measure: Measure, step: float) -> float:
    if not (math.isfinite(step) and step > 0):
        raise InputError.at(measure.name or "measure", "working.step_not_positive", step_mm=step)
    return measure.value / step


def _constant(value: object) -> Measure:
    if not isinstance(value, int | float):
        raise TypeError(f"a Measure works with numbers and Measures, not {type(value).__name__}")
    return Measure(float(value))


def _wrap(measure: Measure, binding: int, *, strict: bool = False) -> str:
    text = measure.term()
    if measure.name or not measure.expression:
        return text
    looser = measure.binding < binding or (strict and measure.binding == binding)
    return f"({text})" if looser else text


def _choose(measures: Iterable[Measure], word: str, name: str, *, smallest: bool) -> Measure:
    given = tuple(measures)
    if not given:
        raise InputError.at(name or "measure", "working.nothing_to_choose", which=word)
    value = min(m.value for m in given) if smallest else max(m.value for m in given)
    text = f"{word} of " + ", ".join(m.term() for m in given)
    return Measure(value, name, given[0].unit, "", text, given)


def least(*measures: Measure, name: str = "") -> Measure:
    """The smallest of several, all of them shown in the working.

    >>> print(least(Measure(845, "width at foot"), Measure(842, "width at head"), name="width").working())
    width = least of width at foot 845.0, width at head 842.0 = 842.0
    """
    return _choose(measures, "least", name, smallest=True)


def greatest(*measures: Measure, name: str = "") -> Measure:
    """The largest of several, all of them shown in the working."""
    return _choose(measures, "greatest", name, smallest=False)
