"""Weather files that cannot be used, in one table, the whole way through the command; and what is said of the others.

A row is a file, the words that a person then reads, and always exit status 2 with the folder left as it was.
"""

from __future__ import annotations

import gzip
import json
import subprocess
import sys
from collections.abc import Callable
from dataclasses import dataclass
from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from tests import weather_files as files
from tests.told.test_bad_briefs import GOOD, PLACE, contents
from tests.weather_files import GOLDEN, Hour

from underpour import weather
from underpour.cli import main
from underpour.measure.digits import THIN
from underpour.mistakes import Mistake

YEAR = files.hours(GOLDEN)
WHOLE = "A year has 8760 hours"


def brief(site: str) -> str:
    assert PLACE in GOOD
    return GOOD.replace(PLACE, site, 1)


def without(*gone: tuple[int, int, int]) -> tuple[Hour, ...]:
    return tuple(row for row in YEAR if row[:3] not in gone)


def with_value(typed: str, *at: tuple[int, int, int]) -> tuple[Hour, ...]:
    return tuple((*row[:3], typed) if row[:3] in at else row for row in YEAR)


def of_day(month: int, *days: int) -> list[tuple[int, int, int]]:
    return [(month, day, hour) for day in days for hour in range(1, 25)]


LEAP_DAY = tuple((2, 29, hour, "1.0") for hour in range(1, 25))
FEBRUARY_ENDS = YEAR.index(next(row for row in YEAR if row[0] == 3))
FAHRENHEIT = tuple((m, d, h, f"{32 + 1.8 * float(t):.1f}") for m, d, h, t in files.hours(files.SAND_POINT))
MONTHS = (-10.0, -8.0, -1.0, 7.0, 13.0, 18.0, 21.0, 20.0, 15.0, 9.0, 1.0, -7.0)
TABLE = files.table(MONTHS)
NSRDB = "Source,Location ID,City,State,Country,Latitude,Longitude\nNSRDB,78348,-,-,-,39.73,-105.18\n"


@dataclass(frozen=True)
class Bad:
    what: str
    content: str | bytes | Callable[[], str]  # of weather.epw
    words: tuple[str, ...]


BAD = [
    # Files of another kind
    Bad("an empty file", "", ("The file is empty.",)),
    Bad("nothing but blanks", " \n\n", ("The file is empty.",)),
    Bad("a packed file (gzip)", gzip.compress(b"LOCATION,"), ("packed file (gzip)", "Unpack it")),
    Bad("a packed file (zip)", b"PK\x03\x04" + bytes(60), ("packed file (zip)", "save a spreadsheet as CSV")),
    Bad("a PDF", b"%PDF-1.7\n", ("a PDF", "twelve monthly means")),
    Bad("a grid of a climate archive", b"\x89HDF\r\n\x1a\n" + bytes(9), ("NetCDF", "month,temperature C")),
    Bad("bytes that are no text", b"LOCATION,\0\1\2", ("This is not a text.", "Read are EPW, TMY3")),
    Bad("broken UTF-16", "LOCATION".encode("utf-16")[:-1], ("UTF-16", "Save it as UTF-8.")),
    Bad("a file of the radiation archive", NSRDB, ("solar radiation archive (NSRDB)", "as EPW too")),
    Bad("a web page", "<!DOCTYPE html>\n<html>", ("a web page", "Fetch the file itself")),
    Bad("daily normals", '"STATION","DATE","DLY-TAVG-NORMAL"\n', ("daily normals", "monthly normals of the same")),
    Bad("hourly normals", '"STATION","DATE","HLY-TEMP-NORMAL"\n', ("hourly normals", "monthly normals of the same")),
    Bad("a letter", "Dear Ana,\nthe weather was fine.", ('weather.epw:1: It begins "Dear Ana,"', "Read are EPW, TMY3")),
    Bad("one endless line", "x" * 300_000, ("It begins", "xxx …")),
    Bad("too large a file", b"x" * 20_000_001, ("20 million bytes",)),
    # EPW
    Bad("EPW without its last header row", lambda: files.epw(GOLDEN).replace("DATA PERIODS", "PERIODS"),
        ("weather.epw:8: There is no row DATA PERIODS",)),
    Bad("EPW with four rows an hour", lambda: files.epw(GOLDEN, an_hour=4),
        ('weather.epw:8: DATA PERIODS says "4" rows for each hour.', "hourly file")),
    Bad("EPW of two periods", lambda: files.epw(GOLDEN).replace("PERIODS,1,1", "PERIODS,2,1"), ('names "2" periods',)),
    Bad("EPW with a short LOCATION", lambda: files.epw(GOLDEN).replace("39.742,-105.179,-7.0,1829", "39.742"),
        ("weather.epw:1: LOCATION has 6 fields of 9.",)),
    Bad("EPW whose latitude is a word", lambda: files.epw(GOLDEN).replace("39.742", "north"),
        ('weather.epw:1: The latitude is written "north".',)),
    Bad("EPW whose latitude is off the map", lambda: files.epw(GOLDEN).replace("39.742", "139.742"),
        ("A latitude of 139.742 is not on the map.",)),
    Bad("EPW with its heading alone", lambda: "\n".join(files.epw(GOLDEN).split("\n")[:8]),
        ("only its heading", WHOLE)),
    Bad("EPW cut off in a row", lambda: files.epw(GOLDEN)[:400_000].rpartition("\n")[0] + "\n1993,6,3",
        ("This row has 3 fields; the temperature is the seventh.",)),
    Bad("EPW whose dates a spreadsheet changed", lambda: files.epw(GOLDEN).replace("1988,1,1,1,", "1988,Jan,1,1,", 1),
        ('weather.epw:9: "1988, Jan, 1, 1" cannot be read as', "spreadsheet")),
    # TMY3
    Bad("TMY3 in Fahrenheit", lambda: files.tmy3(GOLDEN, column="Dry-bulb (F)"),
        ("weather.epw:2: There is no column Dry-bulb (C). It has Dry-bulb (F).",)),
    Bad("TMY3 with a short first row", lambda: files.tmy3(GOLDEN).replace(",39.742,-105.179,1829", "", 1),
        ("weather.epw:1: The first row has 4 fields of 7.",)),
    Bad("TMY3 at half past", lambda: files.tmy3(GOLDEN).replace(",03:00,", ",03:30,", 1),
        ("weather.epw:5: This row is of 03:30.", "full hour")),
    Bad("TMY3 with dates of another order", lambda: files.tmy3(GOLDEN).replace("01/01/1988", "1988-01-01", 1),
        ('weather.epw:3: "1988-01-01, 01:00" cannot be read as MM/DD/YYYY',)),
    Bad("TMY3 with a short row", lambda: files.tmy3(GOLDEN).replace("01/01/1988,02:00", "01/01/1988,02:00\n", 1),
        ("weather.epw:4: This row has 2 fields of 69.",)),
    # The year
    Bad("half a year", lambda: files.epw(GOLDEN, YEAR[:4344]),
        ("The file holds 4344 hours, from 1 January 01:00 to 30 June 24:00: that is no whole year.", WHOLE)),
    Bad("a year without its first day", lambda: files.epw(GOLDEN, YEAR[24:]), ("from 2 January 01:00 to 31 December",)),
    Bad("one hour missing", lambda: files.epw(GOLDEN, without((1, 2, 5))),
        ("weather.epw:37: 1 hour is missing: after 2 January 04:00 comes 2 January 06:00.", "site.monthly")),
    Bad("the turn of February missing", lambda: files.tmy3(GOLDEN, without(*of_day(2, 28), *of_day(3, 1))),
        ("48 hours are missing: after 27 February 24:00 comes 2 March 01:00.",)),
    Bad("twenty-one hours missing", lambda: files.epw(GOLDEN, without(*of_day(7, 9)[:21])),
        ("21 hours are missing: after 8 July 24:00 comes 9 July 22:00.",)),
    Bad("a whole day missing", lambda: files.epw(GOLDEN, without(*of_day(7, 9))),
        ("24 hours are missing: after 8 July 24:00 comes 10 July 01:00.",)),
    Bad("gaps in several places", lambda: files.tmy3(GOLDEN, without((1, 2, 5), (1, 2, 6), *of_day(7, 9, 10))),
        ("weather.epw:31: 2 hours are missing", "With one other gap 50 hours are missing.")),
    Bad("days in place of hours", lambda: files.epw(GOLDEN, tuple(row for row in YEAR if row[2] == 1)),
        ("23 hours are missing", "With 363 other gaps 8372 hours are missing.")),
    Bad("part of a leap day", lambda: files.epw(GOLDEN, YEAR[:FEBRUARY_ENDS] + LEAP_DAY[:7] + YEAR[FEBRUARY_ENDS:]),
        ("17 hours are missing: after 29 February 07:00 comes 1 March 01:00.",)),
    Bad("an hour that stands twice", lambda: files.epw(GOLDEN, YEAR[:30] + YEAR[29:]),
        ("weather.epw:39: 2 January 06:00 stands in two rows.", "quarters and halves")),
    Bad("months out of order", lambda: files.epw(GOLDEN, YEAR[4344:] + YEAR[:4344]),
        ("A second year begins here.", "One year is read, its hours in order.")),
    Bad("two years", lambda: files.epw(GOLDEN, YEAR + YEAR), ("weather.epw:8769: A second year begins here.",)),
    Bad("hours counted from nought", lambda: files.epw(GOLDEN, tuple((m, d, h - 1, t) for m, d, h, t in YEAR)),
        ("weather.epw:9: There is no hour 0 of day 1 of month 1.", "from 1 to 24")),
    Bad("a thirteenth month", lambda: files.epw(GOLDEN, ((13, 1, 1, "1"),)),
        ("There is no hour 1 of day 1 of month 13",)),
    Bad("30 February", lambda: files.epw(GOLDEN, ((2, 30, 1, "1"),)), ("There is no hour 1 of day 30 of month 2.",)),
    # The temperatures
    Bad("a word for a temperature", lambda: files.epw(GOLDEN, with_value("cold", (1, 1, 4))),
        ('weather.epw:12: "cold" is no temperature.', "-11.5")),
    Bad("a decimal comma", lambda: files.tmy3(GOLDEN, with_value('"3,5"', (1, 1, 4))), ('"3,5" is no temperature.',)),
    Bad("nan", lambda: files.tmy3(GOLDEN, with_value("nan", (1, 1, 4))), ("The air is at nan",)),
    Bad("hotter than air has been", lambda: files.epw(GOLDEN, with_value("60", (1, 1, 4))),
        ("weather.epw:12: The air is at 60 °C here", "degrees Fahrenheit?")),
    Bad("colder than air has been", lambda: files.epw(GOLDEN, with_value("-95", (1, 1, 4))), ("The air is at -95 °C",)),
    Bad("Fahrenheit where it never gets hot", lambda: files.epw(GOLDEN, FAHRENHEIT), ("°C", "degrees Fahrenheit?")),
    Bad("too many hours without a value", lambda: files.epw(GOLDEN, with_value("99.9", *of_day(3, 4, 5))),
        ("March has no temperature in 48 hours of 744, written 99.9.", "Up to 2 % of a month")),
    Bad("one hour too many without a value", lambda: files.epw(GOLDEN, with_value("99.9", *of_day(3, 4)[:15])),
        ("March has no temperature in 15 hours of 744",)),
    Bad("a day left empty", lambda: files.tmy3(GOLDEN, with_value("", *of_day(3, 4))),
        ("March has no temperature in 24 hours of 744, left empty.",)),
    Bad("a year without any value", lambda: files.tmy3(GOLDEN, tuple((*row[:3], "-9900") for row in YEAR)),
        ("January has no temperature in 744 hours of 744, written -9900.",)),
    # Monthly normals
    Bad("normals without the mean", '"STATION","DATE","MLY-TMAX-NORMAL"\n"A","01","30"\n',
        ("weather.epw:1: There is no column MLY-TAVG-NORMAL",)),
    Bad("normals of eleven months", files.normals(files.FAHRENHEIT[:11]), ("The months end after November.",)),
    Bad("normals with their heading alone", f"{files.NORMALS}\n", ("There are no months below the heading.",)),
    Bad("normals with an empty month", files.normals().replace("   28.0", ""), ("weather.epw:4:", "is left empty")),
    Bad("normals with a month that was not measured", files.normals().replace("   28.0", "-9999.0"),
        ("weather.epw:4: March has no mean; -9999.0 says that there is none.",)),
    Bad("normals of two stations", files.normals() + files.normals(station="USW00000001").split("\n", 1)[1],
        ("The file holds 2 stations: USW00000000, USW00000001.",)),
    Bad("normals in Celsius", files.normals(MONTHS), ("The warmest month has 21.0", "standard units")),
    # A table of months
    Bad("a table without a unit", TABLE.replace("temperature C", "temperature"),
        ('weather.epw:1: The heading is "month,temperature".', "month,temperature C or month,temperature F")),
    Bad("a table with months out of order", "\n".join(TABLE.split("\n")[:1] + TABLE.split("\n")[:0:-1]),
        ('This row is of month "12"; January is wanted here.',)),
    Bad("a table that misses May", TABLE.replace("5,13.0\n", ""),
        ('weather.epw:6: This row is of month "6"; May is wanted here.',)),
    Bad("a table of thirteen months", TABLE + "13,5\n",
        ('weather.epw:14: This row is of month "13", after the twelfth.',)),
    Bad("a table with an empty month", TABLE.replace("5,13.0", "5,"), ("weather.epw:6: temperature is left empty.",)),
    Bad("a table with a word", TABLE.replace("5,13.0", "5,mild"), ('weather.epw:6: "mild" is no temperature.',)),
    Bad("a table in Fahrenheit that says Celsius", files.table(files.FAHRENHEIT),
        ("The mean of May comes to 52.5 °C",)),
]  # fmt: skip


@pytest.fixture
def folder(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """The brief's folder, which is not the one that the command is called from."""
    job = tmp_path / "job"
    job.mkdir()
    monkeypatch.chdir(tmp_path)
    monkeypatch.setenv("COLUMNS", "400")
    return job


def refused(folder: Path, site: str, capsys: pytest.CaptureFixture[str]) -> str:
    """What is told of a brief that is sent back, which touches nothing."""
    (folder / "brief.toml").write_text(brief(site), "utf-8")
    before = contents(folder)
    status = main(["answer", "job/brief.toml"])
    told = capsys.readouterr()
    assert status == 2, told
    assert told.out == ""
    assert "Traceback" not in told.err
    assert contents(folder) == before
    return told.err


@pytest.mark.parametrize("bad", BAD, ids=[bad.what for bad in BAD])
def test_a_weather_file_that_cannot_be_used_is_told_with_its_line(
    bad: Bad, folder: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    content = bad.content() if callable(bad.content) else bad.content
    (folder / "weather.epw").write_bytes(content.encode() if isinstance(content, str) else content)
    told = refused(folder, 'weather = "weather.epw"', capsys)
    assert 'job/brief.toml:5  site.weather = "weather.epw"' in told
    for words in bad.words:
        assert words in told


@pytest.mark.parametrize(
    ("site", "words"),
    [
        ('weather = "duluht.epw"',
         ('site.weather = "duluht.epw"', "There is no such file.", "The nearest is duluth.epw.")),
        ('weather = "away/duluth.epw"', ("There is no such file.", "There is no folder", "the brief's folder")),
        ('weather = "years"', ("This is a folder; a weather file is wanted.", "years/duluth.csv")),
        ('weather = ""', ("This is a folder",)),
        ('weather = "a\\u0000b"', ("cannot be read",)),
        ("weather = 5", ("A file is named in quotes.", '"duluth.epw"')),
        ('weather = "duluth.epw"\nmonthly = ["1 C"]',
         ("monthly and weather both say how cold it is.", "monthly has 1")),
    ],
)  # fmt: skip
def test_a_path_that_leads_to_no_file_is_told(
    site: str, words: tuple[str, ...], folder: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    (folder / "duluth.epw").write_text(TABLE, "utf-8")
    (folder / "years").mkdir()
    (folder / "years" / "duluth.csv").write_text(TABLE, "utf-8")
    told = refused(folder, site, capsys)
    for each in words:
        assert each in told


def test_a_weather_file_is_told_before_anything_heavy_is_loaded(folder: Path) -> None:
    (folder / "brief.toml").write_text(brief('weather = "weather.epw"'), "utf-8")
    (folder / "weather.epw").write_text(files.epw(GOLDEN, YEAR[:4344]), "utf-8")
    ask = "import sys; from underpour.cli import main; main(['answer', 'job/brief.toml']); "
    ask += "print([name for name in ('numpy', 'scipy', 'contourpy', 'typst') if name in sys.modules])"
    told = subprocess.run([sys.executable, "-c", ask], capture_output=True, text=True, check=True)
    assert "no whole year" in told.stderr
    assert told.stdout == "[]\n"


def test_a_site_that_says_nothing_is_offered_a_file_too(folder: Path, capsys: pytest.CaptureFixture[str]) -> None:
    assert 'weather = "file.epw"' in refused(folder, "", capsys)


def answered(folder: Path, site: str, capsys: pytest.CaptureFixture[str]) -> dict[str, object]:
    (folder / "brief.toml").write_text(brief(site), "utf-8")
    status = main(["answer", "job/brief.toml", "--json"])
    told = capsys.readouterr()
    assert status in (0, 1), told.err
    found: dict[str, object] = json.loads(told.out)
    return found


def test_an_alternative_may_take_its_air_from_a_file_and_says_what_it_took(
    folder: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    (folder / "months.csv").write_text(TABLE, "utf-8")
    changed = 'remove = ["board"]', 'set = { "site.weather" = "months.csv" }'
    (folder / "brief.toml").write_text(GOOD.replace(*changed), "utf-8")
    assert main(["answer", "job/brief.toml", "--json"]) == 0
    found = json.loads(capsys.readouterr().out)
    assert any(note.startswith("bare slab: Taken from months.csv (table of months in °C)") for note in found["notes"])
    as_briefed, other = ({f["id"]: f for f in each["findings"]}["heat.loss-mean"] for each in found["alternatives"])
    assert "site.place" in as_briefed["rests_on"]
    assert "site.weather" in other["rests_on"]
    assert other["value"] != as_briefed["value"]


def test_the_climate_record_is_credited_where_only_an_alternative_takes_its_air_from_it(
    folder: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    (folder / "months.csv").write_text(TABLE, "utf-8")
    changed = 'remove = ["board"]', 'remove = ["site.weather"]\nset = { "site.place" = "Duluth, MN" }'
    text = brief('weather = "months.csv"').replace(*changed)
    (folder / "brief.toml").write_text(text, "utf-8")
    assert main(["answer", "job/brief.toml", "--json"]) in (0, 1)
    assert any("Copernicus" in credit for credit in json.loads(capsys.readouterr().out)["credits"])


def test_a_bad_file_of_an_alternative_is_told_by_its_name(folder: Path, capsys: pytest.CaptureFixture[str]) -> None:
    changed = 'remove = ["board"]', 'set = { "site.weather" = "gone.epw" }'
    (folder / "brief.toml").write_text(GOOD.replace(*changed), "utf-8")
    assert main(["answer", "job/brief.toml"]) == 2
    told = capsys.readouterr().err
    assert 'brief.toml:31  alternative "bare slab": site.weather = "gone.epw"' in told
    assert "There is no such file." in told


def test_a_file_and_the_same_months_typed_give_the_same_answer(
    folder: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    (folder / "months.csv").write_text(TABLE, "utf-8")
    typed = ", ".join(f'"{month} C"' for month in MONTHS)
    of_file = answered(folder, 'weather = "months.csv"', capsys)["alternatives"]
    of_typed = answered(folder, f"monthly = [{typed}]", capsys)["alternatives"]
    assert json.dumps(of_file).replace("site.weather", "site.monthly") == json.dumps(of_typed)


def test_what_was_taken_and_what_was_not_is_printed(folder: Path, capsys: pytest.CaptureFixture[str]) -> None:
    (folder / "golden.epw").write_text(files.epw(GOLDEN), "utf-8")
    (folder / "brief.toml").write_text(brief('weather = "golden.epw"'), "utf-8")
    assert main(["answer", "job/brief.toml"]) in (0, 1)
    told = " ".join(capsys.readouterr().out.replace(THIN, " ").split())
    assert "Taken from golden.epw (EPW, 8760 hours, DENVER/CENTENNIAL [GOLDEN - NREL], CO, 39.7° N, 105.2° W, " in told
    assert "29.7 °F (−1.3 °C) in February to 70.7 °F (21.5 °C) in August" in told
    assert "Jan 34.0, Feb 29.7, Mar 37.7" in told
    assert "Not taken: the header's ground temperatures; they are averages from the surface down to a depth" in told
    assert "Not taken: wind, radiation" in told


def test_the_ground_temperatures_of_the_header_move_nothing(tmp_path: Path) -> None:
    text = files.epw(GOLDEN)
    (tmp_path / "with.epw").write_text(text, "utf-8")
    without_ground = text.replace(text.split("\n")[3], "GROUND TEMPERATURES,0")
    (tmp_path / "without.epw").write_text(without_ground, "utf-8")
    first, second = weather.read(tmp_path / "with.epw"), weather.read(tmp_path / "without.epw")
    assert first.months == second.months
    assert [any("ground temperatures" in left for left in each.not_taken) for each in (first, second)] == [True, False]


def test_a_place_beside_a_file_is_the_sites_name_and_need_not_be_known(
    folder: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    (folder / "months.csv").write_text(TABLE, "utf-8")
    found = answered(folder, 'weather = "months.csv"\nplace = "Marlpit Quarry, lower bench"', capsys)
    assert found["place"] == "Marlpit Quarry, lower bench (air of the months of months.csv)"
    assert any("site.place names the site" in note for note in found["notes"])  # type: ignore[attr-defined]


def means(found: dict[str, object]) -> str:
    return next(note for note in found["notes"] if "site" in note)  # type: ignore[attr-defined, no-any-return]


def test_a_height_moves_the_air_of_a_station_and_is_said_to(folder: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """1000 m above the station: 6.5 K colder, 11.7 °F."""
    (folder / "golden.epw").write_text(files.epw(GOLDEN), "utf-8")
    low = answered(folder, 'weather = "golden.epw"', capsys)
    high = answered(folder, 'weather = "golden.epw"\nheight = "2829 m"', capsys)
    assert "The site stands at 2829 m and the station at 1829 m" in means(high)
    assert f"11.7{THIN}°F (6.5{THIN}K) colder" in means(high)
    losses = [
        next(f["value"] for f in each["alternatives"][0]["findings"] if f["id"] == "heat.loss-mean")  # type: ignore[index]
        for each in (low, high)
    ]
    assert losses[1] > 1.3 * losses[0]


@pytest.mark.parametrize("site", ['weather = "months.csv"', f"monthly = {json.dumps([f'{m} C' for m in MONTHS])}"])
def test_a_height_without_a_stations_height_is_said_to_change_nothing(
    site: str, folder: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    (folder / "months.csv").write_text(TABLE, "utf-8")
    found = answered(folder, f'{site}\nheight = "900 m"', capsys)
    assert "site.height changes nothing here" in means(found)


def read(folder: Path, content: str | bytes) -> weather.Station:
    (folder / "weather").write_bytes(content.encode() if isinstance(content, str) else content)
    return weather.read(folder / "weather")


def test_a_few_hours_without_a_value_are_left_out_and_counted(tmp_path: Path) -> None:
    """Fourteen hours of March are under 2 %, fifteen of 744 are over it."""
    hours = of_day(3, 4)[:14]
    station = read(tmp_path, files.epw(GOLDEN, with_value("99.9", *hours)))
    assert (
        "14 of its hours have no temperature and are left out of their month's mean, at most 14 in one; "
        "hour by hour they lie on a line between their neighbours." in station.notes
    )
    kept = [float(t) for m, d, h, t in YEAR if m == 3 and (m, d, h) not in hours]
    assert station.months[2] == pytest.approx(sum(kept) / 730)


def test_a_whole_leap_day_counts_to_february(tmp_path: Path) -> None:
    station = read(tmp_path, files.epw(GOLDEN, YEAR[:FEBRUARY_ENDS] + LEAP_DAY + YEAR[FEBRUARY_ENDS:]))
    february = [float(t) for m, _, _, t in YEAR if m == 2] + [1.0] * 24
    assert (station.hours, station.months[1]) == (8784, pytest.approx(sum(february) / 696))
    assert any("29 February" in note for note in station.notes)


@pytest.mark.parametrize("letters", ["utf-8", "utf-8-sig", "utf-16", "latin-1"])
def test_a_name_with_an_accent_is_read_in_every_usual_encoding(letters: str, tmp_path: Path) -> None:
    text = files.epw(GOLDEN).replace("DENVER/CENTENNIAL [GOLDEN - NREL]", "Zürich").replace("\n", "\r\n")
    station = read(tmp_path, text.encode(letters))
    assert station.title == "Zürich, CO"
    assert any("Latin-1" in note for note in station.notes) == (letters == "latin-1")


@pytest.mark.parametrize(
    "text",
    [
        TABLE.replace("temperature C", "Temperature (°C)"),
        TABLE.replace(",", ";").replace(".", ","),
        TABLE.replace(",", "\t"),
        TABLE.replace("-", "\u2212"),
        TABLE.replace("\n1,", "\nJanuary,").replace("\n2,", "\nFeb,").replace("\n3,", "\n03,"),
        f"# North Harbor, station normals of 1991 to 2020.\n\n{TABLE}",
    ],
    ids=["unit in brackets", "semicolons and commas", "tabs", "minus of print", "names of months", "a title"],
)
def test_a_table_is_read_as_people_write_it(text: str, tmp_path: Path) -> None:
    assert read(tmp_path, text).months == MONTHS


def test_a_line_before_the_table_is_its_title(tmp_path: Path) -> None:
    assert (
        read(tmp_path, f"# North Harbor, normals of 1991 to 2020.\n{TABLE}").title
        == "North Harbor, normals of 1991 to 2020"
    )


def test_a_file_that_changed_is_read_anew(tmp_path: Path) -> None:
    first = read(tmp_path, TABLE)
    second = read(tmp_path, TABLE.replace("13.0", "14.25"))
    assert (first.months[4], second.months[4]) == (13.0, 14.25)


def test_every_limit_says_its_unit_and_where_it_is_from() -> None:
    from typing import get_args

    from underpour.findings import Seen
    from underpour.weather.limits import table

    rows = [*table()["limit"].items(), *table()["missing"].items()]
    assert len(rows) > 8
    for name, row in rows:
        assert row["unit"] and row["source"], name
        assert row["seen"] in get_args(Seen), name


SPOILT = {"epw": files.epw(GOLDEN), "tmy3": files.tmy3(GOLDEN), "normals": files.normals(), "table": TABLE}


@settings(max_examples=60, deadline=None)
@given(
    kind=st.sampled_from(sorted(SPOILT)),
    at=st.floats(0.0, 1.0),
    early=st.booleans(),
    gone=st.integers(0, 400),
    put=st.one_of(st.binary(max_size=40), st.sampled_from([b'"', b"\n", b",", b"\0", b"\xff\xfe", b"1e999", b"#"])),
)
def test_a_file_spoilt_anywhere_is_read_or_told_and_never_breaks(
    kind: str, at: float, early: bool, gone: int, put: bytes, tmp_path_factory: pytest.TempPathFactory
) -> None:
    """Early: in the headings, where the readers look most closely."""
    whole = SPOILT[kind].encode()
    start = int(at * min(len(whole), 900 if early else len(whole)))
    folder = tmp_path_factory.mktemp("spoilt")
    try:
        station = read(folder, whole[:start] + put + whole[start + gone :])
    except Mistake as told:
        assert told.wrong
        assert len(told.wrong) < 300
        assert told.wrong.isprintable()
    else:
        assert len(station.months) == 12
        assert all(-75.0 <= month <= 45.0 for month in station.months)
        assert all(line.isprintable() for line in weather.taken(station, "US") if THIN not in line)
