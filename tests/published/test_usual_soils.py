"""Soils for reckoning frost, peat and snow, as a public page on pavements has them; the soil of a benchmark of slabs.

Printed, quoted from a public page (pavementinteractive.org, calculation of frost depth): dry density of gravel and sand
120 to 140 pcf, of silts and clays 90 to 100 pcf, of peat 20 pcf; moisture of gravel 2 to 10 %, sand 5 to 15 %,
silt 5 to 40 %, clay 10 to 50 %; snow 0.06 Btu/(h·ft·°F) loose and 0.2 compact. Soil of the benchmark,
NREL/TP-550-43388, from memory: 1.9 W/(m·K), 1490 kg/m³, 1800 J/(kg·K).
"""

import pytest

from ledger import between, held, told
from underpour import catalogue
from underpour.brief import reads
from underpour.catalogue.read import table
from underpour.measure import conductivity, density
from underpour.mistakes import Mistakes
from underpour.physics import soil
from underpour.resolve import resolve

PAGE = "a public page on pavements, calculation of frost depth"
BENCHMARK = "NREL/TP-550-43388, soil of the ground-coupled slab"
ROWS = {row["key"]: row for row in table("soils")["row"]}
FOOT = conductivity("1 Btu/(h·ft·°F)").si
POUND = density("1 pcf").si
BRIEF = """
[project]
use = "dwelling"
[site]
place = "Duluth, MN"
ground = {ground}
[plan]
outline = ["0 0", "12 0", "12 8", "0 8"]
unit = "m"
[floor]
build-up = [{{ concrete = "100 mm" }}]
[[edge]]
sides = "all"
kind = "raft"
"""


def ground(typed):
    return resolve(reads(BRIEF.format(ground=typed)).brief).ground


def moisture(key, end="value"):
    dense = ROWS[key]["dry-density"]
    return 100.0 * soil.saturation_moisture(dense) * ROWS[key]["saturation"][end]


@pytest.mark.parametrize("key", ["silty-clay-moist", "clay-moist", "silt-moist"])
def test_moist_silt_and_clay_are_as_dense_as_printed(key):
    between(ROWS[key]["dry-density"] / POUND, 90.0, 100.0, 0.0, "pcf", PAGE, "quoted")


@pytest.mark.parametrize(("key", "looser"), [("gravel-moist", 1.5), ("sand-moist", 14.0)])
def test_sand_and_gravel_under_a_house_are_taken_looser_than_the_courses_of_a_road(key, looser):
    """Ours lie below the range: the page is of compacted courses under a pavement, ours of ground as it lies.

    Held is how far: 1.4 pcf for gravel, 13.9 for sand. Packed to 120 pcf our moist sand would conduct 2.07 W/(m·K), a
    fifth more, which is the high end of the range that is listed for it.
    """
    between(ROWS[key]["dry-density"] / POUND, 120.0, 140.0, looser, "pcf", PAGE, "quoted")


def test_sand_packed_as_printed_conducts_what_our_range_ends_with():
    """Johansen at 120 pcf and the row's own saturation; to the third digit that the row is written with."""
    row = ROWS["sand-moist"]
    packed = soil.johansen_conductivity(120.0 * POUND, row["saturation"]["value"], row["quartz"], fine=False)
    held(catalogue.ground("sand-moist").conductivity.high, packed, 0.015, "W/(m·K)", PAGE, "derived")


@pytest.mark.parametrize(
    ("key", "low", "high"),
    [("gravel-moist", 2.0, 10.0), ("sand-moist", 5.0, 15.0), ("silt-moist", 5.0, 40.0), ("clay-moist", 10.0, 50.0),
     ("clay-wet", 10.0, 50.0), ("silty-clay-moist", 5.0, 50.0)],
)  # fmt: skip
def test_soil_by_its_name_holds_as_much_water_as_printed(key, low, high):
    """By mass of the dry soil, from the share of its pores that is full."""
    between(moisture(key), low, high, 0.0, "%", PAGE, "quoted")


def test_peat_is_so_light_that_a_report_of_mineral_soil_is_refused():
    """20 pcf dry: the message offers peat by its name."""
    with pytest.raises(Mistakes) as found:
        ground('{ dry-density = "20 pcf", moisture = "80 %", kind = "fine" }')
    (mistake,) = found.value.found
    told("peat" if 'ground = "peat"' in mistake.instead else mistake.instead, "peat", PAGE, "quoted")


def test_saturated_peat_stores_as_much_as_its_printed_density_leaves_room_for_water():
    """Solids 1500 kg/m³ and 1900 J/(kg·K) (practice), 320 of them in each m³: 0.61 + 0.787 · 4.18 = 3.90 MJ/(m³·K).

    To the last digit of the record.
    """
    dense = 20.0 * POUND
    printed = dense * 1900.0 + (1.0 - dense / 1500.0) * 4.18e6
    held(catalogue.ground("peat").saturated[1].value, printed, 5e3, "J/(m³·K)", PAGE, "derived")


@pytest.mark.parametrize(("end", "printed", "last"), [("low", 0.06, 0.01), ("high", 0.2, 0.1)])
def test_snow_lies_between_loose_and_compact(end, printed, last):
    """To half of the last printed digit."""
    ours = getattr(catalogue.snow_conductivity(), end) / FOOT
    held(ours, printed, last / 2.0, "Btu/(h·ft·°F)", PAGE, "quoted")


def test_the_soil_of_the_benchmark_as_it_is_typed_has_the_printed_diffusivity():
    """Typed by density and by mass: 1.9 / (1490 · 1800) = 7.08427e-7 m²/s."""
    made = ground('{ conductivity = "1.9 W/(m·K)", density = "1490 kg/m³", heat-capacity = "1800 J/(kg·K)" }')
    held(made.conductivity / made.heat_capacity * 1e6, 0.708427, 5e-7, "mm²/s", BENCHMARK, "memory")
