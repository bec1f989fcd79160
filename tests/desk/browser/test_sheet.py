"""The sheet in a browser: typed over where it stands, dragged, read, turned over."""

import re
from pathlib import Path

import pytest
from playwright.sync_api import Page, expect
from served import Served, until

from .sheets import DEMO, FOAM, corner, kept, opened, text_of, type_in


@pytest.fixture(scope="module")
def desk(tmp_path_factory):
    """One desk for all of these tests: the same text is worked out once."""
    served = Served(tmp_path_factory.mktemp("sheet") / "desk.book")
    yield served
    served.stop()


@pytest.fixture
def sheet(desk, sheet_page) -> Page:
    """The demo brief, wholly answered."""
    return opened(desk, sheet_page, DEMO)


def test_a_typed_thickness_moves_drawing_and_answers_and_stays_as_typed(desk, sheet):
    before = corner(sheet)
    loses = sheet.locator("#strip li").first.inner_text()
    type_in(sheet, FOAM, "3 in")
    expect(sheet.locator("#drawing .over")).not_to_have_attribute("aria-label", before)
    expect(sheet.locator("#strip li").first).not_to_have_text(loses, timeout=60_000)
    line = '{ board = "plain-15", thickness = "2 in" },\n  { gravel'
    assert text_of(sheet) == DEMO.replace(line, line.replace("2 in", "3 in"))


def test_feet_and_inches_are_taken_and_no_change_of_units_touches_them(sheet):
    type_in(sheet, "edge.A.depth", "1' 4 1/2\"")
    until(lambda: "1' 4 1/2" in text_of(sheet))
    typed = text_of(sheet)
    sheet.locator("#units").click()
    expect(sheet.locator("#units")).to_have_text("read in inches and °F")
    expect(sheet.locator("#drawing .over")).to_have_attribute("aria-label", re.compile("°C"))
    assert text_of(sheet) == typed.replace('units = "US"', 'units = "SI"')


def test_a_layer_is_dragged_thicker_and_taken_back(sheet):
    grip = sheet.locator(f'.grip[data-path="{FOAM}"]')
    grip.scroll_into_view_if_needed()
    box = grip.bounding_box()
    x, y = box["x"] + box["width"] * 0.8, box["y"] + box["height"] / 2
    sheet.mouse.move(x, y)
    sheet.mouse.down()
    for step in range(1, 6):
        sheet.mouse.move(x, y + 4 * step)
    sheet.mouse.up()
    expect(sheet.locator(f'.rows .field[data-path="{FOAM}"]')).not_to_have_value("2 in")
    assert sheet.locator(f'.rows .field[data-path="{FOAM}"]').input_value() != ""
    sheet.locator("#undo").click()
    expect(sheet.locator(f'.rows .field[data-path="{FOAM}"]')).to_have_value("2 in")
    assert text_of(sheet) == DEMO


def test_a_layer_is_made_thicker_by_the_arrow_keys(sheet):
    grip = sheet.locator(f'.grip[data-path="{FOAM}"]')
    grip.focus()
    sheet.keyboard.press("ArrowDown")
    expect(sheet.locator(f'.rows .field[data-path="{FOAM}"]')).not_to_have_value("2 in")


def test_a_wrong_word_is_told_where_it_stands_and_the_sheet_stays(sheet):
    type_in(sheet, FOAM, "2")
    expect(sheet.locator("#mistakes")).to_contain_text("2 of what?")
    expect(sheet.locator(f'.rows .field[data-path="{FOAM}"]')).to_have_attribute("aria-invalid", "true")
    assert sheet.locator("#answers li").count() > 3
    type_in(sheet, FOAM, "2 in")
    expect(sheet.locator("#mistakes")).to_be_hidden()


def test_a_month_is_pressed_and_pressed_again_for_the_mean(sheet):
    july = sheet.get_by_role("button", name="July")
    july.click()
    expect(sheet.locator("#months output")).to_have_text("in the middle of July")
    expect(july).to_have_attribute("aria-pressed", "true")
    warm = until(lambda: (label := corner(sheet)) and "64.3" not in label and label)
    july.click()
    expect(sheet.locator("#months output")).to_have_text("mean of the year")
    expect(sheet.locator("#drawing .over")).not_to_have_attribute("aria-label", warm)


def test_the_cross_is_moved_by_keys_and_spoken(sheet):
    sheet.locator(".paper").focus()
    sheet.keyboard.press("Home")
    expect(sheet.locator("#spoken")).to_contain_text("°F")
    first = sheet.locator("#spoken").inner_text()
    for _ in range(4):
        sheet.keyboard.press("ArrowDown")
    expect(sheet.locator("#spoken")).not_to_have_text(first)
    expect(sheet.locator("#spoken")).to_contain_text("below the floor's top")


def test_an_alternative_is_brought_up_and_held_against_the_brief(sheet):
    sheet.locator("#strip .bring", has_text="no foam").click()
    expect(sheet.locator("#head")).to_contain_text("no foam")
    expect(sheet.locator("#counted")).to_contain_text("fall short")
    assert sheet.locator("#drawing input.field").count() == 0, "an alternative is not typed over here"
    sheet.locator("#strip .bring", has_text="as briefed").click(modifiers=["Shift"])
    expect(sheet.locator("#head")).to_contain_text("against as briefed")
    expect(sheet.locator("#scale")).to_contain_text("warmer than as briefed")


def test_an_answer_opens_in_place_to_its_steps_and_sources(sheet):
    sheet.locator("#answers details summary").click()
    how = sheet.locator("#answers .how").nth(1)
    how.click()
    opened_line = sheet.locator("#answers li.answer:has(.known)")
    assert opened_line.locator(".known").inner_text()
    assert opened_line.locator(".how").get_attribute("aria-expanded") == "true"


def test_an_assumption_is_overwritten_where_it_stands(sheet):
    sheet.locator("#assumed summary").click()
    first = sheet.locator("#assumed li").first
    path = first.locator("code").inner_text()
    many = sheet.locator("#assumed li").count()
    assert path.split(".")[0] in ("site", "foam", "floor", "edge")
    field = sheet.locator('.field[data-path="site.water-table"]')
    field.fill("9 ft")
    field.press("Enter")
    until(lambda: 'water-table = "9 ft"' in text_of(sheet))
    assert 'water-table = "9 ft"' in text_of(sheet)
    assert many >= 1


def test_the_text_on_the_back_goes_out_and_comes_in_without_loss(sheet, tmp_path):
    sheet.locator("footer .turn-over").click()
    with sheet.expect_download() as taken:
        sheet.locator("#download").click()
    assert Path(taken.value.path()).read_text(encoding="utf-8") == DEMO
    other = DEMO.replace('inside          = "20 C"', 'inside          = "18 C"  # Ünruhig ✓')
    sheet.locator("#text").fill(other)
    expect(sheet.locator("#undo")).to_be_enabled()
    file = tmp_path / "other.toml"
    file.write_text(DEMO, encoding="utf-8")
    sheet.locator("#upload").set_input_files(str(file))
    expect(sheet.locator("#text")).to_have_value(DEMO)
    sheet.locator("#undo").click()
    expect(sheet.locator("#text")).to_have_value(other)


def test_the_reply_is_three_sentences(sheet):
    sheet.locator("#hand-over").click()
    words = sheet.locator(".sentences")
    expect(words).to_contain_text("Minneapolis", timeout=60_000)
    assert len(re.findall(r"[.!?](?:\s|$)", words.inner_text())) >= 3


def test_what_is_typed_is_kept_in_the_book(desk, sheet):
    type_in(sheet, "project.title", "Lake house")
    expect(sheet.locator("#state")).to_contain_text("Kept, revision 2", timeout=60_000)
    assert 'title = "Lake house"' in kept(desk, sheet)


def test_the_plan_fills_the_sheet_and_gives_it_back(sheet):
    sheet.locator("button.plan").click()
    expect(sheet.locator("up-plan")).to_be_visible()
    expect(sheet.locator("#drawn")).to_be_hidden()
    sheet.locator("#plan-away").click()
    expect(sheet.locator("#drawn")).to_be_visible()


def test_the_submittal_is_made_from_the_page(desk, sheet):
    sheet.locator("#hand-over").click()
    sheet.get_by_role("button", name="submittal", exact=True).click()
    link = sheet.get_by_role("link", name="open the submittal")
    expect(link).to_be_visible(timeout=120_000)
    paper = desk.ask("GET", link.get_attribute("href"))
    assert paper.content.startswith(b"%PDF-")


def test_the_demo_has_five_notes_in_its_margin_until_they_are_put_away(desk, sheet_page):
    sheet_page.goto(desk.address)
    sheet_page.get_by_role("button", name="Open the demo").click()
    notes = sheet_page.locator("#notes")
    expect(notes.locator("li")).to_have_count(5)
    sheet_page.get_by_role("button", name="put these notes away").click()
    expect(notes).to_be_hidden()
    sheet_page.reload()
    sheet_page.wait_for_selector("body[data-stage]")
    expect(notes).to_be_hidden()


def test_a_line_that_the_hand_comes_near_is_made_ready_once(sheet):
    wished = []
    sheet.on("request", lambda each: wished.append(each.post_data_json["path"]) if "/api/ahead" in each.url else None)
    grip = sheet.locator(f'.grip[data-path="{FOAM}"]')
    grip.hover()
    grip.focus()
    until(lambda: wished)
    sheet.wait_for_timeout(200)
    assert wished == [FOAM]


def test_what_would_decide_says_how_far_it_is_and_is_stopped_and_taken_up(desk, sheet_page):
    """How long it takes is the machine's; here the desk says what it says on the way."""
    on_the_way = {"state": "working", "done": 3, "of": 13, "decides": False, "questions": [], "mistakes": []}
    sheet_page.route("**/api/ask", lambda route: route.fulfill(json=on_the_way))
    sheet = opened(desk, sheet_page, DEMO)
    margin = sheet.locator("#questions")
    expect(margin).to_contain_text("3 of 13 tried")
    margin.get_by_role("button", name="stop").click()
    expect(margin).to_contain_text("Stopped")
    sheet.wait_for_timeout(300)
    expect(margin).to_contain_text("Stopped")
    sheet_page.unroute("**/api/ask")
    margin.get_by_role("button", name="work it out").click()
    expect(margin.locator("ol li").first).to_be_visible(timeout=60_000)
