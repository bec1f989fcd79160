"""Cautions: which stand beside a finding, and which on every paper of a brief. Their words are cautions.toml's."""

from __future__ import annotations

import tomllib
from collections.abc import Sequence
from dataclasses import replace
from functools import cache
from importlib.resources import files

from . import catalogue
from .checks import compatibility
from .findings import Finding
from .resolve import Resolved, ResolvedEdge

HEATED = {
    "warm.supply": "hot-water",
    "warm.loop-length": "tube-pressure",
    "warm.pressure": "heating-water",
    "warm.power": "electric-heat",
}
ON_EVERY_PAPER = ("structure", "official", "fire", "earthing")

NO_TERMITES = ("", "none", "none-to-slight")  # regions in which nobody needs to be told of them


def cautioned(resolved: Resolved, findings: Sequence[Finding]) -> list[Finding]:
    """The same findings, each that may lead someone into harm with its caution beside it."""
    beside = [_beside(resolved, finding) for finding in findings]
    cold = resolved.use.cold_floor  # its ground is told of whether or not it freezes as reckoned
    heaves = next((n for n, finding in enumerate(findings) if _freezes(finding) or (cold and _ground(finding))), None)
    if heaves is not None:  # heave is told once, at the first edge whose ground freezes
        beside[heaves] = "cold-floor" if cold else "frost"
    return [
        replace(finding, caution=_words()[name]) if name else finding
        for finding, name in zip(findings, beside, strict=True)
    ]


def on_papers(alternatives: Sequence[Resolved]) -> tuple[str, ...]:
    """What is said wherever the findings of a brief and its alternatives are shown."""
    apply = {
        **dict.fromkeys(ON_EVERY_PAPER, True),
        "radon": any(not resolved.outdoors for resolved in alternatives),
        "radon-health": any(resolved.soil_gas is not None for resolved in alternatives),
        "carbon-monoxide": any(_sucks(resolved) for resolved in alternatives),
        "drill": any(_drilled(resolved) for resolved in alternatives),
        "below-footing": any(edge.bears_on_foam for resolved in alternatives for edge in resolved.edges),
        "raft": any(_on_foam(resolved, edge) for resolved in alternatives for edge in resolved.edges),
        "loaded-slab": any(resolved.loads for resolved in alternatives),
        "old-slab": any(resolved.on_old_slab for resolved in alternatives),
        "flood": any(resolved.around.flood is not None and not resolved.outdoors for resolved in alternatives),
        "sump": any(resolved.around.drain_outlet == "sump" for resolved in alternatives),
        "termites": any(resolved.around.termites not in NO_TERMITES for resolved in alternatives),
        "frost": any(resolved.outdoors or resolved.frost is not None for resolved in alternatives),
        "frost-footing": any(resolved.frost is not None and not resolved.outdoors for resolved in alternatives),
        "frozen-ground": any(resolved.frost is not None and resolved.outdoor_mean <= 0.0 for resolved in alternatives),
        "cold-floor": any(resolved.use.cold_floor for resolved in alternatives),
        **dict.fromkeys(sorted(name for each in alternatives for name in compatibility.cautions(each)), True),
    }
    return tuple(_words()[name] for name, here in apply.items() if here)


def _beside(resolved: Resolved, finding: Finding) -> str:
    """The name of the caution that a finding carries, "" for none."""
    if finding.id == "moisture.mould" and finding.verdict in ("falls short", "cannot tell"):
        return "mould"
    if finding.id == "frost.heave":
        return "frost"
    if finding.id == "frost.rule" or (finding.id == "frost.depth" and finding.at.get("place") == "footing"):
        return "frost-footing"
    if finding.id == "frost.thaw":
        return "frozen-ground"
    if finding.id == "heat.air-space":
        return "over-air"
    if finding.id.startswith("termites.") and finding.verdict in ("falls short", "cannot tell"):
        return "termites"
    if finding.id.startswith("water.flood"):
        return "flood"
    if finding.id == "water.drain" and resolved.around.drain_outlet == "sump":
        return "sump"
    if finding.id.startswith("soilgas."):
        return _of_soil_gas(resolved, finding)
    if finding.id in ("money.first", "money.life"):
        return "money"
    if finding.id in HEATED:
        return HEATED[finding.id]
    if finding.id.startswith("code."):
        return "code"
    if finding.id == "height.depth" and resolved.on_old_slab:
        return "old-slab"
    if finding.id == "product.compatible" and finding.verdict in ("falls short", "cannot tell"):
        return catalogue.agent(str(finding.at["against"])).caution if finding.unit == "count" else ""
    if finding.id == "height.depth" and finding.verdict == "falls short":
        return "excavation"
    if finding.id.startswith("bearing.") and "edge" not in finding.at:
        bare = finding.id == "bearing.bare-foam" or finding.at.get("method") == "bare foam"
        return "before-pour" if bare else "loaded-slab"
    edge = next((edge for edge in resolved.edges if edge.letter == finding.at.get("edge")), None)
    if finding.id == "bearing.thrust":
        return "structure"
    if edge is None or finding.id not in ("heat.edge-psi", "bearing.foam-long"):
        return ""
    return "below-footing" if edge.bears_on_foam else "raft" if _on_foam(resolved, edge) else ""


def _of_soil_gas(resolved: Resolved, finding: Finding) -> str:
    """The caution beside a finding on soil gas."""
    if finding.id == "soilgas.backdraught":
        return "carbon-monoxide" if finding.verdict != "does not apply" else ""
    if finding.id == "soilgas.outlet":
        return "soil-gas-pipe"
    if finding.id in ("soilgas.rough-in", "soilgas.communication") and _drilled(resolved):
        return "drill"
    if finding.id in ("soilgas.level", "soilgas.test", "soilgas.weakest-corner", "soilgas.passive"):
        return "radon-health"
    return "code" if finding.id == "soilgas.rough-in" else ""


def _sucks(resolved: Resolved) -> bool:
    """Whether a fan draws on the ground below the floor."""
    return resolved.soil_gas is not None and resolved.soil_gas.system == "fan"


def _drilled(resolved: Resolved) -> bool:
    """Whether holes go through a slab that is there."""
    gas = resolved.soil_gas
    return gas is not None and (gas.communication is not None or (resolved.on_old_slab and bool(gas.suctions)))


def _on_foam(resolved: Resolved, edge: ResolvedEdge) -> bool:
    """Whether the floor's own foam carries the wall at this edge."""
    return edge.kind == "raft" and not resolved.outdoors and bool(resolved.boards)


def _ground(finding: Finding) -> bool:
    return finding.id == "heat.ground-temperature" and finding.value is not None


def _freezes(finding: Finding) -> bool:
    return _ground(finding) and finding.value is not None and finding.value < 0.0


@cache
def _words() -> dict[str, str]:
    return tomllib.loads((files(__package__) / "cautions.toml").read_text(encoding="utf-8"))
