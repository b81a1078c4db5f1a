"""Backups of a desk from the command line: made, brought back, rehearsed, and made by themselves."""

from __future__ import annotations

from datetime import UTC, datetime
from pathlib import Path

import click

from rodbook.errors import InputError, StoreError

__all__ = ["backup", "backup_schedule", "desk_check", "restore"]

_home = click.option(
    "--home",
    type=click.Path(path_type=Path, file_okay=False),
    default=None,
    help="The desk's folder; ~/.rodbook if left out.",
)
_passphrase = click.option(
    "--passphrase",
    default="",
    envvar="RODBOOK_PASSPHRASE",
    help="What it is sealed under; better in RODBOOK_PASSPHRASE.",
)


def _place(home: Path | None) -> Path:
    return (home or Path.home() / ".rodbook").resolve()


@click.command()
@_home
@click.option("--to", type=click.Path(path_type=Path), default=Path(), help="File or folder; this folder if left out.")
@_passphrase
def backup(home: Path | None, to: Path, passphrase: str) -> None:
    """Write all that a desk keeps into one file; the desk may run meanwhile."""
    from rodbook.desk.keeping.backups import make_backup, name_of, note_made

    now = datetime.now(UTC)
    path = to / name_of(now) if to.is_dir() else to
    result = make_backup(_place(home), path, passphrase=passphrase, now=now)
    note_made(_place(home), result)
    held = result.contents
    click.echo(f"Backup in {result.path}, {result.length / 1e6:.1f} MB{', sealed' if passphrase else ''}:")
    click.echo(
        f"  {held.documents} documents with {held.revisions} revisions, {held.photos} pictures, {result.files} files."
    )
    if held.newest is not None:
        click.echo(f"  Newest: {held.newest.document}, revision {held.newest.number}, {held.newest.when[:16]} UTC.")
    click.echo("Rehearse bringing it back with: rodbook restore FILE --rehearse")


@click.command()
@click.argument("file", type=click.Path(path_type=Path, dir_okay=False))
@_home
@_passphrase
@click.option("--rehearse", is_flag=True, help="Bring it back to a place that goes again, and say what came.")
def restore(file: Path, home: Path | None, passphrase: str, *, rehearse: bool) -> None:
    """Bring a backup back; what was there before stands beside it under another name."""
    from rodbook.desk.keeping import backups

    if backups.is_sealed(file) and not passphrase:
        passphrase = click.prompt("Passphrase", hide_input=True)
    if rehearse:
        result = backups.rehearse(file, passphrase=passphrase)
        click.echo(f"{file} can be brought back: all its files are as they were written, its database is sound.")
    else:
        result = backups.restore(file, _place(home), passphrase=passphrase)
        click.echo(f"{result.home} is as it was when the backup was made, {result.made[:16].replace('T', ' ')} UTC.")
        if result.before is not None:
            click.echo(f"What was there before is in {result.before}; remove it once all is well.")
    held = result.contents
    click.echo(
        f"  {held.documents} documents with {held.revisions} revisions, {held.photos} pictures, {result.files} files."
    )
    if held.newest is not None:
        click.echo(
            f"  The newest saved revision that it has: {held.newest.document}, revision {held.newest.number}, saved by"
            f" {held.newest.who} at {held.newest.when[:16]} UTC. What was saved later is not in it."
        )


@click.command("backup-schedule")
@_home
@click.option(
    "--folder", type=click.Path(path_type=Path), help="Where to: a stick, another disk, a folder copied elsewhere."
)
@click.option(
    "--hours", type=int, default=24, show_default=True, help="A backup every so many hours while the desk runs."
)
@click.option(
    "--keep", default="3,7,5,12", show_default=True, help="How many stay: the newest, then a day, a week, a month."
)
@_passphrase
@click.option("--off", is_flag=True, help="Make none by itself.")
def backup_schedule(
    home: Path | None, folder: Path | None, hours: int, keep: str, passphrase: str, *, off: bool
) -> None:
    """Have backups made while the desk runs; without options say how it stands."""
    from rodbook.desk.keeping.backups import Schedule, last_made, read_schedule, write_schedule

    where = _place(home)
    if off:
        write_schedule(where, None)
    elif folder is not None:
        numbers = keep.split(",")
        if len(numbers) != 4 or not all(n.strip().isdecimal() for n in numbers):
            raise InputError.at("--keep", "cli.not_four_numbers", typed=keep)
        newest, days, weeks, months = map(int, numbers)
        write_schedule(where, Schedule(str(folder.resolve()), hours, newest, days, weeks, months, passphrase))
    schedule, last = read_schedule(where), last_made(where)
    if schedule is None:
        click.echo("No backups are made by themselves: say with --folder where to.")
    else:
        sealed = ", sealed under a passphrase" if schedule.passphrase else ""
        click.echo(f"Every {schedule.hours} hours into {schedule.folder}{sealed}, while the desk runs.")
        click.echo(
            f"Kept: the {schedule.newest} newest, then one for each of {schedule.days} days, {schedule.weeks} weeks and"
            f" {schedule.months} months."
        )
    click.echo(f"Last backup: {last:%Y-%m-%d %H:%M} UTC." if last is not None else "No backup was made yet.")


@click.command("desk-check")
@_home
def desk_check(home: Path | None) -> None:
    """Look whether all that a desk keeps is whole, and name what is damaged; the desk may run meanwhile."""
    from rodbook.desk.keeping.way_back import in_words, way_back
    from rodbook.desk.platform.soundness import check_home

    where = _place(home)
    result = check_home(where)
    if not result:
        there = (where / "desk.sqlite3").exists()
        click.echo(f"All that the desk in {where} keeps is whole." if there else f"There is no desk in {where}.")
        return
    for damage in result:
        click.echo(f"Damaged: {in_words(damage)}.")
    raise StoreError("cli.desk_damaged", number=len(result), hint=way_back(where))
