"""The air outdoors: of a place, of typed means, or of a weather file."""

from __future__ import annotations

from dataclasses import dataclass, replace

from .. import weather
from ..brief.kinds import FileBeside
from ..brief.tables.site import Site
from ..catalogue import places, zones
from ..catalogue.records import Place
from ..measure import System, say
from ..mistakes import Mistake
from ..weather.taken import where

NO_HEIGHT = "site.height changes nothing here: {} not say how high they were measured."


@dataclass(frozen=True, slots=True)
class Air:
    """Twelve monthly means with where they are from."""

    months: tuple[float, ...]  # degC
    words: str  # the place as it is printed
    system: System  # what answers are printed in
    path: str  # the key of the brief that it rests on
    called: str  # the place in a sentence: "Duluth, MN", "the station"
    country: str = ""  # two letters; "" where nothing says which
    position: tuple[float, float] | None = None  # degrees north and east
    hours: tuple[float, ...] = ()  # degC, a whole year of them; () where only months are known
    humidities: tuple[float, ...] = ()  # 0 to 1, of each of those hours; () where nothing tells
    measured: bool = False  # the months are typed or a station's own, not of the record
    credits: tuple[str, ...] = ()
    notes: tuple[str, ...] = ()


def air(site: Site, units: System | None) -> Air:
    """The air that a brief asks for.

    Parameters
    ----------
    site : Site
        Exactly one of ``place``, ``monthly`` and ``weather`` gives the air; a place beside a file is its name alone.
        Where none of them is typed, ``zip`` gives it.
    units : "US" or "SI", optional
        What the brief says; otherwise it follows the country.

    Raises
    ------
    Mistake
        A place that is not known, a file that cannot be used; with the brief's key, a file's line in the words.
    """
    if site.weather is not None:
        return _of_file(site, site.weather, units)
    height = site.height.si if site.height else None
    if site.monthly is not None:
        months = tuple(month.si for month in site.monthly)
        notes = () if height is None else (NO_HEIGHT.format("typed means do"),)
        system: System = units or ("US" if site.zip else "SI")
        return Air(months, "typed monthly means", system, "site.monthly", "the site", measured=True, notes=notes)
    if site.place is None and site.zip is not None:
        return _of_zip(site.zip, height, units)
    try:
        place = places.find(site.place or "", height=height)
    except Mistake as mistake:
        raise mistake.placed(at="site.place") from None
    return _of_place(place, units or ("US" if place.country == "US" else "SI"), "site.place")


def _of_zip(number: str, height: float | None, units: System | None) -> Air:
    """The air in the middle of a ZIP area."""
    area = zones.zip_area(number)
    try:
        place = places.at(area.latitude, area.longitude, height=height)
    except Mistake as mistake:
        raise Mistake("site.zip", f'"{number}"', mistake.wrong, mistake.instead) from None
    return _of_place(replace(place, name=f"ZIP {number}", country="US"), units or "US", "site.zip")


def _of_place(place: Place, system: System, path: str) -> Air:
    return Air(
        place.months,
        _named(place),
        system,
        path,
        place.name,
        place.country,
        (place.latitude, place.longitude),
        credits=(place.credit,),
        notes=place.notes,
    )


def _of_file(site: Site, file: FileBeside, units: System | None) -> Air:
    try:
        station = weather.read(file.path)
    except Mistake as found:
        at_line = f"{found.file}:{found.line}: " if found.line else ""
        raise Mistake("site.weather", f'"{file.typed}"', f"{at_line}{found.wrong}", found.instead) from None
    system: System = units or ("US" if station.country == "US" else "SI")
    taken = weather.taken(station, system)
    months, hours = station.months, station.temperatures
    if site.height is not None and station.height is None:
        taken += (NO_HEIGHT.format("the means of this file do"),)
    elif site.height is not None and station.height is not None and site.height.si != station.height:
        months, hours = (places.at_height(each, station.height, site.height.si) for each in (months, hours))
        taken += (_moved(station.height, site.height.si, system),)
    measured_at = where(station)
    words = measured_at or f"the months of {station.file}"
    if site.place is not None:
        words = f"{site.place} (air of {words})"
        taken += ("site.place names the site; its air is that of the weather file.",)
    north, east = station.latitude, station.longitude
    country, position = station.country, None if north is None or east is None else (north, east)
    if site.place is not None:
        country, position = _stands(site.place) or (country, position)
    return Air(
        months,
        words,
        system,
        "site.weather",
        site.place or station.title or "the site",
        country,
        position,
        hours,
        station.humidities,
        measured=True,
        notes=taken,
    )


def _stands(place: str) -> tuple[str, tuple[float, float]] | None:
    """Country and position of a place that is typed beside a weather file; None where the list does not hold it."""
    try:
        found = places.find(place)
    except Mistake:
        return None
    return found.country, (found.latitude, found.longitude)


def _moved(known: float, wanted: float, system: System) -> str:
    colder = "colder" if wanted > known else "warmer"
    by = say.both(abs(known - wanted) * places.lapse(), "K", system)
    return (
        f"The site stands at {wanted:.0f} m and the station at {known:.0f} m: every month is taken {by} {colder} than "
        f"in the file, {1000.0 * places.lapse():.1f} K for a kilometre."
    )


def _named(place: Place) -> str:
    north = f"{abs(place.latitude):.1f}° {'N' if place.latitude >= 0 else 'S'}"
    east = f"{abs(place.longitude):.1f}° {'E' if place.longitude >= 0 else 'W'}"
    return f"{place.name} ({north}, {east}, {place.height:.0f} m above the sea)"
