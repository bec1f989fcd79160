"""Floors that electric cables warm: what they must give."""

from __future__ import annotations

from ...findings import Finding, Step
from ...measure import say
from ...measure.digits import fixed
from ...resolve import Resolved
from ...resolve.tubes import HeatedFloor
from ..basis import conduction
from .floor import rests_on
from .worked import Worked

KILO = 1e3


def power(resolved: Resolved, heated: HeatedFloor, made: Worked) -> Finding:
    """What cables or mats must give on the coldest day, what goes down counted.

    Asks
        How strong must the cable be, and how much does the meter see?
    Why
        Electric heat is dear: what goes down is paid for at the full price. A cable that is too strong makes lines of
        warmth and harms what lies on it.
    Worked out
        What the room wants and what goes down meanwhile, by the section between two cables.
    Holds for
        Cables spread evenly over the whole floor.
    Source
        ISO 10211's section (from memory).
    """
    given = made.up + made.down
    whole = say.both(given * resolved.area, "W", resolved.system)
    return Finding(
        "warm.power",
        "What the cables must give on the coldest day",
        given * resolved.area,
        "W",
        within=made.within * given * resolved.area,
        month=made.month + 1,
        basis=conduction(),
        rests_on=rests_on(resolved, heated),
        steps=(
            Step("q_up", "wanted of the floor", "", f"{fixed(made.up, 1)} W/m²"),
            Step("q_down", "goes down meanwhile", "", f"{fixed(made.down, 1)} W/m²"),
            Step(
                "q_1",
                "for each metre of cable",
                f"spacing {fixed(heated.spacing, 3)} m",
                f"{fixed(given * heated.spacing, 1)} W/m",
            ),
            Step(
                "P",
                "over the whole floor",
                f"{fixed(resolved.area, 1)} m²",
                f"{fixed(given * resolved.area / KILO, 2)} kW",
            ),
        ),
        words=f"{say.both(given, 'W/m²', resolved.system)}, {whole} in all; a tenth to a fifth more is usual, for "
        "cables are made in steps.",
    )
