"""Papers into a folder: all of them made before the first is written, and each put in its place in one step."""

from __future__ import annotations

import os
import tempfile
from collections.abc import Sequence
from datetime import datetime
from pathlib import Path

from rodbook.dates import Programme
from rodbook.errors import Message, StoreError
from rodbook.papers.papers import OnPaper, dates_bytes, paper_bytes
from rodbook.plan import Plan

__all__ = ["write_dates", "write_papers"]


def write_papers(plan: Plan, folder: str | os.PathLike[str], on_progress: OnPaper | None = None) -> tuple[Path, ...]:
    """Write every paper of a plan.

    Parameters
    ----------
    plan : Plan
    folder : path
        Made where there is none; files of the same names in it are replaced, others are left alone.
    on_progress : OnPaper, optional
        Told of progress.

    Returns
    -------
    tuple of Path
        The files, in the order of the registry.

    Raises
    ------
    RenderError
        If a paper can't be typeset; then nothing is written.
    StoreError
        If the folder or a file in it can't be written to.
    """
    return _into(folder, list(paper_bytes(plan, on_progress)))


def write_dates(
    programme: Programme, plans: Sequence[Plan], folder: str | os.PathLike[str], *, made: datetime
) -> tuple[Path, ...]:
    """Write the paper of dates and the calendar files: one for all, one for each person.

    Calendar files that are in the folder already are taken as those that were given out before: tasks that are gone are
    called off in them, also for people who are not planned any more.

    Parameters
    ----------
    programme : Programme
    plans : sequence of Plan
        The jobs, in the programme's order.
    folder : path
        Made where there is none; files of the same names in it are replaced, others are left alone.
    made : datetime
        When they are made, with its zone.

    Raises
    ------
    RenderError
        If the paper can't be typeset; then nothing is written.
    StoreError
        If the folder or a file in it can't be written to.
    """

    def before(name: str) -> bytes:
        try:
            return (Path(folder) / name).read_bytes()
        except (OSError, ValueError):  # nothing was given out before, or the folder says itself what is wrong with it
            return b""

    given = [path.name for path in Path(folder).glob("dates-*.ics")]
    return _into(folder, list(dates_bytes(programme, plans, made=made, before=before, given=given)))


def _into(folder: str | os.PathLike[str], made: Sequence[tuple[str, bytes]]) -> tuple[Path, ...]:
    target = Path(folder)
    try:
        target.mkdir(parents=True, exist_ok=True)
        return _put(made, target)
    except (OSError, ValueError) as error:
        raise StoreError(_why_not(target, error)) from error


def _put(made: Sequence[tuple[str, bytes]], target: Path) -> tuple[Path, ...]:
    """Write all files beside their places, then move each into its own: a full disk leaves the old papers as they were."""
    with tempfile.TemporaryDirectory(prefix=".papers-", dir=target) as waiting:
        for name, content in made:
            with (Path(waiting) / name).open("wb") as file:
                file.write(content)
                file.flush()
                os.fsync(file.fileno())
        for name, _ in made:
            (Path(waiting) / name).replace(target / name)
    return tuple(target / name for name, _ in made)


def _why_not(target: Path, error: OSError | ValueError) -> Message:
    folder = str(target)
    if isinstance(error, FileExistsError | NotADirectoryError):
        return Message("papers.folder_is_a_file", folder=folder)
    if isinstance(error, PermissionError):
        return Message("papers.folder_not_permitted", folder=folder)
    if isinstance(error, IsADirectoryError):
        return Message("papers.paper_is_a_folder", folder=folder)
    reason = getattr(error, "strerror", None)
    if not reason:
        return Message("papers.no_such_folder_name", folder=folder)
    return Message("papers.folder_not_written", folder=folder, reason=reason[0].lower() + reason[1:])
