"""The year as it is told: signs in the words, what is harmful and useful, hours beside months, the first winters."""

from dataclasses import replace
from math import pi

import numpy as np
import pytest
from pytest import approx

from underpour.answer import answer, findings, solved_brief
from underpour.brief import read, reads
from underpour.checks import year
from underpour.checks.solved import floor_faces, summed
from underpour.physics.year import YEAR
from weather_files import GOLDEN, hours, tmy3

BRIEF = """
[project]
use = "{use}"
units = "SI"
[site]
{air}
ground = {{ conductivity = "2 W/(m·K)", heat-capacity = "2 MJ/(m³·K)" }}
[plan]
outline = ["0 0", "10 0", "10 8", "0 8"]
unit = "m"
[floor]
inside = {inside}
humidity = "50 %"
build-up = [{{ concrete = "100 mm" }}, {{ board = "xps-25", thickness = "2 in" }}]
[[edge]]
sides = "all"
kind = "free-edge"
"""
COLD = 'monthly = ["-12 C", "-10 C", "-4 C", "4 C", "11 C", "16 C", "19 C", "18 C", "13 C", "6 C", "-2 C", "-9 C"]'
MILD = 'monthly = ["3 C", "5 C", "9 C", "13 C", "17 C", "20.5 C", "21.5 C", "21 C", "18 C", "13 C", "8 C", "4 C"]'
WARM = 'monthly = ["10 C", "12 C", "16 C", "20 C", "25 C", "29 C", "30 C", "30 C", "27 C", "21 C", "16 C", "11 C"]'


def briefed(air=COLD, inside='"20 C"', use="dwelling"):
    return reads(BRIEF.format(air=air, inside=inside, use=use), "brief.toml")


def told(*args, **named):
    return answer(briefed(*args, **named)).as_briefed


def by_hours(tmp_path, rows=None, inside='"20 C"', more=""):
    (tmp_path / "golden.csv").write_text(tmy3(GOLDEN, rows), encoding="utf-8")
    text = BRIEF.format(air=f'weather = "golden.csv"\n{more}', inside=inside, use="workshop")
    (tmp_path / "brief.toml").write_text(text, encoding="utf-8")
    return read(tmp_path / "brief.toml")


def test_a_room_warmer_than_every_month_loses_heat_and_none_of_it_is_useful():
    said = told()
    net, harmful, useful = (said.find("heat.loss-year", flow=flow) for flow in ("net", "harmful", "useful"))
    assert net.value == approx(harmful.value) and net.value > 0.0 and useful.value == 0.0
    assert "in every month" in net.words
    assert useful.words == "At no hour does heat go the way the room wants."


def test_the_year_is_the_mean_flow_times_its_hours():
    """8765.82 h of the mean of the year; months are sums of their own days."""
    said = told()
    net = said.find("heat.loss-year", flow="net")
    assert net.value == approx(said.find("heat.loss-mean", of="floor").value * YEAR / 3.6e6, rel=1e-9)
    assert sum(net.months) == approx(net.value)
    assert max(net.months) <= said.find("heat.loss-peak", of="floor").value * 31 * 24 * 1.001 / 1000.0


def test_a_cooled_room_wants_the_coolness_of_the_ground():
    said = told(MILD, '"20 C"')
    useful = said.find("heat.loss-year", flow="useful")
    assert useful.value > 0.0
    assert min(useful.months[5:8]) > 0.0 and useful.months[0] == 0.0
    warmer = told(WARM, '{ winter = "20 C", summer = "24 C" }').find("heat.loss-year", flow="useful")
    assert max(warmer.months[5:8]) == 0.0  # there the ground is warmer than the room itself
    assert "coolness, if it is cooled" in said.find("heat.loss-year", flow="harmful").words


def test_a_freezer_takes_in_heat_that_it_does_not_want():
    said = told(WARM, '"-20 C"', use="cold-store")
    net, harmful = (said.find("heat.loss-year", flow=flow) for flow in ("net", "harmful"))
    assert net.value < 0.0 and harmful.value == approx(-net.value)
    assert "The ground heats this room in every month" in net.words
    assert "so the room wants coolness all year" in harmful.words
    assert "taken in" in said.find("heat.first-winters").title


def test_a_garage_held_colder_than_the_year_is_heated_by_the_ground(tmp_path):
    said = answer(by_hours(tmp_path, inside='"40 F"')).as_briefed
    net = said.find("heat.loss-year", flow="net")
    assert net.value < 0.0
    assert "The ground heats this room from" in net.words and "more come in than leave" in net.words
    assert said.find("heat.loss-year", flow="useful").value > 0.0


def test_the_effective_ground_temperature_gives_the_loss_with_the_floors_own_resistance():
    """Film, concrete and foam in series; the months' mean flow comes out again."""
    reading = briefed()
    resolved, edges = solved_brief(reading, "as briefed", reading.brief)
    settled = year.settled_year(resolved, edges)
    effective = next(f for f in year.ground(resolved, edges, settled) if f.at["of"] == "effective")
    resistance = 0.17 + sum(layer.thickness / layer.conductivity for layer in resolved.floor)
    again = [(20.0 - each) / resistance * resolved.area for each in effective.months]
    assert again == approx(settled.monthly(settled.floor))
    own = next(f for f in year.ground(resolved, edges, settled) if f.at["of"] == "open land")
    assert max(own.months) < max(effective.months) and effective.month in (1, 2, 3, 4)


def test_the_floor_is_warmer_the_farther_from_the_wall():
    said = told()
    corner, edge, centre = (said.find("heat.floor-year", place=p) for p in ("corner", "edge", "centre"))
    assert corner.value < edge.value < centre.value < 20.0
    assert corner.value > said.find("heat.corner-coldest").value


def test_a_narrow_floor_has_no_place_a_metre_in():
    text = BRIEF.format(air=COLD, inside='"20 C"', use="dwelling").replace(
        '"10 0", "10 8", "0 8"', '"10 0", "10 2", "0 2"'
    )
    places = [f.at["place"] for f in answer(reads(text, "b.toml")).as_briefed.findings if f.id == "heat.floor-year"]
    assert places == ["corner", "centre"]


def test_the_first_winter_is_the_worst_and_each_further_one_nearer_to_settled():
    """Warm room, ground at the mean of the year: heat goes into the ground for years."""
    first = told().find("heat.first-winters")
    shares = [float(step.result.split()[0]) for step in first.steps]
    assert first.value == approx(shares[0], abs=0.05)
    assert shares[0] > shares[1] > shares[2] > 100.0
    assert f"Then {shares[1]:.0f} % and {shares[2]:.0f} %" in first.words


def test_a_wave_of_a_year_in_hours_is_what_the_months_say(tmp_path):
    """Hours that are the brief's own harmonic: each hour of the floor is mean and swing, to a millionth."""
    reading = by_hours(tmp_path)
    resolved, edges = solved_brief(reading, "as briefed", reading.brief)
    at = (np.arange(8760) + 0.5) / 8760
    wave = resolved.outdoor_mean + (resolved.outdoor_swing * np.exp(2j * pi * at)).real
    settled = year.settled_year(replace(resolved, outdoor_hours=tuple(wave)), edges)
    floor = summed(edges, floor_faces)
    assert settled.floor == approx(floor.mean + (floor.swing * np.exp(2j * pi * at)).real, rel=1e-6)
    true = year.settled_year(resolved, edges)
    assert np.abs(true.floor - settled.floor).max() > 0.05 * abs(floor.swing)


def test_the_peak_by_hours_names_its_hour_and_stands_beside_the_harmonics(tmp_path):
    said = answer(by_hours(tmp_path)).as_briefed
    peaks = [f for f in said.findings if f.id == "heat.loss-peak"]
    assert [f.at.get("method") for f in peaks] == [None, "hours"]
    harmonic, hourly = peaks
    assert hourly.value > harmonic.value
    assert hourly.months[hourly.month - 1] == hourly.value == max(hourly.months)
    assert hourly.words.startswith("On ") and ":00 of the weather file, outdoors then at" in hourly.words
    assert [f.at.get("method") for f in told().findings if f.id == "heat.loss-peak"] == [None]


def test_the_named_hour_is_the_one_of_the_file(tmp_path):
    """One week of bitter cold in the file's February, all else at 5 degC: the peak is at its end."""
    rows = tuple((m, d, h, "-25.0" if m == 2 and 10 <= d <= 16 else "5.0") for m, d, h, _ in hours(GOLDEN))
    hourly = answer(by_hours(tmp_path, rows)).as_briefed.find("heat.loss-peak", method="hours")
    assert hourly.month == 2
    assert hourly.words.startswith(("On 16 February", "On 17 February"))


def test_a_missing_hour_lies_between_its_neighbours(tmp_path):
    rows = tuple((m, d, h, "-9900" if (m, d, h) == (3, 5, 7) else t) for m, d, h, t in hours(GOLDEN))
    reading = by_hours(tmp_path, rows)
    resolved, _ = solved_brief(reading, "as briefed", reading.brief)
    at = (31 + 28 + 4) * 24 + 6
    before, here, after = resolved.outdoor_hours[at - 1 : at + 2]
    assert here == approx((before + after) / 2.0)
    assert any("lie on a line between their neighbours" in note for note in resolved.notes)


def test_hours_move_with_the_height_of_the_site(tmp_path):
    low, high = (
        solved_brief(reading, "as briefed", reading.brief)[0]
        for reading in (by_hours(tmp_path), by_hours(tmp_path, more='height = "2829 m"'))
    )
    assert np.array(low.outdoor_hours) - np.array(high.outdoor_hours) == approx(6.5, abs=0.011)
    assert low.outdoor_mean - high.outdoor_mean == approx(6.5, abs=0.02)


@pytest.mark.parametrize("use", ["walk", "drive"])
def test_a_slab_under_the_sky_has_no_year_of_losses(use):
    text = BRIEF.format(air=COLD, inside='"20 C"', use=use).replace('inside = "20 C"\nhumidity = "50 %"\n', "")
    assert not [f for f in answer(reads(text, "b.toml")).as_briefed.findings if f.id.endswith(("-year", "-winters"))]


def test_a_sketch_says_the_same_kinds_of_the_year_but_the_first_winters():
    """Asking compares sketches by name; what needs the response is not there and changes no verdict."""
    from underpour.cut import sketched_edges

    reading = briefed()
    resolved, edges = solved_brief(reading, "as briefed", reading.brief)
    full, sketch = ({f.id for f in findings(resolved, e)} for e in (edges, sketched_edges(resolved)))
    assert full - sketch == {"heat.first-winters"}


def test_what_lies_on_the_ground_dulls_hours_and_moves_the_lands_own(tmp_path):
    """A brief whose ground outside feels half of the swing outdoors, three kelvin warmer."""
    from underpour.cut import solved_edges
    from underpour.resolve.resolved import GroundSurface

    reading = by_hours(tmp_path)
    resolved, edges = solved_brief(reading, "as briefed", reading.brief)
    dulled = GroundSurface(resolved.outdoor_mean + 3.0, resolved.outdoor_swing / 2.0, ("site.cover",))
    under = replace(resolved, surface=dulled)
    covered = solved_edges(under)
    open_year, year_under = year.settled_year(resolved, edges), year.settled_year(under, covered)
    spells = [np.linalg.norm(np.fft.rfft(each.floor)[2:12]) for each in (open_year, year_under)]
    assert spells[1] < 0.97 * spells[0]
    own = [next(f for f in year.ground(r, e, y) if f.at["of"] == "open land")
           for r, e, y in ((resolved, edges, open_year), (under, covered, year_under))]  # fmt: skip
    assert np.mean(own[1].months) - np.mean(own[0].months) == approx(3.0, abs=0.02)
    assert np.ptp(own[1].months) == approx(np.ptp(own[0].months) / 2.0, rel=0.001)
