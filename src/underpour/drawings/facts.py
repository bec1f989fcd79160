"""What the findings say that a picture repeats in words, so that picture and table cannot differ."""

from __future__ import annotations

from dataclasses import replace

import numpy as np

from ..dossier import Answer
from ..findings import Finding
from ..measure import say
from ..measure.table import System
from ..physics.conduction.field import Field
from ..sections.parts import Section
from . import colours
from .floor_line import Limit
from .frost import FREEZING
from .when import MONTHS

SHORT_WORDS = {
    "heat.corner-coldest": "falls short",
    "moisture.mould": "falls short: mould",
    "moisture.surface-factor": "falls short: mould",
}


def finding_at(answer: Answer, id: str, edge: str) -> Finding | None:
    """The first finding of that kind at the edge, or for the whole floor where the edge has none of its own.

    Pictures show the temperatures of the heat-loss film, so findings of the mould film stay out.
    """
    found = [f for f in answer.findings if f.id == id and f.value is not None and f.at.get("film") != "mould"]
    return next((f for f in found if f.at.get("edge") == edge), next((f for f in found if "edge" not in f.at), None))


def corner_temperature(answer: Answer, edge: str, year_fraction: float) -> float:
    """Temperature of the place that is watched, at that moment. [degC]

    In the month of the finding it is the finding's own number, elsewhere the field's.
    """
    outdoors = answer.sections[edge].outdoors
    finding = finding_at(answer, "heat.ground-temperature" if outdoors else "heat.corner-coldest", edge)
    if finding and finding.value is not None and finding.month == month_of(year_fraction):
        return finding.value
    return corner_of(answer.fields[edge], year_fraction)


def watched_words(section: Section) -> str:
    """The place whose temperature a picture names, to begin or end a sentence with."""
    return "under the slab's edge" if section.outdoors else "where floor and wall meet"


def corner_of(field: Field, year_fraction: float) -> float:
    """Temperature of the floor line at its end by the wall. [degC]"""
    return float(field.floor_at(year_fraction)[0])


def floor_words(answer: Answer, edge: str, year_fraction: float, system: System) -> str:
    """The floor line's coldest point at that moment in words; at the edge it is the watched place's own number."""
    floor = answer.fields[edge].floor_at(year_fraction)
    at_wall = float(floor[0] - np.min(floor)) < 0.05
    coldest = corner_temperature(answer, edge, year_fraction) if at_wall else float(np.min(floor))
    named = "ground" if answer.sections[edge].outdoors else "floor"
    return f"{named}, coldest {say.value(coldest, 'degC', system)}"


def corner_verdict(answer: Answer, edge: str) -> tuple[str, str]:
    """What is wrong with the place that is watched, "" where nothing is, and the colour to say it in."""
    if answer.sections[edge].outdoors:
        ground = finding_at(answer, "heat.ground-temperature", edge)
        return freezing_words(ground.value if ground is not None else None)
    for finding in answer.findings:
        said = SHORT_WORDS.get(finding.id, "")
        here = finding.at.get("edge") == edge and finding.at.get("surface", "floor") == "floor"
        if said and here and finding.verdict == "falls short":
            return said, colours.light()["short"]
    return "", colours.light()["ink"]


def freezing_words(ground: float | None) -> tuple[str, str]:
    """What is said of ground at that temperature [degC], "" where it does not freeze, and the colour for it."""
    return "freezes" if ground is not None and ground < FREEZING else "", colours.light()["ink"]


def loss_words(answer: Answer, edge: str, system: System) -> str:
    """The floor's greatest heat loss in a line, or gain where it takes heat in; "" where there is no such finding."""
    finding = finding_at(answer, "heat.loss-peak", edge)
    if finding is None or finding.value is None:
        return ""
    when = f" in {MONTHS[finding.month - 1]}" if finding.month else ""
    does = "takes in" if finding.value < 0.0 else "loses"
    return f"Floor {does} {say.value(abs(finding.value), finding.unit, system)}{when}."


def floor_limit(answer: Answer, edge: str, system: System) -> Limit | None:
    """The temperature that the floor is held to, where a finding at the edge has one; outdoors that of freezing."""
    if answer.sections[edge].outdoors:
        return Limit(FREEZING, "freezing")
    for id in ("heat.floor-coldest", "heat.corner-coldest", "moisture.mould"):
        finding = finding_at(answer, id, edge)
        if finding and finding.limit is not None and finding.unit == "degC" and finding.sense == "at least":
            return Limit(finding.limit, f"at least {say.value(finding.limit, 'degC', system)}")
    return None


def month_of(year_fraction: float) -> int:
    """The month, 1 to 12, in which a moment of the year lies.

    >>> month_of(0.125)
    2
    """
    return int(year_fraction % 1.0 * 12.0) + 1


def stilled(answer: Answer, edge: str) -> Answer:
    """The answer with the year's mean in place of its swing, and without findings: each is of a month."""
    field = answer.fields[edge]
    still = replace(
        field,
        swing=np.zeros_like(field.swing),
        floor_swing=np.zeros_like(field.floor_swing),
        airs=tuple((where, mean, 0j) for where, mean, _ in field.airs),
    )
    return replace(answer, fields={**answer.fields, edge: still}, findings=())
