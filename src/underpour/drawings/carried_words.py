"""The pictures of loads in words, for someone who does not see them."""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np
from numpy.typing import NDArray

from ..checks.bearing import Borne, Share, WholeFloor
from ..measure import say
from ..measure.table import System


def plan_in_words(borne: Borne, system: System) -> str:
    """A load seen from above."""
    around = borne.around
    assert around is not None
    x, y = around.stiff.x, around.stiff.y
    row, column = worst_place(around.stiff.pressure)
    end = any(
        abs(float(v) - float(edge)) < 1e-3
        for v, ends in ((x[column], (x[0], x[-1])), (y[row], (y[0], y[-1])))
        for edge in ends
    )
    where = "at the edge of the slab" if end and around.edges else "below the load"
    foam = next((share for share in borne.alone if share.part == "foam"), None)
    bears = f", of {say.both(foam.bears / 1000.0, 'kPa', system)} that the foam bears" if foam else ""
    return (
        f"{borne.words}. The floor goes down by up to {say.both(1000.0 * around.settlement, 'mm', system)}; what lies "
        f"below it feels up to {say.both(around.pressure / 1000.0, 'kPa', system)}{bears}, {where}, and less and less "
        "further off."
    )


def section_in_words(borne: Borne, system: System) -> str:
    """A load cut through."""
    around = borne.around
    assert around is not None
    shares = "; ".join(
        f"{each.part} {say.both(each.told[0], each.unit, system)} of {say.both(each.told[1], each.unit, system)}"
        for each in borne.alone
    )
    layers = ", ".join(layer.words for layer in around.layers)
    return f"{borne.words}, cut through. From the top down: {layers}, ground. What is felt, of what may be: {shares}."


def shares_in_words(loads: Sequence[Borne]) -> str:
    """What each load uses."""
    return " ".join(
        f"{each.words}: " + ", ".join(f"{share.part} {percent_used(share)}" for share in each.shares) + "."
        for each in loads
        if each.shares
    )


def floor_in_words(floor: WholeFloor, loads: Sequence[Borne], system: System) -> str:
    """All that stands on the plan seen from above, and what each load uses."""
    bears = "" if floor.bears is None else f", where the foam bears {say.both(floor.bears / 1000.0, 'kPa', system)}"
    used = [f"{name}: {share.part} {percent_used(share)}" for _, name, share in worst_of_each(floor, loads)]
    return (
        f"{floor.words}. The floor goes down by up to {say.both(1000.0 * floor.settlement, 'mm', system)}; what lies "
        f"below it feels up to {say.both(floor.pressure / 1000.0, 'kPa', system)}{bears}. What governs each, and how "
        f"much of it is used: {'; '.join(used)}."
    )


def worst_of_each(floor: WholeFloor, loads: Sequence[Borne]) -> list[tuple[str, str, Share]]:
    """Number, name and the share that governs, of every load that is told and of walls on the slab, worst first."""
    known = {each.number: each.words for each in loads}
    told = [(each.number, f"load {each.number}", each.shares) for each in loads if each.shares]
    told += [(each.number, each.words, each.shares) for each in floor.placed if each.number not in known]
    found = [(number, name, max(shares, key=lambda share: share.used)) for number, name, shares in told if shares]
    return sorted(found, key=lambda each: -each[2].used)


def worst_place(values: NDArray[np.float32]) -> tuple[int, int]:
    """Row and column of the largest."""
    row, column = np.unravel_index(int(np.nanargmax(values)), values.shape)
    return int(row), int(column)


def percent_used(share: Share) -> str:
    """ "23 %"; of a part that has nothing left "more than it has" """
    return f"{100.0 * share.used:.0f} %" if share.used < 99.0 else "more than it has"
