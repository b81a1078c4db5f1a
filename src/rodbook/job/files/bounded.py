"""Files from outside are opened in a process of its own, which is ended when it takes too long or too much memory.

What opens them is a script that reads the file from its input and writes what it found to its output. This module is also what
such a process begins with, so it uses nothing but the standard library: ``python bounded.py SECONDS BYTES SCRIPT ...``.
"""

from __future__ import annotations

import contextlib
import enum
import os
import runpy
import subprocess
import sys
import threading
from dataclasses import dataclass
from pathlib import Path

__all__ = ["Bounds", "Ended", "EndedError", "run_bounded"]

_OUT_OF_MEMORY = 97
"""Code with which a process ends that ran out of its memory."""

_AT_ONCE = threading.BoundedSemaphore(2)
"""Files that one process has opened at the same time; further ones wait their turn."""


class Ended(enum.Enum):
    """Why a process was ended before it was done."""

    TIME = "time"
    MEMORY = "memory"
    BROKEN = "broken"
    BUSY = "busy"


class EndedError(Exception):
    """The process was ended, or ended itself, before it was done."""

    def __init__(self, why: Ended) -> None:
        """Take the reason."""
        self.why = why
        super().__init__(why.value)


@dataclass(frozen=True)
class Bounds:
    """What opening one file may take.

    Parameters
    ----------
    cpu_seconds : int
        Of work. [s]
    memory_bytes : int
        Of memory that it may write to; held where the system has such a limit (Linux and most other Unix systems). [bytes]
    wall_seconds : float
        On the clock, waiting included; the only limit where the system has no other. [s]
    """

    cpu_seconds: int
    memory_bytes: int
    wall_seconds: float = 60.0


def run_bounded(script: Path, data: bytes, *args: str, bounds: Bounds) -> bytes:
    """What a script makes of a file.

    Parameters
    ----------
    script : path
        It has the file on its input, and `args`; what it writes to its output is the answer.
    data : bytes
        The file.
    bounds : Bounds

    Raises
    ------
    EndedError
        If it took too long or too much, broke down, or could not begin because others are at work.
    """
    command = [
        sys.executable,
        "-P",
        "-B",
        __file__,
        str(bounds.cpu_seconds),
        str(bounds.memory_bytes),
        str(script),
        *args,
    ]
    if not _AT_ONCE.acquire(timeout=bounds.wall_seconds):
        raise EndedError(Ended.BUSY)
    try:
        ran = subprocess.run(  # noqa: S603  the interpreter that runs this, and a script of this package
            command,
            input=data,
            stdout=subprocess.PIPE,
            stderr=subprocess.DEVNULL,
            timeout=bounds.wall_seconds,
            check=False,
            env={**os.environ, "OPENPYXL_DEFUSEDXML": "False", "OPENPYXL_LXML": "False"},
        )
    except subprocess.TimeoutExpired:  # it is killed by then
        raise EndedError(Ended.TIME) from None
    finally:
        _AT_ONCE.release()
    if ran.returncode:
        raise EndedError(_reason(ran.returncode))
    return ran.stdout


def _reason(code: int) -> Ended:
    """Why a process ended, from its code; a negative one is the number of a signal."""
    import signal

    if code == _OUT_OF_MEMORY:
        return Ended.MEMORY
    slow = {-getattr(signal, name) for name in ("SIGXCPU", "SIGKILL") if hasattr(signal, name)}
    return Ended.TIME if code in slow else Ended.BROKEN


def _limit(cpu_seconds: int, memory_bytes: int) -> None:
    """Put the limits on this process, as far as the system has them."""
    try:
        import resource
    except ImportError:  # this system has none; the clock of the other process holds
        return
    for name, most in (("RLIMIT_CPU", cpu_seconds), ("RLIMIT_DATA", memory_bytes), ("RLIMIT_CORE", 0)):
        if hasattr(resource, name):
            with contextlib.suppress(ValueError, OSError):
                resource.setrlimit(getattr(resource, name), (most, most))


def _main() -> None:
    cpu, memory, script, *args = sys.argv[1:]
    _limit(int(cpu), int(memory))
    sys.argv = [script, *args]
    try:
        runpy.run_path(script, run_name="__main__")
    except MemoryError:
        os._exit(_OUT_OF_MEMORY)


if __name__ == "__main__":
    _main()
