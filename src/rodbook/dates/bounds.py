"""What no schedule can beat, known without a search: the longest chain of each job, and the work that there is for all hands."""

from __future__ import annotations

import heapq
import math
from collections.abc import Sequence

from rodbook.dates.problem import Problem
from rodbook.dates.waits import Gap

__all__ = ["earliest_ends", "refuted", "shared_ends", "simple_bound"]


def earliest_ends(problem: Problem) -> list[int]:
    """Before when each job can't end, were there no other. [quarters]

    The larger of its longest chain, and the first end that can't be refuted by counting hands (see `refuted`).
    """
    early = problem.earliest()
    result = problem.ends(start + task.quarters for start, task in zip(early, problem.tasks, strict=True))
    followers = problem.followers()
    for job, least in enumerate(result):
        members = [n for n, j in enumerate(problem.job) if j == job]
        refuted_end, open_end = (
            least - 1,
            least + sum(problem.tasks[n].quarters * problem.tasks[n].hands for n in members),
        )
        while open_end - refuted_end > 1:
            middle = (refuted_end + open_end) // 2
            if refuted(problem, members, followers, early, middle):
                refuted_end = middle
            else:
                open_end = middle
        result[job] = refuted_end + 1
    return result


def refuted(
    problem: Problem,
    members: Sequence[int],
    followers: Sequence[Sequence[tuple[int, Gap]]],
    early: Sequence[int],
    end: int,
) -> bool:
    r"""Whether a job can't be over by an end, as some stretch of time has too few hands for what must be done in it.

    Parameters
    ----------
    problem : Problem
    members : sequence of int
        Tasks of the job.
    followers : sequence of sequence of (int, Gap)
        For each task what waits for it.
    early : sequence of int
        First start of each task. [quarters]
    end : int
        [quarters]

    Notes
    -----
    With r the first start and d the last end of each task, that a forward and a backward pass from `end` give, and m
    people, it is refuted where for some a < b

    .. math:: \sum_{r_i \ge a, d_i \le b} p_i h_i > m (b - a)
    """
    last: dict[int, int] = {}
    rows: list[tuple[int, int, int]] = []
    for n in reversed(members):
        task = problem.tasks[n]
        ends = (gap.latest(last[f] - problem.tasks[f].quarters) for f, gap in followers[n] if f in last)
        last[n] = min(ends, default=end)
        if last[n] < early[n] + task.quarters:
            return True
        if task.quarters and task.hands:
            rows.append((early[n], last[n], task.quarters * task.hands))
    rows.sort(key=lambda row: row[1])
    for begin in {row[0] for row in rows}:
        work = 0
        for first, until, amount in rows:
            if first >= begin:
                work += amount
                if work > len(problem.people) * (until - begin):
                    return True
    return False


def shared_ends(work: Sequence[float], release: Sequence[int], hands: int) -> float:
    """Least sum of the ends of jobs whose work is done by so many hands, all of them on any job, and put down at will.

    Parameters
    ----------
    work : sequence of float
        Of each job. [quarters of one person]
    release : sequence of int
        When each may begin. [quarters]
    hands : int

    Returns
    -------
    float
        [quarters]

    Notes
    -----
    With work that can be put down at will, whoever always takes up the job with least work left has the least sum.

    References
    ----------
    .. [1] L. Schrage, "A proof of the optimality of the shortest remaining processing time discipline", Operations
       Research 16, 1968 (from memory).

    Examples
    --------
    >>> shared_ends([8, 4], [0, 0], 2)
    8.0
    """
    coming = sorted((begin, amount / hands) for begin, amount in zip(release, work, strict=True))
    left: list[float] = []
    now, total = 0.0, 0.0
    while coming or left:
        if not left:
            now = max(now, coming[0][0])
        while coming and coming[0][0] <= now:
            heapq.heappush(left, coming.pop(0)[1])
        until = coming[0][0] - now if coming else math.inf
        if left[0] <= until:
            now += heapq.heappop(left)
            total += now
        else:
            heapq.heapreplace(left, left[0] - until)
            now += until
    return total


def simple_bound(problem: Problem, lateness: int) -> int:
    """What a schedule costs at the least: ends of all jobs, and `lateness` times what is late. [quarters]"""
    alone = earliest_ends(problem)
    late = (max(0, end - due) for end, due in zip(alone, problem.due, strict=True) if due is not None)
    choices = [_whole(problem), *(_cores(problem, crowd) for crowd in CROWDS)]
    shared = max(_shared(problem, cores) for cores in choices)
    return max(sum(alone), shared) + lateness * sum(late)


CROWDS = (1, 2, 4, 8, 16)
"""How many jobs at once the parts of jobs are chosen for; each choice gives a bound, the largest is kept."""

type Core = tuple[int, int, int]
"""Some of a job's work: when it may begin, how much it is, and what has to pass after it. [quarters]"""


def _shared(problem: Problem, cores: Sequence[Core]) -> int:
    """Least sum of ends, if these parts of the jobs are all that takes hands."""
    least = shared_ends([work for _, work, _ in cores], [begin for begin, _, _ in cores], len(problem.people))
    return math.ceil(least - 1e-6) + sum(tail for _, _, tail in cores)


def _whole(problem: Problem) -> list[Core]:
    """All the work of each job, from its first day on."""
    result = [(0, 0, 0)] * len(problem.works)
    for task, job, begin in zip(problem.tasks, problem.job, problem.release, strict=True):
        result[job] = (begin, result[job][1] + task.quarters * task.hands, 0)
    return result


def _cores(problem: Problem, crowd: int) -> list[Core]:
    """Of each job the work between some head and some tail that makes it longest if so many jobs like it are done at once."""
    early, tails = problem.earliest(), _tails(problem)
    results: list[Core] = []
    for job in range(len(problem.works)):
        rows = [
            (early[n], tails[n], task.quarters * task.hands)
            for n, task in enumerate(problem.tasks)
            if problem.job[n] == job and task.quarters and task.hands
        ]
        best: Core = (0, 0, 0)
        longest = 0.0
        for head in {row[0] for row in rows}:
            work = 0
            for _, tail, amount in sorted((row for row in rows if row[0] >= head), key=lambda row: -row[1]):
                work += amount
                length = head + crowd * work / len(problem.people) + tail
                if length > longest:
                    longest, best = length, (head, work, tail)
        results.append(best)
    return results


def _tails(problem: Problem) -> list[int]:
    """Working time that has to pass after each task until its job ends; what dries may dry overnight. [quarters]"""
    result = [0] * len(problem.tasks)
    for n, followers in reversed(list(enumerate(problem.followers()))):
        for f, gap in followers:
            if problem.job[f] == problem.job[n]:
                result[n] = max(result[n], gap.least + problem.tasks[f].quarters + result[f])
    return result
