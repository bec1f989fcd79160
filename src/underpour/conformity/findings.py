"""What validating a product line hands on."""

from __future__ import annotations

import datetime
from dataclasses import dataclass, replace

from ..findings import Basis, Verdict


@dataclass(frozen=True, slots=True)
class RecordFinding:
    """One thing that is to be known of one product, in words."""

    id: str  # "class.claimed", "record.expired"
    property: str  # its name as a heading; "" where the finding is of the product itself
    read: str  # what the record says
    wrong: str  # one or two sentences
    instead: str  # what to do
    verdict: Verdict = "falls short"
    basis: Basis | None = None
    product: str = ""  # its key
    file: str = ""
    line: int = 0  # 0 where it is not known
    key: str = ""  # of the record, where it cannot be told: the one to write, "evidence.3.laboratory"

    def about(self) -> str:
        """What it is of, and what the record says."""
        return ": ".join(filter(None, (self.property, self.read)))

    def placed(self, product: str, file: str, line: int) -> RecordFinding:
        return replace(self, product=product, file=self.file or file, line=self.line or line)


@dataclass(frozen=True, slots=True)
class Held:
    """One product as its evidence holds it."""

    key: str
    name: str
    file: str
    line: int
    claims: tuple[str, ...]
    refused: tuple[str, ...]  # claims that the evidence does not carry
    supports: tuple[str, ...]  # the strongest class of each list that the evidence carries
    not_held: tuple[str, ...]  # parts of claimed codes that nothing here holds a record against
    findings: tuple[RecordFinding, ...]


@dataclass(frozen=True, slots=True)
class Validation:
    """A whole line, product by product."""

    date: datetime.date  # the day that it was held to
    products: tuple[Held, ...]

    @property
    def findings(self) -> tuple[RecordFinding, ...]:
        return tuple(finding for product in self.products for finding in product.findings)

    @property
    def falls_short(self) -> bool:
        return any(finding.verdict == "falls short" for finding in self.findings)
