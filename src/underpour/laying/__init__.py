"""How the slab is laid: product data, the works in their order, what to look at, and who must confirm what."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from ..findings import Finding
from ..resolve import Resolved
from ..sections.parts import Section
from .confirmers import confirmers
from .inspection import points, unseen
from .products import products
from .records import Confirmer, Point, Product, Unseen, Work
from .sequence import stages
from .things import things


@dataclass(frozen=True, slots=True)
class Laying:
    """All of it for one build-up."""

    products: tuple[Product, ...]
    sequence: tuple[Work, ...]
    inspection: tuple[Point, ...]
    unseen: tuple[Unseen, ...]
    confirmers: tuple[Confirmer, ...]


def laying(resolved: Resolved, sections: Mapping[str, Section], findings: Sequence[Finding]) -> Laying:
    """What is laid, in which order, looked at and confirmed; ``sections`` by the edges' letters."""
    there = things(resolved, sections)
    works = stages(there, resolved.system)
    looks = points(works, findings)
    return Laying(
        products=products(resolved),
        sequence=tuple(stage.work for stage in works),
        inspection=looks,
        unseen=unseen(looks, findings),
        confirmers=confirmers(there, findings, resolved.system),
    )
