"""What to ask the caller, on its way: how far it is, whether anybody still waits, what came of it."""

from __future__ import annotations

import threading
from typing import TYPE_CHECKING, Literal

from .told import Unread

if TYPE_CHECKING:
    from ...ask import Asked

State = Literal["waiting", "working", "done", "stopped", "left"]


class Asking:
    """One text that is asked about. One thread works it out; any may look, wait and stop it."""

    def __init__(self) -> None:
        self.state: State = "waiting"
        self.done, self.of = 0, 0  # inputs tried, of how many
        self.said: Asked | Unread | None = None
        self._lock = threading.Lock()
        self._over = threading.Event()

    @property
    def over(self) -> bool:
        """Whether nothing more comes."""
        return self._over.is_set()

    @property
    def left(self) -> bool:
        """Whether it was left or stopped, so that whoever asks again begins it anew."""
        return self.state in ("left", "stopped")

    def wait(self, seconds: float) -> None:
        """Until it is over, but no longer than that. [s]"""
        self._over.wait(seconds)

    def begun(self) -> None:
        """It is worked out from now on, unless it is over."""
        with self._lock:
            if not self.over:
                self.state = "working"

    def on(self, done: int, of: int) -> None:
        """So many inputs were tried."""
        self.done, self.of = done, of

    def ended(self, said: Asked | Unread | None) -> None:
        """What came of it; None where it was left on the way."""
        with self._lock:
            if not self.over:
                self.said, self.state = said, "left" if said is None else "done"
                self._over.set()

    def stop(self) -> bool:
        """Nobody waits for it. Whether it was being worked out."""
        return self._end("stopped")

    def give_way(self) -> bool:
        """Something else goes before. Whether it was being worked out."""
        return self.state == "working" and self._end("left")

    def _end(self, state: State) -> bool:
        with self._lock:
            working = self.state == "working"
            if not self.over:
                self.state = state
                self._over.set()
        return working
