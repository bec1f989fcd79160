"""The desk served on this machine alone, until somebody ends it."""

from __future__ import annotations

import contextlib
import socket
from typing import TYPE_CHECKING

import uvicorn

from ..mistakes import Mistake

if TYPE_CHECKING:
    from collections.abc import Callable

    from fastapi import FastAPI

HOST = "127.0.0.1"


def taken(port: int) -> socket.socket:
    """A socket that listens on this machine's own address; 0 takes any free port.

    Raises
    ------
    Mistake
        Something else listens there, or the system does not allow it.
    """
    listening = socket.socket(socket.AF_INET, socket.SOCK_STREAM)
    listening.setsockopt(socket.SOL_SOCKET, socket.SO_REUSEADDR, 1)
    try:
        listening.bind((HOST, port))
        listening.listen(128)
    except OSError as cause:
        listening.close()
        if isinstance(cause, PermissionError):
            raise Mistake(f"--port {port}", "", "This port is not ours to open.", "Take one above 1023.") from None
        wrong = "Something listens there already; it may be the desk itself."
        raise Mistake(f"--port {port}", "", wrong, f"Look at {address(port)}, or take another port.") from None
    return listening


def address(port: int) -> str:
    return f"http://{HOST}:{port}/"


class Desk(uvicorn.Server):
    """A server that says when it is ready."""

    def __init__(self, app: FastAPI, ready: Callable[[], None]) -> None:
        # Connections that a browser keeps open must not hold up the end.
        super().__init__(uvicorn.Config(app, log_level="critical", lifespan="on", timeout_graceful_shutdown=1))
        self.ready = ready

    async def startup(self, sockets: list[socket.socket] | None = None) -> None:
        await super().startup(sockets)
        if self.started:
            self.ready()


def serve(app: FastAPI, listening: socket.socket, ready: Callable[[], None]) -> None:
    """Serve until Ctrl-C, or until the system ends it."""
    with contextlib.suppress(KeyboardInterrupt):  # the server ends its own work first, then hands the signal on
        Desk(app, ready).run(sockets=[listening])
