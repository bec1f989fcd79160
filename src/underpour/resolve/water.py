"""Ground water: how high it stands against the build-up, and what that means for foam and floor."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from ..brief.tables.floor import FloorTable
from ..brief.tables.site import Site
from ..measure import System, say
from ..mistakes import Mistake
from .resolved import GroundWater, ResolvedEdge, Slice

WEIGHT = 9.81  # kN/m³, of water
CONCRETE = 23.5  # kN/m³, plain concrete (common practice, no source)
NEAR = 1e-3  # m

TWO_BOUNDS = (
    "The findings take the ground water to stand still: the ground below it is soaked. Where it moves through the "
    "ground it carries heat away; the loss says what it comes to where moving water is held at the year's mean."
)
STANDING = "The ground water is taken to stand still: the ground below it is soaked, and no water carries heat away."
RISES = (
    "The ground water, {water} below the finished ground, stands {above} above the underside of the build-up at edge "
    "{edge}. Where nothing keeps it off it lifts an empty floor by {lift}, as much as {concrete} of concrete weigh. "
    "Foam floats up until it is weighed down, and foam that stands in water for good takes it up and loses R. "
    "Lift and sealing are a matter for a structural engineer."
)
DRAINED = (
    "Drains are said to keep the ground water below the build-up; without them it would stand {above} above its "
    "underside at edge {edge}. What the floor loses and carries rests on drains that stay open. The ground round "
    "about is taken to be soaked as high as the water stands without them."
)
OPEN_QUESTION = " Say whether it is kept off: drained = true or waterproofed = true in [site], or false for both."
SEALED = (
    " Floor and walls are said to be sealed against it: the seal keeps out water, and does not hold down the floor."
)


def ground_water(site: Site, floor: FloorTable) -> GroundWater | None:
    """The ground water of a site; None where none is told."""
    if site.water_table is None:
        return None
    return GroundWater(site.water_table.si, bool(site.drained), floor.concrete_method == "en-1990")


def drowned(site: Site, edges: Sequence[ResolvedEdge], floor: Sequence[Slice], system: System) -> Iterator[Mistake]:
    """A build-up in the water that is said to be neither drained nor sealed."""
    highest = _highest(site, edges, floor)
    if highest is None or site.drained is not False or site.waterproofed:
        return
    _, above = highest
    wrong = (
        f"The ground water stands {say.both(above, 'm', system)} above the underside of this build-up, and nothing "
        "keeps it off."
    )
    instead = "Raise the floor, drain the ground (drained = true), or seal floor and walls (waterproofed = true)."
    yield Mistake("site.drained", "", wrong, instead)


def water_notes(
    site: Site, edges: Sequence[ResolvedEdge], floor: Sequence[Slice], system: System, *, outdoors: bool
) -> tuple[str, ...]:
    """What is taken of the ground water, and what it means where it stands above the underside of the build-up."""
    if site.water_table is None:
        return ()
    bounds = STANDING if outdoors else TWO_BOUNDS
    highest = _highest(site, edges, floor)
    if highest is None:
        return (bounds,)
    edge, above = highest
    said = {"edge": edge.letter, "above": say.both(above, "m", system)}
    if site.drained:
        return (bounds, DRAINED.format(**said))
    told = RISES.format(
        **said,
        water=say.typed(site.water_table, "m", system),
        lift=say.both(WEIGHT * above, "kPa", system),
        concrete=say.both(WEIGHT * above / CONCRETE, "m", system),
    )
    return (bounds, told + (SEALED if site.waterproofed else OPEN_QUESTION))


def _highest(site: Site, edges: Sequence[ResolvedEdge], floor: Sequence[Slice]) -> tuple[ResolvedEdge, float] | None:
    """The edge at which water stands highest above the underside of the build-up, and how high; None where below."""
    if site.water_table is None or not edges:
        return None
    edge = max(edges, key=lambda each: each.ground)
    above = edge.ground - site.water_table.si + sum(layer.thickness for layer in floor)
    return (edge, above) if above > NEAR else None
