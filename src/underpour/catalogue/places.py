"""A place and its air temperature month by month: by name, or by position."""

from __future__ import annotations

import re
from difflib import get_close_matches

from ..mistakes import Mistake
from .gazetteer import Entry, folded, meant, near_by_name, within
from .read import table
from .records import Place

OTHERWISE = 'A position ("46.78 N, 92.11 W") or twelve means (site.monthly) can be typed instead.'

SHOWN = 8  # places of a state that are named; the rest is counted

_DEGREES = r"([+-]?\d+(?:\.\d+)?)\s*°?"
POSITION = re.compile(rf"{_DEGREES}\s*([NS])?\s*[,;\s]\s*{_DEGREES}\s*([EW])?", re.IGNORECASE)


def find(text: str, height: float | None = None) -> Place:
    """The place that a text means.

    A name of the list takes the list's twelve months: they come from the finer record. In the United States,
    Canada and Europe they agree with the quarter-degree grid at the same height within 0.12 K, elsewhere within 0.9 K;
    the half-degree grid differs by 0.4 K on average and by up to 3.7 K in mountains. The grids are read for positions.

    Parameters
    ----------
    text : str
        "Minneapolis, MN", "Christchurch, New Zealand", "duluth, minnesota", or a position: "46.78 N, 92.11 W",
        "46.78, -92.11".
    height : float, optional
        Of the site above the sea, where it is known better. [m]

    Raises
    ------
    Mistake
        A name that is not known, one that fits several places (all are told), a position off the map.

    Examples
    --------
    >>> place = find("minneapolis")
    >>> place.name, place.months[0], place.height
    ('Minneapolis, MN', -8.5, 257.0)
    """
    position = _position(text)
    if position is not None:
        return _at(*position, height, typed=text)
    name, *qualifiers = (part.strip() for part in text.split(","))
    words = tuple(word for word in qualifiers if word)
    if not name:
        wrong = "No place is named."
        raise Mistake("site.place", f'"{text}"', wrong, f'Type a name ("Minneapolis, MN"). {OTHERWISE}')
    found = meant(name, words)
    if not found:
        raise _not_known(text, name, words)
    if len(found) > 1:
        raise _several(text, name, found)
    return _named(found[0], height)


def at(latitude: float, longitude: float, height: float | None = None) -> Place:
    """The air at a position, from the grids.

    Bilinear between the four points around, in the quarter-degree grid where it reaches (24 to 72 N, 170 W to 45 E),
    otherwise in the half-degree grid of the world (56 S to 72 N), then taken to the height by 6.5 K/km.

    Parameters
    ----------
    latitude, longitude : float
        Degrees north and east. [degrees]
    height : float, optional
        Of the site above the sea; otherwise that of the terrain around. [m]

    Raises
    ------
    Mistake
        Open sea, north of 72 N, south of 56 S, or no such position.

    Examples
    --------
    >>> round(at(44.98, -93.26).months[0], 0)  # January in Minneapolis
    -9.0
    """
    return _at(latitude, longitude, height, typed=f"{latitude:g}, {longitude:g}")


def _at(latitude: float, longitude: float, height: float | None, typed: str) -> Place:
    from .grid import reading

    if not (-90.0 <= latitude <= 90.0 and -180.0 <= longitude <= 180.0):
        wrong = "Latitude runs from 90 S to 90 N, longitude from 180 W to 180 E."
        raise Mistake("site.place", f'"{typed}"', wrong, 'Write it as "46.78 N, 92.11 W".')
    read = reading(latitude, longitude)
    if read is None:
        wrong = "There is no air temperature for that position: the record covers land from 56 S to 72 N."
        raise Mistake("site.place", f'"{typed}"', wrong, "Give twelve monthly means of your own in site.monthly.")
    stands = read.height if height is None else height
    months = at_height(read.months, read.height, stands)
    notes = _notes(months) + ((_about(stands),) if height is None else ())
    if read.rough > table("climate/climate")["rough-ground"]["value"]:
        notes += (
            f"Rough ground: heights differ by {read.rough:.0f} m around here, and the record sees no single valley.",
        )
    return Place(_title(latitude, longitude), "", latitude, longitude, stands, months, _credit("air", "terrain"), notes)


def _named(entry: Entry, height: float | None) -> Place:
    stands = entry.height if height is None else height
    months = at_height(entry.months, entry.height, stands)
    notes = _notes(months)
    if height is None and not entry.surveyed:
        notes += (_about(stands),)
    return Place(
        entry.title, entry.country, entry.latitude, entry.longitude, stands, months, _credit("air", "names"), notes
    )


def at_height(months: tuple[float, ...], known: float, wanted: float) -> tuple[float, ...]:
    """Monthly means, or hours, known at one height, taken to another. [degC, m]

    >>> at_height((10.0,) * 12, known=0.0, wanted=1000.0)[0]
    3.5
    """
    return tuple(round(value + lapse() * (known - wanted), 2) for value in months)


def lapse() -> float:
    """How much colder the air is with height. [K/m]"""
    return float(table("climate/climate")["lapse"]["value"])


def _credit(*parts: str) -> str:
    return " ".join(table("climate/climate")["credit"][part] for part in parts)


def _notes(months: tuple[float, ...]) -> tuple[str, ...]:
    if min(months) > table("climate/climate")["cold-winter"]["value"]:
        return ()
    warm = (
        "Winters inland run warm in this record: about 1 K in Minnesota, 3 K in Canada, up to 5 K in northern valleys."
    )
    take = "Take a freezing index from it as the least it can be; a weather station's own means (site.monthly) win."
    return (f"{warm} {take}",)


def _about(height: float) -> str:
    return (
        f"The height, {height:.0f} m, is that of the terrain around and may be 100 m off in hills: site.height sets it."
    )


def _position(text: str) -> tuple[float, float] | None:
    """Latitude and longitude where the text is a position; a text that begins like one but is none is a Mistake."""
    plain = text.strip().replace("−", "-")
    if not re.match(r"[+-]?\d", plain):
        return None
    found = POSITION.fullmatch(plain)
    letters = found.group(2, 4) if found else (None, None)
    signed = found and any(n.startswith(("+", "-")) and way for n, way in zip(found.group(1, 3), letters, strict=True))
    if not found or signed or bool(letters[0]) != bool(letters[1]):
        wrong = "That begins like a position and cannot be read as one."
        raise Mistake(
            "site.place", f'"{text}"', wrong, 'Write degrees with a point: "46.78 N, 92.11 W" or "46.78, -92.11".'
        )
    latitude, longitude = float(found[1]), float(found[3])
    south, west = (letters[0] or "n").lower() == "s", (letters[1] or "e").lower() == "w"
    return (-latitude if south else latitude), (-longitude if west else longitude)


def _title(latitude: float, longitude: float) -> str:
    north, east = "S" if latitude < 0.0 else "N", "W" if longitude < 0.0 else "E"
    return f"{abs(latitude):.2f}° {north}, {abs(longitude):.2f}° {east}"


def _several(text: str, name: str, found: tuple[Entry, ...]) -> Mistake:
    titles = [entry.title for entry in found]
    told = [
        entry.title if titles.count(entry.title) == 1 else f"{entry.title} at {_title(entry.latitude, entry.longitude)}"
        for entry in found
    ]
    wrong = f"{len(found)} places are called {name}: {'; '.join(told)}."
    return Mistake("site.place", f'"{text}"', wrong, "Type one of them, state or country included, or its position.")


def _not_known(text: str, name: str, words: tuple[str, ...]) -> Mistake:
    elsewhere = meant(name)
    if elsewhere and words:
        wrong = f"No {name} is known in {', '.join(words)}."
        instead = f"Known: {'; '.join(entry.title for entry in elsewhere)}. {OTHERWISE}"
        return Mistake("site.place", f'"{text}"', wrong, instead)
    beside = within(words)
    if beside:
        more = f" and {len(beside) - SHOWN} more" if len(beside) > SHOWN else ""
        known = f"{'; '.join(entry.title for entry in beside[:SHOWN])}{more}"
        alike = get_close_matches(folded(name), [folded(entry.name) for entry in beside], n=1)
        hint = "".join(f"Nearest by name: {entry.title}. " for entry in beside if folded(entry.name) in alike)
        instead = f"{hint}Known there: {known}. {OTHERWISE}"
        return Mistake("site.place", f'"{text}"', f"No place is called {name} in {', '.join(words)}.", instead)
    near = near_by_name(name)
    hint = f"Nearest by name: {'; '.join(entry.title for entry in near[:5])}. " if near else ""
    return Mistake("site.place", f'"{text}"', f"No place is called {name}.", f"{hint}{OTHERWISE}")
