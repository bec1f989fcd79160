"""What a slab feels of the loads on it at its worst places: endless by exact patches, with edges by elements."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from functools import lru_cache

import numpy as np
from numpy.typing import NDArray

from . import loads as on_plates
from .lines import lines_of
from .patches import Under, anywhere
from .plate import Plate, plate
from .slab import Pressed, Region, Ring, Slab, inside
from .springs import plate_stiffness, radius_of_relative_stiffness
from .westergaard import even_radius

REACH = 6.0  # radii of relative stiffness: so far off nothing of a load is left
AROUND = (0.75, 1.5, 2.5)  # radii round a patch, where the top is looked at
COARSE = 40  # cells across a large floor, at most, away from what is loaded
SOONEST = 0.1  # radii: width of the cells beside free edges
AT_EDGES = 0.02  # share by which a result beside edges may be off, tried in tests/exact/test_plates_by_elements.py
EXACT = 1e-3  # share by which a sum over patches may be off


@dataclass(frozen=True)
class Felt:
    """The worst that the slab and what lies below it feel of a load."""

    pressure: float  # Pa on what lies below, from the load alone
    below: float  # Pa, largest tension at the underside
    above: float  # Pa, largest tension at the top
    settlement: float  # m, of the load alone
    within: float  # share by which they may be off


@lru_cache(maxsize=256)
def endless(loads: tuple[Pressed, ...], thickness: float, modulus: float, poisson: float, foundation: float) -> Felt:
    """What a slab without edges feels of patches of load.

    Parameters
    ----------
    loads : tuple of Pressed
        [m, Pa]
    thickness : float
        Of the slab. [m]
    modulus : float
        Young's modulus of the concrete. [Pa]
    poisson : float
        [1]
    foundation : float
        k of what lies below. [N/m³]

    Returns
    -------
    Felt
        Worst below the middle of a patch, and at the top around them. [Pa, m]

    Raises
    ------
    OutOfDomain
        As ``patches.patch``.

    Source
    ------
    ``patches.anywhere``, summed over the loads.

    Examples
    --------
    A load far wider than the radius of relative stiffness goes straight through.

    >>> wide = Pressed(((-40.0, -40.0), (40.0, -40.0), (40.0, 40.0), (-40.0, 40.0)), 100.0)
    >>> felt = endless((wide,), 0.15, 3e10, 0.2, 3e7)
    >>> round(felt.pressure), round(felt.below)
    (100, 0)
    """
    stiffness = plate_stiffness(modulus, thickness, poisson)
    radius = radius_of_relative_stiffness(stiffness, foundation)
    middles = np.array([load.middle for load in loads])
    turn = np.pi / 4.0 * np.arange(8)
    ring = np.stack([np.cos(turn), np.sin(turn)], -1)
    half = np.array([np.ptp(np.asarray(load.outline), axis=0).min() / 2.0 for load in loads])
    round_about = [(middles[:, None] + (half[:, None, None] + far * radius) * ring).reshape(-1, 2) for far in AROUND]
    places = np.concatenate([middles, *round_about])
    summed = _summed([anywhere(load.pressure, load.outline, radius, foundation, poisson, places) for load in loads])
    middle = (summed.moment_x + summed.moment_y) / 2.0
    turned = np.hypot((summed.moment_x - summed.moment_y) / 2.0, summed.moment_xy)
    settled = float(summed.settlement.max())
    return Felt(
        pressure=foundation * settled,
        below=max(6.0 * float((middle + turned).max()) / thickness**2, 0.0),
        above=max(-6.0 * float((middle - turned).min()) / thickness**2, 0.0),
        settlement=settled,
        within=EXACT,
    )


def _summed(parts: Sequence[Under]) -> Under:
    return Under(
        *(
            np.sum([getattr(part, name) for part in parts], axis=0)
            for name in ("settlement", "moment_x", "moment_y", "moment_xy")
        )
    )


@lru_cache(maxsize=256)
def with_edges(slab: Slab, loads: tuple[Pressed, ...], weight: float) -> Felt:
    """What a slab with edges feels of patches of load; where it would lift off what lies below, that lets go.

    Parameters
    ----------
    slab : Slab
        Its outline and everything else as tuples. [m, Pa, N/m³]
    loads : tuple of Pressed
        Every one within the outline. [m, Pa]
    weight : float
        Own weight of the slab where it has its usual thickness. [Pa]

    Returns
    -------
    Felt
        Worst within four radii of relative stiffness of the loads. [Pa, m]

    Raises
    ------
    OutOfDomain
        A load hangs over.
    StillLifting
        The loads turn the slab over.

    Source
    ------
    ``plate.plate``.

    Examples
    --------
    Far from its edges a slab feels what an endless one feels.

    >>> post = Pressed(((-0.1, -0.1), (0.1, -0.1), (0.1, 0.1), (-0.1, 0.1)), 1e6)
    >>> slab = Slab(((-4.0, -4.0), (4.0, -4.0), (4.0, 4.0), (-4.0, 4.0)), 0.15, 3e10, 0.2, 3e7)
    >>> edged, whole = with_edges(slab, (post,), 3600.0), endless((post,), 0.15, 3e10, 0.2, 3e7)
    >>> abs(edged.pressure / whole.pressure - 1.0) < 0.01, abs(edged.below / whole.below - 1.0) < 0.02
    (True, True)
    """
    made, at_rest, found = loaded(slab, loads, weight)
    x, y = _looked_at(slab, loads, radius_of(slab))
    both, before = made.answered(found, x, y), made.answered(at_rest, x, y)
    return Felt(
        pressure=float((both.pressure - before.pressure).max()),
        below=max(float(both.tension_below.max()), 0.0),
        above=max(float(both.tension_above.max()), 0.0),
        settlement=float((both.settlement - before.settlement).max()),
        within=AT_EDGES,
    )


def radius_of(slab: Slab) -> float:
    """Radius of relative stiffness of a slab where it has its usual thickness and lies on what it usually lies on.

    Parameters
    ----------
    slab : Slab
        [m, Pa, N/m³]

    Returns
    -------
    float
        [m]

    Source
    ------
    ``springs.radius_of_relative_stiffness``.

    Examples
    --------
    >>> round(radius_of(Slab(((0.0, 0.0), (1.0, 0.0), (0.0, 1.0)), 0.15, 3e10, 0.2, 3e7)), 3)
    0.736
    """
    stiffness = plate_stiffness(slab.modulus, slab.thickness, slab.poisson)
    return float(radius_of_relative_stiffness(stiffness, slab.foundation))


def loaded(
    slab: Slab, loads: Sequence[Pressed], weight: float
) -> tuple[Plate, NDArray[np.float64], NDArray[np.float64]]:
    """The plate by elements, cut finely beside free edges and loads, at rest and with the loads on it.

    Parameters
    ----------
    slab : Slab
        [m, Pa, N/m³]
    loads : sequence of Pressed
        Every one within the outline. [m, Pa]
    weight : float
        Own weight of the slab where it has its usual thickness. [Pa]

    Returns
    -------
    Plate, two ndarrays
        Its unknowns under its own weight, and under the loads as well. [m]

    Raises
    ------
    OutOfDomain
        A load hangs over.
    StillLifting
        The loads turn the slab over.

    Source
    ------
    ``plate.plate``.

    Examples
    --------
    See ``with_edges``.
    """
    radius = radius_of(slab)
    extent = float(np.ptp(np.asarray(slab.outline), axis=0).max())
    lines = lines_of(slab, max(radius, extent / COARSE), at_edges=SOONEST * radius, beside=loads)
    made = plate(slab, *lines)
    own = made.weight(weight / (slab.thickness * 9.80665))
    brought = np.sum([on_plates.pressed(made, load) for load in loads], axis=0)
    at_rest = made.found(own)
    found = made.found(own + brought)
    if any((places.at(found) < 0.0).any() for places in made.places):
        found, _ = made.lifting(own + brought)
    return made, at_rest, found


def _looked_at(slab: Slab, loads: Sequence[Pressed], radius: float) -> tuple[NDArray[np.float64], NDArray[np.float64]]:
    """Places on the slab about the loads: below each of them, at its sides, and out to four radii."""
    steps = radius * np.array([0.0, 0.02, 0.05, 0.1, 0.2, 0.35, 0.5, 0.75, 1.0, 1.25, 1.5, 2.0, 2.5, 3.0, 4.0])
    found = []
    for load in loads:
        corners = np.asarray(load.outline, float)
        low, high = corners.min(axis=0), corners.max(axis=0)
        across, up = (
            np.concatenate([low[n] - steps[:0:-1], np.linspace(low[n], high[n], 9), high[n] + steps[1:]])
            for n in (0, 1)
        )
        grid_x, grid_y = np.meshgrid(across, up)
        found.append(np.stack([grid_x.ravel(), grid_y.ravel()], -1))
    places = np.concatenate(found)
    outline = np.asarray(slab.outline, float)
    places = np.clip(places, outline.min(axis=0), outline.max(axis=0))
    kept = inside([slab.outline, *slab.holes], *(places * (1.0 - 1e-9) + 1e-9 * outline.mean(axis=0)).T)
    for corner in (corner for region in slab.thickened for corner in region.outline):
        # A plate has no bound in a step's corner; a poured one slopes, and within a thickness it is no plate.
        kept &= np.hypot(*(places - np.asarray(corner)).T) >= slab.thickness
    return places[kept, 0], places[kept, 1]


def edge_strip(length: float, depth: float, thickening: float, width: float) -> tuple[Ring, tuple[Region, ...]]:
    """A piece of slab beside a straight edge, which is the line y = 0, and the strip by which it is thicker there.

    Parameters
    ----------
    length, depth : float
        Along the edge, from the middle to each side, and in from it. [m]
    thickening : float
        Thickness of the slab at the edge; nought where it is not thicker there. [m]
    width : float
        How far in. [m]

    Returns
    -------
    outline, tuple of Region
        [m]

    Source
    ------
    Definition.

    Examples
    --------
    >>> edge_strip(2.0, 3.0, 0.0, 0.0)
    (((-2.0, 0.0), (2.0, 0.0), (2.0, 3.0), (-2.0, 3.0)), ())
    """
    outline = ((-length, 0.0), (length, 0.0), (length, depth), (-length, depth))
    if thickening == 0.0:
        return outline, ()
    strip = ((-length, 0.0), (length, 0.0), (length, width), (-length, width))
    return outline, (Region(strip, thickening),)


def as_wide_as_felt(load: Pressed, thickness: float) -> Pressed:
    """A small patch as wide as the slab's own thickness spreads it, with the same force; a wide one as it is.

    Parameters
    ----------
    load : Pressed
        [m, Pa]
    thickness : float
        Of the slab. [m]

    Returns
    -------
    Pressed
        [m, Pa]

    Source
    ------
    Westergaard's even radius (``westergaard.even_radius``), where it is larger than that of the patch.

    Examples
    --------
    >>> small = Pressed(((0.0, 0.0), (0.01, 0.0), (0.01, 0.01), (0.0, 0.01)), 1e7)
    >>> round(as_wide_as_felt(small, 0.15).area ** 0.5, 3), round(as_wide_as_felt(small, 0.15).force, 6)
    (0.087, 1000.0)
    """
    contact = (load.area / np.pi) ** 0.5
    grown = float(even_radius(contact, thickness)) / contact
    if grown <= 1.0:
        return load
    x, y = load.middle
    ring = tuple((x + grown * (px - x), y + grown * (py - y)) for px, py in load.outline)
    return Pressed(ring, load.pressure / grown**2)
