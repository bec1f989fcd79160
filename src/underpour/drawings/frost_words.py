"""What pictures of frost say: names of stages and places, and the pictures in words."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from ..checks.frozen import Reach, Wintered
from ..measure import say
from ..measure.table import System

OPEN_GROUND = "open ground"
STAGES = {
    "in use": "in use",
    "open": "through the winter",
    "poured": "the slab lies open",
    "roofed": "closed, not heated",
    "heated": "first winter of heat",
    "heat-out": "heat out, two weeks",
    "vacant": "vacant",
}
PLACES = {"footing": "the footing", "middle": "the middle of the slab", "edge": "the slab's edge"}


def worst_place(winters: Sequence[Wintered]) -> str:
    """The place at which frost comes nearest to doing harm, or goes furthest past it, in any of an edge's stages."""
    places = [(reach.deepest - reach.stop, name) for each in winters for name, reach in _beside_none(each)]
    return max(places)[1]


def worst_winter(winters: Sequence[Wintered], place: str) -> Wintered:
    """The stage in which it goes furthest there; where it never comes, the one in which open ground freezes deepest."""
    return max(winters, key=lambda each: (each.reaches[place].deepest, each.reaches[OPEN_GROUND].deepest))


def _beside_none(wintered: Wintered) -> Iterator[tuple[str, Reach]]:
    return ((name, reach) for name, reach in wintered.reaches.items() if name != OPEN_GROUND)


def depth_words(depth: float, system: System) -> str:
    """A depth as a picture has it; below a millimetre there is none."""
    return say.value(depth, "m", system) if depth >= 1e-3 else "none"


def stop_words(place: str, stop: float, system: System) -> str:
    """Where frost does harm at a place."""
    if place == "footing":
        return f"the footing ends {say.value(stop, 'm', system)} below the ground"
    if stop > 0.0:
        return f"the drained layer ends {say.value(stop, 'm', system)} down"
    return "no drained layer lies below the build-up"


def frost_in_words(winters: Sequence[Wintered], system: System) -> str:
    """The picture of one edge, for whoever does not see it."""
    place = worst_place(winters)
    stop = winters[0].reaches[place].stop
    told = "; ".join(f"{STAGES[each.stage]} {depth_words(each.reaches[place].deepest, system)}" for each in winters)
    return f"Deepest frost at {PLACES[place]}: {told}; {stop_words(place, stop, system)}."
