"""Which one of its kind a finding speaks of, in words."""

from __future__ import annotations

from ..drawings.when import MONTHS
from ..findings import Finding
from ..measure import say
from ..measure.table import System


def instance(finding: Finding, system: System) -> str:
    """The edge, film, distance, ... of a finding; a number there is a distance in metres.

    Examples
    --------
    >>> instance(Finding("heat.floor-coldest", "Floor", 17.0, "degC", at={"edge": "A", "film": "heat-loss"}), "SI")
    'edge A, film heat-loss'
    """
    return ", ".join(
        f"{key} {value if isinstance(value, str) else say.value(value, 'm', system)}"
        for key, value in finding.at.items()
    )


def instance_and_month(finding: Finding, system: System) -> str:
    """The same with the deciding month: "edge A, film mould, February"."""
    words = [instance(finding, system), MONTHS[finding.month - 1] if finding.month else ""]
    return ", ".join(filter(None, words))
