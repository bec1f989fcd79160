"""The list of briefs in a browser: begun, found, copied, set aside, taken up, taken in from a file."""

from playwright.sync_api import expect

from underpour.starters import demo_text


def rows(page):
    return page.locator("#rows tbody tr")


def test_the_demo_opens_from_an_empty_book(desk, sheet_page):
    sheet_page.goto(desk.address)
    sheet_page.get_by_role("button", name="Open the demo").click()
    sheet_page.wait_for_url("**/briefs/1")
    assert desk.book.kept(1).text == demo_text()


def test_a_use_begins_a_brief_and_it_stands_in_the_list(desk, sheet_page):
    sheet_page.goto(desk.address)
    sheet_page.get_by_role("button", name="garage", exact=True).click()
    sheet_page.wait_for_url("**/briefs/1")
    sheet_page.goto(desk.address)
    expect(rows(sheet_page)).to_have_count(1)
    expect(rows(sheet_page).first).to_contain_text("garage")


def test_a_search_finds_while_one_types_and_says_where_nothing_is(desk, sheet_page):
    for place in ("Duluth, MN", "Halifax, NS"):
        desk.begin(f'[project]\ntitle = "Shed"\nuse = "workshop"\n[site]\nplace = "{place}"\n')
    sheet_page.goto(desk.address)
    expect(rows(sheet_page)).to_have_count(2)
    expect(rows(sheet_page).first).to_contain_text("Halifax")  # newest first
    sheet_page.get_by_role("searchbox").fill("DULUTH shed")
    expect(rows(sheet_page)).to_have_count(1)
    sheet_page.get_by_role("searchbox").fill("100%")
    expect(sheet_page.locator("#rows")).to_contain_text("No brief has “100%”")


def test_set_aside_and_taken_up_again(desk, sheet_page):
    desk.begin('[project]\ntitle = "Shed"\n')
    sheet_page.goto(desk.address)
    sheet_page.get_by_role("button", name="Set Shed aside").click()
    expect(sheet_page.locator("#rows")).to_contain_text("Nothing asked yet")
    sheet_page.goto(desk.address + "?aside=true")
    sheet_page.get_by_role("button", name="Take up Shed again").click()
    expect(sheet_page.locator("#rows")).to_contain_text("Nothing is set aside")
    assert len(desk.book.listed()) == 1


def test_a_copy_says_of_what(desk, sheet_page):
    desk.begin('[project]\ntitle = "Shed"\n')
    sheet_page.goto(desk.address)
    sheet_page.get_by_role("button", name="Copy Shed").click()
    sheet_page.wait_for_url("**/briefs/2")
    sheet_page.goto(desk.address)
    expect(rows(sheet_page).first).to_contain_text("copy of No. 1")


def test_an_earlier_text_is_taken_up_from_the_history(desk, sheet_page):
    number = desk.begin('[project]\ntitle = "Shed"\n')
    desk.ask("PUT", f"/api/briefs/{number}", json={"brief": '[project]\ntitle = "Barn"\n', "version": 1})
    sheet_page.goto(f"{desk.address}briefs/{number}/history")
    expect(sheet_page.locator("tbody tr")).to_have_count(2)
    sheet_page.get_by_role("button", name="take up again").click()
    sheet_page.wait_for_url(f"**/briefs/{number}")
    assert desk.book.kept(number).line.heading.title == "Shed"
    assert desk.book.kept(number).line.version == 3


def test_a_file_is_taken_in_and_one_that_is_no_brief_is_told(desk, sheet_page, tmp_path):
    good, bad, other = tmp_path / "good.toml", tmp_path / "bad.toml", tmp_path / "other.toml"
    good.write_text('[project]\ntitle = "From a file"\n', encoding="utf-8")
    bad.write_text("thickness = 2 in\n", encoding="utf-8")
    other.write_bytes(b"\xff\xfe\x00")
    sheet_page.goto(desk.address)
    sheet_page.set_input_files("#import", bad)
    expect(sheet_page.locator("#refused")).to_contain_text("Line 1: There is more on this line than one value.")
    sheet_page.set_input_files("#import", other)
    expect(sheet_page.locator("#refused")).to_contain_text("This file is not text in UTF-8.")
    assert desk.book.listed() == ()
    sheet_page.set_input_files("#import", good)
    sheet_page.wait_for_url("**/briefs/1")
    assert desk.book.kept(1).text == '[project]\ntitle = "From a file"\n'


def test_markup_in_a_title_stays_text(desk, sheet_page):
    desk.begin("[project]\ntitle = \"<img src=x onerror='document.title=1'>&amp;\"\n")
    sheet_page.goto(desk.address)
    expect(rows(sheet_page).first.get_by_role("link").first).to_have_text("<img src=x onerror='document.title=1'>&amp;")
    assert sheet_page.locator("#rows img").count() == 0


def test_words_where_the_desk_was_closed(desk, sheet_page):
    desk.begin('[project]\ntitle = "Shed"\n')
    sheet_page.goto(desk.address)
    desk.stop()
    sheet_page.get_by_role("button", name="Open the demo").click()
    expect(sheet_page.locator("#refused")).to_contain_text("The desk does not answer.")
    desk.start()
    sheet_page.get_by_role("button", name="Open the demo").click()
    sheet_page.wait_for_url("**/briefs/2")


def test_the_list_is_pressed_through_with_the_keyboard(desk, sheet_page):
    desk.begin('[project]\ntitle = "Shed"\n')
    sheet_page.goto(desk.address)
    names = []
    for _ in range(7):
        sheet_page.keyboard.press("Tab")
        names.append(sheet_page.evaluate("document.activeElement.ariaLabel || document.activeElement.innerText"))
    assert names[2:6] == ["Shed", "Copy Shed", "History of Shed", "Set Shed aside"]
    assert names[6] == "Open the demo"


def test_axe_finds_no_fault_in_the_list(desk, sheet_page):
    from axe_playwright_python.sync_playwright import Axe

    desk.begin('[project]\ntitle = "Shed"\nuse = "workshop"\n')
    for address in ("", "?aside=true", "briefs/1/history", "briefs/9"):
        sheet_page.goto(desk.address + address)
        for scheme in ("light", "dark"):
            sheet_page.emulate_media(color_scheme=scheme)
            found = Axe().run(sheet_page)
            assert found.violations_count == 0, found.generate_report()
