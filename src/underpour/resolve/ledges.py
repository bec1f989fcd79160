"""A ledge for brick: its sizes, and the air behind the brick as a layer that conducts."""

from __future__ import annotations

from collections.abc import Sequence

from .. import catalogue
from ..brief.tables.edge import Edge
from ..measure import System, say
from ..mistakes import Mistake
from .air_spaces import STILL_AIR
from .assumptions import Assumptions
from .resolved import Ledge, Slice
from .usual import size, usual


def resolve_ledge(
    edge: Edge,
    path: str,
    wall: Sequence[Slice],
    above: Sequence[Slice],
    stands_in: float,
    system: System,
    assumed: Assumptions,
) -> Ledge | None:
    """The ledge of an edge that has one. Raises Mistake where wall, brick and frame do not find room beside it."""
    if edge.kind != "ledge":
        return None
    typed, at = edge.ledge, f"{path}.ledge"
    width, width_words = size(typed.width if typed else None, "ledge-width", f"{at}.width", system, assumed)
    below, below_words = size(typed.below if typed else None, "ledge-below", f"{at}.below", system, assumed)
    thick, brick_words = size(typed.brick if typed else None, "ledge-brick", f"{at}.brick", system, assumed)
    whole, frame = (sum(layer.thickness for layer in layers) for layers in (wall, above))
    if whole - width < usual("ledge-inner").value - 1e-4:
        step, stays, least = (
            say.both(x, "m", system) for x in (width, max(whole - width, 0.0), usual("ledge-inner").value)
        )
        raise Mistake(
            f"{at}.width",
            "",
            f"A ledge of {step} leaves {stays} of this wall; common practice wants {least} at least.",
            "Make the wall thicker, or the ledge narrower. A structural engineer says what may stay.",
        )
    if thick > width - 1e-4:
        raise Mistake(
            f"{at}.brick",
            "",
            f"The brick leaf, {brick_words}, leaves no air on a ledge of {width_words}.",
            "Make the ledge wider than the brick by the air behind it, an inch or more.",
        )
    if frame - stands_in > whole - thick - 1e-4:
        said, room = (say.both(x, "m", system) for x in (frame, whole - thick))
        raise Mistake(
            f"{path}.above",
            "",
            f"The wall above, {said}, stands in the brick: {room} of the foundation wall are left for it and the air.",
            "Take a thinner wall above, or a thicker foundation wall.",
        )
    masonry = catalogue.material(usual("ledge-brick").material)
    brick = Slice(
        "masonry",
        "Brick",
        f"Brick, {brick_words}",
        thick,
        masonry.conductivity.value,
        masonry.heat_capacity.value,
        masonry.hatch,
        f"{at}.brick",
        (f"{at}.brick", masonry.conductivity.path),
    )
    air, in_step = _air(whole - thick - frame + stands_in, f"{at}.air"), _air(width - thick, f"{at}.air")
    rests_on = (f"{at}.width", f"{at}.below", *brick.rests_on, *air.rests_on, *in_step.rests_on)
    return Ledge(width, width_words, below, below_words, brick, air, in_step, tuple(dict.fromkeys(rests_on)))


def _air(thickness: float, path: str) -> Slice:
    """Air that does not move through, as a solid of the same resistance."""
    resistance, row = catalogue.air_layer(thickness)
    return Slice(
        "air-space",
        "Air",
        "Air behind the brick",
        thickness,
        thickness / resistance,
        STILL_AIR,
        "air",
        path,
        (row.path,),
    )
