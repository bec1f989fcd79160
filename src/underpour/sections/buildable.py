"""Whether everything in a reading can be built, told before anything heavy is loaded."""

from __future__ import annotations

from ..brief import Reading
from ..brief.alternatives import AS_BRIEFED
from ..brief.model import Brief
from ..catalogue import Products
from ..mistakes import Mistake, Mistakes
from ..resolve import Resolved, ResolvedEdge, resolve
from .build import section, unbuilt


def buildable(reading: Reading) -> None:
    """Resolve the brief and its alternatives and lay out every section, solving nothing.

    Raises
    ------
    Mistakes
        What only the catalogue or the section's levels could reveal, with file and line. The brief's own come first;
        an alternative is asked only when the brief itself can be built, so that nothing is told twice.
    """
    for name, brief in [(AS_BRIEFED, reading.brief), *reading.alternatives]:
        found = _mistakes(brief, reading.products)
        if found:
            raise reading.placed(found, name)


def _mistakes(brief: Brief, products: Products) -> list[Mistake]:
    try:
        resolved = resolve(brief, products=products)
    except Mistakes as mistakes:
        return list(mistakes)
    return [mistake for edge in resolved.edges if (mistake := _unbuilt(resolved, edge)) is not None]


def _unbuilt(resolved: Resolved, edge: ResolvedEdge) -> Mistake | None:
    try:
        return unbuilt(section(resolved, edge), edge, resolved.system)
    except Mistake as mistake:
        return mistake
