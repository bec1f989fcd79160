"""Pictures of damp in words: for someone who does not see them, and for the names of places on them."""

from __future__ import annotations

from collections.abc import Sequence

from ..checks.damp_seen import Through
from ..findings import Finding
from ..measure import say
from ..measure.table import System
from .when import MONTHS

A_MONTH = 30.4 * 86400.0  # s
GRAMS = 1e3
FEW = 0.05  # g/m² in a month: less is told as none
PLACES = {"centre": "in the middle of the floor", "edge": "a metre from the wall"}
TITLES = {
    ("moisture.mould", "floor"): "Floor, behind furniture",
    ("moisture.mould", "wall"): "Wall, behind furniture",
    ("moisture.condensation", "floor"): "Open floor, a damp day",
    ("moisture.condensation", "wall"): "Open wall, a damp day",
}


def humid_places(findings: Sequence[Finding]) -> list[Finding]:
    """The findings of humidity month by month, and those that would be if it could be told."""
    return [
        f
        for f in findings
        if f.id.startswith("moisture.") and f.unit == "%" and (f.months is not None or f.verdict == "cannot tell")
    ]


def place_words(finding: Finding, system: System) -> str:
    """Where it is so humid, as short as a row's name: "Floor, behind furniture, edge A"."""
    edge = f", edge {finding.at['edge']}" if "edge" in finding.at else ""
    if "below" in finding.at:
        return f"Floor, below {str(finding.at['below']).replace('-', ' ')}{edge}"
    if finding.id == "moisture.under-covering":
        place = "middle" if finding.at.get("place") == "centre" else f"1 m in{edge}"
        return f"Below covering, {place}"
    named = TITLES.get((finding.id, str(finding.at.get("surface", ""))), finding.title)
    return f"{named}{edge}"


def humidity_in_words(findings: Sequence[Finding], system: System) -> str:
    """Every row with its most and least humid month."""
    said = []
    for finding in findings:
        name = place_words(finding, system)
        if finding.months is None:
            said.append(f"{name}: cannot be told; type {finding.missing}.")
            continue
        most, least = max(finding.months), min(finding.months)
        held = f", at most {finding.limit:.0f} %" if finding.limit is not None else ""
        said.append(
            f"{name}: {most:.0f} % in {MONTHS[finding.months.index(most)]}, {least:.0f} % in "
            f"{MONTHS[finding.months.index(least)]}{held}."
        )
    return " ".join(said) or "Nothing is told of its air."


def where_words(of: Through) -> str:
    """ "edge A, a metre from the wall" """
    return f"edge {of.edge}, {PLACES[of.place]}" if of.place == "edge" else PLACES[of.place]


def line_in_words(of: Through, system: System) -> str:
    """The vapour line: pressure and most that the air can hold at each interface in the month that decides."""
    m = of.decides - 1
    told = []
    for n in range(len(of.layers) + 1):
        here, most = of.pressure[m][n], of.saturated[m][n]
        water = of.water[m][n]
        wet = f", {say.value(water, 'mm', system)} of water" if water > 0.02 else ""
        told.append(f"{of.between(n)} {100.0 * here / most:.0f} %{wet}")
    return f"Vapour {where_words(of)} in {MONTHS[m]}, as a share of what the air there can hold: {'; '.join(told)}."


def drive_in_words(of: Through) -> str:
    """Which way vapour goes at each interface, in which months."""
    said = []
    for n in range(len(of.layers) + 1):
        ways = [way(of, n, m) for m in range(12)]
        parts = [f"{name} in {_months(ways, name)}" for name in WAYS if name in ways]
        said.append(f"{of.between(n)}: {', '.join(parts)}.")
    return " ".join(said)


WAYS = ("up", "down", "gathers", "dries", "still")


def passing(of: Through, n: int, month: int) -> tuple[float, float]:
    """Vapour above and below an interface, towards the room above nought. [g/m² in a month]"""
    rates = of.up[month]
    above, below = rates[max(n - 1, 0)], rates[min(n, len(rates) - 1)]
    return above * A_MONTH * GRAMS, below * A_MONTH * GRAMS


def way(of: Through, n: int, month: int) -> str:
    """ "up", "down", "still", or where more comes than goes "gathers", and where more goes than comes "dries" """
    above, below = passing(of, n, month)
    stays = below - above
    if abs(stays) > FEW and 0 < n < len(of.layers):
        return "gathers" if stays > 0.0 else "dries"
    strongest = max(abs(each) for row in of.up for each in row) * A_MONTH * GRAMS
    if abs(below) < 1e-3 * strongest or strongest == 0.0:
        return "still"
    return "up" if below > 0.0 else "down"


def _months(ways: Sequence[str], name: str) -> str:
    here = [MONTHS[m][:3] for m in range(12) if ways[m] == name]
    return "every month" if len(here) == 12 else ", ".join(here)
