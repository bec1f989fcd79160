"""``underpour catalogue show``: one entry with every number, its source and how it was seen."""

from __future__ import annotations

import datetime
from collections.abc import Iterator, Sequence
from dataclasses import fields
from typing import Any

from ...catalogue.products import Products
from ...catalogue.records import Board, Made, Quantity
from ...mistakes import Mistake
from ..days import day
from ..pages_of import products_named
from ..paragraphs import hung, width_of_terminal
from ..parsing import Words, unknown_word
from ..spoken import measured, stands_on
from ..told import Told
from .short_records import short_records
from .under_stress import under_stress

EXAMPLE = "underpour catalogue show plain-15"
HELP = """\
underpour catalogue show NAME [--label] [--catalogue FILE-or-FOLDER]
                         [--date DAY]

Shows every number of one entry: its value in both systems, low and high,
source, clause, how it was seen. A board has two R-values: as labelled, which a
code reads, and in place, which the heat flow is worked out with.

  NAME         a name from underpour catalogue list
  --label      of a product the text that is held against the print on a pack
               and against the delivery ticket, with places for what is written
               in on site
  --catalogue  your own product line, or a folder of them, beside the line that
               comes with the tool
  --date DAY   the day that the label's certificates are held to; today unless
               you say

For example:

  underpour catalogue show plain-15
"""
TITLES = {
    "r_label_per_metre": "R-value as labelled, by thickness",
    "r_label": "R-value as labelled",
    "label_terms": "The label refers to",
    "in_place_steps": "How that was reached",
    "age": "Age of the foam at the test of its R",
    "heat_capacity": "Heat capacity by volume",
    "strength": "Strength of the short test",
    "aliases": "Also called",
    "standing": "Stands for years",
    "slab_humidity": "Humidity in the slab when it is laid, at most",
    "warmest": "Surface on a heated floor, at most",
    "tyre": "Pressure of a tyre or roller",
    "line_force": "Force on each length",
    "plate": "Side of the square that it stands on",
    "track": "From wheel to wheel across",
    "floor_at_least": "Floor surface where people sit, at least",
    "room": "Room that may be assumed",
    "humidity": "Humidity that may be assumed",
    "countries": "Taken unless a brief says otherwise in",
    "level": "From this level on something is to be done",
    "least_wall": "Wall, at least",
    "thicker": "A wall may be thicker by",
    "longest": "A loop is at most, usually",
    "freezes": "Freezes at, °C",
    "drinkable": "No poison",
    "days_least": "It hangs at least",
    "days_most": "It hangs at most",
    "spread": "Two of three lie within this factor of the year's mean",
    "long": "Long-term",
}
UNSAID = (
    *("key", "label", "hatch", "made", "invented", "strength", "density", "tested"),
    *("cautious_share", "one_percent", "creep", "readings"),  # said as what may stand for good
    *("wetting", "rows", "least", "most"),
)


def parser() -> Words:
    words = Words("catalogue show", EXAMPLE)
    words.add_argument("name", nargs="?")
    words.add_argument("--label", action="store_true")
    words.add_argument("--catalogue", metavar="FILE-or-FOLDER")
    words.add_argument("--date")
    return words


def told(words: Sequence[str]) -> Told:
    """Every number of one entry, or the text that is held against a pack."""
    asked = parser()
    given = asked.read(words)
    name = asked.must(given.name, "Which entry? Give a name from underpour catalogue list.")
    if given.date is not None and not given.label:
        wrong = "Only the label is held to a day."
        raise Mistake("underpour catalogue show --date", "", wrong, "Leave it out, or ask for --label.")
    if given.label:
        return Told(_label(name, given.catalogue, day(given.date), width_of_terminal()))
    return Told(shown(name, products_named(given.catalogue), width_of_terminal()))


def _label(name: str, catalogue: str | None, today: datetime.date, width: int) -> str:
    """The text that is held against a pack."""
    from ...handouts.products import in_hand
    from ...particulars import label
    from ..pages_of import one

    lines = label(one(in_hand(catalogue, today), name, "underpour catalogue show").shown())
    indent = max(len(head) for head, _ in lines) + 2
    return "\n".join(line for head, words in lines for line in hung(words or "_" * 20, width, indent, head)) + "\n"


def shown(key: str, products: Products, width: int) -> str:
    """Every number of the entries called ``key``, by their name or another word for them, wherever they stand."""
    from ...catalogue.listing import everything

    by_key: dict[str, list[tuple[str, Any]]] = {}
    for path, record in everything(products):
        for word in (path.rsplit(".", 1)[-1], *getattr(record, "aliases", ())):
            by_key.setdefault(word, []).append((path, record))
    if key not in by_key:
        wrong = f"The catalogue has nothing called {key}."
        raise unknown_word("underpour catalogue show", key, by_key, wrong, "All of them: underpour catalogue list")
    short = [line for words in short_records([key], products) for line in (*hung(words, width), "")]
    told = [line for path, record in by_key[key] for line in (*_record(path, record, products, width), "")]
    return "\n".join([*short, *told])


def _record(path: str, record: Any, products: Products, width: int) -> Iterator[str]:
    from .product_shown import shown as product_shown

    if path.startswith("catalogue.product."):
        return product_shown(record, products.line_of(record.key).line, width)
    if path.startswith("catalogue.code."):
        from .code_shown import shown as code_shown

        return code_shown(record, width)
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
