"""Products of which a page can be made: held to a day, put into words, drawn."""

from __future__ import annotations

import datetime
import re
from dataclasses import dataclass
from pathlib import Path
from typing import TYPE_CHECKING, Literal

from ..mistakes import Mistake

if TYPE_CHECKING:
    from ..catalogue.line import Product
    from ..catalogue.products import OfMaker
    from ..catalogue.records import Board
    from ..conformity import Held
    from ..papers import Picture
    from ..particulars import Particulars


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


def _board(product: Product, of: OfMaker) -> Board | None:
    """The product as a board; None where it is no flat one, or lacks a record that every board needs."""
    from ..catalogue.boards import product_board
    from ..catalogue.products import FLAT

    try:
        return product_board(product, of) if product.kind in FLAT else None
    except Mistake:
        return None


def system_of(of: Particulars) -> Literal["US", "SI"]:
    """The system that a record is typed in, by its thicknesses and sizes."""
    made = [each.thickness.typed for each in of.product.made]
    typed = " ".join([*made, *(each.typed for each in of.product.sizes)])
    return "SI" if re.search(r"\d ?(mm|cm|m)\b", typed) else "US"


def paper_of(of: Particulars) -> Literal["a4", "us-letter"]:
    """The sheet that goes with that system."""
    return "us-letter" if system_of(of) == "US" else "a4"


def picture_of(of: Particulars, wide: float = 170.0) -> Picture | None:
    """The cut through a product, to a scale of details; None where there is nothing to draw.

    ``wide`` is its breadth on paper. [mm]
    """
    from ..drawings.product import product_section
    from ..papers import Picture

    drawn = product_section(of.product, system_of(of), width=wide)
    if drawn is None:
        return None
    alt = f"{of.name} cut through, drawn to the scale {drawn.words}."
    return Picture("Cut", drawn.svg, "", alt, headed=True, wide=wide)
