"""TMY3: a row on the station, a row of column names, then the hours of a typical year.

The format is from memory of the user's manual of the typical meteorological years of the United States (NREL 2008).
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from ..mistakes import Mistake
from .hours import Row, year_of
from .rows import cells, first_cells, left_out, number, unread
from .station import Station
from .text import shown

DATE, TIME = "Date (MM/DD/YYYY)", "Time (HH:MM)"
DRY_BULB, HUMIDITY = "Dry-bulb (C)", "RHum (%)"
REST = "wind, radiation and rain; nothing is worked out from them yet."


def recognised(lines: Sequence[str]) -> bool:
    return len(lines) > 1 and lines[1].lstrip('" ').startswith(DATE)


def station(lines: Sequence[str], file: str) -> Station:
    """The station of a TMY3 file.

    Raises
    ------
    Mistake
        With the line: a heading that cannot be read, no column of temperatures in °C, or no whole year.
    """
    place, columns = map(cells, lines[:2])
    for name in (TIME, DRY_BULB):
        if name not in columns:
            near = [column for column in columns if column.startswith(name.partition(")")[0][:-1])]
            seen = f" It has {shown(', '.join(near))}." if near else ""
            raise Mistake("", "", f"There is no column {name}.{seen}", "Take the file as it was made.", file, 2)
    if len(place) < 7:
        wrong = f"The first row has {len(place)} fields of 7."
        instead = "It holds number, name, state, time zone, latitude, longitude and height of the station."
        raise Mistake("", "", wrong, instead, file, 1)
    year = year_of(_rows(lines[2:], columns, file), file, "tmy3")
    return Station(
        file=file,
        kind="TMY3",
        title=", ".join(filter(None, place[1:3])),
        country="US",
        latitude=number(place[4], "latitude", file, 1, 90.0),
        longitude=number(place[5], "longitude", file, 1, 180.0),
        height=number(place[6], "height", file, 1, 9000.0),
        months=year.months,
        hours=year.hours,
        temperatures=year.temperatures,
        humidities=year.humidities,
        years=year.years,
        notes=left_out(year),
        not_taken=(REST,),
    )


def _rows(lines: Sequence[str], columns: list[str], file: str) -> Iterator[Row]:
    date, time, dry = columns.index(DATE), columns.index(TIME), columns.index(DRY_BULB)
    humid = columns.index(HUMIDITY) if HUMIDITY in columns else dry
    for line, typed in enumerate(lines, 3):
        if not typed.strip():
            continue
        row = first_cells(typed, max(dry, humid) + 1)
        if len(row) <= dry:
            wrong = f"This row has {len(row)} fields of {len(columns)}."
            raise Mistake("", "", wrong, "Take the file as it was made.", file, line)
        try:
            month, day, year = row[date].split("/")
            hour, minute = row[time].split(":")
            stamp = (
                line,
                int(year),
                int(month),
                int(day),
                int(hour),
                row[dry],
                row[humid] if dry < humid < len(row) else "",
            )
            on_the_hour = int(minute) == 0
        except ValueError:
            raise unread((row[date], row[time]), "MM/DD/YYYY and HH:MM", file, line) from None
        if not on_the_hour:
            wrong = f"This row is of {shown(row[time])}."
            raise Mistake(
                "", "", wrong, "Rows are one for each full hour; quarters and halves are not read.", file, line
            )
        yield stamp
