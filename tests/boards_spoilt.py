"""Boards for tests: a product of the shipped line as a table, changed, and made into a board."""

from __future__ import annotations

import datetime
from typing import Any

from product_lines import evidence, shipped
from underpour.catalogue.boards import product_board
from underpour.catalogue.line import Line
from underpour.catalogue.line_file import _lists_as_tuples
from underpour.catalogue.products import OfMaker
from underpour.catalogue.records import Board
from underpour.catalogue.sources import source

HOURS = (1 / 60, 1, 10, 24, 100, 300, 1000, 2400, 5000, 10000, 14592)  # to 608 d


def board_of(product: dict[str, Any]) -> Board:
    """The board of a product's table."""
    table = {"maker": {"name": "A maker"}, "priced": datetime.date(2026, 6, 1), "product": [product]}
    line = Line.model_validate(_lists_as_tuples(table))
    return product_board(line.product[0], OfMaker(line, source("marlpit"), "line.toml", ""))


def without(key: str, *properties: str) -> dict[str, Any]:
    """A shipped product without its records of some properties, its claims kept."""
    product = shipped(key)
    product["evidence"] = [row for row in product["evidence"] if row["property"] not in properties]
    return product


def creep(value: float, **conditions: str) -> dict[str, Any]:
    """A creep record: its strain in %, and what it says of its conditions."""
    return evidence("creep", value, "%", "EN 1606", conditions=conditions)


def readings(
    initial: float, factor: float, exponent: float, stress: str, hours: tuple[float, ...] = HOURS
) -> list[dict[str, Any]]:
    """Readings of a creep test that follows initial + factor · t^exponent to the last digit, in % and hours."""
    return [
        evidence(
            "creep-reading",
            initial if n == 0 else initial + factor * hour**exponent,
            "%",
            "EN 1606",
            conditions={"stress": stress, "lasted": f"{hour * 3600.0:.10g} s"},
        )
        for n, hour in enumerate(hours)
    ]
