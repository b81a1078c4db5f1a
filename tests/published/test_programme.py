"""Networks, three guesses and people against figures printed elsewhere.

Marks as in the README beside this file. Tolerance: half a unit in the last printed place; times of networks are whole.
"""

from __future__ import annotations

from datetime import date

import pytest

from rodbook.dates import (
    Person,
    Stage,
    Task,
    Wait,
    Work,
    breaches,
    chance_by,
    critical_path,
    make_calendar,
    make_schedule,
    path_chance,
    paths_chance,
    three_point,
)

type Row = tuple[float, float, float, float, float]


def _rows(durations, after) -> dict[str, Row]:
    return {
        key: (a.early_start, a.early_finish, a.late_start, a.late_finish, a.float_total)
        for key, a in critical_path(durations, after).items()
    }


def test_seven_activities_on_nodes() -> None:
    # seen: a course hand-out on the critical path, every cell; hours
    durations = {"A": 6, "B": 2, "C": 2, "D": 3, "F": 2, "E": 4, "G": 1}
    after = {"B": "A", "C": "A", "D": "B", "F": "C", "E": "DF", "G": "E"}
    assert _rows(durations, after) == {
        "A": (0, 6, 0, 6, 0),
        "B": (6, 8, 6, 8, 0),
        "C": (6, 8, 7, 9, 1),
        "D": (8, 11, 8, 11, 0),
        "F": (8, 10, 9, 11, 1),
        "E": (11, 15, 11, 15, 0),
        "G": (15, 16, 15, 16, 0),
    }
    path = critical_path(durations, after)
    assert [key for key, a in path.items() if a.critical] == list("ABDEG")
    # computed: free floats
    assert {key: a.float_free for key, a in path.items() if a.float_free} == {"F": 1}


FOURTEEN = {
    "A": 2,
    "B": 10,
    "C": 13,
    "D": 12,
    "E": 12,
    "F": 7,
    "G": 10,
    "H": 16,
    "I": 6,
    "J": 12,
    "K": 5,
    "L": 8,
    "M": 5,
    "N": 3,
}
FOURTEEN_AFTER = {
    "B": "A",
    "C": "A",
    "D": "A",
    "E": "B",
    "F": "B",
    "G": "D",
    "H": "D",
    "I": "F",
    "J": "CG",
    "K": "I",
    "L": "EK",
    "M": "H",
    "N": "JLM",
}


def test_fourteen_activities() -> None:
    path = critical_path(FOURTEEN, FOURTEEN_AFTER)
    # quoted: a course text; the longest of the printed paths is A B F I K L N with 41
    assert path["N"].early_finish == 41
    assert "".join(key for key, a in path.items() if a.critical) == "ABFIKLN"
    # computed: total and free floats
    floats = {"C": (11, 9), "D": (2, 0), "E": (6, 6), "G": (2, 0), "H": (3, 0), "J": (2, 2), "M": (3, 3)}
    assert {key: (a.float_total, a.float_free) for key, a in path.items() if a.float_total} == floats


ONE = (
    "1-2 7 0 7 2 9 2; 1-3 10 0 10 0 10 0; 2-4 6 7 13 9 15 2; 3-4 5 10 15 10 15 0; 3-5 4 10 14 14 18 4; "
    "4-5 3 15 18 15 18 0; 5-6 2 18 20 18 20 0"
)
"""quoted: Taylor, Introduction to Management Science, solutions to chapter 8: arc, time, early and late times, float."""

WITH_NO_TIME = (
    "1-2 8 0 8 1 9 1; 1-3 10 0 10 0 10 0; 1-4 9 0 9 6 15 6; 2-5 6 8 14 9 15 1; 2-6 4 8 12 16 20 8; "
    "3-5 5 10 15 10 15 0; 4-5 0 9 9 15 15 6; 4-7 7 9 16 20 27 11; 5-7 12 15 27 15 27 0; 5-8 15 15 30 16 31 1; "
    "6-9 18 12 30 20 38 8; 7-8 4 27 31 27 31 0; 8-9 7 31 38 31 38 0"
)
"""The same, with an arc that takes no time."""


@pytest.mark.parametrize("printed", [ONE, WITH_NO_TIME])
def test_activities_on_arrows(printed: str) -> None:
    rows = {words[0]: tuple(map(float, words[1:])) for words in map(str.split, printed.split(";"))}
    durations = {arc: row[0] for arc, row in rows.items()}
    after = {arc: [other for other in rows if other.split("-")[1] == arc.split("-")[0]] for arc in rows}
    assert _rows(durations, after) == {arc: row[1:] for arc, row in rows.items()}


PAPER_MILL = {
    "A": (1, 2, 3),
    "B": (2, 3, 4),
    "C": (1, 2, 3),
    "D": (2, 4, 6),
    "E": (1, 4, 7),
    "F": (1, 2, 9),
    "G": (3, 4, 11),
    "H": (1, 2, 3),
}


def test_three_guesses_of_a_whole_network() -> None:
    times = {key: three_point(*guesses) for key, guesses in PAPER_MILL.items()}
    # quoted: an operations management text's paper mill; means, variances to two places
    assert {key: t.mean for key, t in times.items()} == {"A": 2, "B": 3, "C": 2, "D": 4, "E": 4, "F": 3, "G": 5, "H": 2}
    printed = {"A": 0.11, "B": 0.11, "C": 0.11, "D": 0.44, "E": 1.00, "F": 1.78, "G": 1.78, "H": 0.11}
    assert {key: t.variance for key, t in times.items()} == pytest.approx(printed, abs=0.005)
    after = {"C": "A", "D": "AB", "E": "C", "F": "C", "G": "DE", "H": "FG"}
    path = critical_path({key: t.mean for key, t in times.items()}, after)
    critical = [key for key, a in path.items() if a.critical]
    assert "".join(critical) == "ACEGH"
    assert path["H"].early_finish == 15
    assert {key: a.float_total for key, a in path.items() if not a.critical} == {"B": 1, "D": 1, "F": 6}
    # from memory: 16 weeks hold at 71.57% by a table's Z of 0.57; computed without rounding Z: 0.71462
    chance = path_chance(16, [times[key] for key in critical])
    assert chance == pytest.approx(0.71462, abs=5e-6)
    assert chance == pytest.approx(0.7157, abs=0.002)


@pytest.mark.parametrize(
    ("guesses", "mean", "deviation", "tolerance"),
    [
        ((45, 90, 225), 105, 30, 1e-9),  # quoted
        ((3, 5, 7), 5, 0.67, 0.005),  # quoted
        ((3, 6, 11), 6.3, 1.3, 0.05),  # quoted
    ],
)
def test_three_guesses(guesses, mean, deviation, tolerance) -> None:
    found = three_point(*guesses)
    assert found.mean == pytest.approx(mean, abs=max(tolerance, 1e-9))
    assert found.variance**0.5 == pytest.approx(deviation, abs=max(tolerance, 1e-9))


def test_chances_of_a_date() -> None:
    assert 1 - chance_by(224, 214, 100) == pytest.approx(0.1587, abs=5e-5)  # quoted
    assert chance_by(20, 17, 9) == pytest.approx(0.84, abs=0.005)  # quoted


@pytest.mark.parametrize(
    ("time", "printed"),
    # quoted: a course solution by a table of the normal distribution, whose Z has two places: good to a thousandth
    [(16, 0.6881), (15, 0.3978), (13, 0.0203)],
)
def test_several_paths_at_once(time: float, printed: float) -> None:
    paths = [(m, deviation**2) for m, deviation in [(10, 1.1), (8, 0.414), (12, 1), (15, 1.7), (14, 1.2)]]
    assert paths_chance(time, paths) == pytest.approx(printed, abs=1e-3)


J30_1_1 = """
2 8 R1 4 : 6 11 15; 3 4 R1 10 : 7 8 13; 4 6 R4 3 : 5 9 10; 5 3 R1 3 : 20; 6 8 R4 8 : 30; 7 5 R1 4 : 27;
8 9 R2 1 : 12 19 27; 9 2 R1 6 : 14; 10 7 R4 1 : 16 25; 11 9 R2 5 : 20 26; 12 2 R2 7 : 14; 13 6 R1 4 : 17 18;
14 3 R2 8 : 17; 15 9 R1 3 : 25; 16 10 R4 5 : 21 22; 17 6 R4 8 : 22; 18 5 R4 7 : 20 22; 19 3 R2 1 : 24 29;
20 7 R2 10 : 23 25; 21 2 R4 6 : 28; 22 7 R1 2 : 23; 23 2 R1 3 : 24; 24 3 R2 9 : 30; 25 3 R1 4 : 30;
26 7 R3 4 : 31; 27 8 R4 7 : 28; 28 3 R2 8 : 31; 29 7 R2 7 : 32; 30 2 R2 7 : 32; 31 2 R3 2 : 32
"""
"""Activity, time, resource and how much of it: what follows. quoted: set J30, parameter 1, instance 1 of the project scheduling
problem library (Kolisch and Sprecher, European Journal of Operational Research 96, 1997), as a public repository carries it
for its tests. Every activity takes one kind of resource, so that a kind is a trade and a unit of it is a person."""

CAPACITY = {"R1": 12, "R2": 13, "R3": 4, "R4": 12}


def test_people_of_four_trades() -> None:
    rows = [row.split(":") for row in J30_1_1.replace("\n", " ").split(";")]
    activities = {words[0]: (int(words[1]), words[2], int(words[3])) for words in (row[0].split() for row in rows)}
    follows = {row[0].split()[0]: row[1].split() for row in rows}
    tasks = [
        Task(
            key,
            key,
            "j",
            Stage.MAKE,
            time,
            hands=amount,
            trade=trade,
            waits=tuple(Wait(p) for p, names in follows.items() if key in names),
        )
        for key, (time, trade, amount) in activities.items()
    ]
    crew = [Person(f"{trade}-{n}", (trade,)) for trade, count in CAPACITY.items() for n in range(count)]
    calendar = make_calendar(date(2026, 1, 5))
    works = [Work("j", "J30 1 1")]
    # seen with the instance: without people in the way it takes 38
    after = {key: [w.after for w in task.waits] for key, task in zip(activities, tasks, strict=True)}
    alone = critical_path({key: time for key, (time, _, _) in activities.items()}, after)
    assert max(a.early_finish for a in alone.values()) == 38
    schedule = make_schedule(tasks, crew, works, calendar, effort=10)
    assert breaches(schedule, tasks, crew, works, calendar) == ()
    # quoted: the library's list of optimal makespans, set J30, parameter 1, instance 1
    assert schedule.finishes[0].end == 43
    assert schedule.proven
