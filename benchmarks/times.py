"""How long things take on this machine, against what they may take.

    python3 dev.py bench

Whole processes are timed as a person waits for them, the best of several. The machine factor is the time of a dense
solve on one thread, so that two machines can be compared.
"""

import os
import subprocess
import sys
import tempfile
import time
from collections.abc import Callable
from pathlib import Path
from types import SimpleNamespace

for threads in ("OPENBLAS_NUM_THREADS", "OMP_NUM_THREADS", "MKL_NUM_THREADS"):
    os.environ[threads] = "1"  # before numpy is loaded: sections are too small to gain from more

ROOT = Path(__file__).parents[1]
DEMO = ROOT / "examples" / "daylight-basement" / "brief.toml"


def best(times: int, work: Callable[[], object]) -> float:
    """Shortest of several tries. [s]"""
    shortest = float("inf")
    for _ in range(times):
        began = time.perf_counter()
        work()
        shortest = min(shortest, time.perf_counter() - began)
    return shortest


def process(*words: object) -> Callable[[], object]:
    command = [sys.executable, "-m", "underpour", *map(str, words)]
    return lambda: subprocess.run(command, cwd=ROOT, capture_output=True, check=False)


def dense_solve() -> None:
    import numpy as np

    matrix = np.random.default_rng(1).random((1000, 1000)) + 1000.0 * np.eye(1000)
    np.linalg.solve(matrix, matrix[0])


def one_section() -> Callable[[], object]:
    """A basement edge solved with its estimate, in a process that is warm."""
    from underpour.physics.conduction.shapes import Films
    from underpour.physics.conduction.solve import Climate, solve

    def box(x0: float, x1: float, y0: float, y1: float) -> tuple[tuple[float, float], ...]:
        return (x0, y0), (x1, y0), (x1, y1), (x0, y1)

    bodies = [
        SimpleNamespace(outline=box(-12.0, 4.0, -14.0, 0.6), conductivity=1.5, heat_capacity=3.0e6, priority=9),
        SimpleNamespace(outline=box(0.0, 4.0, -0.1, 0.0), conductivity=1.7, heat_capacity=2.2e6, priority=3),
        SimpleNamespace(outline=box(0.0, 4.0, -0.1508, -0.1), conductivity=0.0356, heat_capacity=3.0e4, priority=4),
        SimpleNamespace(outline=box(-0.2, 0.0, -0.1508, 1.2), conductivity=1.7, heat_capacity=2.2e6, priority=2),
        SimpleNamespace(outline=box(-0.35, 0.15, -0.4008, -0.1508), conductivity=1.7, heat_capacity=2.2e6, priority=2),
    ]
    spaces = [
        SimpleNamespace(where="room", outline=box(0.0, 4.0, 0.0, 1.2)),
        SimpleNamespace(where="outdoors", outline=box(-12.0, -0.2, 0.6, 1.2)),
    ]
    films = {"room": Films(0.17, 0.13, 0.10), "outdoors": Films(0.04, 0.04, 0.04)}
    climates = {"room": Climate(20.0), "outdoors": Climate(8.2, -15.9)}
    return lambda: solve(bodies, spaces, films, climates)


def main() -> int:
    with tempfile.TemporaryDirectory() as folder:
        bad, picture = Path(folder) / "bad.toml", Path(folder) / "picture.svg"
        bad.write_text(DEMO.read_text(encoding="utf-8").replace('"2 in"', '"2"'), encoding="utf-8")
        solve = one_section()
        solve()
        rows = [
            ("help, whole process", best(7, process("--help")), 0.1),
            ("a brief that cannot be used, whole process", best(5, process("answer", bad)), 0.4),
            ("one section with its estimate, warm", best(9, solve), 0.06),
            (
                "the demo's alternatives side by side, whole process",
                best(3, process("compare", DEMO, "-o", picture)),
                2.0,
            ),
        ]
    machine = best(5, dense_solve)
    print(f"{'':52} {'here':>8} {'may take':>9} {'machine':>9}")
    for name, seconds, limit in rows:
        print(f"{name:52} {seconds:6.3f} s {limit:7.3f} s {seconds / machine:8.1f}x")
    print(f"Machine factor: a dense solve of 1000 unknowns takes {machine:.4f} s on one thread.")
    return int(any(seconds > limit for _, seconds, limit in rows))


if __name__ == "__main__":
    sys.exit(main())
