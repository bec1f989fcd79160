"""One round load on a slab on springs, by Westergaard's formulas: in the middle, at an edge, at a corner.

Each gives the largest tension of the concrete and the settlement; a ``radius`` is that of relative stiffness.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from ..domain import Numbers, OutOfDomain, above_zero, plain


@dataclass(frozen=True)
class Borne:
    """What a slab feels from one load."""

    stress: Numbers  # largest tension, Pa
    settlement: Numbers  # m


def even_radius(contact: Numbers, thickness: Numbers) -> Numbers:
    """Radius by which a small load's stress is counted: a thick slab spreads it before it bends.

    Parameters
    ----------
    contact : float or ndarray
        Radius of the loaded circle. [m]
    thickness : float or ndarray, broadcast
        Of the slab. [m]

    Returns
    -------
    float or ndarray, the broadcast shape
        b; that of the circle itself from 1.724 thicknesses on. [m]

    Raises
    ------
    OutOfDomain
        An argument is zero, negative or NaN.

    Source
    ------
    Westergaard 1926: b = sqrt(1.6 a² + h²) − 0.675 h below a = 1.724 h (quoted by Huang, Pavement analysis and design,
    from memory).

    Examples
    --------
    >>> round(even_radius(6.0, 10.0), 4)  # sqrt(57.6 + 100) − 6.75, in any unit
    5.8039
    """
    above_zero(contact=contact, thickness=thickness)
    a, h = np.asarray(contact), np.asarray(thickness)
    return plain(np.where(a < 1.724 * h, np.sqrt(1.6 * a**2 + h**2) - 0.675 * h, a))


def interior(
    load: Numbers, contact: Numbers, thickness: Numbers, poisson: Numbers, radius: Numbers, foundation: Numbers
) -> Borne:
    """A round load far from all edges.

    Parameters
    ----------
    load : float or ndarray
        [N]
    contact : float or ndarray, broadcast
        Radius of the loaded circle. [m]
    thickness : float or ndarray, broadcast
        Of the slab. [m]
    poisson : float or ndarray, broadcast
        [1]
    radius : float or ndarray, broadcast
        Of relative stiffness. [m]
    foundation : float or ndarray, broadcast
        k of what lies below. [N/m³]

    Returns
    -------
    Borne
        Largest tension, at the underside below the load [Pa], and settlement there [m].

    Raises
    ------
    OutOfDomain
        An argument not above zero, or a circle as wide as the radius of relative stiffness.

    Source
    ------
    Westergaard 1926 with the constant of 1939: 3 (1 + ν) P / (2 π h²) [ln(l/b) + 0.6159],
    P / (8 k l²) {1 + [ln(a/2l) − 0.673] (a/l)² / 2π} (as Huang prints them; from memory).

    Examples
    --------
    10,000 lb on a circle of 6 in, 10 in of concrete, 100 pci: 143.7 psi and 0.0067 in.

    >>> felt = interior(10000.0, 6.0, 10.0, 0.15, 42.972, 100.0)
    >>> round(felt.stress, 1), round(felt.settlement, 4)
    (143.7, 0.0067)
    """
    _small(load, contact, thickness, radius, foundation)
    b, ratio = even_radius(contact, thickness), np.asarray(contact) / radius
    stress = 3.0 * (1.0 + np.asarray(poisson)) * load / (2.0 * np.pi * np.asarray(thickness) ** 2)
    settlement = load / (8.0 * np.asarray(foundation) * np.asarray(radius) ** 2)
    return Borne(
        plain(stress * (np.log(np.asarray(radius) / b) + 0.6159)),
        plain(settlement * (1.0 + (np.log(ratio / 2.0) - 0.673) * ratio**2 / (2.0 * np.pi))),
    )


def edge(
    load: Numbers,
    contact: Numbers,
    thickness: Numbers,
    poisson: Numbers,
    modulus: Numbers,
    radius: Numbers,
    foundation: Numbers,
) -> Borne:
    """A round load that touches a free straight edge, far from corners.

    Parameters
    ----------
    load : float or ndarray
        [N]
    contact : float or ndarray, broadcast
        Radius of the loaded circle. [m]
    thickness : float or ndarray, broadcast
        Of the slab. [m]
    poisson : float or ndarray, broadcast
        [1]
    modulus : float or ndarray, broadcast
        Young's modulus of the concrete. [Pa]
    radius : float or ndarray, broadcast
        Of relative stiffness. [m]
    foundation : float or ndarray, broadcast
        k of what lies below. [N/m³]

    Returns
    -------
    Borne
        Largest tension, along the edge at the underside [Pa], and settlement of the edge [m].

    Raises
    ------
    OutOfDomain
        An argument not above zero, or a circle as wide as the radius of relative stiffness.

    Source
    ------
    Westergaard 1948, full circle, in the form of Ioannides, Thompson and Barenberg 1985 (as Huang prints it; from
    memory).

    Examples
    --------
    10,000 lb on a circle of 6 in, 10 in of concrete, 100 pci: 279 psi and 0.0207 in.

    >>> felt = edge(10000.0, 6.0, 10.0, 0.15, 4e6, 42.972, 100.0)
    >>> round(felt.stress), round(felt.settlement, 4)
    (279, 0.0207)
    """
    _small(load, contact, thickness, radius, foundation)
    above_zero(modulus=modulus)
    a, h, nu, k = (np.asarray(each, float) for each in (contact, thickness, poisson, foundation))
    ratio = a / radius
    share = 3.0 * (1.0 + nu) * load / (np.pi * (3.0 + nu) * h**2)
    stress = share * (
        np.log(np.asarray(modulus) * h**3 / (100.0 * k * a**4))
        + 1.84
        - 4.0 * nu / 3.0
        + (1.0 - nu) / 2.0
        + 1.18 * (1.0 + 2.0 * nu) * ratio
    )
    settlement = load * np.sqrt((2.0 + 1.2 * nu) / (np.asarray(modulus) * h**3 * k)) * (1.0 - (0.76 + 0.4 * nu) * ratio)
    return Borne(plain(stress), plain(settlement))


def corner(load: Numbers, contact: Numbers, thickness: Numbers, radius: Numbers, foundation: Numbers) -> Borne:
    """A round load that touches both edges of a right-angled corner, by the formula of 1926.

    Parameters
    ----------
    load : float or ndarray
        [N]
    contact : float or ndarray, broadcast
        Radius of the loaded circle. [m]
    thickness : float or ndarray, broadcast
        Of the slab. [m]
    radius : float or ndarray, broadcast
        Of relative stiffness. [m]
    foundation : float or ndarray, broadcast
        k of what lies below. [N/m³]

    Returns
    -------
    Borne
        Largest tension, at the top across the corner [Pa], and settlement of the corner [m].

    Raises
    ------
    OutOfDomain
        An argument not above zero, or a circle as wide as the radius of relative stiffness.

    Source
    ------
    Westergaard 1926: 3 P / h² [1 − (a √2 / l)^0.6], P / (k l²) [1.1 − 0.88 a √2 / l] (as Huang prints it; from memory).

    Examples
    --------
    10,000 lb on a circle of 6 in, 10 in of concrete, 100 pci: 187 psi and 0.050 in.

    >>> felt = corner(10000.0, 6.0, 10.0, 42.972, 100.0)
    >>> round(felt.stress), round(felt.settlement, 3)
    (187, 0.05)
    """
    _small(load, contact, thickness, radius, foundation)
    reach = np.asarray(contact) * np.sqrt(2.0) / radius
    return _at_corner(load, thickness, radius, foundation, 1.0 - reach**0.6, 1.1 - 0.88 * reach)


def corner_1985(load: Numbers, contact: Numbers, thickness: Numbers, radius: Numbers, foundation: Numbers) -> Borne:
    """A square load in a right-angled corner, by the fit of 1985 to plates by elements.

    Parameters
    ----------
    load : float or ndarray
        [N]
    contact : float or ndarray, broadcast
        Radius of the circle whose area the square has. [m]
    thickness : float or ndarray, broadcast
        Of the slab. [m]
    radius : float or ndarray, broadcast
        Of relative stiffness. [m]
    foundation : float or ndarray, broadcast
        k of what lies below. [N/m³]

    Returns
    -------
    Borne
        Largest tension, at the top across the corner [Pa], and settlement of the corner [m].

    Raises
    ------
    OutOfDomain
        An argument not above zero, or a circle as wide as the radius of relative stiffness.

    Source
    ------
    Ioannides, Thompson and Barenberg 1985, Westergaard solutions reconsidered: c = 1.772 a,
    3 P / h² [1 − (c/l)^0.72], P / (k l²) [1.205 − 0.69 c/l] (coefficients from memory).

    Examples
    --------
    10,000 lb on a circle of 6 in, 10 in of concrete, 100 pci: 190.3 psi.

    >>> round(corner_1985(10000.0, 6.0, 10.0, 42.972, 100.0).stress, 1)
    190.3
    """
    _small(load, contact, thickness, radius, foundation)
    side = 1.772 * np.asarray(contact) / radius
    return _at_corner(load, thickness, radius, foundation, 1.0 - side**0.72, 1.205 - 0.69 * side)


def _at_corner(load, thickness, radius, foundation, stress, settlement) -> Borne:
    return Borne(
        plain(3.0 * load / np.asarray(thickness) ** 2 * stress),
        plain(load / (np.asarray(foundation) * np.asarray(radius) ** 2) * settlement),
    )


def _small(load, contact, thickness, radius, foundation) -> None:
    above_zero(load=load, contact=contact, thickness=thickness, radius=radius, foundation=foundation)
    if not np.all(np.asarray(contact) < np.asarray(radius)):
        raise OutOfDomain(f"contact must be below the radius of relative stiffness {radius!r}, got {contact!r}")
