"""The page to teach with: one file that stands alone, says what the terminal says, and lets nothing in or out."""

from __future__ import annotations

import re
from base64 import b64encode
from dataclasses import fields, replace
from hashlib import sha256
from pathlib import Path
from typing import get_args

import drawing_cases
import pytest
from jinja2 import Environment, meta
from page_cases import Element, handed, read_words, taken_apart

import underpour.pages
from answered import once
from underpour.answer import answer
from underpour.brief import read
from underpour.dossier import Dossier
from underpour.dossier_json import as_json
from underpour.drawings import colours
from underpour.drawings.through_the_year import year_scale
from underpour.findings import Accepted, Verdict
from underpour.measure import say
from underpour.pages import teaching_page
from underpour.pages.given import Cell, Edge, Mark, Material, Panel, Readings, Row, Sheet
from underpour.pages.signs import set_signs

ROOT = Path(__file__).parents[2]
PAGES = Path(underpour.pages.__file__).parent
LOOKS = sorted((PAGES / "look").glob("*.css"))
MODULES = sorted(PAGES.rglob("*.js"))
HOSTILE = "</script><img src=x onerror=alert(1)>{{ 7 * 7 }}\N{LINE SEPARATOR}&amp;'\""
SVG = "http://www.w3.org/2000/svg"  # the name of a kind of element; nothing is fetched from there


@pytest.fixture(scope="module")
def dossier() -> Dossier:
    return once(ROOT / "examples" / "daylight-basement" / "brief.toml")


@pytest.fixture(scope="module")
def text(dossier) -> str:
    return teaching_page(dossier, edge="A", month=2)


@pytest.fixture(scope="module")
def page(text) -> Element:
    return taken_apart(text)


@pytest.fixture(scope="module")
def hostile() -> tuple[Dossier, Element]:
    """Every text that a user may type, typed to break out of the page."""
    drawn = drawing_cases.dossier()
    first = drawn.as_briefed
    cut = drawing_cases.section("wrapped", label=f"Board {HOSTILE}")
    finding = replace(first.findings[0], words=HOSTILE, value=9.0, accepted=Accepted(HOSTILE, HOSTILE, "2026-11-25"))
    bad = replace(
        drawn,
        title=HOSTILE,
        place=HOSTILE,
        cautions=(HOSTILE,),
        notes=(HOSTILE,),
        credits=(HOSTILE,),
        alternatives=(
            replace(first, sections={"A": cut}, summary=(HOSTILE,), findings=(finding, *first.findings[1:])),
            replace(drawn.alternatives[1], name=HOSTILE),
            *drawn.alternatives[2:],
        ),
    )
    return bad, taken_apart(teaching_page(bad, edge="A", month=2))


def test_nothing_is_loaded_from_elsewhere(text, page):
    assert set(re.findall(r"\w+://[^\s'\"<>]*", text)) == {SVG}
    loading = {"src", "href", "xlink:href", "srcset", "action", "formaction", "data", "poster", "background", "ping"}
    for element in page.all():
        assert loading.isdisjoint(element.attributes), element.name
    assert not page.all("link", "base", "iframe", "object", "embed", "img", "form")
    for target in re.findall(r"url\(([^)]*)\)", text):
        assert target.startswith(("#", "data:font/woff2;base64,"))
    assert "@import" not in text


def test_a_browser_is_told_to_run_one_script_and_one_look_and_to_fetch_nothing(page):
    """Content Security Policy level 3: hashes of the inline script and style; all else is none."""
    rules = page.one("meta", http_equiv="Content-Security-Policy").attributes["content"]
    given = dict(rule.strip().partition(" ")[::2] for rule in rules.split(";"))
    code, look = page.one("script", type="module").words, page.one("style").words
    assert given == {
        "default-src": "'none'",
        "script-src": _hash(code),
        "style-src": _hash(look),
        "font-src": "data:",
        "base-uri": "'none'",
        "form-action": "'none'",
    }
    assert len(page.all("script")) == 2 and page.one("script", id="packed").attributes["type"] == "text/plain"


def _hash(text: str) -> str:
    return f"'sha256-{b64encode(sha256(text.encode()).digest()).decode()}'"


def test_no_element_carries_code_or_look_of_its_own(page, hostile):
    for element in (*page.all(), *hostile[1].all()):
        assert not [name for name in element.attributes if name.startswith("on") or name == "style"]


def test_what_a_user_typed_stays_text(hostile):
    _, page = hostile
    assert not page.all("img")
    assert len(page.all("script")) == 2
    assert page.one("title").words == page.one("h1").words == HOSTILE
    assert HOSTILE in [element.words for element in page.one("ul", class_="mind").all("li")]
    assert HOSTILE in [element.words for element in page.all("h2")]
    assert [element.words for element in page.all("th", scope="col")][1] == HOSTILE
    assert any(HOSTILE in element.words for element in page.one("ul", class_="materials").all("li"))
    assert "49" not in page.one("h1").words
    heard = [element.attributes["aria-label"] for element in page.all("svg", role="img")]
    assert any(HOSTILE in label for label in heard)


def test_what_a_user_typed_reaches_the_script_as_text_too(hostile):
    bad, page = hostile
    given = handed(page)["edges"][0]["sections"]
    assert [section["name"] for section in given] == [answer.name for answer in bad.alternatives]
    assert f"Board {HOSTILE}" in [body["name"] for body in given[0]["bodies"]]
    assert re.fullmatch(r"[A-Za-z0-9+/]+=*", page.one("script", id="packed").words)


def test_no_line_ends_between_a_number_and_its_unit(text, page):
    assert "\N{THIN SPACE}" not in text and "64.1\N{NO-BREAK SPACE}°F" in text
    assert "\N{THIN SPACE}" not in str(handed(page))


def test_signs_that_steer_a_reader_are_shown_as_empty_squares():
    """A turned reading direction could make one alternative's name look like another's."""
    turned = replace(drawing_cases.dossier(), title="a\N{RIGHT-TO-LEFT OVERRIDE}b\x00c")
    page = taken_apart(teaching_page(turned, edge="A", month=2))
    assert page.one("h1").words == "a\N{WHITE SQUARE}b\N{WHITE SQUARE}c"


def test_the_script_reads_no_markup_and_makes_no_code():
    for module in MODULES:
        code = module.read_text("utf-8")
        for word in (
            "innerHTML",
            "outerHTML",
            "insertAdjacentHTML",
            "document.write",
            "eval(",
            "Function(",
            "DOMParser",
        ):
            assert word not in code, f"{module.name}: {word}"
        assert not re.search(r"fetch\(|XMLHttpRequest|import\(|localStorage|sendBeacon|WebSocket", code), module.name


def test_the_page_is_given_what_its_lists_say_and_nothing_else(page):
    style = (PAGES / "page.html").read_text("utf-8")
    asked = meta.find_undeclared_variables(Environment(autoescape=True).parse(style))
    assert asked == {field.name for field in fields(Sheet)} | {"look", "code", "policy"}
    assert list(handed(page)) == [field.name for field in fields(Readings)]


@pytest.mark.parametrize("given", [Sheet, Edge, Panel, Mark, Row, Cell, Material, Readings])
def test_every_list_says_what_each_of_its_entries_is(given):
    assert all(re.match(r"Annotated\[.+, \s*[\"'].{8,}", field.type, re.S) for field in fields(given))


def test_the_numbers_are_those_of_the_findings_as_data(dossier, page):
    import json

    found = json.loads(as_json(dossier))["alternatives"]
    table = {row.one("th").words: row for row in page.one("tbody").all("tr")}
    told = 0
    for n, alternative in enumerate(found):
        for finding in alternative["findings"]:
            rows = [row for name, row in table.items() if name.startswith(set_signs(finding["title"]))]
            cells = [row.all("td")[n].all("span")[-1].words for row in rows]
            if cells and finding["value"] is not None:
                said = set_signs(say.both(finding["value"], finding["unit"], dossier.units))
                verdict = "" if finding["verdict"] == "stated" else finding["verdict"]
                assert any(cell.split("\n")[0].strip().startswith(said) and verdict in cell for cell in cells)
                told += 1
    cells = [cell.all("span")[-1].words for row in table.values() for cell in row.all("td")]
    absent = cells.count("not there")  # what is said of a board is not there where the board is taken out
    in_words = sum(cell in get_args(Verdict) for cell in cells)  # a finding without a value is told by its verdict
    assert 0 < absent < len(table) and told == len(cells) - absent - in_words


def test_the_table_and_the_terminal_tell_the_same_findings_apart(dossier, page):
    from underpour.cli.spoken import named
    from underpour.papers.differing import differing

    apart = [set_signs(named(row.named_by, dossier.units)) for row in differing(dossier.alternatives, dossier.units)]
    assert [row.one("th").words for row in page.one("tbody").all("tr")] == apart
    assert len(apart) > 10


def test_each_alternative_says_what_it_teaches(dossier, page):
    for figure, answered in zip(page.all("figure"), dossier.alternatives, strict=True):
        assert figure.one("h2").words == answered.name
        corner = answered.find("heat.corner-coldest", edge="A")
        assert set_signs(corner.words) in [paragraph.words for paragraph in figure.all("p")]
        assert [line.words for line in figure.one("ul").all("li")] == [set_signs(line) for line in answered.summary]


def test_a_shortfall_shows_who_accepted_it(hostile):
    bad, page = hostile
    accepted = bad.as_briefed.findings[0].accepted
    assert accepted is not None
    assert any(accepted.words in paragraph.words for paragraph in page.all("figure")[0].all("p"))


def test_cautions_notes_credits_and_what_was_not_checked_are_there(dossier, page):
    words = read_words(page)
    lines = [
        *dossier.cautions,
        *dossier.notes,
        *dossier.credits,
        "SIL Open Font License",
        "Frost: depth, footing, heave",
    ]
    assert len(dossier.cautions) >= 5
    assert all(set_signs(line) in words for line in lines)
    assert dossier.title in words and set_signs(dossier.place) in words
    assert f"Made by Underpour {dossier.version}" in words


def test_what_was_assumed_is_there():
    short = answer(read(str(ROOT / "examples" / "frost-wall-workshop" / "brief.toml")))
    words = read_words(taken_apart(teaching_page(short, edge="A", month=2)))
    assert short.assumed
    assert all(entry.path in words and entry.why in words for entry in short.assumed)


def test_the_pictures_stand_without_the_script(dossier, page):
    pictures = [sheet.one("svg") for sheet in page.all("div", class_="sheet")]
    assert len(pictures) == len(dossier.alternatives)
    for picture in pictures:
        for layer in ("tints", "lines", "values", "marks", "floor"):
            assert picture.one("g", data_layer=layer).inner, layer
    hidden = [*page.all("fieldset"), page.one("div", class_="read")]
    assert all("hidden" in element.attributes for element in hidden), "what only the script can do waits for it"


def test_all_alternatives_and_months_share_one_scale(dossier, page):
    scale = year_scale(dossier)
    legend = page.one("div", class_="tints").all("rect")
    assert [tint.attributes["fill"] for tint in legend] == list(scale.tints)
    for section in handed(page)["edges"][0]["sections"]:
        for layers in section["layers"]:
            assert {shape[1]["fill"] for shape in layers["tints"]} <= set(scale.tints)
    low, high = scale.levels[0], scale.levels[-1]
    for answered in dossier.alternatives:
        field = answered.fields["A"]
        reach = abs(field.swing)
        assert low <= _least(field.mean - reach) and _most(field.mean + reach) <= high


def _least(values) -> float:
    return float(values[values == values].min())


def _most(values) -> float:
    return float(values[values == values].max())


def test_the_layer_of_the_month_shown_first_is_the_one_in_the_page(page):
    from underpour.pages.packed import shapes

    given = handed(page)["edges"][0]["sections"]
    for picture, section in zip(page.all("div", class_="sheet"), given, strict=True):
        for name, drawn in section["layers"][1].items():
            assert _shapes(picture.one("g", data_layer=name)) == drawn, name
    assert shapes("<g><text>a</text></g>") == [["g", {}, [["text", {}, "a"]]]]


def _shapes(element: Element) -> list:
    return [
        [
            part.name,
            {_kept(name): value for name, value in part.attributes.items()},
            _shapes(part) if any(isinstance(inner, Element) for inner in part.inner) else part.words,
        ]
        for part in element.inner
        if isinstance(part, Element)
    ]


def _kept(name: str) -> str:
    """HTML's reader lowers the letters of names that SVG writes with capitals."""
    return {"textlength": "textLength", "lengthadjust": "lengthAdjust"}.get(name, name)


def test_the_month_strip_has_twelve_letters_and_the_mean_of_the_year(page):
    strip = page.one("fieldset", class_="pressed months").all("label")
    assert [label.one("span").words for label in strip] == [*"JFMAMJJASOND", "mean of the year"]
    checked = [label.one("input") for label in strip if "checked" in label.one("input").attributes]
    assert [mark.attributes["aria-label"] for mark in checked] == ["February"]
    assert page.one("strong", id="when").words == "in the middle of February"


def test_everything_that_is_seen_has_a_name_that_is_heard(page):
    assert page.one("html").attributes["lang"] == "en"
    for picture in page.all("svg"):
        named = picture.attributes.get("role") == "img" and picture.attributes.get("aria-label")
        assert named or picture.attributes.get("aria-hidden") == "true"
    for pressed in page.all("input"):
        assert pressed.attributes.get("aria-label")
    for group in page.all("fieldset"):
        assert group.one("legend").words.strip()
    assert all(head.attributes.get("scope") in ("row", "col") for head in page.all("th"))
    assert page.one("p", id="spoken").attributes["aria-live"] == "polite"


def test_the_colours_are_those_of_the_one_file(page):
    look = page.one("style").words
    for theme in (colours.light(), colours.dark()):
        assert all(f"--{name}:{colour};" in look for name, colour in theme.items())
    for source in (*LOOKS, *MODULES, PAGES / "page.html"):
        assert not re.search(r"#[0-9A-Fa-f]{3,8}\b(?![\"'].*querySelector)", _code(source)), source.name
    assert set(re.findall(r"var\(--([\w-]+)\)", look)) <= {*colours.light(), "field-ink", "field-leaf", "letter"}


def _code(source: Path) -> str:
    return re.sub(r"one\('#\w+'\)", "", source.read_text("utf-8"))


def test_the_same_dossier_gives_the_same_bytes(dossier, text):
    assert teaching_page(dossier, edge="A", month=2) == text


def test_the_page_of_the_demo_fits_in_a_letter(text):
    """At most 1.5 MB, three alternatives and thirteen moments, fonts inside."""
    assert len(text.encode()) < 1_500_000


def test_the_page_speaks_as_an_adviser_does(page):
    from test_words import wrong_words

    assert not wrong_words(read_words(page))
    for module in MODULES:
        said = re.findall(r"'([^'\n]* [^'\n]*)'|`([^`]* [^`]*)`", module.read_text("utf-8"))
        assert not wrong_words(" ".join(a or b for a, b in said)), module.name


def two_edges() -> Dossier:
    """Two edges; one alternative changes only the first."""
    drawn = drawing_cases.dossier("SI")
    both = [
        replace(
            answered,
            sections={"A": answered.sections["A"], "north": replace(answered.sections["A"], edge="north", kind="raft")},
            fields={"A": answered.fields["A"], "north": answered.fields["A"]},
        )
        for answered in drawn.alternatives[:2]
    ]
    return replace(drawn, alternatives=(*both, drawn.alternatives[2]))


def test_an_edge_is_chosen_in_a_sentence_and_the_one_asked_for_stands_in_front():
    page = taken_apart(teaching_page(two_edges(), edge="north", month=1))
    choice = page.one("fieldset", class_="pressed edges")
    named = ["edge north, raft", "edge A, footing wall"]
    assert [label.words.strip() for label in choice.all("label")] == named
    assert [label.one("input").attributes["aria-label"] for label in choice.all("label")] == named
    assert [edge["letter"] for edge in handed(page)["edges"]] == ["north", "A"]
    panels = [len(edge.all("figure")) for edge in page.all("section", class_="edge")]
    assert panels == [2, 3] == [len(edge["sections"]) for edge in handed(page)["edges"]]
    assert "°C" in page.one("div", class_="tints").words


def test_an_edge_that_is_not_there_is_refused_by_name(dossier):
    with pytest.raises(KeyError, match="Q"):
        teaching_page(dossier, edge="Q", month=2)


def test_a_finding_that_an_alternative_lacks_is_said_to_be_missing():
    drawn = drawing_cases.dossier()
    less = replace(drawn.alternatives[2], findings=drawn.alternatives[2].findings[:1])
    page = taken_apart(teaching_page(replace(drawn, alternatives=(*drawn.alternatives[:2], less)), edge="A", month=2))
    (row,) = [row for row in page.one("tbody").all("tr") if row.one("th").words.startswith("Greatest heat loss")]
    assert [cell.all("span")[-1].words for cell in row.all("td")][2] == "not there"
