"""Product lines for tests: sound ones to spoil, as tables or as texts."""

from __future__ import annotations

import copy
import datetime
import tomllib
from typing import Any

from underpour.catalogue.line import Line
from underpour.catalogue.line_file import _lists_as_tuples
from underpour.catalogue.products import SHIPPED
from underpour.conformity import ReadLine, Validation, validation
from underpour.conformity.rules import rules

TODAY = datetime.date(2026, 11, 27)
RAW = tomllib.loads(SHIPPED.read_text("utf-8"))


def shipped(key: str) -> dict[str, Any]:
    """A product of the shipped line as a table of its own."""
    return copy.deepcopy(next(product for product in RAW["product"] if product["key"] == key))


def evidence(property: str, value: float, unit: str, method: str, **more: Any) -> dict[str, Any]:
    """A record that lacks nothing but what its property asks of its conditions."""
    return {
        "property": property,
        "value": value,
        "unit": unit,
        "method": method,
        "statistic": "each",
        "laboratory": "third party",
        "date": datetime.date(2025, 3, 18),
        "expires": datetime.date(2028, 3, 18),
        "certificate": "T-1",
        **more,
    }


def record_of(product: dict[str, Any], property: str, method: str = "") -> dict[str, Any]:
    """The first record of a property, by one test where that is named, to be spoilt in place."""
    return next(row for row in product["evidence"] if row["property"] == property and method in row["method"])


def held(*products: dict[str, Any], today: datetime.date = TODAY, **line: Any) -> Validation:
    """Products held to their evidence as one line."""
    table = {"maker": {"name": "A maker"}, "priced": datetime.date(2026, 6, 1), "product": list(products), **line}
    table = {key: value for key, value in table.items() if value is not None}
    return validation([ReadLine(Line.model_validate(_lists_as_tuples(table)), "line.toml")], today, rules())


def ids(found: Validation) -> list[str]:
    return sorted(finding.id for finding in found.findings)
