"""Frozen ground under a heated floor: how deep it thaws, which no rule answers."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from ...findings import Finding, Step
from ...measure import say
from ...measure.digits import fixed
from ...resolve import Resolved
from ..frozen import Thawed
from .words import freezing_basis, rests


def thaw(resolved: Resolved, thawed: Sequence[Thawed]) -> Iterator[Finding]:
    """How deep the ground thaws under a floor that is heated for thirty years.

    Asks
        How far does a heated floor thaw ground that was frozen all year?
    Why
        Ground with ice in it sinks where it thaws, unevenly, and takes the building with it.
    Worked out
        The section from the middle of the floor outwards, in years of mean weather with the room as it is kept, from
        ground that lay open before: the depth below the build-up to which all ice is gone, after thirty years.
    Holds for
        Conduction alone; water that runs in, and ground that sinks, make it worse. The climate is taken as it was.
    Source
        Heat in place of temperature: Swaminathan and Voller 1992.
    """
    frost = resolved.frost
    for each in thawed if frost is not None else ():
        assert frost is not None
        first, tenth = (float(each.by_year[year]) for year in (0, 9))
        yield Finding(
            "frost.thaw",
            f"Thaw under the middle of the floor after {each.years} years of heating",
            each.depth,
            "m",
            at={"edge": each.edge},
            within=each.within,
            basis=freezing_basis(),
            rests_on=rests(resolved, frost, "floor.inside"),
            steps=(
                Step("z_1", "after one year", "", f"{fixed(first, 2)} m"),
                Step("z_10", "after ten years", "", f"{fixed(tenth, 2)} m"),
                Step(f"z_{each.years}", f"after {each.years} years", "", f"{fixed(each.depth, 2)} m"),
            ),
            words=(
                f"The mean of the year is {say.both(resolved.outdoor_mean, 'degC', resolved.system)}: the ground is "
                "frozen all year, and no rule for shallow foundations holds. Under this floor it thaws. Build on what "
                "does not settle when it thaws, or keep the ground frozen with air below the floor. A specialist for "
                "frozen ground decides which."
            ),
        )
