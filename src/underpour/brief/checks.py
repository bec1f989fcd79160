"""Everything that the brief alone can tell, in one list."""

from __future__ import annotations

from collections.abc import Iterator

from ..mistakes import Mistake
from .bays import unclear_bays
from .bearing import unclear_loads
from .edges import one_edge, slab_thickness, unclear_names
from .joints import unclear_joints
from .layers import floor_layers, thick_or_wanted, wall_layers
from .loads import unclear_slab_loads
from .money import unclear_money
from .parts import Parts, tables_in
from .paths import letter
from .plans import readable_floor, unclear_plan, unclear_shape
from .ribs import unclear_ribs
from .rooms import no_room_over_it, unknown_use, unlikely_room
from .sides import unclear_sides
from .sites import unclear_site
from .soil_gas import unclear_soil_gas
from .stages import unclear_stages


def unbuildable(parts: Parts) -> Iterator[Mistake]:
    """What is wrong with the parts of a brief that could be read, each mistake with its path."""
    if parts.project is not None:
        yield from unknown_use(parts.project)
        if parts.floor is not None:
            yield from unlikely_room(parts.project, parts.floor)
        yield from no_room_over_it(parts.project, parts.floor, parts.edges)
    if parts.site is not None:
        yield from unclear_site(parts.site, parts.typed_site)
    if parts.plan is not None:
        yield from unclear_plan(parts.plan)
        floor = readable_floor(parts.plan)
        if floor is not None and parts.holes_known:
            yield from unclear_sides(parts.sides, floor, parts.plan)
    if parts.typed_layers is not None:
        yield from floor_layers(parts.typed_layers, "floor.build-up")
    names = [edge.get("name") for edge in parts.typed_edges]
    yield from unclear_names(names)
    yield from _edges(parts)
    called = [name if isinstance(name, str) else None for name in names]
    yield from unclear_loads(parts.loads, parts.edges, called)
    yield from unclear_slab_loads(parts, called)
    yield from unclear_joints(parts)
    yield from unclear_bays(parts)
    yield from unclear_ribs(parts)
    yield from unclear_soil_gas(parts)
    yield from unclear_stages(parts.stages, parts.project)
    yield from unclear_money(parts.money)


def _edges(parts: Parts) -> Iterator[Mistake]:
    slab = slab_thickness(parts.layers)
    for index, (edge, typed) in enumerate(zip(parts.edges, parts.typed_edges, strict=True)):
        at = f"edge.{letter(index)}"
        for key in ("wall", "above"):
            layers = tables_in(typed.get(key))
            if layers is not None:
                yield from wall_layers(layers, f"{at}.{key}")
        for number, piece in enumerate(tables_in(typed.get("insulation")) or (), start=1):
            yield from thick_or_wanted(piece, f"{at}.insulation.{number}")
        if edge is not None:
            yield from one_edge(edge, at, slab)
            for number, shape in enumerate(edge.shape, start=1):
                yield from unclear_shape(shape, f"{at}.shape.{number}")
