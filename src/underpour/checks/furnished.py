"""Humidity of the floor below a rug, a bed, a cupboard, month by month, against mould."""

from __future__ import annotations

from calendar import month_name
from collections.abc import Iterator, Sequence

from .. import catalogue
from ..catalogue.records import Furnishing
from ..findings import Finding, Step
from ..measure import say
from ..measure.digits import fixed
from ..physics.ground.patch import below_a_patch
from ..physics.moisture import air
from ..resolve import Resolved
from .basis import basis, conduction
from .humid import MOULD, PATH
from .solved import SolvedEdge, floor_rests_on
from .vapour import Profile, profile


def below(resolved: Resolved, edges: Sequence[SolvedEdge]) -> Iterator[Finding]:
    """Humidity at the floor below each thing that the brief names, a metre from the wall, in every month.

    Asks
        Does mould grow below the rug or the bed?
    Why
        What lies on a floor keeps the room's warmth off it and lets its damp through: the floor below it is colder and
        damper than beside it.
    Worked out
        The heat that goes down through the open floor there, less by what is added to film, layers and the ground's
        resistance to a patch as large as the thing; the room's vapour over what saturates at the floor below it, as
        the month's mean.
    Holds for
        The middle of the thing, a month's mean. A sleeper's vapour is not counted, nor that film and fill are damp.
    Source
        ISO 13788:2012, 5.3; Carslaw and Jaeger 1959, 8.2, for the patch (both from memory); resistances and areas by
        the catalogue's furnishings.
    """
    if resolved.damp is None or resolved.use.cold_floor:
        return
    for thing in resolved.furnished:
        told = [(edge, _warmth(resolved, line, thing), line) for edge in edges for line in _lines(resolved, edge)]
        if told:
            edge, warmth, line = min(told, key=lambda each: min(each[1]))
            yield _held(resolved, edge, line, thing, warmth)


def _lines(resolved: Resolved, edge: SolvedEdge) -> Iterator[Profile]:
    if "edge" in edge.points:
        yield profile(resolved, edge, "edge")


def _warmth(resolved: Resolved, line: Profile, thing: Furnishing) -> tuple[float, ...]:
    """Of the floor below it, month by month. [degC]"""
    assert resolved.damp is not None
    layers = sum(layer.resistance for layer in line.layers)
    area, ground = thing.area.value, resolved.ground_below.conductivity
    return tuple(
        below_a_patch(room, float(under), line.film, layers, thing.resistance.value, area, ground)
        for room, under in zip(resolved.damp.warmth, line.warmth[:, -1], strict=True)
    )


def _held(resolved: Resolved, edge: SolvedEdge, line: Profile, thing: Furnishing, warmth: Sequence[float]) -> Finding:
    damp = resolved.damp
    assert damp is not None
    allowed = catalogue.limit("mould-surface-humidity")
    full = [air.saturation_pressure(degrees) for degrees in warmth]
    low, high = (tuple(100.0 * p / most for p, most in zip(each, full, strict=True)) for each in damp.room)
    best, worst = max(low), max(high)
    open_to = not damp.told and (best <= allowed.value) != (worst <= allowed.value)
    months, room = (low, damp.room[0]) if best > allowed.value else (high, damp.room[1])
    value = max(months)
    m = months.index(value)
    degrees = say.value(warmth[m], "degC", resolved.system)
    if open_to:
        words = (
            f"Below {thing.label} it is {best:.0f} to {worst:.0f} % humid, by how humid it is outdoors. Type the "
            "twelve means of the nearest weather station."
        )
    else:
        month = month_name[m + 1]
        words = f"In {month} the floor below {thing.label} is at {degrees} and the air there {value:.0f} % humid."
        if value > allowed.value:
            words += " Mould grows there. Let air below it, or keep the room's air drier."
    return Finding(
        MOULD,
        f"Humidity below {thing.label}, most humid month, against mould",
        None if open_to else value,
        "%",
        at={"edge": edge.edge.letter, "film": "heat", "surface": "floor", "below": thing.key},
        month=None if open_to else m + 1,
        months=None if open_to else months,
        limit=None if open_to else allowed.value,
        sense=None if open_to else "at most",
        basis=(
            basis("iso-13788-2012", "5.3: humidity at surfaces"),
            allowed.basis(),
            thing.resistance.basis(),
            *conduction(),
        ),
        rests_on=(
            *floor_rests_on(resolved),
            *edge.rests_on,
            *damp.rests_on,
            "floor.furnishing",
            thing.resistance.path,
            thing.area.path,
            allowed.path,
        ),
        steps=(
            Step("R", f"of {thing.label}, beside the film", "", f"{fixed(thing.resistance.value, 2)} m²·K/W"),
            Step(
                "θ",
                f"below {thing.label}, by what film, layers and ground let through",
                f"underside {fixed(float(line.warmth[m, -1]), 2)} °C",
                f"{fixed(warmth[m], 2)} °C",
            ),
            Step("φ", "p / p_sat(θ)", f"{room[m]:.0f} / {full[m]:.0f}", f"{fixed(months[m], 1)} %"),
        ),
        words=words,
        missing=PATH if open_to else "",
    )
