"""A page with nothing but the plan on it, over the real interface and under its content policy."""

from __future__ import annotations

import json
import time

from playwright.sync_api import Page, Route
from served import Served

from underpour.desk.guard import POLICY
from underpour.desk.words import in_browser

SCRIPT = """
import '/static/plan/plan.js';
window.said = [];
document.addEventListener('plan-changed', (event) => window.said.push(event.detail.text));
"""


def page_of(token: str) -> str:
    words = json.dumps(in_browser("plan")).replace("<", "\\u003c")
    sheets = ("/look/colours.css", "/static/look/letters.css", "/static/look/page.css", "/static/plan/plan.css")
    links = "".join(f'<link rel="stylesheet" href="{sheet}">' for sheet in sheets)
    return f"""<!doctype html><html lang="en"><head><meta charset="utf-8"><title>A plan</title>
<meta name="viewport" content="width=device-width, initial-scale=1"><meta name="desk-token" content="{token}">
<meta name="color-scheme" content="light dark"><link rel="icon" href="/static/look/icon.svg">{links}</head>
<body><main><h1>Plan</h1><up-plan></up-plan></main>
<script type="application/json" id="words">{words}</script>
<script type="module" src="/plan-of-a-test.js"></script></body></html>"""


class PlanPage:
    """The plan in a browser, as its tests speak of it."""

    def __init__(self, page: Page, desk: Served, brief: str) -> None:
        self.page = page
        self.faults: list[str] = []
        page.on("pageerror", lambda fault: self.faults.append(str(fault)))
        page.on("console", lambda told: self.faults.append(told.text) if told.type == "error" else None)
        head = {"content-security-policy": POLICY}

        def handed(route: Route) -> None:
            script = route.request.url.endswith(".js")
            route.fulfill(
                body=SCRIPT if script else page_of(desk.token),
                content_type="text/javascript" if script else "text/html",
                headers=head,
            )

        page.route("**/plan-of-a-test*", handed)
        page.goto(f"{desk.address}plan-of-a-test")
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
