"""The machine's own browser, driven by Playwright: one for all tests of this folder, a fresh context for each test.

It is closed before other tests go on: while Playwright drives it, asyncio takes the thread for busy.
"""

import os
import shutil
from collections.abc import Iterator

import pytest
from playwright.sync_api import Browser, Page, Playwright, sync_playwright
from served import Served

NAMES = ("chromium", "chromium-browser", "google-chrome-stable", "google-chrome")
ARGUMENTS = [
    "--no-sandbox",
    "--disable-gpu",
    "--disable-background-networking",
    "--disable-component-update",
    "--disable-sync",
    "--no-first-run",
]


@pytest.fixture(scope="package")
def playwright() -> Iterator[Playwright]:
    with sync_playwright() as driver:
        yield driver


@pytest.fixture(scope="package")
def browser(playwright: Playwright) -> Iterator[Browser]:
    found = next(filter(None, map(shutil.which, NAMES)), None)
    if found is None:
        words = "No browser here: install Chromium to see the desk's page tried in one."
        if os.environ.get("CI") == "true":
            pytest.fail(words)
        pytest.skip(words)
    opened = playwright.chromium.launch(executable_path=found, args=ARGUMENTS)
    yield opened
    opened.close()


@pytest.fixture
def sheet_page(browser: Browser, desk: Served) -> Iterator[Page]:
    """A page 1440 px wide that is not opened yet: ``sheet_page.goto(desk.address)``.

    What breaks in its script, and what the content policy holds back, is held against the test at its end.
    """
    context = browser.new_context(viewport={"width": 1440, "height": 900}, accept_downloads=True, locale="en-US")
    page = context.new_page()
    page.set_default_timeout(20_000)
    broken: list[str] = []
    page.on("pageerror", lambda cause: broken.append(str(cause)))
    page.on("console", lambda said: broken.append(said.text) if "Content Security Policy" in said.text else None)
    yield page
    context.close()
    assert not broken, broken
