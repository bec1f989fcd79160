"""From an empty book to a paper, and what is put in and taken out on the way: layers, foam at an edge, alternatives."""

import io
import re
import tomllib

import pytest
from playwright.sync_api import Browser, Page, expect
from pypdf import PdfReader
from served import Served, until

from .sheets import DEMO, FOAM, kept, opened, text_of, type_in

WORKSHOP_FOAM = "floor.build-up.3.thickness"


@pytest.fixture(scope="module")
def desk(tmp_path_factory):
    """One desk for all of these tests."""
    served = Served(tmp_path_factory.mktemp("nothing") / "desk.book")
    yield served
    served.stop()


@pytest.fixture
def sheet(desk, sheet_page) -> Page:
    return opened(desk, sheet_page, DEMO)


def test_from_an_empty_book_to_a_pdf(desk, sheet_page):
    """Begun from a use, with a place, a side of the plan and a layer typed over; the paper is taken down and read."""
    page = sheet_page
    page.goto(desk.address)
    page.get_by_role("button", name="workshop", exact=True).click()
    page.wait_for_url(re.compile("/briefs/\\d+$"))
    page.wait_for_selector("body[data-stage=whole]", timeout=60_000)
    type_in(page, "site.place", "Fargo, ND")
    type_in(page, WORKSHOP_FOAM, "3 in")
    page.locator("button.plan").click()
    page.locator("up-plan [data-key='side-0-1']").first.focus()
    page.keyboard.type("41 ft")
    page.keyboard.press("Enter")
    until(lambda: "41" in tomllib.loads(kept(desk, page))["plan"]["outline"][1])
    page.locator("#plan-away").click()
    page.wait_for_selector("body[data-stage=whole]:not(.working)", timeout=60_000)
    text = text_of(page)
    page.locator("#hand-over").click()
    page.get_by_role("button", name="one page").click()
    link = page.get_by_role("link", name="open the one page")
    expect(link).to_be_visible(timeout=60_000)
    with page.expect_download() as loaded:
        page.evaluate("(link) => { link.removeAttribute('target'); link.click(); }", link.element_handle())
    paper = PdfReader(io.BytesIO(loaded.value.path().read_bytes()))
    words = " ".join(each.extract_text() for each in paper.pages)
    assert "Fargo" in words
    assert "3 in" in words.replace("\u2009", " ")
    assert kept(desk, page) == text


def test_a_layer_is_put_in_and_taken_out_by_a_press_and_by_keys(sheet):
    put = sheet.locator("#drawing .put-in").nth(2)
    expect(put).to_have_attribute("aria-label", re.compile("over Gravel"))
    put.select_option(label="sand")
    expect(sheet.locator(".rows li")).to_have_count(5)
    assert '{ sand = "2 in" },\n  { gravel' in text_of(sheet)
    out = sheet.get_by_role("button", name="Take out Sand")
    out.focus()
    sheet.keyboard.press("Enter")
    expect(sheet.locator(".rows li")).to_have_count(4)
    assert text_of(sheet) == DEMO


def test_foam_is_put_in_at_an_edge_and_taken_out(sheet):
    sheet.locator("#edge-sentence .put-in").select_option(label="outside")
    expect(sheet.locator('#edge-sentence [data-path="edge.A.insulation.3.thickness"]')).to_have_value("2 in")
    sheet.get_by_role("button", name="Take out the foam on the outside").click()
    expect(sheet.locator('#edge-sentence [data-path="edge.A.insulation.3.thickness"]')).to_have_count(0)
    assert text_of(sheet) == DEMO


def test_an_alternative_is_put_beside_the_others_and_taken_out(sheet):
    strip = sheet.locator("#strip .bring")
    expect(strip).to_have_count(3)
    sheet.locator("#strip .put-in").select_option(label="2-1/2 in of foam")
    expect(strip).to_have_count(4, timeout=30_000)
    expect(strip.last).to_contain_text("2-1/2 in of foam")
    sheet.get_by_role("button", name="Take out 2-1/2 in of foam").click()
    expect(strip).to_have_count(3, timeout=30_000)
    assert tomllib.loads(text_of(sheet)) == tomllib.loads(DEMO)


def test_foam_at_the_wall_is_drawn_thicker_by_hand_and_thinner_by_keys(sheet):
    path = "edge.A.insulation.1.thickness"
    grip = sheet.locator(f'.grip[data-path="{path}"]')
    box = grip.bounding_box()
    x, y = box["x"] + box["width"] / 2, box["y"] + box["height"] / 2
    sheet.mouse.move(x, y)
    sheet.mouse.down()
    for step in range(1, 5):
        sheet.mouse.move(x + 3 * step, y)
    sheet.mouse.up()
    field = sheet.locator(f'#edge-sentence .field[data-path="{path}"]')
    expect(field).not_to_have_value("2 in")
    assert field.input_value() in ("2-1/2 in", "3 in", "4 in")
    sheet.locator("#undo").click()
    expect(field).to_have_value("2 in")
    grip.focus()
    sheet.keyboard.press("ArrowLeft")
    expect(field).to_have_value("1-1/2 in")


def test_a_telephone_has_keys_for_units_beside_its_number_pad(desk: Served, browser: Browser):
    context = browser.new_context(viewport={"width": 360, "height": 740}, has_touch=True, is_mobile=True)
    page = opened(desk, context.new_page(), DEMO)
    try:
        field = page.locator(f'.field[data-path="{FOAM}"]:visible').first
        assert field.get_attribute("inputmode") == "decimal"
        field.tap()
        page.keyboard.type("0")
        for key in ("ft", "space"):
            page.locator(".pad").get_by_role("button", name=key, exact=True).tap()
        page.keyboard.type("3")
        page.locator(".pad").get_by_role("button", name="in", exact=True).tap()
        assert field.input_value() == "0 ft 3 in"
        field.press("Enter")
        until(lambda: "0 ft 3 in" in kept(desk, page))
        assert page.locator('.field[data-path="project.use"]').get_attribute("inputmode") is None
    finally:
        context.close()
