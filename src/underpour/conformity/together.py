"""Records of one product held against each other and against what its label says."""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence
from itertools import combinations
from typing import TYPE_CHECKING

from ..catalogue.properties import unit_of
from .findings import RecordFinding
from .rows import Row
from .rules import Rules

if TYPE_CHECKING:
    from ..catalogue.line import Made, Product

R = "h·ft²·°F/Btu"
PER_INCH = "h·ft²·°F/(Btu·in)"
LABELLED = "R as labelled"


def together(product: Product, rows: Sequence[Row], rules: Rules) -> Iterator[RecordFinding]:
    """What the records of one product say against each other."""
    yield from (finding for _, finding in labels(product, rows, rules))
    yield from _whole_thicknesses(product, rows, rules)
    yield from _more_than_can_be(rows, rules)
    yield from _repeated(rows, rules)


def labels(product: Product, rows: Sequence[Row], rules: Rules) -> Iterator[tuple[Made, RecordFinding]]:
    """What is wrong with R as labelled, thickness by thickness."""
    per_inch = _first(rows, "resistance-24C")
    allowed = rules.limits["per-thickness"]
    for made in product.made:
        if made.r_label is None:
            continue
        read = f"{made.r_label.typed} for {made.thickness.typed}"
        beyond = _impossible(made.r_label.si, made.thickness.si, made.thickness.typed, rules)
        if beyond:
            basis = rules.limits["most-resistance"].basis()
            yield made, RecordFinding("label.impossible", LABELLED, read, *beyond, basis=basis)
        elif per_inch is not None and per_inch.value is not None:
            expected = per_inch.value * made.thickness.si
            off = abs(made.r_label.si - expected)
            if off > max(allowed.value / 100.0 * expected, _half_a_digit(made)):
                percent = 100.0 * off / expected
                wrong = (
                    f"The record of an inch gives R-{_in(expected, R):.1f} for {made.thickness.typed}:"
                    f" {percent:.0f} % off, which is a disagreement above {allowed.value:g} %."
                )
                instead = f"Label it R-{_in(expected, R):.1f}, or show a test of {made.thickness.typed}."
                read = f"{read}; {per_inch.read}"
                yield made, RecordFinding("label.disagrees", LABELLED, read, wrong, instead)


def _whole_thicknesses(product: Product, rows: Sequence[Row], rules: Rules) -> Iterator[RecordFinding]:
    per_inch = _first(rows, "resistance-24C")
    allowed = rules.limits["per-thickness"]
    for row in rows:
        thickness = row.evidence.conditions.thickness
        if row.of.key != "resistance-whole-24C" or row.value is None or not row.counts or thickness is None:
            continue
        beyond = _impossible(row.value, thickness.si, thickness.typed, rules)
        if beyond:
            basis = rules.limits["most-resistance"].basis()
            yield RecordFinding("record.impossible", row.of.name, row.read, *beyond, basis=basis, line=row.line)
        elif per_inch is not None and per_inch.value is not None:
            expected = per_inch.value * thickness.si
            percent = 100.0 * abs(row.value - expected) / expected
            if percent > allowed.value:
                wrong = (
                    f"The record of an inch gives R-{_in(expected, R):.1f} for {thickness.typed}:"
                    f" {percent:.0f} % off, which is a disagreement above {allowed.value:g} %."
                )
                instead = "Find out which of the two reports is of this board, and keep that one."
                read = f"{row.read}; {per_inch.read}"
                yield RecordFinding("record.disagrees", row.of.name, read, wrong, instead, line=row.line)


def _more_than_can_be(rows: Sequence[Row], rules: Rules) -> Iterator[RecordFinding]:
    most = rules.limits["most-resistance"]
    for row in rows:
        by_thickness = row.of.key in ("resistance-24C", "resistance-4C") and row.value is not None
        if by_thickness and (row.value or 0.0) > most.value:
            wrong = f"Nothing that lies in concrete and ground reaches R-{_in(most.value, PER_INCH, 'by'):.0f} an inch."
            instead = "Copy number and unit from the report."
            yield RecordFinding(
                "record.impossible", row.of.name, row.read, wrong, instead, basis=most.basis(), line=row.line
            )


def _impossible(resistance: float, thickness: float, typed: str, rules: Rules) -> tuple[str, str] | None:
    """What is wrong with a resistance that nothing so thin can have, and what to do; None where it can be.

    Parameters
    ----------
    resistance, thickness : float
        [m²·K/W], [m]
    """
    most, sheet = rules.limits["most-resistance"], rules.limits["sheet-without-air-space"]
    if resistance <= most.value * thickness:
        return None
    low, about, high = (_in(each * thickness, R) for each in (sheet.low, sheet.value, sheet.high))
    wrong = (
        f"That is R-{_in(resistance / thickness, PER_INCH, 'by'):.0f} an inch. Between concrete and ground lies no air"
        f" space: of a bubble or foil sheet of {typed} the R without an air space is about {about:.0f}, from {low:.1f}"
        f" to {high:.1f}."
    )
    return wrong, f"Show a test of {typed} between solid plates (ASTM C518), or label what that test gives."


def _repeated(rows: Sequence[Row], rules: Rules) -> Iterator[RecordFinding]:
    """Two records of one property by one test, under like conditions."""
    alike: dict[tuple[object, ...], list[Row]] = {}
    for row in rows:
        if row.value is not None and row.methods:
            alike.setdefault(like(row), []).append(row)
    for group in alike.values():
        for one, other in combinations(group, 2):
            n = next(n for n, each in enumerate(rows, start=1) if each is other)
            yield from _apart(one, other, f"evidence.{n}.value", rules)


def _apart(one: Row, other: Row, key: str, rules: Rules) -> Iterator[RecordFinding]:
    assert one.value is not None and other.value is not None
    high = max(one.value, other.value)
    percent = 100.0 * abs(one.value - other.value) / high if high else 0.0
    usual = rules.apart.get(one.methods[0])
    read = f"{one.read}; {other.read}"
    if usual is None and percent > 0.0:
        wrong = f"Two records lie {percent:.0f} % apart, and how far {one.methods[0]} lets them is not known."
        instead = "Keep the record that is of this product."
        yield RecordFinding("record.apart", one.of.name, read, wrong, instead, "cannot tell", line=other.line, key=key)
    elif usual is not None and percent > usual.value:
        wrong = (
            f"Two records lie {percent:.0f} % apart; two laboratories usually agree within {usual.value:g} %"
            f" by {one.methods[0]}."
        )
        instead = "Find out which is of this product, and keep that one; until then the worse one counts."
        yield RecordFinding("record.apart", one.of.name, read, wrong, instead, basis=usual.basis(), line=other.line)


def like(row: Row) -> tuple[object, ...]:
    """What two records have to share to be held against each other: property, test and conditions."""
    told = row.evidence.conditions
    lasted = told.lasted if row.of.key == "creep-reading" else None  # readings of one test are no repeats
    measures = (told.age, told.stress, told.share, lasted, told.reaches, told.thickness)
    return (
        row.of.key,
        row.methods[0],
        told.area,
        told.direction,
        told.to,
        *(each and round(each.si, 9) for each in measures),
    )


def _first(rows: Sequence[Row], key: str) -> Row | None:
    return next((row for row in rows if row.of.key == key and row.counts), None)


def _half_a_digit(made: Made) -> float:
    """Half of the last printed digit of a label. [m²·K/W]"""
    assert made.r_label is not None
    number = re.search(r"\d*\.?(\d*)", made.r_label.typed.lstrip("RSIrsi -:="))
    digits = len(number[1]) if number else 0
    metric = made.r_label.typed.upper().startswith("RSI") or "m" in made.r_label.typed
    return 0.5 * 10.0**-digits * (1.0 if metric else unit_of(R, "resistance") or 1.0)


def _in(value: float, unit: str, of: str = "") -> float:
    """A resistance [m²·K/W], or one by thickness [m·K/W], in a unit that labels print."""
    return value / (unit_of(unit, "resistance-per-length" if of == "by" else "resistance") or 1.0)
