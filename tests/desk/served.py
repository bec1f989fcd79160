"""A desk that is really served on a free port, in a thread of the tests: quick to begin, quick to end."""

import threading
import time
from pathlib import Path
from typing import Any

import httpx

from underpour.book import open_book
from underpour.desk.app import desk_app
from underpour.desk.ports import address, taken
from underpour.desk.serve import Desk

TOKEN = "the-token-of-the-tests"


class Served:
    """A desk over the book in a file. ``stop`` and ``start`` may be called again and again: the port stays."""

    def __init__(self, file: Path) -> None:
        self.file, self.token, self.port = file, TOKEN, 0
        self.start()

    @property
    def address(self) -> str:
        return address(self.port)

    def start(self) -> None:
        self.book = open_book(self.file)
        self._listening = taken(self.port)
        self.port = self._listening.getsockname()[1]
        ready = threading.Event()
        self._desk = Desk(desk_app(self.book, TOKEN), ready.set)
        self._thread = threading.Thread(target=self._desk.run, kwargs={"sockets": [self._listening]}, daemon=True)
        self._thread.start()
        assert ready.wait(60), "the desk did not begin"

    def stop(self) -> None:
        self._desk.should_exit = True
        self._thread.join(30)
        self._listening.close()
        self.book.close()

    def ask(self, method: str, path: str, **given) -> httpx.Response:
        """A request as the page sends it."""
        given.setdefault("headers", {"X-Desk-Token": TOKEN})
        return httpx.request(method, self.address.rstrip("/") + path, timeout=60, **given)

    def what_to_ask(self, text: str) -> dict[str, Any]:
        """What would turn an answer, once it is worked out."""
        told: dict[str, Any] = {"state": "waiting"}
        while told["state"] in ("waiting", "working"):
            answered = self.ask("POST", "/api/ask", json={"brief": text})
            assert answered.status_code == 200, answered.text
            told = answered.json()
        return told

    def begin(self, text: str) -> int:
        """A brief with this text in the book; its number."""
        return self.ask("POST", "/api/briefs", json={"brief": text}).json()["number"]


def until(what, seconds: float = 30.0):
    """What ``what`` gives as soon as it gives something; None where the time is over."""
    end = time.monotonic() + seconds
    while time.monotonic() < end:
        if found := what():
            return found
        time.sleep(0.05)
    return None
