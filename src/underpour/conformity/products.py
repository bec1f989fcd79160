"""A product held by itself and beside the others: names, prices, parts that its kind has, film and tape."""

from __future__ import annotations

import datetime
from collections import Counter
from collections.abc import Collection, Iterator, Mapping, Sequence
from typing import TYPE_CHECKING

from .. import measure
from ..measure import say
from ..mistakes import Mistake
from .findings import RecordFinding
from .membranes import tested_to
from .rows import day
from .rules import Rules

if TYPE_CHECKING:
    from ..catalogue.line import Line, Product

NEEDS = {
    "board": ("family", "sizes", "made"),
    "faced-board": ("family", "sizes", "made", "facing"),
    "tube-panel": ("family", "sizes", "made", "pattern"),
    "soil-gas-panel": ("family", "sizes", "made", "channels"),
    "film": ("sizes", "made", "lap"),
    "tape": ("sizes",),
    "edge-strip": ("sizes", "made"),
    "gravel": (),
    "drain": ("sizes",),
    "clip": (),
}
SAME_LENGTH = 5e-4  # m: heights are typed to a sixteenth of an inch


def by_itself(product: Product, line: Line, today: datetime.date, rules: Rules) -> Iterator[RecordFinding]:
    """What is missing or cannot be of one product, its tests aside."""
    lacking = [key for key in NEEDS[product.kind] if not getattr(product, key)]
    lacking += [] if product.name else ["name"]
    lacking += [] if product.evidence else ["evidence"]
    for key in lacking:
        wrong, instead = f"The record does not say: {_said(product, key)}.", _write(product, key)
        read = product.name or product.key
        yield RecordFinding("product.missing", "", read, wrong, instead, "cannot tell", key=key)
    yield from _heights(product)
    yield from _prices(product, line, today)
    yield from _lap(product, rules)
    yield from _service(product, rules)


def _said(product: Product, key: str) -> str:
    """A key of a record with what it is: "lap (lap of a film or tape)"."""
    told = type(product).model_fields[key].description or ""
    return f"{key} ({told[:1].lower()}{told[1:].rstrip('.')})"


def _write(product: Product, key: str) -> str:
    """What to write under a key that is not said."""
    field = type(product).model_fields[key]
    shown = (field.examples or [""])[0]
    if not shown:
        return f"Write {key}; docs/products.md shows how."
    return f"Write {key}, such as {shown[0] if isinstance(shown, list) else shown}."


def _heights(product: Product) -> Iterator[RecordFinding]:
    """Of a shaped panel: solid foam and pattern make up the height over all."""
    beyond = product.pattern.knob_height if product.pattern else product.channels.depth if product.channels else None
    if beyond is None:
        return
    for n, made in enumerate(product.made, start=1):
        read = f"{made.thickness.typed} of foam, {made.height.typed if made.height else 'no'} height"
        if made.height is None:
            instead = "Write height beside thickness."
            yield RecordFinding(
                "product.height",
                "Height",
                read,
                "A shaped panel has a height over all.",
                instead,
                "cannot tell",
                key=f"made.{n}.height",
            )
        elif abs(made.thickness.si + beyond.si - made.height.si) > SAME_LENGTH:
            wrong = f"{made.thickness.typed} of foam and {beyond.typed} of pattern do not make {made.height.typed}."
            yield RecordFinding(
                "product.height", "Height", read, wrong, "Measure the panel, and write all three alike."
            )


def _prices(product: Product, line: Line, today: datetime.date) -> Iterator[RecordFinding]:
    prices = [*(made.price for made in product.made if made.price), *([product.price] if product.price else [])]
    for typed in prices:
        try:
            measure.money_per_unit(typed)
        except Mistake as mistake:
            yield RecordFinding("product.price", "Price", typed, mistake.wrong, mistake.instead)
    if not prices:
        return
    priced = product.priced or line.priced
    if priced is None:
        instead = "Write it under priced, such as 2026-06-01, of the product or of the whole line."
        yield RecordFinding("product.price", "Price", prices[0], "The price has no day.", instead)
    elif priced > today:
        wrong = f"The price is of {day(priced)}, which is in the future."
        yield RecordFinding("product.price", "Price", prices[0], wrong, "Write the day of the price list.")


def _lap(product: Product, rules: Rules) -> Iterator[RecordFinding]:
    least = rules.limits["film-lap"]
    if product.kind == "film" and product.lap is not None and product.lap.si < least.value - 1e-6:
        laid = say.value(least.value, "m", "US")
        wrong = f"A lap of {product.lap.typed} is less than the {laid} that films are laid with below slabs."
        instead = "Give the lap of the laying instructions."
        yield RecordFinding("product.lap", "Lap", product.lap.typed, wrong, instead, basis=least.basis())


def _service(product: Product, rules: Rules) -> Iterator[RecordFinding]:
    if product.service is None:
        return
    low, high = product.service.low, product.service.high
    for standard, (least, most) in rules.service.items():
        claimed = any(words.startswith(standard) for words in product.claims)
        if claimed and (low.si < least - 0.5 or high.si > most + 0.5):
            read = f"{low.typed} to {high.typed}"
            wrong = f"{standard} is written for {least:g} °C to {most:g} °C, and the record says {read}."
            instead = "Keep to the temperatures of the standard, or show a test."
            yield RecordFinding("product.service", "Temperatures of use", read, wrong, instead)


def names_twice(lines: Sequence[Line]) -> dict[int, tuple[RecordFinding, ...]]:
    """What is to be said of products that share a key or a name, by the product's identity."""
    every = [product for line in lines for product in line.product]
    keys = Counter(product.key for product in every)
    names = Counter(product.name for product in every if product.name)
    found: dict[int, tuple[RecordFinding, ...]] = {}
    for product in every:
        said = []
        if keys[product.key] > 1:
            wrong = f"{keys[product.key]} products have the key {product.key}, so a brief could mean either."
            said.append(RecordFinding("product.name", "", product.key, wrong, "Give each its own key."))
        if names[product.name] > 1:
            wrong = f"{names[product.name]} products are called {product.name}."
            said.append(RecordFinding("product.name", "", product.name, wrong, "Give each its own name."))
        if said:
            found[id(product)] = tuple(said)
    return found


def tapes(
    product: Product, known: Mapping[str, Product], today: datetime.date, rules: Rules
) -> Iterator[RecordFinding]:
    """Tapes that a facing names and no file holds, or whose records do not show that they were tested to it."""
    for key in product.facing.tapes if product.facing else ():
        if key not in known:
            wrong = f"No tape is called {key}."
            listing = f"Tapes of the line: {', '.join(sorted(known)) or 'none'}."
            yield RecordFinding("product.tape", "Facing", key, wrong, listing)
        elif not tested_to(known[key], product, today, rules):
            wrong = f"No peel test of {key} that stands names {product.key} as what it was tested to."
            instead = f"Write {product.key} under conditions.to of that tape's tape-peel record, or leave the tape out."
            yield RecordFinding("product.tape", "Facing", key, wrong, instead)


def companions(product: Product, known: Collection[str]) -> Iterator[RecordFinding]:
    """Products that a record says to order with it and that no file holds."""
    for each in product.goes_with:
        if each.product not in known:
            wrong = f"No product is called {each.product}, which this one names for its {each.for_}."
            instead = f"Write the key of a product of the line under goes-with, or leave {each.for_} out."
            yield RecordFinding("product.goes-with", "Goes with", each.product, wrong, instead)
