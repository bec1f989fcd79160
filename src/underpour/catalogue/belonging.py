"""Which boards belong below a slab, and which do not or only with evidence."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cache

from ..findings import Basis
from .read import Entry, quantity, table
from .records import Board, Quantity
from .sources import source

TABLE = "belonging"


@dataclass(frozen=True, slots=True)
class Reason:
    """Why a board does not belong below a slab, or why it does."""

    says: str
    basis: Basis


@dataclass(frozen=True, slots=True)
class Belonging:
    """What is known of a board below a slab."""

    says: str  # the plain line
    against: tuple[Reason, ...]  # empty where it belongs there
    evidence: str  # what would change it; "" where it belongs there
    basis: tuple[Basis, ...]


@cache
def _by_key() -> dict[str, Board]:
    return {key: _board(key, row) for key, row in table(TABLE)["unsuited"].items()}


def unsuited() -> tuple[Board, ...]:
    """Boards that do not belong below a slab, or only with evidence; a brief can name them and is answered.

    >>> unsuited()[0].key, unsuited()[0].made
    ('polyiso', ())
    """
    return tuple(_by_key().values())


def unsuited_board(key: str) -> Board | None:
    """The unsuited board of that key; None where there is no such one."""
    return _by_key().get(key)


def belonging(board: Board) -> Belonging:
    """What is known of a board below a slab: by its key where it is an unsuited one, by its foam otherwise.

    >>> belonging(unsuited()[0]).against[1].basis.source
    'ASTM C1289, Faced rigid cellular polyisocyanurate thermal insulation board'
    """
    row = table(TABLE)["unsuited"].get(board.key)
    if row is None:
        good = table(TABLE)["suited"][board.material]
        return Belonging(good["says"], (), "", (_basis(good),))
    reasons = tuple(Reason(each["says"], _basis(each)) for each in row["reasons"])
    return Belonging(row["says"], reasons, row["evidence"], tuple(dict.fromkeys(each.basis for each in reasons)))


def least_strength(use: str) -> Quantity:
    """The least strength of what lies below a floor of this use. [kPa]

    >>> least_strength("dwelling").value, least_strength("garage").value
    (68.9, 103.4)
    """
    rows = table(TABLE)["least-strength"]
    key = next((key for key, row in rows.items() if use in row.get("uses", ())), "people")
    return quantity(rows[key]["strength"], f"catalogue.belonging.least-strength.{key}")


def _basis(row: Entry) -> Basis:
    origin = source(row["source"])
    return Basis(origin.title, row["where"], row.get("seen", origin.seen))


def _board(key: str, row: Entry) -> Board:
    path = f"catalogue.foam.{key}"
    lies = quantity(row["in-place"], f"{path}.conductivity-in-place")
    labelled = quantity(row["resistance"], f"{path}.resistance") if "resistance" in row else _unlabelled(lies, path)
    return Board(
        key=key,
        label=row["label"],
        material=row["material"],
        hatch=row["hatch"],
        made=(),
        r_label_per_metre=labelled,
        label_terms=row.get("label-terms", "no label that counts here: as it lies"),
        conductivity_in_place=lies,
        in_place_steps=f"{lies.where}: {lies.value:g} W/(m·K), between {lies.low:g} and {lies.high:g}",
        heat_capacity=quantity(row["heat-capacity"], f"{path}.heat-capacity"),
        combustible=row["combustible"],
        strength=quantity(row["strength"], f"{path}.strength"),
        cautious_share=quantity(row["long-term"], f"{path}.long-term"),
        note=row["says"],
    )


def _unlabelled(lies: Quantity, path: str) -> Quantity:
    """R by thickness of what has no label that counts below a slab: no more than it does as it lies."""
    value = 1.0 / lies.value
    return Quantity(value, "m·K/W", value, value, lies.source, lies.where, "derived", f"{path}.resistance")
