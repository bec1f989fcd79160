"""One film against water and against gas: whether this order of layers serves both."""

from __future__ import annotations

from ...findings import Basis, Finding, Step
from ...resolve import Resolved
from ...resolve.soil_gas import ResolvedSoilGas

ID = "soilgas.film-order"
NO_FILM = "No film lies in this floor: neither the ground's vapour nor its gas is kept out."
BELOW_STONE = (
    "The film lies below the stone. Water is kept down so, but a pipe in the stone then draws on the room and not on "
    "the ground: lay the film on the stone."
)
ABOVE_SLAB = (
    "The only film lies on the concrete. It keeps damp from the covering, but it ends at the walls and nothing seals "
    "it to them: gas comes in beside it. Lay a film below the slab too."
)
NO_STONE = (
    "Nothing below the film lets gas flow: a pipe reaches as far as the soil itself does. Lay four inches (100 mm) of "
    "clean stone or panels with channels."
)
HOLED = "Under panels with channels the film has to lie above them, where it does not: gas rises past it."


def layers(resolved: Resolved, gas: ResolvedSoilGas) -> Finding:
    """Whether moisture and gas are served by the same film in the same place.

    Asks
        Do the film against damp and the film against soil gas ask for the same order of layers?
    Why
        It is one film. Against damp it belongs close below the slab; against gas it has to be whole, sealed at its
        edge, and above whatever gas is drawn through.
    Worked out
        Places of film, foam, stone and channels in the build-up.
    Holds for
        Floors of rooms. Whether laps and edge are sealed, is another finding.
    Source
        Common practice, no source.
    """
    kinds = [layer.kind for layer in resolved.floor]
    poured = [n for n, kind in enumerate(kinds) if kind in ("concrete", "screed", "old-slab")]
    films = [n for n, layer in enumerate(resolved.floor) if layer.film is not None]
    stone = [n for n, kind in enumerate(kinds) if kind == "gravel"]
    below = [n for n in films if not poured or n > poured[0]]
    draws = gas.system not in ("", "none")
    wrong = []
    if not films:
        wrong.append(("no film", NO_FILM))
    elif not below:
        wrong.append(("on the slab", ABOVE_SLAB))
    elif stone and min(below) > max(stone):
        wrong.append(("below the stone", BELOW_STONE))
    if gas.panel is not None and below and min(below) > resolved.floor.index(gas.panel):
        wrong.append(("below the channels", HOLED))
    if draws and not stone and gas.panel is None:
        wrong.append(("no way for gas", NO_STONE))
    good = (
        "The film lies below the slab and above what gas is drawn through: it serves damp and gas alike, once its laps "
        "and its edge are sealed."
        if draws
        else "The film lies below the slab: it serves damp and gas alike, once its laps and its edge are sealed."
    )
    return Finding(
        ID,
        "Where damp and gas ask for another order of layers",
        float(len(wrong)),
        "count",
        limit=0.0,
        sense="at most",
        basis=(Basis("common practice, no source", "one film against damp and gas", "practice"),),
        rests_on=tuple(dict.fromkeys(layer.path for layer in resolved.floor)),
        steps=tuple(Step(key, says, "", "found") for key, says in wrong)
        or (Step("n", "film, foam, stone and channels from the room down", ", ".join(kinds), "0"),),
        words=" ".join(says for _, says in wrong) or good,
    )
