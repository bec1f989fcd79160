"""The plan drawn and changed in a browser: by mouse, by keys, by touch."""

from __future__ import annotations

import pytest
from axe_playwright_python.sync_playwright import Axe
from plan_page import PlanPage
from served import Served

from underpour.brief.plans import floor_of
from underpour.brief.tables.plan import Plan
from underpour.desk import words
from underpour.toml_text import read_toml

FOOT = 0.3048
NOTHING = (
    '[project]\ntitle = "A workshop"\nuse   = "workshop"\nunits = "US"\n\n[[edge]]\nsides = "all"\nkind  = "raft"\n'
)
L_SHAPE = [(0, 0), (30, 0), (30, 12.5), (18, 12.5), (18, 24), (0, 24)]  # ft
DRAWN = NOTHING.replace(
    "[[edge]]", '[plan]\nunit = "ft"\noutline = ["0 0", "30 0", "30 12.5", "18 12.5", "18 24", "0 24"]\n\n[[edge]]'
)
TWO_EDGES = DRAWN.replace('"all"', "[1, 2, 3, 4, 5]") + '\n[[edge]]\nsides = [6]\nkind  = "free-edge"\n'

UNTRANSLATED = """(() => {
  const plan = document.querySelector('up-plan');
  const walk = document.createTreeWalker(plan, NodeFilter.SHOW_TEXT);
  const found = [];
  while (walk.nextNode()) {
    const { parentElement: by, data } = walk.currentNode;
    const measured = by.closest('.measure, .number, .letter, .mistakes, .letters, .edges b, [role=status]');
    if (!measured && /\\p{L}{2}/u.test(data) && !data.includes('\u29fc')) found.push(data);
  }
  for (const each of plan.querySelectorAll('[aria-label], [title]')) {
    const said = each.getAttribute('aria-label') ?? each.title;
    if (!said.includes('\u29fc')) found.push(said);
  }
  return found;
})()"""


@pytest.fixture(scope="module")
def desk(tmp_path_factory):
    served = Served(tmp_path_factory.mktemp("book") / "desk.book")
    yield served
    served.stop()


@pytest.fixture
def opened(browser, desk):
    contexts = []

    def open_(brief: str, **of_context) -> PlanPage:
        context = browser.new_context(**({"viewport": {"width": 1280, "height": 900}} | of_context))
        contexts.append(context)
        page = PlanPage(context.new_page(), desk, brief)
        pages.append(page)
        return page

    pages: list[PlanPage] = []
    yield open_
    faults = [fault for page in pages for fault in page.faults]
    for context in contexts:
        context.close()
    assert not faults


def outline(text: str) -> list[str]:
    return read_toml(text, "")["plan"]["outline"]


def area(text: str) -> float:
    return floor_of(Plan.model_validate(read_toml(text, "")["plan"])).area


def feet(*corner: float) -> tuple[float, float]:
    return corner[0] * FOOT, corner[1] * FOOT


def test_an_l_shape_drawn_by_mouse_and_one_drawn_by_keys_are_one_floor(opened):
    by_mouse = opened(NOTHING)
    by_mouse.page.get_by_role("button", name="draw the outline").click()
    for corner in [*L_SHAPE, L_SHAPE[0]]:
        by_mouse.press(*feet(*corner))
    by_keys = opened(NOTHING)
    by_keys.page.locator("up-plan svg.leaf").focus()
    by_keys.keys("Enter", "Enter")  # begin, and the first corner at the origin
    for arrow, typed in [
        ("ArrowRight", "30"),
        ("ArrowUp", "12 ft 6 in"),
        ("ArrowLeft", "12 ft"),
        ("ArrowUp", "11 ft 6 in"),
        ("ArrowLeft", "18'"),
    ]:
        by_keys.keys(arrow)
        by_keys.page.keyboard.type(typed)
        by_keys.keys("Enter")
    by_keys.page.get_by_role("button", name="close it").press("Enter")
    assert outline(by_mouse.text) == ["0 0", "30 0", "30 12.5", "18 12.5", "18 24", "0 24"]
    assert outline(by_keys.text) == ["0 0", "30 0", "30, 12 ft 6 in", "18, 12 ft 6 in", "18 24", "0 24"]
    assert area(by_mouse.text) == area(by_keys.text)
    assert area(by_mouse.text) == pytest.approx((30 * 12.5 + 18 * 11.5) * FOOT**2, rel=1e-14)
    assert by_mouse.area == by_keys.area
    assert by_mouse.page.evaluate("window.said.at(-1)") == by_mouse.text


def test_a_figure_typed_over_a_dimension_sets_the_side(opened):
    plan = opened(DRAWN)
    plan.choose("side-0-1")
    plan.page.keyboard.type("32 ft 7-1/2 in")
    plan.keys("Enter")
    assert outline(plan.text)[1:3] == ["32 ft 7-1/2 in, 0", "32 ft 7-1/2 in, 12.5"]
    assert "32 ft 7½ in" in plan.page.locator("up-plan [role=status]").inner_text().replace("\u2009", " ")


def test_words_that_are_no_length_are_told_and_change_nothing(opened):
    plan = opened(DRAWN)
    plan.choose("side-0-1")
    plan.page.keyboard.type("32 ft 7")
    plan.keys("Enter")
    assert plan.text == DRAWN
    field = plan.page.get_by_label("How long this side is")
    assert field.input_value() == "32 ft 7", "it stays to be mended"
    assert "7 of what?" in plan.page.locator("up-plan .mistakes").inner_text()
    assert "7 of what?" in plan.page.locator("up-plan [role=status]").inner_text()
    plan.page.keyboard.type(" in")
    plan.keys("Enter")
    assert outline(plan.text)[1] == "32 ft 7 in, 0"
    assert not plan.page.locator("up-plan .mistakes").inner_text()


def test_a_corner_goes_by_the_snap_one_more_is_put_in_and_taken_out_by_keys(opened):
    plan = opened(DRAWN)
    plan.choose("corner-0-2")
    plan.keys("ArrowRight", "ArrowRight", "ArrowDown")
    assert outline(plan.text)[1] == "31 -0.5"
    plan.keys("Control+z", "Control+z", "Control+z")
    assert plan.text == DRAWN
    plan.choose("side-0-1")
    plan.keys("Enter")
    assert outline(plan.text)[:3] == ["0 0", "15 0", "30 0"]
    assert plan.page.evaluate("document.activeElement.dataset.key") == "corner-0-2"
    plan.keys("Delete")
    assert plan.text == DRAWN


def test_a_side_is_dragged_parallel_to_itself(opened):
    plan = opened(DRAWN)
    plan.drag(feet(30, 6), feet(33.1, 7))
    assert outline(plan.text)[1:3] == ["33 0", "33 12.5"]


def test_a_dragged_corner_shows_the_floor_on_its_way_and_stays_only_when_left(opened):
    plan = opened(DRAWN)
    mouse = plan.page.mouse
    mouse.move(*plan.at(*feet(0, 24)))
    mouse.down()
    mouse.move(*plan.at(*feet(-4, 27)), steps=3)
    plan.until("document.querySelector('up-plan').preview !== null")
    assert plan.page.evaluate("document.querySelector('up-plan').text") == DRAWN
    mouse.up()
    assert outline(plan.text)[-1] == "-4 27"


def test_a_side_bows_out_by_its_middle_and_is_typed_straight_again(opened):
    plan = opened(DRAWN)
    plan.choose("side-0-6")
    plan.drag(feet(0, 12), feet(-3, 12))
    assert outline(plan.text)[-1] == "0 24 rise 3"
    field = plan.page.get_by_label("How far this side bows out")
    assert field.input_value() == "rise 3"
    field.fill("")
    field.press("Enter")
    assert plan.text == DRAWN


def test_a_hole_is_cut_by_mouse(opened):
    plan = opened(DRAWN)
    plan.page.get_by_role("button", name="cut a hole").click()
    for corner in [(4, 4), (8, 4), (8, 8), (4, 8), (4, 4)]:
        plan.press(*feet(*corner))
    assert read_toml(plan.text, "")["plan"]["hole"] == [{"outline": ["4 4", "8 4", "8 8", "4 8"]}]
    assert area(plan.text) == pytest.approx((30 * 12.5 + 18 * 11.5 - 16) * FOOT**2, rel=1e-14)
    plan.page.get_by_role("button", name="take the hole out").click()
    assert plan.text.rstrip() == DRAWN.rstrip()


def test_a_post_is_put_in_dragged_and_sized(opened):
    plan = opened(DRAWN)
    plan.page.get_by_label("stand a").select_option("post")
    plan.page.get_by_role("button", name="stand a").click()
    plan.press(*feet(6, 6))
    plan.drag(feet(6, 6), feet(9, 7))
    field = plan.page.get_by_label("Its diameter")
    field.fill("12 in x 16 in")
    field.press("Enter")
    assert read_toml(plan.text, "")["plan"]["obstacle"] == [{"kind": "post", "at": "9 7", "size": "12 in x 16 in"}]


def test_a_letter_gives_a_side_its_edge_and_the_next_letter_makes_one(opened):
    plan = opened(TWO_EDGES)
    plan.choose("side-0-5")
    plan.keys("b")
    assert [edge["sides"] for edge in read_toml(plan.text, "")["edge"]] == [[1, 2, 3, 4], [6, 5]]
    assert "edge B" in plan.page.locator("up-plan [role=status]").inner_text()
    plan.choose("side-0-1")
    plan.keys("c")
    edges = read_toml(plan.text, "")["edge"]
    assert [edge["sides"] for edge in edges] == [[2, 3, 4], [6, 5], [1]]
    assert edges[2]["kind"] == "raft"


def test_a_side_without_an_edge_is_dotted_and_said(opened):
    plan = opened(TWO_EDGES.replace("[1, 2, 3, 4, 5]", "[1, 2, 3, 4]"))
    assert plan.page.locator("up-plan svg.leaf path.bare").count() == 1
    assert "No edge has side 5" in plan.page.locator("up-plan .state .bare").inner_text()
    plan.page.locator('up-plan [data-key="side-0-5"]').focus()
    plan.page.get_by_role("button", name="give it to edge A").click()
    plan.settled()
    assert plan.page.locator("up-plan svg.leaf path.bare").count() == 0


def test_the_first_floor_is_drawn_with_a_finger(opened):
    plan = opened(NOTHING, viewport={"width": 360, "height": 740}, has_touch=True, is_mobile=True)
    plan.page.get_by_role("button", name="draw the outline").tap()
    for corner in [(0, 0), (20, 0), (20, 16), (0, 16)]:
        plan.page.touchscreen.tap(*plan.at(*feet(*corner)))
        plan.settled()
    plan.page.get_by_role("button", name="close it").tap()
    assert outline(plan.text) == ["0 0", "20 0", "20 16", "0 16"]
    small = plan.page.evaluate(
        """[...document.querySelectorAll('up-plan button, up-plan input, up-plan select')]
        .filter((each) => each.checkVisibility() && each.getBoundingClientRect().height < 44)
        .map((each) => each.outerHTML)"""
    )
    assert not small
    assert plan.page.evaluate("document.documentElement.scrollWidth") <= 360


@pytest.mark.parametrize("theme", ["light", "dark"])
def test_no_fault_is_found_for_those_who_do_not_see_or_point(opened, theme):
    plan = opened(TWO_EDGES.replace("[1, 2, 3, 4, 5]", "[1, 2, 3, 4]"), color_scheme=theme)
    plan.choose("side-0-2")
    found = Axe().run(plan.page).response["violations"]
    plan.page.get_by_role("button", name="cut a hole").click()
    plan.press(*feet(4, 4))
    found += Axe().run(plan.page).response["violations"]
    assert not [(each["id"], [node["html"] for node in each["nodes"]]) for each in found]


def test_a_desk_that_is_gone_is_said_and_nothing_is_lost(opened):
    plan = opened(DRAWN)
    plan.page.route("**/api/plan", lambda route: route.abort())
    plan.choose("corner-0-2")
    plan.keys("ArrowRight")
    assert plan.text == DRAWN
    assert "does not answer" in plan.page.locator("up-plan [role=status]").inner_text()
    plan.faults.clear()  # the browser's own word about the request that failed


def test_a_made_up_language_leaves_no_word_untranslated(opened, monkeypatch):
    """Measures, names that were typed and mistakes come from elsewhere; all other words carry the mark."""

    def translated(words):
        return {k: translated(v) for k, v in words.items()} if isinstance(words, dict) else f"\u29fc{words}"

    made_up = translated(words.table())
    monkeypatch.setattr(words, "table", lambda: made_up)
    for brief in (NOTHING, TWO_EDGES.replace("[1, 2, 3, 4, 5]", "[1, 2, 3, 4]")):
        plan = opened(brief)
        for key in ("side-0-2", "corner-0-3"):
            if brief != NOTHING:
                plan.choose(key)
            plain = plan.page.evaluate(UNTRANSLATED)
            assert not plain
    plan.choose("side-0-2")
    plan.keys("ArrowRight")
    assert plan.page.locator("up-plan [role=status]").inner_text().startswith("\u29fc")
    plan.page.get_by_role("button", name=made_up["plan"]["hole"]).click()
    plan.press(*feet(4, 4))
    assert not plan.page.evaluate(UNTRANSLATED)


def test_two_presses_on_a_side_put_a_corner_in_there(opened):
    plan = opened(DRAWN)
    plan.page.mouse.dblclick(*plan.at(*feet(7.1, 0)))
    assert outline(plan.text)[:3] == ["0 0", "7 0", "30 0"]
    plan.drag(feet(7, 0), feet(7, -2))
    assert outline(plan.text)[:3] == ["0 0", "7 -2", "30 0"]
