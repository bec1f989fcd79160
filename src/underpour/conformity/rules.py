"""What records are held to, gathered from the catalogue's tables once."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from functools import cache

from ..catalogue.classes import ProductClass, product_classes, service
from ..catalogue.properties import Property, properties, record_limits, reproducibility
from ..catalogue.read import table
from ..catalogue.records import Quantity


@dataclass(frozen=True, slots=True)
class Rules:
    """Every table that validating needs."""

    properties: Mapping[str, Property]
    apart: Mapping[str, Quantity]  # by test: how far two laboratories usually lie apart, %
    limits: Mapping[str, Quantity]  # evidence.toml
    classes: tuple[ProductClass, ...]
    service: Mapping[str, tuple[float, float]]  # by standard, degC
    ageing: frozenset[str]  # foams whose gas leaves them


@cache
def rules() -> Rules:
    """The rules of the catalogue."""
    ageing = (key for key, row in table("foams").items() if row.get("ages"))
    return Rules(properties(), reproducibility(), record_limits(), product_classes(), service(), frozenset(ageing))
