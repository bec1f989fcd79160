"""Choose for me, in a browser: by keys, put beside the brief, told below the strip, taken back in one step."""

import tomllib
from pathlib import Path

import pytest
from axe_playwright_python.sync_playwright import Axe
from playwright.sync_api import Page, expect
from served import Served, until

from .sheets import kept, opened, text_of, type_in

ROOT = Path(__file__).parents[3]
BRIEF = (ROOT / "examples" / "frost-wall-workshop" / "brief.toml").read_text(encoding="utf-8")
LONG = 120_000  # ms: a choice and the answers of what it puts in, on a busy machine


@pytest.fixture(scope="module")
def desk(tmp_path_factory):
    served = Served(tmp_path_factory.mktemp("choose") / "desk.book")
    yield served
    served.stop()


def chosen(sheet: Page) -> None:
    """Chosen by keys, and everything that was put in answered."""
    act = sheet.get_by_role("button", name="Choose for me")
    act.focus()
    act.press("Enter")
    expect(sheet.locator("#choice .says").first).to_be_visible(timeout=LONG)
    expect(sheet.locator('#strip .bring[data-version="bare slab"]')).to_be_visible(timeout=LONG)


def test_what_is_chosen_stands_beside_the_brief_and_one_undo_takes_it_back(desk, sheet_page):
    sheet = opened(desk, sheet_page, BRIEF)
    chosen(sheet)
    names = [each.get_attribute("data-version") for each in sheet.locator("#strip .bring").all()]
    assert names[:3] == ["as briefed", "wrapped outside", "three inches below"]
    assert names[3].startswith("recommended") and names[-1] == "bare slab"
    expect(sheet.locator("#choosing")).to_contain_text("Yours stay as they are: “wrapped outside”")
    expect(sheet.locator("#chosen .caution").first).to_contain_text("A recommendation is not a design.")
    refused = sheet.locator("#choice .refused > li", has_text="under the floor, no foam at the edge").first
    expect(refused).to_contain_text("product.belongs")
    sheet.get_by_role("button", name="where the brief stands: Depth that the build-up needs").first.press("Enter")
    expect(sheet.locator(":focus")).to_have_attribute("data-line", "height.depth")
    until(lambda: "recommended" in kept(desk, sheet))
    assert [each["name"] for each in tomllib.loads(kept(desk, sheet))["alternative"]] == names[1:]
    sheet.locator("#undo").click()
    expect(sheet.locator("#choosing")).not_to_contain_text("changed since")
    assert text_of(sheet) == BRIEF
    type_in(sheet, "floor.build-up.2.thickness", "3 in")
    expect(sheet.locator("#choosing")).to_contain_text("The brief was changed since.")


def test_it_can_be_stopped_and_the_brief_is_as_it_was(desk, sheet_page):
    sheet = opened(desk, sheet_page, BRIEF)
    sheet.get_by_role("button", name="Choose for me").click()
    stop = sheet.locator("#chosen").get_by_role("button", name="Stop", exact=False)
    stop.press("Enter")
    expect(sheet.locator("#choosing")).to_have_text("Stopped. Nothing was chosen, and the brief is as it was.")
    expect(sheet.locator("#chosen-head")).to_be_focused()
    assert text_of(sheet) == BRIEF


def test_what_is_typed_meanwhile_is_kept_and_nothing_is_put_in(desk, sheet_page):
    sheet = opened(desk, sheet_page, BRIEF)
    sheet.get_by_role("button", name="Choose for me").click()
    type_in(sheet, "floor.build-up.2.thickness", "3 in")
    expect(sheet.locator("#choice .says").first).to_be_visible(timeout=LONG)
    expect(sheet.locator("#choosing")).to_contain_text("You typed while this was chosen")
    assert text_of(sheet) == BRIEF.replace('"2 in" }', '"3 in" }', 1)


def test_a_brief_that_cannot_be_used_is_told_with_its_line(desk, sheet_page):
    sheet = opened(desk, sheet_page, BRIEF)
    type_in(sheet, "floor.build-up.2.thickness", "2 apples")
    expect(sheet.locator("#mistakes")).to_be_visible()
    sheet.get_by_role("button", name="Choose for me").click()
    expect(sheet.locator("#chosen")).to_contain_text(
        "The brief has to be mended before anything can be chosen.", timeout=LONG
    )
    sheet.locator("#choice li button").first.click()
    expect(sheet.locator("#text")).to_be_focused()


def test_axe_finds_no_fault_and_nothing_sticks_out_on_a_telephone(desk, sheet_page):
    sheet_page.set_viewport_size({"width": 360, "height": 740})
    sheet = opened(desk, sheet_page, BRIEF)
    chosen(sheet)
    for summary in sheet.locator("#chosen summary").all():
        summary.click()
    for theme in ("light", "dark"):
        sheet.emulate_media(color_scheme=theme)
        found = Axe().run(sheet).response["violations"]
        assert not found, [(v["id"], v["nodes"][0]["html"]) for v in found]
    assert sheet.evaluate("document.documentElement.scrollWidth") <= 360
    small = sheet.evaluate(
        "[...document.querySelectorAll('.for-me, #chosen button, #chosen summary')]"
        ".filter((b) => b.getBoundingClientRect().height < 43.5).map((b) => b.outerHTML)"
    )
    assert not small, small[:3]
