"""Whether the floor covers what the room wants, and what would."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

from ...catalogue import heated_floors
from ...findings import Finding, Step
from ...measure import say
from ...measure.digits import fixed
from ...physics.warm_floor.cell import Cell
from ...resolve import Resolved
from ...resolve.tubes import HeatedFloor
from ..basis import conduction
from .floor import FOR_ANIMALS, rests_on, warmest_surface
from .water import warmest_supply
from .worked import Worked, cell_with, most_by_surface

CLOSER = 2.0  # times: the spacing that is tried where the floor gives too little


def output(resolved: Resolved, heated: HeatedFloor, made: Worked) -> Iterator[Finding]:
    """What the floor may give on the coldest day at the most, against what the room wants.

    Asks
        Does this floor keep the room warm on its coldest day, and what is left for something else if not?
    Why
        A floor gives what its surface may be warmer than the room, and no warmer water changes that.
    Worked out
        Heat up where the warmest place of the surface is at its limit, or the supply at what concrete and foam stand,
        whichever comes first.
    Holds for
        The whole floor with tubes in it. What furniture covers gives less.
    Source
        ISO 10211's section (from memory), the limits of ``warm.surface`` and ``warm.supply``.
    """
    by_surface = resolved.use.key not in FOR_ANIMALS
    if not by_surface and heated.water is None:
        return
    surface, _ = warmest_surface(resolved, made)
    water = warmest_supply(resolved)
    gives, by_feet = _most(resolved, heated, made, made.cell)
    limit = surface if by_feet else water
    lacks = heated.load - gives
    yield Finding(
        "warm.output",
        "What the floor may give on its coldest day, against what the room wants",
        gives,
        "W/m²",
        within=made.within * gives,
        month=made.month + 1,
        limit=heated.load,
        sense="at least",
        basis=(limit.basis(), *conduction()),
        rests_on=(*rests_on(resolved, heated), limit.path),
        steps=(
            Step("q", "wanted of the floor", "", f"{fixed(heated.load, 1)} W/m²"),
            Step(
                "q_max",
                "surface at its limit" if by_feet else "supply at its limit",
                f"{fixed(limit.value, 1)} °C",
                f"{fixed(gives, 1)} W/m²",
            ),
            Step("q", "left for something else", "", f"{fixed(max(lacks, 0.0), 1)} W/m²"),
        ),
        words="It covers the room." if lacks <= 0.0 else _what_would(resolved, heated, made, lacks),
    )


def idle(resolved: Resolved, heated: HeatedFloor, made: Worked) -> Finding:
    """That the floor needs no heat, where the ground gives the room more than the room wants.

    Asks
        Is this floor worth heating?
    Why
        Under a cool room in a mild place the ground is the warmer of the two.
    Worked out
        As for ``warm.output``: what tubes and ground hand to the room on the coldest day.
    Holds for
        The coldest day.
    Source
        ISO 10211's section (from memory).
    """
    given = say.both(-made.down, "W/m²", resolved.system)
    return Finding(
        "warm.output",
        "What the floor may give on its coldest day, against what the room wants",
        None,
        "W/m²",
        no_limit="does not apply",
        basis=conduction(),
        rests_on=rests_on(resolved, heated),
        words=f"The ground alone gives the room {given} on its coldest day, and it wants no more than that: this floor "
        "needs no heat.",
    )


def _most(resolved: Resolved, heated: HeatedFloor, made: Worked, cell: Cell) -> tuple[float, bool]:
    """The most that a cell may give, and whether the surface decides it. [W/m²]"""
    found = []
    if resolved.use.key not in FOR_ANIMALS:
        found.append((most_by_surface(made, cell, warmest_surface(resolved, made)[0].value), True))
    if heated.water is not None:
        excess = made.excess_of(warmest_supply(resolved).value - made.room)
        found.append((cell.up(made.room + excess, made.room, made.ground), False))
    return min(found)


def _what_would(resolved: Resolved, heated: HeatedFloor, made: Worked, lacks: float) -> str:
    short = say.both(lacks, "W/m²", resolved.system)
    whole = say.both(lacks * resolved.area, "W", resolved.system)
    told = [f"{short} are left, {whole} over the whole floor, for another source of heat or a tighter house."]
    bends = heated_floors.usual("bend").value
    if heated.panel is None and heated.spacing / CLOSER >= bends * heated.outside:
        closer = replace(heated, spacing=heated.spacing / CLOSER)
        gives, _ = _most(resolved, closer, made, cell_with(resolved, closer, made))
        apart = say.both(closer.spacing, "m", resolved.system)
        told.append(_tried(resolved, heated, f"Tubes {apart} apart", gives))
    if resolved.floor[0].covering is not None:
        bare = replace(resolved, floor=resolved.floor[1:])
        up = replace(heated, axis=heated.axis - resolved.floor[0].thickness, layer=heated.layer - 1)
        bare = replace(bare, heated=up)
        gives, _ = _most(bare, up, made, cell_with(bare, up, made))
        told.append(_tried(resolved, heated, "The floor without its covering", gives))
    return " ".join(told)


def _tried(resolved: Resolved, heated: HeatedFloor, what: str, gives: float) -> str:
    enough = "and covers it" if gives >= heated.load else "which is not enough either"
    return f"{what} may give {say.both(gives, 'W/m²', resolved.system)}, {enough}."
