"""What is handed on: answers that can be printed without further work, and inputs that nobody typed."""

from __future__ import annotations

import datetime
from calendar import month_name
from collections.abc import Mapping
from dataclasses import dataclass, field
from typing import Literal

Seen = Literal["document", "quoted", "memory", "practice", "derived"]
Sense = Literal["at most", "at least"]
Verdict = Literal["meets", "falls short", "cannot tell", "does not apply", "not required, advised", "stated"]

# fmt: off
UNITS = frozenset({
    "degC", "K", "W", "W/m", "W/m²", "W/(m·K)", "W/(m²·K)", "m²·K/W", "kWh", "kWh/m²", "MJ", "MJ/m²", "N·m/m",
    "kN/m", "MN/m³", "m", "m²", "m³", "mm", "kg", "N", "kPa", "Pa", "%", "Bq/m³", "m³/s", "l/s",
    "ng/(Pa·s·m²)", "1/h", "h", "d", "degC·d", "year", "count", "1", "money", "kgCO2e",
})
# fmt: on


@dataclass(frozen=True, slots=True)
class Basis:
    """The published source of a rule or formula, and how it was seen."""

    source: str  # "ISO 13788:2012"
    clause: str
    seen: Seen
    doubtful: str = ""  # why it is not sure; "" where it is


@dataclass(frozen=True, slots=True)
class Step:
    """One line of the calculation: symbol, formula, the numbers put in, the result with its unit."""

    symbol: str
    formula: str
    numbers: str
    result: str


@dataclass(frozen=True, slots=True)
class Move:
    """What a value of the brief, put otherwise by so much, would change of a finding's value."""

    path: str
    by: float  # in ``unit``; of what is not typed and has no usual value, the value itself
    unit: str
    change: float  # in the finding's unit; a temperature's in K


@dataclass(frozen=True, slots=True)
class Accepted:
    """Who took a shortfall upon himself. It changes no number, no verdict and no exit status."""

    reason: str
    name: str
    date: str  # "2026-11-25"

    @property
    def words(self) -> str:
        """As every paper says it.

        >>> Accepted("Storage only.", "A. Owner", "2026-11-25").words
        'Accepted by A. Owner on 25 November 2026: Storage only.'
        """
        day = datetime.date.fromisoformat(self.date)
        return f"Accepted by {self.name} on {day.day} {month_name[day.month]} {day.year}: {self.reason}"


@dataclass(frozen=True, slots=True)
class Finding:
    """One answer: a value, held against a limit where there is one.

    ``months`` holds one number for each month where the value runs through the year: the deciding
    (lowest or highest) moment of that month. ``value`` is then the one of ``month``.
    """

    id: str  # "heat.floor-coldest"
    title: str  # "Coldest floor surface"
    value: float | None  # in ``unit``; None where it cannot be told or does not apply
    unit: str  # one of UNITS
    at: Mapping[str, str | float] = field(default_factory=dict)
    within: float | None = None  # estimated numerical error, in ``unit``
    month: int | None = None  # 1 to 12
    months: tuple[float, ...] | None = None
    limit: float | None = None
    sense: Sense | None = None
    basis: tuple[Basis, ...] = ()
    rests_on: tuple[str, ...] = ()  # paths in the brief and the catalogue
    steps: tuple[Step, ...] = ()
    words: str = ""  # one or two sentences as an adviser says them
    caution: str = ""  # printed beside the finding wherever it is shown
    missing: str = ""  # the one key that a "cannot tell" asks for
    no_limit: Literal["stated", "does not apply", "not required, advised"] = "stated"
    accepted: Accepted | None = None  # only where it falls short
    moves: tuple[Move, ...] = ()  # what moves it most; the same in words among the steps

    def __post_init__(self) -> None:
        if self.unit not in UNITS:
            raise ValueError(f"{self.id}: {self.unit!r} is not a unit of findings")
        if (self.limit is None) != (self.sense is None):
            raise ValueError(f"{self.id}: limit and sense come together")

    @property
    def margin(self) -> float | None:
        """Distance to the limit in ``unit``; negative where it falls short; None without a limit."""
        if self.value is None or self.limit is None:
            return None
        return self.limit - self.value if self.sense == "at most" else self.value - self.limit

    @property
    def verdict(self) -> Verdict:
        if self.missing:
            return "cannot tell"
        if self.margin is None:
            return self.no_limit
        return "meets" if self.margin >= 0.0 else "falls short"


@dataclass(frozen=True, slots=True)
class Assumed:
    """An input that nobody typed: the value taken, its plausible range, and why."""

    path: str
    value: float | str
    low: float | str | None
    high: float | str | None
    unit: str
    why: str
