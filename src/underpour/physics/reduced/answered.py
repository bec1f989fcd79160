"""Cases answered one way or the other: by the family's span where that is sure, solved wholly where it is not."""

from __future__ import annotations

from dataclasses import dataclass, replace

import numpy as np
from numpy.typing import NDArray

from ..domain import OutOfDomain
from ..year import YEAR
from .family import Conducting, Filmed, Parameter, Varied, on_grid, posed
from .reduced import Posed, Reduced

Array = NDArray[np.float64]
SAME = 1e-9  # of an end: as near to it as that is at it
ZERO, OUTSIDE, WIDE = (
    "a thickness of zero is no stretch of the others: solved wholly",
    "{name} lies outside of what the family was made for, {low:.4g} to {high:.4g}: solved wholly",
    "the bound is wider than wanted: solved wholly",
)


@dataclass(frozen=True)
class Answered:
    """Heat of many cases, and how each was answered."""

    couplings: NDArray  # (cases, airs, airs) W/(m·K)
    within: Array  # (cases, airs, airs) W/(m·K), the grid's own error in it
    why: tuple[str, ...]  # of each case: why it was solved wholly; empty where the span answers it


def answered(reduced: Reduced, cases: Array, *, widest: float = 0.01, absolute: float = np.inf) -> Answered:
    """Cases answered by a family, wherever they lie.

    Parameters
    ----------
    reduced : Reduced
        The family. [W/(m·K)]
    cases : ndarray, shape (cases, parameters)
        [m, W/(m·K), W/(m²·K), rad/s]
    widest : float
        Bound of the room's heat without the grid's own error, as a share of it; a wider one is solved wholly. [1]
    absolute : float
        The same by itself. [W/(m·K)]

    Returns
    -------
    Answered
        [W/(m·K)]

    Raises
    ------
    OutOfDomain
        Not a number, a length below nought, a conductivity or film of nought or less, a pace beyond the family's: what
        the air does faster or slower than that is not in the data that it was made for.

    Source
    ------
    Definition.

    Examples
    --------
    See ``tests/exact/test_reduced_refusals.py``.
    """
    cases = np.atleast_2d(np.asarray(cases, np.float64))
    _refuse(reduced, cases)
    low, high = (np.array([getattr(p, end) for p in reduced.parameters]) for end in ("low", "high"))
    outside = _outside(reduced, cases)
    told = reduced.told(np.clip(cases, low, high))
    bound = told.bound
    size = np.abs(told.couplings[:, 0, 0]) - bound[:, 0, 0]
    wide = (bound[:, 0].max(1) > widest * size) | (bound[:, 0].max(1) > absolute)
    couplings, within = told.couplings.copy(), reduced.within(told)
    why = [""] * len(cases)
    for n in np.flatnonzero(outside.any(1) | wide):
        why[n] = _why(reduced, cases[n], outside[n])
        couplings[n], within[n] = solved_anew(reduced.posed, cases[n])
    return Answered(couplings, within, tuple(why))


def why_whole(reduced: Reduced, case: Array) -> str:
    """Why a case must be solved wholly.

    Parameters
    ----------
    reduced : Reduced
        The family. [W/(m·K)]
    case : ndarray, shape (parameters,)
        [m, W/(m·K), W/(m²·K), rad/s]

    Returns
    -------
    str
        Empty where the case lies between the family's ends. [1]

    Raises
    ------
    OutOfDomain
        As for ``answered``.

    Source
    ------
    Definition.

    Examples
    --------
    See ``tests/exact/test_reduced_refusals.py``.
    """
    _refuse(reduced, case[None])
    outside = _outside(reduced, case[None])[0]
    return _why(reduced, case, outside) if outside.any() else ""


def _outside(reduced: Reduced, cases: Array) -> NDArray[np.bool_]:
    low, high = (np.array([getattr(p, end) for p in reduced.parameters]) for end in ("low", "high"))
    return np.asarray((cases < low * (1.0 - SAME)) | (cases > high * (1.0 + SAME)))


def _why(reduced: Reduced, case: Array, outside: NDArray[np.bool_]) -> str:
    if not outside.any():
        return WIDE
    n = int(np.argmax(outside))
    if n < len(reduced.family.varied.lengths) and case[n] == 0.0:
        return ZERO
    parameter = reduced.parameters[n]
    return OUTSIDE.format(name=parameter.name, low=parameter.low, high=parameter.high)


def _refuse(reduced: Reduced, cases: Array) -> None:
    count = len(reduced.parameters)
    if cases.shape[1] != count:
        raise OutOfDomain(f"a case of this family has {count} numbers, {cases.shape[1]} were given")
    lengths = len(reduced.family.varied.lengths)
    for n, parameter in enumerate(reduced.parameters):
        here = cases[:, n]
        if not np.all(np.isfinite(here)):
            raise OutOfDomain(f"{parameter.name} must be a number, got {here[~np.isfinite(here)][0]}")
        if np.any(here < 0.0) or (n >= lengths and np.any(here <= 0.0)):
            least = "nought or more" if n < lengths else "above nought"
            raise OutOfDomain(f"{parameter.name} must be {least}, got {here.min():.4g}")
    pace = reduced.family.varied.pace
    if isinstance(pace, Parameter):
        beyond = (cases[:, -1] < pace.low * (1.0 - SAME)) | (cases[:, -1] > pace.high * (1.0 + SAME))
        if beyond.any():
            typed, low, high = (each * YEAR / (2.0 * np.pi) for each in (cases[beyond][0, -1], pace.low, pace.high))
            raise OutOfDomain(
                f"the air's swing of {typed:.4g} times a year lies beyond the data of this family, "
                f"{low:.4g} to {high:.4g} times a year; take a swing between these, or make the family for it"
            )


def solved_anew(asked: Posed, case: Array) -> tuple[NDArray, Array]:
    """One case solved wholly, on two grids of its own.

    Parameters
    ----------
    asked : Posed
        The family as it was asked for. [m, W/(m·K), W/(m²·K), rad/s]
    case : ndarray, shape (parameters,)
        [m, W/(m·K), W/(m²·K), rad/s]

    Returns
    -------
    two ndarrays, shape (airs, airs)
        Couplings of the finer grid, and the change to it. [W/(m·K)]

    Source
    ------
    As for ``conduction.solve``.

    Examples
    --------
    See ``tests/exact/test_reduced_refusals.py``.
    """
    varied = asked.varied
    count = len(varied.lengths)
    rest = iter(case[count:])
    fixed = Varied(
        (),
        tuple(Conducting(_at(each.parameter, next(rest)), each.bodies) for each in varied.conductivities),
        tuple(Filmed(_at(each.parameter, next(rest)), each.space, each.facings) for each in varied.films),
        float(next(rest)) if isinstance(varied.pace, Parameter) else varied.pace,
    )
    lengths = case[:count]
    family, made = posed(lambda _: asked.cut(lengths), fixed, asked.films, asked.airs, lines_x=asked.lines_x)
    finer = on_grid(made, made.finer(), fixed, asked.films, asked.airs, {})
    values = [each.couplings(each.middle, each.fields(each.middle)) for each in (finer, family)]
    return values[0], np.abs(values[0] - values[1])


def _at(parameter: Parameter, value: float) -> Parameter:
    return replace(parameter, low=float(value), high=float(value))
