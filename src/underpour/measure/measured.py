"""A number with the words it came in."""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Measure:
    """A number in SI with the words it came in."""

    si: float  # the only one used in sums
    typed: str  # "2 in", printed again as it was typed

    def __float__(self) -> float:
        return self.si
