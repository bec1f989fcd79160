"""The span of a family: few fields, what the matrices do between them, and the residual as the norm of a factor."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
import scipy.sparse as sp
from numpy.typing import NDArray
from scipy.sparse.linalg import SuperLU

from ..conduction.solve import factor
from .family import Family, Terms

Array = NDArray[np.float64]
LEAST = 1e-11  # of its own length: what a column has left beside the span's is rounding
STORED = 1.0  # weight of storage in the measure of a residual


@dataclass(frozen=True)
class Reference:
    """Where residuals are measured, and how: their size is the length of ``factor`` times their coefficients."""

    logs_conduct: Array  # (terms,) logarithm of each matrix's weight there
    logs_store: Array
    of_loads: Array  # (ranks, loads) W/(m·K) to the half
    of_matrices: Array  # (ranks, fields x terms)
    left: float  # length of the rest in the scaled coefficients, at most
    scale_loads: Array  # (loads,) divides the coefficients for that
    scale_fields: Array  # (fields,)
    scale_terms: Array  # (terms,)


@dataclass(frozen=True)
class Span:
    """A family seen between few of its fields."""

    fields: Array  # (n, fields)
    conduct: Array  # (terms, fields, fields)
    store: Array  # (terms, fields, fields)
    load: Array  # (terms, fields)
    references: tuple[Reference, ...]

    @property
    def size(self) -> int:
        return int(self.fields.shape[1])


class Growing:
    """A span while fields are added to it. The matrices' images and their residuals' measure grow along."""

    def __init__(self, family: Family, loads: Terms, references: Sequence[Array], beside: Growing | None = None):
        """``beside`` is another span of the same family and references, whose factorised matrices serve here too."""
        self.family, self.loads, self.references = family, loads, tuple(references)
        swings = family.varied.pace is not None
        self.terms = np.concatenate([family.conduct.values, family.store.values]) if swings else family.conduct.values
        self.matrices = [family.sparse(row) for row in self.terms]
        self.fields = np.empty((family.size, 0))
        self.images = np.empty((len(self.terms), family.size, 0))  # of each field by each matrix
        logs = family.logs(np.array(references))
        self.weights = (
            family.conduct.weights(logs),
            family.store.weights(logs) if swings else np.empty((len(logs), 0)),
        )
        self.measures: list[_Measure] = [
            _Measure(family, conduct @ family.conduct.values + STORED * store @ family.store.values[: len(store)])
            for conduct, store in zip(*self.weights, strict=True)
            if beside is None
        ] or [_Measure(family, each) for each in (beside.measures if beside else ())]
        for measure in self.measures:
            measure.add(loads.values.T)

    def add(self, fields: NDArray) -> int:
        """Take fields (n, m) into the span; gives how many were new."""
        found = 0
        for field in (*fields.real.T, *(fields.imag.T if np.iscomplexobj(fields) else ())):
            left, whole = field, np.sqrt(field @ self.measures[0].times(field))
            for _ in range(2):
                left = left - self.fields @ (self.measures[0].times(self.fields).T @ left)
            size = np.sqrt(left @ self.measures[0].times(left))
            if not size > 1e-7 * whole:
                continue
            self.fields = np.column_stack([self.fields, left / size])
            images = np.array([matrix @ self.fields[:, -1] for matrix in self.matrices])
            self.images = np.concatenate([self.images, images[:, :, None]], 2)
            for measure in self.measures:
                measure.add(images.T)
            found += 1
        return found

    def span(self, largest: tuple[Array, Array, Array] | None = None, left: float = 0.0) -> Span:
        """As it stands; with the largest coefficients of fields, loads and terms, factors are cut down to ``left``."""
        inner = np.matmul(self.fields.T, self.images)
        first = len(self.family.conduct.values)
        references = []
        for n, measure in enumerate(self.measures):
            made = measure.factor()
            count = len(self.loads.values)
            if largest is None:
                ones = (np.ones(self.fields.shape[1]), np.ones(count), np.ones(len(self.terms)))
                cut, rest, scale = made, 0.0, ones
            else:
                cut, rest, scale = *_cut(made, largest, left), largest
            references.append(
                Reference(
                    np.log(self.weights[0][n]),
                    np.log(STORED * self.weights[1][n]),
                    cut[:, :count],
                    cut[:, count:],
                    rest,
                    scale[1],
                    scale[0],
                    scale[2],
                )
            )
        return Span(self.fields, inner[:first], inner[first:], self.loads.values @ self.fields, tuple(references))


def _cut(made: Array, largest: tuple[Array, Array, Array], left: float) -> tuple[Array, float]:
    """A factor with fewer rows, and the length of what it misses for scaled coefficients of length 1."""
    scale = np.concatenate([largest[1], np.outer(largest[0], largest[2]).ravel()])
    _, sizes, turned = np.linalg.svd(made * scale, full_matrices=False)
    kept = int(np.searchsorted(-sizes, -left))
    rest = float(sizes[kept]) if kept < len(sizes) else 0.0
    return sizes[:kept, None] * turned[:kept] / scale, rest


class _Measure:
    """The length of residuals in the energy of one matrix: columns are made orthonormal in it as they come."""

    def __init__(self, family: Family, of: Array | _Measure):
        matrix = of.matrix if isinstance(of, _Measure) else family.sparse(of)
        self.matrix: sp.csc_array = matrix
        self.solve: SuperLU = of.solve if isinstance(of, _Measure) else factor(matrix)
        self.of_fields = np.empty((family.size, 0))
        self.ranks = np.empty((family.size, 0))  # orthonormal fields
        self.coefficients: list[Array] = []

    def times(self, fields: NDArray) -> NDArray:
        if fields.ndim == 2:  # those that were there before are known
            known = self.of_fields.shape[1]
            if fields.shape[1] > known:
                self.of_fields = np.column_stack([self.of_fields, self.matrix @ fields[:, known:]])
            return self.of_fields
        return np.asarray(self.matrix @ fields)

    def add(self, columns: Array) -> None:
        """Residuals (n, m) that may occur."""
        answers = self.solve.solve(np.ascontiguousarray(columns))
        whole = np.sqrt(np.maximum((answers * columns).sum(0), 0.0))
        made = np.zeros((self.ranks.shape[1], columns.shape[1]))
        left, left_answers = columns, answers
        for _ in range(2):
            more = self.ranks.T @ left
            made += more
            left_answers = left_answers - self.ranks @ more
            left = self.matrix @ left_answers
        scale = np.where(whole > 0.0, whole, 1.0)
        sizes, turned = np.linalg.eigh((left_answers / scale).T @ (left / scale))
        new = sizes > LEAST**2 + 1e-15
        sizes, turned = np.sqrt(sizes[new]), turned[:, new]
        self.ranks = np.column_stack([self.ranks, (left_answers / scale) @ (turned / sizes)])
        self.coefficients.append(np.concatenate([made, (sizes[:, None] * turned.T) * scale]))

    def factor(self) -> Array:
        """All columns so far, in the orthonormal fields (ranks, columns)."""
        whole = np.zeros((self.ranks.shape[1], sum(each.shape[1] for each in self.coefficients)))
        first = 0
        for each in self.coefficients:
            whole[: len(each), first : first + each.shape[1]] = each
            first += each.shape[1]
        return whole
