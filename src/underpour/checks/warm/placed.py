"""Where in its layer the tube lies: near the top, in the middle, at the bottom, over a hollow; and what that asks."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

from ...catalogue import heated_floors
from ...findings import Finding, Step
from ...measure import say
from ...measure.digits import fixed
from ...resolve import Resolved
from ...resolve.tubes import HeatedFloor
from ..basis import conduction
from .floor import rests_on
from .worked import Worked, cell_with

MILLI = 1e3
ON_IT = 0.006  # m: a tube that lies no higher above the board lies on it


def placed(resolved: Resolved, heated: HeatedFloor, made: Worked) -> Iterator[Finding]:
    """How much warmer the water must be for a tube at the bottom of its layer than for one near the top.

    Asks
        Is it worth lifting the tube, and what if it sinks in the pour?
    Why
        Tube that is tied to wire on the ground stays there: the wire is meant to be lifted, and seldom is.
    Worked out
        The section between two tubes with the tube near the top, in the middle and at the bottom of its layer, the same
        heat. Near the top it keeps a usual cover.
    Holds for
        The coldest day. Nearer to the top the floor answers sooner and its warmth is less even.
    Source
        ISO 10211's section (from memory); the cover is practice.
    """
    cover = heated_floors.usual("least-cover").value / MILLI
    over = sum(layer.thickness for layer in resolved.floor[: heated.layer])
    thick, half = resolved.floor[heated.layer].thickness, heated.outside / 2.0
    if heated.panel is not None or cover + heated.outside > thick / 2.0:
        return
    places = {"near the top": cover + half, "in the middle": thick / 2.0, "at the bottom": thick - half}
    water = {
        name: cell_with(resolved, replace(heated, axis=over + axis), made).water_for(made.up, made.room, made.ground)
        for name, axis in places.items()
    }
    more = water["at the bottom"] - water["near the top"]
    yield Finding(
        "warm.tube-depth",
        "How much warmer the water must be for a tube at the bottom than for one near the top",
        more,
        "K",
        within=made.within * made.excess,
        month=made.month + 1,
        basis=(heated_floors.usual("least-cover").basis(), *conduction()),
        rests_on=rests_on(resolved, heated),
        steps=tuple(
            Step(
                "θ_m",
                f"mean of the water, tube {name}",
                f"axis {fixed(1e3 * axis, 0)} mm down",
                f"{fixed(water[name], 1)} °C",
            )
            for name, axis in places.items()
        ),
        words="Whoever ties tube to wire lifts the wire in the pour, or stands it on chairs: then nobody guesses.",
    )


def hollow(resolved: Resolved, heated: HeatedFloor, made: Worked) -> Iterator[Finding]:
    """How much warmer the water must be where air stays below a tube that lies on its board.

    Asks
        What if the concrete does not get below the tube?
    Why
        On a panel or board the tube touches what it lies on, and stiff concrete leaves a hollow that nobody sees.
    Worked out
        The section between two tubes, a hollow as wide as the tube below it, from none to the most that is usual.
    Holds for
        A tube that lies on its board, or between a panel's knobs.
    Source
        ISO 10211's section (from memory); how high hollows are is practice.
    """
    bottom = sum(layer.thickness for layer in resolved.floor[: heated.layer + 1])
    below = resolved.floor[heated.layer + 1 : heated.layer + 2]
    left = bottom - heated.axis - heated.outside / 2.0
    if not below or below[0].kind != "board" or (heated.panel is None and left > ON_IT):
        return
    high = heated_floors.usual("hollow")
    least, usual, most = (min(each / MILLI, left) for each in (high.low, high.value, high.high))
    if not usual > 0.0:
        return
    plain = made.room + made.excess
    warmer = {
        each: cell_with(resolved, heated, made, hollow=each).water_for(made.up, made.room, made.ground) - plain
        for each in (least, usual, most)
    }
    yield Finding(
        "warm.hollow",
        "How much warmer the water must be where air stays below the tubes",
        warmer[usual],
        "K",
        within=made.within * made.excess,
        month=made.month + 1,
        basis=(high.basis(), *conduction()),
        rests_on=(*rests_on(resolved, heated), high.path),
        steps=tuple(
            Step("Δθ", f"hollow of {fixed(MILLI * each, 1)} mm", "", f"{fixed(more, 2)} K")
            for each, more in warmer.items()
        ),
        words=f"From {say.both(min(warmer.values()), 'K', resolved.system)} to "
        f"{say.both(max(warmer.values()), 'K', resolved.system)}. A flowing screed fills it; "
        "concrete is worked in round the tubes.",
    )
