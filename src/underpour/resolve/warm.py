"""The tube in a heated floor: where it lies, what runs in it, and what the room wants of it."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from typing import TypeVar

from ..brief.tables.tube import Tube
from ..catalogue import heated_floors
from ..catalogue.fluids import mixture
from ..catalogue.records import Quantity
from ..catalogue.tubes import tube_size
from ..findings import Assumed
from ..measure import System, say
from ..mistakes import Mistake
from .assumptions import Assumptions
from .resolved import Room, Slice
from .tubes import HeatedFloor, Water
from .usual import usual

POURED = ("concrete", "screed")
BENDS = 5.0  # times its diameter, that a tube turns round in when it comes back beside itself (practice)
LOAD = "tube.load"
Named = TypeVar("Named")


def heated_floor(
    typed: Tube,
    floor: Sequence[Slice],
    room: Room,
    coldest_month: float,
    system: System,
    assumed: Assumptions,
    found: list[Mistake],
) -> HeatedFloor | None:
    """The heated floor in numbers; None where something of it cannot be, which is then in ``found``."""
    lies_in = next((n for n, each in enumerate(floor) if each.kind in POURED), None)
    if lies_in is None:
        instead = "Lay concrete or screed in the build-up: tubes of panels without it are not answered yet."
        found.append(
            Mistake("tube", "", "No concrete and no screed stands in this floor for the tube to lie in.", instead)
        )
        return None
    layer = floor[lies_in]
    try:
        water = _water(typed, assumed) if typed.heat != "electric" else None
    except Mistake as mistake:
        found.append(mistake)
        return None
    outside = water.size.outside.value if water is not None else heated_floors.usual("cable").value / 1e3
    spacing = typed.spacing.si if typed.spacing else assumed.take(usual("tube-spacing").assumed("tube.spacing"))
    over = sum(each.thickness for each in floor[:lies_in])
    spare = layer.thickness - outside
    told = typed.depth_from_top.si if typed.depth_from_top else assumed.missing("tube.depth-from-top")
    depth = spare / 2.0 if told is None else told
    wrong = _lies_wrong(typed, layer, outside, spacing, depth, system)
    if wrong is not None:
        found.append(wrong)
        return None
    coldest = coldest_month - heated_floors.usual("colder-day").value
    return HeatedFloor(
        outside=outside,
        spacing=spacing,
        axis=over + depth + outside / 2.0,
        layer=lies_in,
        depth_told=told is not None,
        load=typed.load.si if typed.load else assumed.take(_envelope(room, coldest)),
        coldest=coldest,
        warm_within=typed.warm_within.si if typed.warm_within else None,
        water=water,
        rests_on=(*(("tube.size",) if water else ("tube.heat",)), "tube.spacing", "tube.depth-from-top", layer.path),
    )


def _water(typed: Tube, assumed: Assumptions) -> Water:
    """What runs in the tubes. Raises Mistake where a size or fluid is not known."""
    key = typed.size or assumed.take_word(_word("tube.size", "1/2 in", "the usual tube of a slab"))
    size = _named(tube_size, key, "tube.size")
    fluid = typed.fluid or assumed.take_word(_word("tube.fluid", "water", "what is in most floors"))
    longest = size.longest
    if typed.loop_limit is not None:
        most, path = typed.loop_limit.si, "tube.loop-limit"
        longest = Quantity(most, "m", most, most, longest.source, "as the brief says", "document", path)
    leader = typed.leader.si if typed.leader else assumed.take(usual("tube-leader").assumed("tube.leader"))
    if 2.0 * leader >= longest.value:
        said = f'"{typed.leader.typed}"' if typed.leader else ""
        raise Mistake("tube.leader", said, "There and back it leaves nothing of a loop.", "Move the manifold nearer.")
    return Water(
        size=size,
        fluid=_named(mixture, fluid, "tube.fluid"),
        drop=typed.drop.si if typed.drop else assumed.take(usual("tube-drop").assumed("tube.drop")),
        leader=leader,
        longest=longest,
        loops=typed.loops,
        source=typed.source or "",
    )


def _word(path: str, word: str, why: str) -> Assumed:
    return Assumed(path, word, None, None, "1", f"{why} (common practice, no source)")


def _named(of: Callable[[str], Named], key: str, path: str) -> Named:
    try:
        return of(key)
    except Mistake as mistake:
        raise mistake.placed(at=path) from None


def _lies_wrong(
    typed: Tube, layer: Slice, outside: float, spacing: float, depth: float, system: System
) -> Mistake | None:
    if depth + outside > layer.thickness:
        at = "tube.depth-from-top" if typed.depth_from_top else "tube.size"
        said = typed.depth_from_top.typed if typed.depth_from_top else typed.size or ""
        thick = say.both(layer.thickness, "m", system)
        return Mistake(at, f'"{said}"', f"So the tube lies below its layer, which is {thick} thick.", "Lay it higher.")
    if typed.heat == "electric":
        return None
    if spacing < BENDS * outside:
        least = say.both(BENDS * outside, "m", system)
        wrong = f"A tube of this size does not turn round so tightly; from tube to tube it needs {least} at the least."
        return Mistake("tube.spacing", f'"{typed.spacing.typed if typed.spacing else ""}"', wrong, "Space it wider.")
    return None


def _envelope(room: Room, coldest: float) -> Assumed:
    loses = usual("envelope")
    apart = max(room.mean - abs(room.swing) - coldest, 5.0)
    why = f"{loses.where}; {apart:.0f} K between the room and the coldest day (common practice, no source)"
    return Assumed(LOAD, loses.value * apart, loses.low * apart, loses.high * apart, "W/m²", why)
