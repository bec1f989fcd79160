"""The catalogue as lists: one line an entry."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from ..catalogue.records import Board, Material, Quantity, Retarder, Use
from .paragraphs import block, hung
from .spoken import measured

HEADS = {
    "boards": "Boards, for `board =`",
    "grounds": "Grounds, for `ground =`",
    "materials": "Materials of layers and walls",
    "retarders": "Vapour retarders, for `vapour-retarder =`",
    "surfaces": "Surface resistances",
    "uses": "Uses, for `use =`",
}


def listed(lists: Sequence[str], width: int) -> str:
    """The lists asked for, each under its heading, entries in the catalogue's order."""
    lines = []
    for what in lists:
        entries = list(shelf(what))
        indent = 2 + max(len(key) for key, _ in entries) + 2
        lines += block(HEADS[what], (line for key, words in entries for line in hung(words, width, indent, f"  {key}")))
    return "\n".join([*lines, "Every number of one: underpour catalogue show NAME"]) + "\n"


def shelf(what: str) -> Iterator[tuple[str, str]]:
    """Name and one line of each entry of a list."""
    from .. import catalogue

    if what == "surfaces":
        for key, quantity in catalogue.surfaces():
            yield key, measured(quantity.value, quantity.unit, "SI")
        return
    records = {
        "boards": catalogue.boards,
        "grounds": catalogue.grounds,
        "materials": catalogue.materials,
        "retarders": catalogue.retarders,
        "uses": catalogue.uses,
    }[what]()
    for record in records:
        yield record.key, one_line(record)


def one_line(record: Board | Material | Retarder | Use) -> str:
    """Label and the number that matters most."""
    if isinstance(record, Board):
        return f"{record.label}, {record.material}: {_said(record.conductivity_in_place)} in place"
    if isinstance(record, Material):
        return f"{record.label}: {_said(record.conductivity)}"
    if isinstance(record, Retarder):
        return f"{record.label}: {_said(record.permeance)}"
    also = f", also called {', '.join(record.aliases)}" if record.aliases else ""
    return f"{record.label}: {_said(record.room)}{also}"


def _said(quantity: Quantity) -> str:
    return measured(quantity.value, quantity.unit, "SI")
