"""One entry of the catalogue with every number: value in both systems, low, high, source, clause, how it was seen."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import fields
from typing import Any

from ..catalogue.records import Board, Made, Quantity
from .paragraphs import hung
from .parsing import unknown_word
from .spoken import measured, stands_on
from .under_stress import under_stress

TITLES = {
    "r_label_per_metre": "R-value as labelled, by thickness",
    "r_label": "R-value as labelled",
    "label_terms": "The label refers to",
    "in_place_steps": "How that was reached",
    "age": "Age of the foam at the test of its R",
    "heat_capacity": "Heat capacity by volume",
    "strength": "Strength of the short test",
    "aliases": "Also called",
    "floor_at_least": "Floor surface where people sit, at least",
    "room": "Room that may be assumed",
    "humidity": "Humidity that may be assumed",
}
UNSAID = (
    *("key", "label", "hatch", "made", "invented", "strength", "density", "tested"),
    *("cautious_share", "one_percent", "creep", "readings"),  # said as what may stand for good
    "wetting",
)


def shown(key: str, width: int) -> str:
    """Every number of the entries called ``key``, by their name or another word for them, wherever they stand."""
    from .. import catalogue

    by_key: dict[str, list[tuple[str, Any]]] = {}
    for path, record in catalogue.everything():
        for word in (path.rsplit(".", 1)[-1], *getattr(record, "aliases", ())):
            by_key.setdefault(word, []).append((path, record))
    if key not in by_key:
        wrong = f"The catalogue has nothing called {key}."
        raise unknown_word("underpour catalogue show", key, by_key, wrong, "All of them: underpour catalogue list")
    return "\n".join(line for path, record in by_key[key] for line in [*_record(path, record, width), ""])


def _record(path: str, record: Any, width: int) -> Iterator[str]:
    from .. import catalogue
    from .product_shown import shown as product_shown

    if path.startswith("catalogue.product."):
        return product_shown(record, catalogue.shipped_products().line_of(record.key).line, width)
    return _entry(path, record, width)


def _entry(path: str, record: Any, width: int) -> Iterator[str]:
    yield from hung(f"{getattr(record, 'label', path.rsplit('.', 1)[-1])} ({path})", width)
    if isinstance(record, Quantity):
        yield from _quantity("Value", record, width)
        return
    if isinstance(record, Board) and record.invented:
        yield "  An invented product of an invented maker, to show with."
    values = {field.name: getattr(record, field.name) for field in fields(record) if field.name not in UNSAID}
    notes = {value.note for value in values.values() if isinstance(value, Quantity)}
    for name, value in values.items():
        if not isinstance(value, str) or value not in notes:
            yield from _line(_title(name), value, width)
    for name, number in getattr(record, "tested", ()):
        yield from _quantity(name, number, width)
    if isinstance(record, Board):
        yield from _wetting(record, width)
        yield from under_stress(record, width)
    if isinstance(record, Board) and record.made:
        yield "  Made in, with R-value as labelled and in place"
        for made in record.made:
            yield from _thickness(record, made, width)


def _wetting(board: Board, width: int) -> Iterator[str]:
    """What water does to it, and who says how much of it there is after years in the ground."""
    if board.wetting is None:
        return
    yield from _quantity("Moisture coefficient", board.wetting.per_water, width)
    yield from hung(
        "disputed; a brief types what it goes by, water in [foam]", width, 6, "  Water after years in the ground:"
    )
    for school in board.wetting.schools:
        lies = measured(board.wetting.conductivity(school.water.value), "W/(m·K)", "SI")
        said = f"{100.0 * school.water.value:.3g} % by volume, {school.says}; with it the board conducts {lies}"
        yield from hung(said, width, 6)
        yield from hung(stands_on(school.water.basis()), width, 8)


def _title(name: str) -> str:
    return TITLES.get(name, name.replace("_", " ").capitalize())


def _line(title: str, value: Any, width: int) -> Iterator[str]:
    if isinstance(value, Quantity):
        yield from _quantity(title, value, width)
    elif isinstance(value, bool):
        yield f"  {title}:  {'yes' if value else 'no'}"
    elif isinstance(value, tuple) and value:
        yield from hung(", ".join(map(str, value)), width, 6, f"  {title}:")
    elif isinstance(value, float):
        yield from hung(measured(value, "m", "SI"), width, 6, f"  {title}:")
    elif isinstance(value, int | str) and value:
        yield from hung(str(value), width, 6, f"  {title}:")


def _quantity(title: str, quantity: Quantity, width: int) -> Iterator[str]:
    def said(value: float) -> str:
        return measured(value, quantity.unit, "SI")

    yield from hung(said(quantity.value), width, 6, f"  {title}:")
    if quantity.low != quantity.high:
        yield from hung(f"between {said(quantity.low)} and {said(quantity.high)}", width, 6)
    yield from hung(stands_on(quantity.basis()), width, 6)
    yield from hung(quantity.note, width, 6)


def _thickness(board: Board, made: Made, width: int) -> Iterator[str]:
    labelled = measured(made.r_label.value, made.r_label.unit, "SI")
    in_place = measured(board.r_in_place(made.thickness), "m²·K/W", "SI")
    yield from hung(f"{labelled} as labelled, {in_place} in place", width, 16, f"    {made.typed}")
