"""The year as it is told: signs in the words, what is harmful and useful, hours beside months, the first winters."""

from dataclasses import replace
from math import pi

import numpy as np
import pytest
from pytest import approx

from underpour.answer import answer, findings, solved_brief
from underpour.brief import read, reads
from underpour.checks import year
from underpour.checks.settled import settled_year
from underpour.checks.solved import floor_faces, summed, wall_faces
from underpour.mistakes import Mistakes
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


COOLED, LET_GO = '"20 C"\ncooled = true', '"20 C"\ncooled = false'


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


def flows(said, of="floor"):
    """Net, harmful and useful of a year, in that order."""
    return tuple(said.find("heat.loss-year", of=of, flow=flow) for flow in ("net", "harmful", "useful"))


def test_a_cooled_room_wants_the_coolness_of_the_ground():
    said = told(MILD, COOLED)
    _, harmful, useful = flows(said)
    assert useful.value > 0.0
    assert min(useful.months[5:8]) > 0.0 and useful.months[0] == 0.0
    _, _, warmer = flows(told(WARM, '{ winter = "20 C", summer = "24 C" }\ncooled = true'))
    assert max(warmer.months[5:8]) == 0.0  # there the ground is warmer than the room itself
    assert "in the others it wants coolness, as it is kept cool" in harmful.words


def test_a_room_that_is_let_go_wants_nothing_in_summer_and_what_goes_then_is_told_apart():
    """The same floor cooled and let go: net alike, harmful alike where the ground takes heat, useful gone."""
    net, harmful, useful = flows(told(MILD, COOLED))
    still, harm, use = flows(told(MILD, LET_GO))
    assert still.months == approx(net.months) and harm.value == approx(harmful.value)
    assert use.value == 0.0 < useful.value
    assert f"While it is let go {useful.value:.0f} kWh leave, neither useful nor harmful." in use.words.replace(
        "\u2009", " "
    )
    assert "it wants nothing, as it is let go" in harm.words


def test_nobody_says_whether_a_room_is_cooled_and_it_is_listed_as_let_go():
    """Typed, the key leaves the list, and the useful heat of the year is another."""
    untold, typed = answer(briefed(MILD)), answer(briefed(MILD, COOLED))
    (taken,) = (each for each in untold.assumed if each.path == "floor.cooled")
    assert taken.value == "no" and "let go in summer" in taken.why
    assert "floor.cooled" not in {each.path for each in typed.assumed}
    _, _, useful = flows(untold.as_briefed)
    assert useful.value == 0.0 and "say floor.cooled = true if it is kept cool" in useful.words
    assert "floor.cooled" in useful.rests_on
    assert flows(typed.as_briefed)[2].value > 0.0


def test_a_store_in_the_ground_gains_coolness_that_it_wants():
    """A cellar kept at 12 degC under warm land takes coolness from the ground in summer while it is kept cool."""
    _, harmful, useful = flows(told(MILD, '"16 C"\ncooled = true', use="warehouse"))
    assert sum(useful.months[4:9]) == approx(useful.value, rel=1e-6) and useful.value > 0.0
    assert min(harmful.months[:3]) > 0.0


def test_a_freezer_takes_in_heat_that_it_does_not_want():
    said = told(WARM, '"-20 C"', use="cold-store")
    net, harmful, _ = flows(said)
    assert net.value < 0.0 and harmful.value == approx(-net.value)
    assert "The ground heats this room in every month" in net.words
    assert harmful.words.startswith("This floor wants coolness all year: floors of this use are kept frozen.")
    assert "taken in" in said.find("heat.first-winters").title


@pytest.mark.parametrize(("use", "inside"), [("rink", '"5 C"'), ("cold-store", '"-2 C"')])
def test_a_floor_kept_frozen_wants_coolness_in_months_that_are_colder_outdoors_too(use, inside):
    """Heat that leaves by winter is of use to it and none does harm; a warehouse as cold wants heat then."""
    frozen, warehouse = answer(briefed(COLD, inside, use)), answer(briefed(COLD, '"5 C"', "warehouse"))
    net, harmful, useful = flows(frozen.as_briefed)
    assert max(net.months) > 0.0 > min(net.months)
    assert [u - h for u, h in zip(useful.months, harmful.months, strict=True)] == approx(net.months)
    assert [step.numbers for step in useful.steps if step.symbol == "wants"] == ["coolness all year"]
    assert "floor.cooled" not in {each.path for each in frozen.assumed}
    assert "project.use" in useful.rests_on and "floor.cooled" not in useful.rests_on
    assert flows(warehouse.as_briefed)[1].months[0] > 0.0


@pytest.mark.parametrize(
    ("use", "inside", "wrong"),
    [
        ("cold-store", '"-20 C"\ncooled = false', "A cold store is kept cold all year."),
        ("rink", '"-2 C"\ncooled = false', "An ice rink is kept cold all year."),
        ("dwelling", '"20 C"\ncooled = "no"', ""),
    ],
)
def test_cooled_that_does_not_go_with_the_use_is_told_where_it_stands(use, inside, wrong):
    with pytest.raises(Mistakes) as told:
        briefed(WARM, inside, use)
    (mistake,) = told.value
    assert mistake.at == "floor.cooled" and wrong in mistake.wrong


def test_a_slab_under_the_sky_has_no_room_to_be_kept_cool():
    text = BRIEF.format(air=COLD, inside="", use="drive").replace('inside = \nhumidity = "50 %"', "cooled = true")
    with pytest.raises(Mistakes, match="no room over it to be kept cool"):
        reads(text, "b.toml")


def test_a_garage_held_colder_than_the_year_is_heated_by_the_ground(tmp_path):
    said = answer(by_hours(tmp_path, inside='"40 F"')).as_briefed
    net = said.find("heat.loss-year", flow="net")
    assert net.value < 0.0
    assert "The ground heats this room from" in net.words and "more come in than leave" in net.words
    _, harmful, useful = flows(said)
    assert useful.value > 0.0
    assert "come in, neither useful nor harmful" in useful.words
    _, kept_cool, _ = flows(answer(by_hours(tmp_path, inside='"40 F"\ncooled = true')).as_briefed)
    assert harmful.value < 0.3 * kept_cool.value  # nothing cools a garage: what comes in by summer harms nobody


def test_the_effective_ground_temperature_gives_the_loss_with_the_floors_own_resistance():
    """Film, concrete and foam in series; the months' mean flow comes out again."""
    reading = briefed()
    resolved, edges = solved_brief(reading, "as briefed", reading.brief)
    settled = settled_year(resolved, edges)
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
    settled = settled_year(replace(resolved, outdoor_hours=tuple(wave)), edges)
    floor = summed(edges, floor_faces)
    assert settled.floor == approx(floor.mean + (floor.swing * np.exp(2j * pi * at)).real, rel=1e-6)
    true = settled_year(resolved, edges)
    assert np.abs(true.floor - settled.floor).max() > 0.05 * abs(floor.swing)


CELLAR = """
[[edge]]
sides = {sides}
kind = "footing-wall"
depth = "16 in"
ground = "2.1 m"
footing = {{ width = "24 in", height = "12 in" }}
wall = [{{ concrete = "8 in" }}]
{more}
"""


def cellar(tmp_path, *edges, air='weather = "golden.csv"', inside='"20 C"'):
    """A floor with other edges, each its sides and what else stands in it."""
    (tmp_path / "golden.csv").write_text(tmy3(GOLDEN, None), encoding="utf-8")
    above = BRIEF.format(air=air, inside=inside, use="basement").split("[[edge]]")[0]
    text = above + "".join(CELLAR.format(sides=sides, more=more) for sides, more in edges)
    (tmp_path / "brief.toml").write_text(text, encoding="utf-8")
    return read(tmp_path / "brief.toml")


def test_a_basements_wall_has_its_own_year_and_its_own_peak(tmp_path):
    """The wall follows days, the floor seasons. Months as twelfths of a year are off by some hundredths of a kelvin."""
    said = answer(cellar(tmp_path, ('"all"', ""))).as_briefed
    net = {of: said.find("heat.loss-year", of=of, flow="net") for of in ("floor", "wall")}
    for of, each in net.items():
        assert each.value == approx(said.find("heat.loss-mean", of=of).value * YEAR / 3.6e6, rel=0.01)
    peaks = [f for f in said.findings if f.id == "heat.loss-peak" and f.at["of"] == "wall"]
    assert [f.at.get("method") for f in peaks] == [None, "hours"]
    assert peaks[1].value > 1.1 * peaks[0].value
    assert "Floor and wall together:" in peaks[1].words and "The wall is counted up to" in peaks[1].words
    floor = [f.value for f in said.findings if f.id == "heat.loss-peak" and f.at["of"] == "floor"]
    assert floor[1] / floor[0] < peaks[1].value / peaks[0].value


def test_a_wave_in_hours_gives_wall_and_unheated_neighbour_what_the_months_say(tmp_path):
    """Hours that are the brief's own harmonic, at an edge outdoors and one beside an unheated space."""
    reading = cellar(tmp_path, ("[1, 2, 3]", ""), ("[4]", 'beside = "unheated"'))
    resolved, edges = solved_brief(reading, "as briefed", reading.brief)
    at = (np.arange(8760) + 0.5) / 8760
    wave = resolved.outdoor_mean + (resolved.outdoor_swing * np.exp(2j * pi * at)).real
    settled = settled_year(replace(resolved, outdoor_hours=tuple(wave)), edges)
    for of, chosen in (("floor", floor_faces), ("wall", wall_faces)):
        whole = summed(edges, chosen)
        assert settled.flows[of] == approx(whole.mean + (whole.swing * np.exp(2j * pi * at)).real, rel=1e-5)


def test_an_unheated_space_follows_the_hours_by_its_share_and_typed_air_does_not(tmp_path):
    """One edge all round: what hours add beside an unheated space is four fifths of what they add outdoors."""
    added = {}
    for name, more in (("outdoors", ""), ("unheated", 'beside = "unheated"'), ("typed", 'beside = "10 C"')):
        reading = cellar(tmp_path, ('"all"', more))
        resolved, edges = solved_brief(reading, "as briefed", reading.brief)
        hourly = settled_year(resolved, edges).flows["wall"]
        slow = settled_year(replace(resolved, outdoor_hours=()), edges).flows["wall"]
        added[name] = hourly - slow
        words = next(f for f in findings(resolved, edges) if f.at.get("method") == "hours").words
        assert ("The unheated space beside edge A is taken to follow each hour by 80 %" in words) == (
            name == "unheated"
        )
        assert ("The air beside edge A keeps what is typed for it: no hours are known of it." in words) == (
            name == "typed"
        )
    assert np.abs(added["outdoors"]).max() > 100.0
    assert added["unheated"] == approx(0.8 * added["outdoors"], abs=1e-3 * np.abs(added["outdoors"]).max())
    assert not added["typed"].any()


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
    hourly = answer(by_hours(tmp_path, rows)).as_briefed.find("heat.loss-peak", of="floor", method="hours")
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
    open_year, year_under = settled_year(resolved, edges), settled_year(under, covered)
    spells = [np.linalg.norm(np.fft.rfft(each.floor)[2:12]) for each in (open_year, year_under)]
    assert spells[1] < 0.97 * spells[0]
    own = [next(f for f in year.ground(r, e, y) if f.at["of"] == "open land")
           for r, e, y in ((resolved, edges, open_year), (under, covered, year_under))]  # fmt: skip
    assert np.mean(own[1].months) - np.mean(own[0].months) == approx(3.0, abs=0.02)
    assert np.ptp(own[1].months) == approx(np.ptp(own[0].months) / 2.0, rel=0.001)
