"""What theory says of two answers: each relation solves a floor twice and tells how far they are from what it says.

No relation knows a right answer, so none can be wrong in the same way as the answer. Flows are compared as shares of
what enters and leaves, temperatures in kelvin.
"""

from __future__ import annotations

import random
from collections.abc import Callable, Sequence
from dataclasses import dataclass, replace
from itertools import combinations

import numpy as np

from floors_at_random import Floor, Layer, resolved
from underpour import cut
from underpour.checks import heat
from underpour.checks.solved import SolvedEdge
from underpour.physics.conduction.shapes import Films
from underpour.physics.conduction.solve import Climate, Solved
from underpour.sections.build import over_moving_water, section
from underpour.sections.parts import Section

Solving = Callable[..., tuple[Solved, ...]]
FILMS = {
    "room": Films(0.17, 0.13, 0.10),
    "outdoors": Films(0.04, 0.04, 0.04),
    "water": Films(1e-5, 1e-5, 1e-5),
}


@dataclass(frozen=True)
class Gap:
    """How far two answers are apart from what a relation says, and how far they may be by their own errors."""

    off: float
    within: float
    words: str = ""


def answered(floor: Floor, solving: Solving, system: str = "US") -> SolvedEdge:
    """The edge of a floor, the whole way from its brief."""
    return cut._each(resolved(floor, system), (), solving)[0]


def lost(solved: Solved) -> tuple[float, complex, float]:
    """What the room gives off for each kelvin that outdoors is colder; its swing; how far both may be off. [W/(m·K)]"""
    told = solved.flow(lambda faces: faces.space == 0)
    apart = solved.climates[0].mean - solved.climates[1].mean
    return told.mean / apart, told.swing / apart, told.within / abs(apart)


def less_foam_loses_no_less(floor: Floor, thinner: Floor, solving: Solving) -> Gap:
    """Rayleigh's principle: what conducts less somewhere, and more nowhere, carries less in all."""
    apart = resolved(floor).room.mean - resolved(floor).air_beside(resolved(floor).edges[0]).mean
    if abs(apart) < 1.0:
        return Gap(0.0, 0.0, "no difference that heat could follow")
    (more, _, a), (less, _, b) = (lost(answered(each, solving).heat) for each in (floor, thinner))
    return Gap(max(0.0, more / less - 1.0), (a + b) / less, f"{less:.5f} to {more:.5f} W/(m·K)")


def better_foam(floor: Floor, dice: random.Random, solving: Solving) -> Gap:
    if not floor.foams:
        return Gap(0.0, 0.0, "no foam")
    n = dice.randrange(len(floor.foams))
    better = floor.with_foam(n, conductivity=floor.foams[n].conductivity * dice.uniform(0.4, 0.9))
    return less_foam_loses_no_less(better, floor, solving)


def thicker_foam(floor: Floor, dice: random.Random, solving: Solving) -> Gap:
    if not floor.foams:
        return Gap(0.0, 0.0, "no foam")
    n = dice.randrange(len(floor.foams))
    return less_foam_loses_no_less(floor.with_foam(n, inches=floor.foams[n].inches + 1.0), floor, solving)


def split_layer(floor: Floor, dice: random.Random, solving: Solving) -> Gap:
    """A layer laid in two is that layer."""
    able = [n for n, layer in enumerate(floor.layers) if layer.board or layer.kind in ("gravel", "sand")]
    if not able:
        return Gap(0.0, 0.0, "nothing to split")
    n = dice.choice(able)
    whole, share = floor.layers[n], dice.choice((0.25, 0.5, 0.6))
    halves: list[Layer] = [replace(whole, inches=round(whole.inches * part, 6)) for part in (share, 1.0 - share)]
    two = replace(floor, layers=(*floor.layers[:n], *halves, *floor.layers[n + 1 :]))
    one, other = (answered(each, solving).heat for each in (floor, two))
    return of_the_room(one, other)


def of_the_room(one: Solved, other: Solved, times: float = 1.0) -> Gap:
    """The room's heat in two answers, the other's through ``times``, as a share of the largest flow of any space.

    The room's own would be no measure where hardly any heat leaves it, as over warm water that runs to cold air.
    """
    a, b = (each.flow(lambda faces: faces.space == 0) for each in (one, other))
    flows = [one.flow(lambda faces, n=n: faces.space == n) for n in range(len(one.climates))]
    size = max(abs(flow.mean) + abs(flow.swing) for flow in flows)
    off = abs(a.mean - b.mean / times) + abs(a.swing - b.swing / times)
    return Gap(off / size, (a.within + b.within / times) / size)


def posed(floor: Floor) -> tuple[Section, dict[str, Climate]]:
    made = resolved(floor)
    edge = made.edges[0]
    beside = made.air_beside(edge)
    climates = {
        "room": Climate(made.room.mean, made.room.swing),
        "outdoors": Climate(beside.mean, beside.swing),
        "water": Climate(made.ground_mean),
    }
    cut_ = section(made, edge)
    over = over_moving_water(made, edge, cut_)
    if over is not None:
        cut_ = replace(cut_, parts=over[0], airs=(*cut_.airs, over[1]))
    return cut_, climates


def mirrored(floor: Floor, dice: random.Random, solving: Solving) -> Gap:
    """A section seen from the other side."""
    made, climates = posed(floor)
    one = solving(made.parts, made.airs, [FILMS], climates)[0]
    parts, airs = (
        tuple(replace(each, outline=tuple((-x, y) for x, y in reversed(each.outline))) for each in some)
        for some in (made.parts, made.airs)
    )
    return of_the_room(one, solving(parts, airs, [FILMS], climates)[0])


def scaled(floor: Floor, dice: random.Random, solving: Solving) -> Gap:
    """Lengths and conductivities times s, capacities through s: the same temperatures, s times the heat."""
    s = dice.choice((0.5, 0.8, 1.25, 2.0))
    made, climates = posed(floor)
    one = solving(made.parts, made.airs, [FILMS], climates)[0]
    parts, airs = (
        tuple(replace(each, outline=tuple((s * x, s * y) for x, y in each.outline)) for each in some)
        for some in (made.parts, made.airs)
    )
    parts = tuple(
        replace(part, conductivity=part.conductivity * s, heat_capacity=part.heat_capacity / s) for part in parts
    )
    other = solving(parts, airs, [FILMS], climates)[0]
    return of_the_room(one, other, s)


def told(floor: Floor, system: str, solving: Solving) -> list[tuple[str, float | None, float | None]]:
    """What the checks of heat say of a floor, without the names in it."""
    made = resolved(floor, system)
    edges = cut._each(made, (), solving)
    found = [*heat.floor_loss(made, edges), *heat.edge(made, edges[0]), *heat.surface(made, edges[0])]
    return [(each.id, each.value, each.limit) for each in found]


def apart(one: Sequence, other: Sequence) -> Gap:
    if [(id, v is None, w is None) for id, v, w in one] != [(id, v is None, w is None) for id, v, w in other]:
        return Gap(np.inf, 0.0, f"{one} and {other}")
    values = ((a, b) for x, y in zip(one, other, strict=True) for a, b in zip(x[1:], y[1:], strict=True))
    off = [abs(a - b) / max(abs(a), 1.0) for a, b in values if a is not None]
    return Gap(max(off), 0.0)


def renamed(floor: Floor, dice: random.Random, solving: Solving) -> Gap:
    """Names are no numbers."""
    other = replace(floor, title="Another floor", name="north side")
    return apart(told(floor, "US", solving), told(other, "US", solving))


def other_units(floor: Floor, dice: random.Random, solving: Solving) -> Gap:
    """The same floor typed in metres and degrees Celsius."""
    return apart(told(floor, "US", solving), told(floor, "SI", solving))


def highest_and_lowest(floor: Floor, dice: random.Random, solving: Solving) -> Gap:
    """Maximum principle: no place is ever warmer or colder than all air is at some time of the year. [K]"""
    made, climates = posed(floor)
    solved = solving(made.parts, made.airs, [FILMS], climates)[0]
    means = [air.mean for air in solved.climates]
    ends = [(air.mean - abs(air.swing), air.mean + abs(air.swing)) for air in solved.climates]
    beyond = 0.0
    for grid in (solved.coarse, solved.fine):
        beyond = max(beyond, min(means) - grid.mean.min(), grid.mean.max() - max(means))
        for month in range(12):
            now = grid.mean + (grid.swing * np.exp(1j * np.pi * (month + 0.5) / 6.0)).real
            beyond = max(beyond, min(low for low, _ in ends) - now.min(), now.max() - max(high for _, high in ends))
    return Gap(beyond, 0.0)


def reciprocal(floor: Floor, dice: random.Random, solving: Solving) -> Gap:
    """What flows to b because a swings by one kelvin flows to a because b does; means alike."""
    made, climates = posed(floor)
    names = sorted({air.where for air in made.airs})
    flow = {}
    for name in names:
        only = {each: Climate(float(each == name), 1.0 + 0j if each == name else 0j) for each in climates}
        solved = solving(made.parts, made.airs, [FILMS], only)[0]
        for other in names:
            spaces = [n for n, air in enumerate(made.airs) if air.where == other]
            got = solved.flow(lambda faces, spaces=spaces: np.isin(faces.space, spaces))
            flow[name, other] = (got.mean, got.swing)
    off = 0.0
    for a, b in combinations(names, 2):
        (m, s), (n, t) = flow[a, b], flow[b, a]
        off = max(off, abs(m - n) / abs(flow[a, a][0]), abs(s - t) / abs(flow[a, a][1]))
    for name in names:  # and nothing is lost on the way
        off = max(off, abs(sum(flow[name, other][0] for other in names)) / abs(flow[name, name][0]))
    return Gap(off, 0.0)


RELATIONS = {
    each.__name__: each
    for each in (
        better_foam,
        thicker_foam,
        split_layer,
        mirrored,
        scaled,
        renamed,
        other_units,
        highest_and_lowest,
        reciprocal,
    )
}
