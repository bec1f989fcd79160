"""A slab that is thicker below a load: what it feels below the load, and in the thinner concrete beside the pad."""

from __future__ import annotations

from .felt import Felt, with_edges
from .slab import Pressed, Ring, Slab

BESIDE = 1e-3  # m from the pad: there the thinner concrete is looked at


def over_pad(slab: Slab, loads: tuple[Pressed, ...], weight: float) -> Felt:
    """What a slab with a pad feels of patches of load on it; where it would lift off what lies below, that lets go.

    Parameters
    ----------
    slab : Slab
        The pad, a rectangle along x and y, is the last of the regions in which it is thicker. [m, Pa, N/m³]
    loads : tuple of Pressed
        Within the pad. [m, Pa]
    weight : float
        Own weight of the slab beside the pad. [Pa]

    Returns
    -------
    Felt
        Pressure and settlement of the loads alone; tension with that of the pad's own weight. [Pa, m]

    Raises
    ------
    OutOfDomain, StillLifting
        As ``felt.with_edges``.

    Source
    ------
    ``felt.with_edges``; both sides of the step are looked at, but for its corners.

    Examples
    --------
    A pad no thicker than the slab is the slab.

    >>> from underpour.physics.plates.slab import Region
    >>> ring = ((-4.0, -4.0), (4.0, -4.0), (4.0, 4.0), (-4.0, 4.0))
    >>> pad = ((-0.5, -0.5), (0.5, -0.5), (0.5, 0.5), (-0.5, 0.5))
    >>> post = Pressed(((-0.2, -0.2), (0.2, -0.2), (0.2, 0.2), (-0.2, 0.2)), 1e5)
    >>> slab = Slab(ring, 0.15, 3e10, 0.2, 3e7, thickened=(Region(pad, 0.15),))
    >>> padded, plain = over_pad(slab, (post,), 3600.0), with_edges(slab, (post,), 3600.0)
    >>> abs(padded.pressure / plain.pressure - 1.0) < 0.01
    True
    """
    pad = slab.thickened[-1].outline
    middle = Pressed(pad, 0.0).middle
    rim = Pressed(_scaled(pad, middle, by=BESIDE), 0.0)
    # Nothing presses on these: they draw the lines of the cells, and the places that are looked at.
    finer = tuple(Pressed(_shrunk(load.outline, load.middle), 0.0) for load in loads)
    return with_edges(slab, (*loads, rim, *finer), weight)


def _scaled(ring: Ring, middle: tuple[float, float], by: float) -> Ring:
    """The outline, further out by so much."""
    x0, y0 = middle
    return tuple((x + (by if x > x0 else -by), y + (by if y > y0 else -by)) for x, y in ring)


def _shrunk(ring: Ring, middle: tuple[float, float]) -> Ring:
    """The outline at half its size."""
    x0, y0 = middle
    return tuple(((x + x0) / 2.0, (y + y0) / 2.0) for x, y in ring)
