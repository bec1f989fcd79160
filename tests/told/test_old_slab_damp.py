"""The old slab's top by month and the dew point there: the film's place decides, and each place has its words."""

from __future__ import annotations

from functools import cache

import pytest

from underpour.answer import answer
from underpour.brief import reads
from underpour.checks.old_slab import ID
from underpour.findings import Finding
from underpour.physics.moisture.air import saturation_pressure, saturation_temperature
from underpour.resolve import resolve

OLD, SCREED, FILM = '{ old-slab = "4 in" }', '{ screed = "1-1/2 in" }', '{ vapour-retarder = "film-15-mil" }'
BOARD, WOOD = '{ board = "xps-25", thickness = "2 in" }', '{ covering = "wood-floating" }'
HUMID = 'humidity = ["72 %"]\n'


def brief(layers: tuple[str, ...], more: str = "", site: str = HUMID) -> str:
    return f"""\
[project]
use = "basement"
units = "SI"
[site]
place = "Rochester, NY"
ground = "clay-or-silt"
{site}[plan]
outline = ["0 0", "36 0", "36 24", "0 24"]
unit = "ft"
[floor]
inside = "68 F"
humidity = "40 %"
touched-by = []
{more}
build-up = [{", ".join(layers)}, {{ gravel = "4 in" }}]
[[edge]]
sides = "all"
kind = "footing-wall"
depth = "20 in"
ground = "54 in"
wall = [{{ concrete = "8 in" }}]
"""


@cache
def told(text: str) -> Finding:
    return answer(reads(text)).as_briefed.find(ID, place="centre")


ON_IT = (SCREED, BOARD, FILM, OLD)
ABOVE = (SCREED, FILM, BOARD, OLD)
NONE = (SCREED, BOARD, OLD)
LOOSE = (WOOD, BOARD, FILM, OLD)


@pytest.mark.parametrize(
    ("layers", "verdict", "words"),
    [
        (ON_IT, "stated", "moisture.within says how much"),
        (ABOVE, "falls short", "lay it on the old slab, below them"),
        (NONE, "falls short", "lay a film on the old slab, below the boards"),
        (LOOSE, "falls short", "through the joints of the boards"),
    ],
)
def test_the_place_of_the_film_decides(layers, verdict, words):
    found = told(brief(layers))
    assert found.verdict == verdict and words in found.words
    assert "the old slab's top is at" in found.words and "bare, the old slab would be" in found.words
    assert found.months is not None and len(found.months) == 12 and found.value == min(found.months)


def test_a_dried_room_keeps_room_air_from_leaving_water_there():
    found = told(brief(LOOSE, 'summer-humidity = "45 %"'))
    assert (found.verdict, found.limit) == ("meets", 1.0)


def degrees(found: Finding, symbol: str) -> list[float]:
    line = next(step.result for step in found.steps if step.symbol == symbol)
    return [float(each.replace("\N{THIN SPACE}", " ").split()[0]) for each in line.split(", ")]


def test_the_months_are_the_plane_s_degrees_less_those_of_the_dew_point():
    found = told(brief(NONE))
    top, dew, bare = (degrees(found, symbol) for symbol in ("θ", "θ_dew", "θ_bare"))
    assert found.months == pytest.approx([a - b for a, b in zip(top, dew, strict=True)], abs=0.11)
    assert all(a < b for a, b in zip(top, bare, strict=True))


def test_room_air_at_the_joints_brings_the_room_s_own_dew_point():
    """72 % outdoors in July at Rochester's 21 °C, as much in the room: the dew point by the formula read backwards."""
    found = told(brief(LOOSE))
    july = degrees(found, "θ_dew")[6]
    full = saturation_pressure(july)
    assert 0.72 * saturation_pressure(20.5) < full < 0.72 * saturation_pressure(22.5)


def test_room_air_counts_at_the_joints_even_where_the_ground_is_drier():
    """No film, humid summer, cool ground: the dew point in August is that of the room's own vapour."""
    text = brief((WOOD, BOARD, OLD), site='humidity = ["90 %"]\n')
    damp = resolve(reads(text).brief).damp
    assert damp is not None
    room = saturation_temperature(damp.room[0][7])
    assert degrees(told(text), "θ_dew")[7] == pytest.approx(room, abs=0.06)
    closed = brief((SCREED, BOARD, OLD), site='humidity = ["90 %"]\n')
    assert degrees(told(closed), "θ_dew")[7] < room - 0.3


def test_without_humidity_outdoors_it_is_asked_where_that_decides():
    found = told(brief(LOOSE, site=""))
    assert (found.verdict, found.missing, found.value) == ("cannot tell", "site.humidity", None)
    assert told(brief(LOOSE, site='humidity = ["40 %"]\n')).verdict == "meets"


def test_a_new_slab_has_none_of_it():
    text = brief(('{ concrete = "4 in" }', FILM, BOARD))
    assert not [each for each in answer(reads(text)).as_briefed.findings if each.id == ID]
