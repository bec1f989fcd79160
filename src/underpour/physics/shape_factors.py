"""Shape factors of round things in and on the ground: heat that flows = conductivity × factor × difference.

The surface of the ground is held at one temperature and so is the thing's own.
"""

from __future__ import annotations

import numpy as np

from .domain import Numbers, OutOfDomain, above_zero, not_below_zero, plain


def buried_cylinder(diameter: Numbers, depth: Numbers, length: Numbers = 1.0) -> Numbers:
    """Shape factor of a long level cylinder, a pipe or cable, below the surface.

    Parameters
    ----------
    diameter : float or ndarray
        [m]
    depth : float or ndarray, broadcast
        Of its axis. [m]
    length : float or ndarray, broadcast
        [m]

    Returns
    -------
    float or ndarray, the broadcast shape
        S. [m]

    Raises
    ------
    OutOfDomain
        An argument not above zero, or a cylinder that reaches the surface.

    Source
    ------
    Incropera and DeWitt, table of conduction shape factors (from memory); exact by images.

    Examples
    --------
    z/D = cosh(1)/2: 2 pi.

    >>> round(buried_cylinder(1.0, np.cosh(1.0) / 2.0), 4)
    6.2832
    """
    _below_the_surface(diameter, depth)
    above_zero(length=length)
    return plain(2.0 * np.pi * length / np.arccosh(2.0 * np.asarray(depth) / diameter))


def pipe_of_a_row(spacing: Numbers, diameter: Numbers, depth: Numbers, length: Numbers = 1.0) -> Numbers:
    """Shape factor of each of many level pipes side by side at one depth below the surface.

    Parameters
    ----------
    spacing : float or ndarray
        From axis to axis. [m]
    diameter : float or ndarray, broadcast
        [m]
    depth : float or ndarray, broadcast
        Of the axes. [m]
    length : float or ndarray, broadcast
        [m]

    Returns
    -------
    float or ndarray, the broadcast shape
        S of one pipe. [m]

    Raises
    ------
    OutOfDomain
        An argument not above zero, pipes that touch or that reach the surface.

    Source
    ------
    Incropera and DeWitt, table of conduction shape factors (from memory); for pipes thin beside depth and spacing.

    Examples
    --------
    Spacing pi, diameter 0.1, depth pi/2: 2 pi / ln(20 sinh(pi)).

    >>> round(pipe_of_a_row(np.pi, 0.1, np.pi / 2.0), 4)
    1.1545
    """
    _below_the_surface(diameter, depth)
    above_zero(length=length, spacing=spacing)
    if not np.all(np.asarray(spacing) > np.asarray(diameter)):
        raise OutOfDomain(f"pipes must not touch, got spacing {spacing!r} and diameter {diameter!r}")
    thin = 2.0 * spacing / (np.pi * np.asarray(diameter))
    return plain(2.0 * np.pi * length / np.log(thin * np.sinh(2.0 * np.pi * depth / spacing)))


def upright_cylinder(length: Numbers, diameter: Numbers) -> Numbers:
    """Shape factor of a slender upright cylinder, a pile or post, that reaches down from the surface.

    Parameters
    ----------
    length : float or ndarray
        Of what stands in the ground. [m]
    diameter : float or ndarray, broadcast
        [m]

    Returns
    -------
    float or ndarray, the broadcast shape
        S. [m]

    Raises
    ------
    OutOfDomain
        An argument not above zero, or a length below two diameters.

    Source
    ------
    Incropera and DeWitt, table of conduction shape factors (from memory).

    Examples
    --------
    >>> round(upright_cylinder(10.0, 0.5), 4)  # 20 pi / ln 80
    14.3385
    """
    above_zero(length=length, diameter=diameter)
    if not np.all(np.asarray(length) >= 2.0 * np.asarray(diameter)):
        raise OutOfDomain(f"length must be at least two diameters, got {length!r} and {diameter!r}")
    return plain(2.0 * np.pi * length / np.log(4.0 * np.asarray(length) / diameter))


def disk_on_the_surface(diameter: Numbers) -> Numbers:
    """Shape factor of a thin round plate on the surface, the ground far away being of one temperature.

    Parameters
    ----------
    diameter : float or ndarray
        [m]

    Returns
    -------
    float or ndarray
        S. [m]

    Raises
    ------
    OutOfDomain
        A diameter not above zero.

    Source
    ------
    Incropera and DeWitt, table of conduction shape factors (from memory); exact.

    Examples
    --------
    >>> disk_on_the_surface(3.0)
    6.0
    """
    above_zero(diameter=diameter)
    return 2.0 * diameter


def circle_in_a_square(width: Numbers, diameter: Numbers, length: Numbers = 1.0) -> Numbers:
    """Shape factor between a pipe and the outside of the square it is the middle of.

    Parameters
    ----------
    width : float or ndarray
        Side of the square. [m]
    diameter : float or ndarray, broadcast
        Of the pipe. [m]
    length : float or ndarray, broadcast
        [m]

    Returns
    -------
    float or ndarray, the broadcast shape
        S. [m]

    Raises
    ------
    OutOfDomain
        An argument not above zero, or a pipe that touches the square.

    Source
    ------
    Incropera and DeWitt, table of conduction shape factors (from memory).

    Examples
    --------
    >>> round(circle_in_a_square(1.0, 0.108), 4)  # 2 pi / ln 10
    2.7288
    """
    above_zero(width=width, diameter=diameter, length=length)
    if not np.all(np.asarray(width) > np.asarray(diameter)):
        raise OutOfDomain(f"the pipe must lie inside the square, got {diameter!r} in {width!r}")
    return plain(2.0 * np.pi * length / np.log(1.08 * np.asarray(width) / diameter))


def line_source_rise(power: Numbers, conductivity: Numbers, depth: Numbers, aside: Numbers, below: Numbers) -> Numbers:
    """How much warmer than its surface ground is beside a long line that gives off heat.

    Parameters
    ----------
    power : float or ndarray
        By metre of line. [W/m]
    conductivity : float or ndarray, broadcast
        [W/(m·K)]
    depth : float or ndarray, broadcast
        Of the line below the surface. [m]
    aside : float or ndarray, broadcast
        Level distance of the place from the line. [m]
    below : float or ndarray, broadcast
        Depth of the place below the surface. [m]

    Returns
    -------
    float or ndarray, the broadcast shape
        [K]

    Raises
    ------
    OutOfDomain
        Conductivity or depth not above zero, a place above the surface or on the line itself.

    Source
    ------
    Method of images: a line of the same power, negative, as far above the surface; any handbook of heat.

    Examples
    --------
    Halfway to the surface, 2 pi W/m at 1 W/(m·K): ln 3.

    >>> round(line_source_rise(2.0 * np.pi, 1.0, 1.0, 0.0, 0.5), 4)
    1.0986
    """
    above_zero(conductivity=conductivity, depth=depth)
    not_below_zero(below=below)
    distance = np.hypot(aside, np.subtract(below, depth))
    above_zero(distance_from_the_line=distance)
    image = np.hypot(aside, np.add(below, depth))
    return plain(power / (2.0 * np.pi * conductivity) * np.log(image / distance))


def line_source_flux(power: Numbers, depth: Numbers, aside: Numbers) -> Numbers:
    """Heat that leaves the surface above a long line that gives off heat; greatest straight above it.

    Parameters
    ----------
    power : float or ndarray
        By metre of line. [W/m]
    depth : float or ndarray, broadcast
        Of the line below the surface. [m]
    aside : float or ndarray, broadcast
        Level distance from the line. [m]

    Returns
    -------
    float or ndarray, the broadcast shape
        [W/m²]

    Raises
    ------
    OutOfDomain
        A depth not above zero.

    Source
    ------
    Method of images, slope of ``line_source_rise`` at the surface.

    Examples
    --------
    >>> round(line_source_flux(np.pi, 0.5, 0.0), 6)
    2.0
    """
    above_zero(depth=depth)
    return plain(power * depth / (np.pi * (np.square(depth) + np.square(aside))))


def _below_the_surface(diameter: Numbers, depth: Numbers) -> None:
    above_zero(diameter=diameter, depth=depth)
    if not np.all(2.0 * np.asarray(depth) > np.asarray(diameter)):
        raise OutOfDomain(f"the axis must lie deeper than half the diameter, got {depth!r} and {diameter!r}")
