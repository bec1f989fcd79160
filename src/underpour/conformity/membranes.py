"""Whether a film, or a facing on foam, is shown to be what a standard asks of a film below a slab."""

from __future__ import annotations

import datetime
import re
from collections.abc import Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING

from ..catalogue.classes import Limit, ProductClass
from .claims import shown
from .rows import Row
from .rules import Rules
from .single import row

if TYPE_CHECKING:
    from ..catalogue.line import Product

STANDARD = "ASTM E1745"


@dataclass(frozen=True, slots=True)
class Membrane:
    """What the records of a film or a facing show."""

    cls: ProductClass | None  # the strongest class that they carry
    lacking: tuple[str, ...]  # what its least class asks for and the records do not show
    tapes: tuple[Product, ...]  # tapes that were tested to it

    @property
    def counts(self) -> bool:
        """Whether it is shown to be a membrane."""
        return self.cls is not None and not self.lacking


def membrane(product: Product, line: Sequence[Product], today: datetime.date, rules: Rules) -> Membrane:
    """A film, or a board by its facing, against every number of the standard's least class.

    Parameters
    ----------
    product : Product
        A film, or a board with a facing.
    line : sequence of Product
        Products in hand: among them the tapes.
    today : date
        The day that certificates are held to.
    rules : Rules
        The catalogue's tables.

    A facing must be tested as a film below slabs as a whole, and have a tape that was tested to it: its laps are the
    joints of the boards. A film is lapped, and its tape is told beside it.
    """
    rows = [row(evidence, product, 0, today, rules) for evidence in product.evidence]
    classes = film_classes(rules)
    carried = [cls for cls in classes if all(shown(limit, rows).holds for limit in cls.limits)]
    tapes = tuple(tape for tape in line if tape.kind == "tape" and tested_to(tape, product, today, rules))
    lacking = [words for limit in classes[0].limits if (words := _lacks(limit, rows))]
    if product.facing is not None:
        tested = product.facing.below_slab_film
        lacking += [f"its tests as a film below slabs as a whole (the record says: {tested})"] * (tested != "tested")
        lacking += [] if tapes else ["a tape that was tested to it"]
    return Membrane(carried[-1] if carried else None, tuple(lacking), tapes)


def film_classes(rules: Rules) -> list[ProductClass]:
    """The classes of films below slabs, the least first."""
    return [cls for cls in rules.classes if cls.standard == STANDARD and not cls.doubtful]


def permeance_limit(rules: Rules) -> Limit:
    """The most permeance after conditioning, which is the same in every class."""
    return next(each for each in film_classes(rules)[0].limits if each.of.key == "permeance-film-conditioned")


def _lacks(limit: Limit, rows: Sequence[Row]) -> str:
    found = shown(limit, rows)
    if found.holds:
        return ""
    short = f"too {'little' if limit.of.better == 'more' else 'much'}"
    return f"{limit.of.within} ({found.why or short})"


def tested_to(tape: Product, product: Product, today: datetime.date, rules: Rules) -> bool:
    """Whether a record of a tape that counts names the product that it was tested on."""
    named = re.compile(rf"(?<![\w-]){re.escape(product.key)}(?![\w-])")
    return any(
        each.property == "tape-peel" and named.search(each.conditions.to) and row(each, tape, 0, today, rules).counts
        for each in tape.evidence
    )
