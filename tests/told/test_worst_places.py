"""A load that may come anywhere: the place that is worst is named and held, joints among them."""

from __future__ import annotations

from dataclasses import replace
from functools import cache

import pytest

from underpour.brief import reads
from underpour.checks import bearing
from underpour.checks.bearing.anywhere import on_joint
from underpour.checks.bearing.bed import bed
from underpour.checks.bearing.bending import contact
from underpour.checks.bearing.plates import modulus, plate_under, radius
from underpour.findings import Finding
from underpour.physics.plates import westergaard
from underpour.resolve import Resolved, ResolvedLoad, Support, resolve

BRIEF = """\
[project]
use = "warehouse"
units = "SI"

[site]
place = "Duluth, MN"
ground = "sand-or-gravel"
subgrade-modulus = "40 MN/m³"
soil-bearing = "150 kPa"
base = "compacted"

[plan]
outline = ["0 0", "24 0", "24 16", "0 16"]
unit = "m"

[floor]
inside = "12 C"
humidity = "40 %"
concrete-class = "C25/30"
build-up = [{ concrete = "150 mm" }, { board = "plain-40", thickness = "2 in" }, { gravel = "150 mm" }]

[[edge]]
sides = "all"
kind = "frost-wall"
depth = "1.5 m"
ground = "-150 mm"

[[load]]
kind = "wheel"
force = "15 kN"
tyre = "600 kPa"
at = "anywhere"
"""
CUT = '\n[[joint]]\nspacing = "4 m"\ntransfer = "{}"\n{}'
DOWELS, NONE = CUT.format("dowels", 'share = "85 %"\n'), CUT.format("none", "")


@cache
def findings(text: str) -> list[Finding]:
    resolved = resolve(reads(text).brief)
    return [*bearing.of_loads(resolved), *bearing.beside_loads(resolved)]


def worst(text: str, of: str) -> Finding:
    (found,) = (each for each in findings(text) if each.id == "bearing.worst-place" and each.at.get("of") == of)
    return found


def by_place(found: Finding) -> dict[str, float]:
    """What is felt at each place, as the steps have it."""
    return {step.formula: float(step.result.split()[0]) for step in found.steps if step.symbol in "pστ"}


def wheel(text: str) -> tuple[Resolved, Support, ResolvedLoad, float]:
    resolved = resolve(reads(text).brief)
    assert resolved.support is not None
    load = resolved.loads[0]
    return resolved, resolved.support, load, bed(resolved.support, load.standing).soft


def free_edge() -> westergaard.Borne:
    """Westergaard's, for the brief's wheel."""
    _, support, load, k = wheel(BRIEF)
    far, h = radius(support, k), support.concrete.thickness
    return westergaard.edge(load.force, contact(load), h, 0.15, modulus(support), far, k)


def test_the_place_is_named_and_each_part_is_held_to_what_it_may_feel_there() -> None:
    concrete = worst(BRIEF, "concrete")
    assert "the concrete feels most at an edge" in concrete.words or "most in a corner" in concrete.words
    assert "The brief names no joints." in concrete.words
    assert "the foam feels most in a corner" in worst(BRIEF, "foam").words
    for part in ("foam", "ground", "concrete", "shear"):
        found = worst(BRIEF, part)
        assert found.limit is not None and found.value is not None and found.sense == "at most"
    told = by_place(concrete)
    assert set(told) == {"in the middle", "at an edge", "in a corner"}
    assert max(told.values()) == pytest.approx(concrete.value, rel=1e-3)


def test_in_the_middle_it_is_held_as_any_load_in_the_middle() -> None:
    one, other = (
        next(e.value for e in findings(text) if e.id == "bearing.bending" and e.at.get("method") == "plate")
        for text in (BRIEF, BRIEF.replace('at = "anywhere"', 'at = "middle"'))
    )
    assert one == other
    assert by_place(worst(BRIEF, "concrete"))["in the middle"] == pytest.approx(one, rel=1e-3)


def test_a_joint_that_hands_nothing_on_is_two_free_edges() -> None:
    resolved, support, load, k = wheel(BRIEF)
    edge, joint = plate_under(resolved, support, replace(load, place="edge"), k), on_joint(support, load, k, 0.0)
    assert edge is not None and joint is not None
    assert joint.felt.settlement == pytest.approx(edge.felt.settlement, rel=0.01)
    assert joint.felt.below == pytest.approx(edge.felt.below, rel=0.02)
    assert joint.felt.pressure == pytest.approx(edge.felt.pressure, rel=0.02)


@pytest.mark.parametrize("share", [0.0, 0.3, 0.6, 0.85])
def test_both_sides_of_a_joint_go_down_by_what_westergaard_s_free_edge_does(share: float) -> None:
    """Settlements of both sides add up to that of Westergaard's free edge, so the loaded one has 1 / (1 + share).

    Lift-off is counted here and not there, and the joint's stiffness by its share is Crovetti's fit: 7 %.
    """
    _, support, load, k = wheel(BRIEF)
    found = on_joint(support, load, k, share)
    assert found is not None
    assert found.felt.settlement == pytest.approx(float(free_edge().settlement) / (1.0 + share), rel=0.07)


def test_a_free_joint_is_bent_as_westergaard_says() -> None:
    """The square tyre in the place of his circle, along a free edge: 8 %."""
    _, support, load, k = wheel(BRIEF)
    found = on_joint(support, load, k, 0.0)
    assert found is not None
    assert found.felt.below == pytest.approx(float(free_edge().stress), rel=0.08)


def test_dowels_make_a_joint_better_than_an_edge_and_without_them_it_is_told_too() -> None:
    dowelled, without = worst(BRIEF + DOWELS, "concrete"), worst(BRIEF + NONE, "concrete")
    told, bare = by_place(dowelled), by_place(without)
    on, free = told["on joint 1 (dowels, 85 %)"], told["on joint 1, were it to hand nothing on"]
    assert told["in the middle"] < on < 0.9 * free
    assert "joint.1" in dowelled.rests_on and "were it to hand nothing on" in dowelled.words
    assert bare["on joint 1 (hands nothing on)"] == pytest.approx(free, rel=1e-3)
    assert not any("were it" in place for place in bare)


def test_what_is_told_for_comparison_alone_is_held_to_nothing() -> None:
    """Where the edges are thick the joint without dowels is the worst of all, and is told: the dowels are there."""
    old = 'kind = "frost-wall"\ndepth = "1.5 m"\n'
    thick = 'kind = "thickened-edge"\ndepth = "500 mm"\nthickening = { width = "800 mm" }\n'
    found = worst(BRIEF.replace(old, thick) + DOWELS, "concrete")
    told = by_place(found)
    assert max(told, key=lambda place: told[place]) == "on joint 1, were it to hand nothing on"
    held = [step.formula for step in found.steps if step.symbol == "σ" and step.numbers != "told only"]
    assert found.value == pytest.approx(max(told[place] for place in held), rel=1e-3)
    assert found.value < 0.95 * max(told.values())


def test_one_typed_in_the_middle_is_told_by_hand_what_it_would_do_elsewhere_and_is_held_to_nothing() -> None:
    found = worst(BRIEF.replace('at = "anywhere"', 'at = "middle"'), "concrete")
    assert found.verdict == "stated" and found.at["method"] == "westergaard"
    assert found.value == pytest.approx(max(by_place(found).values()), rel=1e-3)
    assert by_place(found)["Westergaard, at an edge"] == pytest.approx(float(free_edge().stress) / 1e3, rel=1e-3)
    assert 'at = "anywhere"' in found.words and "in a corner" in found.words


def test_a_post_that_is_moved_may_come_anywhere_too_and_one_that_stays_is_not_asked() -> None:
    post = BRIEF.replace('kind = "wheel"', 'kind = "post"').replace('tyre = "600 kPa"', 'plate = "150 mm"')
    assert worst(post, "foam").limit is not None
    stays = post.replace('at = "anywhere"', 'at = "middle"')
    assert not any(each.id == "bearing.worst-place" for each in findings(stays))
