"""EPW: eight header rows, the first LOCATION and the last DATA PERIODS, then the hours of a year.

The format is from memory: a row is year, month, day, hour, minute, flags, dry bulb temperature in °C, dew point,
relative humidity in % and 26 more.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from ..mistakes import Mistake
from .hours import Row, year_of
from .rows import cells, first_cells, left_out, number, unread
from .station import Station
from .text import shown

HEADER_ROWS = 8
GROUND = (
    "the header's ground temperatures; they are averages from the surface down to a depth, "
    "not the temperatures at that depth."
)
REST = "wind, radiation, snow and rain; nothing is worked out from them yet."


def recognised(lines: Sequence[str]) -> bool:
    return lines[0].upper().startswith("LOCATION,")


def station(lines: Sequence[str], file: str) -> Station:
    """The station of an EPW file.

    Raises
    ------
    Mistake
        With the line: a header row that is missing or cannot be read, more than one row an hour, or no whole year.
    """
    header = {row[0].upper(): (n, row) for n, row in enumerate(map(cells, lines[:HEADER_ROWS]), 1)}
    if "DATA PERIODS" not in header:
        wrong = "There is no row DATA PERIODS among the first eight."
        raise Mistake("", "", wrong, "An EPW file has eight header rows, then the hours.", file, HEADER_ROWS)
    _one_row_an_hour(*header["DATA PERIODS"], file)
    line, place = header["LOCATION"]
    if len(place) < 10:
        raise Mistake(
            "", "", f"LOCATION has {len(place) - 1} fields of 9.", "Take the file as it was made.", file, line
        )
    city, state, country = place[1:4]
    year = year_of(_rows(lines[header["DATA PERIODS"][0] :], header["DATA PERIODS"][0], file), file, "epw")
    _, ground = header.get("GROUND TEMPERATURES", (0, []))
    has_ground = len(ground) > 1 and ground[1] not in ("", "0")
    return Station(
        file=file,
        kind="EPW",
        title=", ".join(word for word in (city, state) if word not in ("", "-")) or country,
        country="US" if country.upper() in ("USA", "US") else "",
        latitude=number(place[6], "latitude", file, line, 90.0),
        longitude=number(place[7], "longitude", file, line, 180.0),
        height=number(place[9], "height", file, line, 9000.0),
        months=year.months,
        hours=year.hours,
        temperatures=year.temperatures,
        humidities=year.humidities,
        years=year.years,
        notes=left_out(year),
        not_taken=(*((GROUND,) if has_ground else ()), REST),
    )


def _one_row_an_hour(line: int, row: list[str], file: str) -> None:
    periods, an_hour = (row[n] if len(row) > n else "" for n in (1, 2))
    if periods != "1":
        raise Mistake(
            "", "", f'DATA PERIODS names "{shown(periods)}" periods.', "One is read, a whole year.", file, line
        )
    if an_hour != "1":
        wrong = f'DATA PERIODS says "{shown(an_hour)}" rows for each hour.'
        raise Mistake("", "", wrong, "One is read: take the hourly file.", file, line)


def _rows(lines: Sequence[str], before: int, file: str) -> Iterator[Row]:
    for line, typed in enumerate(lines, before + 1):
        if not typed.strip():
            continue
        row = first_cells(typed, 9)
        if len(row) < 7:
            wrong = f"This row has {len(row)} fields; the temperature is the seventh."
            raise Mistake("", "", wrong, "Take the file as it was made.", file, line)
        try:
            yield line, int(row[0]), int(row[1]), int(row[2]), int(row[3]), row[6], row[8] if len(row) > 8 else ""
        except ValueError:
            raise unread(row[:4], "year, month, day, hour", file, line) from None
