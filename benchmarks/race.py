"""One thing done in several ways, turn by turn in one process: medians, ratios, how far off each is, peak memory."""

from __future__ import annotations

import gc
import os
import signal
import sys
import time
import tracemalloc
from collections.abc import Callable, Iterable, Sequence
from dataclasses import dataclass, field
from math import isnan
from pathlib import Path
from statistics import median
from typing import Any

SHORT = 0.04  # s: what takes less is done several times a turn
MOST_AGAIN = 20
MEGA = 1e6
LONGEST = 300  # s that a child may take


@dataclass(frozen=True)
class Way:
    """One way of doing a thing."""

    name: str
    settings: str
    work: Callable[[], Any]
    off: Callable[[Any], float] | None = None  # how far its answer is from the reference, as a share
    times: float = 1.0  # how often the whole job holds what ``work`` does: peers do a sample of a long table
    memory: Callable[[], float] | None = None  # MB, where it is not this process that works
    goal: float | None = None  # how many times as long as ours it shall take
    absent: str = ""  # why it cannot be done here


@dataclass(frozen=True)
class Race:
    """Our way and those of peers, at one stated error."""

    theme: str
    key: str
    title: str
    ours: Way
    peers: tuple[Way, ...]
    allowed: float | None = None  # error that all ways are held to, as a share
    limit: float | None = None  # s: what ours may take
    cases: int = 1
    rate: float | None = None  # cases a second that ours shall reach
    turns: int = 7
    note: dict[str, Any] = field(default_factory=dict)


def raced(race: Race, turns: int | None = None) -> dict[str, Any]:
    """A row of the table, as it goes into the JSON."""
    ways = [race.ours, *(peer for peer in race.peers if not peer.absent)]
    answers, first = [], []
    for way in ways:  # once before: libraries are loaded, caches are as warm as they get
        began = time.perf_counter()
        answers.append(way.work())
        first.append(time.perf_counter() - began)
    memory = [way.memory() if way.memory else peak(way.work) for way in ways]
    taken = interleaved([way.work for way in ways], turns or race.turns, first)
    told = [
        {
            "name": way.name,
            "settings": way.settings,
            "seconds": [each * way.times for each in turn],
            "median": median(turn) * way.times,
            "off": None if way.off is None else float(way.off(answer)),
            "memory": None if isnan(mega) else mega,
        }
        for way, answer, turn, mega in zip(ways, answers, taken, memory, strict=True)
    ]
    here = told[0] | {
        "limit": race.limit,
        "rate": race.cases / told[0]["median"] if race.cases > 1 else None,
        "rate_goal": race.rate,
    }
    there = iter(told[1:])
    peers = [
        {"name": peer.name, "settings": peer.settings, "absent": peer.absent, "goal": peer.goal, "reached": None}
        if peer.absent
        else beside(here, next(there), peer.goal)
        for peer in race.peers
    ]
    return {
        "theme": race.theme,
        "key": race.key,
        "title": race.title,
        "allowed": race.allowed,
        "cases": race.cases,
        "here": here,
        "peers": peers,
        **race.note,
    }


def beside(here: dict[str, Any], peer: dict[str, Any], goal: float | None) -> dict[str, Any]:
    """A peer with how many times as long as ours it takes, and whether that is the goal."""
    ratio = peer["median"] / here["median"]
    return peer | {"ratio": ratio, "goal": goal, "reached": None if goal is None else ratio >= goal}


def interleaved(works: Sequence[Callable[[], Any]], turns: int, first: Sequence[float]) -> list[list[float]]:
    """Seconds of each work at each turn: all works one after another, each turn beginning with another one.

    What took ``first`` seconds at first and is short is done several times a turn, and the turn's median is taken.
    """
    again = [
        1 if cold > SHORT else max(1, min(MOST_AGAIN, int(SHORT / max(once(work), 1e-9))))
        for work, cold in zip(works, first, strict=True)
    ]
    taken: list[list[float]] = [[] for _ in works]
    for turn in range(turns):
        for place in range(len(works)):
            n = (turn + place) % len(works)
            gc.collect()
            taken[n].append(median(once(works[n]) for _ in range(again[n])))
    return taken


def once(work: Callable[[], Any]) -> float:
    began = time.perf_counter()
    work()
    return time.perf_counter() - began


def peak(work: Callable[[], Any]) -> float:
    """How much more memory the work needs at its largest than before it began. [MB]

    A child of this process does it once and looks at its own resident memory, so that what numpy and SuperLU ask the
    system for is counted. Where there are no such children, Python's own count stands in: it does not see SuperLU.
    """
    if not (hasattr(os, "fork") and Path("/proc/self/clear_refs").exists()):
        tracemalloc.start()
        work()
        most = tracemalloc.get_traced_memory()[1]
        tracemalloc.stop()
        return most / MEGA
    ear, mouth = os.pipe()
    sys.stdout.flush()
    child = os.fork()
    if child == 0:
        signal.alarm(LONGEST)  # a library with threads of its own may wait for one that no child gets
        said = "nan"
        try:
            said = str(_grown(work))
        finally:
            os.write(mouth, said.encode())
            os._exit(0)
    os.close(mouth)
    with os.fdopen(ear) as told:
        said = told.read()
    os.waitpid(child, 0)
    return float(said or "nan")


def _grown(work: Callable[[], Any]) -> float:
    gc.collect()
    handed_back()
    Path("/proc/self/clear_refs").write_text("5", encoding="ascii")  # the peak starts anew
    before = of_this_process("VmRSS")
    work()
    return of_this_process("VmHWM") - before


def handed_back() -> None:
    """Memory that was freed goes back to the system: otherwise the work takes it up again and none is seen to grow."""
    import ctypes

    trim = getattr(ctypes.CDLL(None), "malloc_trim", None)
    if trim:
        trim(0)


def of_this_process(what: str) -> float:
    """A line of what the system tells of this process. [MB]"""
    for line in Path("/proc/self/status").read_text(encoding="ascii").splitlines():
        if line.startswith(what + ":"):
            return float(line.split()[1]) * 1024 / MEGA
    raise LookupError(what)


def cheapest(tried: Iterable[tuple[Any, int, float]], allowed: float) -> Any:
    """The settings of a peer with the fewest unknowns among those near enough: the peer is told the answer.

    Each that is tried stands with its unknowns and how far off it is. Where none is near enough the nearest is taken,
    and its row says how far off it is.
    """
    found = list(tried)
    near = [one for one in found if abs(one[2]) <= allowed]
    return min(near, key=lambda one: one[1])[0] if near else min(found, key=lambda one: abs(one[2]))[0]
