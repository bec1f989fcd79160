"""The command as a process of its own: begun, ended, killed in the midst of saving and begun again."""

import os
import re
import signal
import socket
import subprocess
import sys
import threading
import time
from pathlib import Path

import httpx
import pytest
from served import until

from underpour.book import open_book

SOURCE = {**os.environ, "PYTHONPATH": str(Path(__file__).parents[2] / "src"), "OPENBLAS_NUM_THREADS": "1"}


class Command:
    """``underpour desk`` on a free port."""

    def __init__(self, book: Path) -> None:
        words = [sys.executable, "-m", "underpour", "desk", "--port", "0", "--book", str(book), "--no-browser"]
        self.process = subprocess.Popen(words, env=SOURCE, stdout=subprocess.PIPE, stderr=subprocess.PIPE, text=True)
        self.first = "".join(self.process.stdout.readline() for _ in range(3))
        self.address = re.search(r"http://127\.0\.0\.1:\d+/", self.first)[0]
        self.client = httpx.Client(base_url=self.address, timeout=60)
        token = re.search(r'desk-token" content="([^"]+)"', self.client.get("/").text)[1]
        self.client.headers["X-Desk-Token"] = token

    def end(self, by: int) -> tuple[int, str, str]:
        self.client.close()
        self.process.send_signal(by)
        said, aside = self.process.communicate(timeout=60)
        return self.process.returncode, self.first + said, aside


@pytest.fixture
def book(tmp_path):
    return tmp_path / "desk.book"


def test_it_says_where_it_is_and_ends_calmly(book):
    desk = Command(book)
    desk.client.post("/api/briefs", json={"brief": "a = 1"})
    said = f"The desk is open at {desk.address}\nIts book is {book}\nCtrl-C ends it; what is saved stays.\n"
    assert desk.end(signal.SIGINT) == (0, f"{said}The desk is closed.\n", "")


def test_an_open_connection_and_a_paper_that_is_being_made_do_not_hold_up_the_end(book):
    from underpour.starters import demo_text

    desk = Command(book)
    job = desk.client.post("/api/jobs", json={"kind": "page", "brief": demo_text()}).json()["job"]
    assert until(lambda: desk.client.get(f"/api/jobs/{job}").json()["state"] == "working")
    held = socket.create_connection(("127.0.0.1", int(desk.address.rsplit(":", 1)[1].strip("/"))))
    began = time.monotonic()
    status, _, aside = desk.end(signal.SIGINT)
    held.close()
    assert (status, aside) == (0, "")
    assert time.monotonic() - began < 20


def test_killed_while_it_saves_it_holds_all_that_was_saved(book):
    """Killed without warning in the midst of savings: what was answered as saved is there, and no half of any."""
    said: list[tuple[int, str]] = []
    for round_ in range(2):
        desk = Command(book)
        if not said:
            made = desk.client.post("/api/briefs", json={"brief": "start = 0"}).json()
            number, version = made["number"], made["version"]
        version = desk.client.get(f"/api/briefs/{number}").json()["version"]
        threading.Timer(0.7, desk.process.kill).start()
        for n in range(10_000):
            text = f"round = {round_}\nn = {n}\n" + "# filling\n" * 2000
            try:
                kept = desk.client.put(f"/api/briefs/{number}", json={"brief": text, "version": version})
            except httpx.TransportError:
                break
            assert kept.status_code == 200, kept.text
            version = kept.json()["version"]
            said.append((version, text))
        desk.client.close()
        desk.process.communicate(timeout=60)
        assert desk.process.returncode == -signal.SIGKILL
    assert len(said) > 4
    opened = open_book(book)
    history = opened.history(number)
    for version, text in said:
        assert opened.text(number, version) == text
    assert [each.version for each in history] == list(range(len(history), 0, -1))
    assert len(said) <= len(history) - 1 <= len(said) + 2  # the last of each round may be saved without being told
    opened.close()


def told(*words: str) -> subprocess.CompletedProcess[str]:
    ours = [sys.executable, "-m", "underpour", "desk", "--no-browser", *words]
    return subprocess.run(ours, env=SOURCE, capture_output=True, text=True, timeout=120)


def test_what_cannot_be_served_is_told_with_status_2(book, tmp_path):
    with socket.create_server(("127.0.0.1", 0)) as other:
        port = other.getsockname()[1]
        taken = told("--port", str(port), "--book", str(book))
    (tmp_path / "text.book").write_text("no book\n" * 100)
    cases = [
        (taken, f"--port {port}\n  Something listens there already; it may be the desk itself.\n"),
        (told("--port", "many"), "--port many\n  A port is a number up to 65535.\n"),
        (told("--port", "70000"), "--port 70000\n  A port is a number up to 65535.\n"),
        (told("--book", str(tmp_path)), "  That is a folder; a book is a file.\n"),
        (told("--book", str(tmp_path / "text.book")), "  This file is not a book of the desk, or it is damaged."),
        (told("--book", str(tmp_path / "none" / "x.book")), f"  There is no folder {tmp_path / 'none'}.\n"),
        (told("--tabs"), "  The command does not take this."),
    ]
    for case, words in cases:
        assert (case.returncode, case.stdout) == (2, ""), case.stderr
        assert words in case.stderr


def test_help_is_there_before_anything_heavy_is_loaded():
    ask = "import sys; from underpour.cli import main; main(['desk', '--help']); "
    ask += "print('loaded', *[name for name in ('fastapi', 'sqlalchemy', 'numpy') if name in sys.modules])"
    found = subprocess.run([sys.executable, "-c", ask], env=SOURCE, capture_output=True, text=True, check=True)
    assert found.stdout.splitlines()[-1] == "loaded"
    assert "underpour desk [--port N] [--book FILE] [--no-browser]" in found.stdout
