"""Foam under stress: what may stand on it for good, how far it creeps, and how stiff it is."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import pairwise
from math import exp, log

from .domain import OutOfDomain, above_zero


@dataclass(frozen=True, slots=True)
class Findley:
    """A creep test as a power law: strain at time t is initial + factor · (t / 1 s)^exponent."""

    initial: float  # strain when the stress is on, before it creeps, 1
    factor: float  # creep after one second, 1
    exponent: float  # 1
    determination: float  # r² of the line through the logarithms, 1
    lasted: float  # the latest reading, s


def long_term_strength(strength: float, share: float) -> float:
    """Pressure that foam may bear for good, as a share of the strength of its short test.

    Parameters
    ----------
    strength : float
        Of the test in minutes: at 10 % strain or yield, or at the break. [Pa]
    share : float
        Of it that may stand for decades. [1]

    Returns
    -------
    float
        Pressure. [Pa]

    Raises
    ------
    OutOfDomain
        An argument is zero, negative or NaN, or the share is above 1.

    Source
    ------
    The share is the catalogue's, with its own source; EN 13163 for moulded foam (from memory).

    Examples
    --------
    >>> long_term_strength(100e3, 0.3)
    30000.0
    """
    above_zero(strength=strength, share=share)
    if share > 1.0:
        raise OutOfDomain(f"share must be at most 1, got {share!r}")
    return strength * share


def findley_fit(times: Sequence[float], strains: Sequence[float]) -> Findley:
    """The power law through the readings of a creep test.

    The first reading is the initial strain X_0; what every later one lies above it is its creep X_c. A straight line
    through the logarithms of creep and time, by least squares, gives exponent and factor.

    Parameters
    ----------
    times : sequence of float, shape (n,)
        Since the stress was on, rising. [s]
    strains : sequence of float, shape (n,)
        Of the whole thickness, each above the first. [1]

    Returns
    -------
    Findley
        Initial strain, factor and exponent [1], r² [1], time of the last reading [s].

    Raises
    ------
    OutOfDomain
        Fewer than four readings, times that do not rise from above zero, an initial strain that is not above zero, a
        strain above 1, or a reading that lies no higher than the first: nothing crept, and no line can be drawn.

    Source
    ------
    EN 1606:2013, annex on extrapolation: X_ct = m · t^b, log X_ct = log m + b log t (from memory).

    Examples
    --------
    >>> fit = findley_fit([60.0, 1e4, 1e5, 1e6], [0.006, 0.007, 0.0075, 0.00825])  # creep 0.10, 0.15, 0.225 %
    >>> round(fit.exponent, 4), round(fit.determination, 6)  # each decade times 1.5: log10(1.5)
    (0.1761, 1.0)
    """
    if len(times) != len(strains) or len(times) < 4:
        raise OutOfDomain(f"at least four readings are wanted, got {len(times)} times and {len(strains)} strains")
    above_zero(first_time=times[0], initial=strains[0])
    if not all(later > earlier for earlier, later in pairwise(times)):
        raise OutOfDomain(f"times must rise, got {list(times)!r}")
    if not all(strains[0] < strain <= 1.0 for strain in strains[1:]):
        raise OutOfDomain(f"each strain must lie above the first and be at most 1, got {list(strains)!r}")
    x = [log(time) for time in times[1:]]
    y = [log(strain - strains[0]) for strain in strains[1:]]
    x_mean, y_mean = sum(x) / len(x), sum(y) / len(y)
    xx = sum((each - x_mean) ** 2 for each in x)
    xy = sum((one - x_mean) * (other - y_mean) for one, other in zip(x, y, strict=True))
    yy = sum((each - y_mean) ** 2 for each in y)
    exponent = xy / xx
    determination = xy * xy / (xx * yy) if yy > 0.0 else 0.0
    return Findley(strains[0], exp(y_mean - exponent * x_mean), exponent, determination, times[-1])


def carried_forward(fit: Findley, time: float, at_most: float) -> float:
    """Strain at a time that was not waited for.

    Parameters
    ----------
    fit : Findley
        Of the test. [1] and [s]
    time : float
        Since the stress was on. [s]
    at_most : float
        How many times the length of the test it may be carried forward. [1]

    Returns
    -------
    float
        Strain of the whole thickness, initial and creep. [1]

    Raises
    ------
    OutOfDomain
        The time is not above zero, or lies more than ``at_most`` times the test's length ahead.

    Source
    ------
    EN 1606:2013, extrapolation of X_t = X_0 + m · t^b up to thirty times the length of the test (from memory).

    Examples
    --------
    >>> carried_forward(Findley(0.006, 1e-4, 0.25, 1.0, 1e7), 1e8, at_most=30.0)  # 0.006 + 0.0001 · 100
    0.016
    """
    above_zero(time=time, at_most=at_most)
    if time > at_most * fit.lasted:
        raise OutOfDomain(f"{time:g} s is more than {at_most:g} times the {fit.lasted:g} s of the test")
    return fit.initial + fit.factor * time**fit.exponent


def secant_modulus(stress: float, strain: float) -> float:
    """Stress over the strain that it brings: of the short test, or of years under a stress that stands.

    Parameters
    ----------
    stress : float
        [Pa]
    strain : float
        Of the thickness. [1]

    Returns
    -------
    float
        Modulus. [Pa]

    Raises
    ------
    OutOfDomain
        An argument is zero, negative or NaN, or the strain is above 1.

    Source
    ------
    Definition; ASTM D6817 prints the stress at 1, 5 and 10 % strain (from memory).

    Examples
    --------
    >>> secant_modulus(50e3, 0.01)  # ASTM D6817 EPS22 at 1 %
    5000000.0
    """
    above_zero(stress=stress, strain=strain)
    if strain > 1.0:
        raise OutOfDomain(f"strain must be at most 1, got {strain!r}")
    return stress / strain


def modulus_by_density(density: float, by_density: float, taken_off: float) -> float:
    """Initial modulus of moulded foam, from its density.

    Parameters
    ----------
    density : float
        [kg/m³]
    by_density : float
        What each kg/m³ brings. [Pa·m³/kg]
    taken_off : float
        What is taken off. [Pa]

    Returns
    -------
    float
        Modulus where the load begins. [Pa]

    Raises
    ------
    OutOfDomain
        An argument is zero, negative or NaN, or the density is so low that nothing is left.

    Source
    ------
    NCHRP Report 529 (2004): E = 450 ρ − 3000 in kPa (from memory).

    Examples
    --------
    >>> modulus_by_density(20.0, 450e3, 3e6)  # 9.0 MPa less 3.0 MPa
    6000000.0
    """
    above_zero(density=density, by_density=by_density, taken_off=taken_off)
    if by_density * density <= taken_off:
        raise OutOfDomain(f"a density of {density:g} kg/m³ leaves no stiffness")
    return by_density * density - taken_off
