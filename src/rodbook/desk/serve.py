"""Starting the desk: home folder, database, static files, the one-time link, and the server."""

from __future__ import annotations

import os
import re
import signal
import socket
import sys
from collections.abc import Callable, Sequence
from pathlib import Path

from rodbook.desk.keeping.home import Held, hold, made_private, private_from_now
from rodbook.desk.keeping.way_back import in_words, way_back
from rodbook.desk.platform.soundness import CANNOT_START, Damage, DamageKind, check_home, forget_pages, note_pages
from rodbook.errors import InputError, StoreError

__all__ = ["own_names", "prepare", "serve"]


EVERYWHERE = frozenset({"0.0.0.0", "::"})  # noqa: S104  compared, not bound
"""Addresses to listen on that stand for all of the machine's own; nobody is reached by them."""


def own_names(host: str, names: Sequence[str]) -> list[str]:
    """Names by which a shared desk is asked for, the one to tell people first.

    Parameters
    ----------
    host : str
        Address that it listens on.
    names : sequence of str
        Names that were given; without any it is the address, where it is one of the network, then the machine's own name.

    Raises
    ------
    InputError
        If one of them is no name of a machine.

    Examples
    --------
    >>> own_names("127.0.0.1", ["desk.example", "Desk"])
    ['desk.example', 'desk']
    """
    for name in names:
        if not re.fullmatch(r"[A-Za-z0-9]([A-Za-z0-9.-]{0,251}[A-Za-z0-9])?|\[[0-9A-Fa-f:.]{2,45}\]", name):
            raise InputError.at("--name", "desk.not_a_machine", name=name[:60])
    if names:
        return list(dict.fromkeys(name.lower() for name in names))
    loopback = host in ("127.0.0.1", "localhost", "::1")
    address = f"[{host}]" if ":" in host else host
    mine = [] if loopback or host in EVERYWHERE else [address]
    return list(dict.fromkeys([*mine, socket.gethostname().lower()]))


def prepare(
    home: Path, *, share: bool = False, host: str = "127.0.0.1", names: Sequence[str] = (), tls: bool = False
) -> list[str]:
    """Set the desk up in its home folder: settings, database tables, static files. Can be done again and again.

    From then on nobody else on the machine can read what lies in the folder or is made by this process.

    Parameters
    ----------
    home : Path
        Folder for database, photos and keys; made where there is none.
    share : bool
        Whether others come in over the network, with accounts.
    host : str
        Address that the desk listens on.
    names : sequence of str
        Names by which a shared desk is asked for, see `own_names`; it answers to no other.
    tls : bool
        Whether a proxy in front speaks TLS.

    Returns
    -------
    list of str
        What of the folder others could read until now.

    Raises
    ------
    InputError
        If a name is none.
    StoreError
        If the folder can't be used.
    """
    private_from_now()
    answered = ["127.0.0.1", "localhost", *(own_names(host, names) if share else ())]
    opened = made_private(home)
    if not (home / "desk.sqlite3").exists():
        look(home)
    try:
        (home / "static").mkdir(exist_ok=True)
        (home / "photos").mkdir(exist_ok=True)
    except OSError as error:
        raise StoreError("desk.folder_not_usable", home=home, reason=error.strerror or str(error)) from None
    os.environ["DJANGO_SETTINGS_MODULE"] = "rodbook.desk.settings"
    os.environ["RODBOOK_DESK_HOME"] = str(home)
    os.environ["RODBOOK_DESK_SHARED"] = "1" if share else "0"
    os.environ["RODBOOK_DESK_TLS"] = "1" if tls else "0"
    os.environ["RODBOOK_DESK_HOSTS"] = ",".join(dict.fromkeys(answered))
    from rodbook.desk.platform.catalogues import compile_into

    compile_into(home / "locale")
    import django

    django.setup()
    from django.core.management import call_command

    from rodbook.desk.keeping.upgrade import upgrade

    try:
        upgrade(home)
        call_command("collectstatic", verbosity=0, interactive=False)
    except OSError as error:
        raise StoreError("desk.folder_not_written", home=home, reason=error.strerror or str(error)) from None
    return opened


def look(home: Path) -> list[Damage]:
    """Look whether what a desk keeps is whole, its pictures aside; refuse to begin anew where a database was or can't be read.

    Raises
    ------
    StoreError
        With the way back.
    """
    result = check_home(home, photos=False)
    damage = next((d for d in result if d.kind in CANNOT_START), None)
    if damage is None:
        return result
    what = (
        f"the database desk.sqlite3 is missing from {home}, though a desk worked there"
        if damage.kind is DamageKind.DATABASE_MISSING
        else f"the database in {home} can't be read ({damage.found})"
    )
    raise StoreError("desk.nothing_begun_anew", reason=what, hint=way_back(home))


def serve(
    home: Path,
    *,
    port: int,
    host: str = "127.0.0.1",
    names: Sequence[str] = (),
    share: bool = False,
    tls: bool = False,
    proxy: str = "127.0.0.1",
    say: Callable[[str], None] = print,
) -> None:
    """Run the desk until it is stopped.

    Parameters
    ----------
    home : Path
    port : int
        0 takes any free one.
    host : str
        Address to listen on: loopback unless shared.
    names : sequence of str
        See `prepare`.
    share, tls : bool
        See `prepare`.
    proxy : str
        With `tls`: address of what stands in front; only what it says of those who ask is believed.
    say : callable
        Told the link and how to stop.

    Raises
    ------
    InputError
        If the port is taken or a name is none.
    StoreError
        If the folder can't be used, or another desk works in it.
    """
    private_from_now()
    opened = made_private(home)
    held = hold(home)
    try:
        damage = look(home)
        forget_pages(home)
        for result in damage:
            say(f"Damaged: {in_words(result)}.")
        if damage:
            say(f"The rest can be worked with; {way_back(home)}.")
        opened += prepare(home, share=share, host=host, names=names, tls=tls)
        _serve(held, opened, port=port, host=host, names=names, share=share, tls=tls, proxy=proxy, say=say)
    finally:
        note_pages(home)
        held.let_go()


def _serve(
    held: Held,
    opened: Sequence[str],
    *,
    port: int,
    host: str,
    names: Sequence[str],
    share: bool,
    tls: bool,
    proxy: str,
    say: Callable[[str], None],
) -> None:
    """Run the desk in a folder that is held and prepared."""
    from django.core.wsgi import get_wsgi_application

    from rodbook.desk.entrance.audit import note_own_backup
    from rodbook.desk.keeping.keeper import keeper
    from rodbook.desk.keeping.server import make_server
    from rodbook.desk.platform.access import new_key
    from rodbook.desk.platform.planning import planner

    try:
        server = make_server(get_wsgi_application(), host=host, port=port, proxy=proxy if tls else None)
    except OSError as error:
        raise InputError.at(
            "--port", "desk.address_not_usable", host=host, port=port, reason=error.strerror or str(error)
        ) from None
    signal.signal(signal.SIGTERM, lambda *_: sys.exit(0))
    planner.warm()
    keeper.tell = note_own_backup
    keeper.start(held.home)
    held.tell(f"http://{host}:{server.effective_port}/")
    if opened:
        say(
            f"Other accounts of this machine could read {len(opened)} of the desk's files until now, the first {opened[0]!r}:"
            " that is mended. If others use this machine, change passwords and what is secret in the book."
        )
    if share:
        _say_shared(say, host, server.effective_port, own_names(host, names)[0], tls=tls)
    else:
        place = f"http://{host}:{server.effective_port}"
        say(f"Open this link; it works once, and only on this machine:\n\n  {place}/enter/{new_key()}/\n")
    sys.stdout.flush()
    say("Stop the desk with Ctrl-C; everything saved stays.")
    try:
        server.run()
    except KeyboardInterrupt:
        pass
    finally:
        keeper.stop()
        server.close()
        planner.close()


def _say_shared(say: Callable[[str], None], host: str, port: int, name: str, *, tls: bool) -> None:
    """Say where a shared desk is found, and what stands between it and the others."""
    accounts = "people with accounts (make them with: rodbook desk-person NAME)"
    if tls:
        say(f"The desk is open at https://{name}/ to {accounts}.")
        say(f"What speaks TLS passes requests on to http://{host}:{port}/: see docs/sharing.md.")
        return
    if host == "127.0.0.1":
        say(f"The desk is open at http://{host}:{port}/ to {accounts}, on this machine only.")
        say("To let others in, say with --host which address of this machine to listen on.")
        return
    say(f"The desk is open at http://{name}:{port}/ to {accounts}.")
    say("Passwords cross your network in the clear unless TLS is put in front: see docs/sharing.md.")
