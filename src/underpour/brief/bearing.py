"""Loads on edges: which edge each stands at, and whether its footing can carry one."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from ..measure import Measure
from ..mistakes import Mistake, nearest
from .edges import FACES
from .later import not_yet
from .model import Brief
from .paths import edge_index, letter
from .tables.edge import Edge
from .tables.load import Load

_NAMED = 'Write at = "edge A", by the letter or the name of an edge.'


def edge_of(load: Load, names: Sequence[str | None]) -> int | None:
    """Which edge a load stands at; None where no edge is called that. A whole name goes before its last words."""
    found = edge_index(load.at, names)
    return found if found is not None else edge_index(load.at.removeprefix("edge ").strip(), names)


def loads_at_edges(brief: Brief) -> dict[int, tuple[int, Measure]]:
    """For each edge with a wall's load, by its place in the file: the load's number from 1, and its force. [N/m]"""
    names = [edge.name for edge in brief.edge]
    found = {edge_of(load, names): (number, load.force) for number, load in enumerate(brief.load, start=1)}
    return {edge: told for edge, told in found.items() if edge is not None}


def unclear_loads(
    loads: Sequence[Load | None], edges: Sequence[Edge | None], names: Sequence[str | None]
) -> Iterator[Mistake]:
    """What is wrong with the loads that could be read, against the edges of the same brief."""
    carrying: dict[int, int] = {}
    for number, load in enumerate(loads, start=1):
        if load is None:
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


def _no_such_edge(at: str, typed: str, names: Sequence[str | None]) -> Mistake:
    known = [f"edge {name or letter(index)}" for index, name in enumerate(names)]
    near = nearest(typed, known)
    hint = f"The nearest is {near[0]}. " if near else ""
    return Mistake(at, "", f"No edge is called {typed.removeprefix('edge ')}.", f"{hint}{_NAMED}")
