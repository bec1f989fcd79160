"""Weather files in their formats, made from the open hourly rows in tests/published/data.

Those rows are typical years of the United States (TMY3, US national laboratory, public), their columns cut; the columns
that are cut are filled here with what their formats use for "nothing".
"""

from __future__ import annotations

import gzip
from functools import cache
from itertools import cycle
from pathlib import Path

DATA = Path(__file__).parent / "published" / "data"
GOLDEN = ("724666", "DENVER/CENTENNIAL [GOLDEN - NREL]", "CO", "-7.0", "39.742", "-105.179", "1829")
SAND_POINT = ("703165", "SAND POINT", "AK", "-9.0", "55.317", "-160.517", "7")
FILES = {GOLDEN: "wx_golden_co_tmy3.csv.gz", SAND_POINT: "wx_sand_point_ak_tmy3.csv.gz"}
LENGTHS = (31, 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31)

Hour = tuple[int, int, int, str]  # month, day, hour, temperature as written

# Fields of a TMY3 row with their sources and uncertainties: date, time, 29 before the dry bulb, 35 after it.
BEFORE = [f"column {n}" for n in range(3, 32)]
AFTER = [
    *("Dry-bulb source", "Dry-bulb uncert (code)", "Dew-point (C)", "Dew source", "Dew uncert (code)", "RHum (%)"),
    *(f"column {n}" for n in range(38, 69)),
]


@cache
def hours(station: tuple[str, ...]) -> tuple[Hour, ...]:
    """The year's hours in order; the day is counted, as the cut rows have none."""
    text = gzip.decompress((DATA / FILES[station]).read_bytes()).decode("utf-8")
    found, month, before = [], 0, 0
    for line in text.splitlines()[2:]:
        here, hour, temperature = line.split(",")[:3]
        if int(here) != month:
            month, before = int(here), 0
        found.append((month, before // 24 + 1, int(hour), temperature))
        before += 1
    return tuple(found)


@cache
def humidities(station: tuple[str, ...]) -> tuple[str, ...]:
    """Relative humidity of the year's hours as written. [%]"""
    text = gzip.decompress((DATA / FILES[station]).read_bytes()).decode("utf-8")
    at = text.splitlines()[1].split(",").index("rh")
    return tuple(line.split(",")[at] for line in text.splitlines()[2:])


def tmy3(station: tuple[str, ...], rows: tuple[Hour, ...] | None = None, column: str = "Dry-bulb (C)") -> str:
    """A TMY3 file: the station, the names of 68 columns, a row for each hour."""
    number, name, state, *position = station
    head = ",".join([number, f'"{name}"', state, *position])
    names = ",".join(["Date (MM/DD/YYYY)", "Time (HH:MM)", *BEFORE, column, *AFTER])
    empty, rest = ",".join("0" for _ in BEFORE), ",".join("0" for _ in AFTER[6:])
    lines = [
        f"{m:02d}/{d:02d}/{1987 + m},{h:02d}:00,{empty},{t},A,7,0.0,A,7,{humid},{rest}"
        for (m, d, h, t), humid in zip(rows or hours(station), cycle(humidities(station)), strict=False)
    ]
    return "\n".join([head, names, *lines, ""])


def epw(station: tuple[str, ...], rows: tuple[Hour, ...] | None = None, an_hour: int = 1) -> str:
    """An EPW file: eight header rows, a row of 35 fields for each hour."""
    number, name, state, zone, north, east, height = station
    ground = ",".join(f"{t:.2f}" for t in (-1.2, -2.3, -0.9, 1.4, 7.6, 13.2, 17.5, 19.6, 18.7, 15.2, 9.6, 3.7))
    rest = ",".join(["82000", *("0" for _ in range(25))])
    head = [
        f"LOCATION,{name},{state},USA,TMY3,{number},{north},{east},{zone},{height}",
        "DESIGN CONDITIONS,0",
        "TYPICAL/EXTREME PERIODS,0",
        f"GROUND TEMPERATURES,1,.5,,,,{ground}",
        "HOLIDAYS/DAYLIGHT SAVINGS,No,0,0,0",
        "COMMENTS 1,made for a test",
        "COMMENTS 2,",
        f"DATA PERIODS,1,{an_hour},Data,Sunday, 1/ 1,12/31",
    ]
    lines = [
        f"{1987 + m},{m},{d},{h},60,?9?9,{t},0.0,{humid},{rest}"
        for (m, d, h, t), humid in zip(rows or hours(station), cycle(humidities(station)), strict=False)
    ]
    return "\n".join([*head, *lines, ""])


# Columns as the files of monthly normals by station have them, quoted and padded.
NORMALS = (
    '"STATION","DATE","LATITUDE","LONGITUDE","ELEVATION","NAME","month","day","hour",'
    '"MLY-TAVG-NORMAL","meas_flag_MLY-TAVG-NORMAL","comp_flag_MLY-TAVG-NORMAL"'
)
FAHRENHEIT = (11.2, 16.5, 28.0, 40.1, 52.5, 62.1, 68.4, 67.0, 58.3, 45.1, 31.0, 17.9)  # a northern town, made up


def normals(months: tuple[float, ...] = FAHRENHEIT, station: str = "USW00000000") -> str:
    """Monthly normals of one station, in °F."""
    place = '"46.8369","-92.1833","  436.8","NORTH HARBOR, MN US"'
    lines = [f'"{station}","{n:02d}",{place},"{n:02d}","99","99","{t:7.1f}"," ","S"' for n, t in enumerate(months, 1)]
    return "\n".join([NORMALS, *lines, ""])


def table(months: tuple[float, ...], unit: str = "C") -> str:
    return "\n".join([f"month,temperature {unit}", *(f"{n},{t}" for n, t in enumerate(months, 1)), ""])
