"""What foam each load needs by each method, what another inch of concrete buys, what may go on bare foam."""

from __future__ import annotations

import pytest

from underpour import catalogue
from underpour.brief import reads
from underpour.checks import bearing
from underpour.checks.bearing.grades import candidates
from underpour.findings import Finding
from underpour.resolve import Resolved, resolve

from .test_loads_answered import BRIEF, PSI, one, with_load

WHEEL = 'kind = "wheel"\nforce = "5000 lb"\ntyre = "100 psi"\nat = "corner"'


def resolved(text: str) -> Resolved:
    return resolve(reads(text).brief)


def told(text: str, id: str, **at: str) -> Finding:
    (found,) = (
        each
        for each in bearing.beside_loads(resolved(text))
        if each.id == id and all(each.at.get(key) == word for key, word in at.items())
    )
    return found


def words(found: Finding) -> str:
    return found.words.replace("\u2009", " ")


def least(text: str, method: str = "plate") -> Finding:
    return told(text, "bearing.least-grade", method=method)


@pytest.mark.parametrize("text", [BRIEF, with_load(WHEEL), with_load('like = "car"\nat = "edge"')])
def test_the_weakest_board_by_the_plate_is_the_first_whose_own_answer_meets(text: str) -> None:
    """Every board of the line laid in the brief, one after another: the long way round."""
    lines, _ = candidates(resolved(text), resolved(text).support)
    for board in lines:
        answer = bearing.of_loads(resolved(text.replace("plain-25", board.key)))
        foam = next(each for each in answer if each.id.startswith("bearing.foam") and each.at["method"] == "plate")
        if foam.verdict == "meets":
            assert least(text).value == board.strength.value
            assert board.label in least(text).words
            return
    assert least(text).value is None or "no board of the line carries it" in least(text).words


def test_the_rule_of_thumb_asks_for_far_stronger_foam_than_the_plate() -> None:
    """6500 lb on 6 in by 6 in through 5 in: 25.4 psi by 45 degrees, 1.2 psi by the plate, 181 psi straight through."""
    plate, thumb, through = (least(BRIEF, method) for method in ("plate", "spread-45", "straight-through"))
    assert plate.value is not None and thumb.value is not None
    assert thumb.value > 4.0 * plate.value
    board = next(each for each in catalogue.shipped_products().boards() if each.strength.value == thumb.value)
    assert board.label in thumb.words
    assert through.value is None  # 181 psi: 6500 lb on 36 in²
    assert "181 psi" in words(through)
    assert "No board of the line carries it, and no class of the standards." in words(through)


def test_what_the_weakest_foam_does_to_the_concrete_is_said_with_it() -> None:
    said = words(least(BRIEF))
    softer = BRIEF.replace("plain-25", "plain-10")
    bent = one(softer, "bearing.bending")
    assert bent.value is not None
    assert f"the concrete {bent.value / PSI:.0f} psi" in said
    assert "The concrete, not the foam, asks for more than it has." in said
    assert "is the least that is laid" in said  # 15 psi below a workshop, whatever the load


def test_another_inch_of_concrete_is_what_the_thicker_slab_answers() -> None:
    thick = BRIEF.replace('concrete = "5 in"', 'concrete = "6 in"')
    foam, concrete = (told(BRIEF, "bearing.inch-more", of=part) for part in ("foam", "concrete"))
    assert foam.value == pytest.approx(one(thick, "bearing.foam-long").value, rel=1e-9)
    assert concrete.value == pytest.approx(one(thick, "bearing.bending").value, rel=1e-9)
    assert "on 6 in (152 mm) of concrete in place of 5 in (127 mm)" in words(concrete)
    assert "That does not carry it yet." in concrete.words or "That carries it." in concrete.words


def test_an_inch_more_may_let_a_weaker_board_carry_a_wheel_in_a_corner() -> None:
    said = words(told(with_load(WHEEL).replace('"5 in"', '"7 in"'), "bearing.inch-more", of="foam"))
    assert "The weakest board of the line that carries it is then " in said


def test_below_an_even_load_another_inch_buys_nothing() -> None:
    goods = with_load('kind = "uniform"\npressure = "250 psf"\neverywhere = true')
    found = told(goods, "bearing.inch-more", of="foam")
    assert found.value == pytest.approx(250 * 0.04788026, rel=1e-6)
    assert "buys nothing here" in found.words
    assert least(goods, "straight-through").value is not None


def test_what_may_go_on_bare_foam_is_told_of_every_usual_thing_of_a_pour() -> None:
    found = told(BRIEF, "bearing.bare-foam")
    assert found.value is not None and found.value == pytest.approx(0.5 * 27.0 * PSI, rel=1e-4)
    for each in catalogue.named_loads():
        assert (each.label in found.words) == (each.kind == "before-pour")
    keep_off = found.words[found.words.index("Keep off the foam") :]
    assert "mixer truck" in keep_off and "outrigger" in keep_off
    barrow = one(with_load('like = "barrow"'), "bearing.foam-short", "bare foam")
    assert "one sheet of" in barrow.words
    assert "wheelbarrow" in found.words[found.words.index("Only on one sheet") : found.words.index("Keep off")]


@pytest.mark.parametrize("load", ['like = "crew"', 'kind = "axle"\nforce = "12000 lb"'])
def test_nothing_is_guessed_of_a_load_that_cannot_be_told_or_never_stands_on_the_slab(load: str) -> None:
    ids = [each.id for each in bearing.beside_loads(resolved(with_load(load)))]
    assert ids == ["bearing.bare-foam"]


def test_a_floor_without_loads_or_without_foam_is_told_none_of_it() -> None:
    assert list(bearing.beside_loads(resolved(BRIEF.split("[[load]]", maxsplit=1)[0]))) == []
    bare = BRIEF.replace('  { board = "plain-25", thickness = "2 in" },\n', "")
    assert [each.at["of"] for each in bearing.beside_loads(resolved(bare))] == ["concrete"]
