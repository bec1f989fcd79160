"""Which foams crush below what stands or rolls on the slab: told once for each bed, not for each candidate."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from functools import partial

import numpy as np

from ..checks.bearing import bed as beds
from ..checks.bearing.carried import carried
from ..checks.bearing.foam import LONG, SHORT, TITLES
from ..checks.bearing.limits import KILO
from ..checks.bearing.plates import by_itself, plate_under
from ..findings import Finding
from ..mistakes import Mistake, Mistakes
from ..resolve import Resolved, ResolvedLoad, Support
from .bounds import PutAside
from .columns import Columns
from .wanted import Wanted


def by_loads(wanted: Wanted, columns: Columns) -> Iterator[PutAside]:
    """Floors whose foam feels more of a load than it bears.

    A stiffer bed presses harder: a floor on no stiffer a bed than one whose pressure is known feels no more, and one on
    no softer a bed no less. Only those between are worked out, as the least grade of foam is. What nobody can tell,
    and what the plan counts with all other loads, puts nothing aside.
    """
    resolved = wanted.resolved
    if not resolved.loads or resolved.support is None:
        return
    supports = [_support(wanted, n) for n in range(len(wanted.floors))]
    for load in resolved.loads:
        if load.before_pour or load.missing or (load.place != "everywhere" and by_itself(resolved, load)):
            continue
        felt = _Felt(resolved, load)
        short = [felt.short(support) if support is not None and support.boards else None for support in supports]
        first = next((each for each in short if each is not None), None)
        if first is not None and None in short:
            which = np.array([each is not None for each in short])
            yield PutAside(first, which[columns.floor], partial(_of_floor, short, columns, first))


def _of_floor(short: Sequence[Finding | None], columns: Columns, first: Finding, candidate: int) -> Finding:
    return short[columns.floor[candidate]] or first


def _support(wanted: Wanted, floor: int) -> Support | None:
    try:
        return wanted.with_these(wanted.floors[floor], wanted.edges[0]).support
    except (Mistake, Mistakes):
        return None


class _Felt:
    """One load on bed after bed."""

    def __init__(self, resolved: Resolved, load: ResolvedLoad) -> None:
        self._resolved, self._load = resolved, load
        self._known: list[tuple[float, float]] = []  # k of the stiff bed, N/m³, and the pressure on it, Pa

    def short(self, support: Support) -> Finding | None:
        """What is said where the foam below this slab feels more than it bears; None where it does not."""
        if beds.unknown(support, self._load.standing) is not None:
            return None
        lies = beds.bed(support, self._load.standing)
        bears = carried(self._resolved, support, self._load, lies, None).for_foam
        if bears is None:
            return None
        pressure = self._pressure(support, lies.stiff, bears)
        if pressure is None or pressure <= bears:
            return None
        return self._finding(support, pressure, bears)

    def _pressure(self, support: Support, stiff: float, bears: float) -> float | None:
        """What it feels at the least, as far as that tells whether it bears it. [Pa]"""
        if self._load.place == "everywhere":
            return self._load.pressure
        under = [felt for k, felt in self._known if stiff >= k and felt > bears]
        if under:
            return max(under)
        over = [felt for k, felt in self._known if stiff <= k and felt <= bears]
        if over:
            return min(over)
        plate = plate_under(self._resolved, support, self._load, stiff)
        if plate is None:
            return None
        self._known.append((stiff, plate.felt.pressure))
        return plate.felt.pressure

    def _finding(self, support: Support, pressure: float, bears: float) -> Finding:
        kind = LONG if self._load.standing else SHORT
        return Finding(
            kind,
            TITLES[kind],
            pressure / KILO,
            "kPa",
            at={"load": self._load.number, "method": "plate"},
            limit=bears / KILO,
            sense="at most",
            rests_on=("floor.build-up",),
            words=f"{self._load.words}: {support.boards[0].slice.label} feels more than it bears.",
        )
