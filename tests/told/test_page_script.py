"""The script of the teaching page, in an engine: what it reads at a place is what the dossier holds there."""

from __future__ import annotations

import json
import re
from pathlib import Path
from random import Random

import numpy as np
import pytest
from page_cases import handed, taken_apart

import underpour.pages
from answered import once
from underpour.drawings.scale import month_middle
from underpour.drawings.visible import showing
from underpour.measure import say
from underpour.pages import teaching_page
from underpour.pages.signs import set_signs
from underpour.pages.write import CODE, script

quickjs = pytest.importorskip("quickjs", reason="no ready-built engine for this machine")

ROOT = Path(__file__).parents[2]
PAGES = Path(underpour.pages.__file__).parent
IMPORT = re.compile(r"^import \{ (.+) \} from '(.+)';$", re.M)
EXPORT = re.compile(r"^export (?:async )?(?:function|const) (\w+)", re.M)
OUTERMOST = re.compile(r"^(?:export )?(?:async )?(?:function|const|let|class) (\w+)", re.M)


@pytest.fixture(scope="module")
def dossier():
    return once(ROOT / "examples" / "daylight-basement" / "brief.toml")


@pytest.fixture(scope="module")
def given(dossier):
    return handed(taken_apart(teaching_page(dossier, edge="A", month=2)))


@pytest.fixture(scope="module")
def engine(given):
    """All that reads, without what draws, and what the page was handed."""
    context = quickjs.Context()
    for name in CODE:
        if name.startswith("read/") and name != "read/packed.js":
            code = (PAGES / name).read_text("utf-8")
            context.eval(re.sub(r"^export ", "", IMPORT.sub("", code), flags=re.M))
    context.set("handed", json.dumps(given))
    context.eval("var given = JSON.parse(handed); var edge = given.edges[0];")
    context.eval("for (const section of edge.sections) section.field = readyField(section.field);")
    return context


def places(dossier, n: int, count: int) -> list[tuple[float, float]]:
    """Places within the bodies of an alternative's section, seeded."""
    chance = Random(7 + n)
    section = dossier.alternatives[n].sections["A"]
    x0, x1, y0, y1 = section.window
    found: list[tuple[float, float]] = []
    while len(found) < count:
        x, y = chance.uniform(x0, x1), chance.uniform(y0, y1)
        if showing(section.parts, np.array([x]), np.array([y]))[0] >= 0:
            found.append((x, y))
    return found


def between(field, degrees, x: float, y: float) -> float:
    """The dossier's own temperature, straight between the lines of its grid. [degC]"""
    i = int(np.clip(np.searchsorted(field.x, x) - 1, 0, field.x.size - 2))
    j = int(np.clip(np.searchsorted(field.y, y) - 1, 0, field.y.size - 2))
    u = (x - field.x[i]) / (field.x[i + 1] - field.x[i])
    v = (y - field.y[j]) / (field.y[j + 1] - field.y[j])
    near = degrees[j : j + 2, i : i + 2]
    return float(np.array([1 - v, v]) @ near @ np.array([1 - u, u]))


@pytest.mark.parametrize("n", [0, 1, 2])
def test_a_temperature_read_from_the_page_is_the_dossiers_in_every_month(dossier, engine, n):
    """Within 0.05 K at 60 places: steps of 0.01 K in mean and both parts of the swing leave at most 0.012 K."""
    field = dossier.alternatives[n].fields["A"]
    moments = [*[field.at(month_middle(month)) for month in range(1, 13)], field.mean.astype(float)]
    for x, y in places(dossier, n, 60):
        for k, degrees in enumerate(moments):
            read = engine.eval(f"temperatureAt(edge.sections[{n}].field, given.moments[{k}], {x!r}, {y!r})")
            assert read == pytest.approx(between(field, degrees, x, y), abs=0.05)


@pytest.mark.parametrize("n", [0, 1, 2])
def test_the_material_at_a_place_is_the_one_that_shows_there(dossier, engine, n):
    section = dossier.alternatives[n].sections["A"]
    for x, y in places(dossier, n, 60):
        part = section.parts[int(showing(section.parts, np.array([x]), np.array([y]))[0])]
        assert engine.eval(f"readAt(edge.sections[{n}], given, given.moments[0], {x!r}, {y!r}).material") == set_signs(
            part.label
        )


def test_a_place_is_read_in_the_words_of_the_findings(dossier, engine):
    """A hand's breadth below the floor in February, the middle of no foam's gravel: words of the one formatter."""
    field = dossier.alternatives[1].fields["A"]
    degrees = between(field, field.at(month_middle(2)), 0.5, -0.15)
    read = json.loads(engine.eval("JSON.stringify(readAt(edge.sections[1], given, given.moments[1], 0.5, -0.15))"))
    assert read["material"].startswith("Gravel, 4")
    number = float(read["degrees"].split("\N{NO-BREAK SPACE}")[0])
    assert number == pytest.approx(say.number(degrees, "degC", "US"), abs=0.11)
    assert read["degrees"] == set_signs(say.both((number - 32.0) / 1.8, "degC", "US"))


def test_the_air_is_read_as_the_drawing_names_it(engine):
    room = json.loads(engine.eval("JSON.stringify(readAt(edge.sections[0], given, given.moments[6], 1.0, 0.5))"))
    outdoors = json.loads(engine.eval("JSON.stringify(readAt(edge.sections[0], given, given.moments[1], -1.0, 1.0))"))
    assert room == {"degrees": set_signs(say.both(20.0, "degC", "US")), "material": "air of the room"}
    assert outdoors["material"] == "air outdoors"
    assert outdoors["degrees"].startswith("21.1\N{NO-BREAK SPACE}°F")


def test_a_place_is_told_by_its_depth_and_by_the_wall(engine):
    words = engine.eval("placeWords(given, 0.254, -0.1524)")
    thin = "\N{NO-BREAK SPACE}"
    assert words == f"6{thin}in (152{thin}mm) below the floor, 10{thin}in (254{thin}mm) inside the wall's face"
    assert engine.eval("placeWords(given, 0, 0)") == "level with the floor, at the wall's face"
    assert "above the floor" in engine.eval("placeWords(given, -0.3, 0.3)")
    assert "outside the wall's face" in engine.eval("placeWords(given, -0.3, 0.3)")


def test_outside_of_what_was_worked_out_nothing_is_read(engine):
    assert engine.eval("temperatureAt(edge.sections[0].field, given.moments[0], 99, 0) === null")
    read = json.loads(engine.eval("JSON.stringify(readAt(edge.sections[0], given, given.moments[0], 99, 99))"))
    assert read == {"degrees": "", "material": "outside of what was worked out"}


def test_the_whole_script_can_be_read():
    """As one function that is not called: what a page would lend is not missed, a word that is no JavaScript is."""
    quickjs.Context().eval(f"async () => {{ {script()} }}")
    with pytest.raises(quickjs.JSException):
        quickjs.Context().eval(f"async () => {{ {script()} ]] }}")


def test_modules_are_joined_in_an_order_in_which_each_finds_what_it_needs():
    offered: dict[str, set[str]] = {}
    for name in CODE:
        code = (PAGES / name).read_text("utf-8")
        for names, path in IMPORT.findall(code):
            known = offered[(PAGES / name).parent.joinpath(path).resolve().relative_to(PAGES.resolve()).as_posix()]
            assert set(names.split(", ")) <= known, name
        offered[name] = set(EXPORT.findall(code))
    assert {path.relative_to(PAGES).as_posix() for path in PAGES.rglob("*.js")} == set(CODE)


def test_no_two_modules_use_one_name_for_two_things():
    names = [name for path in CODE for name in OUTERMOST.findall((PAGES / path).read_text("utf-8"))]
    assert len(names) == len(set(names))
    assert not re.search(r"^(import|export) ", script(), re.M)
