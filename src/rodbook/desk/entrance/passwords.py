"""Which passwords are too weak: common ones also where they are written twice, backwards or with a number behind."""

from __future__ import annotations

import re
from functools import cached_property

from django.contrib.auth.hashers import Argon2PasswordHasher
from django.contrib.auth.password_validation import CommonPasswordValidator
from django.core.exceptions import ValidationError
from django.utils.translation import gettext as _

__all__ = ["Guessable", "OneLane"]

FEWEST_SIGNS = 5
"""So many different signs a password has at the least. House assumption."""

MOST_SIGNS = 128
"""No password is longer (OWASP ASVS 4.0.3, 2.1.2)."""

RUNS = (
    "abcdefghijklmnopqrstuvwxyz" * 2,
    "0123456789" * 3,
    "qwertyuiopasdfghjklzxcvbnm" * 2,
    "qwertzuiopasdfghjklyxcvbnm" * 2,
)
"""Signs as they follow on each other in the alphabet, in counting and on keyboards."""


class OneLane(Argon2PasswordHasher):  # type: ignore[misc]
    """The framework's argon2id, in one lane: as much memory and work, but never more than one core of a small machine.

    Hashes of eight lanes, as the framework makes them, are made anew when their owner signs in.
    """

    parallelism = 1


class Guessable:
    """Refuses what is guessed early: few different signs, a short piece again and again, a run, a common word with trimmings."""

    @cached_property
    def common(self) -> set[str]:
        """The framework's list of common passwords."""
        return set(CommonPasswordValidator().passwords)

    def validate(self, password: str, user: object = None) -> None:  # noqa: ARG002
        """Refuse a password that is guessed early.

        Raises
        ------
        ValidationError
            With a sentence.
        """
        if len(password) > MOST_SIGNS:
            raise ValidationError(_("This password is longer than %(most)s signs.") % {"most": MOST_SIGNS})
        plain = password.casefold().strip()
        if len(set(plain)) < FEWEST_SIGNS:
            raise ValidationError(_("This password has too few different signs."))
        if re.fullmatch(r"(.{1,8}?)\1+.{0,3}", plain):
            raise ValidationError(_("This password is a short piece again and again."))
        if any(plain[:n] in run or plain[:n] in run[::-1] for run in RUNS if (n := max(8, len(plain) - 4))):
            raise ValidationError(_("This password is a row of neighbouring signs."))
        if any(piece in self.common for piece in self._bare(plain)):
            raise ValidationError(_("This password is a common one with little added."))

    @staticmethod
    def _bare(plain: str) -> set[str]:
        """Take off what is often put on: numbers and signs before and behind, letters written as numbers, the word twice."""
        letters = plain.translate(str.maketrans("013457@$!", "oleastasi"))
        results: set[str] = set()
        for whole in (plain, letters):
            word = re.sub(r"^[\W\d_]+|[\W\d_]+$", "", whole)
            results |= {whole, word, word[::-1], re.sub(r"[\W_]+", "", word)}
            results |= {half for n in (2, 3) if len(word) % n == 0 and word == (half := word[: len(word) // n]) * n}
        return {piece for piece in results if len(piece) > 3}

    def get_help_text(self) -> str:
        """Say what is asked."""
        return _("Take four words that have nothing to do with each other, or let a password keeper make one.")
