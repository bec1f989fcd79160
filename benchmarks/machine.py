"""What this machine can do at most on one thread, and how near to it the factorising comes."""

from __future__ import annotations

import os
import platform
from pathlib import Path
from statistics import median
from typing import Any

import numpy as np
import scipy.sparse as sp
from scipy.sparse.linalg import SuperLU

from . import posed
from .peers import mesher, triangles
from .race import interleaved

UNKNOWNS = 1500  # of the dense solve, which two machines can be compared by
TRIAD = 8_000_000  # numbers of each of three arrays: 64 MB, far more than caches hold


def flops(factors: SuperLU) -> float:
    """Multiplications and additions that a factorisation took, from the entries of its factors."""
    below = np.diff(sp.csc_matrix(factors.L).indptr) - 1.0  # of each column, without the diagonal
    beside = np.diff(sp.csr_matrix(factors.U).indptr) - 1.0  # of each row
    return float((below + 2.0 * below * beside).sum())


def measured(tiny: bool = False) -> dict[str, Any]:
    """Dense work and memory traffic, turn by turn with the factorisation of a section's equations."""
    size, count = (200, 100_000) if tiny else (UNKNOWNS, TRIAD)
    chance = np.random.default_rng(1)
    a, b = chance.random((size, size)), chance.random((size, size))
    dominant = a + size * np.eye(size)
    x, y, z = np.zeros(count), chance.random(count), chance.random(count)

    def triad() -> None:
        np.multiply(y, 3.0, out=x)
        np.add(x, z, out=x)

    case = posed.slab().still
    system = triangles.system(case, triangles.graded_grid(case, *((0.1, 0.5) if tiny else (0.02, 0.5))))
    matrix = system.conduction

    def factored() -> SuperLU:
        return triangles.factored(matrix).__self__  # type: ignore[attr-defined]

    works = [lambda: a @ b, lambda: np.linalg.solve(dominant, b[0]), triad, factored]
    multiplied, solved, streamed, made = (
        median(each) for each in interleaved(works, 3 if tiny else 7, [0.0] * len(works))
    )
    dense = 2.0 * size**3 / multiplied
    work = flops(factored())
    return {
        "processor": processor(),
        "python": platform.python_version(),
        "versions": versions(),
        "threads": threads(),
        "cores": os.cpu_count(),
        "dense_gflops": dense / 1e9,
        "dense_solve": solved,
        "dense_unknowns": size,
        "triad_gbytes": 5 * 8 * count / streamed / 1e9,
        "factor": {
            "unknowns": int(matrix.shape[0]),
            "mflop": work / 1e6,
            "seconds": made,
            "gflops": work / made / 1e9,
            "share": work / made / dense,
            "least_seconds": work / dense,
        },
    }


def load() -> list[float] | None:
    """How many processes wanted a core: in the last minute, five and fifteen."""
    return list(os.getloadavg()) if hasattr(os, "getloadavg") else None


def processor() -> str:
    try:
        for line in Path("/proc/cpuinfo").read_text(encoding="utf-8").splitlines():
            if line.startswith("model name"):
                return line.partition(":")[2].strip()
    except OSError:
        pass
    return platform.processor() or platform.machine()


def threads() -> int | None:
    """Threads of this process after dense work: one, or the libraries were not told to keep to one."""
    tasks = Path("/proc/self/task")
    return len(list(tasks.iterdir())) if tasks.exists() else None


def versions() -> dict[str, str]:
    from importlib.metadata import version

    return {name: version(name) for name in ("numpy", "scipy", "scikit-fem")} | {"gmsh": mesher.version()}
