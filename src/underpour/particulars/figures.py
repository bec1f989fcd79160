"""One record of a product in words, and how far it stands."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from ..catalogue.properties import Property
from ..conformity import Standing
from . import words as said

if TYPE_CHECKING:
    from ..catalogue.line import Evidence

STANDS = "stands"


@dataclass(frozen=True, slots=True)
class Figure:
    """One number of one test in words."""

    record: int  # its number in the product, from 1
    of: Property
    value: float | None  # in the property's unit
    typed: str  # "16.4 psi"
    other: str  # "113 kPa"; "" where there is no other system
    method: str
    tests: tuple[str, ...]  # numbers of the tests: ("ASTM D1621",)
    conditions: str
    in_short: str  # those of them without which the number says nothing beside others
    statistic: str
    laboratory: str
    certificate: str
    date: str  # year first, so that no reader turns month and day round
    expires: str
    standing: str  # stands, average, not told whole, disputed, expired, refused
    why: str  # "" where it stands

    @property
    def both(self) -> str:
        return f"{self.typed} ({self.other})" if self.other else self.typed

    @property
    def words(self) -> str:
        """The number as it may be shown: plain only where it stands.

        A number that does not stand follows the word that says so.
        """
        return self.both if self.standing == STANDS else f"{self.standing}: {self.both}"


def figure(standing: Standing) -> Figure:
    """A record as it is shown."""
    evidence: Evidence = standing.row.evidence
    return Figure(
        record=standing.number,
        of=standing.row.of,
        value=standing.row.value,
        typed=said.typed(evidence),
        other=said.other(evidence, standing.row.of),
        method=evidence.method or "no test named",
        tests=standing.row.methods,
        conditions=said.conditions(evidence),
        in_short=said.in_short(evidence),
        statistic=said.words()["statistic"].get(evidence.statistic or "", "not told"),
        laboratory=evidence.laboratory,
        certificate=evidence.certificate or "no number",
        date=said.iso(evidence.date),
        expires=said.iso(evidence.expires),
        standing=standing.word,
        why=standing.why,
    )
