"""A panel as it comes, and the rules that a plan of panels keeps. Lengths in m."""

from __future__ import annotations

from dataclasses import dataclass

LEFT, RIGHT, BELOW, ABOVE = 1, 2, 4, 8  # sides of a panel as it lies
ALL_ROUND = LEFT | RIGHT | BELOW | ABOVE


@dataclass(frozen=True, slots=True)
class Rules:
    """What a panel is, and what a crew keeps to.

    Arguments
    ---------
    length, width
        Of a panel, along its row and across it. [m]
    interlock
        Whether its sides hold each other: then a side that meets another panel must be one that left the works.
    stagger
        Least distance of a joint from those of the row below. [m]
    least
        Shortest piece that may lie in a row. [m]
    narrow
        Of two plans with as many panels the one with fewer strips of rows narrower than this is taken. [m]
    kerf
        What a cut takes. [m]
    pitch
        From one knob or channel to the next; then those of all pieces stand on one grid, so that tubes and channels go
        on across joints. Length and width are whole numbers of it. Nought where nothing has to line up. [m]
    """

    length: float
    width: float
    interlock: bool = False
    stagger: float = 0.3
    least: float = 0.3
    kerf: float = 0.003
    narrow: float = 0.1
    pitch: float = 0.0

    @property
    def area(self) -> float:
        """Of a panel. [m²]"""
        return self.length * self.width
