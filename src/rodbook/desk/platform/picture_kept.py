"""The script that makes the picture that is kept out of one that was sent, in a process of its own.

A picture in, and out comes its kind and the picture as it is kept: upright, no larger than needed, and with nothing in it but its
colours. Where and with what it was taken, comments and previews stay behind. It uses nothing of this package.
"""

from __future__ import annotations

import io
import struct
import sys
import warnings
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from PIL.Image import Image as Picture

__all__ = ["LONGEST_PX", "MOST_DECODED_PX", "MOST_PX", "Refusal", "kept_picture"]

LONGEST_PX = 2560
"""Longest side that is kept: a crack of 0.5 mm still shows where 1.2 m of wall fill the picture. House assumption. [px]"""

MOST_PX = 210_000_000
"""More is in no picture that a phone or a camera takes. House assumption. [px]"""

MOST_DECODED_PX = 25_000_000
"""So much is decoded at once; a JPEG of more is decoded at a half, a quarter or an eighth of its size. [px]"""

_MOST_SIDE_PX = 65_000
_MOST_SCANS = 64
"""Passes of a JPEG; ten are common in one that builds up bit by bit, thousands are made to take forever."""

_QUALITY = 85
_MOST_PNG_BYTES = 4_000_000
"""A PNG (a drawing, a screen) stays one up to this size, as its lines stay sharp; a larger one is kept as JPEG."""

_FORMATS = ("JPEG", "PNG", "WEBP")


class Refusal(Exception):  # noqa: N818  it says what is so
    """The picture can't be kept; the reason is one of ``pixels``, ``broken``."""


def kept_picture(data: bytes) -> tuple[str, bytes]:
    """The picture that is kept, and its kind.

    The same picture gives the same bytes.

    Raises
    ------
    Refusal
        If it has too many pixels or is broken.
    """
    from PIL import Image, ImageOps, JpegImagePlugin, PngImagePlugin, WebPImagePlugin  # noqa: F401  they read

    Image.MAX_IMAGE_PIXELS = MOST_PX
    try:
        with warnings.catch_warnings():
            warnings.simplefilter("error", Image.DecompressionBombWarning)
            picture = Image.open(io.BytesIO(data), formats=_FORMATS)
        kind = picture.format
        _refuse_pixels(picture, data)
        picture.load()
        picture.thumbnail((LONGEST_PX, LONGEST_PX), Image.Resampling.LANCZOS)
        return _encoded(_plain(ImageOps.exif_transpose(picture)), png=kind == "PNG")
    except (Image.DecompressionBombWarning, Image.DecompressionBombError):
        raise Refusal("pixels") from None
    except (OSError, ValueError, SyntaxError, TypeError, IndexError, KeyError, EOFError, OverflowError, struct.error):
        raise Refusal("broken") from None  # the library lets out whatever goes wrong deep inside it


def _refuse_pixels(picture: Picture, data: bytes) -> None:
    """Refuse by the header, before anything is decoded; a large JPEG is told to decode itself smaller."""
    width, height = picture.size
    if width * height > MOST_PX or max(width, height) > _MOST_SIDE_PX:
        raise Refusal("pixels")
    if picture.format in ("JPEG", "MPO"):
        if data.count(b"\xff\xda") > _MOST_SCANS:
            raise Refusal("broken")
        if not picture.info.get("progressive"):  # one that builds up is held whole, whatever size is asked for
            picture.draft(None, (LONGEST_PX, LONGEST_PX))
    if picture.size[0] * picture.size[1] > MOST_DECODED_PX:
        raise Refusal("pixels")


def _plain(picture: Picture) -> Picture:
    """The colours alone, as sRGB: grey, red-green-blue, or that with transparency."""
    from PIL import Image, ImageCms

    profile = picture.info.get("icc_profile")
    if picture.mode.startswith("I") or picture.mode == "F":  # 16 bits of grey
        picture = picture.convert("I").point(lambda value: value / 256).convert("L")
    if profile and picture.mode in ("RGB", "CMYK", "L"):
        try:
            own = ImageCms.ImageCmsProfile(io.BytesIO(profile))
            changed = ImageCms.profileToProfile(picture, own, ImageCms.createProfile("sRGB"), outputMode="RGB")
        except (ImageCms.PyCMSError, OSError):
            changed = None  # its colours are taken as they are
        picture = changed or picture
    clear = picture.mode in ("RGBA", "LA", "PA", "RGBa", "La") or "transparency" in picture.info
    picture = picture.convert("RGBA" if clear else "L" if picture.mode in ("1", "L") else "RGB")
    bare = Image.new(picture.mode, picture.size)
    bare.paste(picture)
    return bare


def _encoded(picture: Picture, *, png: bool) -> tuple[str, bytes]:
    from PIL import Image

    if png:
        out = io.BytesIO()
        picture.save(out, "PNG", compress_level=6)
        if out.tell() <= _MOST_PNG_BYTES:
            return "image/png", out.getvalue()
    if picture.mode == "RGBA":
        ground = Image.new("RGB", picture.size, "white")
        ground.paste(picture, mask=picture.getchannel("A"))
        picture = ground
    out = io.BytesIO()
    picture.save(out, "JPEG", quality=_QUALITY)
    return "image/jpeg", out.getvalue()


def _main() -> None:
    try:
        kind, kept = kept_picture(sys.stdin.buffer.read())
    except Refusal as error:
        kind, kept = str(error), b""
    sys.stdout.buffer.write(kind.encode() + b"\n" + kept)


if __name__ == "__main__":
    _main()
