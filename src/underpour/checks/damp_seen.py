"""What damp is pictured by: plain values, so that who draws or hands them on works no vapour out."""

from __future__ import annotations

from dataclasses import dataclass

Months = tuple[tuple[float, ...], ...]  # twelve rows


@dataclass(frozen=True, slots=True)
class Passed:
    """One layer that vapour passes, from the room down."""

    label: str  # "Concrete"
    words: str  # "Concrete, 4 in (102 mm)"
    hatch: str
    thickness: float  # m
    film: bool  # whether it is a film or a facing alone: thin and tight


@dataclass(frozen=True, slots=True)
class Through:
    """Vapour down through the floor at one place, month by month: n layers, n + 1 interfaces with the faces."""

    edge: str
    place: str  # "centre" or "edge"
    layers: tuple[Passed, ...]
    pressure: Months  # (12, n + 1) Pa, as a month begins
    saturated: Months  # (12, n + 1) Pa, the most that air there can hold
    unhindered: Months  # (12, n + 1) Pa, were nothing to condense
    up: Months  # (12, n) kg/(m²·s) through each layer, above nought towards the room
    water: Months  # (12, n + 1) kg/m² at the end of the month
    decides: int  # the month that is drawn, 1 to 12: most water, or the fullest air
    told: bool  # whether the humidity outdoors is known

    def between(self, n: int) -> str:
        """The interface in words: "Concrete on the ground"; the uppermost is the top of the floor."""
        if n == 0:
            return "top of the floor"
        below = self.layers[n].label if n < len(self.layers) else "the ground"
        return f"{self.layers[n - 1].label} on {below}"
