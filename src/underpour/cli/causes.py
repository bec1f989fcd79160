"""The one place that maps a cause to words and an exit status."""

from __future__ import annotations

import traceback
from pathlib import Path

from .. import __version__
from ..mistakes import Mistake, Mistakes
from .told import Told

PACKAGE = Path(__file__).parents[1]


def in_words(cause: Exception, command: str) -> Told:
    """Words and exit status for whatever stopped a command: 2 for what the user can mend, 3 for our fault."""
    if isinstance(cause, Mistake | Mistakes):
        return Told(f"{cause}\n", 2)
    kind = type(cause).__name__
    what = " ".join(str(cause).split())
    line = f"underpour {__version__}, {command or 'help'}, {place(cause)}, {kind}: {what}"
    return Told(
        "Something broke on our side. Your brief is safe. Send this line:\n"
        f"{line[:400]}\n"
        "To see more: the same command with --traceback.\n",
        3,
    )


def place(cause: Exception) -> str:
    """File and line of ours where the cause arose, written from the package's folder: "checks/heat.py:41"."""
    frames = traceback.extract_tb(cause.__traceback__)
    ours = [frame for frame in frames if Path(frame.filename).is_relative_to(PACKAGE)]
    if not ours:
        return "place not known"
    return f"{Path(ours[-1].filename).relative_to(PACKAGE).as_posix()}:{ours[-1].lineno}"


def whole_traceback(cause: Exception) -> str:
    return "".join(traceback.format_exception(cause)) + "\n"
