"""Nothing that was typed is lost: slow network, no network, a desk that was closed, two at one brief."""

import pytest
from playwright.sync_api import expect
from served import Served

from .sheets import DEMO, FOAM, kept, opened, text_of, type_in


@pytest.fixture(scope="module")
def desk(tmp_path_factory):
    served = Served(tmp_path_factory.mktemp("kept-safe") / "desk.book")
    yield served
    served.stop()


def test_a_late_answer_is_dropped(desk, sheet_page):
    sheet = opened(desk, sheet_page, DEMO)
    held = []

    def slowly(route):
        if not held and '"3 in"' in (route.request.post_data or "").replace("\\", ""):
            held.append(route)  # this answer comes after all others
        else:
            route.continue_()

    sheet.route("**/api/answer", slowly)
    type_in(sheet, FOAM, "3 in")
    for _ in range(100):
        if held:
            break
        sheet.wait_for_timeout(50)
    type_in(sheet, FOAM, "4 in")
    sheet.evaluate(
        """() => {
          window.seen = [];
          const rows = document.querySelector('.rows');
          new MutationObserver(() => seen.push(rows.textContent)).observe(rows, { childList: true, subtree: true });
        }"""
    )
    sheet.wait_for_timeout(1000)  # until the words are in the text
    held[0].continue_()
    expect(sheet.locator(".rows li", has_text="Marlpit")).to_contain_text("(102")
    assert sheet.locator(f'.rows .field[data-path="{FOAM}"]').input_value() == "4 in"
    drawn = [words for words in sheet.evaluate("seen") if "(76" in words]
    assert not drawn, "the answer to 3 in was drawn after 4 in was typed"


def test_a_desk_that_is_closed_and_back_goes_on_with_what_was_typed(desk, sheet_page):
    sheet = opened(desk, sheet_page, DEMO)
    desk.stop()
    sheet.locator("footer .turn-over").click()
    changed = DEMO.replace('title = "Daylight basement', 'title = "Lake basement')
    sheet.locator("#text").fill(changed)
    expect(sheet.locator("#state")).to_contain_text("does not answer")
    desk.start()
    expect(sheet.locator("#state")).to_contain_text("Kept, revision 2", timeout=60_000)
    assert kept(desk, sheet) == changed


def test_what_was_not_kept_outlives_the_window_loaded_anew(desk, sheet_page):
    sheet = opened(desk, sheet_page, DEMO)
    sheet.route("**/api/briefs/*", lambda route: route.abort())
    sheet.locator("footer .turn-over").click()
    changed = DEMO.replace('title = "Daylight basement', 'title = "Lake basement')
    sheet.locator("#text").fill(changed)
    expect(sheet.locator("#state")).to_contain_text("does not answer", timeout=60_000)
    sheet.unroute("**/api/briefs/*")
    sheet.reload()
    expect(sheet.locator("#title .field")).to_have_value("Lake basement, three ways to end the foam")
    assert text_of(sheet) == changed


def test_two_at_one_brief_are_asked_which_stays(desk, sheet_page):
    sheet = opened(desk, sheet_page, DEMO)
    number = int(sheet.url.rsplit("/", 1)[1])
    theirs = DEMO.replace('title = "Daylight', 'title = "Their')
    desk.ask("PUT", f"/api/briefs/{number}", json={"brief": theirs, "version": 1})
    type_in(sheet, "project.title", "Ours")
    expect(sheet.locator("#raced")).to_contain_text("Keep theirs, keep yours, or see both", timeout=60_000)
    sheet.get_by_role("button", name="see both").click()
    expect(sheet.locator("#raced pre").first).to_contain_text("Their")
    sheet.get_by_role("button", name="keep yours").click()
    expect(sheet.locator("#state")).to_contain_text("Kept, revision 3", timeout=60_000)
    assert 'title = "Ours"' in kept(desk, sheet)
