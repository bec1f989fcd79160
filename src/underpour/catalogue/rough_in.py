"""What codes and good practice ask of a rough-in for soil gas, and when each is looked at."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cache

from ..findings import Basis
from .read import Entry, quantity, table
from .records import Quantity
from .sources import source


@dataclass(frozen=True, slots=True)
class Item:
    """One thing that is asked of a rough-in."""

    key: str  # "irc-pipe"
    editions: tuple[str, ...]
    what: str  # "pipe": what of the brief is read
    says: str
    when: str  # the key of the point at which it is looked at
    least: Quantity | None
    most: Quantity | None
    asks: tuple[str, ...]  # of sealing: what is to be closed
    basis: Basis


@dataclass(frozen=True, slots=True)
class LookedAt:
    """A point of the works at which somebody looks."""

    key: str
    label: str
    look: str


def _item(row: Entry) -> Item:
    numbers = {
        name: quantity(row[name], f"catalogue.rough-in.{row['key']}.{name}") if name in row else None
        for name in ("least", "most")
    }
    number = numbers["least"] or numbers["most"]
    doubtful = row.get("doubtful", "")
    if number is not None:
        basis = Basis(number.source.title, number.where, number.seen, doubtful)
    else:
        origin = source(row["source"])
        basis = Basis(origin.title, row["clause"], row.get("seen", origin.seen), doubtful)
    return Item(
        key=row["key"],
        editions=tuple(row["editions"]),
        what=row["what"],
        says=row["says"],
        when=row["when"],
        least=numbers["least"],
        most=numbers["most"],
        asks=tuple(row.get("asks", ())),
        basis=basis,
    )


@cache
def rough_in_items() -> tuple[Item, ...]:
    """Everything that is asked, edition by edition.

    >>> [item.least.value for item in rough_in_items() if item.key == "irc-pipe"]
    [0.0762]
    """
    return tuple(_item(row) for row in table("rough_in")["row"])


def rough_in(edition: str) -> tuple[Item, ...]:
    """What one edition asks, or good practice; () where nothing is held of it.

    >>> len(rough_in("nbc-2020")), rough_in("mn-2015")
    (7, ())
    """
    return tuple(item for item in rough_in_items() if edition in item.editions)


def where_adopted(edition: str) -> bool:
    """Whether what an edition asks stands in an appendix that holds only where it was adopted.

    >>> where_adopted("irc-2021"), where_adopted("nbc-2020")
    (True, False)
    """
    return edition in table("rough_in")["adopted"]


@cache
def looked_at() -> tuple[LookedAt, ...]:
    """The points of the works at which somebody looks, in their order."""
    return tuple(LookedAt(row["key"], row["label"], row["look"]) for row in table("rough_in")["point"])
