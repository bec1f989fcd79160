"""What to ask: every open input has its question, the line to type answers it, and the words are read aloud."""

from __future__ import annotations

import ast
import json
import os
import re
import subprocess
import sys
import tomllib
from dataclasses import replace
from functools import cache
from pathlib import Path
from typing import get_args

import pytest
from ask_cases import (
    SUCTION,
    bare,
    beside_unheated,
    by_report,
    cellar,
    cold_walk,
    covered,
    drawn,
    each_kind,
    gas,
    heated,
    held_to,
    in_layers,
    in_water,
    jointed,
    loaded,
    on_bare_ground,
    on_foam,
    on_glass,
    over_old_slab,
    over_water,
    priced,
    pushed,
    under_another_covering,
    walk_in_layers,
    with_film,
    with_lift,
    with_line,
    without_its,
)
from jsonschema import Draft202012Validator

import underpour.resolve
from underpour.answer import answer
from underpour.ask import MOST, Asked, Open, asked
from underpour.ask.asking import IN_A_ROOM, decisive, first_turn, moves, together, turned
from underpour.ask.ends import End, at_end
from underpour.ask.questions_json import as_json
from underpour.ask.wording import row_of, wordings
from underpour.brief import read, reads
from underpour.brief.model import fields
from underpour.brief.tables.edge import Kind
from underpour.catalogue import uses
from underpour.cli import main
from underpour.cli.questions_text import questions_text
from underpour.findings import UNITS, Assumed, Finding
from underpour.resolve import resolve
from underpour.starters import starters
from underpour.trying import as_taken, named

ROOT = Path(__file__).parents[2]
SCHEMA = json.loads((ROOT / "schema" / "questions.schema.json").read_text("utf-8"))
EXAMPLES = {path.parent.name: path for path in sorted(ROOT.glob("examples/*/brief.toml"))}
# Asking all of them takes minutes: every fourth is asked each time, the others, and one that takes half a minute by
# itself, in the long sets.
LONG = {"garage-beside-house"}
ASKED = [
    name if n % 4 == 2 and name not in LONG else pytest.param(name, marks=pytest.mark.proof)
    for n, name in enumerate(EXAMPLES)
]
THIN = "\N{THIN SPACE}"


@cache
def of_example(name: str) -> Asked:
    return asked(read(EXAMPLES[name]))


def of_uses() -> list[str]:
    """A bare brief for every use."""
    return [bare(use.key, "free-edge" if use.room is None else "raft") for use in uses()]


def in_numbers(reading):
    """A brief resolved with the products that it can name."""
    return resolve(reading.brief, products=reading.products)


@cache
def open_inputs() -> dict[str, list[tuple[str, str, Assumed]]]:
    """What bare briefs, starters and examples leave to be assumed: text and file, by the row that asks for it."""
    found: dict[str, list[tuple[str, str, Assumed]]] = {}
    texts = [(text, "") for text in (*each_kind(), *of_uses(), over_old_slab(), beside_unheated())]
    texts += [(by_report(kind), "") for kind in ("fine", "coarse")]
    texts += [(text, "") for text in (in_layers(), walk_in_layers(), *over_water(), *covered())]
    texts += [(text, "") for text in (*loaded(), *jointed(), *drawn(), under_another_covering(), heated(), priced())]
    texts += [(each.text, "") for each in starters()]
    texts += [(path.read_text("utf-8"), str(path)) for path in EXAMPLES.values()]
    for text, file in texts:
        resolved = in_numbers(reads(text, file))
        for each in resolved.assumed:
            found.setdefault(row_of(each.path, resolved), []).append((text, file, each))
    return found


@cache
def missing_keys() -> set[str]:
    """Keys that a "cannot tell" may name, read from the source of the checks."""
    trees = [ast.parse(path.read_text("utf-8")) for path in (ROOT / "src/underpour/checks").rglob("*.py")]
    words = [word for tree in trees for node in ast.walk(tree) if isinstance(node, ast.Call) for word in node.keywords]
    said = [w.value.values[0] if isinstance(w.value, ast.JoinedStr) else w.value for w in words if w.arg == "missing"]
    named = {each.value.removesuffix(".") for each in said if isinstance(each, ast.Constant)} - {""}
    # A record is no input of the brief; places of lists are left out.
    ours = {
        re.sub(r"\.\d+", "", key) for key in named if not key.startswith("catalogue.")
    }  # a record is no input of the brief
    return (
        ours
        | ASKED_BY_CODES
        | ASKED_OF_LOADS
        | ASKED_OF_SOIL_GAS
        | ASKED_OF_FROST
        | ASKED_OF_MONEY
        | {"floor.build-up.vapour-retarder", "site.humidity"}
    )  # of the layer that is a kind of film


# Triggers of code rows and the zone: their keys stand in data, not in the source of a check.
ASKED_BY_CODES = {"site.zone", "site.zip", "site.frost-depth", "project.work", "project.heat-recovery"}


# Keys of prices stand in resolving money and beside what is bought, not in the source of a check.
ASKED_OF_MONEY = {
    *("money.fuel", "money.fuel-price", "money.efficiency", "money.labour"),
    *("money.price", "money.fuel-carbon", "money.embodied"),
}

ASKED_OF_FROST = {"site.freezing-index", "site.fines", "site.water-table"}

# What a load lacks is found where it is read; the check names whatever that is.
ASKED_OF_LOADS = {"load.plate", "load.tyre", "foam.modulus", "load.anchor-depth", "edge.props"}


# What a list of items asks of a rough-in is read from the brief item by item; each names its own key.
ASKED_OF_SOIL_GAS = {
    *("site.soil-gas", "soil-gas.radon", "soil-gas.test.level", "soil-gas.sealed"),
    *("soil-gas.stone.size", "soil-gas.stone.voids", "soil-gas.stone.fines"),
    *("soil-gas.suction.at", "soil-gas.suction.pit-depth"),
    *("soil-gas.stone.permeability", "soil-gas.channels"),
    *("soil-gas.pipe.size", "soil-gas.pipe.falls", "soil-gas.pipe.labelled", "soil-gas.pipe.power"),
    *("soil-gas.outlet.from-openings", "soil-gas.outlet.above-roof"),
}


def input_of(row: str) -> str:
    """The input that a row asks for, whatever kind of edge or floor it is for."""
    return row.partition(" ")[0]


def test_every_input_that_may_be_assumed_or_missing_has_a_question_and_no_question_asks_for_another():
    assumed = {row for row in open_inputs() if input_of(row) not in missing_keys()}
    assert {row for row in wordings() if input_of(row) not in missing_keys()} == assumed
    assert {input_of(row) for row in wordings()} >= missing_keys()


NEVER_ASSUMED = {"ledge-inner"}  # what must be left of a wall, held against what is typed


def test_the_walk_meets_everything_that_is_usual():
    usual = tomllib.loads((Path(underpour.resolve.__file__).parent / "usual.toml").read_text("utf-8"))
    whys = {each.why for found in open_inputs().values() for _, _, each in found}
    unmet = [
        key
        for key, row in usual.items()
        if key not in NEVER_ASSUMED and not any(why.startswith(row["where"]) for why in whys)
    ]
    assert not unmet, f"no bare brief of ask_cases.py leaves these open: {unmet}"


ASSUMABLE = {row for row in wordings() if input_of(row) not in missing_keys()}


@pytest.mark.parametrize("path", sorted(ASSUMABLE))
def test_what_is_assumed_has_a_range_that_holds_the_value_and_a_reason(path):
    for _, _, each in open_inputs()[path]:
        assert each.why.strip(), each
        if isinstance(each.value, str):  # taken in words: there is no number to try
            assert each.value and (each.low, each.high) == (None, None), each
            continue
        assert each.low <= each.value <= each.high and each.low < each.high, each
        assert each.unit, each


@pytest.mark.parametrize("path", sorted(ASSUMABLE))
def test_the_line_to_type_is_read_and_takes_its_inputs_out_of_what_is_assumed(path):
    for text, file, each in open_inputs()[path]:
        if path.startswith("site.surface") and '"site.snow"' in text:
            continue  # an alternative lays snow there: its two coverings are told apart by the brief's own mistake
        before = in_numbers(reads(text, file))
        row = row_of(each.path, before)
        said = wordings()[row]
        values = {a.path: Open(a.path, a.value, a.low, a.high, a.unit, a.why, row) for a in before.assumed}
        line = said.line(each.path, values, typed_in(text), [], before.system)
        after = in_numbers(reads(with_line(text, said.table(each.path), line, file), file))
        gone = {a.path for a in before.assumed} - {a.path for a in after.assumed}
        assert each.path in gone and all(said.place(other) == said.place(each.path) for other in gone)
        assert not {a.path for a in after.assumed} - {a.path for a in before.assumed}


def typed_in(text: str):
    """What a brief types at a path of its tables that stand once."""

    def typed(path: str) -> str:
        found = tomllib.loads(text)
        for step in path.split("."):
            found = found[int(step) - 1] if step.isdecimal() else found[step]
        return found if isinstance(found, str) else json.dumps(found, ensure_ascii=False)

    return typed


def test_what_is_typed_of_a_table_stands_in_the_line_that_types_the_rest(monkeypatch):
    text = with_line(bare("dwelling", "thickened-edge"), "edge.A", 'thickening = { width = "11 in" }')
    monkeypatch.setattr("underpour.ask.asking.MOST", 99)
    monkeypatch.setattr("underpour.ask.asking.moving_most", list)
    monkeypatch.setattr("underpour.ask.asking._decides", lambda now, then: False)
    slope = next(q for q in asked(reads(text)).questions if q.about.path == "edge.A.thickening.slope")
    assert slope.line == 'thickening = { width = "11 in", slope = "45 deg" }'
    assert slope.replaces == '{ width = "11 in" }'
    after = resolve(reads(with_line(text, slope.table, slope.line)).brief)
    assert slope.about.path not in {each.path for each in after.assumed}


LOADED = '\n[[load]]\nkind = "wall"\nat = "edge A"\nforce = "20 kN/m"\n'
CAPPED = 'system = "rough-in"\n'
PIPE = '\n[soil-gas.pipe]\nsize = "100 mm"\n'
FALLS = 'falls = "to-suction"\nlabelled = true\n'
PRICED = '\n[money]\ncurrency = "USD"\ndate = "2026-11-01"\nlabour = "55 USD/h"\n'
MISSING_IN = {
    "floor.available-depth": bare("workshop", "raft"),
    "floor.available-depth above an old slab": over_old_slab(),
    "load": on_foam(),
    "floor.touched-by": bare("garage", "raft"),
    "floor.build-up.vapour-retarder": with_film(),
    "foam.long-term-stress": with_line(on_foam() + LOADED, "foam", 'long-term = "creep"'),
    "load.plate": without_its("plate"),
    "load.tyre": without_its("tyre"),
    "load.anchor-depth": with_lift(),
    "tube.depth-from-top": with_lift('anchor-depth = "3 in"\n\n[tube]\nsize = "1/2 in"\n'),
    "tube.coldest": heated(),
    "tube.heat-after": heated(),
    "floor.friction": pushed(),
    "edge.props": cellar(),
    "site.humidity": cellar(),
    "site.drain-outlet": cellar(),
    "site.drained": in_water(),
    "site.ground": on_bare_ground(),
    "site.termites": bare().replace("Duluth, MN", "Houston, TX"),
    "floor.concrete-class": with_line(bare("dwelling", "raft"), "site", 'sulphate = "S2"'),
    "foam.modulus": on_glass(),
    "foam.modulus-for-good": with_line(on_glass(), "foam", 'modulus = { cellglass-85 = "100 MPa" }'),
    "site.zone": held_to("irc-2021", bare()),
    "site.zip": held_to("irc-2018", bare().replace("Duluth, MN", "Oakland, CA")),
    "site.frost-depth": held_to("irc-2018", bare().replace('depth = "1.2 m"', 'depth = "1.2 m"\nground = "-8 in"')),
    "site.freezing-index": bare("walk", "free-edge"),
    "site.fines": cold_walk('water-table = "2 m"'),
    "site.water-table": cold_walk('ground = "clay"'),
    "project.work": held_to("uk-part-l-2021", over_old_slab().replace("Duluth, MN", "Manchester, GB")),
    "project.heat-recovery": held_to(
        "nbc-2020", bare("dwelling", "footing-wall").replace('"Duluth, MN"', '"Winnipeg, MB"\nzone = "7A"')
    ),
    "site.soil-gas": gas(site=""),
    "soil-gas.system": gas(),
    "soil-gas.radon": gas(site="unknown"),
    "soil-gas.sealed": gas(),
    "soil-gas.test.level": gas(),
    "soil-gas.combustion": gas('system = "fan"\n'),
    "soil-gas.backdraught-tested": gas('system = "fan"\ncombustion = "open"\n'),
    "soil-gas.stone.size": gas(CAPPED, code="irc-2021"),
    "soil-gas.stone.voids": gas(CAPPED),
    "soil-gas.stone.fines": gas(CAPPED, code="on-2012").replace("Duluth, MN", "Toronto, ON"),
    "soil-gas.suction.at": gas(CAPPED, code="nbc-2020").replace("Duluth, MN", "Winnipeg, MB"),
    "soil-gas.suction.pit-depth": gas(f'{CAPPED}stone = {{ fines = "2 %" }}\n{SUCTION}', code="on-2012").replace(
        "Duluth, MN", "Toronto, ON"
    ),
    "soil-gas.pipe.size": gas(CAPPED + SUCTION, code="nbc-2020").replace("Duluth, MN", "Winnipeg, MB"),
    "soil-gas.pipe.falls": gas(f'{CAPPED}stone = {{ voids = "40 %" }}\n{SUCTION}{PIPE}'),
    "soil-gas.stone.permeability": gas(
        'system = "fan"\nhouse-vacuum = "20 Pa"\npermeability = "1e-10 m²"\n'
        f'{SUCTION}\n[soil-gas.pipe]\nsize = "50 mm"\n'
    ),
    "soil-gas.channels": gas('channels = [{ flow = "1 l/s", fall = "0.2 Pa" }]\n'),
    "soil-gas.pipe.slope": gas(f'{CAPPED}stone = {{ voids = "40 %" }}\n{SUCTION}{PIPE}{FALLS}power = true\n'),
    "soil-gas.pipe.labelled": gas(CAPPED + SUCTION + PIPE, code="nbc-2020").replace("Duluth, MN", "Winnipeg, MB"),
    "soil-gas.pipe.power": gas(f'{CAPPED}stone = {{ voids = "40 %" }}\n{SUCTION}{PIPE}{FALLS}'),
    "soil-gas.outlet.from-openings": gas('system = "passive"\n'),
    "soil-gas.outlet.above-roof": gas('system = "passive"\n'),
    "money.fuel": priced('labour = "55 USD/h"'),
    "money.fuel-price": priced(),
    "money.efficiency": priced('fuel = "electricity"\nfuel-price = "0.16 USD/kWh"'),
    "money.labour": priced(),
    "money.price": with_film() + PRICED,
    "money.fuel-carbon": priced('fuel = "electricity"\nefficiency = 3.0\nfuel-price = "0.16 USD/kWh"'),
    "money.embodied": priced().replace("plain-15", "c578-iv"),
    "soil-gas.communication.flow": gas('\n[soil-gas.communication]\nhole = [{ distance = "3 m", vacuum = "5 Pa" }]\n'),
    "soil-gas.communication.vacuum": gas(
        '\n[soil-gas.communication]\nflow = "10 l/s"\nhole = [{ distance = "3 m", vacuum = "5 Pa" }]\n'
    ),
}


OF_A_FILE = "project.local-code"  # its line names a file: tests/told/test_codes_told.py writes one


@pytest.mark.parametrize("row", sorted(row for row in wordings() if input_of(row) in missing_keys() - {OF_A_FILE}))
def test_what_is_missing_is_answered_by_the_line_to_type(row):
    text = MISSING_IN[row]
    about = next(each for each in asked(reads(text)).open if each.row == row)
    said = wordings()[row]
    assert (about.row, about.value) == (row, None)
    line = said.line(about.path, {about.path: about}, typed_in(text), ["A"], "SI")
    before, after = (answer(reads(t)).as_briefed for t in (text, with_line(text, said.table(about.path), line)))
    assert any(finding.missing == about.path for finding in before.findings)
    assert not any(finding.missing == about.path for finding in after.findings)


@pytest.mark.parametrize("path", sorted(wordings()))
def test_a_question_is_a_question_says_where_to_look_and_writes_a_key_of_the_brief(path):
    said = wordings()[path]
    assert said.question.endswith("?") and said.look.endswith(".")
    assert said.place(input_of(path)) in fields()
    if said.plausible is not None:
        assert said.plausible["low"] < said.plausible["high"] and said.plausible["unit"] in UNITS
        assert said.plausible["seen"] == "practice" and said.plausible["where"]


def test_a_caution_stands_beside_digging_at_a_footing():
    for path in ("floor.available-depth", "edge.footing.width", "edge.footing.height"):
        assert "structural engineer" in wordings()[path].caution


# What is chosen.


def finding(verdict: str, value: float = 1.0) -> Finding:
    if verdict == "cannot tell":
        return Finding("height.depth", "Depth", 0.25, "m", missing="load")
    margin = {"meets": value, "falls short": -value}[verdict]
    return Finding("height.depth", "Depth", margin, "m", limit=0.0, sense="at least")


def question(taken: Finding, low: Finding | None, high: Finding | None, value: float | None = 5.0):
    """A question of which only the turns are known."""
    from underpour.ask.questions import Question

    about = Open("floor.humidity", value, 0.0, 10.0, "%", "", "floor.humidity")
    ends = [End(at, named([f])) if f else None for at, f in ((0.0, low), (10.0, high))]
    turns = turned(named([taken]), about, *ends)
    needed, turning = first_turn(turns, about)
    moved = moves(IN_A_ROOM, named([taken]), *ends)
    return Question(about, (), "", "", "", turns, turning, needed, moved, ("", ""), "", "", 0, "")


def test_a_verdict_turns_where_the_straight_line_between_the_margins_is_nought():
    asked_for = question(finding("meets", 1.0), finding("meets", 9.0), finding("falls short", 4.0))
    assert (asked_for.turning, asked_for.needed) == (6.0, pytest.approx(0.1))
    assert asked_for.towards_short == 1


def test_what_would_fall_short_is_asked_before_what_would_meet_and_the_nearer_before_the_further():
    near = question(finding("meets", 1.0), None, finding("falls short", 4.0))
    far = question(finding("meets", 4.0), None, finding("falls short", 1.0))
    mends = question(finding("falls short", 0.1), finding("meets", 4.0), None)
    assert sorted([mends, far, near], key=decisive) == [near, far, mends]


def test_an_input_that_turns_nothing_is_no_question():
    assert question(finding("meets"), finding("meets", 2.0), finding("meets", 3.0)).turns == ()


def test_a_number_that_no_longer_applies_is_no_question():
    stated, gone = (Finding("heat.u-floor", "U", v, "W/(m²·K)", no_limit=n) for v, n in STATED)
    assert question(stated, gone, stated).turns == ()
    assert len(question(finding("meets"), replace(gone, id="height.depth"), None).turns) == 1


STATED = ((0.2, "stated"), (None, "does not apply"))


def test_an_end_that_is_what_was_taken_is_not_tried(monkeypatch):
    """The ground that is assumed where none is told holds as much heat as its low."""
    tried = []

    def noted(taken, path, value):
        tried.append((path, value))
        return at_end(taken, path, value)

    monkeypatch.setattr("underpour.ask.asking.at_end", noted)
    found = asked(reads(bare("dwelling", "raft")))
    (heat_capacity,) = (each for each in found.open if each.path == GROUND[1])
    assert heat_capacity.low == heat_capacity.value
    assert [value for path, value in tried if path == GROUND[1]] == [heat_capacity.high]


def test_a_missing_input_without_a_range_is_asked_as_it_is():
    about = Open("load", None, None, None, "", "", "load")
    turns = turned(named([finding("cannot tell")]), about, None, None)
    assert len(turns) == 1 and first_turn(turns, about) == (0.0, None)
    other = Open("floor.humidity", None, None, None, "", "", "floor.humidity")
    assert turned(named([finding("cannot tell")]), other, None, None) == ()


def test_two_inputs_that_one_line_answers_are_one_question():
    found = asked(reads(bare("dwelling", "frost-wall", "footing-wall")))
    assert len({(q.table, q.line.partition("=")[0]) for q in found.questions}) == len(found.questions)
    ground = question(finding("meets"), None, finding("falls short"))
    two = [replace(ground, about=replace(ground.about, path=p, row=p)) for p in GROUND]
    (one,) = together(two)
    assert (one.about.path, one.also) == (GROUND[0], GROUND[1:])


GROUND = ("site.ground.conductivity", "site.ground.heat-capacity")


def test_at_most_three_are_asked_and_the_others_are_counted():
    """Humidity is typed so that mould sets in within a hair: whatever moves the corner turns it."""
    text = bare("dwelling", "frost-wall")
    factor = answer(reads(text)).as_briefed.find("moisture.surface-factor", surface="floor")
    found = asked(reads(with_line(text, "floor", f'humidity = "{edge_of_mould(text, factor.value):.3f} %"')))
    assert len(found.questions) == MOST == 3
    assert len(found.further) >= 2
    told = questions_text(found, 80)
    assert "Three answers turn a verdict." in told
    many = len(found.further)
    words = f"{many} more answers would turn a verdict too: {', '.join(found.further)}."
    assert words in " ".join(told.split())


def edge_of_mould(text: str, factor: float) -> float:
    """Humidity just below that at which the floor's coldest place would fall short."""
    from underpour.physics.moisture import air as moisture

    resolved = resolve(reads(text).brief)
    cold = resolved.outdoor_mean - abs(resolved.outdoor_swing)
    surface = cold + factor * (resolved.room.mean - cold)
    return 80.0 * moisture.saturation_pressure(surface) / moisture.saturation_pressure(resolved.room.mean) - 0.01


# What is read.


def plain(text: str) -> str:
    return " ".join(text.replace(THIN, " ").split())


def test_where_no_answer_turns_a_verdict_that_is_said_and_what_moves_the_heat_most_is_asked():
    found = of_example("frost-wall-workshop")
    told = plain(questions_text(found, 80))
    assert not found.decides
    assert "No answer turns a verdict. This moves the heat loss or the coldest floor most:" in told
    assert [q.about.path for q in found.questions] == ["site.surface.thawing"]
    loss, _ = found.questions[0].moves
    assert min(loss.at_low, loss.at_high) < loss.as_taken < max(loss.at_low, loss.at_high)
    assert "The heat loss is 2902 Btu/h (851 W), and lies between" in told
    less = "site.ground.conductivity, site.ground.heat-capacity, foam.water.plain-25, floor.cooled."
    assert f"Moves less: {less}" in told


def test_a_floor_that_takes_heat_in_and_a_slab_outdoors_are_told_in_their_own_words():
    by_key = {each.key: each.text for each in starters()}
    told = plain(questions_text(asked(reads(by_key["cold-store"])), 80))
    assert "This moves the heat taken in or the coldest floor most:" in told
    assert "The heat taken in is 5817 Btu/h (1705 W), and lies between 5260 Btu/h" in told
    typed = 'freezing-index = "1800 K·d"\nwater-table = "6 m"\n\n[plan]'
    cold = by_key["pool-surround"].replace("[plan]", typed, 1)
    told = plain(questions_text(asked(reads(cold)), 80))
    assert "This moves the coldest ground under the slab most:" in told and "heat loss" not in told


def test_a_brief_that_leaves_nothing_open_has_nothing_to_ask():
    text = EXAMPLES["daylight-basement"].read_text("utf-8") + '\n[foam]\nwater = { plain-15 = "2.3 %" }\n'
    text = with_line(text, "site", "surface = { freezing = 1, thawing = 1 }")
    found = asked(reads(with_line(text, "floor", "cooled = false")))
    assert found.open == found.questions == ()
    assert plain(questions_text(found, 80)).endswith("Nothing to ask: the brief leaves nothing open.")


def test_what_turns_no_verdict_and_moves_no_heat_is_not_asked():
    """A warehouse in a mild place with foam all round: only its humidity is open, and no plausible one brings mould."""
    text = EXAMPLES["raft-house"].read_text("utf-8").replace('use   = "dwelling"', 'use   = "warehouse"')
    text = text.replace('inside   = "20 C"', 'inside   = "9 C"')
    text = text.replace('humidity = "55 %"', 'available-depth = "300 mm"\ncooled = false').replace(
        "film-10-mil", "sheet-10"
    )
    ground = 'ground = { conductivity = "2 W/(m·K)", heat-capacity = "2 MJ/(m³·K)" }'
    wet = '\n[foam]\nwater = { c578-ii = "3 %", c578-iv = "0.3 %" }\n'
    found = asked(reads(text.replace('ground = "sand-or-gravel"', ground) + wet))
    assert [each.path for each in found.open] == ["floor.humidity", "site.surface"] and not found.questions
    told = plain(questions_text(found, 80))
    assert "Nothing to ask: no answer to what the brief leaves open turns a verdict or moves the heat loss" in told
    assert told.endswith("Left open: floor.humidity, site.surface.")


def test_the_words_of_a_question_tell_what_turns_where_and_what_to_type():
    told = plain(questions_text(of_example("raft-house"), 80))
    for words in (
        "One answer turns a verdict.",
        "1 How deep is it from the top of the finished floor to the dug ground?",
        "The brief does not say. It lies between 152 mm (6 in) and 457 mm (18 in): 6 to 18 in are dug",
        "Depth that the build-up needs: cannot be told as briefed. With 152 mm it falls short, with 457 mm it meets.",
        "It turns at about 250 mm (9.84 in).",
        "Mind: Digging deeper beside a footing can undermine it. Ask a structural engineer first.",
        'and put what was found where a number stands: available-depth = "305 mm"',
        "Write below [floor], line 17, and put",
        "so it need not be asked: site.ground.conductivity, site.ground.heat-capacity, foam.water.c578-ii",
    ):
        assert words in told


def test_a_line_that_stands_already_is_named_to_be_replaced():
    covered = with_line(
        EXAMPLES["frost-wall-workshop"].read_text("utf-8"), "site", "surface = { freezing = 1, thawing = 1 }"
    )
    told = plain(questions_text(asked(reads(covered, str(EXAMPLES["frost-wall-workshop"]))), 80))
    assert 'Write in line 11, in place of "silty-clay-moist", and put what was found' in told
    assert 'A name will do: ground = "clay-wet", or the nearest of underpour catalogue list grounds.' in told


@pytest.mark.parametrize("name", ASKED)
def test_no_line_but_the_one_to_type_is_wider_than_the_terminal(name):
    found = of_example(name)
    to_type = {q.line for q in found.questions}
    for width in (60, 100):
        lines = questions_text(found, width).splitlines()
        assert not [line for line in lines if len(line) > width and line.strip() not in to_type]


# The command.


def test_the_schema_is_itself_a_schema():
    Draft202012Validator.check_schema(SCHEMA)


@pytest.mark.parametrize("name", ASKED)
def test_the_json_of_each_example_follows_the_schema(name):
    text = as_json(of_example(name))
    assert not [error.message for error in Draft202012Validator(SCHEMA).iter_errors(json.loads(text))]
    assert Draft202012Validator(SCHEMA).is_valid(json.loads(text.replace("questions/1", "questions/2"))) is False


def test_asking_ends_with_nought_whatever_falls_short(capsys):
    assert main(["ask", str(EXAMPLES["frost-wall-workshop"])]) == 0
    assert "Boat workshop" in capsys.readouterr().out
    assert main(["ask", "--json", str(EXAMPLES["daylight-basement"])]) == 0
    assert json.loads(capsys.readouterr().out)["format"] == "questions/1"


def test_a_brief_that_cannot_be_used_is_refused_with_all_its_mistakes(tmp_path, capsys):
    text = bare("dwelling", "raft").replace('"Duluth, MN"', '"Dulut, MN"').replace("plain-15", "plian-15")
    (tmp_path / "brief.toml").write_text(text, "utf-8")
    assert main(["ask", str(tmp_path / "brief.toml")]) == 2
    said = capsys.readouterr().err
    assert "site.place" in said and "plian-15" in said and "Nothing to ask" not in said


@pytest.mark.parametrize(
    ("words", "said"),
    [
        (["ask"], "Which brief?"),
        (["ask", "nowhere.toml"], "There is no such file."),
        (["ask", "--jsn", "brief.toml"], "Did you mean --json?"),
        (["ask", "one.toml", "two.toml"], "The command does not take this."),
        (["aks", "brief.toml"], "Did you mean ask?"),
    ],
)
def test_odd_words_are_answered_with_what_to_type(words, said, capsys, monkeypatch, tmp_path):
    monkeypatch.chdir(tmp_path)
    assert main(words) == 2
    assert said in capsys.readouterr().err


def test_a_missing_load_is_asked_with_a_table_for_each_edge_and_the_engineer_is_named():
    text = on_foam().replace('sides = "rest"', "sides = [1]")
    second = text[text.index("[[edge]]") :].replace("sides = [1]", 'name = "north"\nsides = "rest"')
    found = asked(reads(f"{text}\n{second}"))
    (load,) = (question for question in found.questions if question.about.path == "load")
    assert load.line.count("[[load]]") == len(load.turns) == 2 and 'at = "edge north"' in load.line
    told = plain(questions_text(found, 80))
    assert "The brief does not say. Pressure of the wall on the foam" in told and "Any answer turns it." in told
    assert "Mind: A structural engineer gives this load" in told
    assert "Write at the end of the brief, and put what was found where a number stands: [[load]]" in told


def test_an_end_with_which_the_brief_cannot_be_built_is_told_and_the_other_end_still_counts():
    """The foam outside ends 250 mm above the bottom of the footing: on a footing of 300 mm it would lie in it."""
    piece = '{ board = "plain-15", thickness = "2 in", face = "outside", down = "940 mm" }'
    text = with_line(bare("dwelling", "frost-wall"), "edge.A", f"insulation = [{piece}]")
    end = at_end(as_taken(reads(text)), "edge.A.footing.height", 0.3)
    assert not end.findings and "the footing stands out" in end.unbuildable
    height = question(finding("meets"), None, None)
    about = replace(height.about, path="edge.A.footing.height", unit="m", value=0.25, low=0.2, high=0.3)
    found = of_example("raft-house")
    one = replace(found.questions[0], about=about, unbuildable=("", end.unbuildable))
    told = plain(questions_text(replace(found, questions=(one,)), 80))
    assert "With 300 mm (11.8 in) it cannot be built: This foam reaches 940 mm" in told


def test_the_answer_to_a_caller_is_there_while_he_is_on_the_line():
    """The help comes without numpy, as every command's does."""
    ask = "import sys; from underpour.cli import main; main(['ask', '--help']); print('numpy' in sys.modules)"
    env = {**os.environ, "PYTHONPATH": str(ROOT / "src")}
    told = subprocess.run([sys.executable, "-c", ask], capture_output=True, text=True, check=True, env=env).stdout
    assert told.splitlines()[-1] == "False" and "underpour ask BRIEF [--json]" in told


def test_every_kind_of_edge_is_walked():
    assert len(each_kind()) == len(get_args(Kind))
