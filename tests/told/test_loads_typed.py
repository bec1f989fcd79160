"""Loads on the slab, as typed: what cannot be used is told with the way out, all of it in one table."""

from __future__ import annotations

from pathlib import Path

import pytest
from refused import Bad, held_to

from underpour.brief import reads

GOOD = """\
[project]
use = "warehouse"

[site]
place = "Duluth, MN"
ground = "clay-or-silt"

[plan]
outline = ["0 0", "60 0", "60 40", "0 40"]
unit = "ft"

[floor]
inside = "60 F"
humidity = "40 %"
build-up = [{ concrete = "6 in" }, { board = "plain-25", thickness = "2 in" }, { gravel = "4 in" }]

[[edge]]
name = "dock side"
sides = "all"
kind = "thickened-edge"
depth = "16 in"
ground = "-8 in"

[[load]]
kind = "rack-post"
force = "6500 lb"
plate = "6 in x 6 in"
at = "20 20"
count = 3
spacing = "8 ft"

[[load]]
kind = "axle"
force = "12000 lb"
tyre = "100 psi"
track = "3 ft"
at = "edge dock side"

[[load]]
kind = "uniform"
pressure = "125 psf"
everywhere = true

[[load]]
kind = "line"
force = "450 lb/ft"
from = "4 10"
to = "30 10"

[[load]]
like = "lift-two-post"

[[joint]]
spacing = "15 ft"
along = "x"
transfer = "dowels"
share = "85 %"

[[joint]]
kind = "construction"
from = "30 0"
to = "30 40"

[[floor.bay]]
outline = ["0 0", "10 0", "10 10", "0 10"]
subgrade-modulus = "50 pci"

[[floor.rib]]
from = "0 30"
to = "60 30"
width = "18 in"
thickness = "14 in"
lies-on = "foam"
"""
FORCE, PLATE, AT = 'force = "6500 lb"', 'plate = "6 in x 6 in"', 'at = "20 20"'
ROW, AXLE, LIKE = 'count = 3\nspacing = "8 ft"', 'kind = "axle"', 'like = "lift-two-post"'
EVEN, TYRE, LINE = 'pressure = "125 psf"\neverywhere = true', 'tyre = "100 psi"', 'from = "4 10"\nto = "30 10"'
GRID, CUT = 'spacing = "15 ft"\nalong = "x"', 'from = "30 0"\nto = "30 40"'
BAY, SOFT = 'outline = ["0 0", "10 0", "10 10", "0 10"]', 'subgrade-modulus = "50 pci"'
RIB, DEEP = 'from = "0 30"\nto = "60 30"', 'thickness = "14 in"'
GROUND, SLAB = 'ground = "clay-or-silt"\n\n[plan]', 'concrete = "6 in"'


def site(more: str) -> str:
    return f'ground = "clay-or-silt"\n{more}\n\n[plan]'


BAD = [
    Bad("a kind nobody knows", 'kind = "rack-post"', 'kind = "rack-posts"',
        ("load.1.kind", "No kind is called rack-posts.", "The nearest is rack-post.")),
    Bad("a kind that is a usual load", 'kind = "rack-post"', 'kind = "forklift"',
        ("load.1.kind", "No kind is called forklift.", 'A usual load says it: like = "forklift-1"',
         "underpour catalogue list loads")),
    Bad("neither kind nor like", LIKE, 'plate = "6 in"', ("load.5.kind", "A load needs kind", "`like` says it too")),
    Bad("a usual load nobody knows", LIKE, 'like = "lift-two-posts"',
        ("brief.toml:51  load.5.like", "No usual load is called lift-two-posts.", "The nearest is lift-two-post.",
         "underpour catalogue list loads")),
    Bad("a kind that is not what it is like", LIKE, f'{LIKE}\nkind = "axle"',
        ("load.5.kind", "lift-two-post is a lift, and kind says an axle.", "Take kind out")),
    Bad("a load outside the outline", AT, 'at = "70 20"',
        ("brief.toml:28  load.1.at", "70 20 does not lie on the floor.", "x and y as in the outline")),
    Bad("a load that hangs over the edge", AT, 'at = "0.1 20"',
        ("load.1.at", "reaches", "over the edge of the floor", 'at = "edge"')),
    Bad("a row that runs off the floor", AT, 'at = "56 20"', ("load.1.at", "over the edge of the floor")),
    Bad("a line that runs off the floor", LINE, 'from = "4 10"\nto = "80 10"', ("load.4.to", "80 10 does not lie")),
    Bad("a line that ends nowhere", LINE, 'from = "4 10"', ("load.4.from", "The line says from and not to.")),
    Bad("a line without length", LINE, 'from = "4 10"\nto = "4 10"', ("load.4.to", "ends where it begins")),
    Bad("a plate without area", PLATE, 'plate = "0 in x 6 in"',
        ("load.1.plate", "0 in x 6 in has no area to stand on.")),
    Bad("a plate that is a number", PLATE, "plate = 6", ("load.1.plate", "stands in quotes", "6 in x 6 in")),
    Bad("a plate with three sides", PLATE, 'plate = "6 in x 6 in x 1 in"', ("load.1.plate", "more than two sides")),
    Bad("a plate as large as the floor", PLATE, 'plate = "80 ft x 60 ft"', ("load.1", "over the edge of the floor")),
    Bad("a place that is no place", AT, 'at = "midle"',
        ("load.1.at", "No place on the floor is called midle.", "The nearest is middle.", 'at = "12 14"')),
    Bad("a line that comes anywhere", LINE, 'at = "anywhere"',
        ("load.4.at", "A line stays where it is.", "wheel, axle")),
    Bad("a pad below what comes anywhere", f"{AT}\n{ROW}",
        'at = "anywhere"\npad = "4 ft x 4 ft"\npad-thickness = "10 in"', ("load.1.pad", "A pad lies at one place")),
    Bad("a place with one number", AT, 'at = "20"', ("load.1.at", "20")),
    Bad("an axle typed as a wheel", AXLE, 'kind = "wheel"',
        ("load.2.force", "12000 lb on one wheel? That is what a loaded axle brings.", 'kind = "axle"', "wheels = 1")),
    Bad("an axle with three wheels", AXLE, f"{AXLE}\nwheels = 3",
        ("load.2.wheels", "An axle does not have 3 wheels.", "Write 2, or 4")),
    Bad("wheels that are no number", AXLE, f'{AXLE}\nwheels = "two"', ("load.2.wheels", "a whole number")),
    Bad("no wheels at all", AXLE, f"{AXLE}\nwheels = 0", ("load.2.wheels", "a whole number from 1 up")),
    Bad("a plate and a tyre", TYRE, f'{TYRE}\nplate = "8 in"', ("load.2.tyre", "plate and tyre both say", "Keep one")),
    Bad("a tyre below a post", PLATE, 'tyre = "100 psi"', ("load.1.tyre", "A rack post has no tyre.")),
    Bad("no force", f"{FORCE}\n", "", ("load.1.force", "A load needs force", 'Write force = "6500 lb".')),
    Bad("a force by length of a post", FORCE, 'force = "6500 lb/ft"', ("load.1.force", "a force is wanted")),
    Bad("a whole force of a line", 'force = "450 lb/ft"', 'force = "450 lb"', ("load.4.force", "lb/ft")),
    Bad("a force of nothing", FORCE, 'force = "0 lb"', ("load.1.force", "0 lb is no load.")),
    Bad("a force without its unit", FORCE, 'force = "6500"', ("load.1.force", "6500 of what?")),
    Bad("a pressure of a post", FORCE, f'{FORCE}\npressure = "125 psf"',
        ("load.1.pressure", "A rack post has no pressure.")),
    Bad("no pressure", EVEN, "everywhere = true", ("load.3.pressure", "A load needs pressure", "125 psf")),
    Bad("everywhere and at one place", EVEN, f'{EVEN}\nat = "middle"', ("load.3.at", "all over the floor")),
    Bad("everywhere that is no", EVEN, 'pressure = "125 psf"\neverywhere = false', ("load.3.everywhere", "says where")),
    Bad("force and pressure that are not one", EVEN, 'pressure = "125 psf"\nforce = "100 lb"\nplate = "2 ft x 2 ft"',
        ("load.3.pressure", "100 lb on 2 ft x 2 ft is not 125 psf.", "Keep force or pressure")),
    Bad("a row without spacing", ROW, "count = 3", ("load.1.count", "3 are told", "Write spacing")),
    Bad("a spacing of nothing told", ROW, 'spacing = "8 ft"', ("load.1.spacing", "not how many", "Write count = 3")),
    Bad("a row that has an axle's track", ROW, f'{ROW}\ntrack = "6 ft"', ("load.1.track", "has no track")),
    Bad("how long in years", PLATE, f'{PLATE}\nhow-long = "10 years"',
        ("load.1.how-long", "No how-long is called 10 years.", "one of standing and passing")),
    Bad("a slab thinner than any", SLAB, 'concrete = "2 in"',
        ("floor.build-up.1.concrete", "2 in of concrete is thinner than any slab", "3 in (75 mm)")),
    Bad("no slab", f"{{ {SLAB} }}, ", "", ("floor.build-up", "no concrete to carry them")),
    Bad("two soils at one place", GROUND, site('layers = [{ ground = "rock" }]'),
        ("site.layers", "ground and layers both say what the ground is.")),
    Bad("stiffness of the ground told twice", GROUND, site('subgrade-modulus = "100 pci"\ncbr = "3 %"'),
        ("site.cbr", "both say how stiff the ground is", "Keep the test with the plate")),
    Bad("ground that bears nothing", GROUND, site('subgrade-modulus = "0 pci"'),
        ("site.subgrade-modulus", "bears nothing")),
    Bad("ground as stiff as nothing is", GROUND, site('subgrade-modulus = "90000 pci"'), ("site.subgrade-modulus",)),
    Bad("soil that does not bear the floor itself", GROUND, site('soil-bearing = "60 psf"'),
        ("site.soil-bearing", "The floor alone weighs", "60 psf")),
    Bad("a frozen base", GROUND, site('base = "frozen"'), ("site.base", "A frozen base thaws", "Thaw it, dry it")),
    Bad("a base that is not compacted", GROUND, site('base = "loose"'),
        ("site.base", "settles unevenly", "Compact it")),
    Bad("a joint without a place", GRID, 'along = "x"',
        ("joint.1.from", "A joint needs its place.", 'spacing = "15 ft"')),
    Bad("a joint told twice", GRID, f'{GRID}\nfrom = "0 20"\nto = "60 20"', ("joint.1.spacing", "Take spacing out.")),
    Bad("a joint that ends nowhere", CUT, 'from = "30 0"', ("joint.2.from", "says from and not to")),
    Bad("a joint without length", CUT, 'from = "30 0"\nto = "30 0"', ("joint.2.to", "ends where it begins")),
    Bad("a joint askew", CUT, 'from = "30 0"\nto = "34 40"', ("joint.2.to", "lies askew", "the same x or the same y")),
    Bad("a joint off the floor", CUT, 'from = "30 0"\nto = "30 44"', ("joint.2.to", "30 44 does not lie on the floor")),
    Bad("a joint that ends in the slab", CUT, 'from = "30 0"\nto = "30 17"',
        ("joint.2.to", "ends in the middle of the slab", "another joint")),
    Bad("a joint that is there twice", CUT, f'{CUT}\n\n[[joint]]\n{CUT}', ("joint.3", "along this line already")),
    Bad("joints that cut the slab to pieces", GRID, 'spacing = "1 ft"', ("joint.1.spacing", "cut a slab to pieces")),
    Bad("a share that nothing hands on", 'transfer = "dowels"\n', "", ("joint.1.share", "not what hands it on")),
    Bad("a share of all", 'share = "85 %"', 'share = "100 %"', ("joint.1.share", "No joint hands on 100 %.")),
    Bad("a joint of a kind that is none", 'kind = "construction"', 'kind = "sawn"', ("joint.2.kind", "sawn")),
    Bad("a part that is as the floor is", SOFT, "", ("floor.bay.1", "does not say what is different")),
    Bad("a part off the floor", BAY, 'outline = ["0 0", "10 0", "10 60", "0 60"]',
        ("floor.bay.1.outline.3", "lies off the floor")),
    Bad("a part without area", BAY, 'outline = ["0 0", "10 0"]', ("floor.bay.1.outline", "enclose nothing")),
    Bad("two different grounds at one place", SOFT,
        f'{SOFT}\n\n[[floor.bay]]\noutline = ["5 5", "15 5", "15 15", "5 15"]\n{SOFT}',
        ("floor.bay.2.outline", "lies over bay 1: two different grounds at one place")),
    Bad("a part without a slab", SOFT, 'build-up = [{ gravel = "4 in" }]',
        ("floor.bay.1.build-up", "no slab that carries anything")),
    Bad("a rib off the floor", RIB, 'from = "0 30"\nto = "70 30"',
        ("floor.rib.1.to", "70 30 does not lie on the floor")),
    Bad("a rib without length", RIB, 'from = "0 30"\nto = "0 30"', ("floor.rib.1.to", "The rib ends where it begins.")),
    Bad("a rib askew", RIB, 'from = "0 30"\nto = "60 20"',
        ("floor.rib.1.to", "lies askew", "the same x or the same y")),
    Bad("a rib that ends nowhere", RIB, 'from = "0 30"', ("floor.rib.1.to",)),
    Bad("a rib at a place that is none", RIB, 'from = "door"\nto = "60 30"', ("floor.rib.1.from",)),
    Bad("a rib no thicker than the slab", DEEP, 'thickness = "6 in"',
        ("floor.rib.1.thickness", "6 in is no thicker than the slab of 6 in.", "in all")),
    Bad("a rib of no width", 'width = "18 in"', 'width = "0 in"', ("floor.rib.1.width", "0 in")),
    Bad("a rib on what is no bed", 'lies-on = "foam"', 'lies-on = "sand"', ("floor.rib.1.lies-on", "sand")),
    Bad("a rib of which nobody knows what it lies on", '\nlies-on = "foam"', "",
        ("floor.rib.1.lies-on", "does not say whether the foam is led on below it", 'lies-on = "foam", or "ground"')),
    Bad("a rib on foam that is not there", '{ board = "plain-25", thickness = "2 in" }, ', "",
        ("floor.rib.1.lies-on", "no foam lies below this floor")),
    Bad("a joint at a wall that has none", 'depth = "16 in"', 'depth = "16 in"\ngap = "1/2 in"',
        ("edge.A.gap", "has no joint between slab and wall")),
    Bad("a finish that is none", '[floor]\n', '[floor]\nfinish = "tiles"\n', ("floor.finish", "tile")),
    Bad("concrete of no strength", '[floor]\n', '[floor]\nconcrete-class = "40 psi"\n',
        ("floor.concrete-class", "40 psi is no strength of a slab's concrete.", "C25/30")),
    Bad("a pad of no thickness", ROW, 'pad = "4 ft x 4 ft"',
        ("load.1.pad", "pad is told, and pad-thickness is not.", 'pad-thickness = "10 in"')),
    Bad("a pad thinner than the slab", ROW, 'pad = "4 ft x 4 ft"\npad-thickness = "6 in"',
        ("load.1.pad-thickness", "6 in is no thicker than the slab of 6 in.", "in all")),
    Bad("a pad smaller than what stands on it", ROW, 'pad = "4 in x 4 in"\npad-thickness = "10 in"',
        ("load.1.pad", "smaller than what stands on it, 6 in x 6 in")),
    Bad("a pad below a row", ROW, f'{ROW}\npad = "4 ft x 4 ft"\npad-thickness = "10 in"',
        ("load.1.pad", "A pad is below one load")),
    Bad("a pad below an axle", AXLE, f'{AXLE}\npad = "4 ft x 4 ft"\npad-thickness = "10 in"',
        ("load.2.pad", "An axle has no pad.")),
    Bad("a pad that hangs over the edge", f"{AT}\n{ROW}", 'at = "1 20"\npad = "4 ft x 4 ft"\npad-thickness = "10 in"',
        ("load.1.at", "reaches", "over the edge of the floor")),
    Bad("anchors of an axle", AXLE, f'{AXLE}\nanchor-depth = "3 in"',
        ("load.2.anchor-depth", "An axle has no anchor-depth.", "rack-post, post, lift")),
    Bad("anchors drilled nowhere", LIKE, f'{LIKE}\nanchor-depth = "0 in"', ("load.5.anchor-depth", "0 in is nothing.")),
    Bad("a friction that is a word", "[floor]\n", '[floor]\nfriction = "good"\n',
        ("floor.friction", "A coefficient of friction is a number from 0.01 to 1.5.")),
    Bad("a push of nothing", FORCE, f'{FORCE}\nsideways = "0 lb"', ("load.1.sideways", "0 lb is no load.")),
    Bad("a factor on a load beside one on the strength", FORCE, f"{FORCE}\nfactored = 1.6",
        ("load.1.factored", "This load has a factor of 1.6 in it", "two methods", 'concrete-method = "lrfd"')),
    Bad("a factor on a usual load", LIKE, f"{LIKE}\nfactored = 1.6",
        ("load.5.factored", "no force is typed", "usual loads are unfactored")),
    Bad("a factor on a load that is none", FORCE, f"{FORCE}\nfactored = 16",
        ("load.1.factored", "A factor on a load is a number from 1 to 3.")),
    Bad("a factor on the strength beside factors on loads", "[floor]\n",
        '[floor]\nconcrete-method = "lrfd"\nsafety-factor = 2.0\n',
        ("floor.safety-factor", "lrfd has factors on loads and strength already", "Take it out")),
    Bad("a factor on the strength that is none", "[floor]\n", '[floor]\nsafety-factor = "two"\n',
        ("floor.safety-factor", "A factor on the strength of concrete is a number from 1 to 5.")),
    Bad("a method that is none", "[floor]\n", '[floor]\nconcrete-method = "en-1992"\n',
        ("floor.concrete-method", "No concrete-method is called en-1992.", "The nearest is en-1990.")),
    Bad("concrete stronger than the formulas know", "[floor]\n",
        '[floor]\nconcrete-method = "en-1990"\nconcrete-class = "C60/75"\n',
        ("floor.concrete-class", "C60/75 is stronger than C50/60")),
    Bad("a class of concrete that is none", '[floor]\n', '[floor]\nconcrete-class = "B25"\n',
        ("floor.concrete-class",)),
]  # fmt: skip


@pytest.mark.parametrize("bad", BAD, ids=[bad.what for bad in BAD])
def test_bad_input_is_told_with_the_way_out_and_nothing_is_touched(
    bad: Bad, tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    monkeypatch.chdir(tmp_path)
    held_to(GOOD, bad, tmp_path, capsys)


def test_what_is_typed_well_is_read() -> None:
    brief = reads(GOOD).brief
    assert [load.kind for load in brief.load] == ["rack-post", "axle", "uniform", "line", None]
    assert brief.load[0].force is not None and round(brief.load[0].force.si) == 28913
    assert brief.load[3].force is not None and round(brief.load[3].force.si) == 6567


@pytest.mark.parametrize(
    ("typed", "pascals"),
    [("4000 psi", 27.579e6), ("C25/30", 25e6), ("C30", 30e6), ("c20/25", 20e6), ("35 MPa", 35e6)],
)
def test_the_strength_of_concrete_is_a_cylinder_s_or_a_class(typed: str, pascals: float) -> None:
    found = reads(GOOD.replace("[floor]\n", f'[floor]\nconcrete-class = "{typed}"\n')).brief.floor.concrete_class
    assert found is not None and found.si == pytest.approx(pascals, rel=1e-4)


def test_one_heavy_wheel_is_taken_where_it_is_said_to_be_one() -> None:
    typed = GOOD.replace('kind = "axle"', 'kind = "wheel"\nwheels = 1').replace('track = "3 ft"\n', "")
    assert reads(typed).brief.load[1].kind == "wheel"
