"""How a reduced family's heat changes with each of its parameters, for many cases at once."""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

from .family import Family
from .span import Span
from .told import CHUNK, Told

Array = NDArray[np.float64]


def slopes(family: Family, span: Span, cases: Array, told: Told) -> NDArray:
    """Slopes of every coupling in every parameter.

    The heat is stationary in the field, so that the field's own change does not count: the fields that are there are
    all that is needed, and nothing is solved.

    Parameters
    ----------
    family : Family
        [W/(m·K)]
    span : Span
        [1]
    cases : ndarray, shape (cases, parameters)
        [m, W/(m·K), W/(m²·K), rad/s]
    told : Told
        Of these cases. [W/(m·K)]

    Returns
    -------
    ndarray, shape (cases, airs, airs, parameters)
        [W/(m·K) per unit of the parameter]

    Source
    ------
    Derived: the adjoint of a heat flow is the field of unit air temperature, as in ``conduction.adjoint``.

    Examples
    --------
    See ``tests/exact/test_reduced.py``: held to differences.
    """
    logs = family.logs(cases)
    made = [
        _chunk(family, span, logs[n : n + CHUNK], told.coefficients[n : n + CHUNK]) for n in range(0, len(cases), CHUNK)
    ]
    by_factor = np.concatenate(made)  # (cases, airs, airs, factors), per unit of the factor's logarithm
    lengths = len(family.varied.lengths)
    grown, slope = family.stretches(cases)
    of_lengths = np.einsum("nijf,nf,fl->nijl", by_factor[..., : len(slope)], 1.0 / grown, slope)
    rest = by_factor[..., len(slope) :][..., : cases.shape[1] - lengths] / cases[:, None, None, lengths:]
    return np.concatenate([of_lengths, rest], 3)


def _chunk(family: Family, span: Span, logs: Array, c: NDArray) -> NDArray:
    count, size, airs = c.shape
    made = np.zeros((count, airs, airs, logs.shape[1]), c.dtype)
    for terms, inner, unit in ((family.conduct, span.conduct, 1.0), (family.store, span.store, 1j)):
        if not len(terms.values) or (unit == 1j and family.varied.pace is None):
            continue
        weights = unit * terms.weights(logs)
        beside = inner.transpose(1, 0, 2).reshape(size, -1)
        for air in range(airs):
            half = (c[:, :, air] @ beside).reshape(count, len(inner), size)
            between = np.einsum("nqk,nkj->nqj", half, c) * weights[:, :, None]
            made[:, air] += np.einsum("nqj,qf->njf", between, terms.powers.astype(float))
    load = family.load.weights(logs)
    for n, air in enumerate(family.load.of):
        power = family.load.powers[n].astype(float)
        share = (load[:, n, None] * np.einsum("k,nkj->nj", span.load[n], c))[:, :, None] * power
        made[:, air] -= share
        made[:, :, air] -= share
    both = family.shared.weights(logs)
    for n, pair in enumerate(family.shared.of):
        power = family.shared.powers[n].astype(float)
        made[:, pair // airs, pair % airs] += both[:, n, None] * family.shared.values[n, 0] * power
    return made
