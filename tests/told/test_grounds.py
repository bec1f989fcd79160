"""The ground as people tell it: what moves which way, what is said, and what cannot be."""

import pytest
from pytest import approx

from underpour.answer import findings
from underpour.brief import reads
from underpour.checks.code.floor import u_value
from underpour.cut import solved_edges
from underpour.mistakes import Mistake, Mistakes
from underpour.resolve import resolve
from underpour.resolve.site import summary
from underpour.sections.build import section

HOUSE = """\
[project]
use = "dwelling"
units = "SI"

[site]
place = "Duluth, MN"
{site}

[plan]
unit = "m"
outline = ["0 0", "12 0", "12 8", "0 8"]

[floor]
inside = "20 C"
build-up = [{{ concrete = "100 mm" }}, {{ gravel = "100 mm" }}]

[[edge]]
sides = "all"
kind = "frost-wall"
depth = "1.2 m"
ground = "-200 mm"
"""


def house(site):
    reading = reads(HOUSE.format(site=site))
    return resolve(reading.brief, products=reading.products)


def told(site):
    with pytest.raises(Mistakes) as found:
        house(site)
    return "\n".join(map(str, found.value.found))


def cellar(site):
    """The same house with its floor 1.5 m below the ground."""
    text = HOUSE.replace("frost-wall", "footing-wall").replace('"1.2 m"', '"0.5 m"').replace('"-200 mm"', '"1.5 m"')
    reading = reads(text.format(site=site))
    return resolve(reading.brief, products=reading.products)


def report(more='kind = "fine"', density="1600 kg/m³", moisture="15 %"):
    return f'ground = {{ dry-density = "{density}", moisture = "{moisture}", {more} }}'


@pytest.mark.parametrize("kind", ["fine", "coarse"])
def test_wetter_soil_conducts_and_stores_more(kind):
    dry, wet = (house(report(f'kind = "{kind}"', moisture=m)).ground for m in ("8 %", "20 %"))
    assert wet.conductivity > 1.2 * dry.conductivity and wet.heat_capacity > 1.2 * dry.heat_capacity


def test_denser_soil_conducts_more_and_so_does_frozen_soil_that_is_wet():
    loose, dense = (house(report(density=d)).ground.conductivity for d in ("1300 kg/m³", "1800 kg/m³"))
    assert dense > 1.2 * loose
    frozen = house(report('kind = "fine", frozen = true', moisture="20 %")).ground
    assert frozen.conductivity > house(report(moisture="20 %")).ground.conductivity


def test_quartz_that_is_not_told_is_assumed_and_the_note_says_how_the_ground_was_found():
    resolved = house(report())
    (quartz,) = (each for each in resolved.assumed if each.path == "site.ground.quartz")
    assert (quartz.low, quartz.value, quartz.high) == (15.0, 40.0, 60.0)
    note = next(note for note in resolved.notes if "Johansen" in note)
    assert "59 % of its pores are full" in note and "Kersten's of 1949" in note
    typed = house(report('kind = "fine", quartz = "60 %"'))
    assert not [each for each in typed.assumed if each.path.startswith("site.ground")]
    assert typed.ground.conductivity > resolved.ground.conductivity


BAD = [
    (report(density="2750 kg/m³"), "as dense as stone without a pore", 'rock is ground = "rock"'),
    (report(density="20 pcf"), "too light for mineral soil", 'peat is ground = "peat"'),
    (report(moisture="35 %"), "the pores of soil so dense hold 25.5 %", "the dry one is wanted"),
    (report(moisture="1 %"), "it is too dry", 'moisture = "2.6 %" or more'),
    (report('kind = "clayey"'), "No kind is called clayey", "fine and coarse"),
    (report('kind = "fine", quartz = "1.2"'), "1.2 of what?", "%"),
    (report('kind = "fine", conductivity = "1.5 W/(m·K)"'), "is told twice", "Keep one"),
    ('ground = { dry-density = "1600 kg/m³", kind = "fine" }', "needs moisture", 'moisture = "15 %"'),
]


LAYERS = 'layers = [{ ground = "sand-or-gravel", thickness = "1 m" }, { ground = "clay-or-silt" }]'
BAD += [
    (
        LAYERS.replace('{ ground = "clay-or-silt" }', '{ ground = "clay", thickness = "1 m" }'),
        "ends, and nothing",
        "Take",
    ),
    (LAYERS.replace(', thickness = "1 m"', ""), "has no thickness, and others lie below it", 'thickness = "3 ft"'),
    (LAYERS.replace("1 m", "0 m"), "0 m is nothing", "take it out"),
    (LAYERS.replace("1 m", "-1 m"), "site.layers.1.thickness", "-1 m"),
    (LAYERS.replace("clay-or-silt", "clya"), "No ground is called clya", "The nearest is clay"),
    (f'ground = "clay"\n{LAYERS}', "ground and layers both say what the ground is", "Keep one"),
    ("layers = []", "holds no layer", "Write layers = ["),
    ('layers = [{ ground = "clay" }, { thickness = "1 m" }]', "A layer of ground needs ground", "sand-or-gravel"),
]


BAD += [
    ('water-table = "-2 m"', "-2 m is below zero", "600 mm"),
    ('water-table = "90 m"', "site.water-table", "90 m"),
    ("drained = true", "nothing says how high the ground water stands", "water-table ="),
    ('water-table = "2 m"\ndrained = "yes"', "true or false, without quotes", "drained = true"),
]


BAD += [
    ('surface = "tarmac"', "No surface is called tarmac", "turf, gravel, asphalt and concrete"),
    ("surface = { freezing = -1 }", "a plain number above zero, at most 5", "Write 1 where"),
    ('surface = { thawing = "much" }', "a plain number above zero, at most 5", "Write 1 where"),
    ("surface = { frezing = 1 }", "Typed surface has no key frezing", "The nearest is freezing"),
    ('surface = "turf"\nsnow = "12 in"', "both say what lies on the ground", "Keep one"),
    ('snow = "-3 in"', "below zero", "600 mm"),
    ('snow-conductivity = "0.2 W/(m·K)"', "no snow is", 'snow = "12 in"'),
]


@pytest.mark.parametrize(("site", "wrong", "instead"), BAD)
def test_ground_that_cannot_be_is_told(site, wrong, instead):
    words = told(site)
    assert "site." in words and wrong in words and instead in words


def test_the_least_moisture_that_a_message_offers_can_be_typed():
    assert house(report(moisture="2.6 %")).ground.conductivity > 0.0


def test_layers_are_told_from_the_surface_down_and_the_build_up_lies_on_the_one_it_reaches():
    resolved = house(LAYERS.replace("1 m", "100 mm"))
    words = "Ground, from the finished ground down: Sand or gravel, 100 mm (3.94 in); then Clay or silt"
    assert words in [line.replace("\N{THIN SPACE}", " ") for line in summary(resolved)]
    assert resolved.ground.label == "Sand or gravel"
    assert house(LAYERS).ground_below.label == "Sand or gravel"
    assert house(LAYERS).ground_conductivity(0.5, 2.5) == pytest.approx((0.5 * 2.0 + 1.5 * 1.5) / 2.0)


def test_layers_of_one_ground_are_one_ground():
    alike = house(LAYERS.replace("sand-or-gravel", "clay"))
    assert [stratum.slice.label for stratum in alike.strata] == ["Clay or silt"]


def test_a_section_shows_each_layer_with_its_own_hatch_and_a_line_between():
    resolved = house(LAYERS)
    made = section(resolved, resolved.edges[0])
    assert [part.hatch for part in made.parts if part.path.startswith("site.")] == ["ground-coarse", "ground-fine"]
    assert made.window[2] < resolved.edges[0].ground - 1.0
    alone = house('ground = "clay"')
    assert [part.hatch for part in section(alone, alone.edges[0]).parts if part.path == "site.ground"] == ["ground"]


def test_the_loss_says_what_it_comes_to_where_the_ground_water_moves():
    resolved = house('ground = "clay"\nwater-table = "2 m"')
    loss = next(f for f in findings(resolved, solved_edges(resolved)) if f.id == "heat.loss-mean")
    words = loss.words.replace("\N{THIN SPACE}", " ")
    assert words.startswith(f"Between {loss.value:.0f} W (") and "where it moves, held at 4.7 °C" in words
    assert any("take the ground water to stand still" in note for note in resolved.notes)


def test_ground_below_water_is_assumed_saturated_and_a_typed_conductivity_is_said_to_be_taken_there_too():
    named = house('ground = "clay"\nwater-table = "2 m"')
    assert {each.path for each in named.assumed} >= {"site.ground.saturated-conductivity"}
    properties = 'conductivity = "1.5 W/(m·K)", heat-capacity = "3 MJ/(m³·K)"'
    typed = house(f'ground = {{ {properties} }}\nwater-table = "2 m"')
    assert any("is taken below the water table too" in note for note in typed.notes)
    both = house(f'ground = {{ {properties}, saturated-conductivity = "1.9 W/(m·K)" }}\nwater-table = "2 m"')
    assert [stratum.slice.conductivity for stratum in both.strata] == [1.5, 1.9]
    assert not any("taken below the water table" in note for note in both.notes)


def test_rock_and_soil_by_a_report_below_water():
    assert len(house('ground = "rock"\nwater-table = "2 m"').strata) == 1
    moist, wet = (stratum.slice for stratum in house(f'{report()}\nwater-table = "2 m"').strata)
    assert wet.label == "Fine soil, below water" and wet.conductivity > moist.conductivity


def test_water_above_the_floor_is_said_with_what_it_does_to_foam_and_floor():
    notes = "\n".join(cellar('ground = "clay"\nwater-table = "1 m"').notes).replace("\N{THIN SPACE}", " ")
    assert "stands 700 mm (2.30 ft) above the underside of the build-up at edge A" in notes
    assert "lifts an empty floor by 6.87 kPa" in notes and "292 mm" in notes  # 0.7 m × 9.81, over 23.5 kN/m³
    assert "Foam floats up" in notes and "loses R" in notes and "structural engineer" in notes
    assert "drained = true or waterproofed = true" in notes


def test_drains_or_a_seal_change_what_is_said_and_neither_of_them_is_refused():
    drained = "\n".join(cellar('ground = "clay"\nwater-table = "1 m"\ndrained = true').notes)
    assert "Drains are said to keep the ground water below" in drained and "lifts" not in drained
    sealed = "\n".join(cellar('ground = "clay"\nwater-table = "1 m"\ndrained = false\nwaterproofed = true').notes)
    assert "does not hold down the floor" in sealed
    with pytest.raises(Mistakes) as found:
        cellar('ground = "clay"\nwater-table = "1 m"\ndrained = false')
    assert "nothing keeps it off" in str(found.value) and "waterproofed = true" in str(found.value)
    cellar('ground = "clay"\nwater-table = "3 m"\ndrained = false')  # below the build-up: nothing to refuse


def test_drains_hold_moving_water_no_higher_than_the_build_up():
    level = {more: cellar(f'water-table = "1 m"\n{more}') for more in ("", "drained = true")}
    assert [each.water_level(each.edges[0]) for each in level.values()] == pytest.approx([0.5, -0.2])


def test_what_lies_on_the_ground_is_said_with_its_mean_and_swing_and_what_is_taken_is_listed():
    resolved = house('surface = "turf"')
    (note,) = (note.replace("\N{THIN SPACE}", " ") for note in resolved.notes if "The ground outside is taken" in note)
    assert "under turf, with the snow that usually lies on it" in note and "Walls keep the air" in note
    assert {each.path for each in resolved.assumed} >= {"site.surface.freezing", "site.surface.thawing"}
    deep = house('snow = "300 mm"')
    assert any("under 300 mm (11.8" in note and "snow is cleared away" in note for note in deep.notes)
    assert [each.value for each in deep.assumed if each.path == "site.snow-conductivity"] == [0.2]


SUN = [70, 110, 160, 200, 235, 255, 255, 215, 160, 105, 65, 55]  # W/m²
TYPED_SUN = ", ".join(f'"{month} W/m²"' for month in SUN)


def test_ground_of_which_nothing_is_said_is_listed_as_bare_and_a_typed_surface_takes_its_place():
    bare = house("")
    listed = {each.path: (each.low, each.value, each.high) for each in bare.assumed if "surface" in each.path}
    assert listed == {"site.surface.freezing": (0.5, 1.0, 1.0), "site.surface.thawing": (0.8, 1.0, 1.6)}
    assert bare.surface is None
    for typed in ("surface = { freezing = 0.7, thawing = 1 }", f"surface = {{ sun = [{TYPED_SUN}] }}", 'snow = "1 ft"'):
        resolved = house(typed)
        assert not set(listed) & {each.path for each in resolved.assumed}
        assert resolved.surface is not None
    warm = HOUSE.format(site="").replace("Duluth, MN", "Miami, FL")
    (word,) = (each for each in resolve(reads(warm).brief).assumed if "surface" in each.path)
    assert (word.path, word.value, word.low) == ("site.surface", "bare, as warm as the air", None)


def test_summers_warmer_than_paving_was_measured_in_are_not_tried_with_paving():
    chicago = resolve(reads(HOUSE.format(site="").replace("Duluth, MN", "Chicago, IL")).brief)
    (thawing,) = (each for each in chicago.assumed if each.path == "site.surface.thawing")
    assert thawing.high == 1.1


def test_sun_warms_the_ground_by_what_it_takes_up_less_what_goes_to_the_sky():
    """0.9 of the 157.08 W/m² that the twelve months come to, less 40, through the film of 0.04: 4.055 K."""
    resolved = house(f'surface = {{ sun = [{TYPED_SUN}], absorptance = "90 %", to-sky = "40 W/m²" }}')
    assert sum(SUN) / 12 == approx(157.083, abs=1e-3)
    assert resolved.surface.mean - resolved.outdoor_mean == approx(4.055, abs=1e-3)
    assert abs(resolved.surface.swing) > abs(resolved.outdoor_swing)
    assert not [each for each in resolved.assumed if "surface" in each.path]
    (note,) = (note for note in resolved.notes if "dry and in the sun" in note)
    assert "from memory" in note and "keeps it cooler" in note
    (open_colour, open_sky) = (
        each for each in house(f"surface = {{ sun = [{TYPED_SUN}] }}").assumed if "surf" in each.path
    )
    assert (open_colour.value, open_colour.unit, open_sky.value) == (60.0, "%", 57.0)


def test_sun_of_the_year_alone_lifts_the_mean_and_leaves_the_swing():
    resolved = house('surface = { sun = ["155 W/m²"], absorptance = "60 %", to-sky = "57 W/m²" }')
    assert resolved.surface.swing == resolved.outdoor_swing
    assert resolved.surface.mean - resolved.outdoor_mean == approx((0.6 * 155 - 57) * 0.04)


def test_sun_is_answered_where_it_never_freezes():
    text = HOUSE.format(site='surface = { sun = ["220 W/m²"] }').replace("Duluth, MN", "Miami, FL")
    resolved = resolve(reads(text).brief)
    assert resolved.surface.mean == approx(resolved.outdoor_mean + 3.0)


@pytest.mark.parametrize(
    ("surface", "words"),
    [
        ('{ sun = ["155 W/m²"], thawing = 1.2 }', "Factors and sun both say"),
        ('{ sun = ["155 W/m²", "160 W/m²"] }', "sun has 2 values; a year has twelve months."),
        ('{ sun = ["900 W/m²"] }', "900 W/m² is no mean of a month"),
        ('{ sun = ["155 W/m²"], to-sky = "-5 W/m²" }', "would come from the sky"),
        ('{ absorptance = "60 %" }', "nothing says how much sun there is"),
        ('{ to-sky = "60 W/m²", freezing = 1 }', "nothing says how much sun there is"),
        ('{ sun = ["4 kWh/m²"] }', "kWh/m²"),
        ('{ sun = ["155 W/m²"], absorptance = "160 %" }', "160 %"),
    ],
)
def test_sun_that_cannot_be_is_told(surface, words):
    assert words in told(f"surface = {surface}")


@pytest.mark.parametrize(
    ("place", "surface", "wrong"),
    [
        ("Miami, FL", 'snow = "12 in"', "never freeze here"),
        ("Chicago, IL", 'surface = "asphalt"', "Summers are warmer here"),
    ],
)
def test_a_factor_where_it_was_never_measured_is_refused(place, surface, wrong):
    reading = reads(HOUSE.format(site=surface).replace("Duluth, MN", place))
    with pytest.raises((Mistake, Mistakes)) as found:
        resolve(reading.brief, products=reading.products)
    assert wrong in str(found.value)


@pytest.mark.parametrize("word", ["turf", "gravel", "asphalt", "concrete"])
def test_every_surface_that_can_be_named_is_answered(word):
    assert house(f'surface = "{word}"').surface is not None


def test_the_u_value_that_a_code_asks_for_takes_layers_by_their_mean():
    """1 m of sand over clay conducts between the two, and so does the floor on it."""
    by_layers, sand, clay = (u_value(house(site))[0] for site in (LAYERS, 'ground = "sand"', 'ground = "clay"'))
    assert clay < by_layers < sand


@pytest.mark.parametrize(
    ("ground", "heaves"),
    [("", True), ("clay", True), ("peat", True), ("silty-clay-moist", True), ("sand", False), ("rock", False)],
)
def test_ground_heaves_by_its_fines_and_where_nothing_is_told_of_them_that_is_not_ruled_out(ground, heaves):
    """Clean sand and rock have less than 3 % finer than 0.02 mm; the gravel of the build-up is no ground."""
    resolved = house(f'ground = "{ground}"' if ground else "")
    made = section(resolved, resolved.edges[0])
    assert {part.path for part in made.parts if part.heaves} == ({"site.ground"} if heaves else set())


def test_a_soils_report_says_which_ground_heaves_and_so_does_each_layer():
    for kind, heaves in (("fine", True), ("coarse", False)):
        assert [stratum.slice.heaves for stratum in house(report(f'kind = "{kind}"')).strata] == [heaves]
    layers = 'layers = [{ ground = "sand", thickness = "1 m" }, { ground = "clay" }]'
    assert [stratum.slice.heaves for stratum in house(layers).strata] == [False, True]
