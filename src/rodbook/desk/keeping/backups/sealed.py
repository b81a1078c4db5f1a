"""Writing and reading under a passphrase: a file in pieces, each sealed, in their order, with the last one marked.

The key comes from the passphrase by scrypt [1]_, and pieces are sealed by ChaCha20-Poly1305 [2]_ in the manner of STREAM
[3]_: the nonce of a piece is seven drawn bytes, its number in four bytes and one byte that is 1 for the last piece alone, so
that no piece can be changed, moved, left out or cut off unnoticed.

References
----------
.. [1] RFC 7914, The scrypt Password-Based Key Derivation Function.
.. [2] RFC 8439, ChaCha20 and Poly1305 for IETF Protocols.
.. [3] V. Hoang, R. Reyhanitabar, P. Rogaway, D. Vizár, "Online Authenticated-Encryption and its Nonce-Reuse
   Misuse-Resistance", CRYPTO 2015.
"""

from __future__ import annotations

import io
import json
import os
from typing import BinaryIO

from cryptography.exceptions import InvalidTag
from cryptography.hazmat.primitives.ciphers.aead import ChaCha20Poly1305
from cryptography.hazmat.primitives.kdf.scrypt import Scrypt

from rodbook.errors import StoreError

__all__ = ["FIRST_LINE", "CannotOpenError", "Opened", "Sealed"]

FIRST_LINE = b"RODBOOK SEALED BACKUP 1\n"
"""How a sealed file begins; the next line says how its key is made."""

PIECE = 1 << 20
"""Bytes sealed at a time."""

TAG = 16
"""Bytes that sealing adds to a piece."""

COST, BLOCKS, LANES = 1 << 17, 8, 1
"""scrypt's n, r and p: what the Open Worldwide Application Security Project recommends for passwords (its cheat sheet on storing
them, 2024). It takes 128 MB and about half a second."""


class CannotOpenError(StoreError):
    """What is sealed can't be opened: the passphrase is another one, or the file is damaged."""


def _key(passphrase: str, salt: bytes) -> bytes:
    """Make the key of 32 bytes."""
    return Scrypt(salt=salt, length=32, n=COST, r=BLOCKS, p=LANES).derive(passphrase.encode("utf-8", "surrogatepass"))


def _nonce(prefix: bytes, number: int, *, last: bool) -> bytes:
    """Number a piece."""
    return prefix + number.to_bytes(4, "big") + bytes([last])


class Sealed(io.RawIOBase):
    """Seals what is written and hands it on; `close` seals the rest, and leaves the file beneath open."""

    def __init__(self, out: BinaryIO, passphrase: str) -> None:
        """Write how the key is made."""
        super().__init__()
        salt, self.prefix = os.urandom(16), os.urandom(7)
        self.out, self.number, self.rest = out, 0, bytearray()
        out.write(FIRST_LINE)
        out.write(json.dumps({"salt": salt.hex(), "prefix": self.prefix.hex()}).encode() + b"\n")
        self.cipher = ChaCha20Poly1305(_key(passphrase, salt))

    def writable(self) -> bool:
        """It is written to."""
        return True

    def write(self, data: bytes | bytearray | memoryview) -> int:  # type: ignore[override]
        """Take more; whole pieces are sealed once it is known that they are not the last."""
        self.rest += data
        while len(self.rest) > PIECE:
            self._seal(bytes(self.rest[:PIECE]), last=False)
            del self.rest[:PIECE]
        return len(data)

    def close(self) -> None:
        """Seal the last piece."""
        if not self.closed:
            self._seal(bytes(self.rest), last=True)
        super().close()

    def _seal(self, piece: bytes, *, last: bool) -> None:
        self.out.write(self.cipher.encrypt(_nonce(self.prefix, self.number, last=last), piece, None))
        self.number += 1


class Opened(io.RawIOBase):
    """Reads what `Sealed` wrote; `source` stands at its first byte.

    Raises
    ------
    CannotOpenError
        While reading: if a piece can't be opened.
    """

    def __init__(self, source: BinaryIO, passphrase: str, *, length: int) -> None:
        """Read how the key is made; `length` is that of all that is sealed, these lines included."""
        super().__init__()
        if source.read(len(FIRST_LINE)) != FIRST_LINE:
            raise CannotOpenError("desk.backup_not_sealed")
        line = source.readline(1000)
        try:
            answer = json.loads(line)
            salt, self.prefix = bytes.fromhex(answer["salt"]), bytes.fromhex(answer["prefix"])
        except (ValueError, TypeError, KeyError):
            salt = self.prefix = b""
        if len(salt) != 16 or len(self.prefix) != 7:
            raise CannotOpenError("desk.sealed_line_damaged")
        self.left = length - len(FIRST_LINE) - len(line)
        self.source, self.number, self.rest = source, 0, b""
        self.cipher = ChaCha20Poly1305(_key(passphrase, salt))

    def readable(self) -> bool:
        """It is read from."""
        return True

    def readinto(self, buffer: bytearray | memoryview) -> int:  # type: ignore[override]
        """Open the next piece where the last one is used up."""
        if not self.rest and self.left > 0:
            sealed = self.source.read(min(self.left, PIECE + TAG))
            self.left -= len(sealed)
            if len(sealed) < TAG:
                raise CannotOpenError("desk.sealed_ends_too_soon")
            try:
                self.rest = self.cipher.decrypt(_nonce(self.prefix, self.number, last=self.left <= 0), sealed, None)
            except InvalidTag:
                raise CannotOpenError("desk.sealed_not_opened") from None
            self.number += 1
        number = min(len(buffer), len(self.rest))
        buffer[:number] = self.rest[:number]
        self.rest = self.rest[number:]
        return number
