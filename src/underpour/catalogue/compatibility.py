"""What attacks foam: fuels, solvents, hot bitumen, soft vinyl, sun, heat."""

from __future__ import annotations

import re
from dataclasses import dataclass
from functools import cache
from typing import TYPE_CHECKING

from ..findings import Basis
from .read import one, quantity, table
from .records import Quantity
from .sources import source

if TYPE_CHECKING:
    from .line import Product

TABLE = "compatibility"


@dataclass(frozen=True, slots=True)
class Agent:
    """Something that may touch foam."""

    key: str
    label: str
    words: tuple[str, ...]  # as a product's record says it
    uses: tuple[str, ...]  # floors where it is likely to come near
    happens: str
    do: str
    attacks: tuple[str, ...]  # foams
    spares: tuple[str, ...]
    basis: Basis
    caution: str  # "" for none

    def named_by(self, product: Product) -> str:
        """The words of a product's record that name it; "" where none do.

        >>> from underpour.catalogue import shipped_products
        >>> agent("fuel").named_by(shipped_products().product("plain-15"))
        'petrol and diesel'
        """
        asked = [re.compile(rf"\b{re.escape(word)}", re.IGNORECASE) for word in self.words]
        return next((said for said in product.attacked_by if any(word.search(said) for word in asked)), "")


@cache
def _by_key() -> dict[str, Agent]:
    return {
        key: Agent(
            key=key,
            label=row["label"],
            words=tuple(row["words"]),
            uses=tuple(row["uses"]),
            happens=row["happens"],
            do=row["do"],
            attacks=tuple(row["attacks"]),
            spares=tuple(row["spares"]),
            basis=Basis(source(row["source"]).title, row["where"], source(row["source"]).seen),
            caution=row.get("caution", ""),
        )
        for key, row in table(TABLE)["agent"].items()
    }


def agents() -> tuple[Agent, ...]:
    """Everything that a brief can say of what touches the foam."""
    return tuple(_by_key().values())


def agent(key: str) -> Agent:
    """The agent of that key; a key that is not known is a Mistake with the nearest one.

    >>> agent("hot-bitumen").spares
    ('cellular glass',)
    """
    return one(_by_key(), key, "agent", "agents")


def steady_heat(material: str) -> Quantity | None:
    """The steady heat that a foam stands under load, where its maker says no other; None for a foam not known. [degC]

    >>> steady_heat("EPS").value
    70.0
    """
    row = table(TABLE)["steady-heat"].get(material)
    return quantity(row["most"], f"catalogue.compatibility.steady-heat.{material}") if row else None
