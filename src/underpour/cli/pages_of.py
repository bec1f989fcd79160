"""Products for pages made from records: which are meant, from which line, held to which day."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from pathlib import Path
from typing import TYPE_CHECKING

from ..handouts.products import Offered
from .parsing import unknown_word

if TYPE_CHECKING:
    from ..catalogue.products import Products

MOST = 12  # names listed in a message


def products_named(path: str | None) -> Products:
    """The products that can be named: the tool's, and beside them those of a file or folder of one's own.

    Raises Mistakes as `in_hand` does.
    """
    from ..catalogue.products import Products, own_lines, shipped_products

    return shipped_products() if path is None else Products(own_lines(Path(path)))


def one(products: Sequence[Offered], name: str, command: str, also: Iterable[str] = ()) -> Offered:
    """The product of that key; a Mistake with the nearest where none has it.

    ``also`` are other words that could have been meant.
    """
    found = next((each for each in products if each.product.key == name), None)
    if found is None:
        keys = [*(each.product.key for each in products), *also]
        raise unknown_word(command, name, keys, f"No product is called {name}.", _listing(products))
    return found


def _listing(products: Sequence[Offered]) -> str:
    """Where to find the names: of the line that comes with the tool by a command, of own lines here."""
    from ..catalogue.products import SHIPPED

    if any(each.held.file == SHIPPED.name for each in products):
        return "All of them: underpour catalogue list products. A line of your own is named with --catalogue FILE."
    keys = [each.product.key for each in products]
    more = f" and {len(keys) - MOST} more" if len(keys) > MOST else ""
    return f"To choose from: {', '.join(keys[:MOST])}{more}."
