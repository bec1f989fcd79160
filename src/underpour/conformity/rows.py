"""One record with its number in the property's unit, and whether it counts for a class."""

from __future__ import annotations

import datetime
from dataclasses import dataclass
from typing import TYPE_CHECKING

from ..catalogue.properties import Property, unit_of
from .findings import RecordFinding

if TYPE_CHECKING:
    from ..catalogue.line import Evidence


@dataclass(frozen=True, slots=True)
class Row:
    """A record as it is worked with."""

    evidence: Evidence
    of: Property
    value: float | None  # in the property's unit; None where the record has no number that can be used
    methods: tuple[str, ...]  # numbers of the tests that it names
    line: int
    findings: tuple[RecordFinding, ...]  # what is wrong with the record by itself

    @property
    def counts(self) -> bool:
        """Whether it can carry a class: a number, a test, in date, nothing that falls short."""
        return self.value is not None and not any(each.verdict == "falls short" for each in self.findings)

    @property
    def read(self) -> str:
        """What the record says, as it says it."""
        return said(self.evidence)


def said(evidence: Evidence) -> str:
    """A record in one phrase.

    >>> from underpour.catalogue.line import Evidence
    >>> said(Evidence(property="strength", value=16.4, unit="psi", method="ASTM D1621", certificate="MB-02-COM"))
    '16.4 psi, ASTM D1621, MB-02-COM'
    """
    number = "no number" if evidence.value is None else f"{evidence.value:g} {evidence.unit}".strip()
    return ", ".join(filter(None, (number, evidence.method, evidence.certificate)))


def in_its_unit(evidence: Evidence, of: Property) -> float | None:
    """The record's number in the unit of its property; None where it has none or a unit of something else."""
    times = unit_of(evidence.unit, of.kind) if evidence.unit else None
    return None if times is None or evidence.value is None else float(evidence.value) * times / of.unit_si


def day(date: datetime.date) -> str:
    """A day in words that cannot be mistaken.

    >>> day(datetime.date(2026, 3, 4))
    '4 March 2026'
    """
    return f"{date.day} {date:%B} {date.year}"
