"""What a reduced family tells of many cases at once: heat, its bound, the slopes, all by small dense arithmetic."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from .family import Family, Terms
from .span import Reference, Span

Array = NDArray[np.float64]
CHUNK = 1_000  # cases at a time: what they need stays in the fast memory


@dataclass(frozen=True)
class Told:
    """Cases told by a span: c is (cases, fields, airs), real for steady heat."""

    coefficients: NDArray
    couplings: NDArray  # (cases, airs, airs) W/(m·K): heat that air i gives off for each kelvin of air j
    lengths: Array  # (cases, airs) of each air's error in the energy, at most; (W/(m·K)) to the half

    @property
    def bound(self) -> Array:
        """Of each coupling's error (cases, airs, airs). [W/(m·K)]"""
        return self.lengths[:, :, None] * self.lengths[:, None, :]


def spanned(family: Family, span: Span, loads: Terms, logs: Array) -> Told:
    """Cases answered in a span.

    Parameters
    ----------
    family : Family
        [W/(m·K)]
    span : Span
        Its fields. [1]
    loads : Terms
        The loads that are answered. [W/(m·K)]
    logs : ndarray, shape (cases, factors)
        Logarithms of the factors of each case. [1]

    Returns
    -------
    Told
        [W/(m·K)]

    Source
    ------
    Reduced basis method with compliant outputs: Quarteroni, Manzoni, Negri 2016, chapter 3 (from memory).

    Examples
    --------
    See ``reduced.reduced``.
    """
    made = [_chunk(family, span, loads, logs[n : n + CHUNK]) for n in range(0, len(logs), CHUNK)]
    return Told(*(np.concatenate([getattr(each, name) for each in made]) for name in Told.__dataclass_fields__))


def _chunk(family: Family, span: Span, loads: Terms, logs: Array) -> Told:
    count, size = len(logs), span.size
    airs = int(loads.of.max()) + 1
    conduct, load = family.conduct.weights(logs), loads.weights(logs)
    matrix = (conduct @ span.conduct.reshape(len(span.conduct), -1)).reshape(count, size, size)
    store = None
    if family.varied.pace is not None:
        store = family.store.weights(logs)
        matrix = matrix + 1j * (store @ span.store.reshape(len(span.store), -1)).reshape(count, size, size)
    right = np.empty((count, size, airs))
    for air in range(airs):
        own = loads.of == air
        right[:, :, air] = load[:, own] @ span.load[own]
    c = np.linalg.solve(matrix, right)
    couplings = -np.matmul(right.transpose(0, 2, 1), c)
    if loads is family.load:
        couplings = couplings + family.passed(logs)
    return Told(c, couplings, _lengths(span.references, loads, conduct, store, load, c))


def _lengths(
    references: tuple[Reference, ...],
    loads: Terms,
    conduct: Array,
    store: Array | None,
    load: Array,
    c: NDArray,
) -> Array:
    """Length of the error of each air, at most: the residual's at the reference that is nearest, over the stability."""
    made = np.empty((len(c), c.shape[2]))
    logs = np.log(conduct), None if store is None else np.log(store)
    spreads = np.array([_spread(reference, *logs) for reference in references])
    nearest = spreads[:, :, 0].argmin(0)
    for n, reference in enumerate(references):
        here = np.flatnonzero(nearest == n)
        if len(here):
            weights = conduct if store is None else np.concatenate([conduct, 1j * store], 1)
            parts = (weights, load, c) if len(references) == 1 else (weights[here], load[here], c[here])
            made[here] = _residuals(reference, loads, *parts) / np.sqrt(spreads[n, here, 1])[:, None]
    return made


def _spread(reference: Reference, conduct: Array, store: Array | None) -> Array:
    """How far the largest share lies from the least, and the stability at least (cases, 2).

    A real matrix is at least its least share times the reference's. A complex one, conduction plus i times storage,
    turned by the best angle, has a real part of at least m n / sqrt(m² + n²) times the reference's, m and n the least
    shares of conduction and storage.
    """
    shares = conduct - reference.logs_conduct
    least, most = shares.min(1), shares.max(1)
    if store is None:
        return np.column_stack([most - least, np.exp(least)])
    shares = store - reference.logs_store
    inner = np.exp(-2.0 * least) + np.exp(-2.0 * shares.min(1))
    return np.column_stack([np.maximum(most, shares.max(1)) + 0.5 * np.log(inner), inner**-0.5])


def _residuals(reference: Reference, loads: Terms, weights: NDArray, load: Array, c: NDArray) -> Array:
    count, _, airs = c.shape
    made = np.empty((count, airs))
    for air in range(airs):
        own = loads.of == air
        inner = (c[:, :, air, None] * weights[:, None, :]).reshape(count, -1)
        ahead = load[:, own] @ reference.of_loads[:, own].T
        if np.iscomplexobj(inner):
            left = np.concatenate([ahead - inner.real @ reference.of_matrices.T, inner.imag @ reference.of_matrices.T])
            squares = np.einsum("nk,nk->n", left, left).reshape(2, count).sum(0)
        else:
            left = ahead - inner @ reference.of_matrices.T
            squares = np.einsum("nk,nk->n", left, left)
        made[:, air] = np.sqrt(squares)
        if reference.left:
            of_matrices = _length(c[:, :, air] / reference.scale_fields) * _length(weights / reference.scale_terms)
            of_loads = _length(load[:, own] / reference.scale_loads[own])
            made[:, air] += reference.left * np.hypot(of_matrices, of_loads)
    return made


def _length(rows: NDArray) -> Array:
    return np.sqrt((rows.real**2).sum(1) + (rows.imag**2).sum(1) if np.iscomplexobj(rows) else (rows**2).sum(1))
