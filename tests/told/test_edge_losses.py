"""What each edge loses beside the others: each with its own air, each once, told in words and on the plan."""

from __future__ import annotations

from functools import cache
from pathlib import Path
from xml.etree import ElementTree

import pytest
from pytest import approx
from tests.exact.test_beside import text as square

from underpour.answer import answer, findings
from underpour.brief import read, reads
from underpour.brief.tables.edge import Kind
from underpour.checks.edge_loss import shares
from underpour.cli.side_by_side import comparison_text
from underpour.cut import sketched_edges
from underpour.dossier import Dossier
from underpour.findings import Finding
from underpour.handouts.pictures import plan as plan_of
from underpour.papers.compared import compared
from underpour.resolve import resolve

EXAMPLES = Path(__file__).parents[2] / "examples"


@cache
def court() -> Dossier:
    return answer(read(EXAMPLES / "court-and-bay-house" / "brief.toml"))


@cache
def found(words: str) -> tuple[Finding, ...]:
    made = resolve(reads(words).brief)
    return tuple(findings(made, sketched_edges(made)))


def losses(words: str) -> dict[str, float]:
    return {str(f.at["edge"]): f.value for f in found(words) if f.id == "heat.edge-loss" and f.value is not None}


def one(words: str, id: str, **at: object) -> Finding:
    return next(f for f in found(words) if f.id == id and all(f.at.get(k) == v for k, v in at.items()))


def test_the_edges_make_up_the_floor_and_a_party_wall_is_none() -> None:
    by_edge = [f for f in court().as_briefed.findings if f.id == "heat.edge-loss"]
    assert [f.at["edge"] for f in by_edge] == ["wall", "door", "court", "garage"]
    whole = court().as_briefed.find("heat.loss-mean", of="floor").value
    assert sum(f.value or 0.0 for f in by_edge) == approx(whole)
    told = {str(f.at["edge"]): f.words.replace("\N{THIN SPACE}", " ") for f in by_edge}
    assert told["court"] == "23 % of all that the floor loses, along 19 % of the edge."
    assert told["garage"].endswith("of the edge; an unheated space of 52.5 °F on the mean lies beside it.")
    assert all(f.steps and f.basis and f.within for f in by_edge)


def test_a_side_told_as_two_edges_loses_once_what_it_lost_before() -> None:
    whole = square()
    parted = whole.replace("sides = [1]", 'sides = [{ side = 1, to = "4 m" }]')
    before, after = losses(whole), losses(parted)
    assert after["A"] == approx(0.4 * before["A"], rel=1e-6)
    assert sum(after.values()) == approx(sum(before.values()), rel=1e-6)


def test_a_freezer_next_door_takes_more_through_its_edge_and_no_more_through_the_others() -> None:
    outdoors, freezer = losses(square()), losses(square('"-20 C"'))
    assert freezer["A"] > 2.0 * outdoors["A"]
    assert freezer["B"] == approx(outdoors["B"], rel=1e-9)


def test_a_warmer_neighbour_gives_heat_and_the_sign_is_told_in_words() -> None:
    words = square('"30 C"')
    told = one(words, "heat.edge-loss", edge="A")
    assert told.value is not None and told.value < 0.0
    assert told.words.startswith(
        "Negative: along this edge the room takes in heat on the mean of the year; other air of"
    )
    assert one(words, "heat.edge-loss", edge="B").words.startswith("100 % of all that the floor loses")
    assert shares(found(words)) == {"B": 1.0}


def test_what_goes_the_other_way_is_told_beside_the_floors_u_and_beside_psi() -> None:
    """A freezer next door to a room that is colder than outdoors; an edge with a wing, which loses less than plain."""
    cold = square('"-20 C"').replace('inside = "20 C"', 'inside = "2 C"')
    whole, u = one(cold, "heat.loss-mean", of="floor"), one(cold, "heat.u-floor")
    assert whole.value is not None and u.value is not None and u.value * whole.value < 0.0
    assert whole.value > 0.0 and whole.words == ""
    assert u.words.startswith("Negative: the heat goes against the degrees between room and outdoors.")
    made = resolve(read(EXAMPLES / "free-edge-warehouse" / "brief.toml").brief)
    psi = {f.at["edge"]: f for f in findings(made, sketched_edges(made)) if f.id == "heat.edge-psi"}
    assert psi["ends"].words.startswith("Negative: this edge loses less than plain floor and wall would.")
    assert psi["long sides"].words.startswith("By inside dimensions")


def test_a_heated_neighbour_takes_its_edge_out_and_the_others_carry_its_strip() -> None:
    before, after = losses(square()), losses(square('"heated"'))
    assert after == {}  # one edge is left: it loses what the floor loses
    assert one(square('"heated"'), "heat.loss-mean", of="floor").value > before["B"]


def test_a_basement_counts_its_wall() -> None:
    words = (EXAMPLES / "daylight-basement" / "brief.toml").read_text("utf-8")
    head, _, edge = words.partition("[[alternative]]")[0].partition("[[edge]]")
    parted = head + "".join("[[edge]]" + edge.replace('"all"', sides) for sides in ("[1]", '"rest"'))
    both = sum(one(parted, "heat.loss-mean", of=of).value or 0.0 for of in ("floor", "wall"))
    assert sum(losses(parted).values()) == approx(both)
    assert "of all that floor and wall lose" in one(parted, "heat.edge-loss", edge="A").words


def test_a_code_that_asks_nothing_of_an_edge_is_named_beside_its_loss() -> None:
    """An edition asks for foam where the floor lies less than a foot below the ground: one side lies deeper."""
    words = square().replace('use = "dwelling"', 'use = "dwelling"\ncode = "irc-2018"')
    words = words.replace("[site]", '[site]\nzone = "6A"').replace(
        'sides = [1]\nkind = "frost-wall"', 'sides = [1]\nkind = "frost-wall"\nground = "600 mm"'
    )
    words = words.replace(
        'sides = "rest"\nkind = "frost-wall"', 'sides = "rest"\nkind = "frost-wall"\nground = "-200 mm"'
    )
    assert one(words, "heat.edge-loss", edge="A").words.endswith("irc-2018 asks for no foam at this edge.")
    assert "irc-2018" not in one(words, "heat.edge-loss", edge="B").words


def test_shares_stand_on_the_key_plan_and_in_its_words() -> None:
    (picture,) = plan_of(court())
    drawn = ElementTree.fromstring(picture.svg)
    said = [
        (node.text or "").replace("\N{NO-BREAK SPACE}", " ") for node in drawn.iter("{http://www.w3.org/2000/svg}text")
    ]
    assert {"66 %", "2 %", "23 %", "8 %"} <= set(said)
    assert any(line.endswith("beside an unheated space, 8 % of the heat that is lost") for line in said)
    assert any(line.endswith("beside a heated room: no edge") for line in said)


def test_compare_and_submittal_show_them_beside_each_other() -> None:
    lines = comparison_text(court(), 120).splitlines()
    assert any(line.startswith("Heat that leaves along the edge, mean of the year, edge court") for line in lines)
    (table,) = compared(court(), "US")
    rows = {row["where"]: [cell["value"] for cell in row["cells"]] for row in table["rows"] if "along" in row["title"]}
    assert set(rows) == {"edge wall", "edge door", "edge court", "edge garage"}
    assert len(set(rows["edge court"])) == 2 and len(set(rows["edge wall"])) == 1


@pytest.mark.parametrize(
    ("kind", "example"),
    [
        ("footing-wall", "daylight-basement"),
        ("frost-wall", "workshop-door"),
        ("threshold", "workshop-door"),
        ("ledge", "brick-ledge-house"),
        ("thickened-edge", "thickened-edge-house"),
        ("raft", "raft-house"),
        ("free-edge", "free-edge-warehouse"),
        ("drawn", "drawn-haunch"),
    ],
)
def test_psi_of_every_kind_names_its_dimensions_its_u_and_its_widths(kind: Kind, example: str) -> None:
    made = resolve(read(EXAMPLES / example / "brief.toml").brief)
    edge = next(edge for edge in made.edges if edge.kind == kind)
    told = next(
        f for f in findings(made, sketched_edges(made)) if f.id == "heat.edge-psi" and f.at["edge"] == edge.letter
    )
    assert told.value is not None and told.verdict == "stated"
    symbols = [step.symbol for step in told.steps]
    walls = ["U_w"] * (kind != "free-edge") + ["U_bw"] * (edge.ground > 0.0)
    assert symbols == ["L2D", "U_g", *walls, "ψ", "ψ_e"]
    assert "B/2 × U_g" in told.steps[-2].formula and "inside dimensions" in told.steps[-2].formula
    assert "overall inside dimensions are the same" in told.words and "By outside dimensions" in told.words
    assert ("no wall stands on this edge" in told.words) == (kind == "free-edge")


def test_the_corners_are_told_by_the_name_of_the_rule() -> None:
    told = court().as_briefed.find("heat.corners")
    assert told.value == 0.0
    assert [basis.source.partition(":")[0] for basis in told.basis] == ["ISO 14683", "ISO 13370"]
    assert told.steps[0].result == told.steps[1].result
    assert "By outside dimensions the corners count 35.8" in told.words.replace("\N{THIN SPACE}", " ")
