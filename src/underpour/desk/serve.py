"""The desk served on this machine alone, until somebody ends it."""

from __future__ import annotations

import contextlib
import socket
from typing import TYPE_CHECKING

import uvicorn

if TYPE_CHECKING:
    from collections.abc import Callable

    from fastapi import FastAPI


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
