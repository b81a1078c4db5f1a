"""Whoever plans from Python has nothing on the standard output that they did not print."""

import rodbook


def test_a_plan_prints_nothing(capfd):
    rodbook.plan_job(rodbook.sample_job("converted-store"), rodbook.sample_book(), seconds=0.5, outlook=True)
    done = capfd.readouterr()
    assert done.out == ""
    assert done.err == ""
