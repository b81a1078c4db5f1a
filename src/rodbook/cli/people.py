"""People of a shared desk from its own machine: the first account, and the way back for an owner who lost the phone."""

from __future__ import annotations

from pathlib import Path

import click

from rodbook.errors import InputError

__all__ = ["desk_person", "desk_second_off"]


def _prepare(home: Path | None) -> None:
    from rodbook.desk.serve import prepare

    prepare((home or Path.home() / ".rodbook").resolve(), share=True)


@click.command("desk-person")
@click.argument("name")
@click.option("--role", type=click.Choice(["owner", "maker", "reader"]), default="reader", show_default=True)
@click.option("--home", type=click.Path(path_type=Path, file_okay=False), default=None, help="The desk's folder.")
@click.password_option(help="Their first password; asked for where it is left out.")
def desk_person(name: str, role: str, home: Path | None, password: str) -> None:
    """Make an account for the shared desk; the first one has to be an owner's."""
    _prepare(home)
    from rodbook.desk.entrance.people import add_person
    from rodbook.desk.platform.deeds import COMMAND, HERE, Doing, note_by

    add_person(name, role, password)
    note_by(COMMAND, HERE, Doing.ACCOUNT_MADE, person=name, role=role)
    click.echo(f"{name} may sign in as {role}.")


@click.command("desk-second-off")
@click.argument("name")
@click.option("--home", type=click.Path(path_type=Path, file_okay=False), default=None, help="The desk's folder.")
def desk_second_off(name: str, home: Path | None) -> None:
    """Ask somebody for no second step any more: for the owner who lost phone and paper."""
    _prepare(home)
    from rodbook.desk.entrance.people import everybody, take_second_off
    from rodbook.desk.platform.deeds import COMMAND, HERE, Doing, note_by

    person = everybody().filter(user__username=name).first()
    if person is None:
        raise InputError.at("NAME", "cli.unknown_account", name=name[:80])
    take_second_off(person)
    note_by(COMMAND, HERE, Doing.SECOND_OFF, person=name)
    click.echo(f"{name} signs in with the password alone now, and is signed out everywhere.")
