"""Where papers are made, one after another, and kept until they were fetched."""

from __future__ import annotations

import contextlib
import json
import secrets
import subprocess
import sys
import tempfile
import threading
from collections import OrderedDict
from dataclasses import asdict, dataclass, field
from pathlib import Path
from typing import Any, Literal

from ...mistakes import Mistake
from .orders import ENDINGS, Order

State = Literal["waiting", "working", "done", "refused", "broken", "stopped"]

WAITING = 8  # papers that may wait at once
KEPT = 24  # papers that can still be looked at and fetched


class Busy(Exception):
    """As many papers wait as may."""


class Gone(LookupError):
    """No such paper is being made, or it was made too long ago."""


@dataclass
class Work:
    """One paper on its way. Changed by the bench alone."""

    job: str
    order: Order
    file: Path
    state: State = "waiting"
    done: int = 0
    of: int = 1
    words: str = "waiting"  # what is done at this moment, a key of the desk's words
    given: dict[str, str] = field(default_factory=dict)
    mistakes: tuple[Mistake, ...] = ()
    fault: str = ""  # the line to send where the fault is ours

    @property
    def ended(self) -> bool:
        return self.state not in ("waiting", "working")


class Bench:
    """One paper at a time, each in its own process. What is asked of it comes from many threads."""

    def __init__(self) -> None:
        self._works: OrderedDict[str, Work] = OrderedDict()
        self._lock = threading.Lock()
        self._come = threading.Condition(self._lock)
        self._process: subprocess.Popen[str] | None = None
        self._folder: tempfile.TemporaryDirectory[str] | None = None
        self._closed = False
        self._thread: threading.Thread | None = None

    def begin(self, order: Order) -> Work:
        """Put an order in the queue. Raises Busy."""
        with self._lock:
            if sum(not work.ended for work in self._works.values()) >= WAITING:
                raise Busy
            if self._folder is None:
                self._folder = tempfile.TemporaryDirectory(prefix="underpour-desk-", ignore_cleanup_errors=True)
                self._thread = threading.Thread(target=self._make_all, name="papers", daemon=True)
                self._thread.start()
            job = secrets.token_urlsafe(12)
            work = Work(job, order, Path(self._folder.name) / f"{job}{ENDINGS[order.kind][0]}")
            self._works[job] = work
            self._forget()
            self._come.notify()
            return work

    def look(self, job: str) -> Work:
        """How far it is. Raises Gone."""
        with self._lock:
            if job not in self._works:
                raise Gone(job)
            return self._works[job]

    def stop(self, job: str) -> Work:
        """Stop it wherever it is; one that has ended stays as it ended. Raises Gone."""
        with self._lock:
            if job not in self._works:
                raise Gone(job)
            work = self._works[job]
            if not work.ended:
                if work.state == "working" and self._process is not None:
                    self._process.kill()
                work.state, work.words, work.given = "stopped", "stopped", {}
            return work

    def close(self) -> None:
        """Stop everything; what was made and not fetched is gone."""
        with self._lock:
            self._closed = True
            for work in self._works.values():
                if not work.ended:
                    work.state = "stopped"
            if self._process is not None:
                self._process.kill()
            self._come.notify()
        if self._thread is not None:
            self._thread.join()
        if self._folder is not None:
            self._folder.cleanup()

    def _forget(self) -> None:
        old = [work for work in self._works.values() if work.ended]
        for work in old[: max(0, len(self._works) - KEPT)]:
            del self._works[work.job]
            work.file.unlink(missing_ok=True)

    def _make_all(self) -> None:
        while (work := self._next()) is not None:
            self._make(work)

    def _next(self) -> Work | None:
        with self._lock:
            while True:
                if self._closed:
                    return None
                found = next((work for work in self._works.values() if work.state == "waiting"), None)
                if found is not None:
                    found.state = "working"
                    return found
                self._come.wait()

    def _make(self, work: Work) -> None:
        ours = [sys.executable, "-m", f"{__package__}.making", str(work.file)]
        with self._lock:
            if work.state != "working":
                return
            # A session of its own: Ctrl-C in the terminal is the desk's to hear, which then stops this one.
            process = subprocess.Popen(
                ours,
                stdin=subprocess.PIPE,
                stdout=subprocess.PIPE,
                stderr=subprocess.DEVNULL,
                text=True,
                encoding="utf-8",
                start_new_session=True,
            )
            self._process = process
        with process:
            assert process.stdin is not None
            assert process.stdout is not None
            with contextlib.suppress(OSError):
                process.stdin.write(json.dumps(asdict(work.order)))
                process.stdin.close()
            for line in process.stdout:
                with self._lock:
                    _heard(work, json.loads(line))
        with self._lock:
            self._process = None
            if not work.ended:
                work.state, work.words, work.given = "broken", "broken", {}


def _heard(work: Work, step: dict[str, Any]) -> None:
    """What the process told, written down; nothing where the work was stopped meanwhile."""
    if work.ended:
        return
    if "mistakes" in step:
        work.state, work.words, work.given = "refused", "refused", {}
        work.mistakes = tuple(Mistake(**mistake) for mistake in step["mistakes"])
    elif "fault" in step:
        work.state, work.words, work.given, work.fault = "broken", "broken", {}, step["fault"]
    else:
        work.done, work.of, work.words, work.given = step["done"], step["of"], step["words"], step["given"]
        if work.done == work.of:
            work.state = "done"
