"""Height: does the build-up fit between the finished floor and the dug ground, or an old slab that stays?"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import replace

from ..findings import Basis, Finding, Step
from ..measure import say
from ..resolve import Resolved, Slice

NANOMETRE = 9  # places: 5 in, 2 in and 5 in are 12 in, whatever is lost in adding their metres up
BASIS = (Basis("sum of the layers", "arithmetic", "derived"),)


def build_up(resolved: Resolved) -> Iterator[Finding]:
    """Thickness of the whole build-up, and of what is laid now against the depth that is there.

    Asks
        How thick is it all, and does it fit?
    Why
        Foam that does not fit is thinned on site, where nobody works it out again.
    Worked out
        Sum of the layers; settlement and unevenness are not counted. On an old slab only what lies above it must fit.
    Holds for
        Level ground, or a level old slab, below the whole floor.
    Source
        Arithmetic; the depth is the brief's own.
    """
    yield Finding(
        "height.total",
        "Thickness of the build-up",
        resolved.total,
        "m",
        within=0.0,
        basis=BASIS,
        rests_on=_paths(resolved.floor),
        steps=(_sum(resolved.floor, "sum of the layers"),),
    )
    yield _depth(resolved)


def _depth(resolved: Resolved) -> Finding:
    old, laid = resolved.on_old_slab, resolved.laid
    needed = round(sum(layer.height for layer in laid), NANOMETRE)
    there = None if resolved.available_depth is None else round(resolved.available_depth, NANOMETRE)
    title = "Height that the new floor needs above the old slab" if old else "Depth that the build-up needs"
    made = Finding(
        "height.depth",
        title,
        needed,
        "m",
        within=0.0,
        basis=BASIS,
        rests_on=_paths(laid),
        steps=(_sum(laid, "sum of the layers above the old slab" if old else "sum of the layers"),),
    )
    lost = _lost(needed, resolved) if old else ""
    if there is None:
        down_to = "the top of the old slab" if old else "the dug ground"
        asked = f"Give floor.available-depth, from the top of the finished floor to {down_to}."
        return replace(made, missing="floor.available-depth", words=f"{asked} {lost}".strip())
    words = lost
    if needed > there:
        more = say.both(needed - there, "m", resolved.system)
        words = (
            f"The new floor is {more} thicker than the height above the old slab. Take thinner layers, or have the old "
            f"slab broken out. {lost}"
            if old
            else f"The build-up is {more} thicker than the depth that was dug. Dig deeper, or take thinner layers."
        )
    return replace(
        made,
        limit=there,
        sense="at most",
        rests_on=(*made.rests_on, "floor.available-depth"),
        words=words.strip(),
    )


def _lost(needed: float, resolved: Resolved) -> str:
    """What a floor that rises takes from the room."""
    if not needed:
        return ""
    rise = say.both(needed, "m", resolved.system)
    lose = f"Doors, sills, headroom and the lowest step of a stair lose {rise}"
    return f"{lose} above the old slab, less what is taken off it."


def _paths(layers: Sequence[Slice]) -> tuple[str, ...]:
    return tuple(layer.rests_on[0] for layer in layers if layer.thickness > 0.0)


def _sum(layers: Sequence[Slice], formula: str) -> Step:
    sizes = [layer.height for layer in layers if layer.height > 0.0]
    numbers = " + ".join(f"{size:.4f}" for size in sizes) or "no layer"
    return Step("h", formula, numbers, f"{sum(sizes):.4f} m")
