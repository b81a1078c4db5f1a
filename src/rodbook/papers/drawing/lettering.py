"""How much room lettering takes, read from the fonts that the papers are set in.

Heights are those of the capitals, as drawing standards give them: 2.5 mm is the least on an A4 or A3 drawing (common
minimum; ISO 3098 lists 1.8, 2.5, 3.5, 5 mm and on).
"""

from __future__ import annotations

import struct
from functools import cache
from importlib.resources import files
from typing import Literal

__all__ = ["CAPITALS", "FONT", "LEAST_MM", "Face", "can_letter", "font_bytes", "font_size_mm", "text_width_mm"]

FONT = "Barlow"
"""Family of all lettering."""

LEAST_MM = 2.5
"""Least height of capitals on a drawing. [mm] Common minimum on A4."""

CAPITALS = 0.7
"""Height of Barlow's capitals as a share of the font size, from the font itself."""

Face = Literal["Regular", "SemiBold", "Italic"]


def font_size_mm(height_mm: float) -> float:
    """Font size that gives capitals of this height. [mm]

    >>> round(font_size_mm(2.5), 3)
    3.571
    """
    return height_mm / CAPITALS


def text_width_mm(text: str, height_mm: float, *, bold: bool = False) -> float:
    """Width of one line of lettering. [mm]

    Parameters
    ----------
    text : str
    height_mm : float
        Of the capitals. [mm]
    bold : bool
        Semi-bold instead of regular.

    Notes
    -----
    Kerning is left out: it moves figures by less than a hundredth of their width. A letter that the font does not have
    is taken as wide as an em.
    """
    advances = _advances("SemiBold" if bold else "Regular")
    return font_size_mm(height_mm) * sum(advances.get(ord(letter), 1.0) for letter in text)


def can_letter(text: str) -> bool:
    """Whether the papers' own font has every letter of a text; white space always passes."""
    advances = _advances("Regular")
    return all(letter.isspace() or ord(letter) in advances for letter in text)


def font_bytes(face: Face) -> bytes:
    """The font file of one face."""
    return (files("rodbook.papers") / "fonts" / f"Barlow-{face}.ttf").read_bytes()


@cache
def _advances(face: Face) -> dict[int, float]:
    """Width of each letter, by code point, as a share of the font size."""
    data = font_bytes(face)
    tables = _tables(data)
    (em,) = struct.unpack_from(">H", data, tables["head"] + 18)
    (metrics,) = struct.unpack_from(">H", data, tables["hhea"] + 34)
    widths = [struct.unpack_from(">H", data, tables["hmtx"] + 4 * n)[0] / em for n in range(metrics)]
    return {code: widths[min(glyph, metrics - 1)] for code, glyph in _glyphs(data, tables["cmap"]).items()}


def _tables(data: bytes) -> dict[str, int]:
    """Where each table of the font starts."""
    (count,) = struct.unpack_from(">H", data, 4)
    results: dict[str, int] = {}
    for n in range(count):
        tag, _, start, _ = struct.unpack_from(">4sIII", data, 12 + 16 * n)
        results[tag.decode("ascii")] = start
    return results


def _glyphs(data: bytes, cmap: int) -> dict[int, int]:
    """Glyph of each code point, from the font's Windows Unicode map (format 4)."""
    (count,) = struct.unpack_from(">H", data, cmap + 2)
    maps = (struct.unpack_from(">HHI", data, cmap + 4 + 8 * n) for n in range(count))
    at = cmap + next(start for platform, encoding, start in maps if (platform, encoding) == (3, 1))
    (twice,) = struct.unpack_from(">H", data, at + 6)
    ends, starts, deltas, offsets = (at + 14, at + 16 + twice, at + 16 + 2 * twice, at + 16 + 3 * twice)
    results: dict[int, int] = {}
    for n in range(0, twice, 2):
        end, start, delta, offset = (struct.unpack_from(">H", data, p + n)[0] for p in (ends, starts, deltas, offsets))
        for code in range(start, min(end, 0xFFFE) + 1):
            if offset:
                (glyph,) = struct.unpack_from(">H", data, offsets + n + offset + 2 * (code - start))
                glyph = (glyph + delta) & 0xFFFF if glyph else 0
            else:
                glyph = (code + delta) & 0xFFFF
            if glyph:
                results[code] = glyph
    return results
