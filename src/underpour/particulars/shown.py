"""One product with every figure in words, the record behind it, and how far it stands on a day."""

from __future__ import annotations

import datetime
from dataclasses import dataclass
from typing import TYPE_CHECKING

from ..catalogue.properties import Property
from ..conformity import Held, RecordFinding, Standing, refused_labels, standings
from ..conformity.rules import Rules
from ..measure import say
from . import words as said

if TYPE_CHECKING:
    from ..catalogue.line import Evidence, Line, Product

STANDS = "stands"
LABELLED_BY = "resistance-24C"  # R as labelled stands on the first record of it


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

    @property
    def name(self) -> str:
        return self.product.name or self.product.key

    @property
    def short(self) -> tuple[RecordFinding, ...]:
        """What falls short, each once."""
        short = (each for each in self.findings if each.verdict == "falls short")
        return tuple({(each.about(), each.wrong): each for each in short}.values())


def particulars(product: Product, line: Line, held: Held, today: datetime.date, rules: Rules) -> Particulars:
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
    """
    records = standings(product, today, rules)
    figures = tuple(_figure(each) for each in records)
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
    )


def _figure(standing: Standing) -> Figure:
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
