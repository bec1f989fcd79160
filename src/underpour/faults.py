"""What is told of a fault of ours: one line that a person can send."""

from __future__ import annotations

import traceback
from pathlib import Path

PACKAGE = Path(__file__).parent
LONGEST = 400  # letters of the line


def line_to_send(cause: BaseException, version: str, where: str) -> str:
    """One line that says what broke, without anything of the brief but what the cause itself quotes.

    Parameters
    ----------
    cause : BaseException
        What came up.
    version : str
        Of the program.
    where : str
        What was asked for: a command, a page.
    """
    what = " ".join(str(cause).split())
    return f"underpour {version}, {where}, {place(cause)}, {type(cause).__name__}: {what}"[:LONGEST]


def place(cause: BaseException) -> str:
    """File and line of ours where the cause arose, written from the package's folder: "checks/heat.py:41"."""
    frames = traceback.extract_tb(cause.__traceback__)
    ours = [frame for frame in frames if Path(frame.filename).is_relative_to(PACKAGE)]
    if not ours:
        return "place not known"
    return f"{Path(ours[-1].filename).relative_to(PACKAGE).as_posix()}:{ours[-1].lineno}"
