"""Where the slab is poured, and on what."""

from __future__ import annotations

import re
from typing import Annotated, Literal

from pydantic import BeforeValidator, Discriminator, Field, StrictBool, Tag

from ...mistakes import Mistake
from .. import kinds
from .ground import Ground, GroundLayer
from .table import Table, key


def _five_digits(value: object) -> str:
    """A ZIP as it is typed; what stands in its place is told by its kind."""
    typed = str(value).strip()
    if isinstance(value, str) and typed.isascii() and typed.isdecimal() and len(typed) == 5:
        return typed
    plain = typed.partition("-")[0].strip()
    whole = plain.isascii() and plain.isdecimal() and len(plain) == 5
    if isinstance(value, int) and not isinstance(value, bool):
        wrong, instead = "A ZIP is written in quotes, so that a nought in front stays.", f'Write zip = "{value:05d}".'
    elif whole:
        wrong, instead = "Only the first five digits say where it is.", f'Write zip = "{plain}".'
    elif re.fullmatch(r"[A-Za-z]\d[A-Za-z]\s?\d[A-Za-z]\d", typed):
        wrong, instead = "That is a Canadian postal code.", 'Name the town instead: place = "Toronto, ON".'
    else:
        wrong, instead = "A ZIP has five digits.", 'Write it in quotes: zip = "55802".'
    raise kinds.as_error(Mistake("", f'"{typed}"' if isinstance(value, str) else "", wrong, instead))


def table_or_word(value: object) -> str:
    return "table" if isinstance(value, dict | Table) else "word"


class SurfaceFactors(Table):
    """The ground's surface outside by its n-factors, measured or known; or dry and in the sun, by what falls on it."""

    freezing: kinds.Factor = key("Freezing index of the surface over that of the air.", 0.5, default=1.0)
    thawing: kinds.Factor = key("Thawing index of the surface over that of the air.", 1.6, default=1.0)
    sun: tuple[kinds.HeatFlux, ...] | None = key(
        "Sun that falls on level ground there, in the place of the factors: means of twelve months, day and night, "
        "January first; or the mean of the year alone. 4 kWh/m² a day are 167 W/m².",
        ["70 W/m²", "110 W/m²", "160 W/m²", "200 W/m²", "235 W/m²", "255 W/m²",
         "255 W/m²", "215 W/m²", "160 W/m²", "105 W/m²", "65 W/m²", "55 W/m²"],
        ["155 W/m²"],
        default=None,
    )  # fmt: skip
    absorptance: kinds.Share | None = key(
        "Share of that sun which the surface takes up: light paving 30 %, asphalt 90 %.", "60 %", default=None
    )
    to_sky: kinds.HeatFlux | None = key(
        "What the surface loses to the sky beyond its film, mean of the year.", "57 W/m²", default=None
    )


class Site(Table):
    """Where the slab is poured and on what."""

    place: str | None = key(
        "The nearest town, with its state or country.", "Duluth, MN", "Christchurch, NZ", default=None
    )
    monthly: tuple[kinds.Temperature, ...] | None = key(
        "Twelve mean air temperatures, January first, where no place is named.",
        ["-10 C", "-8 C", "-1 C", "7 C", "13 C", "18 C", "21 C", "20 C", "15 C", "9 C", "1 C", "-7 C"],
        default=None,
    )
    humidity: tuple[kinds.Humidity, ...] | None = key(
        "Relative humidity of the air outdoors: means of twelve months, January first; or one mean for all of them.",
        ["80 %", "76 %", "71 %", "66 %", "66 %", "70 %", "73 %", "76 %", "77 %", "74 %", "79 %", "82 %"],
        ["72 %"],
        default=None,
    )
    weather: kinds.File | None = key(
        "A weather file, from the brief's folder: EPW, TMY3, monthly normals, or a table of months.",
        "duluth.epw",
        "months.csv",
        default=None,
    )
    zip: Annotated[str, BeforeValidator(_five_digits), Field(pattern="^[0-9]{5}$")] | None = key(
        "The ZIP of the site in the United States: where no place is named it is the place, and it says which zone the "
        "code has there.",
        "55802",
        default=None,
    )
    zone: str | None = key(
        "The climate zone that the code has at the site, where it is known: it wins over the map.",
        "7",
        "6A",
        "marine 4",
        "7A",
        default=None,
    )
    frost_depth: kinds.Depth | None = key(
        "How deep the ground freezes as the building office reckons it: the frost line.", "60 in", "1.2 m", default=None
    )
    freezing_index: kinds.FreezingIndex | None = key(
        "How cold the winter is that the floor must stand: days below freezing times their degrees, summed, of the "
        "coldest winter in so many years that the code or the owner asks for. Not that of a mean year.",
        "2200 °F·d",
        "1200 K·d",
        default=None,
    )
    fines: kinds.Share | None = key(
        "Share of the ground's grains finer than 0.02 mm, by weight, in what may freeze below and beside the slab.",
        "8 %",
        "2 %",
        default=None,
    )
    drained_layer: kinds.Extent | None = key(
        "How thick the clean, drained stone is that lies below the build-up, and below footings, in the place of the "
        "ground.",
        "24 in",
        "600 mm",
        default=None,
    )
    height: kinds.Altitude | None = key("Height of the site above the sea.", "700 ft", "215 m", default=None)
    ground: Ground | None = key(
        "The ground under the slab: a name of the catalogue, its properties, or its dry density and moisture.",
        "silty-clay-moist",
        {"dry-density": "1600 kg/m³", "moisture": "15 %", "kind": "fine"},
        default=None,
    )
    layers: tuple[GroundLayer, ...] | None = key(
        "The ground in layers, in the place of one ground: from the finished ground outside downwards.",
        [{"ground": "sand-or-gravel", "thickness": "3 ft"}, {"ground": "clay-or-silt"}],
        default=None,
    )
    subgrade_modulus: kinds.SubgradeModulus | None = key(
        "How stiff the ground is under a slab, by a test with a plate: pressure over settlement.",
        "100 pci",
        "27 MN/m³",
        default=None,
    )
    cbr: kinds.Share | None = key(
        "The ground's bearing ratio, soaked, where that was tested instead.", "5 %", default=None
    )
    soil_bearing: kinds.Stress | None = key(
        "What may press on the ground, as the soils report or the building office says.",
        "1500 psf",
        "75 kPa",
        default=None,
    )
    base: Literal["compacted", "loose", "frozen"] | None = key(
        "What the build-up is laid on: loads are answered on a base that is compacted and not frozen.",
        "compacted",
        default=None,
    )
    water_table: kinds.Depth | None = key(
        "How deep the ground water stands below the finished ground, in the wettest season that lasts.",
        "9 ft",
        "2.5 m",
        default=None,
    )
    drained: StrictBool | None = key(
        "Whether drains keep the ground water below the build-up.", True, False, default=None
    )
    waterproofed: StrictBool | None = key(
        "Whether floor and walls are sealed against water that stands against them.", True, False, default=None
    )
    drain_outlet: Literal["daylight", "sump", "storm-sewer", "none"] | None = key(
        "Where the drain round the footings lets its water out; none where there is no drain.",
        "daylight",
        "sump",
        default=None,
    )
    flood_level: kinds.FloodLevel | None = key(
        "How high a flood stands above the top of the floor, where the place is known to flood.",
        "12 in",
        "0.5 m",
        default=None,
    )
    sulphate: Literal["S0", "S1", "S2", "S3"] | None = key(
        "Sulphate in the ground or its water, as the soils report has it: the exposure class of ACI 318.",
        "S1",
        default=None,
    )
    termites: (
        Literal["none", "none-to-slight", "slight-to-moderate", "moderate-to-heavy", "very-heavy", "present"] | None
    ) = key(
        "Termites in the ground: the region of the code's map in the United States; elsewhere present or none.",
        "very-heavy",
        "none-to-slight",
        "present",
        default=None,
    )
    termite_barrier: Literal["screen", "shield", "treated-ground", "treated-foam"] | None = key(
        "What keeps termites from using the foam: a screen or sheet all round it, a metal shield between foundation "
        "and wall, treated ground, or foam that is treated against them.",
        "screen",
        default=None,
    )
    surface: (
        Annotated[
            Annotated[Literal["turf", "gravel", "asphalt", "concrete"], Tag("word")]
            | Annotated[SurfaceFactors, Tag("table")],
            Discriminator(table_or_word),
        ]
        | None
    ) = key(
        "What lies on the ground outside, paving kept clear of snow; unless typed it is bare and as warm as the air.",
        "turf",
        {"freezing": 0.5, "thawing": 1.0},
        {"sun": ["155 W/m²"], "absorptance": "60 %"},
        default=None,
    )
    soil_gas: Literal["low", "middle", "high", "unknown"] | None = key(
        "How much radon the ground may give, as a test of the soil gas or the local authority's map says.",
        "high",
        "unknown",
        default=None,
    )
    snow: kinds.Depth | None = key(
        "How deep snow lies beside the building, mean of the winter, in the place of a surface.", "12 in", default=None
    )
    snow_conductivity: kinds.Conductivity | None = key(
        "Thermal conductivity of that snow.", "0.2 W/(m·K)", default=None
    )
