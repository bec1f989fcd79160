"""What changes with another board: its own properties, and the findings of the brief that move."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from .. import measure
from ..catalogue.products import Products
from ..catalogue.records import Board, Quantity
from ..design import long_term
from ..findings import Finding
from ..mistakes import Mistake
from ..resolve import Slice
from .places import place as place_words
from .records import Change, Exchange, Refusal

SHOWN = (  # of the records: how their names begin, and the unit that a change is told in
    ("Water vapour permeance", "ng/(Pa·s·m²)"),
    ("Water taken up, by volume", "%"),
)
KILO = 1000.0  # Pa in a kPa
SHORT = ("falls short", "cannot tell")


def of_products(
    asked: Board, board: Board, places: Sequence[Slice], exchanges: Sequence[Exchange], products: Products
) -> Iterator[Change]:
    """The properties that a reviewer looks at, both products side by side."""
    yield Change("Foam", "", asked.material, board.material)
    yield Change("Classes claimed", "", _classes(asked), _classes(board))
    yield Change("Strength of the short test", "kPa", asked.strength.value, board.strength.value)
    yield Change("What may stand on it for good, smallest basis with evidence", "kPa", *map(_for_good, (asked, board)))
    for begins, unit in SHOWN:
        before, after = _record(asked, begins), _record(board, begins)
        if before or after:
            name = before[0] if before else after[0] if after else begins
            yield Change(name, unit, _number(before, unit), _number(after, unit))
    yield Change("Tape tested to its facing", "", _tapes(asked, products), _tapes(board, products))
    yield Change("Weight by area, laid", "kg/m²", *_weights(asked, board, places, exchanges))
    for place, exchange in zip(places, exchanges, strict=True):
        if exchange.after:
            prices = (_price(asked, place.thickness, products), _price(board, _made(board, exchange.after), products))
            yield Change(f"Price, {place_words(exchange.path)}", "", *prices)


def moved(before: Sequence[Finding], after: Sequence[Finding]) -> Iterator[Refusal]:
    """Findings that held with the board that is asked for and no longer do."""
    was = {_name(finding): finding for finding in before}
    for finding in after:
        other = was.get(_name(finding))
        held = other is None or other.verdict not in SHORT
        if finding.verdict in SHORT and held and finding.id != "product.evidence":
            words = f"{finding.title}: {finding.verdict}. {finding.words}".strip()
            yield Refusal(finding.id, words, finding.basis[0] if finding.basis else None)


def _name(finding: Finding) -> tuple[str, frozenset[tuple[str, str | float]]]:
    return finding.id, frozenset(finding.at.items())


def _for_good(board: Board) -> float | None:
    stress = long_term(board).smallest.stress
    return None if stress is None else stress / KILO


def _classes(board: Board) -> str:
    return "; ".join(board.classes) or board.label.partition(", ")[2]


def _record(board: Board, begins: str) -> tuple[str, Quantity] | None:
    return next(((name, number) for name, number in board.tested if name.startswith(begins)), None)


def _number(record: tuple[str, Quantity] | None, unit: str) -> float | None:
    if record is None:
        return None
    return 100.0 * record[1].value if unit == "%" and record[1].unit != "%" else record[1].value


def _tapes(board: Board, products: Products) -> str | None:
    facing = products.product(board.key).facing if products.has(board.key) else None
    return None if facing is None else ", ".join(facing.tapes) or "none"


def _weights(
    asked: Board, board: Board, places: Sequence[Slice], exchanges: Sequence[Exchange]
) -> tuple[float | None, float | None]:
    """By area of both boards, as thick as they are at the first of the places. [kg/m²]"""
    return _weight(asked, places[0].thickness), _weight(board, _made(board, exchanges[0].after))


def _weight(board: Board, thickness: float | None) -> float | None:
    found = _record(board, "Density")
    return None if found is None or thickness is None else found[1].value * thickness


def _made(board: Board, typed: str) -> float | None:
    return next((made.thickness for made in board.made if made.typed == typed), None)


def _price(board: Board, thickness: float | None, products: Products) -> str | None:
    """The price as the line prints it, with its day; None where it has none."""
    if not products.has(board.key) or thickness is None:
        return None
    of = products.line_of(board.key)
    product = products.product(board.key)
    made = next((each for each in product.made if abs(each.thickness.si - thickness) < 5e-4), None)
    day = product.priced or of.line.priced
    if made is None or not made.price or day is None:
        return None
    try:
        measure.money_per_unit(made.price)
    except Mistake:
        return None
    return f"{made.price} ({day.isoformat()})"
