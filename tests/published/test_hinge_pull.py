"""Pull on hinges against worked examples of statics."""

import pytest

from rodbook.hinges import top_hinge_pull


def test_course_solution_27_kg():
    """27 kg door 0.91 m wide, hinges 0.30 m from the ends of 2.1 m, g = 9.8: 80 N (course solution ch12 p031, quoted)."""
    pull = top_hinge_pull(27, 910, distance_mm=2100 - 600, gravity_m_per_s2=9.8)
    assert pull == pytest.approx(80, abs=0.5)


def test_textbook_swinging_door():
    """400.0 N door 1.00 m wide, hinges 2.00 m apart: 100.0 N level (University Physics vol. 1, ex. 12.7, from memory)."""
    assert top_hinge_pull(400 / 9.8, 1000, distance_mm=2000, gravity_m_per_s2=9.8) == pytest.approx(100.0, abs=0.05)


def test_door_problem_140_n():
    """140 N door 0.81 m wide, hinges 2.1 m apart (problem seen without its answer): 27.0 N by moments (computed)."""
    assert top_hinge_pull(140 / 9.8, 810, distance_mm=2100, gravity_m_per_s2=9.8) == pytest.approx(27.0, abs=0.05)
