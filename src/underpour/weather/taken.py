"""What was taken from a weather file, as it is printed."""

from __future__ import annotations

from calendar import month_abbr, month_name

from ..measure import System, say
from ..measure.digits import fixed
from .station import Station


def taken(station: Station, system: System) -> tuple[str, ...]:
    """The lines that say what was taken from a file, the twelve means written out, and what was not."""
    what = [station.kind, f"{fixed(station.hours, 0)} hours" if station.hours else "", where(station)]
    coldest = min(range(12), key=station.months.__getitem__)
    warmest = max(range(12), key=station.months.__getitem__)
    span = " to ".join(
        f"{say.both(station.months[n], 'degC', system)} in {month_name[n + 1]}" for n in (coldest, warmest)
    )
    lines = [f"Taken from {station.file} ({', '.join(filter(None, what))}): monthly means of the air, {span}."]
    unit = say.name("degC", system)
    means = ", ".join(
        f"{month_abbr[n + 1]} {fixed(say.number(mean, 'degC', system), 1)}" for n, mean in enumerate(station.months)
    )
    lines.append(f"The twelve means, {unit}: {means}.")
    if station.years is not None:
        first, last = station.years
        lines.append(
            f"Its hours are of {first}." if first == last else f"Its months are of years from {first} to {last}."
        )
    return (*lines, *station.notes, *(f"Not taken: {left}" for left in station.not_taken))


def where(station: Station) -> str:
    """Name and position of the station: "Duluth, MN, 46.8° N, 92.2° W, 432 m above the sea"."""
    said = [station.title]
    if station.latitude is not None and station.longitude is not None:
        said.append(f"{abs(station.latitude):.1f}° {'N' if station.latitude >= 0 else 'S'}")
        said.append(f"{abs(station.longitude):.1f}° {'E' if station.longitude >= 0 else 'W'}")
    if station.height is not None:
        said.append(f"{station.height:.0f} m above the sea")
    return ", ".join(filter(None, said))
