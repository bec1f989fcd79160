"""The page opens, and nothing in it breaks."""


def test_the_list_of_an_empty_book_teaches_what_to_do(desk, sheet_page):
    sheet_page.goto(desk.address)
    assert "Nothing asked yet" in sheet_page.inner_text("main")


def test_a_brief_opens_as_a_sheet(desk, sheet_page):
    number = desk.begin('[project]\ntitle = "North <b>shore</b>"\n')
    sheet_page.goto(f"{desk.address}briefs/{number}")
    assert sheet_page.locator("main:visible").count() == 1
