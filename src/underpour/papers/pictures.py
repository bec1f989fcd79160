"""The drawings that a paper carries, with the words that go with each."""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Picture:
    """One drawing as SVG text."""

    name: str  # heading above it: "Edge A, all alternatives", "Edge A as briefed"
    svg: str
    caption: str  # below it; empty where the drawing itself says which month it shows
    alt: str  # what it shows, in words, for someone who does not see it
    headed: bool = False  # whether the drawing says its name itself
    wide: float | None = None  # mm; a drawing to scale is printed exactly as wide, others as wide as the sheet


@dataclass(frozen=True, slots=True)
class Pictures:
    """The drawings of one paper, in the order of printing."""

    comparison: tuple[Picture, ...] = ()  # alternatives side by side, one an edge
    plan: tuple[Picture, ...] = ()  # the floor seen from above, where it has more than one edge or anything in it
    sections: tuple[Picture, ...] = ()  # the cut through each edge, to scale
    damp: tuple[Picture, ...] = ()  # how humid it is, the vapour line through the floor, which way it goes
    frost: tuple[Picture, ...] = ()  # each edge through its winters: section at the deepest, the front, the stages
    heated: tuple[Picture, ...] = ()  # between two tubes, one loop and its pump, from cold, up and down by months
    gas: tuple[Picture, ...] = ()  # the soil-gas pipe's way, then fan and floor, or the months
    borne: tuple[Picture, ...] = ()  # what each load uses, and the worst of them from above and cut through
    laid: tuple[Picture, ...] = ()  # each layer of panels from above, then each film
