"""The best schedule that can be found, and the proof or the bound: constraint programming over whole quarters."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING, Any

from rodbook.dates.bounds import simple_bound
from rodbook.dates.problem import Problem
from rodbook.dates.serial import Answer, first_answer, in_turn
from rodbook.dates.waits import QUARTERS_A_DAY

if TYPE_CHECKING:
    from rodbook.dates.waits import Gap

__all__ = ["LATENESS", "Solved", "solve"]

LATENESS = 10
"""A quarter of an hour after the day that was wanted weighs as much as so many of an earlier end (house assumption)."""

SMALL = 120
"""Up to so many tasks the model is simplified before the search; beyond, that takes longer than it saves (tried)."""

type Var = Any


@dataclass(frozen=True)
class Solved:
    """An answer, what it costs, and the least that any can cost. [quarters]"""

    answer: Answer
    cost: int
    bound: int

    @property
    def proven(self) -> bool:
        """Whether no answer costs less."""
        return self.cost <= self.bound


def solve(problem: Problem, *, effort: float = 0.3, seed: int = 0) -> Solved:
    """Search for the schedule whose jobs end soonest.

    Parameters
    ----------
    problem : Problem
    effort : float
        How much work the search may do, by its own count and not by the clock, so that the same question always gets the
        same answer; a tenth of a unit is about a second where many jobs are planned at once.
    seed : int

    Raises
    ------
    Infeasible
        If the tasks do not fit into the calendar.
    """
    first = first_answer(problem, lateness=LATENESS, seed=seed)
    cost = problem.cost(first.ends(problem), LATENESS)
    bound = simple_bound(problem, LATENESS)
    if cost > bound and effort > 0:
        result, better = _Search(problem, first, cost, bound).run(effort, seed)
        bound = max(bound, better)
        if result is not None:
            first = result
    # Each task as early as it goes with these people in this turn: never later than what the search left.
    order = sorted(range(len(problem.tasks)), key=lambda n: (first.starts[n], n))
    best = in_turn(problem, order, first.people)
    cost = problem.cost(best.ends(problem), LATENESS)
    return Solved(best, cost, min(bound, cost))


class _Search:
    """A model of one problem.

    People who do the same trades and have no days off of their own are alike and are counted, not named; who does what
    is told afterwards. Everybody else is a group of one.
    """

    def __init__(self, problem: Problem, first: Answer, cost: int, bound: int) -> None:
        from ortools.sat.python import cp_model  # half a second and much memory, which no other command should pay for

        self.cp = cp_model
        self.problem = problem
        self.first = first
        self.model = cp_model.CpModel()
        ends = first.ends(problem)
        one = len(problem.works) == 1
        self.horizon = min(problem.calendar.length, max(ends) if one else max(ends) + max(ends) // 2)
        self.groups = self._grouped()
        early = problem.earliest()
        self.starts = [
            self.model.new_int_var(early[n], max(early[n], self.horizon - t.quarters), f"s{n}")
            for n, t in enumerate(problem.tasks)
        ]
        self.spans = [
            self.model.new_fixed_size_interval_var(self.starts[n], t.quarters, f"i{n}")
            for n, t in enumerate(problem.tasks)
        ]
        self.days: dict[int, Var] = {}
        self.off_hours: dict[tuple[int, bool], Var] = {}
        self._waits()
        self._places()
        self.hands = self._people()
        self._aim(cost, bound)
        for n, start in enumerate(first.starts):
            self.model.add_hint(self.starts[n], start)

    def _grouped(self) -> list[tuple[int, ...]]:
        results: dict[object, list[int]] = {}
        for n, person in enumerate(self.problem.people):
            key = n if self.problem.blocks[n] else tuple(sorted(person.trades))
            results.setdefault(key, []).append(n)
        return [tuple(members) for members in results.values()]

    def _end(self, n: int) -> Var:
        return self.starts[n] + self.problem.tasks[n].quarters

    def _begun(self, n: int) -> Var:
        """Days begun by the end of a task."""
        if n not in self.days:
            day = self.problem.calendar.quarters
            var = self.model.new_int_var(1, self.horizon // day + 2, f"d{n}")
            self.model.add(day * var >= self._end(n))
            # At quarter 0 the first day counts as begun, else the number of days is rounded up.
            if self.problem.tasks[n].quarters or self.problem.earliest()[n]:
                self.model.add(day * var <= self._end(n) + day - 1)
            else:
                self.model.add(day * var <= self._end(n) + day)
            self.days[n] = var
        return self.days[n]

    def _waits(self) -> None:
        for n, before in enumerate(self.problem.before):
            for p, gap in before:
                self._wait(n, p, gap)

    def _wait(self, n: int, p: int, gap: Gap) -> None:
        start = self.starts[n]
        self.model.add(start >= self._end(p) + gap.working)
        if gap.lead is not None:
            mornings = [gap.lead.comes_by(d) for d in range(self.most_days)]
            if all(morning == d + gap.lead.days for d, morning in enumerate(mornings)):
                self.model.add(start >= gap.day * (self._begun(p) + gap.lead.days - 1))
            else:
                morning = self.model.new_int_var(0, max(mornings), f"m{p},{n}")
                self.model.add_element(self._begun(p) - 1, mornings, morning)
                self.model.add(start >= gap.day * morning)
        if gap.drying and gap.overnight:
            soon = self.model.new_bool_var(f"dry{p},{n}")
            self.model.add(start >= self._end(p) + gap.drying).only_enforce_if(soon)
            self.model.add(start >= gap.day * self._begun(p)).only_enforce_if(soon.negated())
        elif gap.drying:
            self.model.add(self._by_clock(n, start, gap) >= self._by_clock(p, self._end(p), gap) + gap.drying)

    @property
    def most_days(self) -> int:
        """Days that the search looks at, with some to spare."""
        return self.horizon // self.problem.calendar.quarters + 3

    def _by_clock(self, n: int, quarter: Var, gap: Gap) -> Var:
        """Quarters by the clock at which a task begins or has ended, nights and weekends counted."""
        ends = quarter is not self.starts[n]
        if (n, ends) not in self.off_hours:
            day = gap.day
            shifts = [QUARTERS_A_DAY * gap.clock.ordinal(d) - day * d for d in range(self.most_days)]
            passed = self.model.new_int_var(min(shifts), max(shifts), f"c{n},{ends}")
            if ends:
                number = self._begun(n) - 1
            else:
                number = self.model.new_int_var(0, self.most_days - 1, f"w{n}")
                self.model.add(day * number <= quarter)
                self.model.add(day * number >= quarter - day + 1)
            self.model.add_element(number, shifts, passed)
            self.off_hours[n, ends] = passed
        return quarter + self.off_hours[n, ends]

    def _places(self) -> None:
        places: dict[str, list[Var]] = {}
        for n, task in enumerate(self.problem.tasks):
            if task.place and task.quarters:
                places.setdefault(task.place, []).append(self.spans[n])
        for spans in places.values():
            if len(spans) > 1:
                self.model.add_no_overlap(spans)

    def _people(self) -> list[dict[int, Var]]:
        """How many of each group do each task."""
        hands: list[dict[int, Var]] = []
        use: list[list[tuple[Var, Var]]] = [[] for _ in self.groups]
        for n, task in enumerate(self.problem.tasks):
            able = [g for g, members in enumerate(self.groups) if members[0] in self.problem.able[n]]
            counts: dict[int, Var] = {}
            if not task.hands or not task.quarters:
                hands.append(counts)
                continue
            if len(able) == 1:
                counts[able[0]] = task.hands
                use[able[0]].append((self.spans[n], task.hands))
            elif task.hands == 1:
                for g in able:
                    counts[g] = self.model.new_bool_var(f"g{n},{g}")
                    span = self.model.new_optional_fixed_size_interval_var(
                        self.starts[n], task.quarters, counts[g], f"i{n},{g}"
                    )
                    use[g].append((span, 1))
                    self.model.add_hint(counts[g], int(bool(set(self.groups[g]) & set(self.first.people[n]))))
                self.model.add_exactly_one(counts.values())
            else:
                for g in able:
                    counts[g] = self.model.new_int_var(0, min(task.hands, len(self.groups[g])), f"g{n},{g}")
                    use[g].append((self.spans[n], counts[g]))
                    self.model.add_hint(counts[g], len(set(self.groups[g]) & set(self.first.people[n])))
                self.model.add(sum(counts.values()) == task.hands)
            hands.append(counts)
        self._no_more_than_there_are(use)
        return hands

    def _off(self, person: int) -> list[tuple[Var, int]]:
        blocks = [(a, min(b, self.horizon)) for a, b in self.problem.blocks[person] if a < self.horizon]
        return [(self.model.new_fixed_size_interval_var(a, b - a, f"off{person},{a}"), 1) for a, b in blocks]

    def _no_more_than_there_are(self, use: Sequence[list[tuple[Var, Var]]]) -> None:
        off = [self._off(members[0]) for members in self.groups]
        for members, wanted, away in zip(self.groups, use, off, strict=True):
            both = [*wanted, *away]
            if both:
                self.model.add_cumulative([s for s, _ in both], [d for _, d in both], len(members))
        if len(self.groups) > 1:  # follows from the above, but seen together it proves more
            everybody = [(self.spans[n], t.hands) for n, t in enumerate(self.problem.tasks) if t.hands and t.quarters]
            everybody += [pair for away in off for pair in away]
            self.model.add_cumulative([s for s, _ in everybody], [d for _, d in everybody], len(self.problem.people))

    def _aim(self, cost: int, bound: int) -> None:
        terms: list[Var] = []
        followed = {p for before in self.problem.before for p, _ in before}
        for j, due in enumerate(self.problem.due):
            last = [n for n, job in enumerate(self.problem.job) if job == j and n not in followed]
            end = self.model.new_int_var(0, self.horizon, f"end{j}")
            for n in last:
                self.model.add(end >= self._end(n))
            terms.append(end)
            if due is not None:
                late = self.model.new_int_var(0, self.horizon, f"late{j}")
                self.model.add(late >= end - due)
                terms.append(LATENESS * late)
        aim = sum(terms)
        self.model.add(aim <= cost)
        self.model.add(aim >= bound)
        self.model.minimize(aim)

    def run(self, effort: float, seed: int) -> tuple[Answer | None, int]:
        """The best answer found, none where it is not better than the first, and the bound."""
        solver = self.cp.CpSolver()
        solver.parameters.num_workers = 1
        solver.parameters.random_seed = seed
        solver.parameters.max_deterministic_time = effort
        solver.parameters.interleave_search = True
        solver.parameters.cp_model_presolve = len(self.problem.tasks) <= SMALL
        status = solver.solve(self.model)
        bound = round(solver.best_objective_bound)
        if status not in (self.cp.OPTIMAL, self.cp.FEASIBLE):
            return None, bound if status == self.cp.UNKNOWN else 0
        starts = tuple(int(solver.value(start)) for start in self.starts)
        counts = [{g: int(solver.value(c)) for g, c in counts.items()} for counts in self.hands]
        return Answer(starts, self._named(starts, counts)), bound

    def _named(self, starts: Sequence[int], counts: Sequence[dict[int, int]]) -> tuple[tuple[int, ...], ...]:
        """Who of each group does each task: whoever is free, in order of start; there is always somebody."""
        free_from = [0] * len(self.problem.people)
        chosen: list[tuple[int, ...]] = [()] * len(starts)
        for n in sorted(range(len(starts)), key=lambda n: (starts[n], n)):
            mine: list[int] = []
            for g, count in counts[n].items():
                free = [p for p in self.groups[g] if free_from[p] <= starts[n]]
                assert len(free) >= count, "people who are alike can be named after they were counted"
                mine += sorted(free, key=lambda p: (-free_from[p], p))[:count]
            for person in mine:
                free_from[person] = starts[n] + self.problem.tasks[n].quarters
            chosen[n] = tuple(sorted(mine))
        return tuple(chosen)
