"""One load with all that carries it, worked out once for every finding that speaks of it."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from ...measure import System, say
from ...resolve import Bedded, Resolved, ResolvedLoad, Support
from .bed import Bed
from .limits import Allowed, for_good, rolling
from .plates import Plate, slab_weight, thickness_under
from .resistance import Resistance, resistance

KILO = 1000.0


@dataclass(frozen=True, slots=True)
class Carried:
    """Load, bed, plate and what each part may bear. [Pa]"""

    load: ResolvedLoad
    support: Support
    bed: Bed
    plates: tuple[Plate, Plate] | None  # on the soft bed, on the stiff one; None of an even load
    even: float  # other loads that stand all over the floor
    weakest: (
        tuple[Bedded, Allowed] | None
    )  # the board that bears least; None where no foam lies there, or none can tell
    holds: Resistance  # how the concrete is held to it
    system: System

    @property
    def pressure(self) -> float:
        """Of the load alone on foam and ground. [Pa]"""
        if self.plates is None:
            assert self.load.pressure is not None
            return self.load.pressure
        return max(plate.felt.pressure for plate in self.plates)

    @property
    def tension(self) -> float:
        """Largest of the concrete by the plate, at its top or below. [Pa]"""
        assert self.plates is not None
        return max(max(plate.felt.below, plate.felt.above) for plate in self.plates)

    @property
    def depth(self) -> float:
        """Thickness of the concrete right below the load: of its pad, or of the slab. [m]"""
        return thickness_under(self.support, self.load)

    @property
    def pad_weight(self) -> float:
        """What a pad weighs more than the slab. [Pa]"""
        slab = self.support.concrete.thickness
        return slab_weight(self.support) * (self.depth - slab) / slab

    @property
    def for_foam(self) -> float | None:
        """What is left of what the foam bears, below its own floor and what else stands all over it. [Pa]"""
        if self.weakest is None:
            return None
        return max(self.weakest[1].stress - self.support.own_weight - self.even - self.pad_weight, 0.0)

    @property
    def for_ground(self) -> float:
        """What is left of what the ground bears. [Pa]"""
        return max(self.support.ground.bearing - self.support.whole_weight - self.even - self.pad_weight, 0.0)

    @property
    def for_concrete(self) -> float:
        """Tension that the load as it is may bring to the concrete. [Pa]"""
        return self.holds.bending / self.holds.on_load

    @property
    def rupture(self) -> float:
        """Tension at which the concrete cracks. [Pa]"""
        return self.holds.rupture

    @property
    def where(self) -> str:
        """ "in the middle of the floor" """
        return self.load.where

    def said(self, pressure: float) -> str:
        """A stress in both systems."""
        return say.both(pressure / KILO, "kPa", self.system)


def carried(
    resolved: Resolved, support: Support, load: ResolvedLoad, lies: Bed, plates: tuple[Plate, Plate] | None
) -> Carried:
    """The load with what carries it."""
    others = [
        each.pressure or 0.0
        for each in resolved.loads
        if each is not load and each.place == "everywhere" and each.standing and not each.before_pour
    ]
    return Carried(
        load,
        support,
        lies,
        plates,
        sum(others),
        weakest(resolved, support, standing=load.standing),
        resistance(support, load),
        resolved.system,
    )


def weakest(resolved: Resolved, support: Support, *, standing: bool) -> tuple[Bedded, Allowed] | None:
    """The board that bears least of what stands, or of what comes and goes; None where no foam lies there or none can
    tell."""
    found = []
    for board in support.boards:
        record = board.slice.record
        assert record is not None  # foam is always of a board
        allowed = for_good(record, resolved.for_good) if standing else rolling(record, resolved.for_good)
        if allowed is None:
            return None
        found.append((board, allowed))
    return min(found, key=lambda each: each[1].stress, default=None)


def governs(of: Carried, beside: Mapping[str, float]) -> str:
    """Which of foam, ground, concrete and what stands ``beside`` them is used up most, as each trade can repeat it."""
    shares = {"the ground": of.pressure / of.for_ground if of.for_ground else 9.99, **beside}
    shares["the concrete"] = of.tension / of.for_concrete
    if of.for_foam is not None:
        shares["the foam"] = of.pressure / of.for_foam if of.for_foam else 9.99
    first = max(shares, key=lambda part: shares[part])
    told = ", ".join(f"{part} {100.0 * share:.0f} %" for part, share in sorted(shares.items(), key=lambda s: -s[1]))
    foam = shares.get("the foam")
    if foam is None:
        begins = f"{first[0].upper()}{first[1:]} governs"
    elif first == "the foam":
        begins = "The foam governs"
    elif foam <= 1.0:
        begins = f"The foam is not the problem: {first} governs"
    else:
        begins = f"{first[0].upper()}{first[1:]} governs, and the foam bears too much as well"
    return f"{begins}. Of what each may bear is used: {told}."
