"""Whole processes as a person waits for them, beside bare processes that load what the work needs."""

from __future__ import annotations

import importlib.util
import os
import subprocess
import sys
import tempfile
from collections.abc import Callable
from pathlib import Path

from .posed import DEMO, ROOT
from .race import MEGA, Race, Way

THEME = "process"
FOLDER = tempfile.TemporaryDirectory(prefix="underpour-bench-")  # holds what the processes write, until the end
SMALLEST, GROWTH = 0.02, 0.5  # the peer's grid: m beside every line, and how fast it widens
LIBRARIES = "import numpy, scipy.sparse.linalg, pydantic, contourpy"
UNDERPOUR = ("-m", "underpour")


WATCH = """
import resource, subprocess, sys
subprocess.call(sys.argv[1:], stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL)
print(resource.getrusage(resource.RUSAGE_CHILDREN).ru_maxrss)
"""


class Process:
    """A command, started anew each time. Compiled files of all ways are kept in one folder, as Python keeps them."""

    def __init__(self, *words: object, before: Path | None = None):
        self.command = [sys.executable, *map(str, words)]
        paths = [str(before)] if before else [str(ROOT / "src"), str(ROOT)]
        kept = os.environ.get("PYTHONPATH", "").split(os.pathsep) if not before else []
        self.surroundings = dict(os.environ, PYTHONPATH=os.pathsep.join([*paths, *filter(None, kept)]))
        self.surroundings |= {"PYTHONPYCACHEPREFIX": str(folder() / "compiled")}
        self.surroundings.pop("PYTHONDONTWRITEBYTECODE", None)

    def __call__(self) -> None:
        done = subprocess.run(self.command, cwd=ROOT, env=self.surroundings, capture_output=True, check=False)
        if done.returncode > 2:
            raise RuntimeError(f"{' '.join(self.command)} ended with {done.returncode}: {done.stderr.decode()}")

    def memory(self) -> float:
        """Its resident memory at its largest, libraries and all, seen by a small process that starts it. [MB]

        Seen from here it would be no less than this process holds: a child counts from what its parent had.
        """
        if importlib.util.find_spec("resource") is None:
            return float("nan")
        watch = [sys.executable, "-S", "-c", WATCH, *self.command]
        told = subprocess.run(watch, cwd=ROOT, env=self.surroundings, capture_output=True, text=True, check=True)
        return float(told.stdout) * (1.0 if sys.platform == "darwin" else 1024.0) / MEGA


def way(name: str, settings: str, work: Process, goal: float | None = None) -> Way:
    return Way(name, settings, work, memory=work.memory, goal=goal)


def folder() -> Path:
    return Path(FOLDER.name)


def six() -> None:
    """What an answer to the demo solves, by the peer: three alternatives, two sets of films."""
    from underpour.brief import read
    from underpour.resolve import resolve
    from underpour.sections.build import section

    from .peer import Climate, second_way

    reading = read(str(DEMO))
    for brief in (reading.brief, *(brief for _, brief in reading.alternatives)):
        resolved = resolve(brief)
        cut = section(resolved, resolved.edges[0])
        for _ in range(2):
            outdoors = Climate(resolved.outdoor_mean, resolved.outdoor_swing)
            second_way(cut, Climate(resolved.room.mean), outdoors, smallest=SMALLEST, growth=GROWTH)


def races(tiny: bool = False, before: Path | None = None) -> list[Race]:
    bare = way("a bare process", 'python -c ""', Process("-c", ""))
    if tiny:
        return [
            Race(
                THEME, "help", "Help", way("here", "underpour --help", Process(*UNDERPOUR, "--help")), (bare,), turns=1
            )
        ]
    bad, picture = folder() / "bad.toml", folder() / "picture.svg"
    bad.write_text(DEMO.read_text(encoding="utf-8").replace('"2 in"', '"2"'), encoding="utf-8")
    reader = way("a process that loads pydantic", "", Process("-c", "from pydantic import BaseModel"))
    libraries = way("a process that loads the libraries", LIBRARIES, Process("-c", LIBRARIES))
    sections = way(
        "six sections by scikit-fem, whole process",
        f"ElementTriP2, {1000 * SMALLEST:g} mm growing by {GROWTH:g}; spsolve (COLAMD), mean and harmonic, no estimate",
        Process("-c", "from benchmarks.process import six; six()"),
    )
    answered: Callable[..., Process] = lambda before=None: Process(*UNDERPOUR, "answer", DEMO, "--json", before=before)  # noqa: E731
    earlier = (way("this project before", f"its source at {before_name(before)}", answered(before)),) if before else ()
    return [
        Race(THEME, "help", "Help", way("here", "underpour --help", Process(*UNDERPOUR, "--help")), (bare,), limit=0.1),
        Race(
            THEME, "bad-brief", "A brief that cannot be used",
            way("here", "underpour answer", Process(*UNDERPOUR, "answer", bad)), (reader,), limit=0.4,
        ),
        Race(
            THEME, "answer", "The demo answered, three alternatives",
            way("here", "underpour answer --json", answered()), (*earlier, sections, libraries), limit=2.0, turns=5,
        ),
        Race(
            THEME, "compare", "The demo compared, with its picture",
            way("here", "underpour compare -o", Process(*UNDERPOUR, "compare", DEMO, "-o", picture)),
            (sections,), limit=2.0, turns=5,
        ),
    ]  # fmt: skip


def before_name(before: Path | None) -> str:
    """The commit of an earlier source where git knows it, else the folder that it stands in."""
    told = subprocess.run(
        ["git", "-C", str(before), "log", "-1", "--format=%h of %cs"], capture_output=True, text=True, check=False
    )
    return told.stdout.strip() or (before.parent.name if before else "")
