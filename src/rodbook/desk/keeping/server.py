"""The server's own limits: one address does not take all connections, and an answer to HEAD has no body."""

from __future__ import annotations

from collections.abc import Callable, Iterable
from typing import Any

from waitress.adjustments import Adjustments
from waitress.server import TcpWSGIServer
from waitress.task import ThreadedTaskDispatcher

from rodbook.desk.platform.turns import ByPlace, InTurn

__all__ = ["MOST_FROM_ONE", "HeadWithoutBody", "Server", "make_server"]

MOST_FROM_ONE = 64
"""Connections that one address may hold at once; a browser uses six. House assumption."""

MOST_AT_ONCE = 1000
"""Connections of all addresses together. House assumption."""

QUIET_SECONDS = 20
"""After so long without a byte a connection that asks for nothing is closed. House assumption. [s]"""

LOOK_SECONDS = 5
"""How often that is looked at. [s]"""

THREADS = 32

MOST_BODY = 64 * 1024 * 1024
"""More than this is refused by the server itself; pages refuse sooner. [bytes]"""

type Environ = dict[str, Any]
type Application = Callable[[Environ, Callable[..., Any]], Iterable[bytes]]


class HeadWithoutBody:
    """Answers HEAD as GET without a body; its length is still told."""

    def __init__(self, application: Application) -> None:
        """Take what answers."""
        self.application = application

    def __call__(self, environ: Environ, start_response: Callable[..., Any]) -> Iterable[bytes]:
        """Let it answer, and drop the body where only the head was asked for."""
        body = self.application(environ, start_response)
        if environ.get("REQUEST_METHOD") != "HEAD":
            return body
        close = getattr(body, "close", None)
        if close is not None:
            close()
        return ()


class _Waiting:
    """Requests that wait for a thread; addresses take turns."""

    def __init__(self) -> None:
        """Start empty."""
        self._by_place: ByPlace[Any] = ByPlace()

    def __len__(self) -> int:
        """How many wait."""
        return len(self._by_place)

    def append(self, task: Any) -> None:
        """Put a connection with a request behind those of its address; a proxy says whose address that is."""
        place = str(task.addr[0])
        if place in task.server.many and task.requests:
            place = task.requests[0].headers.get("X_FORWARDED_FOR", place).rpartition(",")[2].strip()
        self._by_place.append(place, task)

    def popleft(self) -> Any:
        """Take the next one."""
        return self._by_place.pop()


class Server(TcpWSGIServer):  # type: ignore[misc]
    """Holds one address to so many connections; a proxy that speaks for many is named in `many` and held to none."""

    many: frozenset[str] = frozenset()

    def accept(self) -> tuple[Any, Any] | None:
        """Take the next connection, or close it at once where its address has too many."""
        taken: tuple[Any, Any] | None = super().accept()
        if taken is None:
            return None
        connection, address = taken
        mine = sum(1 for channel in self.active_channels.values() if channel.addr[:1] == address[:1])
        if address[0] not in self.many and mine >= MOST_FROM_ONE:
            connection.close()
            return None
        return taken


def make_server(application: Application, *, host: str, port: int, proxy: str | None) -> Server:
    """Make a server that listens already.

    Parameters
    ----------
    application : callable
        By WSGI.
    host : str
    port : int
        0 takes any free one.
    proxy : str or None
        Address of what speaks TLS in front: what it says of who asks, and by which way, is believed; nobody else's is.

    Raises
    ------
    OSError
        If the port can't be had.
    """
    trust: dict[str, Any] = {}
    if proxy is not None:
        trust = {"trusted_proxy": proxy, "trusted_proxy_headers": "x-forwarded-for x-forwarded-proto"}
    settings = Adjustments(
        host=host,
        port=port,
        threads=THREADS,
        ident=None,
        connection_limit=MOST_AT_ONCE,
        channel_timeout=QUIET_SECONDS,
        cleanup_interval=LOOK_SECONDS,
        asyncore_use_poll=True,
        max_request_body_size=MOST_BODY,
        clear_untrusted_proxy_headers=True,
        **trust,
    )
    dispatcher = ThreadedTaskDispatcher()
    dispatcher.queue = _Waiting()
    dispatcher.set_thread_count(settings.threads)
    server = Server(HeadWithoutBody(InTurn(application)), dispatcher=dispatcher, adj=settings)
    server.many = frozenset() if proxy is None else frozenset({proxy})
    return server
