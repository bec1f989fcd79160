"""Ctrl-C as a request: the work goes on to the best that it has; a second time ends it at once."""

from __future__ import annotations

import signal
import sys
from collections.abc import Callable, Iterator
from contextlib import contextmanager

SAID = "Stopping: the best plan so far is kept. Once more ends at once."


@contextmanager
def stopped_by_key() -> Iterator[Callable[[], bool]]:
    """While the block runs, whether somebody has pressed Ctrl-C."""
    asked: list[bool] = []

    def ask(_number: int, _frame: object) -> None:
        if asked:
            raise KeyboardInterrupt
        asked.append(True)
        sys.stderr.write(f"\n{SAID}\n")
        sys.stderr.flush()

    before = signal.signal(signal.SIGINT, ask)
    try:
        yield lambda: bool(asked)
    finally:
        signal.signal(signal.SIGINT, before)
