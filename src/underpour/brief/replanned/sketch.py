"""A plan as the brief's own words, taken apart so far that one figure can be changed and the others stay."""

from __future__ import annotations

import re
from collections.abc import Mapping
from dataclasses import dataclass, replace
from fractions import Fraction
from typing import Any, Literal

from ...mistakes import Mistake, Mistakes
from ..corners import UNITS, both_words, parted, read_bent_corner
from ..paths import letter
from .figures import Figure, figure

_HOLE = re.compile(r"hole\.(\d+)(?:\.side\.(\d+))?")
FARTHEST = 1_000_000  # m from the origin
Vector = tuple[Fraction, Fraction]


@dataclass(frozen=True, slots=True)
class Spot:
    """A corner, or an obstacle's middle: x, y and the arc that begins there, "rise 4"."""

    x: Figure
    y: Figure
    bend: str = ""
    typed: str = ""  # the whole of it as it stands in the brief; "" once something was changed

    @property
    def point(self) -> Vector:
        return self.x.metres, self.y.metres

    @property
    def words(self) -> str:
        if self.typed:
            return self.typed
        between = " " if self.x.bare and self.y.bare else ", "
        return f"{self.x.words}{between}{self.y.words} {self.bend}".rstrip()

    def at(self, x: Figure, y: Figure) -> Spot:
        """The spot moved there; as typed where it did not move."""
        return self if (x, y) == (self.x, self.y) else replace(self, x=x, y=y, typed="")

    def bent(self, bend: str) -> Spot:
        return self if bend == self.bend else replace(self, bend=bend, typed="")


@dataclass(frozen=True, slots=True)
class Ring:
    """An outline: the floor's own, or a hole's."""

    unit: str
    spots: tuple[Spot, ...]


@dataclass(frozen=True, slots=True)
class Standing:
    """An obstacle as typed."""

    unit: str
    kind: str
    at: Spot
    size: str


@dataclass(frozen=True, slots=True)
class Part:
    """A side, or a part of it, that an edge takes; side 0 is all of a hole's."""

    ring: int
    side: int
    start: Figure | None = None  # None: from the corner where the side begins
    end: Figure | None = None  # None: to its end
    called: str = ""  # by the name that the plan gives it


@dataclass(frozen=True, slots=True)
class Named:
    ring: int
    side: int
    name: str


Claimed = Literal["all", "rest"] | tuple[Part, ...]


@dataclass(frozen=True, slots=True)
class Sketch:
    """All of a plan that drawing changes."""

    unit: str
    rings: tuple[Ring, ...]  # the outline, then the holes; no corners where none is drawn
    obstacles: tuple[Standing, ...]
    names: tuple[Named | None, ...]  # None, likewise, where one cannot be read
    edges: tuple[Claimed | None, ...]  # None where the words cannot be read; they stay as they are

    def spot(self, ring: int, corner: int) -> Spot:
        """A corner by its number. Raises Mistake where there is none."""
        if not 0 <= ring < len(self.rings) or not 1 <= corner <= len(self.rings[ring].spots):
            where = f" of hole {ring}" if ring else ""
            raise Mistake("plan", "", f"There is no corner {corner}{where}.", "Corners are counted from 1.")
        return self.rings[ring].spots[corner - 1]

    def drawn(self) -> Sketch:
        """The same without the spelling of whole corners, for comparison."""
        rings = tuple(replace(ring, spots=tuple(replace(s, typed="") for s in ring.spots)) for ring in self.rings)
        standing = tuple(replace(each, at=replace(each.at, typed="")) for each in self.obstacles)
        return replace(self, rings=rings, obstacles=standing)

    def with_spots(self, ring: int, spots: tuple[Spot, ...]) -> Sketch:
        rings = list(self.rings)
        rings[ring] = replace(rings[ring], spots=spots)
        return replace(self, rings=tuple(rings))


def sketch_of(data: Mapping[str, Any]) -> Sketch:
    """The plan in a brief's data; one without corners where there is no plan yet.

    Raises
    ------
    Mistakes
        Figures of the plan that cannot be read, each with its path: they are mended where they are typed.
    """
    found: list[Mistake] = []
    plan = data.get("plan")
    plan = plan if isinstance(plan, dict) else {}
    unit = _unit(plan.get("unit"), _usual(data))
    rings = [Ring(unit, _spots(plan.get("outline", ()), unit, "plan.outline", found))]
    for number, hole in enumerate(_tables(plan.get("hole"), "plan.hole", found), start=1):
        own = _unit(hole.get("unit"), unit)
        rings.append(Ring(own, _spots(hole.get("outline", ()), own, f"plan.hole.{number}.outline", found)))
    obstacles = []
    for number, each in enumerate(_tables(plan.get("obstacle"), "plan.obstacle", found), start=1):
        own = _unit(each.get("unit"), unit)
        at = _spots([each.get("at", "")], own, f"plan.obstacle.{number}.at", found, one=True)
        if at:
            obstacles.append(Standing(own, str(each.get("kind", "")), at[0], str(each.get("size", ""))))
    names = [_named(each) for each in _tables(plan.get("side"), "plan.side", found)]
    known = {each.name: each for each in names if each is not None}
    edges = tuple(_claimed(edge.get("sides"), known) for edge in _tables(data.get("edge"), "edge", found))
    if found:
        raise Mistakes(found)
    return Sketch(unit, tuple(rings), tuple(obstacles), tuple(names), edges)


def side_reference(ring: int, side: int) -> int | str:
    """A side as edges and names call it.

    >>> side_reference(0, 3), side_reference(1, 2), side_reference(1, 0)
    (3, 'hole.1.side.2', 'hole.1')
    """
    if not ring:
        return side
    return f"hole.{ring}.side.{side}" if side else f"hole.{ring}"


def spot_of(typed: str, unit: str) -> Spot:
    """A corner's words taken apart. Raises Mistake where they are none."""
    read_bent_corner(typed, unit)
    corner, word, bend = parted(typed)
    x, y = (figure(words, unit) for words in both_words(corner))
    if max(abs(x.metres), abs(y.metres)) > FARTHEST:
        raise Mistake("", "", "No floor reaches that far.", "Corners are counted from a point at or near the floor.")
    return Spot(x, y, f"{word} {bend}".strip(), typed)


def edge_number(word: str, count: int) -> int | None:
    """Which edge a letter means, counted from nought; None where it means none of so many."""
    letters = [letter(index) for index in range(count)]
    return letters.index(word) if word in letters else None


def _usual(data: Mapping[str, Any]) -> str:
    """The unit of a plan that is drawn from nothing."""
    project = data.get("project")
    return "m" if isinstance(project, dict) and project.get("units") == "SI" else "ft"


def _unit(typed: object, otherwise: str) -> str:
    return typed if isinstance(typed, str) and typed in UNITS else otherwise


def _tables(listed: object, at: str, found: list[Mistake]) -> list[dict[str, Any]]:
    if listed is None:
        return []
    if not isinstance(listed, list) or not all(isinstance(each, dict) for each in listed):
        found.append(Mistake(at, "", "There may be several of these.", f"Write its heading as [[{at}]]."))
        return []
    return listed


def _spots(listed: object, unit: str, at: str, found: list[Mistake], *, one: bool = False) -> tuple[Spot, ...]:
    if not isinstance(listed, list | tuple):
        found.append(Mistake(at, "", "An outline is a list of corners.", 'Write ["0 0", "40 0", "40 28", "0 28"].'))
        return ()
    spots = []
    for number, typed in enumerate(listed, start=1):
        try:
            spots.append(spot_of(typed, unit))
        except Mistake as mistake:
            found.append(replace(mistake, at=at if one else f"{at}.{number}"))
    return tuple(spots)


def _place(reference: object, names: Mapping[str, Named]) -> tuple[int, int, str] | None:
    """Ring and side of a reference and the name that it is, if it is one."""
    if isinstance(reference, bool):
        return None
    if isinstance(reference, int):
        return 0, reference, ""
    if not isinstance(reference, str):
        return None
    if reference in names:
        return names[reference].ring, names[reference].side, reference
    hole = _HOLE.fullmatch(reference)
    return (int(hole[1]), int(hole[2] or 0), "") if hole else None


def _named(table: Mapping[str, Any]) -> Named | None:
    place = _place(table.get("side"), {})
    name = table.get("name")
    return Named(place[0], place[1], name) if place is not None and isinstance(name, str) else None


def _claimed(sides: object, names: Mapping[str, Named]) -> Claimed | None:
    if sides == "all" or sides == "rest":
        return "all" if sides == "all" else "rest"
    if not isinstance(sides, list):
        return None
    parts = [_part(entry, names) for entry in sides]
    return tuple(part for part in parts if part is not None) if None not in parts else None


def _part(entry: object, names: Mapping[str, Named]) -> Part | None:
    whole = not isinstance(entry, dict)
    place = _place(entry if not isinstance(entry, dict) else entry.get("side"), names)
    if place is None or whole:
        return None if place is None else Part(place[0], place[1], called=place[2])
    assert isinstance(entry, dict)
    ends: list[Figure | None] = []
    for key in ("from", "to"):
        typed = entry.get(key)
        if typed is None:
            ends.append(None)
            continue
        try:
            ends.append(figure(str(typed), "m"))
        except Mistake:
            return None
    return Part(place[0], place[1], ends[0], ends[1], place[2])
