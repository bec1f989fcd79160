"""What a crew, an official and an owner read of the laying: words, numbers, cautions, who confirms."""

from __future__ import annotations

import re
from collections.abc import Iterator
from functools import cache

import pytest

import laid_at_random as made
from test_words import wrong_words
from underpour import catalogue
from underpour.findings import Accepted, Finding
from underpour.laying import Laying, confirmers, laying, sequence
from underpour.laying import table as tables
from underpour.laying.records import Work
from underpour.laying.things import things
from underpour.measure import length, say
from underpour.resolve import Resolved, resolve
from underpour.sections.build import section

SEEDS = range(200, 330)
EDGE = made.edge_of("frost-wall", {"outside": made.BOARDS[0]})
BELOW = made.edge_of("frost-wall", {"below-footing": made.BOARDS[0]})
BASEMENT = made.edge_of("footing-wall", {}, ground="4 ft")
FREEZER = made.brief([made.SLAB], EDGE, use="cold-store", more='inside = "-20 C"')


@cache
def built() -> list[tuple[int, Resolved, Laying]]:
    return list(made.buildable(SEEDS))


def texts(laying: Laying) -> Iterator[str]:
    for work in laying.sequence:
        yield from (work.what, work.where, *work.how, work.source)
        yield from [work.mind] if work.mind else []
    for point in laying.inspection:
        yield from (point.before, point.look_at, point.wanted, point.how, point.who, *point.sign)
    for confirmer in laying.confirmers:
        yield from (confirmer.who, confirmer.before, confirmer.why, *confirmer.what)
    for product in laying.products:
        yield from (product.name, product.what, *product.cls, *product.where, *product.evidence)
        for row in product.rows:
            yield from (row.name, row.value, row.source)


def of(laying: Laying, key: str) -> Work:
    return next(work for work in laying.sequence if work.key == key)


def plain(text: str) -> str:
    return text.replace("\N{THIN SPACE}", " ")


def test_no_text_is_empty_or_has_a_slot_left():
    for seed, _, laid in built():
        for text in texts(laid):
            assert text.strip() == text and text, seed
            assert not re.search(r"[{}]|None|nan|  | [,.;:]|\.\.", text), f"{seed}: {text}"


def test_words_that_stay_off_stay_off():
    for seed, _, laid in built():
        found = [(text, words) for text in texts(laid) if (words := wrong_words(text))]
        assert not found, seed


def test_sentences_end_and_begin_as_sentences():
    for seed, _, laid in built():
        for work in laid.sequence:
            for text in (*work.how, *([work.mind] if work.mind else [])):
                assert text[0].isupper() and text.endswith("."), f"{seed}: {text}"
                assert max(map(len, re.split(r"[.:;] ", text))) < 175, f"{seed}: {text}"
        for confirmer in laid.confirmers:
            assert all(text[0].isupper() and text.endswith(".") for text in confirmer.what), seed


WORDS = {  # a word of the texts, and whether a brief has what it names
    r"\bfilm\b": lambda r: _kind(r, "vapour-retarder"),
    r"\bgravel\b": lambda r: _kind(r, "gravel"),
    r"\bsand\b": lambda r: _kind(r, "sand"),
    r"\bscreed\b": lambda r: _kind(r, "screed"),
    r"\bold slab\b": lambda r: _kind(r, "old-slab"),
    r"\b(?:foam|boards?)\b": lambda r: any(p for p in _boards(r)),
    r"\bfooting\b": lambda r: any(e.footing[1] for e in r.edges),
    r"\bwing\b": lambda r: any(p.face == "wing" for e in r.edges for p in e.pieces),
    r"\bgrey foam\b": lambda r: any(b.hatch == "foam-graphite" for b in _boards(r)),
}


def _kind(resolved: Resolved, kind: str) -> bool:
    return any(layer.kind == kind for layer in resolved.floor)


def _boards(resolved: Resolved) -> list:
    edges = [piece.board for edge in resolved.edges for piece in edge.pieces]
    drawn = [body.slice for edge in resolved.edges for body in edge.drawn if body.slice.kind == "board"]
    return [*resolved.boards, *edges, *drawn]


@pytest.mark.parametrize("word", WORDS)
def test_nothing_is_named_that_the_brief_has_not(word):
    named = 0
    for seed, resolved, laid in built():
        said = [text for work in laid.sequence for text in (work.what, *work.how)]
        said += [text for point in laid.inspection for text in (point.look_at, point.wanted)]
        ground = resolved.ground.words.lower()
        hits = [text for text in said if re.search(word, text.replace(ground, ""), re.I)]
        named += bool(hits)
        assert WORDS[word](resolved) or not hits, f"{seed}: {hits}"
    assert named, "no seed names it"


def test_each_thing_is_laid_by_its_own_words():
    """The thickness as typed, the other system beside it, just as `measure.say` has it."""
    for seed, resolved, laid in built():
        by_path = {path: " ".join(work.how) for work in laid.sequence for path in work.laid}
        pieces = [piece.board for edge in resolved.edges for piece in edge.pieces]
        for layer in (*resolved.laid, *pieces):
            said = layer.words if layer.kind == "board" else layer.words[1:]
            assert said in by_path[layer.path.rsplit(".", 1)[0]], f"{seed}: {layer.path}"


@pytest.mark.parametrize("units", ["US", "SI"])
def test_numbers_are_those_of_the_brief(units):
    text = made.brief([made.SLAB, made.GRAVEL], EDGE, units=units, more='available-depth = "8 in"')
    resolved, laid = made.laid(text)
    both = {
        name: say.both(inches * 0.0254, "m", units)
        for name, inches in {"dug": 8, "total": 9, "over": 1, "deep": 60}.items()
    }
    dig, trench, outside = (" ".join(of(laid, key).how) for key in ("dig", "trench", "foam-outside"))
    assert f"The layers take {both['total']} and the brief has {both['dug']}: dig {both['over']} deeper" in dig
    assert f"Dig to {both['deep']} below the top of the floor" in trench
    footing_top = say.both(60 * 0.0254 - resolved.edges[0].footing[1], "m", units)
    assert f"from the top of the floor down to {footing_top} below it" in outside
    look = next(point for point in laid.inspection if point.look_at == "Edge A: ground outside")
    assert say.both(8 * 0.0254, "m", units) in look.wanted


def test_foam_up_to_the_top_of_the_wall_says_so():
    edge = made.edge_of("footing-wall", {"inside": made.BOARDS[0]}, ground="4 ft")
    _, laid = made.laid(made.brief([made.SLAB], edge))
    assert any(
        "from the top of the wall down to the top of the floor" in text for text in of(laid, "foam-inside-high").how
    )


def test_measures_of_the_trade_are_the_same_in_both_systems():
    for key, row in tables.table("sequence")["measures"].items():
        assert length(row["US"]).si == pytest.approx(length(row["SI"]).si, rel=0.1), key
        assert row["source"] and row["where"] and row["seen"] in ("memory", "practice"), key


def test_a_word_that_nobody_fills_is_found_out(monkeypatch):
    """A row that asks for a word which its thing has not."""
    rows = tables.table("sequence")
    spoilt = {**rows, "after": [*rows["after"], {**rows["after"][-1], "how": ["Bring {coffee}."]}]}
    monkeypatch.setattr(sequence, "table", lambda name: spoilt if name == "sequence" else tables.table(name))
    with pytest.raises(KeyError, match="coffee"):
        made.laid(made.brief([made.SLAB], EDGE))


def test_a_caution_stands_where_the_act_happens():
    for seed, resolved, laid in built():
        burns = {board.path.rsplit(".", 1)[0]: board.combustible for board in _boards(resolved)}
        for work in laid.sequence:
            if work.key in ("dig", "trench", "dig-outside"):
                assert "fall in without warning" in work.mind, seed
            elif work.key == "foam-below-footing":
                assert "structural engineer" in work.mind.lower(), seed
            elif work.laid and all(path in burns for path in work.laid):
                assert ("burns" in work.mind) == any(burns[path] for path in work.laid), f"{seed}: {work.key}"
            elif work.key == "pour":
                assert "burns skin" in work.mind, seed


def test_an_invented_product_says_so():
    for seed, _, laid in built():
        for product in laid.products:
            assert product.invented == ("(invented)" in product.name) == (product.maker == "Marlpit Board Works"), seed


def test_each_product_stands_once_with_every_place_where_it_lies():
    faces = {"outside": made.BOARDS[0], "slab-edge": made.BOARDS[0]}
    _, laid = made.laid(
        made.brief([made.SLAB, made.BOARDS[0], made.FILM, made.GRAVEL], made.edge_of("frost-wall", faces))
    )
    names = [product.name for product in laid.products]
    assert len(names) == len(set(names)) and names[0] == "Marlpit Plain 25 (invented)"
    board = laid.products[0]
    assert [plain(where) for where in board.where] == [
        "In the floor, 2 in (51 mm)",
        "Edge A, outside the wall, 2 in (51 mm)",
        "Edge A, at the slab's edge, 2 in (51 mm)",
    ]
    assert board.rests_on == ("floor.build-up.2.board", "edge.A.insulation.1.board", "edge.A.insulation.2.board")
    assert board.cls[0] == "ASTM C578 type IX"


def test_an_index_of_fire_is_no_share_and_says_what_it_does_not_tell():
    _, laid = made.laid(made.brief([made.SLAB, made.BOARDS[0]], EDGE))
    rows = {row.name: row for row in laid.products[0].rows}
    assert rows["Flame spread index"].value == "20"
    assert rows["Smoke developed index"].value == "350"
    assert "no forecast of a real fire" in rows["Flame spread index"].terms


@pytest.mark.parametrize("units", ["US", "SI"])
def test_product_data_are_the_catalogues(units):
    _, laid = made.laid(made.brief([made.SLAB, made.BOARDS[0]], EDGE, units=units))
    rows = {row.name: row for row in laid.products[0].rows}
    board = catalogue.shipped_products().board("plain-25")
    assert rows["Compressive strength"].value == say.both(board.strength.value, "kPa", units)
    assert "MB-03-COM" in rows["Compressive strength"].terms
    assert rows["Water taken up, by volume"].value == plain_percent(1.5)
    assert rows["R-value as labelled, 2 in (51\N{THIN SPACE}mm)"].value == say.both(
        board.made[2].r_label.value, "m²·K/W", units
    )
    reports = [line for line in laid.products[0].evidence if "record MB-03" in line]
    assert len(reports) == len(board.tested)
    assert "The catalogue names the reports and does not hold them" in laid.products[0].evidence[-1]


def plain_percent(value: float) -> str:
    return say.value(value, "%", "US")


def test_a_class_is_told_to_be_no_product_yet():
    _, laid = made.laid(made.brief([made.SLAB, made.BOARDS[2]], made.edge_of("raft", {})))
    assert laid.products[0].cls == ("XPS, ASTM C578 type IV",) and not laid.products[0].maker
    assert laid.products[0].evidence[0].startswith("This is a class and no product yet.")


def test_a_conductivity_typed_in_the_brief_stands_beside_the_product():
    typed = made.BOARDS[0].replace("}", ', conductivity = "0.05 W/(m·K)" }')
    _, laid = made.laid(made.brief([made.SLAB, typed], EDGE, units="SI"))
    named = [row.name for row in laid.products[0].rows]
    assert "Conductivity, typed in the brief" in named and "Conductivity in place" in named


def test_a_look_at_one_edge_does_not_bear_on_another():
    text = made.brief(
        [made.SLAB],
        made.edge_of("raft", {"slab-edge": made.BOARDS[0]}, sides="[1]")
        + "\n"
        + made.edge_of("raft", {}, sides='"rest"'),
    )
    resolved = resolve(made.reads(text).brief)
    cut = {edge.letter: section(resolved, edge) for edge in resolved.edges}
    findings = [
        Finding(
            "heat.edge-psi",
            "Edge",
            1.0,
            "W/(m·K)",
            at={"edge": letter},
            rests_on=(f"edge.{letter}.insulation.1.thickness",),
        )
        for letter in "AB"
    ]
    only_b = laying(resolved, cut, findings[1:])
    assert not [point for point in only_b.inspection if point.rests]
    assert [each.finding for each in only_b.unseen] == ["heat.edge-psi"]
    with_a = laying(resolved, cut, findings)
    assert [point.look_at for point in with_a.inspection if point.rests] == ["Edge A: foam at the slab's edge"]


def test_a_look_found_by_the_id_bears_on_its_own_edge_alone():
    both = made.edge_of("raft", {"slab-edge": made.BOARDS[0]}, sides="[1]") + "\n"
    both += made.edge_of("raft", {"slab-edge": made.BOARDS[2]}, sides='"rest"')
    resolved = resolve(made.reads(made.brief([made.SLAB], both)).brief)
    cut = {edge.letter: section(resolved, edge) for edge in resolved.edges}
    of_b = Finding("code.slab-edge", "Foam at the edge", 1.0, "m²·K/W", at={"edge": "B"})
    bearing = [point.look_at for point in laying(resolved, cut, [of_b]).inspection if point.rests]
    assert bearing == ["Edge B: foam at the slab's edge"]


SHORT = Finding("heat.floor-coldest", "Coldest floor", 14.0, "degC", at={"edge": "A"}, limit=15.0, sense="at least")
UNTOLD = Finding("height.depth", "Depth", 0.2, "m", missing="floor.available-depth")


def asked(text: str, *findings: Finding) -> dict[str, str]:
    """What each person is asked, in one breath."""
    resolved = resolve(made.reads(text).brief)
    there = things(resolved, {edge.letter: section(resolved, edge) for edge in resolved.edges})
    found: dict[str, str] = {}
    for each in confirmers(there, findings, resolved.system):
        found[each.who] = " ".join([found.get(each.who, ""), *each.what])
    return found


def test_the_owner_is_asked_of_what_falls_short_and_what_cannot_be_told():
    text = made.brief([made.SLAB], EDGE)
    assert "Coldest floor, edge A: 57.2 °F (14.0 °C), wanted at least 59.0 °F" in plain(asked(text, SHORT)["Owner"])
    assert "type floor.available-depth" in asked(text, UNTOLD)["Owner"]
    assert "Coldest" not in asked(text)["Owner"]


def test_what_was_accepted_is_told_as_accepted():
    taken = Finding(
        "heat.floor-coldest", "Coldest floor", 14.0, "degC", limit=15.0, sense="at least",
        accepted=Accepted("Storage only.", "A. Owner", "2026-11-25"),
    )  # fmt: skip
    said = asked(made.brief([made.SLAB], EDGE), taken)["Owner"]
    assert "Accepted by A. Owner on 25 November 2026: Storage only." in said and "have it changed" not in said


@pytest.mark.parametrize(
    ("text", "who", "what"),
    [
        (made.brief([made.SLAB], EDGE), "Building official", "What the local code asks"),
        (made.brief([made.SLAB], EDGE), "Structural engineer", "The slab:"),
        (made.brief([made.SLAB], EDGE), "Radon measurement professional", "The radon in the closed building"),
        (made.brief([made.SLAB], EDGE), "Electrician", "foam parts the concrete from the soil"),
        (made.brief([made.SLAB], EDGE), "Building official", "termites"),
        (made.brief([made.SLAB, made.FILM], EDGE), "Electrician", "film parts the slab from the soil"),
        (made.brief([made.SLAB, made.BOARDS[0]], EDGE), "Structural engineer", "The pressure on the foam"),
        (made.brief([made.SLAB], BELOW), "Structural engineer", "below the footing of edge A"),
        (made.brief([made.SLAB], BASEMENT), "Structural engineer", "filled against"),
        (made.brief([made.SLAB], EDGE, more="frozen"), "Geotechnical engineer", "frozen all year"),
        (FREEZER, "Designer of cold stores", "kept from freezing"),
        (made.brief([made.SLAB, '{ old-slab = "4 in" }'], EDGE), "Licensed asbestos inspector", "free of asbestos"),
        (made.brief([made.SLAB], EDGE), "Competent person for excavation", "sloped or shored"),
    ],
)
def test_who_must_confirm_follows_from_the_brief(text, who, what):
    assert what in asked(text)[who]


@pytest.mark.parametrize(
    ("text", "who"),
    [
        (made.brief([made.SLAB], made.edge_of("free-edge", {}), use="drive"), "Radon measurement professional"),
        (made.brief([made.SLAB, made.GRAVEL], made.edge_of("raft", {})), "Electrician"),
        (made.brief([made.SLAB], EDGE), "Licensed asbestos inspector"),
        (made.brief([made.SLAB, '{ old-slab = "4 in" }'], made.edge_of("raft", {})), "Competent person for excavation"),
        (made.brief([made.SLAB], EDGE), "Designer of cold stores"),
    ],
)
def test_nobody_is_asked_without_cause(text, who):
    assert who not in asked(text)


@pytest.mark.parametrize(
    ("depth", "said"),
    [
        ("9 in", "Dig to 9 in (229 mm) below the top of the floor; the layers take 9 in (229 mm)."),
        (
            "12 in",
            (
                "Dig to 12 in (305 mm) below the top of the floor, as the brief has it. "
                "The layers take 9 in (229 mm): make up 3 in (76 mm) with firm fill, level."
            ),
        ),
        (
            "8 in",
            (
                "The layers take 9 in (229 mm) and the brief has 8 in (203 mm): "
                "dig 1 in (25 mm) deeper, or ask for thinner layers first."
            ),
        ),
    ],
)
def test_the_dug_depth_is_held_against_the_layers(depth, said):
    _, laid = made.laid(made.brief([made.SLAB, made.GRAVEL], EDGE, more=f'available-depth = "{depth}"'))
    assert plain(of(laid, "dig").how[1]) == said


def test_foam_past_the_floor_waits_for_the_wall_above():
    raised = made.edge_of("frost-wall", {"outside": made.BOARDS[0]}, raised=True)
    waits = "What goes up past the floor follows when the wall above stands."
    assert waits in of(made.laid(made.brief([made.SLAB], raised))[1], "foam-outside").how
    assert waits not in of(made.laid(made.brief([made.SLAB], EDGE))[1], "foam-outside").how


@pytest.mark.parametrize(
    ("layers", "said"),
    [
        ([made.SLAB, made.GRAVEL], "Pour concrete, 5 in (127 mm) on the gravel, up to the top of the floor."),
        (
            ['{ screed = "2 in" }', made.BOARDS[0], made.SLAB],
            "Pour concrete, 5 in (127 mm) on the ground, up to 4 in (102 mm) below the top of the floor.",
        ),
    ],
)
def test_concrete_is_poured_up_to_what_lies_on_it(layers, said):
    _, laid = made.laid(made.brief(layers, EDGE))
    assert plain(of(laid, "pour").how[0]) == said
