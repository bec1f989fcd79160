"""Heat that ground holds at each temperature, with the water in it that freezes over a range below 0 °C."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from ..domain import Numbers, above_zero, not_below_zero

LEAST_RANGE = 1e-6  # K
FREEZING = 0.0  # degC


@dataclass(frozen=True)
class Freezing:
    """What cells are made of; each an array of one shape. Cells without water that freezes have ``latent`` nought."""

    conductivity: NDArray[np.float64]  # unfrozen, W/(m·K)
    frozen_conductivity: NDArray[np.float64]  # W/(m·K)
    capacity: NDArray[np.float64]  # unfrozen, J/(m³·K)
    frozen_capacity: NDArray[np.float64]  # J/(m³·K)
    latent: NDArray[np.float64]  # of the water that freezes within the range, J/m³
    range: NDArray[np.float64]  # below 0 °C, K

    def heat(self, temperature: NDArray) -> NDArray[np.float64]:
        """Heat held above that at 0 °C, unfrozen. [J/m³]"""
        below = np.minimum(temperature - FREEZING, 0.0)
        ice = np.minimum(-below / self.range, 1.0)
        return (
            self.capacity * np.maximum(temperature - FREEZING, 0.0) + self.frozen_capacity * below - self.latent * ice
        )

    def temperature(self, heat: NDArray) -> NDArray[np.float64]:
        """The inverse of ``heat``. [degC]"""
        whole = self.latent + self.frozen_capacity * self.range
        slushy = heat / (self.latent / self.range + self.frozen_capacity)
        cold = -self.range + (heat + whole) / self.frozen_capacity
        return FREEZING + np.where(heat >= 0.0, heat / self.capacity, np.where(heat > -whole, slushy, cold))

    def slope(self, temperature: NDArray) -> NDArray[np.float64]:
        """Heat for each kelvin there. [J/(m³·K)]"""
        below = temperature < FREEZING
        slush = below & (temperature >= FREEZING - self.range)
        return np.where(below, self.frozen_capacity, self.capacity) + np.where(slush, self.latent / self.range, 0.0)

    def ice(self, temperature: NDArray) -> NDArray[np.float64]:
        """Share of the water that can freeze that is ice; in cells without any, whether they are below 0 °C. [1]"""
        return np.clip((FREEZING - temperature) / self.range, 0.0, 1.0)


def freezing(
    conductivity: Numbers,
    frozen_conductivity: Numbers,
    heat_capacity: Numbers,
    frozen_heat_capacity: Numbers,
    latent: Numbers,
    freezing_range: Numbers,
    unfrozen: Numbers = 0.0,
) -> Freezing:
    """Ground that freezes, from what is known of it.

    Parameters
    ----------
    conductivity, frozen_conductivity : float or ndarray
        [W/(m·K)]
    heat_capacity, frozen_heat_capacity : float or ndarray, broadcast
        By volume. [J/(m³·K)]
    latent : float or ndarray, broadcast
        Of all water in it, by volume; nought for what does not freeze. [J/m³]
    freezing_range : float or ndarray, broadcast
        From 0 °C down, over which the water freezes evenly. [K]
    unfrozen : float or ndarray, broadcast
        Share of the water that is still liquid below that range, bound to fine grains. [1]

    Returns
    -------
    Freezing
        Arrays of the broadcast shape; latent [J/m³] is that of the water that freezes.

    Raises
    ------
    OutOfDomain
        Conductivities, capacities or range not above zero, latent heat below zero, a share outside 0 to 1.

    Source
    ------
    Definition; freezing over an even range: common practice, no source.

    Examples
    --------
    Half of the water freezes within one kelvin: 2e6 J for the kelvin, 50e6 for the ice.

    >>> silt = freezing(1.5, 2.5, 3e6, 2e6, 100e6, 1.0, unfrozen=0.5)
    >>> float(silt.heat(np.array(-1.0))), float(silt.temperature(np.array(-52e6)))
    (-52000000.0, -1.0)
    """
    above_zero(
        conductivity=conductivity,
        frozen_conductivity=frozen_conductivity,
        heat_capacity=heat_capacity,
        frozen_heat_capacity=frozen_heat_capacity,
        freezing_range=freezing_range,
    )
    not_below_zero(latent=latent, unfrozen=unfrozen, frozen_share=1.0 - np.asarray(unfrozen))
    given = (
        conductivity, frozen_conductivity, heat_capacity, frozen_heat_capacity,
        np.asarray(latent) * (1.0 - np.asarray(unfrozen)), np.maximum(freezing_range, LEAST_RANGE),
    )  # fmt: skip
    return Freezing(*(np.array(each, float) for each in np.broadcast_arrays(*given)))
