"""What runs in the tubes: how it flows, what pressure that takes, and how well it hands heat to the wall."""

from __future__ import annotations

from dataclasses import dataclass
from math import pi

from ..domain import above_zero, not_below_zero

SMOOTH = 1.5e-6  # m, roughness of drawn plastic tube
SLOW, FAST = 2300.0, 4000.0  # Reynolds' number: surely in layers below, surely in eddies above
LAMINAR_NUSSELT = 3.66  # long tube, wall of one temperature


@dataclass(frozen=True, slots=True)
class Flow:
    """Water through one loop."""

    speed: float  # m/s
    reynolds: float  # 1
    friction: float  # Darcy's factor, the greater one where layers and eddies both may be; 1
    loss: float  # Pa, along the tube
    least_loss: float  # Pa, by the other factor where both may be, otherwise the same
    film: float  # m²·K/W, from water to wall, the greater where both may be

    @property
    def sure(self) -> bool:
        """Whether it is known to flow in layers or in eddies."""
        return not SLOW < self.reynolds < FAST


def flow_in_tube(
    flow: float,
    bore: float,
    length: float,
    density: float,
    viscosity: float,
    heat_capacity: float,
    conductivity: float,
    roughness: float = SMOOTH,
) -> Flow:
    """A fluid through a tube: friction and what it hands to the wall.

    Parameters
    ----------
    flow : float
        [m³/s]
    bore, length : float
        [m]
    density : float
        [kg/m³]
    viscosity : float
        [Pa·s]
    heat_capacity : float
        By mass. [J/(kg·K)]
    conductivity : float
        Of the fluid. [W/(m·K)]
    roughness : float
        Of the bore. [m]

    Returns
    -------
    Flow
        [m/s, Pa, m²·K/W]

    Raises
    ------
    OutOfDomain
        A number not above zero.

    Source
    ------
    Darcy and Weisbach; 64/Re in layers, Colebrook and White in eddies, by the library ``fluids``; between 2,300
    and 4,000 both are worked out. Heat to the wall: Nusselt 3.66 in layers, Gnielinski 1976 in eddies (from memory).

    Examples
    --------
    In layers the loss is 32 μ L v / D².

    >>> made = flow_in_tube(1e-5, 0.012, 10.0, 1000.0, 1e-3, 4186.0, 0.6)
    >>> round(made.loss / (32.0 * 1e-3 * 10.0 * made.speed / 0.012**2), 9)
    1.0
    """
    from fluids import friction

    above_zero(flow=flow, bore=bore, length=length, density=density, viscosity=viscosity)
    above_zero(heat_capacity=heat_capacity, conductivity=conductivity)
    not_below_zero(roughness=roughness)
    speed = flow / (pi * bore**2 / 4.0)
    reynolds = density * speed * bore / viscosity
    head = length / bore * density * speed**2 / 2.0
    prandtl = viscosity * heat_capacity / conductivity
    layers = 64.0 / reynolds, LAMINAR_NUSSELT
    eddies = layers
    if reynolds > SLOW:
        factor = float(friction.Colebrook(reynolds, roughness / bore))
        eddies = factor, _gnielinski(reynolds, prandtl, factor)
    may_be = [layers] if reynolds <= SLOW else [eddies] if reynolds >= FAST else [layers, eddies]
    factors, numbers = zip(*may_be, strict=True)
    film = bore / (min(numbers) * conductivity)
    return Flow(speed, reynolds, max(factors), max(factors) * head, min(factors) * head, film)


def _gnielinski(reynolds: float, prandtl: float, factor: float) -> float:
    eighth = factor / 8.0
    over = 1.0 + 12.7 * eighth**0.5 * (prandtl ** (2.0 / 3.0) - 1.0)
    return float(eighth * (reynolds - 1000.0) * prandtl / over)


def pump_power(flow: float, loss: float, efficiency: float) -> float:
    """Electricity that a pump takes.

    Parameters
    ----------
    flow : float
        [m³/s]
    loss : float
        [Pa]
    efficiency : float
        From electricity to water, above 0 to 1. [1]

    Returns
    -------
    float
        [W]

    Raises
    ------
    OutOfDomain
        A number not above zero.

    Source
    ------
    Balance of energy.

    Examples
    --------
    >>> pump_power(0.001, 20000.0, 0.5)
    40.0
    """
    above_zero(flow=flow, loss=loss, efficiency=efficiency)
    return flow * loss / efficiency


def hazen_williams(flow: float, bore: float, smoothness: float = 150.0) -> float:
    """Loss of pressure by the installers' formula, for water alone: to be held beside friction, not to be leant on.

    Parameters
    ----------
    flow : float
        [m³/s]
    bore : float
        [m]
    smoothness : float
        C. [1]

    Returns
    -------
    float
        For each metre. [Pa/m]

    Raises
    ------
    OutOfDomain
        A number not above zero.

    Source
    ------
    Hazen and Williams in US units, 4.52 Q^1.852 / (C^1.852 d^4.871) psi a foot (from memory).

    Examples
    --------
    0.6 gpm through 0.475 in.: 0.00615 psi a foot.

    >>> round(hazen_williams(0.6 * 6.30902e-5, 0.475 * 0.0254) / 22620.6, 5)
    0.00615
    """
    above_zero(flow=flow, bore=bore, smoothness=smoothness)
    gallons, inches = flow / 6.30902e-5, bore / 0.0254
    return float(4.52 * gallons**1.852 / (smoothness**1.852 * inches**4.871) * 22620.59)
