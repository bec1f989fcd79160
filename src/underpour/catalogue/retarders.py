"""Vapour retarders under a slab."""

from __future__ import annotations

from functools import cache
from typing import TYPE_CHECKING

from ..mistakes import Mistake
from .properties import properties, unit_of
from .read import one, quantity, table
from .records import Quantity, Retarder

if TYPE_CHECKING:
    from .line import Evidence, Product
    from .products import OfMaker

TESTED = ("permeance-film-conditioned", "permeance-film")  # after conditioning is what lies below a slab


@cache
def _by_key() -> dict[str, Retarder]:
    return {
        key: Retarder(
            key=key,
            label=entry["label"],
            thickness=entry["thickness"]["value"],
            permeance=quantity(entry["permeance"], f"catalogue.retarder.{key}.permeance"),
            brings=entry.get("brings", ""),
            standard=entry.get("standard", ""),
        )
        for key, entry in table("retarders").items()
    }


def retarders() -> tuple[Retarder, ...]:
    """Every vapour retarder, thinnest first."""
    return tuple(_by_key().values())


def retarder(key: str) -> Retarder:
    """The vapour retarder of that key; a key that is not known is a Mistake with the nearest one.

    >>> retarder("film-15-mil").thickness
    0.000381
    """
    return one(_by_key(), key, "vapour retarder", "retarders")


def film_retarder(product: Product, of: OfMaker) -> Retarder:
    """A film of a line as a vapour retarder, with the worst permeance of its records. Raises Mistake."""
    if product.kind != "film":
        wrong = f"{product.name or product.key} is no film, and a vapour retarder is one."
        raise Mistake("", f'"{product.key}"', wrong, "All of them: underpour catalogue list retarders")
    read = [(each.property, number) for each in product.evidence if (number := _number(each, product, of)) is not None]
    tested = [number for key, number in read if key in TESTED]
    if not tested or not product.made:
        lacks = "a permeance with its unit" if not tested else "a thickness made"
        wrong = f"The record of {product.name or product.key} lacks {lacks}, so nothing can be worked out with it."
        raise Mistake("", f'"{product.key}"', wrong, "See: underpour catalogue validate")
    name = product.name or product.key
    none = min(tested, key=lambda each: each.value)
    if none.value <= 0.0:
        wrong = f"{name} lets {none.value:.3g} {none.unit} of vapour through ({none.where}); no film lets so little."
        instead = "Write the permeance as the report has it; where the test saw none, the least that it can see."
        raise Mistake("", f'"{product.key}"', wrong, instead)
    return Retarder(
        key=product.key,
        label=f"{name} (invented)" if of.line.maker.invented else name,
        thickness=product.made[0].thickness.si,
        permeance=max(tested, key=lambda each: each.value),
        maker=of.line.maker.name,
        invented=of.line.maker.invented,
        classes=product.claims,
        tested=tuple((properties()[key].name, number) for key, number in read),
    )


def _number(evidence: Evidence, product: Product, of: OfMaker) -> Quantity | None:
    about = properties()[evidence.property]
    times = unit_of(evidence.unit, about.kind)
    if times is None or evidence.value is None:
        return None
    value = evidence.value * times / about.unit_si
    where = evidence.named(about.printed)
    path = f"catalogue.product.{product.key}.{evidence.property}"
    return Quantity(value, about.unit, value, value, of.source, where, of.source.seen, path)
