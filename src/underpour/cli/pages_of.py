"""Products for pages made from records: which are meant, from which line, held to which day."""

from __future__ import annotations

import datetime
import re
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from pathlib import Path
from typing import TYPE_CHECKING, Literal

from ..mistakes import Mistake
from .parsing import unknown_word

if TYPE_CHECKING:
    from ..catalogue.line import Product
    from ..catalogue.products import OfMaker, Products
    from ..catalogue.records import Board
    from ..conformity import Held
    from ..particulars import Particulars

MOST = 12  # names listed in a message


@dataclass(frozen=True, eq=False)
class Offered:
    """A product that a page can be made of; it is put into words when it is asked for."""

    product: Product
    of: OfMaker
    held: Held
    day: datetime.date

    def shown(self) -> Particulars:
        """The product as it is shown on its day."""
        from ..conformity.rules import rules
        from ..particulars import particulars

        board = _board(self.product, self.of)
        return particulars(self.product, self.of.line, self.held, self.day, rules(), board)


def in_hand(path: str | None, today: datetime.date) -> tuple[Offered, ...]:
    """Every product of a file or folder, or of the line that comes with the tool, held to a day.

    Raises
    ------
    Mistakes
        Every file that cannot be read, with file and line; two products of one key.
    """
    from ..catalogue.products import own_lines, shipped_products
    from ..conformity import placed, validation
    from ..conformity.rules import rules

    lines = shipped_products().lines if path is None else own_lines(Path(path))
    found = validation([placed(of) for of in lines], today, rules())
    products = [(product, of) for of in lines for product in of.line.product]
    return tuple(
        Offered(product, of, held, today) for (product, of), held in zip(products, found.products, strict=True)
    )


def products_named(path: str | None) -> Products:
    """The products that can be named: the tool's, and beside them those of a file or folder of one's own.

    Raises Mistakes as `in_hand` does.
    """
    from ..catalogue.products import Products, own_lines, shipped_products

    return shipped_products() if path is None else Products(own_lines(Path(path)))


def _board(product: Product, of: OfMaker) -> Board | None:
    """The product as a board; None where it is no flat one, or lacks a record that every board needs."""
    from ..catalogue.boards import product_board
    from ..catalogue.products import FLAT

    try:
        return product_board(product, of) if product.kind in FLAT else None
    except Mistake:
        return None


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


def system_of(of: Particulars) -> Literal["US", "SI"]:
    """The system that a record is typed in, by its thicknesses and sizes."""
    made = [each.thickness.typed for each in of.product.made]
    typed = " ".join([*made, *(each.typed for each in of.product.sizes)])
    return "SI" if re.search(r"\d ?(mm|cm|m)\b", typed) else "US"


def paper_of(of: Particulars) -> Literal["a4", "us-letter"]:
    """The sheet that goes with that system."""
    return "us-letter" if system_of(of) == "US" else "a4"
