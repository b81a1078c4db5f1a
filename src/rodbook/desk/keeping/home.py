"""The desk's folder: nobody else on the machine reads it, and one desk at a time works in it."""

from __future__ import annotations

import json
import os
import stat
from contextlib import suppress
from dataclasses import dataclass
from datetime import datetime
from pathlib import Path

from filelock import FileLock, Timeout

from rodbook.errors import StoreError

__all__ = ["Held", "hold", "holder", "made_private", "private_from_now"]

OPEN_TO_OTHERS = stat.S_IRWXG | stat.S_IRWXO
"""Rights that the folder gives nobody: those of the group and of everybody else."""


def private_from_now() -> None:
    """Let nobody else read what this process makes from now on, from its first byte."""
    os.umask(OPEN_TO_OTHERS)


def made_private(home: Path) -> list[str]:
    """Take from everybody else the rights to a folder and to all that lies in it.

    Parameters
    ----------
    home : Path
        The desk's folder; made where there is none.

    Returns
    -------
    list of str
        What was open to others, the folder itself as ".". Nothing on a system without such rights.

    Raises
    ------
    StoreError
        If the folder can't be made, or its rights can't be changed.
    """
    try:
        home.mkdir(mode=0o700, parents=True, exist_ok=True)
        if os.name != "posix":
            return []
        results: list[str] = []
        for folder, _, files in os.walk(home):
            paths = (Path(folder), *(Path(folder) / name for name in files))
            results += [str(path.relative_to(home)) for path in paths if _closed(path)]
    except OSError as error:
        raise StoreError("desk.folder_not_private", home=home, reason=error.strerror or str(error)) from None
    return results


def _closed(path: Path) -> bool:
    """Take from others what rights they have to one file; whether they had any."""
    try:
        mode = path.lstat().st_mode
    except FileNotFoundError:  # a file of a desk that runs just now
        return False
    if stat.S_ISLNK(mode) or not mode & OPEN_TO_OTHERS:
        return False
    with suppress(FileNotFoundError):
        path.chmod(stat.S_IMODE(mode) & ~OPEN_TO_OTHERS)
    return True


@dataclass(frozen=True, slots=True)
class Held:
    """A folder that this process holds until it ends, or lets go."""

    home: Path
    lock: FileLock

    def tell(self, place: str) -> None:
        """Write down where the desk that holds it is found."""
        _write(self.home, {"process": os.getpid(), "since": _now(), "place": place})

    def let_go(self) -> None:
        """Leave the folder to another desk."""
        with suppress(OSError):
            (self.home / "held-by.json").unlink(missing_ok=True)
        self.lock.release()


def hold(home: Path) -> Held:
    """Take a folder for this process alone; whatever way the process ends, the folder is free again.

    Raises
    ------
    StoreError
        If another process has it; with that process's number and place.
    """
    lock = FileLock(home / "desk.lock", mode=0o600)
    try:
        lock.acquire(timeout=0)
    except Timeout:
        raise StoreError("desk.folder_in_use", home=home, holder=holder(home)) from None
    except OSError as error:
        raise StoreError("desk.folder_not_usable", home=home, reason=error.strerror or str(error)) from None
    _write(home, {"process": os.getpid(), "since": _now(), "place": ""})
    return Held(home, lock)


def holder(home: Path) -> str:
    """Say which process has a folder, as far as it said so itself."""
    try:
        answer = json.loads((home / "held-by.json").read_text("utf-8"))
        place = f" at {answer['place']}" if answer["place"] else ""
        return f"process {int(answer['process'])}, since {answer['since']}{place}"
    except (OSError, ValueError, TypeError, KeyError):
        return "another process"


def _write(home: Path, lines: dict[str, object]) -> None:
    """Write down who has the folder; where that can't be, it is only not said."""
    with suppress(OSError):
        (home / "held-by.json").write_text(json.dumps(lines), "utf-8")


def _now() -> str:
    return datetime.now().astimezone().strftime("%Y-%m-%d %H:%M")
