"""What a figure may have been: guessed in one place, read by the checks of a job and by the survey."""

from hypothesis import given
from hypothesis import strategies as st

from rodbook.job.misread import by_tens, digits_exchanged, likely_slip


@given(st.integers(100, 9999))
def test_exchanging_again_gives_the_figure_back(whole):
    for other in digits_exchanged(float(whole)):
        assert sorted(str(int(other))) == sorted(str(whole))
        assert float(whole) in digits_exchanged(other)


@given(st.integers(150, 6000), st.integers(0, 2))
def test_any_one_exchange_is_found_again_beside_sound_readings(sound, at):
    digits = list(str(sound))
    if at + 1 >= len(digits) or digits[at] == digits[at + 1] or (at == 0 and digits[1] == "0"):
        return
    digits[at], digits[at + 1] = digits[at + 1], digits[at]
    slip = float("".join(digits))
    guess = likely_slip(slip, (sound - 1.0, sound + 1.0), 4.0)
    assert guess is not None
    assert abs(guess - sound) <= 4.0


def test_a_figure_below_nothing_keeps_its_sign_and_decimals():
    assert digits_exchanged(-12.5) == [-21.5]
    assert by_tens(84.0) == (840.0, 8.4)


def test_no_zero_comes_to_stand_first():
    assert digits_exchanged(205.0) == [250.0]
