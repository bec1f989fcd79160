"""What an answer lacks, typed where it is told; what it rests on, typed over where it is opened."""

import tomllib

import pytest
from playwright.sync_api import Page, expect
from served import Served, until
from test_entries import BRIEF

from .sheets import kept, opened


@pytest.fixture(scope="module")
def desk(tmp_path_factory):
    served = Served(tmp_path_factory.mktemp("answers") / "desk.book")
    yield served
    served.stop()


@pytest.fixture
def sheet(desk, sheet_page) -> Page:
    return opened(desk, sheet_page, BRIEF)


def line(sheet, title):
    return sheet.locator("#answers li.answer", has=sheet.locator(".name", has_text=title)).first


def test_a_measure_that_is_lacking_is_typed_at_its_answer_which_then_tells(desk, sheet):
    lacking = sheet.locator('#answers .missing .field[data-path="floor.available-depth"]').first
    expect(sheet.locator("#answers .missing").first).to_contain_text("For example")
    lacking.fill("18 in")
    lacking.press("Enter")
    expect(sheet.locator('#answers .missing .field[data-path="floor.available-depth"]')).to_have_count(
        0, timeout=60_000
    )
    until(lambda: 'available-depth = "18 in"' in kept(desk, sheet))
    assert 'available-depth = "18 in"' in kept(desk, sheet)


def test_a_word_that_is_lacking_is_chosen_from_those_that_there_are(desk, sheet):
    gas = BRIEF.replace('ground = "silty', 'soil-gas = "high"\nground = "silty')
    sheet = opened(desk, sheet, gas)
    system = sheet.locator('#answers .missing select[data-path="soil-gas.system"]').first
    expect(system.locator("option")).to_have_text(["not told", "none", "rough in", "passive", "fan"])
    system.select_option("fan")
    until(lambda: 'system = "fan"' in kept(desk, sheet))
    assert '[soil-gas]\nsystem = "fan"' in kept(desk, sheet)
    open_fire = sheet.locator('#answers .missing select[data-path="soil-gas.combustion"]').first
    open_fire.select_option("open", timeout=60_000)
    tested = sheet.locator('#answers .missing select[data-path="soil-gas.backdraught-tested"]').first
    tested.select_option("yes", timeout=60_000)
    until(lambda: "backdraught-tested = true" in kept(desk, sheet))
    assert "backdraught-tested = true" in kept(desk, sheet)


def test_a_list_is_typed_as_it_is_said_and_a_list_of_tables_as_it_is_written(desk, sheet):
    humid = sheet.locator('#answers .missing .field[data-path="site.humidity"]').first
    humid.fill("72 %")
    humid.press("Enter")
    until(lambda: "humidity" in kept(desk, sheet))
    assert 'humidity = ["72 %"]' in kept(desk, sheet)


def test_an_entry_of_a_list_goes_to_the_brief_when_nothing_of_it_is_lacking(desk, sheet):
    gas = BRIEF.replace('ground = "silty', 'soil-gas = "high"\nground = "silty')
    sheet = opened(desk, sheet, f'{gas}\n[soil-gas]\nsystem = "passive"\n')
    level = sheet.locator('#answers .missing .field[data-path="soil-gas.test.1.level"]').first
    level.fill("2.1 pCi/L")
    level.press("Enter")
    until(lambda: "[[soil-gas.test]]" in kept(desk, sheet))
    assert tomllib.loads(kept(desk, sheet))["soil-gas"]["test"] == [{"level": "2.1 pCi/L"}]


def test_what_an_answer_rests_on_is_typed_over_in_its_working(desk, sheet):
    sheet.locator("#answers details summary").click()
    how = sheet.locator("#answers li.answer:has(.name:has-text('Heat')) .how").first
    how.click()
    thick = sheet.locator('#answers .rests .field[data-path="floor.build-up.2.thickness"]').first
    expect(thick).to_have_value("2 in")
    thick.fill("3 in")
    thick.press("Enter")
    until(lambda: '"3 in"' in kept(desk, sheet))
    assert '{ board = "c578-vi", thickness = "3 in" }' in kept(desk, sheet)
    expect(sheet.locator('#answers .rests .field[data-path="floor.build-up.2.thickness"]').first).to_have_value("3 in")
    expect(sheet.locator("#answers li.answer:has(.known) .how").first).to_be_focused()


def test_what_a_paper_lacks_is_typed_where_it_is_told_and_the_paper_is_made(desk, sheet):
    sheet.locator("#hand-over").click()
    order = sheet.get_by_role("button", name="submittal", exact=True)
    order.click()
    number = sheet.locator('#handing .mend .field[data-path="handover.number"]')
    expect(number).to_be_visible(timeout=60_000)
    lacking = sheet.locator("#handing .mend .field")
    for path in [each.get_attribute("data-path") for each in lacking.all()]:
        field = sheet.locator(f'#handing .mend .field[data-path="{path}"]')
        field.fill({"handover.number": "26-0412"}.get(path, "Building office"))
        field.press("Enter")
    until(lambda: "Building office" in kept(desk, sheet))
    sheet.wait_for_selector("body[data-stage=whole]:not(.working)", timeout=60_000)
    order.click()
    expect(sheet.get_by_role("link", name="open the submittal")).to_be_visible(timeout=120_000)
    assert tomllib.loads(kept(desk, sheet))["handover"]["references"] == ["Building office"]
