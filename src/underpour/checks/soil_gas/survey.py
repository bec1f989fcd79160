"""What a survey found in homes of the county: a hint, never a verdict."""

from __future__ import annotations

from collections.abc import Iterator

from ...catalogue.radon_survey import nearest_county
from ...findings import Finding, Step
from ...measure import say
from ...resolve import Resolved
from ..basis import basis

ID = "soilgas.survey"


def county(resolved: Resolved) -> Iterator[Finding]:
    """Radon that a survey found in homes of the county.

    Asks
        What do homes around here have?
    Why
        It helps to guess. Two houses side by side can differ tenfold, so it decides nothing.
    Worked out
        The county of the survey, of the same state first, whose middle is nearest; geometric mean of its homes.
    Holds for
        Counties of the United States that the survey reached: short tests in winter, around 1990.
    Source
        State residential radon survey of the US Environmental Protection Agency. It is not the agency's map of zones.
    """
    zone = resolved.zone
    if zone.position is None or zone.country not in ("", "US"):
        return
    found = nearest_county(*zone.position, zone.called.rpartition(", ")[2])
    if found is None:
        return
    units = resolved.system
    basements = ""
    if found.basement_mean is not None:
        told = say.both(found.basement_mean, "Bq/m³", units)
        readings = "1 reading" if found.basements == 1 else f"{found.basements} readings"
        basements = f" In basements, {readings}: {told}."
    homes = "1 home" if found.homes == 1 else f"{found.homes} homes"
    yield Finding(
        ID,
        "Radon that a survey found in homes of the county",
        found.mean,
        "Bq/m³",
        basis=(basis("epa-state-survey", "geometric mean by county"),),
        rests_on=(zone.path,),
        steps=(
            Step(
                "county",
                "the nearest middle among the counties of the survey",
                f"{found.name}, {say.distance(found.distance, units)} away",
                f"{homes}",
            ),
        ),
        words=(
            f"{found.name}: {homes} tested in winters around 1990.{basements} That is a hint about a county and says "
            "nothing of this house: neighbours differ tenfold."
        ),
    )
