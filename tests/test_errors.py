"""Errors carry their faults."""

from rodbook.errors import Fault, Infeasible, InputError, RodbookError


def test_every_fault_is_kept_and_printed():
    error = InputError([Fault("a.b", "plain.text", text="too small"), Fault("", "plain.text", text="nothing here")])
    assert str(error) == "a.b: too small\nnothing here"
    assert len(error.faults) == 2
    assert isinstance(error, ValueError)
    assert isinstance(error, RodbookError)


def test_one_fault_will_do():
    assert str(InputError.at("x", "plain.text", text="wrong")) == "x: wrong"


def test_infeasible_names_what_is_in_the_way():
    assert Infeasible("plain.text", ["C1"], text="No room.").items == ("C1",)
