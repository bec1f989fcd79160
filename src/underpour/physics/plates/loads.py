"""What stands on the slab, as loads on the plate's unknowns: pressures on any outline, curling."""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

from ..domain import OutOfDomain
from .cells import parts_of_cells
from .hermite import gauss, shapes, sizes
from .plate import Plate, points_of
from .slab import Pressed
from .springs import plate_stiffness

OUT_OF_THE_SLAB = 1e-6  # share of a load that may hang over by rounding


def pressed(plate: Plate, load: Pressed) -> NDArray[np.float64]:
    """Loads of an even pressure on a part of the slab.

    Parameters
    ----------
    plate : Plate
        [m]
    load : Pressed
        [m, Pa]

    Returns
    -------
    ndarray, shape (unknowns,)
        [N]

    Raises
    ------
    OutOfDomain
        A part of the outline lies outside of the slab.

    Source
    ------
    The pressure's work on each shape, exact for straight outlines.

    Examples
    --------
    See ``plate.plate``.
    """
    cells, found = plate.cells, np.zeros(plate.unknowns)
    if (upright := _upright(plate, load)) is not None:
        return upright
    there, borne = cells.there, 0.0
    for ix, iy, places in parts_of_cells([load.outline], cells.x, cells.y):
        if there[ix, iy]:
            found += _at_places(plate, ix, iy, places[:, 0], places[:, 1], load.pressure * places[:, 2])
            borne += float(places[:, 2].sum())
    if borne < load.area * (1.0 - OUT_OF_THE_SLAB):
        raise OutOfDomain(f"a load of {load.area:.4g} m² stands on the slab with {borne:.4g} m² only")
    return found


def even(plate: Plate, pressure: float) -> NDArray[np.float64]:
    """Loads of an even pressure all over the slab.

    Parameters
    ----------
    plate : Plate
        [m]
    pressure : float
        [Pa]

    Returns
    -------
    ndarray, shape (unknowns,)
        [N]

    Source
    ------
    Definition.

    Examples
    --------
    As the slab's own weight, where it is as thick everywhere; see ``plate.plate``.
    """
    return np.sum([places.load(pressure * places.weight, plate.unknowns) for places in plate.places], axis=0)


def curled(plate: Plate, curvature: float) -> NDArray[np.float64]:
    """Loads of a slab that would bend by itself, its top shorter than its underside: edges rise.

    Parameters
    ----------
    plate : Plate
        [m]
    curvature : float
        That a free strip would take: difference of strain between underside and top over the thickness. [1/m]

    Returns
    -------
    ndarray, shape (unknowns,)
        Its moments are ``answered`` less D (1 + ν) times the curvature. [N]

    Source
    ------
    Kirchhoff's plate with an initial curvature, the same in all directions.

    Examples
    --------
    See tests/exact/test_plates_by_elements.py.
    """
    found = np.zeros(plate.unknowns)
    slab, nu = plate.slab, plate.slab.poisson
    for places in plate.places:
        bent = places.bent(plate.cells)
        stiffness = plate_stiffness(slab.modulus, slab.thickness_at(places.x, places.y), nu)
        pull = -stiffness * (1.0 + nu) * curvature * places.weight
        values = np.einsum("cq,cqi->ci", pull, bent) * places.scale
        found += np.bincount(places.points.ravel(), values.ravel(), plate.unknowns)
    return found


def _upright(plate: Plate, load: Pressed) -> NDArray[np.float64] | None:
    """Loads of a rectangle along x and y on whole cells, as products; None of any other."""
    corners = np.asarray(load.outline, float)
    (x0, y0), (x1, y1) = corners.min(axis=0), corners.max(axis=0)
    cells = plate.cells
    if len(corners) != 4 or abs(load.area - (x1 - x0) * (y1 - y0)) > OUT_OF_THE_SLAB * load.area:
        return None
    if x0 < cells.x[0] or x1 > cells.x[-1] or y0 < cells.y[0] or y1 > cells.y[-1]:
        return None
    values, chosen = [], []
    at, weight = gauss()
    for lines, low, high in ((cells.x, x0, x1), (cells.y, y0, y1)):
        first, last = int(np.searchsorted(lines, low, side="right")) - 1, int(np.searchsorted(lines, high, side="left"))
        here = np.arange(first, max(last, first + 1))
        step = np.diff(lines)[here]
        start, end = np.maximum(lines[here], low), np.minimum(lines[here + 1], high)
        place = (start[:, None] + (end - start)[:, None] * at - lines[here][:, None]) / step[:, None]
        values.append(np.einsum("q,nqi,n->ni", weight, shapes(place, 0), end - start) * sizes(step, plate.unit))
        chosen.append(here)
    ix, iy = (each.ravel() for each in np.meshgrid(*chosen, indexing="ij"))
    if not cells.whole[ix, iy].all():
        return None
    both = load.pressure * np.einsum("ni,mj->nmij", *values).reshape(-1, 16)
    return np.asarray(np.bincount(points_of(plate, ix, iy).ravel(), both.ravel(), plate.unknowns), np.float64)


def _at_places(plate: Plate, ix: int, iy: int, x: NDArray, y: NDArray, force: NDArray) -> NDArray[np.float64]:
    cells = plate.cells
    wide, high = cells.x[ix + 1] - cells.x[ix], cells.y[iy + 1] - cells.y[iy]
    across = shapes((x - cells.x[ix]) / wide, 0) * sizes(np.array([wide]), plate.unit)
    up = shapes((y - cells.y[iy]) / high, 0) * sizes(np.array([high]), plate.unit)
    values = np.einsum("q,qi,qj->ij", force, across, up).ravel()
    points = points_of(plate, np.array([ix]), np.array([iy]))[0]
    return np.asarray(np.bincount(points, values, plate.unknowns), np.float64)
