"""What is sealed against soil gas, and what is left open."""

from __future__ import annotations

from dataclasses import replace

from ...catalogue import of_soil_gas
from ...findings import Basis, Finding, Step
from ...resolve import Resolved
from ...resolve.soil_gas import ResolvedSoilGas

ID = "soilgas.sealing"
KEY = "soil-gas.sealed"
CALLED = {
    "film-laps": "laps of the film",
    "film-edge": "the film's edge at wall and footing",
    "edge-joint": "the joint between slab and wall",
    "pipes": "pipes and cables through the slab",
    "cracks": "cracks of the old slab",
    "sump": "lids of sumps and pits",
    "block-tops": "open tops of hollow blocks",
}


def wanted(resolved: Resolved) -> tuple[str, ...]:
    """What there is to seal in this floor."""
    film = any(layer.film is not None for layer in resolved.floor)
    pits = any(thing.kind in ("pit", "drain") for thing in resolved.plan.floor.obstacles)
    blocks = any("block" in leaf.key or "masonry" in leaf.key for edge in resolved.edges for leaf in edge.wall)
    there = {
        "film-laps": film,
        "film-edge": film,
        "edge-joint": True,
        "pipes": True,
        "cracks": resolved.on_old_slab,
        "sump": pits,
        "block-tops": blocks,
    }
    return tuple(key for key, here in there.items() if here)


def sealed(resolved: Resolved, gas: ResolvedSoilGas) -> Finding:
    """What of this floor is left open to soil gas.

    Asks
        Is everything closed that gas comes through?
    Why
        Suction pulls on whatever is open: an unsealed joint feeds the fan with the room's own warm air, and the far
        corner gets none of it. Sealing alone seldom lowers the level enough.
    Worked out
        What there is to seal in this floor, less what the brief says is sealed.
    Holds for
        What the brief names. Cracks that come later are looked for again after the first winter.
    Source
        Common practice, no source; of sealing alone, the US Environmental Protection Agency's consumer's guide.
    """
    asked = wanted(resolved)
    alone = of_soil_gas("fell.sealing-alone")
    empty = Finding(
        ID,
        "Ways for soil gas that are left open",
        None,
        "count",
        basis=(Basis("common practice, no source", "what is sealed in a floor", "practice"), alone.basis()),
        rests_on=(KEY,),
    )
    less = f"Sealing alone lowered levels by {alone.low:.0f} to {alone.high:.0f} %."
    if gas.sealed is None:
        listed = ", ".join(CALLED[key] for key in asked)
        return replace(empty, missing=KEY, words=f"There is to seal: {listed}. {less}")
    open_ = [key for key in asked if key not in gas.sealed]
    left = ", ".join(CALLED[key] for key in open_)
    words = f"Left open: {left}. {less}" if open_ else f"Everything that this floor has to seal is sealed. {less}"
    steps = tuple(
        Step("n", CALLED[key], "sealed" if key in gas.sealed else "not told sealed", "0" if key in gas.sealed else "1")
        for key in asked
    )
    return replace(empty, value=float(len(open_)), limit=0.0, sense="at most", steps=steps, words=words)
