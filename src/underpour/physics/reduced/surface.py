"""Temperatures of single places in a reduced family: a second span, of the fields that a place draws its heat from."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from .family import Family, Terms
from .span import Growing, Span
from .told import CHUNK, Told, spanned

Array = NDArray[np.float64]


@dataclass(frozen=True)
class Watched:
    """A place of a family: the span of its dual fields, and what the matrices do between both spans."""

    span: Span
    loads: Terms
    conduct: Array  # (terms, fields, dual fields)
    store: Array
    load: Array  # (terms, dual fields)
    at: Array  # (fields,) the fields' values there
    grid: float  # the grid's own error for a kelvin of one air. K/K


def grown(
    family: Family, flows: Growing, unknown: int, cases: Array, told: Told, wanted: float, most: int
) -> tuple[Growing, Span]:
    """The span of one place's dual fields, grown until its temperature is told well on the cases looked at.

    Parameters
    ----------
    family : Family
        [W/(m·K)]
    flows : Growing
        Of the heat, whose measures serve here too. [1]
    unknown : int
        Number of the place. [1]
    cases : ndarray, shape (cases, parameters)
        Cases to grow by. [m, W/(m·K), W/(m²·K), rad/s]
    told : Told
        These cases' heat. [W/(m·K)]
    wanted : float
        Bound of the temperature, as a share of the difference between airs. [1]
    most : int
        Fields at most. [1]

    Returns
    -------
    Growing, Span
        [1]

    Source
    ------
    As for ``reduced``; bound of a further output by its dual problem, the product of both lengths (from memory).

    Examples
    --------
    See ``tests/exact/test_reduced.py``.
    """
    load = np.zeros((1, family.size))
    load[0, unknown] = 1.0
    loads = Terms(load, np.zeros((1, family.conduct.powers.shape[1]), np.int8), np.zeros(1, np.int64))
    growing = Growing(family, loads, flows.references, beside=flows)
    logs, worst = family.logs(cases), int(told.lengths.max(1).argmax())
    while True:
        new = growing.add(family.answer(cases[worst], load.T))
        span = growing.span()
        widths = spanned(family, span, loads, logs).lengths[:, 0] * told.lengths.max(1)
        worst = int(widths.argmax())
        if not new or widths[worst] <= wanted or growing.fields.shape[1] >= most:
            return growing, span


def beside(growing: Growing, span: Span, flows: Growing, grid: float) -> Watched:
    """A place's span put beside that of the heat.

    Parameters
    ----------
    growing, span : Growing, Span
        Of the place. [1]
    flows : Growing
        Of the heat. [1]
    grid : float
        The grid's own error. [K/K]

    Returns
    -------
    Watched
        [1]

    Source
    ------
    Definition.

    Examples
    --------
    See ``tests/exact/test_reduced.py``.
    """
    first = len(growing.family.conduct.values)
    cross = np.matmul(flows.fields.T, growing.images)
    at = flows.fields[int(np.argmax(growing.loads.values[0]))]
    return Watched(span, growing.loads, cross[:first], cross[first:], flows.loads.values @ growing.fields, at, grid)


def temperatures(family: Family, watched: Watched, cases: Array, told: Told) -> tuple[NDArray, Array]:
    """Temperature of a place for a kelvin of each air, and its bound.

    Parameters
    ----------
    family : Family
        [W/(m·K)]
    watched : Watched
        The place. [1]
    cases : ndarray, shape (cases, parameters)
        [m, W/(m·K), W/(m²·K), rad/s]
    told : Told
        Of these cases. [W/(m·K)]

    Returns
    -------
    two ndarrays, shape (cases, airs)
        Temperature, and its bound with the grid's own error. [K/K]

    Source
    ------
    As for ``grown``: the value is put right by the residual in the dual field; what is then left is at most the
    product of the lengths of both errors.

    Examples
    --------
    See ``tests/exact/test_reduced.py``.
    """
    logs = family.logs(cases)
    dual = spanned(family, watched.span, watched.loads, logs)
    values = np.einsum("k,nkj->nj", watched.at, told.coefficients)
    for start in range(0, len(cases), CHUNK):
        here = slice(start, start + CHUNK)
        c, z = told.coefficients[here], dual.coefficients[here, :, 0]
        cross = np.tensordot(family.conduct.weights(logs[here]), watched.conduct, 1)
        if family.varied.pace is not None:
            cross = cross + 1j * np.tensordot(family.store.weights(logs[here]), watched.store, 1)
        values[here] -= np.einsum("nkj,nkd,nd->nj", c, cross, z, optimize=True)
        drawn = family.load.weights(logs[here]) * (z @ watched.load.T)[:, :]
        for n, air in enumerate(family.load.of):
            values[here, air] += drawn[:, n]
    return values, told.lengths * dual.lengths + watched.grid
