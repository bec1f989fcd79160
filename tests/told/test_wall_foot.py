"""What is told of a basement's wall that the ground pushes in."""

from __future__ import annotations

from pathlib import Path

import pytest

from underpour import catalogue
from underpour.brief import reads
from underpour.checks import bearing
from underpour.findings import Finding
from underpour.resolve import resolve

BRIEF = (Path(__file__).parents[2] / "examples" / "daylight-basement" / "brief.toml").read_text(encoding="utf-8")
BRIEF = BRIEF.split("[[alternative]]", maxsplit=1)[0]
PROPS = 'props   = "slab"\n'


def findings(text: str) -> list[Finding]:
    resolved = resolve(reads(text).brief)
    return [each for edge in resolved.edges for each in bearing.at_wall_foot(resolved, edge)]


def test_the_slab_props_the_wall_and_the_foam_between_them_is_squeezed() -> None:
    """Ground 0.6 m over the floor, 0.1 m of slab: 15.71 × 0.65² / 2 = 3.319 kN/m over 0.1 m."""
    (found,) = findings(BRIEF)
    assert found.value == pytest.approx(33.19, abs=0.01) and found.verdict == "meets"
    (deep,) = findings(BRIEF.replace('ground  = "0.6 m"', 'ground  = "0.9 m"', 1))
    assert deep.value == pytest.approx(15.71 * 0.95**2 / 2.0 / 0.1, abs=0.01)
    assert deep.verdict == "falls short" and "leave foam out of that joint" in deep.words


def test_what_holds_the_foot_is_asked_and_either_word_turns_the_verdict() -> None:
    (asked,) = findings(BRIEF.replace(PROPS, ""))
    assert (asked.verdict, asked.missing) == ("cannot tell", "edge.A.props")
    assert 'props = "footing"' in asked.words
    (keyed,) = findings(BRIEF.replace(PROPS, 'props = "footing"\n'))
    assert keyed.verdict == "does not apply" and "not squeezed" in keyed.words


def test_sand_pushes_less_than_clay() -> None:
    at_rest = {name: catalogue.pressure_at_rest(name).value for name in ("coarse", "fine", "")}
    assert at_rest["coarse"] == pytest.approx(60 * 0.04788026 / 0.3048, abs=0.01)  # IBC Table 1610.1, from memory
    assert at_rest["fine"] == at_rest[""] == pytest.approx(100 * 0.04788026 / 0.3048, abs=0.01)


def test_a_wall_without_foam_beside_the_slab_or_without_ground_above_the_floor_is_not_told_of() -> None:
    assert not findings(BRIEF.replace('face = "slab-edge"', 'face = "footing-side"'))
    assert not findings(BRIEF.replace('ground  = "0.6 m"', 'ground  = "-0.2 m"', 1))


def test_props_are_of_basement_walls_alone() -> None:
    with pytest.raises(Exception, match="holds back no ground beside the room"):
        reads(BRIEF.replace('"footing-wall"', '"frost-wall"', 1))
