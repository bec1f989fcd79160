"""What keeps soil gas out: said unasked, since foam is taken for it."""

from __future__ import annotations

from ...findings import Basis, Finding, Step
from ...resolve import Resolved

ID = "soilgas.barrier"
KEEPS = ("vapour-retarder",)


def barrier(resolved: Resolved) -> Finding:
    """What of this floor keeps soil gas out.

    Asks
        Does the foam keep soil gas out of the room?
    Why
        Foam is taken for a gas barrier. Gas comes through joints between boards, round pipes and along the slab's
        edge, whatever the foam; what keeps it out is a film with sealed joints and, where there is much of it, suction.
    Worked out
        Films of the build-up are counted; boards are not.
    Holds for
        Every floor of a room on the ground. How much gas there is, is another question.
    Source
        Common practice, no source.
    """
    boards = [layer for layer in resolved.floor if layer.kind == "board"]
    films = [layer for layer in resolved.floor if layer.kind in KEEPS]
    foam = "Foam is no gas barrier: its joints are open to gas. " if boards else ""
    if films:
        label = films[0].label
        words = (
            f"{foam}In this floor {label} is, once its laps, its edge and every pipe through it are sealed, with the "
            "joint round the slab closed. Where there is much radon, suction below the slab does the work."
        )
    else:
        words = (
            f"{foam}Nothing in this floor keeps soil gas out: concrete cracks and its edge opens. A film with sealed "
            "laps does, with the joint round the slab closed; where there is much radon, suction below the slab."
        )
    unasked = "" if resolved.soil_gas is not None else " Nothing here says how much there is: write site.soil-gas."
    return Finding(
        ID,
        "Layers of this floor that keep soil gas out once sealed",
        float(len(films)),
        "count",
        basis=(Basis("common practice, no source", "what keeps soil gas out", "practice"),),
        rests_on=tuple(dict.fromkeys(layer.path for layer in (*films, *boards))),
        steps=(
            Step("n", "films; boards count for nothing", ", ".join(layer.label for layer in films), f"{len(films)}"),
        ),
        words=f"{words}{unasked} Only a test in the closed house tells what is breathed.",
    )
