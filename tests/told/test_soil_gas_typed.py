"""Soil gas as typed: what cannot be used is told with the way out, all of it in one table."""

from __future__ import annotations

import pytest
from refused import Bad, held_to

from underpour.brief import reads

GOOD = """\
[project]
use = "basement"

[site]
place = "Duluth, MN"
ground = "sand-moist"
soil-gas = "high"

[plan]
outline = ["0 0", "40 0", "40 28", "0 28"]
unit = "ft"

[[plan.obstacle]]
kind = "column"
at = "30 10"
size = "12 in"

[[plan.hole]]
outline = ["4 4", "8 4", "8 8", "4 8"]

[floor]
inside = "68 F"
humidity = "40 %"
build-up = [{ concrete = "4 in" }, { vapour-retarder = "film-15-mil" }, { gravel = "4 in" }]

[[edge]]
sides = "all"
kind = "footing-wall"
depth = "12 in"
ground = "84 in"

[soil-gas]
system = "fan"
radon = "800 pCi/L"
permeability = "1e-11 m²"
ventilation = "0.35 1/h"
volume = "18000 ft³"
house-vacuum = "5 Pa"
gap = "0.5 mm"
level-by = "us-epa"
combustion = "sealed"

[[soil-gas.suction]]
at = "20 14"
pit = "24 in"

[[soil-gas.suction]]
at = "36 24"

[[soil-gas.footing]]
from = "0 18"
to = "40 18"
crossing = [{ at = "20 18", size = "4 in" }]

[soil-gas.pipe]
size = "4 in"
route = ["20 14", "38 14"]
falls = "to-suction"

[soil-gas.fan]
at = "attic"
curve = [{ flow = "0 cfm", vacuum = "1.6 in. w.c." }, { flow = "140 cfm", vacuum = "0 Pa" }]

[soil-gas.communication]
at = "20 14"
vacuum = "250 Pa"
hole = [{ at = "10 24", vacuum = "3 Pa" }]

[[soil-gas.test]]
kit = "alpha-track"
level = "2.1 pCi/L"
days = "91 d"
"""

PIT = 'at = "20 14"\npit = "24 in"'
CURVE = 'curve = [{ flow = "0 cfm", vacuum = "1.6 in. w.c." }, { flow = "140 cfm", vacuum = "0 Pa" }]'
HOLE = 'hole = [{ at = "10 24", vacuum = "3 Pa" }]'
FOOTING = 'from = "0 18"\nto = "40 18"'

BAD = (
    Bad("a suction point off the plan", PIT, 'at = "60 14"\npit = "24 in"',
        ("soil-gas.suction.1.at", "60 14 lies outside the floor", "count as in the outline")),
    Bad("a suction point in a hole of the plan", PIT, 'at = "6 6"', ("soil-gas.suction.1.at", "in a hole of the plan")),
    Bad("a suction point in a footing", PIT, 'at = "20 18"',
        ("soil-gas.suction.1.at", "It lies in footing 1", "Move it beside the footing")),
    Bad("a pit that reaches into the edge", PIT, 'at = "20 0.7"\npit = "24 in"',
        ("soil-gas.suction.1.at", "It lies 0.7 ft from the edge, where the footing is")),
    Bad("a suction point where a column stands", PIT, 'at = "30 10"',
        ("soil-gas.suction.1.at", "A column stands there")),
    Bad("a suction point typed with one number", PIT, 'at = "20"', ("soil-gas.suction.1.at", "two numbers, not one")),
    Bad("two suction points in one place", 'at = "36 24"', 'at = "20 14"',
        ("soil-gas.suction.2.at", "Suction point 1 is there already")),
    Bad("a curve that rises", CURVE,
        'curve = [{ flow = "0 cfm", vacuum = "1 in. w.c." }, { flow = "90 cfm", vacuum = "2 in. w.c." }]',
        ("soil-gas.fan.curve.2.vacuum", "This curve rises from 1 in. w.c. to 2 in. w.c.", "the right way round")),
    Bad("a curve that goes back", CURVE,
        'curve = [{ flow = "90 cfm", vacuum = "1 in. w.c." }, { flow = "0 cfm", vacuum = "0 Pa" }]',
        ("soil-gas.fan.curve.2.flow", "0 cfm comes after 90 cfm", "by rising flow")),
    Bad("a curve of one point", CURVE, 'curve = [{ flow = "0 cfm", vacuum = "1 in. w.c." }]',
        ("soil-gas.fan.curve", "One point is no curve")),
    Bad("suction below nought", CURVE,
        'curve = [{ flow = "0 cfm", vacuum = "-1 in. w.c." }, { flow = "9 cfm", vacuum = "0 Pa" }]',
        ("soil-gas.fan.curve.1.vacuum", "told above zero", 'Write "1 in. w.c."')),
    Bad("a fan where people live", 'at = "attic"', 'at = "living-space"',
        ("soil-gas.fan.at", "what leaks out of it there is breathed", '"attic", "garage" or "outdoors"')),
    Bad("a fan in the basement", 'at = "attic"', 'at = "basement"', ("soil-gas.fan.at", "is breathed")),
    Bad("a fan on a capped pipe", 'system = "fan"', 'system = "rough-in"',
        ("soil-gas.fan", "A fan is told, and system says that the pipe is capped", 'system = "fan"')),
    Bad("a pipe that falls to its outlet", 'falls = "to-suction"', 'falls = "to-outlet"',
        ("soil-gas.pipe.falls", "the water closes it", "1/8 in each foot")),
    Bad("a pipe that lies level", 'falls = "to-suction"', 'falls = "level"', ("soil-gas.pipe.falls", "does not fall")),
    Bad("stretches without a fall", 'falls = "to-suction"', 'falls = "to-suction"\nslope = "0 %"',
        ("soil-gas.pipe.slope", "lie level: water that condenses stands in them", 'slope = "1 %"')),
    Bad("a pipe as wide as a drain", 'size = "4 in"\nroute', 'size = "16 in"\nroute',
        ("soil-gas.pipe.size", "are not 16 in wide")),
    Bad("a length beside a route", 'falls = "to-suction"', 'falls = "to-suction"\nlength = "40 ft"',
        ("soil-gas.pipe.length", "both say how long the pipe is")),
    Bad("a route that begins elsewhere", 'route = ["20 14"', 'route = ["2 14"',
        ("soil-gas.pipe.route.1", "no suction point is there", "Begin it at 20 14")),
    Bad("a footing askew", FOOTING, 'from = "0 18"\nto = "40 20"', ("soil-gas.footing.1.to", "lies askew")),
    Bad("a footing off the floor", FOOTING, 'from = "0 18"\nto = "50 18"',
        ("soil-gas.footing.1.to", "50 18 does not lie on the floor")),
    Bad("a footing without length", FOOTING, 'from = "0 18"\nto = "0 18"',
        ("soil-gas.footing.1.to", "ends where it begins")),
    Bad("a crossing that is not in its footing", 'at = "20 18", size', 'at = "20 22", size',
        ("soil-gas.footing.1.crossing.1.at", "does not lie in this footing", "its middle line")),
    Bad("a hole without a place", HOLE, 'hole = [{ vacuum = "3 Pa" }]',
        ("soil-gas.communication.hole.1.at", "does not say where it is", 'distance = "15 ft"')),
    Bad("a hole told twice", HOLE, 'hole = [{ at = "10 24", distance = "9 ft", vacuum = "3 Pa" }]',
        ("soil-gas.communication.hole.1.distance", "both say where this hole is")),
    Bad("a hole off the floor", HOLE, 'hole = [{ at = "10 34", vacuum = "3 Pa" }]',
        ("soil-gas.communication.hole.1.at", "does not lie on the floor")),
    Bad("a hole that pulls harder than the suction", HOLE, 'hole = [{ at = "10 24", vacuum = "300 Pa" }]',
        ("soil-gas.communication.hole.1.vacuum", "is more than the 250 Pa", "whether two readings changed")),
    Bad("no air at all", 'ventilation = "0.35 1/h"', 'ventilation = "0 1/h"',
        ("soil-gas.ventilation", "no change of air at all", "0.1 to 1.5 1/h")),
    Bad("no room at all", 'volume = "18000 ft³"', 'volume = "0 m³"', ("soil-gas.volume", "0 m³ is no room")),
    Bad("ground that lets nothing through", 'permeability = "1e-11 m²"', 'permeability = "0 m²"',
        ("soil-gas.permeability", "lets no gas through")),
    Bad("permeability without a unit", 'permeability = "1e-11 m²"', 'permeability = "10"',
        ("soil-gas.permeability", "10 of what?")),
    Bad("radon without a unit", 'radon = "800 pCi/L"', 'radon = "800"', ("soil-gas.radon", "800 of what?", "pCi/L")),
    Bad("a house like a vacuum cleaner", 'house-vacuum = "5 Pa"', 'house-vacuum = "200 Pa"',
        ("soil-gas.house-vacuum", "No house stands 200 Pa below", "2 to 10 Pa")),
    Bad("a joint like a trench", 'gap = "0.5 mm"', 'gap = "3 in"', ("soil-gas.gap", "a trench along the wall")),
    Bad("a way of sealing that is not known", 'gap = "0.5 mm"', 'sealed = ["egde-joint"]',
        ("soil-gas.sealed.1", "edge-joint")),
    Bad("a key that is misspelt", 'gap = "0.5 mm"', 'house-vacum = "5 Pa"', ("soil-gas.house-vacum", "house-vacuum")),
    Bad("an authority that is not known", 'level-by = "us-epa"', 'level-by = "epa"',
        ("soil-gas.level-by", "us-epa", "catalogue list radon-levels")),
    Bad("a kit that is not known", 'kit = "alpha-track"', 'kit = "alpha"',
        ("soil-gas.test.1.kit", "alpha-track", "catalogue list radon-tests")),
    Bad("a class of site that is not known", 'soil-gas = "high"', 'soil-gas = "hihg"', ("site.soil-gas", "high")),
    Bad("a panel with channels beside the wall", 'ground = "84 in"',
        'ground = "84 in"\ninsulation = [{ board = "gas-25", thickness = "4 in", face = "outside" }]',
        ("edge.A.insulation.1.board", "has channels below and lies flat under a slab", "Take a flat board here")),
    Bad("a panel with knobs for tube in the floor", '{ gravel = "4 in" }', '{ board = "knob-15", thickness = "2 in" }',
        ("floor.build-up.3.board", "is no flat board", "panels with channels below")),
    Bad("a slab under the sky", 'use = "basement"', 'use = "walk"',
        ("soil-gas", "No room lies over this slab", "Take [soil-gas] out")),
)  # fmt: skip


@pytest.mark.parametrize("bad", BAD, ids=lambda bad: bad.what)
def test_soil_gas_that_cannot_be_used_is_told_with_the_way_out(bad, tmp_path, monkeypatch, capsys):
    monkeypatch.chdir(tmp_path)
    held_to(GOOD, bad, tmp_path, capsys)


def test_the_brief_that_is_spoiled_is_good():
    assert reads(GOOD).brief.soil_gas is not None
