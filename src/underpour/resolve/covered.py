"""How dry the slab must be for its covering: as its maker says, as is usual for its kind, or asked."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import replace

from .. import catalogue
from ..brief.tables.floor import FloorTable
from ..catalogue.records import Quantity
from ..findings import Assumed
from ..mistakes import Mistake
from .assumptions import Assumptions
from .resolved import Slice

PATH = "floor.covering-limit"


def with_its_limit(floor: Sequence[Slice], table: FloorTable, assumed: Assumptions) -> list[Slice]:
    """The layers, the covering held to what its maker types; one of no known kind has a limit that is assumed."""
    covering = floor[0].covering if floor else None
    if covering is None or (table.covering_limit is None and covering.known):
        return [*floor]
    usual = covering.slab_humidity
    if table.covering_limit is not None:
        value, where = 100.0 * table.covering_limit.si, "as the brief has it, of the covering's maker"
    else:
        why = f"{usual.where} (common practice, no source)"
        value = assumed.take(Assumed(PATH, usual.value, usual.low, usual.high, "%", why))
        where = usual.where
    limit = Quantity(value, "%", value, value, catalogue.source("practice"), where, "practice", PATH)
    return [replace(floor[0], covering=replace(covering, slab_humidity=limit)), *floor[1:]]


def without_covering(floor: Sequence[Slice], table: FloorTable) -> Iterator[Mistake]:
    """A limit of a covering that does not lie there."""
    if table.covering_limit is not None and not any(layer.covering is not None for layer in floor):
        wrong = "covering-limit is told, and no covering lies on this floor."
        yield Mistake(PATH, "", wrong, 'Write { covering = "other" } as the first layer, or take this out.')
