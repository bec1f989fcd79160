"""The benchmarks measure what they say: work at a stated error, medians turn by turn, one thread. No test is timed."""

from __future__ import annotations

import json
import os
import subprocess
import sys
import time
from itertools import pairwise
from pathlib import Path

import numpy as np
import pytest
import scipy.sparse as sp
from benchmarks import gradient, machine, many, posed, race, steady, table, thickness, where, year
from benchmarks.peers import mesher, triangles
from scipy.sparse.linalg import splu

ROOT = Path(__file__).parents[2]


def offs(row: race.Race) -> dict[str, float]:
    """How far off the reference each way's answer is."""
    ways = [way for way in (row.ours, *row.peers) if way.off and not way.absent]
    return {way.name: abs(way.off(way.work())) for way in ways if way.off}


@pytest.fixture(scope="module")
def mean():
    return steady.race("demo", posed.demo().still, 1e-3, steady.FIRST, tiny=True)


def test_peers_find_the_mean_heat_to_what_is_allowed(mean):
    found = offs(mean)
    assert len(found) >= 4
    assert all(off <= mean.allowed for off in found.values()), found


def test_our_estimate_is_not_below_how_far_off_we_are(mean):
    assert (
        offs(mean)["here"] <= mean.note["estimate"] + mean.note["reference"]["within"] / mean.note["reference"]["value"]
    )


def test_the_plain_slab_loses_what_was_found_elsewhere():
    """Tensor elements of degree 8 with 451 809 unknowns, other code, other grids: 45.10588 W/m to its last digit."""
    case = posed.slab().still
    assert case.solved(1e-4).flow(posed.of_the_room).mean == pytest.approx(45.10588, rel=1e-4)
    grid = triangles.graded_grid(case, 0.01, 0.35)
    assert triangles.on_a_grid(case, grid, triangles.symmetric) == pytest.approx(45.10588, rel=2e-4)


def test_cutting_triangles_where_heat_jumps_brings_the_heat_nearer():
    case = posed.slab().still
    how = triangles.Marked(0.3, 0.7, 0.3, 3)
    heat = [float(s.heat(found, 20.0).real) for s, found in triangles.refined(case, how, triangles.symmetric)]
    away = [each / 45.10588 - 1.0 for each in heat]
    assert all(later < 0.8 * earlier for earlier, later in pairwise(away)), away


@pytest.fixture(scope="module")
def years():
    return {row.key: row for row in year.races(tiny=True)}


def test_steps_and_one_complex_solve_find_the_same_harmonic(years):
    row = years["harmonic-demo"]
    found = offs(row)
    assert found["here"] <= row.allowed
    assert found["scipy, Crank-Nicolson"] <= 2 * row.allowed, "two years from a settled start"


def test_hours_found_through_the_spectrum_are_those_of_each_wave_by_itself(years):
    row = years["hours-all-demo"]
    assert offs(row)["here"] <= row.allowed


def test_every_way_to_the_slopes_finds_them():
    (row,) = gradient.races(tiny=True)
    found = offs(row)
    assert len(found) == 3
    assert all(off <= row.allowed for off in found.values()), found


def test_the_table_is_told_to_what_is_allowed_and_its_bound_holds():
    row = many.table(tiny=True)
    assert row.ours.off(row.ours.work()) <= min(row.allowed, row.note["told_within"])
    assert {way.times for way in row.peers} == {200.0}, "one of 200 was timed"


def test_bounds_of_a_family_lie_above_what_is_missed():
    row, _ = many.of_family("six", many.families.SIX, 1.0, 40, 1.0, tiny=True)
    assert row.note["effectivity"][0] >= 1.0
    assert row.note["bound"] < many.TRUSTED


def test_what_is_drawn_and_what_is_sized_is_found_by_both_ways():
    for row in thickness.races():
        for way in (row.ours, *row.peers):
            assert way.off(way.work()) <= row.allowed, way.name


def test_all_ways_take_turns_and_each_turn_begins_with_another(monkeypatch):
    order: list[str] = []
    seconds = iter([1.0] * 99)
    monkeypatch.setattr(race, "once", lambda work: (work(), next(seconds))[1])
    taken = race.interleaved(
        [lambda: order.append("a"), lambda: order.append("b"), lambda: order.append("c")], 3, [9.0] * 3
    )
    assert "".join(order) == "abc" + "bca" + "cab"
    assert [len(each) for each in taken] == [3, 3, 3]


def test_a_ratio_is_of_two_medians(monkeypatch):
    ours, peer = iter([1.0, 90.0, 1.0]), iter([6.0, 6.0, 700.0])
    monkeypatch.setattr(race, "once", lambda work: next(work()))
    monkeypatch.setattr(race, "SHORT", -1.0)
    monkeypatch.setattr(race, "peak", lambda work: 1.0)
    asked = race.Race(
        "steady", "key", "Title", race.Way("here", "", lambda: ours), (race.Way("peer", "", lambda: peer, goal=6.0),)
    )
    row = race.raced(asked, 3)
    assert row["here"]["seconds"] == [1.0, 90.0, 1.0]
    assert row["peers"][0]["ratio"] == 6.0 and row["peers"][0]["reached"]


def test_a_goal_just_missed_is_said_to_be_missed():
    assert not race.beside({"median": 1.0}, {"median": 19.9}, 20.0)["reached"]
    assert race.beside({"median": 1.0}, {"median": 20.0}, 20.0)["reached"]
    assert race.beside({"median": 1.0}, {"median": 20.0}, None)["reached"] is None


def test_the_cheapest_that_is_near_enough_is_taken_and_the_nearest_where_none_is():
    tried = [("coarse", 10, 0.1), ("good", 20, -0.001), ("finer", 40, 0.0)]
    assert race.cheapest(tried, 0.001) == "good"
    assert race.cheapest(tried[:1], 0.001) == "coarse"


@pytest.mark.skipif(not Path("/proc/self/clear_refs").exists(), reason="the system does not tell it")
def test_peak_memory_is_what_is_asked_for_though_it_is_given_back():
    less, more = (race.peak(lambda n=n: np.ones(n).sum()) for n in (1_000_000, 5_000_000))
    assert more - less == pytest.approx(32.0, abs=1.0)
    assert less < 12.0


@pytest.mark.skipif(not Path("/proc/self/clear_refs").exists(), reason="no child looks there")
def test_memory_of_a_child_that_waits_for_ever_is_not_told(monkeypatch):
    monkeypatch.setattr(race, "LONGEST", 1)
    assert np.isnan(race.peak(lambda: time.sleep(600)))


def test_work_of_a_factorisation_is_counted_from_its_factors():
    """A chain of n: one multiplier, one product and one difference for each but the last."""
    chain = sp.diags_array([np.full(49, -1.0), np.full(50, 4.0), np.full(49, -1.0)], offsets=[-1, 0, 1]).tocsc()
    assert machine.flops(splu(chain, permc_spec="NATURAL")) == 49 * 3


def test_where_time_goes_adds_up():
    shares = where.shares(posed.demo().still, tolerance=1e-2)
    assert sum(shares.values()) == pytest.approx(1.0)
    assert shares[where.MODES] > 0.1, shares


def test_a_mesher_that_is_not_installed_is_said_and_nothing_else_changes(monkeypatch):
    monkeypatch.setattr(mesher, "here", lambda: False)
    way = steady.meshed(posed.demo().still, lambda heat: 0.0, 1e-3, 30.0, True)
    assert way.absent == "not installed here"
    row = race.raced(race.Race("steady", "key", "Title", race.Way("here", "", lambda: None), (way,)), 1)
    assert row["peers"][0]["reached"] is None
    assert "not installed here" in "\n".join(table.of_row(row))


def test_the_command_writes_json_from_one_thread(tmp_path):
    file = tmp_path / "bench.json"
    command = [sys.executable, "-m", "benchmarks", "--tiny", "--only", "process", "-o", str(file)]
    paths = os.pathsep.join([str(ROOT / "src"), os.environ.get("PYTHONPATH", "")])
    done = subprocess.run(
        command, cwd=ROOT, capture_output=True, text=True, env=dict(os.environ, PYTHONPATH=paths), check=True
    )
    told = json.loads(file.read_text("utf-8"))
    assert told["machine"]["threads"] in (1, None)
    assert 0.0 < told["machine"]["factor"]["share"] < 1.0
    assert "Whole processes" in done.stdout and "GFLOP/s" in done.stdout
    (row,) = told["rows"]
    assert row["here"]["memory"] > row["peers"][0]["memory"] * 0.9


def test_a_whole_process_that_breaks_is_not_timed():
    from benchmarks.process import Process

    with pytest.raises(RuntimeError, match="ended with 3"):
        Process("-c", "raise SystemExit(3)")()
