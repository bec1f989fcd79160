"""Height: does the build-up fit between the finished floor and the dug ground?"""

from __future__ import annotations

from collections.abc import Iterator

from ..findings import Basis, Finding, Step
from ..measure import say
from ..resolve import Resolved


def build_up(resolved: Resolved) -> Iterator[Finding]:
    """Thickness of the whole build-up against the depth that was dug.

    Asks
        How thick is it all, and does it fit?
    Why
        Foam that does not fit is thinned on site, where nobody works it out again.
    Worked out
        Sum of the layers; settlement and unevenness are not counted.
    Holds for
        Level ground below the whole floor.
    Source
        Arithmetic; the depth is the brief's own.
    """
    rows = [layer for layer in resolved.floor if layer.thickness > 0.0]
    rests_on = tuple(layer.rests_on[0] for layer in rows)
    total = resolved.total
    steps = (Step("h", "sum of the layers", " + ".join(f"{layer.thickness:.4f}" for layer in rows), f"{total:.4f} m"),)
    basis = (Basis("sum of the layers", "arithmetic", "derived"),)
    yield Finding(
        "height.total", "Thickness of the build-up", total, "m", within=0.0, basis=basis, rests_on=rests_on, steps=steps
    )
    dug = resolved.available_depth
    title = "Depth that the build-up needs"
    if dug is None:
        yield Finding(
            "height.depth",
            title,
            total,
            "m",
            within=0.0,
            basis=basis,
            rests_on=rests_on,
            steps=steps,
            missing="floor.available-depth",
            words="Give floor.available-depth, from the top of the finished floor to the dug ground.",
        )
        return
    over = total - dug
    words = ""
    if over > 0.0:
        more = say.both(over, "m", resolved.system)
        words = f"The build-up is {more} thicker than the depth that was dug. Dig deeper, or take thinner layers."
    yield Finding(
        "height.depth",
        title,
        total,
        "m",
        within=0.0,
        limit=dug,
        sense="at most",
        basis=basis,
        rests_on=(*rests_on, "floor.available-depth"),
        steps=steps,
        words=words,
    )
