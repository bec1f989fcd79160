"""An R in the place of a thickness, air spaces, and what foil and bubble sheets are worth, as a user reads it."""

from __future__ import annotations

from functools import cache

import pytest
from pytest import approx

from underpour.answer import findings
from underpour.brief import reads
from underpour.checks import build_up
from underpour.cut import sketched_edges
from underpour.findings import Finding
from underpour.measure import resistance as typed
from underpour.mistakes import Mistakes
from underpour.resolve import Resolved, resolve
from underpour.sections.build import section
from underpour.substitution import substitution

BRIEF = """\
[project]
use = "USE"
units = "UNITS"

[site]
place = "Duluth, MN"
ground = "clay-or-silt"

[plan]
outline = ["0 0", "40 0", "40 28", "0 28"]
unit = "ft"

[floor]
inside = "INSIDE"
build-up = [
  { concrete = "4 in" },
  LAYERS
  { gravel = "4 in" },
]

[[edge]]
sides = "all"
kind = "frost-wall"
depth = "60 in"
insulation = [INSULATION]
"""
CLOSED = '{ board = "plain-15", thickness = "1 in" }, '


def text(layers: str, insulation: str = "", units: str = "US", inside: str = "68 F", use: str = "workshop") -> str:
    made = BRIEF.replace("LAYERS", f"{layers}," if layers else "").replace("INSULATION", insulation)
    return made.replace("UNITS", units).replace("INSIDE", inside).replace("USE", use)


@cache
def resolved(layers: str, insulation: str = "", **more: str) -> Resolved:
    return resolve(reads(text(layers, insulation, **more)).brief)


def mistake(layers: str, insulation: str = "", units: str = "US") -> str:
    """What is told, by its path, in one line."""
    with pytest.raises(Mistakes) as caught:
        resolve(reads(text(layers, insulation, units)).brief)
    return " | ".join(" ".join(str(each).split()) for each in caught.value)


def wanted(made: Resolved) -> list[Finding]:
    return list(build_up.wanted(made))


# an R in the place of a thickness


def test_the_thinnest_thickness_made_that_reaches_r_10_is_taken():
    made = resolved('{ board = "plain-15", r = "R10" }')
    (board,) = made.boards
    assert board.words == "Marlpit Plain 15 (invented), 2-1/2 in (64\u2009mm)"
    (found,) = wanted(made)
    assert found.verdict == "meets"
    assert found.value == approx(typed("R10.2").si)
    assert found.words == (
        "R10 (RSI 1.76) is wanted. 2-1/2 in is the thinnest made that reaches it, R-10.2 as labelled and R-10.0 in "
        "place. The next thinner, 2 in, has R-8.1."
    )


def test_the_next_thinner_falls_short_of_it():
    (thinner,) = resolved('{ board = "plain-15", thickness = "2 in" }').boards
    assert thinner.r_label is not None
    assert thinner.r_label < typed("R10").si


def test_a_label_just_at_the_wanted_r_reaches_it():
    (board,) = resolved('{ board = "plain-15", r = "R8.1" }').boards
    assert board.thickness == approx(0.0508)


def test_what_one_board_cannot_reach_is_laid_in_layers_with_crossed_joints():
    made = resolved('{ board = "plain-15", r = "R25" }')
    (board,) = made.boards
    assert board.words.endswith("4 in + 2-1/2 in (165\u2009mm), joints crossed")
    (found,) = wanted(made)
    assert "No single board reaches it; 4 in + 2-1/2 in is the thinnest stack that does" in found.words
    assert "Cross the joints of one layer with the next." in found.words


def test_where_layers_would_be_thinner_than_one_board_they_are_offered():
    """R-18: 6 in alone has R-24.4, 4 in and 1 in together R-20.4 in 5 in."""
    (found,) = wanted(resolved('{ board = "plain-15", r = "R18" }'))
    assert "6 in is the thinnest made that reaches it" in found.words
    assert "joints crossed, it would be thinner: write a layer for each." in found.words


def test_a_class_is_taken_in_steps_of_the_trade():
    """ASTM C578 type II has R-4.0 an inch: R-10 takes 2-1/2 in, R-10.1 takes 2-3/4 in; in metric steps 70 mm."""
    assert resolved('{ board = "c578-ii", r = "R10" }').boards[0].words.endswith("2½ in (64\u2009mm)")
    assert resolved('{ board = "c578-ii", r = "R10.1" }').boards[0].thickness == approx(0.06985)
    assert resolved('{ board = "c578-ii", r = "RSI 1.80" }', units="SI").boards[0].thickness == approx(0.07)


def test_foam_at_an_edge_is_taken_by_its_r_too():
    made = resolved("", '{ board = "plain-15", r = "R8", face = "outside", down = "48 in" }')
    assert made.edges[0].pieces[0].board.thickness == approx(0.0508)
    (found,) = wanted(made)
    assert found.at == {"edge": "A", "piece": "1"}
    assert found.verdict == "meets"


def test_a_bare_r_in_a_metric_brief_is_asked_about():
    said = mistake('{ board = "plain-15", r = "R10" }', units="SI")
    assert "floor.build-up.2.r" in said
    assert (
        "R10 in a metric brief is 10 m²·K/W, more than floors are given. Write RSI 1.76 if the label says R-10" in said
    )


def test_a_small_bare_r_in_a_metric_brief_is_metric():
    (found,) = wanted(resolved('{ board = "plain-15", r = "R1.5" }', units="SI"))
    assert found.limit == approx(1.5)


def test_an_r_beyond_any_stack_is_told_with_the_most_there_is():
    said = mistake('{ board = "plain-15", r = "R80" }')
    assert "floor.build-up.2.r" in said
    assert "does not reach R80 (RSI 14.09), laid up to 3 layers thick" in said
    assert "3 layers of 6 in have R-73.2 (RSI 12.89) as labelled" in said


def test_at_an_edge_the_same_is_told_with_its_path():
    assert "edge.A.insulation.1.r" in mistake("", '{ board = "plain-15", r = "R80", face = "slab-edge" }')


def test_foam_at_an_edge_says_how_thick_it_is_once():
    both = mistake("", '{ board = "plain-15", r = "R8", thickness = "2 in", face = "slab-edge" }')
    assert "edge.A.insulation.1.r" in both
    assert "Keep one of the two" in both
    neither = mistake("", '{ board = "plain-15", face = "slab-edge" }')
    assert "edge.A.insulation.1.thickness" in neither
    assert "A board needs its thickness beside it" in neither


# the whole build-up


def test_the_whole_build_up_counts_film_and_layers_and_leaves_the_gravel_out():
    """0.17 + 0.1016/1.65 + the board by label, or as it lies."""
    made = resolved('{ vapour-retarder = "film-15-mil" }, { board = "plain-15", thickness = "2 in" }')
    labelled, in_place = build_up.whole(made)
    (board,) = made.boards
    assert labelled.value == approx(0.17 + 0.1016 / 1.65 + typed("R8.1").si, abs=1e-6)
    assert in_place.value == approx(0.17 + 0.1016 / 1.65 + board.resistance, abs=1e-6)
    assert labelled.words == (
        "A code that asks for an R asks it of the foam alone, as labelled. Not counted: gravel and sand below "
        "everything else, which are ground to ISO 13370; films and foils, too thin to resist."
    )
    assert [step.symbol for step in labelled.steps] == ["R_si", "R", "R", "R_T"]


# air spaces


def air(layers: str, **more: str) -> Finding:
    (found,) = build_up.air_spaces(resolved(layers, **more))
    return found


def test_still_air_under_a_warm_floor_is_worth_about_r_1():
    """ISO 6946, Table 8, 15 to 25 mm, heat going down: 0.17 to 0.19 m²·K/W."""
    found = air(CLOSED + '{ air-space = "3/4 in" }')
    assert 0.17 <= found.value <= 0.19
    assert found.words == (
        "Worth R-1.0, closed all round. Heat goes down through it, and warm air stays on top: the air carries little. "
        "Radiation carries 76 % of the heat, so more thickness adds little. With clean foil on one face it would be "
        "R-3.6, with dulled foil R-2.0."
    )


def test_foil_beside_still_air_lifts_it_and_says_what_damp_takes_away():
    found = air(CLOSED + '{ air-space = "3/4 in" }, { sheet = "double-bubble-foil" }')
    bare = air(CLOSED + '{ air-space = "3/4 in" }')
    assert found.value > 3.0 * bare.value
    assert "Worth R-3.6 while its foil is clean and dry" in found.words
    assert "Dulled by damp the foil gives R-2.0, and none gives R-1.0" in found.words


def test_a_bubble_sheet_without_foil_lifts_no_air_space():
    assert air(CLOSED + '{ air-space = "3/4 in" }, { sheet = "bubble" }').value == approx(
        air(CLOSED + '{ air-space = "3/4 in" }').value
    )


def test_where_heat_goes_up_the_same_space_is_worth_less():
    """A freezer of -20 °C: ISO 6946, Table 8, 50 mm, 0.16 m²·K/W up and 0.21 m²·K/W down."""
    layers = CLOSED + '{ air-space = "50 mm" }'
    down, up = air(layers), air(layers, inside="-20 C", use="cold-store")
    assert down.value == approx(0.21, abs=0.005)
    assert up.value == approx(0.16, abs=0.005)
    assert "Heat goes up through it, so the air turns over" in up.words


def test_an_air_space_says_who_must_say_what_bridges_it():
    layers = CLOSED + '{ air-space = "3/4 in" }'
    made = resolved(layers)
    found = next(each for each in findings(made, sketched_edges(made)) if each.id == "heat.air-space")
    assert "A structural engineer must say what carries it." in found.caution


def test_the_heat_loss_sees_the_air_space_as_what_it_is_worth():
    layers = CLOSED + '{ air-space = "3/4 in" }'
    slice_ = next(layer for layer in resolved(layers).floor if layer.kind == "air-space")
    assert slice_.resistance == approx(air(layers).value)


def test_an_air_space_in_a_wall_is_that_of_heat_going_sideways():
    brief = text("").replace(
        "insulation = []", 'above = [{ masonry = "4 in" }, { air-space = "2 in" }, { masonry = "4 in" }]'
    )
    (_, space, _) = resolve(reads(brief).brief).edges[0].above
    assert space.resistance == approx(0.18)


def test_air_conducts_as_it_must_and_two_spaces_are_one():
    told = mistake(CLOSED + '{ air-space = "1 in", conductivity = "0.025 W/(m·K)" }')
    assert "What air resists follows from its thickness, the faces beside it and the way heat flows." in told
    assert "Two air spaces lie on one another." in mistake(CLOSED + '{ air-space = "1 in" }, { air-space = "1 in" }')


def test_a_sheet_is_no_layer_of_a_wall():
    brief = text("").replace("insulation = []", 'above = [{ sheet = "foil" }, { timber-frame = "5.5 in" }]')
    with pytest.raises(Mistakes) as caught:
        reads(brief)
    assert "A sheet is no layer of a wall." in str(caught.value)


# sheets


def sheet(layers: str) -> Finding:
    (found,) = build_up.sheets(resolved(layers))
    return found


def test_a_bubble_sheet_between_solids_is_worth_about_r_1_and_says_why():
    found = sheet('{ sheet = "double-bubble-foil" }')
    assert found.value == approx(typed("R1").si, rel=0.05)
    assert found.words == (
        "Worth R-1.0, what its thin body gives. Solids touch it on both sides, and a foil keeps back heat only across "
        "still air beside it. Claims of R-10 and more are of systems with such air."
    )


def test_a_foil_between_solids_is_worth_nothing_and_heat_does_not_see_it():
    assert sheet('{ sheet = "foil" }').value == 0.0
    assert resolved('{ sheet = "foil" }').total == resolved("").total


def test_a_foil_without_a_body_is_drawn_as_a_line_and_a_bubble_sheet_as_a_body():
    for layer, lines, bodies in (("foil", 1, 0), ("double-bubble-foil", 0, 1)):
        made = resolved(f'{{ sheet = "{layer}" }}')
        cut = section(made, made.edges[0])
        assert len(cut.films) == lines
        assert sum(part.hatch == "sheet" for part in cut.parts) == bodies


def test_a_board_taken_by_its_r_can_be_replaced():
    reading = reads(text('{ board = "plain-15", r = "R10" }'))
    found = substitution(reading, "plain-15", "graphite-25")
    (proposed,) = found.substitutes
    (exchange,) = proposed.exchanges
    assert (exchange.before, exchange.after) == ("2-1/2 in", "2-1/2 in")
    assert not [each for each in proposed.refusals if each.what == "build-up"]


def test_a_sheet_that_is_leaned_on_for_r_10_falls_short():
    (found,) = wanted(resolved('{ sheet = "double-bubble-foil", r = "R10" }'))
    assert found.verdict == "falls short"
    assert found.words.startswith("R10 (RSI 1.76) is wanted of it. Worth R-1.0")


def test_an_unknown_sheet_is_told_with_the_nearest():
    said = mistake('{ sheet = "double-buble-foil" }')
    assert "No sheet is called double-buble-foil. The nearest is double-bubble-foil." in said
    assert "underpour catalogue list sheets" in said
