"""Two typical years of the United States against what is taken from them.

TMY3: S. Wilcox and W. Marion, Users Manual for TMY3 Data Sets, National Renewable Energy Laboratory, NREL/TP-581-43156,
2008 (format from memory). The hours of Golden, Colorado, and Sand Point, Alaska, are the laboratory's, columns cut
(data/wx_*.csv.gz); around them stand the headings of TMY3 and EPW as those formats have them. The monthly means are
worked out here by numpy, from the rows as they are stored, apart from the reader.
"""

from __future__ import annotations

import numpy as np
import pytest
from pytest import approx
from tests import weather_files
from tests.weather_files import FILES, GOLDEN, LENGTHS, SAND_POINT

from ledger import held
from underpour import weather
from underpour.catalogue import places, year

STATIONS = pytest.mark.parametrize("station", [GOLDEN, SAND_POINT], ids=["Golden", "Sand Point"])
HOURS = "TMY3 of the National Renewable Energy Laboratory, its hours, by numpy"
KINDS = pytest.mark.parametrize("made", [weather_files.tmy3, weather_files.epw], ids=["TMY3", "EPW"])


def stored(station):
    """Month and temperature of each hour, as stored. [1, degC]"""
    table = np.loadtxt(weather_files.DATA / FILES[station], delimiter=",", skiprows=2, usecols=(0, 2))
    assert table.shape == (8760, 2)
    return table.T


def read(text, folder):
    file = folder / "weather.txt"
    file.write_text(text, encoding="utf-8")
    return weather.read(file)


@STATIONS
@KINDS
def test_the_months_are_the_means_of_their_hours(station, made, tmp_path):
    month, temperature = stored(station)
    means = [temperature[month == n].mean() for n in range(1, 13)]
    for n, (ours, mean) in enumerate(zip(read(made(station), tmp_path).months, means, strict=True), 1):
        held(ours, mean, 1e-9, "degC", HOURS, "document", f"month {n}", f"{mean:.4f}")


@STATIONS
@KINDS
def test_the_mean_of_all_hours_is_that_of_the_months_by_their_days(station, made, tmp_path):
    taken = read(made(station), tmp_path)
    by_days = sum(mean * days for mean, days in zip(taken.months, LENGTHS, strict=True)) / 365
    mean = stored(station)[1].mean()
    held(by_days, mean, 1e-9, "degC", HOURS, "document", digits=f"{mean:.4f}")


@STATIONS
def test_the_same_hours_as_epw_and_as_tmy3_give_the_same_months(station, tmp_path):
    first, second = (read(made(station), tmp_path) for made in (weather_files.tmy3, weather_files.epw))
    assert (first.kind, second.kind) == ("TMY3", "EPW")
    assert first.months == second.months
    assert (first.title, first.latitude, first.height) == (second.title, second.latitude, second.height)


@STATIONS
def test_calendar_months_in_place_of_twelfths_move_the_year_by_little(station, tmp_path):
    """The wave takes months as twelfths of a year; against the hours cut into twelfths of 730, by numpy's transform.

    The mean is off by what short months weigh too much: Golden's comes out 0.07 K low, as its February is cold. The
    moment is off by less than the 1.6 days that the middle of a month, mid-April most, stands before that of its
    twelfth (derived from the calendar). Our own bound for the size: 1 %.
    """
    month, temperature = stored(station)
    too_much = [1 / 12 - days / 365 for days in LENGTHS]
    expected = sum(w * temperature[month == n].mean() for n, w in enumerate(too_much, 1))
    twelfths = temperature.reshape(12, 730).mean(axis=1)
    swing = np.fft.fft(twelfths)[1] / 6.0 * np.exp(-1j * np.pi / 12.0)
    found_mean, found_swing = year.harmonic(read(weather_files.tmy3(station), tmp_path).months)
    assert found_mean - temperature.mean() == approx(expected, abs=1e-9)
    assert abs(expected) < 0.1
    assert abs(np.angle(found_swing / swing)) / (2.0 * np.pi) * 365.0 < 1.6
    size = abs(swing)
    held(abs(found_swing), size, 0.01 * size, "K", HOURS, "derived", "swing, of twelfths", f"{size:.4f}")


@STATIONS
def test_a_typical_year_lies_near_the_grid_at_its_place(station, tmp_path):
    """An older year of typical months against the means of 2000 to 2025; a wrong column or unit is off by 10 K."""
    taken = read(weather_files.tmy3(station), tmp_path)
    grid = places.at(taken.latitude, taken.longitude, taken.height).months
    mean = np.mean(grid)
    held(np.mean(taken.months), mean, 1.5, "degC", "The grid of 2000 to 2025 there", "document", digits=f"{mean:.2f}")
    assert np.max(np.abs(np.subtract(taken.months, grid))) < 5.0


def test_normals_in_fahrenheit_are_turned_into_celsius(tmp_path):
    """32 °F is 0 °C and 68 °F is 20 °C (NIST SP 811, B.8)."""
    months = (14.0, 23.0, 32.0, 41.0, 50.0, 59.0, 68.0, 59.0, 50.0, 41.0, 32.0, 23.0)
    celsius = [-10.0, -5.0, 0.0, 5.0, 10.0, 15.0, 20.0, 15.0, 10.0, 5.0, 0.0, -5.0]
    for ours, printed in zip(read(weather_files.normals(months), tmp_path).months, celsius, strict=True):
        held(ours, printed, 1e-6, "degC", "NIST Special Publication 811 (2008), B.8", "memory", f"{printed:g} °C")
    assert read(weather_files.table(months, "F"), tmp_path).months == approx(celsius)
    assert read(weather_files.table(tuple(celsius)), tmp_path).months == approx(celsius)
