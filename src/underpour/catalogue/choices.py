"""What each board and panel in hand takes to reach a wanted R, and what a thickness of it brings."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass

from ..measure import Measure, System
from ..mistakes import Mistake
from .boards import class_board, product_board, unknown_board
from .products import FLAT, SHAPED, Products
from .records import Board
from .thickness import Laid, cut_to, made_in, most_layers, one_layer, stack

SAME = 5e-4  # m: a typed thickness this near to a made one is that one


@dataclass(frozen=True, slots=True)
class Choice:
    """One board or panel for a wanted R. ``one`` and ``layers`` are None where they do not reach it."""

    key: str
    board: Board  # of a panel its solid foam
    shaped: bool  # a pattern of knobs or channels stands beyond the solid foam, so no second layer lies on it
    one: Laid | None
    layers: Laid | None
    height: str  # over all, of a shaped panel, as it is typed
    price: str  # of one layer, as it is typed; "" where none is stated


def choices(products: Products, keys: Iterable[str], wanted: float, system: System) -> Iterator[Choice]:
    """For each board and panel the thinnest that reaches a wanted R as labelled. [m²·K/W in]

    Raises
    ------
    Mistake
        A key that is no board and no panel.
    """
    for key in keys:
        board, shaped = foam_of(products, key)
        made = made_in(board, system)
        one = one_layer(made, wanted)
        layers = None if shaped else stack(board.made, wanted, most_layers())
        yield Choice(key, board, shaped, one, layers, *_told(products, key, one))


def brought(products: Products, key: str, thickness: Measure, system: System) -> Choice:
    """What a thickness of a board or panel brings; of a panel the thickness of its solid foam.

    Raises
    ------
    Mistake
        No such board or panel, or it is not made so thick.
    """
    board, shaped = foam_of(products, key)
    if not board.made:
        return Choice(key, board, shaped, Laid((cut_to(board, thickness.typed, thickness.si),)), None, "", "")
    for each in board.made:
        if abs(each.thickness - thickness.si) < SAME:
            one = Laid((each,))
            return Choice(key, board, shaped, one, None, *_told(products, key, one))
    had = ", ".join(each.typed for each in made_in(board, system))
    of = " of solid foam" if shaped else ""
    wrong = f"{board.label} is not made {thickness.typed} thick."
    raise Mistake("", f'"{thickness.typed}"', wrong, f"It is made in {had}{of}.")


def all_keys(products: Products) -> tuple[str, ...]:
    """Every board that can be worked with, then every panel whose records are enough."""
    panels = [product.key for product in products.products() if product.kind in SHAPED]
    return (*(board.key for board in products.boards()), *(key for key in panels if _workable(products, key)))


def foam_of(products: Products, key: str) -> tuple[Board, bool]:
    """A board, or the solid foam of a shaped panel, and whether it is the latter. Raises Mistake."""
    if products.has(key):
        product = products.product(key)
        if product.kind in SHAPED:
            return product_board(product, products.line_of(key)), True
        if product.kind not in FLAT:
            wrong = f"{product.name} is no board and no panel: it has no R-value."
            raise Mistake("", f'"{key}"', wrong, "All of them: underpour catalogue list boards")
    elif class_board(key) is None:
        unknown_board(key, all_keys(products))
    return products.board(key), False


def _workable(products: Products, key: str) -> bool:
    try:
        foam_of(products, key)
    except Mistake:
        return False
    return True


def _told(products: Products, key: str, laid: Laid | None) -> tuple[str, str]:
    """Height over all and price of one layer, as its record types them."""
    if laid is None or not products.has(key):
        return "", ""
    made = next(m for m in products.product(key).made if abs(m.thickness.si - laid.thickness) < SAME)
    return made.height.typed if made.height else "", made.price
