"""All that stands at places of the plan as it is pictured: what is felt over the whole floor, and what each uses."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from math import isfinite

import numpy as np
from numpy.typing import NDArray

from ...physics.plates.slab import Ring, Slab
from ...physics.plates.whole import Stood
from ...resolve import Resolved, Support
from .borne import Placed, Share, WholeFloor
from .carried import weakest
from .limits import Allowed
from .on_the_plan import concrete_held
from .plan import Placed as Stands
from .plan import parts, unknown_board
from .plates import counts_together
from .settlement import most
from .together import Together, together


def all_together(resolved: Resolved, support: Support) -> Together | None:
    """The floor under all that stands on the plan; None where that says no more than each load, or cannot be told."""
    if not counts_together(resolved):
        return None
    every = parts(resolved, support)
    if unknown_board(every, True) is not None or unknown_board(every, False) is not None:
        return None
    return together(resolved, support)


def whole_floor(resolved: Resolved, of: Together) -> WholeFloor:
    """Settlement and pressure over the floor under all that is there together, each load with what it uses."""
    case, (soft, stiff) = of.cases[-1]
    fields = of.over_the_floor(case)
    slab = next(each for each in reversed(of.worked) if case in each.names).slabs[0]
    shares = shares_of_all(resolved, of)
    return WholeFloor(
        of.together(case),
        fields[0],
        fields[1],
        (slab.outline, *slab.holes),
        tuple(part.outline for part in of.parts if part.outline is not None),
        tuple(_joints(slab)),
        tuple(
            Placed(_number(each), each.words, tuple(p.outline for p in each.pressed), shares[n])
            for n, each in enumerate(of.placed)
        ),
        max(float(found.pressure.max()) for found in (soft, stiff)),
        float(soft.settlement.max()),
        min(
            (allowed.stress for allowed in _bears(resolved, of, case == "standing") if allowed is not None),
            default=None,
        ),
    )


def _number(stands: Stands) -> str:
    """
    >>> _number(Stands("load 3", "load.3", True, ())), _number(Stands("the wall at edge A", "load.1.force", True, ()))
    ('3', 'A')
    """
    return stands.words.rpartition(" ")[2]


def _joints(slab: Slab) -> Iterator[Ring]:
    corners = np.asarray(slab.outline, float)
    for joint in slab.joints:
        axis = "yx".index(joint.across)  # along which it runs
        low = joint.start if isfinite(joint.start) else float(corners[:, axis].min())
        high = joint.end if isfinite(joint.end) else float(corners[:, axis].max())
        yield ((joint.at, low), (joint.at, high)) if joint.across == "x" else ((low, joint.at), (high, joint.at))


@dataclass(frozen=True, slots=True)
class _Part:
    """What one part may bear at places, and what it feels there."""

    name: str
    felt: NDArray[np.float64]  # Pa
    bears: NDArray[np.float64]  # Pa


def shares_of_all(resolved: Resolved, of: Together) -> tuple[tuple[Share, ...], ...]:
    """What each of what is placed uses, where it lies nearest; foam by what stands and by what comes and goes."""
    found: list[dict[str, Share]] = [{} for _ in of.placed]
    for case, pair in of.cases:
        for stood in pair:
            nearest, every = of.nearest(stood.x, stood.y), list(_parts(resolved, of, case, stood))
            for n, each in enumerate(of.placed):
                here = nearest == n
                if here.any() and (case == "all" or each.standing == (case == "standing")):
                    for part in every:
                        _keep(found[n], part, here)
    for n, each in enumerate(of.placed):
        stood = of.standing[0] if each.standing and of.standing is not None else of.cases[-1][1][0]
        here = of.nearest(stood.x, stood.y) == n
        if here.any():
            down = max(float(stood.settlement[here].max()), 0.0)
            found[n]["settlement"] = Share("settlement", down, most().value, "mm")
    return tuple(tuple(each.values()) for each in found)


def _keep(found: dict[str, Share], part: _Part, here: NDArray[np.bool_]) -> None:
    share = np.where(here, part.felt / part.bears, -np.inf)
    n = int(share.argmax())
    made = Share(part.name, max(float(part.felt[n]), 0.0), float(part.bears[n]))
    if part.name not in found or made.used > found[part.name].used:
        found[part.name] = made


def _parts(resolved: Resolved, of: Together, case: str, stood: Stood) -> Iterator[_Part]:
    at = of.part_at(stood.x, stood.y)
    bears = _bears(resolved, of, case == "standing")
    if case != "all" and any(part.support.boards for part in of.parts) and _all_told(of, bears):
        stress = np.array([np.inf if allowed is None else allowed.stress for allowed in bears])[at]
        yield _Part("foam", stood.pressure, stress)
    below = np.array([part.support.whole_weight - part.support.own_weight for part in of.parts])[at]
    ground = np.array([part.support.ground.bearing for part in of.parts])[at]
    yield _Part("ground", stood.pressure + below, ground)
    holds = concrete_held(resolved, of)
    tension = np.maximum(stood.below, stood.above)
    yield _Part("concrete", holds.on_load * tension, np.full(len(at), holds.bending))


def _bears(resolved: Resolved, of: Together, standing: bool) -> list[Allowed | None]:
    found = (weakest(resolved, part.support, standing=standing) for part in of.parts)
    return [None if each is None else each[1] for each in found]


def _all_told(of: Together, bears: list[Allowed | None]) -> bool:
    return all(allowed is not None for part, allowed in zip(of.parts, bears, strict=True) if part.support.boards)
