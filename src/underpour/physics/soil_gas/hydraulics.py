"""How hard it is for air to pass along stone or under a channelled panel, by Darcy with Forchheimer's term."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from ..domain import Numbers, OutOfDomain, above_zero, not_below_zero, plain

AIR_DENSITY = 1.204  # kg/m³ at 20 °C and sea level
AIR_VISCOSITY = 1.81e-5  # Pa·s at 20 °C
ERGUN_VISCOUS, ERGUN_INERTIAL = 150.0, 1.75


@dataclass(frozen=True)
class Hydraulics:
    """Fall of pressure along a layer: viscous · q + inertial · q², q the flow for each metre of width."""

    viscous: float  # Pa·s/m³
    inertial: float  # Pa·s²/m⁵

    def __post_init__(self) -> None:
        above_zero(viscous=self.viscous)
        not_below_zero(inertial=self.inertial)

    def fall(self, flow: Numbers) -> Numbers:
        """Fall of pressure along the layer [Pa/m] at a flow for each metre of width. [m²/s]

        >>> Hydraulics(2.0, 3.0).fall(2.0)
        16.0
        """
        return self.viscous * flow + self.inertial * flow * abs(flow)

    def flow(self, fall: Numbers) -> Numbers:
        """Flow for each metre of width [m²/s] at a fall of pressure. [Pa/m]

        >>> Hydraulics(2.0, 3.0).flow(16.0)
        2.0
        """
        steep = abs(fall)
        return plain(2.0 * fall / (self.viscous + np.sqrt(self.viscous**2 + 4.0 * self.inertial * steep)))

    def transmissivity(self, flow: Numbers) -> Numbers:
        """Flow for each metre of width over the fall that drives it, at that flow. [m³/(s·Pa)]

        >>> Hydraulics(2.0, 3.0).transmissivity(2.0)
        0.125
        """
        return 1.0 / (self.viscous + self.inertial * abs(flow))


def ergun(grain: Numbers, porosity: Numbers, sphericity: Numbers = 1.0) -> tuple[Numbers, Numbers]:
    """Permeability and inertial coefficient of a bed of grains.

    Parameters
    ----------
    grain : float or ndarray
        Diameter of a grain. [m]
    porosity : float or ndarray
        Share of the bed that is air, above nought and below one. [1]
    sphericity : float or ndarray
        Of angular stone below one. [1]

    Returns
    -------
    tuple of two, permeability and inertial coefficient
        [m²] and [1/m]

    Raises
    ------
    OutOfDomain
        A grain without size, or a porosity that is no share.

    Source
    ------
    Ergun 1952, 150 and 1.75 (from memory).

    Examples
    --------
    >>> permeability, inertia = ergun(grain=0.01, porosity=0.5)
    >>> permeability == 0.125 * 1e-4 / 37.5, inertia == 1.75 * 0.5 / 0.125 / 0.01
    (True, True)
    """
    above_zero(grain=grain, porosity=porosity, sphericity=sphericity)
    above_zero(what_is_no_air=1.0 - np.asarray(porosity))
    d, e = grain * sphericity, porosity
    permeability = e**3 * d**2 / (ERGUN_VISCOUS * (1.0 - e) ** 2)
    inertial = ERGUN_INERTIAL * (1.0 - e) / (e**3 * d)
    return permeability, inertial


def inertia_of(permeability: Numbers, porosity: Numbers) -> Numbers:
    """Inertial coefficient of a bed whose permeability is known, by the same law as ``ergun``.

    Parameters
    ----------
    permeability : float or ndarray
        [m²]
    porosity : float or ndarray
        [1]

    Returns
    -------
    float or ndarray
        [1/m]

    Source
    ------
    Ergun 1952 with the grain taken out of both terms: 1.75 / sqrt(150 k e³) (derived).

    Examples
    --------
    >>> permeability, inertia = ergun(grain=0.01, porosity=0.5)
    >>> bool(np.isclose(inertia_of(permeability, 0.5), inertia))
    True
    """
    above_zero(permeability=permeability, porosity=porosity)
    return plain(ERGUN_INERTIAL / np.sqrt(ERGUN_VISCOUS * permeability * porosity**3))


def layer(
    permeability: float,
    inertia: float,
    thickness: float,
    density: float = AIR_DENSITY,
    viscosity: float = AIR_VISCOSITY,
) -> Hydraulics:
    """Hydraulics of a layer of stone.

    Parameters
    ----------
    permeability : float
        [m²]
    inertia : float
        Forchheimer's coefficient, nought where flow is slow. [1/m]
    thickness : float
        Of the layer. [m]
    density : float
        Of the air. [kg/m³]
    viscosity : float
        Of the air. [Pa·s]

    Returns
    -------
    Hydraulics
        [Pa·s/m³] and [Pa·s²/m⁵]

    Raises
    ------
    OutOfDomain
        No permeability, no thickness.

    Source
    ------
    Darcy with Forchheimer's term, over the thickness of the layer (from memory).

    Examples
    --------
    >>> found = layer(permeability=1.0e-7, inertia=1000.0, thickness=0.1, density=1.2, viscosity=1.8e-5)
    >>> round(found.viscous, 6), round(found.inertial, 6)
    (1800.0, 120000.0)
    """
    above_zero(permeability=permeability, thickness=thickness, density=density, viscosity=viscosity)
    not_below_zero(inertia=inertia)
    return Hydraulics(viscosity / (permeability * thickness), density * inertia / thickness**2)


def measured(flows: Sequence[float], falls: Sequence[float]) -> Hydraulics:
    """Hydraulics of a layer from a test of it: the two terms that come nearest to what was read, by share.

    Parameters
    ----------
    flows : sequence of float, shape (n,)
        Flow for each metre of width. [m²/s]
    falls : sequence of float, shape (n,)
        Fall of pressure that was read at each. [Pa/m]

    Returns
    -------
    Hydraulics
        [Pa·s/m³] and [Pa·s²/m⁵]

    Raises
    ------
    OutOfDomain
        Fewer than two readings at two flows, or readings without a trace of the slow flow that grows as the fall does.

    Source
    ------
    Least squares of the shares by which the readings are missed, none of both terms below nought (derived).

    Examples
    --------
    >>> found = measured([1.0, 2.0], [5.0, 16.0])
    >>> round(found.viscous, 9), round(found.inertial, 9)
    (2.0, 3.0)
    """
    q, g = np.asarray(flows, float), np.asarray(falls, float)
    above_zero(flows=q, falls=g)
    if len(set(q.tolist())) < 2:
        raise OutOfDomain("two readings at two flows or more are needed")
    rows = np.column_stack([q / g, q**2 / g])
    viscous, inertial = np.linalg.lstsq(rows, np.ones(len(q)), rcond=None)[0]
    if inertial < 0.0:
        viscous, inertial = np.sum(q / g) / np.sum((q / g) ** 2), 0.0
    if viscous <= 0.0:
        raise OutOfDomain("the readings leave nothing for slow flow; one at a lower flow is needed")
    return Hydraulics(float(viscous), float(inertial))
