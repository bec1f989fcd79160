"""Everything that the catalogue holds, by its path: what ``catalogue list`` and ``catalogue show`` go through."""

from __future__ import annotations

from collections.abc import Iterator

from .boards import boards
from .grounds import grounds
from .materials import materials
from .records import Board, Material, Quantity, Retarder, Source, Use
from .retarders import retarders
from .sources import sources
from .surfaces import limits, surfaces
from .uses import uses

Record = Board | Material | Retarder | Quantity | Use | Source


def everything() -> Iterator[tuple[str, Record]]:
    """Each record of the catalogue with its path, ``("catalogue.foam.plain-25", Board(...))``; places are left out."""
    for held in (boards(), materials(), grounds(), retarders(), uses(), sources()):
        for record in held:
            yield f"catalogue.{_word(record)}.{record.key}", record
    for quantities in (surfaces(), limits()):
        for quantity in quantities.values():
            yield quantity.path, quantity


def _word(record: Record) -> str:
    if isinstance(record, Material):
        return "ground" if record.conductivity.path.startswith("catalogue.ground") else "material"
    return {Board: "foam", Retarder: "retarder", Use: "use", Source: "source", Quantity: ""}[type(record)]
