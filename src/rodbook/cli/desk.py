"""The desk, opened from the command line."""

from __future__ import annotations

from pathlib import Path

import click

from rodbook.errors import InputError

__all__ = ["desk"]


@click.command()
@click.option(
    "--home",
    type=click.Path(path_type=Path, file_okay=False),
    default=None,
    help="Folder for the desk's database and photos; ~/.rodbook where left out.",
)
@click.option("--port", type=click.IntRange(0, 65535), default=8765, show_default=True, help="0 takes any free one.")
@click.option("--share", is_flag=True, help="Let people with accounts in over the firm's own network.")
@click.option(
    "--host",
    default="127.0.0.1",
    show_default=True,
    help="With --share: address of this machine to listen on; 0.0.0.0 for all of them.",
)
@click.option(
    "--name",
    "names",
    multiple=True,
    help="With --share: name by which people ask for the desk, once for each; by itself the address and `hostname`.",
)
@click.option("--tls", is_flag=True, help="With --share: something in front of the desk speaks TLS.")
@click.option(
    "--proxy", default="127.0.0.1", show_default=True, help="With --tls: address of what stands in front of the desk."
)
def desk(
    home: Path | None, port: int, host: str, names: tuple[str, ...], proxy: str, *, share: bool, tls: bool
) -> None:
    """Open the desk: the job in a browser on this machine, by a link that works once."""
    if proxy != "127.0.0.1" and not tls:
        raise InputError.at("--proxy", "cli.proxy_without_tls")
    if not share and (tls or names or host != "127.0.0.1"):
        option = "--tls" if tls else "--name" if names else "--host"
        raise InputError.at(option, "cli.option_without_share")
    from rodbook.desk.serve import serve

    where = (home or Path.home() / ".rodbook").resolve()
    serve(where, port=port, host=host, names=names, share=share, tls=tls, proxy=proxy, say=click.echo)
