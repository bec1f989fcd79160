"""Words to the terminal: UTF-8 everywhere, quiet where nobody listens any more."""

from __future__ import annotations

import os
import re
import sys
from typing import TextIO

# Text of a brief may hold control characters (TOML can write them); a terminal would obey them.
CONTROL = re.compile(r"[\x00-\x08\x0b-\x1f\x7f-\x9f\u202a-\u202e\u2066-\u2069]")


def hand_out(text: str) -> None:
    """Print on standard output."""
    _hand(text, sys.stdout)


def hand_out_aside(text: str) -> None:
    """Print on standard error."""
    _hand(text, sys.stderr)


def _hand(text: str, stream: TextIO | None) -> None:
    if stream is None:  # a process started without one
        return
    if hasattr(stream, "reconfigure"):
        stream.reconfigure(encoding="utf-8", errors="replace")
    clean = CONTROL.sub("\ufffd", text)
    if wants_colour(stream):
        from .colour import coloured

        clean = coloured(clean)
    try:
        stream.write(clean)
        stream.flush()
    except BrokenPipeError:
        # What is still held back would be written, and complained about, when Python ends.
        os.dup2(os.open(os.devnull, os.O_WRONLY), stream.fileno())


def wants_colour(stream: TextIO) -> bool:
    """Whether the stream is a terminal that shows colours and nobody asked for none."""
    return stream.isatty() and not os.environ.get("NO_COLOR") and os.environ.get("TERM", "") not in ("", "dumb")
