"""Pictures of a heated floor in the browser: opened with how we know, moved sideways where the screen is narrow."""

from axe_playwright_python.sync_playwright import Axe
from playwright.sync_api import Page, expect
from served import Served
from test_heated_on_the_sheet import FLOOR, TUBE

from .sheets import opened

SURFACE = '[data-line="warm.surface"]'


def test_a_picture_opens_with_how_we_know_and_never_widens_a_phone_s_page(desk: Served, sheet_page: Page) -> None:
    sheet_page.emulate_media(color_scheme="dark")
    sheet_page.set_viewport_size({"width": 360, "height": 800})
    opened(desk, sheet_page, FLOOR + TUBE)
    sheet_page.locator(".answered details > summary").click()
    assert sheet_page.locator(".known svg").count() == 0
    sheet_page.locator(SURFACE).click()
    shown = sheet_page.locator(f"li:has({SURFACE}) .shown")
    expect(shown.locator("svg")).to_have_attribute("role", "img")
    expect(shown).to_contain_text("Between two tubes")
    assert sheet_page.evaluate("document.documentElement.scrollWidth") == 360
    assert shown.evaluate("e => e.scrollWidth > e.clientWidth && e.tabIndex === 0")
    assert not Axe().run(sheet_page).response["violations"]
    sheet_page.locator(SURFACE).click()
    expect(sheet_page.locator(".known svg")).to_have_count(0)
