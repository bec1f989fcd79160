"""A slab that is pushed sideways on its film."""

from __future__ import annotations

from collections.abc import Iterator

from ... import catalogue
from ...findings import Basis, Finding, Step
from ...measure import say
from ...measure.digits import fixed
from ...resolve import Resolved, Support
from .limits import KILO
from .plates import slab_weight

ID, TITLE = "bearing.sliding", "Friction that holds the slab against what pushes it sideways"
FRICTION = Basis("Coulomb", "push over weight is the friction that is needed", "derived")


def pushed(resolved: Resolved, support: Support) -> Iterator[Finding]:
    """Friction that the slab needs under what pushes sideways against what was tested, over a factor.

    Asks
        Does the slab slide on its film when trucks brake, or the ground shakes?
    Why
        A film on smooth foam is made to let a slab slide as it shrinks; it does not know what pushes.
    Worked out
        All that pushes sideways, at once and one way, over the weight of the slab and of what stands all over it for
        good. Walls and footings that stop the slab are not counted.
    Holds for
        A slab in one piece. Earthquakes shake what stands on it as well: which force counts, and what ties the slab, is
        an engineer's.
    Source
        Coulomb; IBC 2018 1807.2.3 for the factor (from memory). Published figures of friction differ threefold, so none
        is taken: it is typed as tested, or it cannot be told.
    """
    push = sum(load.sideways for load in resolved.loads)
    if not push:
        return
    even = sum(
        load.pressure or 0.0
        for load in resolved.loads
        if load.place == "everywhere" and load.standing and not load.before_pour
    )
    weight = (slab_weight(support) + even) * resolved.area
    needed = push / weight
    usual, factor = catalogue.of_slabs("film-friction"), catalogue.of_slabs("held-from-sliding")
    said = (
        f"{say.both(push, 'N', resolved.system)} push the slab sideways: it needs a friction of {fixed(needed, 3)} "
        "below it, nothing else holding it. "
    )
    if support.friction is None:
        words = (
            f"{said}How it slides on this film nobody tested; {usual.low:g} to {usual.high:g} are common; which of "
            "them holds an engineer says, and what ties the slab. Write friction = 0.4 in [floor], as tested."
        )
        yield Finding(ID, TITLE, None, "1", missing="floor.friction", words=words)
        return
    limit = support.friction / factor.value
    mend = "" if needed <= limit else " Tie it to footings or walls, as an engineer says."
    yield Finding(
        ID,
        TITLE,
        needed,
        "1",
        within=0.0,
        limit=limit,
        sense="at most",
        basis=(FRICTION, Basis("the brief", "floor.friction", "document"), factor.basis()),
        rests_on=(
            *(f"{load.path}.sideways" for load in resolved.loads if load.sideways),
            *support.concrete.paths,
            "floor.friction",
            factor.path,
        ),
        steps=(
            Step(
                "μ",
                "push / weight",
                f"{fixed(push / KILO, 1)} kN / {fixed(weight / KILO, 1)} kN",
                fixed(needed, 3),
            ),
            Step("μ_0", "friction as tested / factor", f"{support.friction:g} / {factor.value:g}", fixed(limit, 3)),
        ),
        words=f"{said}{fixed(limit, 3)} may be counted on.{mend}",
    )
