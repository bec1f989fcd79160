"""Walls on footings: which edge each stands at, and whether its footing can carry one."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from ..measure import Measure
from ..mistakes import Mistake, nearest
from .edges import FACES
from .later import not_yet
from .loads import edge_called
from .model import Brief
from .paths import letter
from .tables.edge import Edge
from .tables.load import Load

_NAMED = 'Write at = "edge A", by the letter or the name of an edge.'


def edge_of(load: Load, names: Sequence[str | None]) -> int | None:
    """Which edge a load stands at; None where no edge is called that. A whole name goes before its last words."""
    return edge_called(load.at, names) if load.at is not None else None


def loads_at_edges(brief: Brief) -> dict[int, tuple[int, Measure]]:
    """For each edge with a wall's load, by its place in the file: the load's number from 1, and its force. [N/m]"""
    names = [edge.name for edge in brief.edge]
    walls = [(n, load) for n, load in enumerate(brief.load, start=1) if load.kind == "wall"]
    found = {edge_of(load, names): (number, load.force) for number, load in walls}
    return {edge: (number, force) for edge, (number, force) in found.items() if edge is not None and force is not None}


def unclear_loads(
    loads: Sequence[Load | None], edges: Sequence[Edge | None], names: Sequence[str | None]
) -> Iterator[Mistake]:
    """What is wrong with the loads that could be read, against the edges of the same brief."""
    carrying: dict[int, int] = {}
    for number, load in enumerate(loads, start=1):
        if load is None or load.kind != "wall":
            continue
        yield from _untold(load, f"load.{number}")
        if load.at is None:
            continue
        at = f"load.{number}.at"
        index = edge_of(load, names)
        if index is None:
            yield _no_such_edge(at, load.at, names)
        elif index in carrying:
            other = f"Edge {names[index] or letter(index)} carries load {carrying[index]} already."
            yield Mistake(at, "", other, "Add the two up, and write one load for each edge.")
        else:
            carrying[index] = number
            edge = edges[index]
            if edge is not None and "below-footing" not in FACES[edge.kind]:
                yield not_yet(at, f"a wall's load on a {edge.kind}")
            elif edge is not None and edge.beside == "heated":
                wrong = f"Edge {names[index] or letter(index)} lies beside a heated room; it is not answered."
                yield Mistake(at, "", wrong, "Take this load out, or name an edge that faces outdoors.")


def _untold(load: Load, at: str) -> Iterator[Mistake]:
    """A wall that does not say where it stands or what it brings, and keys that no wall has."""
    if load.at is None:
        yield Mistake(f"{at}.at", "", "A load needs at: the edge the wall stands at.", 'Write at = "edge A".')
    if load.force is None:
        wrong = "A load needs force: what the wall brings to each length of its footing, unfactored."
        yield Mistake(f"{at}.force", "", wrong, 'Write force = "1500 lb/ft".')
    for name in sorted(load.model_fields_set - {"kind", "at", "force", "like"}):
        key = name.rstrip("_").replace("_", "-")
        yield Mistake(f"{at}.{key}", "", f"A wall on its footing has no {key}.", "Take it out.")


def _no_such_edge(at: str, typed: str, names: Sequence[str | None]) -> Mistake:
    known = [f"edge {name or letter(index)}" for index, name in enumerate(names)]
    near = nearest(typed, known)
    hint = f"The nearest is {near[0]}. " if near else ""
    return Mistake(at, "", f"No edge is called {typed.removeprefix('edge ')}.", f"{hint}{_NAMED}")
