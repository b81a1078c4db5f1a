"""The second step of signing in: a code of six digits that a phone makes anew every 30 seconds [1]_, or one kept on paper.

References
----------
.. [1] RFC 6238, TOTP: Time-Based One-Time Password Algorithm; 30 s and six digits are its own defaults (sections 4.1, 5.2).
"""

from __future__ import annotations

import base64
import hashlib
import hmac
import secrets
import time
from dataclasses import dataclass

import pyotp
import segno
from django.contrib.auth.models import AbstractUser
from django.db import transaction
from django.utils import timezone

from rodbook.desk.models import Second

__all__ = [
    "RECOVERY_CODES",
    "STEP",
    "Begun",
    "Proof",
    "accept",
    "begin",
    "has_second",
    "prove",
    "switch_off",
    "write_recovery",
]

STEP = 30
"""How long a code is good for. [s]"""

AROUND = (0, -1, 1)
"""Steps besides the clock's own that are taken: one to each side, as clocks differ (RFC 6238, section 5.2)."""

RECOVERY_CODES = 10
"""How many codes for paper are made at a time. House assumption."""

RECOVERY_BYTES = 10
"""Drawn bytes in a code for paper: 80 bits."""


@dataclass(frozen=True, slots=True)
class Begun:
    """A second step that waits for its proof: the secret as it is typed, and the picture that a phone reads."""

    secret: str
    picture: str


@dataclass(frozen=True, slots=True)
class Proof:
    """A code was right; whether it was one from paper, and how many of those are `left`."""

    paper: bool
    left: int


def has_second(user: AbstractUser) -> bool:
    """Whether somebody signs in with a second step."""
    return Second.objects.filter(user=user, since__isnull=False).exists()


def begin(user: AbstractUser) -> Begun:
    """Draw a secret for somebody who has no second step yet; it asks for nothing until it is proved."""
    with transaction.atomic():
        kept, _ = Second.objects.get_or_create(user=user, defaults={"secret": pyotp.random_base32()})
        if kept.since is None:
            kept.secret, kept.last_step, kept.recovery = pyotp.random_base32(), 0, []
            kept.save()
    return begun(user)


def begun(user: AbstractUser) -> Begun:
    """What waits for its proof.

    Raises
    ------
    Second.DoesNotExist
        If nothing does; what is proved is never shown again.
    """
    kept = Second.objects.get(user=user, since__isnull=True)
    address = pyotp.TOTP(kept.secret).provisioning_uri(name=user.get_username(), issuer_name="Rodbook")
    picture = segno.make(address, error="m", micro=False).svg_data_uri(scale=5, border=4, light="white", dark="black")
    return Begun(" ".join(kept.secret[n : n + 4] for n in range(0, len(kept.secret), 4)), picture)


def prove(user: AbstractUser, code: str) -> list[str] | None:
    """Switch the second step on by a code that the phone made; gives the codes for paper, None where the code is wrong."""
    with transaction.atomic():
        kept = Second.objects.filter(user=user, since__isnull=True).first()
        if kept is None or not _by_phone(kept, code):
            return None
        Second.objects.filter(pk=kept.pk).update(since=timezone.now())
        return write_recovery(user)


def accept(user: AbstractUser, code: str) -> Proof | None:
    """Look whether a code is right, and use it up: neither kind is taken twice."""
    with transaction.atomic():
        kept = Second.objects.filter(user=user, since__isnull=False).first()
        if kept is None:
            return None
        if _by_phone(kept, code):
            return Proof(paper=False, left=len(kept.recovery))
        typed = _plain(code)
        used = next((line for line in kept.recovery if hmac.compare_digest(line, _sealed(typed, line[:32]))), None)
        if used is None:
            return None
        left = [line for line in kept.recovery if line != used]
        Second.objects.filter(pk=kept.pk).update(recovery=left)
        return Proof(paper=True, left=len(left))


def _by_phone(kept: Second, code: str) -> bool:
    """Whether a code is one of now, and of a later step than the last one that was taken."""
    typed = _plain(code)
    maker, now = pyotp.TOTP(kept.secret), int(time.time()) // STEP
    for step in (now + away for away in AROUND):
        if hmac.compare_digest(maker.generate_otp(step), typed):
            return Second.objects.filter(pk=kept.pk, last_step__lt=step).update(last_step=step) == 1
    return False


def _plain(code: str) -> str:
    """A code without what is put in to read it, in the letters it is made of."""
    return "".join(sign for sign in code.upper()[:100] if sign.isascii() and sign.isalnum())


def _sealed(code: str, salt: str) -> str:
    """Salt and hash of a code for paper. It has 80 drawn bits, so one pass of the hash is enough."""
    return salt + hashlib.sha256(f"{salt}{code}".encode()).hexdigest()


def write_recovery(user: AbstractUser) -> list[str]:
    """Make codes for paper, in the place of all earlier ones; only their hashes are kept."""
    codes = [base64.b32encode(secrets.token_bytes(RECOVERY_BYTES)).decode() for _ in range(RECOVERY_CODES)]
    Second.objects.filter(user=user).update(recovery=[_sealed(code, secrets.token_hex(16)) for code in codes])
    return ["-".join(code[n : n + 4] for n in range(0, len(code), 4)) for code in codes]


def switch_off(user: AbstractUser) -> bool:
    """Ask for no second step any more; whether one was asked for."""
    return bool(Second.objects.filter(user=user).delete()[0])
