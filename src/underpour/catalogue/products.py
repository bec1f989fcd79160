"""The product line that comes with the tool: an invented maker's, with its evidence."""

from __future__ import annotations

from functools import cache
from typing import TYPE_CHECKING

from .read import FOLDER, one

if TYPE_CHECKING:
    from .line import Line, Product

FLAT = ("board", "faced-board")  # thickness is foam
SHAPED = ("tube-panel", "soil-gas-panel")  # a pattern stands beyond the foam
SHIPPED = FOLDER / "marlpit.toml"


@cache
def shipped_line() -> Line:
    """The shipped line, read on first use."""
    from .line_file import line_text, read_line

    return read_line(line_text(SHIPPED), str(SHIPPED))


@cache
def _by_key() -> dict[str, Product]:
    return {product.key: product for product in shipped_line().product}


def products() -> tuple[Product, ...]:
    """Every product, in the order of the file."""
    return tuple(_by_key().values())


def product(key: str) -> Product:
    """The product of that key; a key that is not known is a Mistake with the nearest one.

    >>> product("knob-15").pattern.knob_height.typed
    '1-1/4 in'
    """
    return one(_by_key(), key, "product", "products")
