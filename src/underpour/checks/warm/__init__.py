"""Heated floors: what their water must be, what goes up and down, how warm the surface gets, and their loops."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from typing import TYPE_CHECKING

from ...findings import Finding
from ...resolve import Resolved
from ..solved import SolvedEdge
from .seen import Heated

if TYPE_CHECKING:
    from ...resolve.tubes import HeatedFloor, Water
    from .worked import Running, Worked


def told(resolved: Resolved, edges: Sequence[SolvedEdge]) -> Iterator[Finding]:
    """Everything that is said of a heated floor; nothing where no tubes lie in it."""
    heated = resolved.heated
    if heated is None or resolved.outdoors:
        return
    from .first_heat import first_heat
    from .floor import heat_down, surface
    from .output import idle, output
    from .worked import worked

    made = worked(resolved, heated, edges)
    if made.up + made.down <= 0.0:
        yield idle(resolved, heated, made)
        return
    yield surface(resolved, heated, made)
    yield from output(resolved, heated, made)
    yield from _of_its_source(resolved, heated, made)
    yield from heat_down(resolved, heated, made)
    yield from _through_time(resolved, heated, made)
    yield first_heat(resolved, heated, made)
    yield from _of_its_laying(resolved, heated, made)
    if heated.water is not None and made.running is not None:
        yield from _of_its_loops(resolved, heated, heated.water, made, made.running)


def pictured(resolved: Resolved, edges: Sequence[SolvedEdge], said: Sequence[Finding]) -> Heated | None:
    """A heated floor as it is drawn, with the limits of what was ``said``; None where no tubes lie in it."""
    if resolved.heated is None or resolved.outdoors or not any(each.id == "warm.surface" for each in said):
        return None
    from .to_draw import drawn

    return drawn(resolved, resolved.heated, edges, said)


def _of_its_source(resolved: Resolved, heated: HeatedFloor, made: Worked) -> Iterator[Finding]:
    if heated.water is None:
        from .electric import power

        yield power(resolved, heated, made)
        return
    from .boiler import boiler
    from .water import heat_pump, water
    from .weather_curve import weather_curve

    yield water(resolved, heated, heated.water, made)
    yield weather_curve(resolved, heated, heated.water, made)
    if heated.water.source == "heat-pump":
        yield heat_pump(resolved, heated, made)
    if heated.water.source == "boiler":
        yield boiler(resolved, heated, heated.water, made)


def _through_time(resolved: Resolved, heated: HeatedFloor, made: Worked) -> Iterator[Finding]:
    from .warming import warm_up_time

    yield warm_up_time(resolved, heated, made)
    if heated.rest is not None:
        from .rest import come_back

        yield come_back(resolved, heated, made, heated.rest)


def _of_its_laying(resolved: Resolved, heated: HeatedFloor, made: Worked) -> Iterator[Finding]:
    from .covered import covered
    from .placed import hollow, placed
    from .strip import edge_strip

    yield from placed(resolved, heated, made)
    yield from hollow(resolved, heated, made)
    yield from covered(resolved, heated, made)
    if heated.edge_spacing is not None:
        yield edge_strip(resolved, heated, made, heated.edge_spacing)


def _of_its_loops(
    resolved: Resolved, heated: HeatedFloor, water: Water, made: Worked, running: Running
) -> Iterator[Finding]:
    from .freezing import freezing
    from .tubes import loop_length, pressure

    yield loop_length(resolved, heated, water, running)
    if water.lengths:
        from .balance import evenness

        yield evenness(resolved, heated, water, made, running)
    yield pressure(water, running)
    yield freezing(resolved, heated, water)
