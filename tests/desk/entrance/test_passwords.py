"""Which passwords are too weak."""

import pytest
from django.contrib.auth.password_validation import validate_password
from django.core.exceptions import ValidationError


@pytest.mark.parametrize(
    "password",
    [
        "password1234",
        "passwordpassword",
        "P@ssw0rd2026!",
        "aaaaaaaaaaaa",
        "abababababab",
        "123456789012",
        "abcdefghijkl",
        "qwertzuiop12",
        "987654321098",
        "letmein-2026",
        "drowssap1234",
        "sunshine!!!!",
        "!!!dragon!!!!",
    ],
)
def test_common_and_repeated_ones_are_refused(password):
    with pytest.raises(ValidationError):
        validate_password(password)


@pytest.mark.parametrize(
    "password", ["plinth-walnut-teapot", "Kx7#pQv2!mWz", "nine kettles under oak", "zwölf Türen im Flur"]
)
def test_others_are_taken(password):
    validate_password(password)


@pytest.mark.parametrize(
    ("password", "taken"),
    [
        ("été ☕ 木の棚 plinth 🪵", True),
        ("walnut  plinth  teapot", True),
        ("seven " * 3 + "larch boards under the old kettle by a green window near the quarry road", True),
        ("plinth walnut teapot " * 7, False),
    ],
)
def test_any_sign_is_taken_up_to_a_length_that_nobody_types(password, taken):
    if taken:
        return validate_password(password)
    with pytest.raises(ValidationError, match="longer than 128"):
        validate_password(password)
    return None
