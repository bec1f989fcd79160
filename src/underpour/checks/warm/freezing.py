"""Whether what is in the tubes stands the cold of a building left without heat, or of its way outdoors."""

from __future__ import annotations

from ...catalogue import heated_floors
from ...catalogue.fluids import Mixture, mixtures
from ...findings import Basis, Finding, Step
from ...measure import say
from ...measure.digits import fixed
from ...resolve import Resolved
from ...resolve.tubes import HeatedFloor, Water

ID = "warm.freezing"
TITLE = "Coldest that what is in the tubes may get, against where it freezes"


def freezing(resolved: Resolved, heated: HeatedFloor, water: Water) -> Finding:
    """How cold what is in the tubes may get, against its freezing point.

    Asks
        Does it freeze when the house stands empty, or on its way through the cold?
    Why
        Ice bursts tubes that no one can get at, and a manifold in a cold garage freezes before its slab does. Glycol
        for nothing costs pump and warmth: it is thicker than water and carries less.
    Worked out
        The coldest that the brief names, against the freezing point of water or mixture and a margin for slush.
    Holds for
        A mixture as it is named, well mixed; glycol ages, and its installer tests it.
    Source
        Freezing points of Melinder's mixtures by a library (derived); the margin is practice.
    """
    margin, fluid = heated_floors.usual("frost-margin"), water.fluid
    limit = fluid.freezes + margin.value
    sources = Basis("Melinder 2010, mixtures of water and glycol", "freezing point", "derived"), margin.basis()
    rests = ("tube.fluid", "tube.coldest", margin.path)
    if water.coldest is None:
        cold = say.both(heated.coldest, "degC", resolved.system)
        words = (
            f"How cold can it get in the tubes? A building left without heat goes towards its coldest day outdoors, "
            f"{cold}; one that is never without heat stays as warm as its coolest room."
        )
        return Finding(ID, TITLE, None, "degC", basis=sources, rests_on=rests, words=words, missing="tube.coldest")
    return Finding(
        ID,
        TITLE,
        water.coldest,
        "degC",
        within=0.0,
        limit=limit,
        sense="at least",
        basis=sources,
        rests_on=rests,
        steps=(
            Step("θ_f", f"{_named(fluid)} freezes", "", f"{fixed(fluid.freezes, 1)} °C"),
            Step("θ_f", "with the margin", f"{fixed(margin.value, 0)} K", f"{fixed(limit, 1)} °C"),
        ),
        words=_words(resolved, water, limit, margin.value),
    )


def _words(resolved: Resolved, water: Water, limit: float, margin: float) -> str:
    assert water.coldest is not None
    stands = say.both(water.fluid.freezes, "degC", resolved.system)
    if water.coldest >= limit:
        if water.fluid.freezes < 0.0 and water.coldest >= margin:
            return f"It freezes at {stands}. Plain water would do: it asks less of the pump."
        return f"It freezes at {stands}."
    other = next((each for each in _weakest_first() if each.freezes + margin <= water.coldest), None)
    instead = "No mixture listed here stands that: drain the tubes, or keep the building warm."
    if other is not None:
        instead = (
            f"{other.key} stands it, to {say.both(other.freezes, 'degC', resolved.system)}; or keep the building warm."
        )
    return f"{_named(water.fluid).capitalize()} freezes at {stands}. {instead}"


def _weakest_first() -> list[Mixture]:
    """Mixtures that harm nobody, those that freeze first first."""
    return sorted((each for each in mixtures() if each.drinkable), key=lambda each: -each.freezes)


def _named(fluid: Mixture) -> str:
    return fluid.key.replace("-", " ") + (" %" if fluid.key[-1].isdigit() else "")
