"""What making pictures anew takes: seconds of work and MB at most, each in a process of its own.

``python benchmarks/pictures.py`` makes large and nasty ones and prints a line for each.
"""

from __future__ import annotations

import io
import os
import struct
import subprocess
import sys
import tempfile
import zlib
from pathlib import Path

from PIL import Image

from rodbook.desk.platform import picture_kept
from rodbook.job.files import bounded

MEASURED = """
import resource, subprocess, sys
file, *work = sys.argv[1:]
ran = subprocess.run([sys.executable, "-P", *work], stdin=open(file, "rb"), stdout=subprocess.PIPE)
used = resource.getrusage(resource.RUSAGE_CHILDREN)
kind, _, kept = ran.stdout.partition(b"\\n")
said = kind.decode() or f"ended with {ran.returncode}"
print(f"{used.ru_utime + used.ru_stime:4.1f} s  {used.ru_maxrss / 1024:4.0f} MB  {said} {len(kept) / 1e6:.2f} MB")
"""
"""A small process that starts the work, as the memory that a process is said to take begins with that of its starter."""

SECONDS, BYTES = "8", "220000000"


def jpeg(width: int, height: int, **more: bool) -> bytes:
    """A JPEG with something in it everywhere."""
    out = io.BytesIO()
    noise = Image.frombytes("RGB", (64, 48), os.urandom(64 * 48 * 3))
    noise.resize((width, height), Image.Resampling.BICUBIC).save(out, "JPEG", **more)
    return out.getvalue()


def png(side: int) -> bytes:
    """A sound PNG of one colour."""
    packer, row = zlib.compressobj(1), b"\0" * ((side + 7) // 8 + 1)
    packed = b"".join(packer.compress(row) for _ in range(side)) + packer.flush()
    parts = {b"IHDR": struct.pack(">IIBBBBB", side, side, 1, 0, 0, 0, 0), b"IDAT": packed, b"IEND": b""}
    chunks = (struct.pack(">I", len(d)) + n + d + struct.pack(">I", zlib.crc32(n + d)) for n, d in parts.items())
    return b"\x89PNG\r\n\x1a\n" + b"".join(chunks)


def main() -> None:
    """Print a line for each."""
    pictures = {
        "JPEG 4000 x 3000": jpeg(4000, 3000),
        "JPEG 5700 x 4300, progressive": jpeg(5700, 4300, progressive=True),
        "JPEG 8000 x 6000": jpeg(8000, 6000),
        "JPEG 16000 x 12000": jpeg(16_000, 12_000),
        "PNG 4900 x 4900": png(4900),
        "PNG 60000 x 60000": png(60_000),
    }
    for name, data in pictures.items():
        with tempfile.TemporaryDirectory() as folder:
            path = Path(folder) / "picture"
            path.write_bytes(data)
            work = (bounded.__file__, SECONDS, BYTES, picture_kept.__file__)
            ran = subprocess.run([sys.executable, "-c", MEASURED, str(path), *work], capture_output=True, check=True)
        sys.stdout.write(f"{name:30} {len(data) / 1e6:5.1f} MB  {ran.stdout.decode()}")
        sys.stdout.flush()


if __name__ == "__main__":
    main()
