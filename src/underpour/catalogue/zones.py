"""Climate zones of US and Canadian codes: by ZIP area, by station, by degree-days."""

from __future__ import annotations

import csv
from collections.abc import Sequence
from dataclasses import dataclass, replace
from functools import cache
from math import asin, cos, radians, sin, sqrt
from typing import TYPE_CHECKING

from ..mistakes import Mistake
from .read import FOLDER, table
from .records import Source, ZipArea, Zone
from .sources import source
from .year import degree_days as _degree_days

if TYPE_CHECKING:
    import numpy as np
    from numpy.typing import NDArray

EARTH = 6371.0e3  # mean radius, m


@dataclass(frozen=True, slots=True)
class Areas:
    """Every ZIP area, in the order of the numbers."""

    numbers: NDArray[np.int64]  # (n,)
    latitudes: NDArray[np.float64]  # (n,), degrees north
    longitudes: NDArray[np.float64]  # (n,), degrees east
    zones: NDArray[np.str_]  # (n,)

    def __getitem__(self, index: int) -> ZipArea:
        return ZipArea(
            f"{int(self.numbers[index]):05d}",
            str(self.zones[index]),
            float(self.latitudes[index]),
            float(self.longitudes[index]),
        )


@cache
def areas() -> Areas:
    """The ZIP areas, unpacked on first use. Packing: climate/CREDITS.md."""
    import numpy as np

    with np.load(FOLDER / "climate" / "zip_areas.npz") as packed:

        def summed(name: str) -> NDArray[np.int64]:
            steps = (packed[f"{name}_hi"].astype(np.uint16) << 8) | packed[f"{name}_lo"]
            return np.cumsum(steps.view(np.int16), dtype=np.int64)

        return Areas(
            summed("zip"), summed("latitude") / 100.0, summed("longitude") / 100.0, packed["zones"][packed["zone"]]
        )


def us(latitude: float, longitude: float) -> Zone:
    """Zone of the ZIP area whose middle is nearest to a position, on the map before the 2021 edition.

    ``zone`` is "" where ZIP areas up to 15 km away lie in other zones, which are then told in ``disagreeing``; where
    the nearest is farther away than that, it alone counts.

    Parameters
    ----------
    latitude, longitude : float
        Degrees north and east. [degrees]

    Examples
    --------
    >>> found = us(46.79, -92.10)  # Duluth
    >>> found.zone, found.zip
    ('7', '55805')
    """
    away = _away(latitude, longitude)
    first = int(away.argmin())
    near = areas()[first]
    around = {str(zone) for zone in areas().zones[away <= _metres("neighbours")]}
    others = tuple(sorted(zone for zone in around if not alike(zone, near.zone)))
    note = "ZIP areas around it lie in different zones" if others else "every ZIP area around it lies in this zone"
    return Zone(
        zone="" if others else near.zone,
        country="US",
        distance=float(away[first]),
        zip=near.zip,
        disagreeing=tuple(sorted({near.zone, *others})) if others else (),
        note=note,
        source=_map(),
        seen=_map().seen,
    )


def us_by_zip(number: str) -> Zone:
    """Zone of a ZIP area by its number, on the map before the 2021 edition.

    Other zones up to 15 km away are told in ``disagreeing``, but the area's own stands: whoever types a ZIP says which.

    Raises
    ------
    Mistake
        A number that has no area.

    Examples
    --------
    >>> us_by_zip("78701").zone  # Austin
    '2A'
    """
    area = zip_area(number)
    around = us(area.latitude, area.longitude)
    others = tuple(zone for zone in around.disagreeing if not alike(zone, area.zone))
    return Zone(
        zone=area.zone,
        country="US",
        distance=0.0,
        zip=area.zip,
        disagreeing=others,
        note="by the number of the ZIP area",
        source=_map(),
        seen=_map().seen,
    )


def zip_area(number: str) -> ZipArea:
    """The ZIP area of that number.

    Raises
    ------
    Mistake
        A number that has no area; the areas nearest by number are told.
    """
    held = areas().numbers
    at = int(held.searchsorted(int(number)))
    if at < len(held) and held[at] == int(number):
        return areas()[at]
    beside = [areas()[n] for n in (at - 1, at) if 0 <= n < len(held)]
    told = "; ".join(f"{area.zip}, zone {spoken(area.zone)}" for area in beside)
    wrong = f"{number} is not among the {len(held):,} ZIP areas held here; post-office boxes have no area."
    raise Mistake("site.zip", f'"{number}"', wrong, f"Type the ZIP of a street near by. Nearest by number: {told}.")


def canada(degree_days: float | tuple[float, float]) -> Zone:
    """Canadian zone of a count of degree-days below 18 °C, or of a count that lies between two.

    ``zone`` is "" where the two ends lie in different zones, all of which are told in ``disagreeing``.

    Parameters
    ----------
    degree_days : float or two floats
        The code's own count, or the two between which it lies. [K·d]

    Examples
    --------
    >>> canada(3520.0).zone, canada((4900.0, 5100.0)).disagreeing
    ('5', ('6', '7A'))
    """
    low, high = degree_days if isinstance(degree_days, tuple) else (degree_days, degree_days)
    names = table("climate/zones")["names"]["CA"]
    begins = [0.0, *(table("climate/zones")["begins"][name]["value"] for name in names[1:])]
    first, last = (sum(count >= begin for begin in begins[1:]) for count in (low, high))
    told = tuple(names[first : last + 1])
    return Zone(
        zone=told[0] if len(told) == 1 else "",
        country="CA",
        distance=None,
        zip="",
        disagreeing=told if len(told) > 1 else (),
        note="by degree-days below 18 °C",
        source=source("nbc-climate-zones"),
        seen=source("nbc-climate-zones").seen,
        degree_days=(low, high),
    )


def canada_at(latitude: float, longitude: float, months: Sequence[float]) -> Zone:
    """Canadian zone at a position: by the stations up to 15 km away, otherwise by the months of the record.

    Parameters
    ----------
    latitude, longitude : float
        Degrees north and east. [degrees]
    months : sequence of 12 floats
        Monthly means there, from the lists or the grids. [degC]

    Examples
    --------
    >>> canada_at(43.70, -79.42, [-3.9, -3.6, 0.9, 7.1, 13.6, 19.1, 21.9, 21.1, 17.1, 10.5, 4.6, -0.9]).zone  # Toronto
    '5'
    """
    known = ((_apart(latitude, longitude, *at), count) for at, count in stations())
    near = [(away, count) for away, count in known if away <= _metres("neighbours")]
    if near:
        counts = [count for _, count in near]
        found = canada(_between(min(counts), max(counts), "station-doubt"))
        how = "by the degree-days of weather stations near by"
        return replace(found, distance=min(near)[0], note=how, seen=source("eccc-normals-1981-2010").seen)
    count = counted(months)
    rough = _rough(latitude, longitude) > _metres("rough-ground")
    found = canada(_between(count, count, "rough-doubt" if rough else "grid-doubt"))
    valleys = ", which sees no single valley" if rough else ""
    return replace(found, note=f"by degree-days from the months of the air record{valleys}", seen="derived")


def canada_by_months(months: Sequence[float]) -> Zone:
    """Canadian zone of a station's own monthly means. [degC]"""
    count = counted(months)
    found = canada(_between(count, count, "station-doubt"))
    return replace(found, note="by degree-days from the months that are given", seen="derived")


def counted(months: Sequence[float]) -> float:
    """Degree-days below 18 °C of twelve monthly means. [K·d]"""
    known = table("climate/zones")
    return _degree_days(months, known["base"]["value"], known["daily-scatter"]["value"])


def typed(text: str, country: str) -> str:
    """The zone that a text means, by its name in the list; "marine 4" is 4C.

    Parameters
    ----------
    text : str
        "7", "6a", "zone 5A", "marine 4", "4 marine".
    country : str
        Whose zones: "US", "CA", or "" where it may be either.

    Raises
    ------
    Mistake
        A zone that is not in the list.

    Examples
    --------
    >>> typed("marine 4", "US"), typed("zone 6a", "US"), typed("7A", "CA")
    ('4C', '6A', '7A')
    """
    lists = table("climate/zones")["names"]
    known = list(dict.fromkeys(name for whose in ("US", "CA") if country in ("", whose) for name in lists[whose]))
    words = [word for word in text.upper().replace("-", " ").split() if word != "ZONE"]
    if "MARINE" in words and country != "CA":
        words = ["".join(word for word in words if word != "MARINE").removesuffix(_marine()) + _marine()]
    plain = "".join(words)
    if plain in known:
        return plain
    listed = [name for name in known if country == "CA" or name not in lists["numbers"]]
    near = [name for name in listed if name[:1] == plain[:1]]
    hint = f"The nearest: {' or '.join(near)}. " if near else ""
    whose = {"US": "codes of the United States have", "CA": "the Canadian code has"}.get(country, "these codes have")
    wrong = f"That is none of the zones that {whose}."
    raise Mistake("site.zone", f'"{text}"', wrong, f"{hint}Known: {', '.join(listed)}.")


def spoken(zone: str) -> str:
    """A zone as it is said, "4C (marine 4)" for 4C.

    >>> spoken("6A"), spoken("4C")
    ('6A', '4C (marine 4)')
    """
    return f"{zone} (marine {zone[:-1]})" if zone.endswith(_marine()) else zone


def alike(one: str, other: str) -> bool:
    """Whether two zones are the same, or one of them only lacks its letter.

    >>> alike("6", "6A"), alike("5A", "5B")
    (True, False)
    """
    return one == other or (one[:1] == other[:1] and 1 in (len(one), len(other)))


def is_marine(zone: str) -> bool:
    """Whether a zone of US codes is a marine one."""
    return zone.endswith(_marine()) and bool(zone)


def numbers() -> tuple[str, ...]:
    """Zones as many say them, without their letter."""
    return tuple(table("climate/zones")["names"]["numbers"])


def listed(zone: str, country: str) -> bool:
    """Whether a zone is one of that country's."""
    return zone in table("climate/zones")["names"][country]


def first(country: str) -> str:
    """The first zone in a country's list.

    >>> first("CA")
    '4'
    """
    return str(table("climate/zones")["names"][country][0])


def around() -> float:
    """How far ZIP areas and stations are looked at. [m]"""
    return _metres("neighbours")


def credit(country: str) -> str:
    """What is printed wherever a zone was looked up."""
    return str(table("climate/zones")["credit"]["zip" if country == "US" else "stations"])


def map_before() -> int:
    """The first edition that the map of US zones does not hold for."""
    return int(table("climate/zones")["map-before"]["value"])


def is_far(distance: float) -> bool:
    """Whether a ZIP area so far away is no longer that of the place. [m]"""
    return distance > _metres("far")


def apart(one: tuple[float, float], other: tuple[float, float]) -> float:
    """Distance of two positions, in degrees, over the earth's surface. [m]

    >>> round(apart((0.0, 0.0), (0.0, 1.0)) / 1000.0, 1)
    111.2
    """
    return _apart(*one, *other)


def _apart(latitude: float, longitude: float, north: float, east: float) -> float:
    one, other = radians(latitude), radians(north)
    half = sin((other - one) / 2.0) ** 2 + cos(one) * cos(other) * sin(radians(east - longitude) / 2.0) ** 2
    return 2.0 * EARTH * asin(min(1.0, sqrt(half)))


def _away(latitude: float, longitude: float) -> NDArray[np.float64]:
    """Distance of every ZIP area's middle from a position. [m], (n,)"""
    import numpy as np

    one, other = np.radians(latitude), np.radians(areas().latitudes)
    turn = np.radians(areas().longitudes - longitude)
    half = np.sin((other - one) / 2.0) ** 2 + np.cos(one) * np.cos(other) * np.sin(turn / 2.0) ** 2
    return np.asarray(2.0 * EARTH * np.arcsin(np.minimum(1.0, np.sqrt(half))))


def _between(low: float, high: float, doubt: str) -> tuple[float, float]:
    row = table("climate/zones")[doubt]
    return max(0.0, low + row["low"]), max(0.0, high + row["high"])


def _marine() -> str:
    """The letter of marine zones."""
    return str(table("climate/zones")["marine"]["letter"])


def _metres(key: str) -> float:
    return float(table("climate/zones")[key]["value"])


def _map() -> Source:
    return source("county-climate-map")


def _rough(latitude: float, longitude: float) -> float:
    from .grid import reading

    read = reading(latitude, longitude)
    return read.rough if read else 0.0


@cache
def stations() -> tuple[tuple[tuple[float, float], float], ...]:
    """Position and degree-days of each Canadian station."""
    with (FOLDER / "climate" / "stations_canada.csv").open(encoding="utf-8", newline="") as lines:
        rows = csv.DictReader(line for line in lines if not line.startswith("#"))
        return tuple(((float(row["latitude"]), float(row["longitude"])), float(row["degree_days"])) for row in rows)
