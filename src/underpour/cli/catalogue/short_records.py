"""What is said wherever a product's numbers are shown and its records fall short."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from ...catalogue.products import Products


def short_records(keys: Iterable[str], products: Products) -> Iterator[str]:
    """One sentence for each of those products in whose records something falls short on their day."""
    from ...catalogue.products import SHIPPED
    from ...conformity import held_product, placed
    from ...conformity.rows import day
    from ...conformity.rules import rules

    lines = [placed(of) for of in products.lines]
    for key in keys:
        if not products.has(key):
            continue
        held = held_product(lines, key, products.day, rules())
        count = sum(each.verdict == "falls short" for each in held.findings)
        if count:
            number = "1 thing falls" if count == 1 else f"{count} things fall"
            file = "" if held.file == SHIPPED.name else f" {held.file}"
            yield (
                f"On {day(products.day)} {number} short in the records of {held.name or key}, and a number that rests "
                f"on them does not stand: underpour catalogue validate{file}"
            )
