"""What usually stands, rolls or is set down on floors: loads by name, each number with its source."""

from __future__ import annotations

from collections.abc import Mapping
from functools import cache
from typing import Literal, get_args

from .read import one, quantity, table
from .records import NamedLoad, Quantity

Standing = Literal["standing", "passing"]


def _read(key: str, entry: Mapping[str, object]) -> NamedLoad:
    def number(name: str) -> Quantity | None:
        return quantity(entry[name], f"catalogue.load.{key}.{name}") if name in entry else None  # type: ignore[arg-type]

    assert entry["how-long"] in get_args(Standing), key
    return NamedLoad(
        key=key,
        label=str(entry["label"]),
        kind=str(entry["kind"]),
        standing=entry["how-long"] == "standing",
        force=number("force"),
        pressure=number("pressure"),
        line_force=number("line-force"),
        plate=number("plate"),
        tyre=number("tyre"),
        wheels=number("wheels"),
        track=number("track"),
        spacing=number("spacing"),
    )


@cache
def _by_key() -> dict[str, NamedLoad]:
    return {key: _read(key, entry) for key, entry in table("loads").items()}


def named_loads() -> tuple[NamedLoad, ...]:
    """Every load that has a name."""
    return tuple(_by_key().values())


def named_load(key: str) -> NamedLoad:
    """The load of that name; one that is not known is a Mistake with the nearest.

    >>> round(named_load("forklift-1").force.value), named_load("forklift-1").standing
    (44482, False)
    """
    return one(_by_key(), key, "load", "loads")
