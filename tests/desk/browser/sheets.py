"""A sheet opened, and what stands on it."""

from pathlib import Path

from playwright.sync_api import Page
from served import Served

DEMO = (Path(__file__).parents[3] / "examples" / "daylight-basement" / "brief.toml").read_text(encoding="utf-8")
FOAM = "floor.build-up.2.thickness"


def opened(desk: Served, page: Page, text: str) -> Page:
    number = desk.begin(text)
    page.goto(f"{desk.address}briefs/{number}")
    page.wait_for_selector("body[data-stage=whole]", timeout=60_000)
    return page


def kept(desk: Served, page: Page) -> str:
    """The brief's text as the book has it."""
    return desk.ask("GET", f"/api/briefs/{page.url.rsplit('/', 1)[1]}").json()["brief"]


def text_of(page: Page) -> str:
    """The brief's text as it stands on the back of the sheet."""
    page.locator("footer .turn-over").click()
    text = page.locator("#text").input_value()
    page.locator("footer .turn-over").click()
    return text


def type_in(page: Page, path: str, words: str) -> None:
    field = page.locator(f'.field[data-path="{path}"]:visible').first
    field.fill(words)
    field.press("Enter")


def corner(page: Page) -> str:
    return page.locator("#drawing .over").get_attribute("aria-label")
