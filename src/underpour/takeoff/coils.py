"""Loops cut from coils, so that none has a joint: which loop comes from which coil, and what is left."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Coils:
    """Coils of one length, and the loops that each gives."""

    length: float  # m, of one coil
    loops: tuple[float, ...]  # m, of each loop as it is cut, leaders and spare counted
    cuts: tuple[tuple[int, ...], ...]  # by coil: numbers of the loops cut from it, from 1

    @property
    def left(self) -> tuple[float, ...]:
        """What is left on each coil. [m]"""
        return tuple(self.length - sum(self.loops[n - 1] for n in cut) for cut in self.cuts)

    @property
    def bought(self) -> float:
        """Tube of all coils. [m]"""
        return self.length * len(self.cuts)


def coils(loops: Sequence[float], lengths: Sequence[float]) -> Coils | None:
    """The coil length that wastes least, and the loops by coil; None where a loop is longer than every coil.

    The longest loop goes first, each to the fullest coil that still has room for it.

    Arguments
    ---------
    loops
        Length of each loop. [m]
    lengths
        Of the coils that are sold; all coils of an order are alike. [m]

    Examples
    --------
    Three loops of 60 m: two coils of 120 m leave 60 m, one of 200 m leaves 20 m.

    >>> made = coils([60.0, 60.0, 60.0], [120.0, 200.0])
    >>> made.length, made.cuts, made.left
    (200.0, ((1, 2, 3),), (20.0,))
    """
    tried = [_from(loops, length) for length in lengths if length >= max(loops) - 1e-9]
    return min(tried, key=lambda each: (round(each.bought, 6), len(each.cuts)), default=None)


def _from(loops: Sequence[float], length: float) -> Coils:
    cuts: list[list[int]] = []
    room: list[float] = []
    for number in sorted(range(1, len(loops) + 1), key=lambda n: (-loops[n - 1], n)):
        wanted = loops[number - 1]
        fitting = [n for n, free in enumerate(room) if free >= wanted - 1e-9]
        if not fitting:
            cuts.append([])
            room.append(length)
            fitting = [len(room) - 1]
        fullest = min(fitting, key=lambda n: room[n])
        cuts[fullest].append(number)
        room[fullest] -= wanted
    return Coils(length, tuple(loops), tuple(map(tuple, cuts)))
