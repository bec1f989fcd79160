"""The whole answer in a process of its own: what works for long takes no turns from what answers at once."""

from __future__ import annotations

import os
import pickle
import subprocess
import sys
import threading
from collections.abc import Callable
from contextlib import suppress
from pathlib import Path
from queue import SimpleQueue
from typing import IO, TYPE_CHECKING, Any, Literal

from .. import words
from .told import Told, Unread

if TYPE_CHECKING:
    from ...ask import Asked
    from ...families import EdgeFamily
    from ..shown import Look
    from .thicker import Drawn

Kind = Literal["told", "asked", "family", "speak"]
Message = tuple[int, Kind | Literal["leave"], Any]  # the work's number, what is wanted, of what
Reply = tuple[Literal["on", "made", "fault"], Any]  # how far it is; what was made; what broke
# This very package, wherever the desk was begun, and nothing that lies in the folder where it was.
OURS = f"import sys; sys.path.insert(0, {str(Path(__file__).parents[3])!r}); from {__name__} import main; main"
GENTLE = 10  # steps of the system's own scale by which everything else goes before


class Left(Exception):
    """Nobody waits for what is worked out."""


class Stopped(RuntimeError):
    """The other process ended without an answer."""


class Aside:
    """The process from the desk's side: one work after another. One thread asks; any may say that nobody waits.

    Only plain values come back, pickled. The process ends when the desk does, however that ends: its input is closed.
    """

    def __init__(self, *, gentle: bool = False) -> None:
        self._gentle = gentle  # whether everything else on the machine goes before
        self._lock = threading.Lock()
        self._process: subprocess.Popen[bytes] | None = None
        self._number = 0
        self._closed = False

    def begin(self) -> None:
        """Start it, unless it runs: what is loaded once is loaded before somebody waits for it."""
        with self._lock:
            if self._closed or (self._process is not None and self._process.poll() is None):
                return
            if self._process is not None:
                _ended(self._process)
            # A session of its own: Ctrl-C in the terminal is the desk's to hear, which then ends this one.
            ours = [sys.executable, "-P", "-c", f"{OURS}({GENTLE if self._gentle else 0})"]
            pipe = subprocess.PIPE
            self._process = subprocess.Popen(ours, stdin=pipe, stdout=pipe, start_new_session=True)
        self._say("speak", words.table())

    def told(self, text: str, look: Look, late: Callable[[], bool]) -> tuple[Told | Unread | None, dict[str, Any]]:
        """The whole answer with its sheet; None where ``late`` says that nobody waits for it any more."""
        return self._worked_out("told", (text, look), late) or (None, {})

    def asked(self, text: str, late: Callable[[], bool], on: Callable[[int, int], None]) -> Asked | Unread | None:
        """Open inputs that would turn a verdict, None as above. ``on`` hears how many of how many were tried."""
        return self._worked_out("asked", text, late, on)  # type: ignore[no-any-return]

    def family(self, drawn: Drawn, late: Callable[[], bool]) -> EdgeFamily | None:
        """A family of one edge along a thickness; None where nobody waits, or where there is none."""
        return self._worked_out("family", drawn, late)  # type: ignore[no-any-return]

    def leave(self) -> None:
        """Nobody waits for what is worked out now."""
        self._say("leave", None)

    def close(self) -> None:
        """End it, whatever it does."""
        with self._lock:
            self._closed = True
            process = self._process
        if process is not None:
            process.kill()
            _ended(process)

    def _worked_out(
        self, kind: Kind, what: Any, late: Callable[[], bool], on: Callable[[int, int], None] | None = None
    ) -> Any:
        self.begin()
        self._number += 1
        if late():  # before the question is sent: what is left after that is told to the process
            return None
        self._say(kind, what)
        process = self._process
        if process is None or process.stdout is None:
            raise Stopped
        while True:
            try:
                reply: Reply = pickle.load(process.stdout)
            except (EOFError, OSError, pickle.UnpicklingError):
                raise Stopped from None
            if reply[0] == "fault":
                raise Stopped(reply[1])
            if reply[0] == "made":
                return reply[1]
            if on is not None:
                on(*reply[1])

    def _say(self, kind: Kind | Literal["leave"], what: Any) -> None:
        with self._lock:
            if self._process is None or self._process.stdin is None:
                return
            with suppress(OSError):  # ended: whoever waits for its answer finds that out
                _put(self._process.stdin, (self._number, kind, what))


class _Desk:
    """The desk from the process's side: a thread hears what is said while something is worked out."""

    def __init__(self, said: IO[bytes]) -> None:
        self.works: SimpleQueue[Message] = SimpleQueue()
        self._left = 0  # the number of the last work that nobody waits for
        threading.Thread(target=self._hear, args=(said,), daemon=True).start()

    def has_left(self, number: int) -> bool:
        return number <= self._left

    def _hear(self, said: IO[bytes]) -> None:
        with suppress(EOFError, OSError, pickle.UnpicklingError):
            while True:
                number, kind, what = pickle.load(said)
                if kind == "leave":
                    self._left = number
                else:
                    self.works.put((number, kind, what))
        os._exit(0)  # the desk is gone, and with it whoever waits


def _ended(process: subprocess.Popen[bytes]) -> None:
    process.wait()
    for pipe in (process.stdin, process.stdout):
        with suppress(OSError):
            if pipe is not None:
                pipe.close()


def _put(to: IO[bytes], what: object) -> None:
    to.write(pickle.dumps(what, pickle.HIGHEST_PROTOCOL))
    to.flush()


def main(gentle: int = 0) -> None:
    """Answer what is asked on standard input, until that is closed."""
    if gentle and hasattr(os, "nice"):
        os.nice(gentle)
    answers = os.fdopen(os.dup(sys.stdout.fileno()), "wb")
    os.dup2(sys.stderr.fileno(), sys.stdout.fileno())  # what anything prints stands in no answer's way
    desk = _Desk(sys.stdin.buffer)
    from ..shown import sheet
    from .thicker import family
    from .whole import Whole

    whole = Whole()

    def told(number: int, text: str, look: Look) -> tuple[Told | Unread | None, dict[str, Any]]:
        made = whole.told(text, lambda: desk.has_left(number))
        return made, sheet(made, look) if isinstance(made, Told) and not desk.has_left(number) else {}

    def asked(number: int, text: str) -> Asked | Unread | None:
        def on(done: int, of: int) -> None:
            if desk.has_left(number):
                raise Left
            _put(answers, ("on", (done, of)))

        try:
            return whole.asked(text, on)
        except Left:
            return None

    while True:
        number, kind, what = desk.works.get()
        if kind == "speak":
            words.speak(what)
            continue
        try:
            made: Any = asked(number, what) if kind == "asked" else None
            if kind == "told":
                made = told(number, *what)
            elif kind == "family":
                made = family(what)
        except Exception as broken:  # told to the desk, which says that the fault is ours
            _put(answers, ("fault", f"{type(broken).__name__}: {broken}"))
        else:
            _put(answers, ("made", made))
