"""Where the desk listens."""

import socket

from underpour.desk.ports import taken


def test_what_is_accepted_sends_small_answers_at_once():
    """asyncio switches the waiting off only where the socket says that it is TCP; each answer took 40 ms more."""
    with taken(0) as listening:
        assert listening.proto == socket.IPPROTO_TCP
        assert listening.getsockname()[0] == "127.0.0.1"
