"""Which one of its kind a finding speaks of, in words."""

from __future__ import annotations

from ..drawings.when import MONTHS
from ..findings import Finding
from ..measure import say
from ..measure.table import System

NUMBERED = ("edge", "layer", "piece")  # their names are so short that they stand in many a title by chance


def instance(finding: Finding, system: System) -> str:
    """The edge, film, distance, ... of a finding; a number there is a distance in metres.

    Examples
    --------
    >>> instance(Finding("heat.floor-coldest", "Floor", 17.0, "degC", at={"edge": "A", "film": "heat-loss"}), "SI")
    'edge A, film for heat loss'
    """
    return ", ".join(filter(None, (_part(key, value, finding.title, system) for key, value in finding.at.items())))


def _part(key: str, value: str | float, title: str, system: System) -> str:
    if not isinstance(value, str):
        return f"{key} {say.value(value, 'm', system)}"
    if key in ("load", "joint") and value.isdecimal():
        return f"{key} {value}"
    if key == "film":
        return f"film for {value.replace('-', ' ')}"
    return "" if key not in NUMBERED and value.casefold() in title.casefold() else f"{key} {value}"


def instance_and_month(finding: Finding, system: System) -> str:
    """The same with the deciding month: "edge A, film for mould, February"."""
    words = [instance(finding, system), MONTHS[finding.month - 1] if finding.month else ""]
    return ", ".join(filter(None, words))


def named(finding: Finding, system: System) -> str:
    """Title and instance: "Coldest floor surface, edge A, film for heat loss"."""
    return ", ".join(filter(None, (finding.title, instance(finding, system))))
