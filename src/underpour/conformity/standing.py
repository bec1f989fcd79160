"""How far each record of a product stands: by itself, and beside the others of its product."""

from __future__ import annotations

import datetime
from collections.abc import Mapping
from dataclasses import dataclass
from typing import TYPE_CHECKING, Literal

from .findings import RecordFinding
from .rows import Row
from .rules import Rules
from .single import row
from .together import labels, like, together

if TYPE_CHECKING:
    from ..catalogue.line import Product

Word = Literal["stands", "average", "not told whole", "disputed", "expired", "refused"]


@dataclass(frozen=True, slots=True)
class Standing:
    """One record, and what keeps it from being printed as a plain number."""

    number: int  # of the record in its product, from 1
    row: Row
    findings: tuple[RecordFinding, ...]

    @property
    def word(self) -> Word:
        """The one word that has to stand beside its number; "stands" where none has to."""
        short = {each.id for each in self.findings if each.verdict == "falls short"}
        if "record.expired" in short and len(short) == 1:
            return "expired"
        if short - {"record.apart"} or self.row.value is None:
            return "refused"
        if "record.apart" in {each.id for each in self.findings}:
            return "disputed"
        if self.row.evidence.statistic == "average":
            return "average"
        return "not told whole" if any(each.verdict == "cannot tell" for each in self.findings) else "stands"

    @property
    def why(self) -> str:
        """What is wrong, in the words of validating; empty where it stands."""
        told = [each.wrong for each in self.findings if each.verdict in ("falls short", "cannot tell")]
        if self.word == "average":
            told.append("It is an average, and no number that each specimen keeps.")
        return " ".join(dict.fromkeys(told))


def standings(product: Product, today: datetime.date, rules: Rules) -> tuple[Standing, ...]:
    """Every record of a product in its own order, held to a day.

    Records of one property by one test that lie too far apart are all disputed: nobody knows yet which one is wrong.
    """
    rows = _rows(product, today, rules)
    against: dict[int, list[RecordFinding]] = {each.line: [] for each in rows}
    for finding in together(product, rows, rules):
        if finding.line:
            one = rows[finding.line - 1]
            apart = finding.id == "record.apart"
            alike = [each for each in rows if apart and each.methods and like(each) == like(one)] or [one]
            for each in alike:
                against[each.line].append(finding)
    return tuple(Standing(each.line, each, (*each.findings, *against[each.line])) for each in rows)


def refused_labels(product: Product, today: datetime.date, rules: Rules) -> Mapping[str, RecordFinding]:
    """What is wrong with R as labelled, by the thickness as it is typed."""
    return {made.thickness.typed: finding for made, finding in labels(product, _rows(product, today, rules), rules)}


def _rows(product: Product, today: datetime.date, rules: Rules) -> list[Row]:
    """The records; each says its number in the product where a file would say its line."""
    return [row(evidence, product, n, today, rules) for n, evidence in enumerate(product.evidence, start=1)]
