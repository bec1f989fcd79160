"""Orders that stay as they are, and the front of what nothing beats."""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np
from numpy.typing import NDArray

Array = NDArray[np.float64]
Ints = NDArray[np.int64]
Bools = NDArray[np.bool_]
CENT = 2  # places of a cost that is compared; below them the tie is told by what follows


def ordered(alive: Bools, keys: Sequence[Array]) -> Ints:
    """The candidates that are alive, by the first key, then by the next; what is left alike as they are listed.

    A number that is not known comes last.
    """
    rows = np.flatnonzero(alive)
    columns = [np.where(np.isnan(key[rows]), np.inf, key[rows]) for key in keys]
    return np.asarray(rows[np.lexsort((rows, *reversed(columns)))])


def front(alive: Bools, keys: Sequence[Array]) -> Ints:
    """Candidates of which no other is as good in every key and better in one; of equals the first.

    Examples
    --------
    >>> front(np.array([True, True, True]), [np.array([1.0, 2.0, 3.0]), np.array([3.0, 1.0, 2.0])]).tolist()
    [0, 1]
    """
    rows = ordered(alive, keys)
    table = np.stack([key[rows] for key in keys], axis=1)
    whole = ~np.isnan(table).any(1)
    rows, table = rows[whole], table[whole]
    kept: list[int] = []
    best = np.empty((0, table.shape[1]))
    for n, row in enumerate(table):
        if not len(best) or not (best <= row).all(1).any():
            kept.append(n)
            best = np.vstack([best, row])
    return np.asarray(rows[kept], np.int64)
