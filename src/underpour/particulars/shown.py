"""One product with every figure in words, the record behind it, and how far it stands on a day."""

from __future__ import annotations

import datetime
from dataclasses import dataclass
from typing import TYPE_CHECKING

from ..conformity import Held, RecordFinding, refused_labels, standings
from ..conformity.rules import Rules
from ..measure import say
from . import words as said
from .figures import STANDS, Figure, figure
from .lasting import Lasting, lasting

if TYPE_CHECKING:
    from ..catalogue.line import Line, Product
    from ..catalogue.records import Board

LABELLED_BY = "resistance-24C"  # R as labelled stands on the first record of it


@dataclass(frozen=True, slots=True)
class Claim:
    """A class that the maker claims."""

    words: str
    standing: str  # stands, refused, cannot tell
    why: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class Thickness:
    """One thickness made."""

    typed: str  # "2 in"
    words: str  # "2 in (51 mm)"
    height: str  # over all; "" where it is the thickness
    r_typed: str  # "R8.1"; "" where none is labelled
    r_words: str  # "R8.1 (RSI 1.43)"
    record: int  # the record that the label stands on; 0 for none
    standing: str
    why: str
    price: str

    @property
    def r_shown(self) -> str:
        """R as labelled, plain only where it stands."""
        return self.r_words if self.standing == STANDS or not self.r_words else f"{self.standing}: {self.r_words}"


@dataclass(frozen=True, slots=True)
class Particulars:
    """All that is shown of a product."""

    product: Product
    maker: str
    invented: bool
    file: str  # that its record stands in
    day: datetime.date  # that its evidence is held to
    called: str  # its kind in words
    claims: tuple[Claim, ...]
    carried: tuple[str, ...]  # the strongest class of each list that the evidence carries
    not_held: tuple[str, ...]
    made: tuple[Thickness, ...]
    figures: tuple[Figure, ...]
    findings: tuple[RecordFinding, ...]
    priced: str  # day of the prices; "" where none is told
    lasting: tuple[Lasting, ...] = ()  # what may stand on it for good; none of what is no flat board

    @property
    def name(self) -> str:
        return self.product.name or self.product.key

    @property
    def short(self) -> tuple[RecordFinding, ...]:
        """What falls short, each once."""
        short = (each for each in self.findings if each.verdict == "falls short")
        return tuple({(each.about(), each.wrong): each for each in short}.values())


def particulars(
    product: Product, line: Line, held: Held, today: datetime.date, rules: Rules, board: Board | None = None
) -> Particulars:
    """A product as it is shown on a day.

    Parameters
    ----------
    product, line : Product, Line
        The record, and the line that it stands in.
    held : Held
        What validating said of it on the same day.
    today : date
        The day that certificates are held to.
    rules : Rules
    board : Board, optional
        The same product as a board, where it is a flat one with records enough to work with.
    """
    figures = tuple(map(figure, standings(product, today, rules)))
    priced = product.priced or line.priced
    return Particulars(
        product=product,
        maker=line.maker.name,
        invented=line.maker.invented,
        file=held.file,
        day=today,
        called=said.words()["kind"][product.kind]["called"],
        claims=tuple(_claim(words, held) for words in product.claims),
        carried=held.supports,
        not_held=held.not_held,
        made=tuple(_thicknesses(product, figures, today, rules)),
        figures=figures,
        findings=held.findings,
        priced=said.days(priced) if priced else "",
        lasting=() if board is None else lasting(board, figures),
    )


def _claim(words: str, held: Held) -> Claim:
    about = [each for each in held.findings if each.id.startswith("class.") and _is_about(each, words)]
    why = tuple(dict.fromkeys(each.wrong for each in about if each.verdict in ("falls short", "cannot tell")))
    if words in held.refused:
        return Claim(words, "refused", why)
    return Claim(words, "cannot tell" if why else STANDS, why)


def _is_about(finding: RecordFinding, claim: str) -> bool:
    return finding.read == claim or finding.read.startswith(f"{claim}: ")


def _thicknesses(product: Product, figures: tuple[Figure, ...], today: datetime.date, rules: Rules) -> list[Thickness]:
    by_test = next((each for each in figures if each.of.key == LABELLED_BY), None)
    refused = refused_labels(product, today, rules)
    found = []
    for made in product.made:
        standing, why = STANDS, ""
        if made.r_label is not None:
            if made.thickness.typed in refused:
                standing, why = "refused", refused[made.thickness.typed].wrong
            elif by_test is None:
                standing, why = "no record", "No record of R at 75 °F stands behind it."
            elif by_test.standing != STANDS:
                standing, why = by_test.standing, by_test.why
        found.append(
            Thickness(
                typed=made.thickness.typed,
                words=said.length(made.thickness),
                height=said.length(made.height) if made.height else "",
                r_typed=made.r_label.typed if made.r_label else "",
                r_words=say.typed(made.r_label, "m²·K/W", "US") if made.r_label else "",
                record=by_test.record if by_test else 0,
                standing=standing,
                why=why,
                price=made.price,
            )
        )
    return found
