"""Does a board belong below a slab at all?"""

from __future__ import annotations

from collections.abc import Iterator

from .. import catalogue
from ..findings import Finding, Step
from ..measure import System, say
from ..measure.digits import fixed
from ..resolve import Resolved
from .boards import LaidBoard, laid_boards

ID = "product.belongs"


def boards(resolved: Resolved) -> Iterator[Finding]:
    """Reasons against each board where it lies.

    Asks
        Is this a board that belongs below a slab and in the ground?
    Why
        What is made for dry walls and roofs takes up water in the ground and loses its R; what is made to fill or to
        pack is crushed. Neither is seen once the concrete is cast.
    Worked out
        The catalogue's reasons against the board, counted; for a board that is made for the ground, its tested strength
        against the least that is in use below a floor of this kind.
    Holds for
        Contact with the ground, and what a slab or a footing stands on. A board with evidence of its own may belong
        where its kind does not: the words say which evidence.
    Source
        Scopes and limits of the boards' standards, studies of buried boards and common practice, as each reason says.
    """
    for laid in laid_boards(resolved):
        known = catalogue.belonging(laid.board)
        if known.against:
            yield _unsuited(laid, known.says, known.evidence, resolved.system)
        else:
            yield _suited(laid, resolved)


def _title(laid: LaidBoard) -> str:
    return f"Reasons against {laid.board.label} below a slab"


def _unsuited(laid: LaidBoard, says: str, evidence: str, system: System) -> Finding:
    known, lies = catalogue.belonging(laid.board), laid.board.conductivity_in_place
    counted = say.both(lies.value, "W/(m·K)", system)
    return Finding(
        ID,
        _title(laid),
        float(len(known.against)),
        "count",
        at={"product": laid.board.key},
        within=0.0,
        limit=0.0,
        sense="at most",
        basis=(*known.basis, lies.basis()),
        rests_on=laid.paths,
        steps=tuple(
            Step(f"{number}", reason.says, reason.basis.clause, "against it")
            for number, reason in enumerate(known.against, start=1)
        ),
        words=f"{says} What would change that: {evidence}. Until then it is counted with {counted}, on the safe side.",
    )


def _suited(laid: LaidBoard, resolved: Resolved) -> Finding:
    known, strength = catalogue.belonging(laid.board), laid.board.strength
    least = catalogue.least_strength(resolved.use.key)
    weak = laid.carries and strength.value < least.value - 0.1  # kPa: a rounded psi
    words = known.says
    if weak:
        tested, wanted = (say.both(each, "kPa", resolved.system) for each in (strength.value, least.value))
        words = (
            f"{laid.board.label} is tested at {tested}. Below a floor of this use {wanted} is the least that is laid. "
            "Take a stronger board."
        )
    against = 1 if weak else 0
    carried = (
        Step(
            "σ",
            "tested strength, and the least in use below such a floor",
            f"{fixed(strength.value, 1)} and {fixed(least.value, 1)} kPa",
            "against it" if weak else "not against it",
        ),
    )
    return Finding(
        ID,
        _title(laid),
        float(against),
        "count",
        at={"product": laid.board.key},
        within=0.0,
        limit=0.0,
        sense="at most",
        basis=(*known.basis, *((strength.basis(), least.basis()) if laid.carries else ())),
        rests_on=(*laid.paths, *((strength.path, "project.use") if laid.carries else ())),
        steps=carried if laid.carries else (Step("n", "reasons against it", "none known", "0"),),
        words=words,
    )
