"""Temperatures of a section through the year, kept on a grid fine enough to draw."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray


def moment(mean: NDArray, swing: NDArray, year_fraction: float) -> NDArray:
    """Value at a moment of the year of something that swings once a year.

    Parameters
    ----------
    mean : ndarray of float, any shape
        Mean of the year. [degC or W/m]
    swing : ndarray of complex, shape of ``mean``
        Complex amplitude: the value is mean + Re(swing exp(2 pi i f)). [K or W/m]
    year_fraction : float
        f, 0 at the start of January, 1 at the end of December. [1]

    Returns
    -------
    ndarray, shape of ``mean``
        [unit of ``mean``]

    Source
    ------
    Definition.

    Examples
    --------
    >>> float(moment(np.array(8.0), np.array(-16.0 + 0j), 0.0))
    -8.0
    """
    return mean + np.real(swing * np.exp(2j * np.pi * year_fraction))


@dataclass(frozen=True)
class Field:
    """Mean and swing of the temperature on the lines x, y (NaN in air), and along the floor."""

    x: NDArray[np.float32]  # (nx,) m
    y: NDArray[np.float32]  # (ny,) m, rising
    mean: NDArray[np.float32]  # (ny, nx) degC
    swing: NDArray[np.complex64]  # (ny, nx) K
    floor_x: NDArray[np.float32]  # (nf,) m, from the wall into the room
    floor_mean: NDArray[np.float32]  # (nf,) degC
    floor_swing: NDArray[np.complex64]  # (nf,) K
    airs: tuple[tuple[str, float, complex], ...] = ()  # where (room, outdoors), mean degC, swing K: named in pictures

    def at(self, year_fraction: float) -> NDArray[np.float64]:
        """Temperatures (ny, nx) at a moment of the year. [degC]"""
        return moment(self.mean.astype(float), self.swing.astype(complex), year_fraction)

    def floor_at(self, year_fraction: float) -> NDArray[np.float64]:
        """Temperatures (nf,) of the floor's surface at a moment of the year. [degC]"""
        return moment(self.floor_mean.astype(float), self.floor_swing.astype(complex), year_fraction)
