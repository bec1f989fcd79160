"""Both schools of where the film lies stand side by side, each with what it costs, and the case of the floor decides.

ACI 302.1R since 2001 puts the slab right on the film below coverings (from memory); the rest is common practice.
"""

from __future__ import annotations

from functools import cache

import pytest

from underpour.answer import answer
from underpour.brief import reads
from underpour.checks import film_places
from underpour.findings import Finding
from underpour.resolve import resolve

CONCRETE, GRAVEL, FILM = '{ concrete = "4 in" }', '{ gravel = "4 in" }', '{ vapour-retarder = "sheet-15" }'
FOAM, WOOD = '{ board = "plain-15", thickness = "2 in" }', '{ covering = "wood-glued" }'
ABOVE, BELOW = (CONCRETE, FILM, FOAM, GRAVEL), (CONCRETE, FOAM, FILM, GRAVEL)


def brief(layers: tuple[str, ...], use: str = "workshop", site: str = "", more: str = "") -> str:
    return f"""\
[project]
use = "{use}"
units = "US"
[site]
place = "Duluth, MN"
ground = "clay-or-silt"
humidity = ["72 %"]
{site}
[plan]
outline = ["0 0", "40 0", "40 30", "0 30"]
unit = "ft"
[floor]
inside = "{"20 F" if use == "cold-store" else "66 F"}"
touched-by = []
build-up = [{", ".join(layers)}]
[[edge]]
sides = "all"
kind = "frost-wall"
depth = "60 in"
ground = "-8 in"
wall = [{{ concrete = "8 in" }}]
{more}
"""


@cache
def told(text: str) -> dict[str, Finding]:
    return {str(each.at["film"]): each for each in film_places.both(resolve(reads(text).brief))}


@pytest.mark.parametrize(("layers", "laid"), [(ABOVE, "above the foam"), (BELOW, "below the foam")])
def test_both_places_are_told_wherever_the_film_lies_and_which_is_laid(layers, laid):
    found = told(brief(layers))
    assert list(found) == ["above the foam", "below the foam"]
    for place, finding in found.items():
        assert finding.verdict == "stated"
        assert finding.words.startswith("As laid here." if place == laid else "The other place.")
        for cost in ("bleed water", "curls", "Chairs" if place.startswith("above") else "Stone pierces"):
            assert cost in finding.words
        assert any(step.symbol == "price" and "USD/ft², 2026-06-01" in step.result for step in finding.steps)


def test_water_stays_only_where_boards_lie_on_the_film_as_much_as_they_take_up_in_the_test():
    """plain-15 by its immersion record, over two inches: its share of water times 50.8 mm."""
    found = told(brief(BELOW))
    resolved = resolve(reads(brief(BELOW)).brief)
    (board,) = resolved.boards
    assert found["above the foam"].value == 0.0
    assert found["below the foam"].value == pytest.approx(50.8 * board.record.wetting.water.value)
    assert found["below the foam"].value > 0.5


@pytest.mark.parametrize(
    ("text", "place", "why"),
    [
        (brief(ABOVE, "cold-store"), "below the foam", "warm side"),
        (brief(BELOW, site='flood-level = "12 in"'), "above the foam", "place floods"),
        (brief((WOOD, *BELOW)), "above the foam", "bears little damp"),
        (brief(ABOVE, more='[tube]\nsize = "1/2 in"\nspacing = "9 in"'), "below the foam", "staples"),
    ],
)
def test_the_case_that_decides_is_said_at_the_place_that_it_asks_for(text, place, why):
    found = told(text)
    assert why in found[place].words and "the place for this floor" in found[place].words
    (other,) = [each for name, each in found.items() if name != place]
    assert "the place for this floor" not in other.words and why not in other.words


def test_where_nothing_decides_that_is_said_at_both():
    assert all("nothing in this brief decides" in each.words for each in told(brief(ABOVE)).values())


def test_a_covering_adds_the_days_to_dry_the_same_in_both_places():
    days = {
        place: [s.result for s in each.steps if s.symbol == "drying"]
        for place, each in told(brief((WOOD, *ABOVE))).items()
    }
    assert days["above the foam"] == days["below the foam"] == ["588 d"]  # as docs/damp.md has it, by a march


@pytest.mark.parametrize(
    "layers",
    [
        (CONCRETE, FOAM, GRAVEL),
        (CONCRETE, FILM, GRAVEL),
        ('{ screed = "2 in" }', FOAM, FILM, '{ old-slab = "4 in" }', GRAVEL),
    ],
)
def test_without_foam_or_film_or_over_an_old_slab_there_is_nothing_to_choose(layers):
    assert told(brief(layers)) == {}


def test_both_stand_in_the_answer_one_after_the_other():
    ids = [(each.id, each.at.get("film")) for each in answer(reads(brief(ABOVE))).as_briefed.findings]
    at = ids.index((film_places.ID, "above the foam"))
    assert ids[at + 1] == (film_places.ID, "below the foam")
