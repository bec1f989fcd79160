"""Monthly air temperature anywhere on land: two packed grids, opened when a position is asked for."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cache
from typing import TYPE_CHECKING, Any

from .read import FOLDER

if TYPE_CHECKING:
    import numpy as np
    from numpy.typing import NDArray

FINE, WORLD = "air_quarter_degree.npz", "air_half_degree_world.npz"


@dataclass(frozen=True, slots=True)
class Grid:
    """A grid of positions, south to north and west to east."""

    air: NDArray[np.int16]  # (12, rows, columns), monthly means, 0.1 degC
    height: NDArray[np.float64]  # (rows, columns), terrain, m above the sea
    own: NDArray[np.bool_] | None  # (rows, columns), has values of its own; None where all have
    south: float  # latitude of the first row, degrees
    west: float  # longitude of the first column, degrees
    step: float  # degrees

    @property
    def around(self) -> bool:
        """Whether the columns close around the earth."""
        return bool(self.air.shape[2] * self.step > 359.9)

    def reaches(self, latitude: float, longitude: float) -> bool:
        rows, columns = self.height.shape
        north, east = self.south + (rows - 1) * self.step, self.west + (columns - 1) * self.step
        return self.south <= latitude <= north and (self.around or self.west <= longitude <= east)


@dataclass(frozen=True, slots=True)
class Reading:
    """What a grid says of a position, at the height of its own terrain."""

    months: tuple[float, ...]  # degC
    height: float  # m above the sea
    rough: float  # largest difference of height between the four points around, m


@cache
def grid(name: str) -> Grid:
    """The grid of that file, unpacked. Packing: CREDITS.md."""
    import numpy as np

    with np.load(FOLDER / "climate" / name) as packed:
        both = (packed["t_hi"].astype(np.uint16) << 8) | packed["t_lo"]
        along_months = np.cumsum(both.view(np.int16), axis=0, dtype=np.int16)
        height = 10.0 * np.cumsum(packed["z_delta"], axis=1, dtype=np.float64)
        own = np.unpackbits(packed["land"])[: height.size].reshape(height.shape) > 0 if "land" in packed else None
        return Grid(
            air=np.cumsum(along_months, axis=2, dtype=np.int16),
            height=height,
            own=own,
            south=float(packed["lat0"]),
            west=float(packed["lon0"]),
            step=float(packed["step"]),
        )


def reading(latitude: float, longitude: float) -> Reading | None:
    """What the finer grid that reaches there says, or the world's; None in the open sea and where none reaches.

    Parameters
    ----------
    latitude, longitude : float
        Degrees north and east; the longitude from -180 to 180. [degrees]
    """
    world = grid(WORLD)
    if not world.reaches(latitude, longitude) or _open_sea(world, latitude, longitude):
        return None
    fine = grid(FINE)
    chosen = fine if fine.reaches(latitude, longitude) else world
    rows, columns, weights = _around(chosen, latitude, longitude)
    air, height = chosen.air[:, rows, columns], chosen.height[rows, columns]
    return Reading(
        months=tuple(float(value) for value in 0.1 * (air @ weights)),
        height=float(height @ weights),
        rough=float(height.max() - height.min()),
    )


def _around(of: Grid, latitude: float, longitude: float) -> tuple[Any, Any, Any]:
    """Rows, columns and bilinear weights of the four points around a position."""
    import numpy as np

    row, north = _cell((latitude - of.south) / of.step, of.height.shape[0], False)
    column, east = _cell((longitude - of.west) / of.step, of.height.shape[1], of.around)
    rows = np.array([row, row, row + 1, row + 1])
    columns = np.array([column, column + 1, column, column + 1]) % of.height.shape[1]
    weights = np.array([(1.0 - north) * (1.0 - east), (1.0 - north) * east, north * (1.0 - east), north * east])
    return rows, columns, weights


def _cell(place: float, count: int, around: bool) -> tuple[int, float]:
    """Number of the cell and the part of it that lies behind; the last point belongs to the last cell."""
    first = int(place // 1.0) if around else min(int(place // 1.0), count - 2)
    return first, place - first


def _open_sea(world: Grid, latitude: float, longitude: float) -> bool:
    """Whether none of the sixteen points around has values of its own."""
    import numpy as np

    assert world.own is not None
    row, _ = _cell((latitude - world.south) / world.step, world.own.shape[0], False)
    column, _ = _cell((longitude - world.west) / world.step, world.own.shape[1], True)
    rows = np.clip(np.arange(row - 1, row + 3), 0, world.own.shape[0] - 1)
    columns = np.arange(column - 1, column + 3) % world.own.shape[1]
    return not bool(world.own[np.ix_(rows, columns)].any())
