"""Heated floors: what their water must be, what goes up and down, how warm the surface gets, and their loops."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from ...findings import Finding
from ...resolve import Resolved
from ..solved import SolvedEdge
from .seen import Heated


def told(resolved: Resolved, edges: Sequence[SolvedEdge]) -> Iterator[Finding]:
    """Everything that is said of a heated floor; nothing where no tubes lie in it."""
    heated = resolved.heated
    if heated is None or resolved.outdoors:
        return
    from .electric import power
    from .floor import heat_down, surface
    from .tubes import loop_length, pressure
    from .warming import warm_up_time
    from .water import source, water
    from .worked import worked

    made = worked(resolved, heated, edges)
    yield surface(resolved, heated, made)
    if heated.water is not None and made.running is not None:
        yield water(resolved, heated, heated.water, made)
    else:
        yield power(resolved, heated, made)
    yield from heat_down(resolved, heated, made)
    yield warm_up_time(resolved, heated, made)
    if heated.water is not None and made.running is not None:
        yield from source(resolved, heated, heated.water, made)
        yield loop_length(resolved, heated, heated.water, made.running)
        yield pressure(heated.water, made.running)


def pictured(resolved: Resolved, edges: Sequence[SolvedEdge], said: Sequence[Finding]) -> Heated | None:
    """A heated floor as it is drawn, with the limits of what was ``said``; None where no tubes lie in it."""
    if resolved.heated is None or resolved.outdoors or not any(each.id == "warm.surface" for each in said):
        return None
    from .to_draw import drawn

    return drawn(resolved, resolved.heated, edges, said)
