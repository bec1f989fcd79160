"""The one place that maps a cause to words and an exit status."""

from __future__ import annotations

import traceback

from .. import __version__
from ..faults import line_to_send
from ..mistakes import Mistake, Mistakes
from .told import Told


def in_words(cause: Exception, command: str) -> Told:
    """Words and exit status for whatever stopped a command: 2 for what the user can mend, 3 for our fault."""
    if isinstance(cause, Mistake | Mistakes):
        return Told(f"{cause}\n", 2)
    line = line_to_send(cause, __version__, command or "help")
    return Told(
        "Something broke on our side. Your brief is safe. Send this line:\n"
        f"{line}\n"
        "To see more: the same command with --traceback.\n",
        3,
    )


def whole_traceback(cause: Exception) -> str:
    return "".join(traceback.format_exception(cause)) + "\n"
