"""The sheet for everybody: by keys, for screen readers, on a telephone, in the dark, in grey, in another language."""

import re
from pathlib import Path

import pytest
from axe_playwright_python.sync_playwright import Axe
from playwright.sync_api import expect
from served import Served
from test_entries import BRIEF as LOADED

from .sheets import DEMO, opened

MARK = "¤"


@pytest.fixture(scope="module")
def desk(tmp_path_factory):
    served = Served(tmp_path_factory.mktemp("for-all") / "desk.book")
    yield served
    served.stop()


@pytest.mark.parametrize("theme", ["light", "dark"])
def test_axe_finds_no_fault(desk, sheet_page, theme):
    sheet_page.emulate_media(color_scheme=theme)
    sheet = opened(desk, sheet_page, DEMO)
    expect(sheet.locator("#questions li").first).to_be_visible(timeout=60_000)
    for summary in sheet.locator("#front summary").all():
        summary.click()
    sheet.locator("#answers .how").first.click()
    sheet.locator("#hand-over").click()
    expect(sheet.locator(".sentences")).to_be_visible(timeout=60_000)
    found = Axe().run(sheet).response["violations"]
    assert not found, [(v["id"], v["nodes"][0]["html"]) for v in found]


def test_a_screen_reader_is_told_what_each_field_is_and_how_it_stands(desk, sheet_page):
    sheet = opened(desk, sheet_page, DEMO)
    said = sheet.locator("body").aria_snapshot()
    for words in (
        "How deep the ground water stands below the finished ground, in the wettest season that lasts. Not told",
        "How thick the board is. Typed",
        "Lower line of Marlpit Plain 15",
        "Section A, footing wall, as briefed",
        'button "HAND OVER"',
        'group "Month"',
    ):
        assert words in said, words


def test_every_field_is_reached_by_the_tab_key(desk, sheet_page):
    sheet = opened(desk, sheet_page, DEMO)
    sheet.locator("body").press("Tab")
    met = set()
    for _ in range(70):
        sheet.keyboard.press("Tab")
        met.add(sheet.evaluate("document.activeElement.dataset.path ?? document.activeElement.id"))
    fields = set(
        sheet.evaluate(
            "[...document.querySelectorAll('#sentence .field, .rows .field, .grip')].map((f) => f.dataset.path)"
        )
    )
    assert fields <= met, fields - met


@pytest.mark.parametrize("width", [360, 1100, 2200])
def test_nothing_sticks_out_sideways(desk, sheet_page, width):
    sheet_page.set_viewport_size({"width": width, "height": 740})
    sheet = opened(desk, sheet_page, DEMO)
    assert sheet.evaluate("document.documentElement.scrollWidth") <= width
    if width == 360:
        small = sheet.evaluate(
            "[...document.querySelectorAll('nav button, .months button, .strip-foot button, .letters button, .how')]"
            ".filter((b) => b.getBoundingClientRect().height < 43.5).map((b) => b.outerHTML)"
        )
        assert not small, small[:3]


def test_in_the_dark_the_field_keeps_its_tints_and_its_ink(desk, sheet_page):
    sheet = opened(desk, sheet_page, DEMO)
    tint = "document.querySelector('#drawing canvas').getContext('2d').getImageData(60, 400, 1, 1).data.join()"
    by_day = sheet.evaluate(tint)
    sheet.emulate_media(color_scheme="dark")
    sheet.wait_for_timeout(100)
    assert sheet.evaluate(tint) == by_day
    ink = "getComputedStyle(document.querySelector('{}')).color"
    assert sheet.evaluate(ink.format(".in-body")) == "rgb(24, 42, 46)"
    assert sheet.evaluate(ink.format(".in-air")) == "rgb(233, 238, 232)"


def test_a_hundred_thousand_triangles_are_painted(desk, sheet_page):
    """Each cell of the grid is two triangles, 224 by 224 cells; how long it takes is printed, not held."""
    sheet = opened(desk, sheet_page, DEMO)
    lasted = sheet.evaluate(
        """async () => {
          const { paint, places, atMoment, tintTable } = await import('/static/draw/field.js');
          const n = 225, lines = Float64Array.from({ length: n }, (_, k) => k / (n - 1));
          const steps = (f) => Int16Array.from({ length: n * n }, (_, k) => f(k % n, Math.floor(k / n)));
          const field = { x: lines, y: lines, step: 0.01, air: -32768,
            mean: steps((i, j) => 8 * i - 3 * j), cosine: steps((i, j) => 5 * j), sine: steps((i) => 2 * i) };
          const bounds = Array.from({ length: 17 }, (_, k) => k - 4);
          const colours = Array.from({ length: 18 }, (_, k) => `#${(0x405060 + k * 0x060504).toString(16)}`);
          const table = tintTable({ bounds, colours });
          const [wide, high] = [1060, 530];
          const pixels = new Uint32Array(wide * high), lasted = [];
          for (let k = 0; k < 15; k += 1) {
            const start = performance.now();
            const values = atMoment(field, { cosine: Math.cos(k), sine: Math.sin(k) });
            paint(pixels, places(lines, wide, 0, 1), places(lines, high, 1, 0), values, n, table);
            lasted.push(performance.now() - start);
          }
          return { lasted: lasted.sort((a, b) => a - b), tints: new Set(pixels).size };
        }"""
    )
    print(f"100,352 triangles on 1060 by 530 pixels: {lasted['lasted'][7]:.1f} ms in the middle of 15")
    assert 10 <= lasted["tints"] <= 18


def marked(told):
    """Another language: every stretch of words has a mark, also those between what is filled in."""

    def each(held):
        if isinstance(held, dict):
            return marked(held)
        stretches = re.split(r"(\{[a-z_]+\})", held)
        return "".join(s if s.startswith("{") or not re.search("[^\\W\\d_]", s) else MARK + s for s in stretches)

    return {key: each(held) for key, held in told.items()}


@pytest.fixture
def abroad(monkeypatch, tmp_path):
    """A desk that speaks another language."""
    from underpour.desk import words

    other = marked(words.table())
    monkeypatch.setattr(words, "table", lambda: other)
    served = Served(tmp_path / "desk.book")
    yield served
    served.stop()


def test_no_word_of_the_page_stands_outside_of_the_words_file(abroad, sheet_page):
    sheet = opened(abroad, sheet_page, DEMO)
    expect(sheet.locator("#questions li").first).to_be_visible(timeout=60_000)
    sheet.locator("#hand-over").click()
    expect(sheet.locator(".sentences")).to_be_visible(timeout=60_000)
    said = sheet.evaluate(
        "[...document.querySelectorAll('nav *, h2, summary, output, .how, .compare, .headline button,"
        " footer button, #handing button, .skip, .text-acts *, .sentences')]"
        ".filter((e) => !e.querySelector('h2, button') && !e.matches('.fit, .field, option, input'))"
        ".map((e) => e.textContent.trim()).filter(Boolean)"
    )
    unmarked = [words for words in said if MARK not in words]
    assert len(said) > 25
    assert not unmarked, unmarked


JOINTED = f"""{LOADED}
[[load]]
kind = "uniform"
pressure = "250 psf"
everywhere = true
[[joint]]
spacing = "15 ft"
transfer = "dowels"
"""


@pytest.mark.parametrize("text", [DEMO, JOINTED], ids=["foam at the wall", "loads and joints"])
def test_no_word_of_a_sentence_that_is_typed_over_stands_outside_of_the_words_file(abroad, sheet_page, text):
    """Word by word between the fields; what is typed, and names out of the catalogue, are the brief's own."""
    sheet = opened(abroad, sheet_page, text)
    said = sheet.evaluate(
        r"""() => ['sentence', 'edge-sentence', 'floor-sentence'].map((id) => {
          const walker = document.createTreeWalker(document.getElementById(id), NodeFilter.SHOW_TEXT);
          const found = [];
          while (walker.nextNode()) {
            const { parentElement, textContent } = walker.currentNode;
            if (!parentElement.closest('.fit, select.field, .put-in, .own')) found.push(textContent);
          }
          for (const put of document.querySelectorAll(`#${id} .put-in, #${id} .take-out`)) found.push(put.ariaLabel);
          for (const put of document.querySelectorAll(`#${id} .put-in`)) found.push(put.options[0].textContent);
          return found.filter((words) => /\p{L}/u.test(words));
        })"""
    )
    assert [len(each) > 2 for each in said] == [True] * 3, said
    unmarked = [words for each in said for words in each if MARK not in words]
    assert not unmarked, unmarked


def test_every_word_that_the_script_says_is_in_the_words_file():
    from underpour.desk import words

    static = Path(words.__file__).parent / "static"
    files = [static / "sheet.js", *(f for folder in ("talk", "draw", "fill") for f in (static / folder).glob("*.js"))]
    for file in files:
        for key in re.findall(r"'(sheet\.[a-z-]+(?:\.[a-z-]+)*)'", file.read_text(encoding="utf-8")):
            found = words.table()
            for step in key.split("."):
                assert step in found, f"{file.name}: {key}"
                found = found[step]
