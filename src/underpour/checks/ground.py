"""Ground: how cold it gets under the build-up, and whether it freezes there."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from ..findings import Finding, Step
from ..measure.digits import fixed
from ..physics.conduction.solve import Told
from ..physics.year import deciding, lowest_moment, month_of
from ..resolve import Resolved
from .basis import conduction
from .solved import SolvedEdge, floor_rests_on, swing_steps

GROUND = "heat.ground-temperature"
ICE = "No ice is counted: the room's air lies on this floor. Under ice the ground is colder, and may freeze."


def coldest(resolved: Resolved, solved: SolvedEdge) -> Iterator[Finding]:
    """How cold the ground gets right under the build-up.

    Asks
        Does the ground under the floor freeze in a year of mean weather: at the edge, and in the middle?
    Why
        Freezing ground that draws water swells, lifts the slab and lets it down crooked in spring.
    Worked out
        Mean of the year less the amplitude where the ground begins: below the edge, and below the middle where the
        slab lies outdoors or under a room that is kept below freezing. The middle is taken from the section of the
        longest edge, and said once.
    Holds for
        The settled year of mean weather; the heat that freezing sets free is not counted, so frost is reckoned too
        deep rather than too shallow. A hard winter, and a slab swept of snow, freeze deeper. Ice on the floor of a
        room that is warmer than that is not counted, and the words say so.
    Source
        ISO 10211 and ISO 13370 for the temperatures.
    """
    section = solved.section
    places = [("edge", section.under_edge)]
    frozen = resolved.room.mean - abs(resolved.room.swing) < 0.0
    cold = resolved.outdoors or frozen
    ice = resolved.use.cold_floor and not frozen
    longest = max(resolved.edges, key=lambda edge: edge.length)
    if cold and solved.edge.letter == longest.letter:
        places.append(("middle", (solved.levels.half_width, section.underside)))
    for place, (x, y) in places:
        told = solved.heat.temperature(x, y)
        month = month_of(lowest_moment(told.swing))
        yield Finding(
            GROUND,
            f"Coldest ground under the {place} of the slab",
            told.mean - abs(told.swing),
            "degC",
            at={"edge": solved.edge.letter, "place": place},
            within=told.within,
            month=month,
            months=deciding(told.mean, told.swing, "lowest"),
            basis=conduction(),
            rests_on=(*floor_rests_on(resolved), *solved.rests_on),
            steps=(
                Step("z", "depth below the top of the floor", "", f"{fixed(-y, 3)} m"),
                *swing_steps("θ_ground", told, "°C", month, "-"),
            ),
            words=" ".join(filter(None, (_words(told, named(place, solved.edge.letter)), ICE if ice else ""))),
        )


def freezing(findings: Iterable[Finding]) -> list[str]:
    """Where the ground under the slab freezes, as a sentence names it; no limit is held against that here.

    >>> freezing([Finding(GROUND, "Ground", -1.0, "degC", at={"edge": "A", "place": "edge"})])
    ['edge A']
    """
    places = (
        named(str(finding.at["place"]), str(finding.at["edge"]))
        for finding in findings
        if finding.id == GROUND and finding.value is not None and finding.value < 0.0
    )
    return list(dict.fromkeys(places))


def named(place: str, edge: str) -> str:
    """The place as a sentence names it: "edge A", "the middle"."""
    return f"edge {edge}" if place == "edge" else f"the {place}"


def _words(told: Told, place: str) -> str:
    if told.mean - abs(told.swing) >= 0.0:
        return ""
    if told.mean + abs(told.swing) < 0.0:
        return f"Under {place} it stays frozen all year."
    return f"Under {place} it freezes in a year of mean weather."
