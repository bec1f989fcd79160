"""Slabs of briefs with round edges and with ribs, against closed forms by Kelvin's functions and by waves that decay.

Neither knows cells or elements: a round slab is solved ring by ring along its radius, a long rib across its length.
"""

from __future__ import annotations

from functools import cache
from itertools import pairwise

import numpy as np
import pytest
from scipy.special import iv, kv

from underpour.brief import reads
from underpour.checks.bearing import WholeFloor, pictured_together
from underpour.checks.bearing.bed import bed
from underpour.physics.plates import concrete, springs
from underpour.resolve import Resolved, resolve

POISSON, SLAB, DEEP = 0.15, 0.15, 0.35
HEAD = """\
[project]
use = "dwelling"
units = "SI"

[site]
place = "Duluth, MN"
ground = "sand-or-gravel"
subgrade-modulus = "40 MN/m³"
soil-bearing = "150 kPa"
base = "compacted"

[plan]
outline = [{outline}]
unit = "m"

[floor]
inside = "20 C"
humidity = "40 %"
concrete-class = "C25/30"
build-up = [{{ concrete = "150 mm" }}, {{ board = "plain-40", thickness = "4 in" }}, {{ gravel = "150 mm" }}]
{floor}
[[edge]]
sides = "all"
"""
ROUND = (
    HEAD.format(outline='"4 0 rise 4", "-4 0 rise 4"', floor="")
    + """\
kind = "thickened-edge"
depth = "350 mm"
ground = "-150 mm"
thickening = { width = "600 mm" }
above = [{ timber-frame = "200 mm" }]
insulation = [{ board = "plain-40", thickness = "4 in", face = "below-footing" }]

[[load]]
kind = "wall"
at = "edge A"
force = "15 kN/m"

[[load]]
kind = "post"
force = "0.1 kN"
plate = "200 mm"
at = "0.1 0.2"
how-long = "standing"
"""
)
RIBBED = (
    HEAD.format(
        outline='"0 0", "24 0", "24 6", "0 6"',
        floor='\n[[floor.rib]]\nfrom = "0 3"\nto = "24 3"\nwidth = "600 mm"\nthickness = "350 mm"\nlies-on = "{on}"\n',
    )
    + """\
kind = "frost-wall"
depth = "1.5 m"
ground = "-150 mm"
gap = "12 mm"

[[load]]
kind = "line"
force = "20 kN/m"
plate = "200 mm"
from = "0 3"
to = "24 3"
how-long = "standing"
"""
)


@cache
def answered(text: str) -> tuple[Resolved, WholeFloor]:
    resolved = resolve(reads(text).brief)
    found = pictured_together(resolved)
    assert found is not None
    return resolved, found


def soft(resolved: Resolved) -> float:
    assert resolved.support is not None
    return bed(resolved.support, standing=True).soft


def stiffness(resolved: Resolved, thickness: float) -> float:
    assert resolved.support is not None
    modulus = float(concrete.elasticity_aci(resolved.support.concrete.strength))
    return float(springs.plate_stiffness(modulus, thickness, POISSON))


class Zone:
    """A ring or a strip with one stiffness, one bed and one pressure: four waves and q / k."""

    def __init__(self, ends: tuple[float, float], d: float, k: float, q: float, curved: bool) -> None:
        self.ends, self.d, self.k, self.q, self.curved = ends, d, k, q, curved
        self.z = np.exp(0.25j * np.pi) * (k / d) ** 0.25

    def at(self, r: float) -> np.ndarray:
        """Settlement, slope, moment and shear of each of its waves, (4, waves)."""
        z, x = self.z, self.z * r
        if self.curved:
            rising, falling = iv(0, x), (kv(0, x) if r else np.inf)
            slopes = z * iv(1, x), -z * kv(1, x)
        else:
            near, far = self.ends
            rising, falling = np.exp(z * (r - far)), np.exp(-z * (r - near))
            slopes = z * rising, -z * falling
        waves = []
        for w, slope in ((rising, slopes[0]), (falling, slopes[1])):
            over = (1.0 - POISSON) * slope / r if self.curved and r else 0.0
            for part in (1.0, 1.0j):
                column = w, slope, -self.d * (z**2 * w - over), -self.d * z**2 * slope
                waves.append([(part * each).real for each in column])
        return np.array(waves).T


def solved(zones: list[Zone], middle: str) -> list[np.ndarray]:
    """What each wave of each zone is, so that zones go on into one another and the last one ends free."""
    count, rows, right = 4 * len(zones), [], []

    def ask(*parts: tuple[int, np.ndarray], value: float = 0.0) -> None:
        row = np.zeros(count)
        for n, values in parts:
            row[4 * n : 4 * n + 4] += values
        rows.append(row)
        right.append(value)

    if middle == "disc":  # the two waves without bound in the middle are not there
        for wave in (2, 3):
            ask((0, np.eye(4)[wave]))
    else:  # a line of symmetry
        first = zones[0].at(zones[0].ends[0])
        ask((0, first[1]))
        ask((0, first[3]))
    for n, (one, other) in enumerate(pairwise(zones)):
        here, there = one.at(one.ends[1]), other.at(other.ends[0])
        steps = (other.q / other.k - one.q / one.k, 0.0, 0.0, 0.0)
        for which, step in enumerate(steps):
            ask((n, here[which]), (n + 1, -there[which]), value=step)
    last = zones[-1].at(zones[-1].ends[1])
    ask((len(zones) - 1, last[2]))
    ask((len(zones) - 1, last[3]))
    scale = np.abs(rows).max(axis=1)
    found = np.linalg.solve(np.array(rows) / scale[:, None], np.array(right) / scale)
    return [found[4 * n : 4 * n + 4] for n in range(len(zones))]


def settlement(zones: list[Zone], middle: str, places: np.ndarray) -> np.ndarray:
    waves = solved(zones, middle)
    down = []
    for r in places:
        n = next(n for n, zone in enumerate(zones) if r <= zone.ends[1] + 1e-9)
        values = zones[n].at(float(r))[0]
        known = np.isfinite(values)
        down.append(float(values[known] @ waves[n][known]) + zones[n].q / zones[n].k)
    return np.array(down)


def test_a_round_slab_with_a_wall_on_its_thickened_edge_does_what_kelvin_s_functions_say() -> None:
    """Radius 4.2 m to the wall's outer face, 0.6 m of it 350 mm deep, 15 kN/m on 200 mm; 1 % of the rim's."""
    resolved, floor = answered(ROUND)
    k = soft(resolved)
    below = next(part for part in _parts(resolved) if part.words.startswith("the thickened edge"))
    under = bed(below.support, standing=True).soft
    thin, deep = stiffness(resolved, SLAB), stiffness(resolved, DEEP)
    pressure = 15e3 * 2.0 * np.pi * 4.0 / (np.pi * (4.2**2 - 4.0**2))
    zones = [
        Zone((1e-9, 3.6), thin, k, 0.0, True),
        Zone((3.6, 4.0), deep, under, 0.0, True),
        Zone((4.0, 4.2), deep, under, pressure, True),
    ]
    radii = np.array([1.0, 2.0, 3.0, 3.5, 3.9, 4.15])
    expected = settlement(zones, "disc", radii)
    for turn in (0.3, 1.1, 2.5, 4.4):
        ours = _at(floor, radii * np.cos(turn), radii * np.sin(turn))
        assert ours == pytest.approx(expected, abs=0.01 * expected.max())


@pytest.mark.parametrize("on", ["foam", "ground"])
def test_a_long_rib_below_a_wall_does_what_waves_across_it_say(on: str) -> None:
    """A slab of 24 m by 6 m, a rib along its middle, 20 kN/m on 200 mm: the cut across its middle to 2 %."""
    resolved, floor = answered(RIBBED.replace("{on}", on))
    k, (rib,) = soft(resolved), resolved.ribs
    under = bed(rib.support, standing=True).soft
    assert (under > 1.2 * k) == (on == "ground")
    thin, deep = stiffness(resolved, SLAB), stiffness(resolved, DEEP)
    zones = [
        Zone((0.0, 0.1), deep, under, 20e3 / 0.2, False),
        Zone((0.1, 0.3), deep, under, 0.0, False),
        Zone((0.3, 3.0), thin, k, 0.0, False),
    ]
    off = np.array([0.0, 0.2, 0.5, 1.0, 1.5, 2.5])
    expected = settlement(zones, "line", off)
    assert _at(floor, np.full(6, 12.0), 3.0 + off) == pytest.approx(expected, abs=0.02 * expected.max())
    without = answered(RIBBED.replace("{on}", on).replace('thickness = "350 mm"', 'thickness = "151 mm"'))[1]
    assert _at(without, np.array([12.0]), np.array([3.0]))[0] > 1.05 * expected[0]


def test_a_wall_on_an_arc_brings_all_of_its_force() -> None:
    resolved, floor = answered(ROUND)
    (wall,) = (each for each in _placed(resolved) if each.words == "the wall at edge A")
    assert sum(each.force for each in wall.pressed) == pytest.approx(15e3 * 2.0 * np.pi * 4.0, rel=2e-3)  # by chords
    assert {each.number for each in floor.placed} == {"A", "2"}


def _parts(resolved: Resolved):
    from underpour.checks.bearing.plan import parts

    assert resolved.support is not None
    return parts(resolved, resolved.support)


def _placed(resolved: Resolved):
    from underpour.checks.bearing.plan import placed

    return placed(resolved)


def _at(floor: WholeFloor, x: np.ndarray, y: np.ndarray) -> np.ndarray:
    """Settlement of the picture's field at places, straight between its lines."""
    field = floor.soft
    found = []
    for px, py in zip(x, y, strict=True):
        i = int(np.clip(np.searchsorted(field.x, px) - 1, 0, len(field.x) - 2))
        j = int(np.clip(np.searchsorted(field.y, py) - 1, 0, len(field.y) - 2))
        u = (px - field.x[i]) / (field.x[i + 1] - field.x[i])
        v = (py - field.y[j]) / (field.y[j + 1] - field.y[j])
        w = field.settlement[j : j + 2, i : i + 2].astype(float)
        weights = np.outer([1.0 - v, v], [1.0 - u, u])
        known = np.isfinite(w)
        found.append(float((w[known] * weights[known]).sum() / weights[known].sum()))
    return np.array(found)
