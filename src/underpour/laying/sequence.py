"""The works of one build-up in their order."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from itertools import groupby
from typing import cast

from ..findings import Seen
from ..measure.table import System
from .records import Work
from .table import Row, asked, caution, fits, measured, said, table
from .things import Thing, Things
from .where import together

PRACTICE = "common practice, no source"


@dataclass(frozen=True, slots=True)
class Act:
    """A row of the table taken for one thing."""

    row: Row
    thing: Thing
    words: Mapping[str, str]

    @property
    def lays(self) -> tuple[str, ...]:
        """Paths of what it puts in place."""
        lays = self.row.get("lays", ())
        return self.thing.paths if lays is True else tuple(path.format_map(self.words) for path in lays)

    @property
    def how(self) -> tuple[str, ...]:
        return tuple(said(self.row["how"], self.thing, self.words))

    @property
    def mind(self) -> str:
        """Its caution, where the thing asks for one."""
        row = self.row
        told = {"when": row.get("mind-when", ()), "unless": row.get("mind-unless", ())}
        if not fits(told, self.thing.features):
            return ""
        return caution(row["caution"]) if "caution" in row else str(row.get("mind", ""))

    @property
    def looks(self) -> tuple[Row, ...]:
        """What to look at in it."""
        return tuple(look for look in self.row.get("look", ()) if fits(look, self.thing.features))

    @property
    def texts(self) -> tuple[str, ...]:
        """Everything that is printed of it."""
        looked = (look[key].format_map(self.words) for look in self.looks for key in ("at", "wanted", "how", "before"))
        return (*self.how, self.mind, *looked)


@dataclass(frozen=True, slots=True)
class Stage:
    """One work, with the acts in it: the same act at several edges is one work."""

    work: Work
    acts: tuple[Act, ...]


def stages(there: Things, system: System) -> tuple[Stage, ...]:
    """Every work of a build-up in its order.

    Layers follow one another from the ground up; foam and structure of the edges stand where their face lets them.
    Each layer, piece and drawn body is put in place exactly once: what no row of the table takes by what it is, a row
    for the rest takes.
    """
    found: list[Stage] = []
    for _, of_a_row in groupby(_acts(there, measured("sequence", system)), key=_row_and_layer):
        for acts in _alike(list(of_a_row)):
            found.append(Stage(work(len(found) + 1, acts), tuple(acts)))
    return tuple(found)


def edges_of(acts: Sequence[Act]) -> str:
    """The edges that some acts are done at: "edge A", "edges A and B"; "" where at none."""
    names = list(dict.fromkeys(act.thing.edge for act in acts if act.thing.edge))
    return f"{'edges' if len(names) > 1 else 'edge'} {together(names)}" if names else ""


def capital(text: str) -> str:
    """The text with a capital letter in front.

    >>> capital("edge A")
    'Edge A'
    """
    return text[:1].upper() + text[1:]


def _acts(there: Things, measures: Mapping[str, str]) -> Iterator[Act]:
    rows = table("sequence")
    poured = next((n for n, layer in enumerate(there.layers) if "lowest-poured" in layer.features), len(there.layers))
    taken = _taken(there)
    in_order = [
        *_group(rows["before"], there, taken),
        *(act for layer in there.layers[:poured] for act in _layer(layer)),
        *_group(rows["slab-edge"], there, taken),
        *(act for layer in there.layers[poured:] for act in _layer(layer)),
        *_group(rows["after"], there, taken),
    ]
    for row, thing in in_order:
        yield Act(row, thing, {**measures, **thing.words})


def _group(rows: Sequence[Row], there: Things, taken: frozenset[str]) -> Iterator[tuple[Row, Thing]]:
    for row in rows:
        for thing in there.of(row["each"]):
            if asked(row, thing) and not (_for_the_rest(row) and taken.issuperset(thing.paths)):
                yield row, thing


def _layer(layer: Thing) -> Iterator[tuple[Row, Thing]]:
    rows = table("sequence")["layer"]
    taken = [row for row in rows if not _for_the_rest(row) and asked(row, layer)]
    for row in taken or filter(_for_the_rest, rows):
        yield row, layer


def _taken(there: Things) -> frozenset[str]:
    """Paths of the pieces and bodies that some row puts in place by what they are."""
    rows = [row for group in ("before", "slab-edge", "after") for row in table("sequence")[group]]
    return frozenset(
        path
        for thing in (*there.pieces, *there.bodies)
        if any(row.get("lays") is True and not _for_the_rest(row) and asked(row, thing) for row in rows)
        for path in thing.paths
    )


def _for_the_rest(row: Row) -> bool:
    return bool(row.get("rest", False))


def _row_and_layer(act: Act) -> tuple[int, tuple[str, ...]]:
    return id(act.row), act.thing.paths if act.thing.each == "layer" else ()


def _alike(acts: Sequence[Act]) -> list[list[Act]]:
    """Acts of one row at different edges whose texts are the same, put together in the order of the first."""
    groups: list[list[Act]] = []
    for act in acts:
        same = (g for g in groups if g[0].texts == act.texts and all(a.thing.edge != act.thing.edge for a in g))
        group = next(same, None)
        if group is None:
            groups.append([act])
        else:
            group.append(act)
    return groups


def work(number: int, acts: Sequence[Act]) -> Work:
    """Acts of one row, whose texts are the same, as one work."""
    first = acts[0]
    on_the_floor = "the floor" if first.thing.each == "layer" else "the site"
    return Work(
        number=number,
        key=first.row["key"],
        what=first.row["what"],
        where=edges_of(acts) or on_the_floor,
        how=tuple(capital(text) for text in first.how),
        mind=first.mind,
        stops=bool(first.row.get("stops", False)),
        laid=tuple(path for act in acts for path in act.lays),
        source=first.row.get("source", PRACTICE),
        seen=cast(Seen, first.row.get("seen", "practice")),
    )
