"""The bases by which foam may carry something for good, and how stiff foam is where no record says it."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cache

from .properties import record_limits
from .read import quantity, table
from .records import Quantity


@dataclass(frozen=True, slots=True)
class StressBasis:
    """One basis by its key, and what it needs."""

    key: str  # "one-third"
    title: str  # as a sentence names it
    needs: str


@cache
def stress_bases() -> dict[str, StressBasis]:
    """Every basis, in the order in which they are printed."""
    return {key: StressBasis(key, **row) for key, row in table("long_term")["basis"].items()}


@cache
def stress_share(basis: str, family: str) -> Quantity | None:
    """The share of the strength that a basis allows a foam; None where its source is not about that foam. [1]"""
    for row in table("long_term")["share"]:
        if row["basis"] == basis and family in row["families"]:
            return quantity(row["share"], f"catalogue.long-term.{basis}")
    return None


@cache
def one_percent_rule(family: str) -> Quantity | None:
    """The strain at whose stress a foam may stand for good; None where no source says so of that foam. [1]"""
    row = table("long_term")["one-percent"]
    return quantity(row["strain"], "catalogue.long-term.one-percent") if family in row["families"] else None


@dataclass(frozen=True, slots=True)
class CreepRule:
    """What a creep test must show for its stress to stand for good."""

    strain: Quantity  # at most, 1
    years: Quantity  # after, year
    determination: Quantity  # of a line through its readings, at least, 1
    times: Quantity  # its own length that it may be carried forward, 1


@cache
def creep_rule() -> CreepRule:
    """The one rule for every foam."""
    row = table("long_term")["creep"]
    named = {key: quantity(row[key], f"catalogue.long-term.creep.{key}") for key in row}
    return CreepRule(**named, times=record_limits()["carried-forward"])


@dataclass(frozen=True, slots=True)
class StiffnessRule:
    """Published ranges for one kind of foam; None where there is none."""

    by_density: Quantity | None  # initial modulus for each kg/m³, Pa·m³/kg
    taken_off: Quantity | None  # from that, Pa
    one_percent_of_ten: Quantity | None  # resistance at 1 % strain over that at 10 %, 1
    by_strength: Quantity | None  # modulus over the strength of the short test, 1


@cache
def stiffness_rule(family: str) -> StiffnessRule:
    """What is published of a foam's stiffness."""
    rows = table("stiffness")

    def of(row: str, key: str) -> Quantity | None:
        path = f"catalogue.stiffness.{row}.{key}"
        return quantity(rows[row][key], path) if family in rows[row]["families"] else None

    return StiffnessRule(
        of("by-density", "slope"),
        of("by-density", "taken-off"),
        of("one-percent-of-ten", "ratio"),
        of("by-strength", "ratio"),
    )
