"""Examples beside ISO 13370's formula, written out here once more, and what their foam is told to be worth."""

from __future__ import annotations

import re
from functools import cache
from math import log, pi
from pathlib import Path

import pytest
from pytest import approx

from answered import once
from underpour.dossier import Answer, Dossier

EXAMPLES = Path(__file__).parents[2] / "examples"
CLAY, FILMS, INCH, CONCRETE = 1.5, 0.17 + 0.04, 0.0254, 1.65
R10 = 10.0 * 0.176110


@cache
def answered(name: str) -> Dossier:
    return once(EXAMPLES / name / "brief.toml")


def by_hand(area: float, perimeter: float, wall: float, resistance: float, depth: float = 0.0) -> float:
    """U of a floor on clay, layers of that resistance. [W/(m²·K)]"""
    b = area / (0.5 * perimeter)
    d = wall + CLAY * (FILMS + resistance) + depth / 2.0
    return 2.0 * CLAY / (pi * b + d) * log(pi * b / d + 1.0) if d < b else CLAY / (0.457 * b + d)


def by_formula(made: Answer) -> float:
    """As the answer's own step has it."""
    (step,) = [step for step in made.find("heat.u-floor").steps if step.symbol == "U_formula"]
    return float(step.result.partition(" ")[0])


def loss(made: Answer) -> float:
    value = made.find("heat.loss-mean", of="floor").value
    assert value is not None
    return value


@pytest.mark.parametrize(("n", "alone"), [(0, 0.411), (1, 0.231), (2, 0.164), (3, 0.127)])
def test_the_basement_in_duluth_has_the_formulas_u_by_r_10(n: int, alone: float) -> None:
    """Foam alone: 0.411, 0.231, 0.164, 0.127 W/(m²·K) (derived); with four inches of concrete over it a little less."""
    of_foam = by_hand(80.0, 36.0, 0.3, n * R10, 2.4)
    with_slab = by_hand(80.0, 36.0, 0.3, n * R10 + 4.0 * INCH / CONCRETE, 2.4)
    assert of_foam == approx(alone, abs=0.0005)
    assert by_formula(answered("duluth-basement").alternatives[n]) == approx(with_slab, abs=0.0002)
    assert 0.97 * of_foam < with_slab < of_foam


def test_r_10_under_the_garage_cuts_the_formulas_loss_2_4_times_and_not_ten() -> None:
    """28 by 24 ft, 8 in of wall, 5 in of concrete. The section leaves more: it loses at the wall too. Derived."""
    bare, foam, parted = answered("tempered-garage").alternatives
    foot = 12.0 * INCH
    floor = 28.0 * foot * 24.0 * foot, 2.0 * (28.0 + 24.0) * foot, 8.0 * INCH
    slab = 5.0 * INCH / CONCRETE
    assert by_formula(bare) == approx(by_hand(*floor, slab), abs=0.0005)
    assert by_formula(bare) / by_formula(foam) == approx(2.4, abs=0.05)
    resists = (FILMS + slab + R10) / (FILMS + slab)
    assert resists > 7.0
    assert 1.5 < loss(bare) / loss(foam) < 2.4 < loss(bare) / loss(parted) < 3.0


def test_the_edge_of_the_warehouse_gives_most_of_the_saving_for_a_tenth_of_the_foam() -> None:
    bare, edge, floor, both = answered("warehouse-edge-only").alternatives
    words = floor.find("heat.loss-mean", of="floor").words
    said = re.search(r"“foam at the edge” saves (\d+) % of that with (\d+) % of the foam", words)
    assert said is not None
    assert int(said[1]) == round(100.0 * (loss(bare) - loss(edge)) / (loss(bare) - loss(floor)))
    assert int(said[1]) > 75 and int(said[2]) <= 10
    assert "laid beyond" not in words  # that alternative leaves the edge's foam out
    assert "what is laid beyond “foam at the edge” keeps in" in both.find("heat.loss-mean", of="floor").words


def test_the_middle_of_the_house_in_austin_wants_no_foam() -> None:
    bare, edge, both = answered("house-in-the-heat").alternatives[:3]
    assert loss(bare) > loss(edge) > loss(both) > 0.0
    words = both.find("heat.loss-mean", of="floor").words
    assert words.endswith("in the rest of the year: do not insulate here for the heat.")
    assert "do not insulate" not in edge.find("heat.loss-mean", of="floor").words
    asked = [f for f in bare.findings if f.id == "code.slab-edge"]
    assert asked and all(f.verdict in ("not required, advised", "does not apply") for f in asked)


def test_the_drawn_brick_ledge_has_its_share_and_its_psi() -> None:
    briefed, wrapped = answered("monolithic-brick-ledge").alternatives
    assert {f.at["edge"] for f in briefed.findings if f.id == "heat.edge-loss"} == {"brick", "back"}
    for made in (briefed, wrapped):
        assert made.find("heat.edge-psi", edge="brick").value is not None
    drawn, back = (
        [made.find("heat.edge-loss", edge=edge).value or 0.0 for made in (briefed, wrapped)]
        for edge in ("brick", "back")
    )
    assert drawn[1] < drawn[0] and back[1] < 0.8 * back[0]
    assert 1.0 - drawn[1] / drawn[0] < 0.5 * (1.0 - back[1] / back[0])


def test_the_churchs_hall_is_no_edge_and_its_door_loses_more_than_its_length() -> None:
    briefed = answered("church").as_briefed
    by_edge = {str(f.at["edge"]): f.value or 0.0 for f in briefed.findings if f.id == "heat.edge-loss"}
    assert set(by_edge) == {"stone wall", "porch", "side door"}
    assert sum(by_edge.values()) == approx(loss(briefed))
    assert briefed.plan is not None
    lengths = {edge.letter: edge.length for edge in briefed.plan.edges if edge.beside != "heated"}
    assert by_edge["side door"] / loss(briefed) > 1.3 * lengths["side door"] / sum(lengths.values())
