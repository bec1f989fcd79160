"""Where the desk listens: on this machine's own address alone."""

from __future__ import annotations

import socket

from ..mistakes import Mistake

HOST = "127.0.0.1"


def taken(port: int) -> socket.socket:
    """A socket that listens on this machine's own address; 0 takes any free port.

    Raises
    ------
    Mistake
        Something else listens there, or the system does not allow it.
    """
    # Named as TCP, so that asyncio sends small answers at once: without it each waits 40 ms for the other side's nod.
    listening = socket.socket(socket.AF_INET, socket.SOCK_STREAM, socket.IPPROTO_TCP)
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
