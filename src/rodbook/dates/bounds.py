"""What no schedule can beat, known without a search: the longest chain of each job, and the work that there is for all hands."""

from __future__ import annotations

import heapq
import math
from collections.abc import Sequence

from rodbook.dates.problem import Problem

__all__ = ["earliest_ends", "shared_ends", "simple_bound"]


def earliest_ends(problem: Problem) -> list[int]:
    """When each job would end if there were people enough. [quarters]"""
    return problem.ends(start + task.quarters for start, task in zip(problem.earliest(), problem.tasks, strict=True))


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
    work = [0.0] * len(problem.works)
    release = [0] * len(problem.works)
    for task, job, begin in zip(problem.tasks, problem.job, problem.release, strict=True):
        work[job] += task.quarters * task.hands
        release[job] = begin
    shared = math.ceil(shared_ends(work, release, len(problem.people)) - 1e-6)
    return max(sum(alone), shared) + lateness * sum(late)
