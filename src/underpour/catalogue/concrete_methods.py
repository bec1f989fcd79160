"""How the concrete of a slab is held to its loads: factors by method and by kind of load, each with its source."""

from __future__ import annotations

from functools import cache

from .read import quantity, table
from .records import Quantity

ALLOWABLE_STRESS, LRFD, EN_1990 = "allowable-stress", "lrfd", "en-1990"


def concrete_method(key: str) -> str:
    """What a method is called.

    >>> concrete_method("en-1990")
    'EN 1990 with EN 1992-1-1'
    """
    return str(table("concrete_methods")["method"][key]["label"])


def class_of_load(kind: str) -> str:
    """Which factor a load of that kind takes: permanent, stored, wheels or dynamic.

    >>> class_of_load("rack-post"), class_of_load("axle")
    ('stored', 'wheels')
    """
    classes: dict[str, list[str]] = table("concrete_methods")["class"]
    return next(name for name, kinds in classes.items() if kind in kinds)


@cache
def on_load(method: str, kind: str) -> Quantity | None:
    """What a load of that kind is multiplied by; None where the method takes loads as they are.

    >>> on_load("allowable-stress", "axle") is None, on_load("lrfd", "axle").value
    (True, 1.6)
    """
    factors = table("concrete_methods")["method"][method].get("on-load")
    if factors is None:
        return None
    name = class_of_load(kind)
    return quantity(factors[name], f"catalogue.concrete-method.{method}.on-load.{name}")


@cache
def of_concrete(method: str, name: str) -> Quantity:
    """A further number of a method.

    >>> of_concrete("lrfd", "on-strength").value
    0.6
    """
    return quantity(table("concrete_methods")["method"][method][name], f"catalogue.concrete-method.{method}.{name}")
