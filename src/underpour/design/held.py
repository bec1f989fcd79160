"""What one basis says of a board, and all of them together."""

from __future__ import annotations

from dataclasses import dataclass

from ..findings import Basis, Step


@dataclass(frozen=True, slots=True)
class Held:
    """The stress that may stand on a board for good, by one basis."""

    key: str  # "one-third"
    title: str  # "a third of the strength"
    needs: str  # what it takes to tell it
    stress: float | None  # Pa; None where it cannot be told
    formula: str
    numbers: str  # put in; "" where it cannot be told
    basis: tuple[Basis, ...]  # what decides comes first
    rests_on: tuple[str, ...]
    why: str = ""  # why it cannot be told, as a sentence

    def step(self) -> Step:
        """As it stands among the steps of a calculation."""
        if self.stress is None:
            return Step("p_long", self.title, "", f"cannot tell: {self.why}")
        return Step("p_long", f"{self.title}: {self.formula}", self.numbers, f"{self.stress / 1000.0:.1f} kPa")


@dataclass(frozen=True, slots=True)
class LongTerm:
    """Every basis for one board, in the catalogue's order."""

    bases: tuple[Held, ...]

    def by(self, key: str) -> Held:
        """The basis of that key."""
        return next(each for each in self.bases if each.key == key)

    @property
    def told(self) -> tuple[Held, ...]:
        """Those with evidence, the smallest stress first; where two are alike the catalogue's order stands."""
        return tuple(
            sorted((each for each in self.bases if each.stress is not None), key=lambda each: each.stress or 0.0)
        )

    @property
    def smallest(self) -> Held:
        """The one that governs unless a brief names another; every board has one with evidence."""
        return self.told[0]
