"""Starting the desk: home folder, database, static files, the one-time link, and the server."""

from __future__ import annotations

import os
import signal
import socket
import sys
from collections.abc import Callable
from pathlib import Path

from rodbook.errors import InputError, StoreError

__all__ = ["prepare", "serve"]


def _hosts(share: bool, host: str) -> str:  # noqa: FBT001  an inner helper
    names = ["127.0.0.1", "localhost"]
    if share:
        names += [host, socket.gethostname()]
    return ",".join(dict.fromkeys(n for n in names if n and n != "0.0.0.0"))  # noqa: S104  compared, not bound


def prepare(home: Path, *, share: bool = False, host: str = "127.0.0.1", tls: bool = False) -> None:
    """Set the desk up in its home folder: settings, database tables, static files. Can be done again and again.

    Parameters
    ----------
    home : Path
        Folder for database, photos and keys; made where there is none.
    share : bool
        Whether others come in over the network, with accounts.
    host : str
        Address or name that they ask for.
    tls : bool
        Whether a proxy in front speaks TLS.

    Raises
    ------
    StoreError
        If the folder can't be used.
    """
    try:
        home.mkdir(parents=True, exist_ok=True)
        (home / "static").mkdir(exist_ok=True)
        (home / "photos").mkdir(exist_ok=True)
    except OSError as error:
        raise StoreError(
            f"the desk's folder {home} can't be used: {error.strerror or error}; name another with --home"
        ) from None
    os.environ["DJANGO_SETTINGS_MODULE"] = "rodbook.desk.settings"
    os.environ["RODBOOK_DESK_HOME"] = str(home)
    os.environ["RODBOOK_DESK_SHARED"] = "1" if share else "0"
    os.environ["RODBOOK_DESK_TLS"] = "1" if tls else "0"
    os.environ["RODBOOK_DESK_HOSTS"] = _hosts(share, host)
    import django

    django.setup()
    from django.core.management import call_command
    from django.db import connections

    call_command("migrate", verbosity=0, interactive=False)
    call_command("collectstatic", verbosity=0, interactive=False)
    connections.close_all()


def serve(
    home: Path, *, port: int, host: str = "127.0.0.1", share: bool = False, tls: bool = False,
    say: Callable[[str], None] = print,
) -> None:  # fmt: skip
    """Run the desk until it is stopped.

    Parameters
    ----------
    home : Path
    port : int
        0 takes any free one.
    host : str
        Loopback unless shared.
    share, tls : bool
        See `prepare`.
    say : callable
        Told the link and how to stop.

    Raises
    ------
    InputError
        If the port is taken.
    StoreError
        If the folder can't be used.
    """
    prepare(home, share=share, host=host, tls=tls)
    from django.core.wsgi import get_wsgi_application
    from waitress import create_server

    from rodbook.desk.access import new_key
    from rodbook.desk.planning import planner

    try:
        server = create_server(
            get_wsgi_application(), host=host, port=port, threads=32, channel_timeout=120, ident=None,
            max_request_body_size=16 * 1024 * 1024, clear_untrusted_proxy_headers=True,
            **({"trusted_proxy": "127.0.0.1", "trusted_proxy_headers": "x-forwarded-proto"} if tls else {}),
        )  # fmt: skip
    except OSError as error:
        raise InputError.at(
            "--port", f"{host}:{port} can't be used ({error.strerror or error}); choose another"
        ) from None
    signal.signal(signal.SIGTERM, lambda *_: sys.exit(0))
    planner.warm()
    place = f"http://{host}:{server.effective_port}"
    if share:
        say(f"The desk is open to people with accounts at {place}/ (make them with: rodbook desk-person NAME).")
        say("Passwords cross your network in the clear unless TLS is put in front: see docs/sharing.md.")
    else:
        say(f"Open this link; it works once, and only on this machine:\n\n  {place}/enter/{new_key()}/\n")
    sys.stdout.flush()
    say("Stop the desk with Ctrl-C; everything saved stays.")
    try:
        server.run()
    except KeyboardInterrupt:
        pass
    finally:
        server.close()
        planner.close()
