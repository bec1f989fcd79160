"""A page with nothing but the plan on it, over the real interface, for tests in a browser."""

from __future__ import annotations

import json
import os
import shutil
import threading
import time
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

import pytest
import uvicorn
from fastapi.responses import HTMLResponse, Response
from playwright.sync_api import Browser, Page, sync_playwright

from underpour.desk.app import desk_app
from underpour.desk.serve import taken
from underpour.desk.words import in_browser

TOKEN = "held by the tests"
SCRIPT = """
import '/static/plan/plan.js';
window.said = [];
document.addEventListener('plan-changed', (event) => window.said.push(event.detail.text));
"""
FLAGS = [
    "--no-sandbox",
    "--disable-gpu",
    "--disable-background-networking",
    "--disable-component-update",
    "--disable-sync",
    "--no-first-run",
]


@contextmanager
def served(folder: Path) -> Iterator[str]:
    """The desk with one page more, the plan by itself, on a free port."""
    app = desk_app(folder / "book.sqlite", token=TOKEN)

    @app.get("/plan-of-a-test", include_in_schema=False)
    def page() -> HTMLResponse:
        words = json.dumps(in_browser("plan")).replace("<", "\\u003c")
        return HTMLResponse(
            f"""<!doctype html><html lang="en"><head><meta charset="utf-8"><title>A plan</title>
<meta name="viewport" content="width=device-width, initial-scale=1"><meta name="desk-token" content="{TOKEN}">
<meta name="color-scheme" content="light dark"><link rel="icon" href="/static/look/icon.svg">
<link rel="stylesheet" href="/look/colours.css">
<link rel="stylesheet" href="/static/look/letters.css"><link rel="stylesheet" href="/static/look/page.css">
<link rel="stylesheet" href="/static/plan/plan.css"></head><body><main><h1>Plan</h1><up-plan></up-plan></main>
<script type="application/json" id="words">{words}</script>
<script type="module" src="/plan-of-a-test.js"></script></body></html>"""
        )

    @app.get("/plan-of-a-test.js", include_in_schema=False)
    def script() -> Response:
        return Response(SCRIPT, media_type="text/javascript")

    listening = taken(0)
    server = uvicorn.Server(uvicorn.Config(app, log_level="error"))
    thread = threading.Thread(target=server.run, kwargs={"sockets": [listening]}, daemon=True)
    thread.start()
    while not server.started:
        time.sleep(0.01)
    yield f"http://127.0.0.1:{listening.getsockname()[1]}"
    server.should_exit = True
    thread.join(timeout=5)


@contextmanager
def chromium() -> Iterator[Browser]:
    """The machine's own browser; tests are left out where there is none, except in CI."""
    found = shutil.which("chromium") or shutil.which("chromium-browser") or shutil.which("google-chrome")
    if found is None:
        (pytest.fail if os.environ.get("CI") == "true" else pytest.skip)("no Chromium on this machine")
    with sync_playwright() as driver:
        browser = driver.chromium.launch(executable_path=found, args=FLAGS)
        yield browser
        browser.close()


class PlanPage:
    """The plan in a browser, as its tests speak of it."""

    def __init__(self, page: Page, address: str, brief: str) -> None:
        self.page = page
        self.faults: list[str] = []
        page.on("pageerror", lambda fault: self.faults.append(str(fault)))
        page.on("console", lambda told: self.faults.append(told.text) if told.type == "error" else None)
        page.goto(f"{address}/plan-of-a-test")
        page.evaluate("brief => { document.querySelector('up-plan').text = brief; }", brief)
        self.until("document.querySelector('up-plan').plan?.unit !== undefined")
        self.settled()
        page.evaluate("window.said = []")

    def until(self, true: str, seconds: float = 20.0) -> None:
        """Until something is so in the page; the page's own policy forbids the driver to wait in there."""
        end = time.monotonic() + seconds
        while not self.page.evaluate(true):
            assert time.monotonic() < end, f"not so: {true}"
            time.sleep(0.02)

    def settled(self) -> None:
        """Until every act so far was answered."""
        self.page.evaluate("document.querySelector('up-plan').act(() => undefined)")

    @property
    def text(self) -> str:
        self.settled()
        return str(self.page.evaluate("document.querySelector('up-plan').text"))

    @property
    def area(self) -> str:
        self.settled()
        return self.page.locator("up-plan .state").inner_text()

    def at(self, x: float, y: float) -> tuple[float, float]:
        """Where a place of the plan (m) lies in the window."""
        frame = self.page.evaluate("document.querySelector('up-plan').frame")
        box = self.page.locator("up-plan svg.leaf").bounding_box()
        assert box is not None
        return box["x"] + frame["left"] + x * frame["scale"], box["y"] + frame["bottom"] - y * frame["scale"]

    def press(self, x: float, y: float) -> None:
        self.page.mouse.move(*self.at(x, y))
        self.page.mouse.down()
        self.page.mouse.up()
        self.settled()

    def drag(self, start: tuple[float, float], end: tuple[float, float]) -> None:
        self.page.mouse.move(*self.at(*start))
        self.page.mouse.down()
        self.page.mouse.move(*self.at(*end), steps=4)
        self.page.mouse.up()
        self.settled()

    def choose(self, key: str) -> None:
        self.page.locator(f'up-plan [data-key="{key}"]').focus()

    def keys(self, *keys: str) -> None:
        for key in keys:
            self.page.keyboard.press(key)
            self.settled()
