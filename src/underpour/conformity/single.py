"""A record held by itself: its test, number, unit, days, age, conditions, and the thicknesses that it stands for."""

from __future__ import annotations

import datetime
from collections.abc import Iterator
from typing import TYPE_CHECKING

from ..catalogue.properties import ROUNDED_DAYS, Property, kinds_of, methods_in, unit_of
from .findings import RecordFinding
from .rows import Row, day, in_its_unit, said
from .rules import Rules

if TYPE_CHECKING:
    from ..catalogue.line import Evidence, Product

STATISTICS = {
    "each": "what each specimen keeps",
    "average": "an average",
    "90/90": "what 90 % of the make keeps with 90 % confidence",
}
MEASURED_AS = {
    "thickness": "the thickness of the specimen",
    "area": "the area that it is counted on (gross, feet, solid)",
    "lasted": "how long the stress was held",
    "reaches": "the time it was carried forward to",
    "to": "what it was tested on",
    "slowest": "the least speed of the air",
    "fastest": "the greatest speed of the air",
}

OF_THE_REPORT = {
    "laboratory": ("the kind of laboratory", "Write laboratory"),
    "date": ("the day of the report", "Write date"),
    "expires": ("the day on which it expires", "Write expires"),
    "certificate": ("the number of the certificate", "Write certificate"),
    "statistic": ("whether each specimen keeps the number or it is an average", "Write statistic, each or average"),
}


def row(evidence: Evidence, product: Product, line: int, today: datetime.date, rules: Rules) -> Row:
    """The record with what is wrong with it by itself.

    Parameters
    ----------
    evidence, product : Evidence, Product
        The record and the product that it stands under.
    line : int
        Where the record begins; 0 where that is not known.
    today : date
        The day that it is held to.
    rules : Rules
    """
    of = rules.properties[evidence.property]
    found = (
        *_number(evidence, of),
        *_test(evidence, of),
        *_days(evidence, of, today, rules),
        *_conditions(evidence, of, rules),
        *_statistic(evidence, of),
        *_carried_forward(evidence, of, rules),
        *_age(evidence, of, product, rules),
        *_thicknesses(evidence, of, product),
        *_source(evidence, of),
    )
    value = in_its_unit(evidence, of)
    return Row(
        evidence, of, value, methods_in(evidence.method), line, tuple(each.placed("", "", line) for each in found)
    )


def _number(evidence: Evidence, of: Property) -> Iterator[RecordFinding]:
    read, write = said(evidence), f"Write the unit of the report, such as {of.usual_units}."
    if evidence.value is None:
        instead = "Write the number of the report, or leave the record out."
        yield RecordFinding("record.number", of.name, read, "The record has no number.", instead)
        return
    if not evidence.unit:
        wrong = f"{evidence.value:g} of what? The number has no unit."
        yield RecordFinding("record.unit", of.name, read, wrong, write)
        return
    value = in_its_unit(evidence, of)
    if value is None:
        kinds = kinds_of(evidence.unit)
        wrong = (
            f"{evidence.unit} is the unit of {' or '.join(kinds)}, and this is none."
            if kinds
            else f"No unit is written {evidence.unit}."
        )
        yield RecordFinding("record.unit", of.name, read, wrong, write)
    elif value < 0.0 or (value == 0.0 and of.better == "more"):
        instead = "Copy the number from the report."
        yield RecordFinding("record.number", of.name, read, "The number cannot be nought or less.", instead)
    elif of.kind == "share" and value > (100.0 if of.unit == "%" else 1.0):
        wrong, instead = "No share is above 100 %.", "Copy number and unit from the report."
        yield RecordFinding("record.number", of.name, read, wrong, instead)


def _test(evidence: Evidence, of: Property) -> Iterator[RecordFinding]:
    tests = methods_in(evidence.method)
    if not tests:
        wrong = "The record names no test by its number, so nobody can repeat it."
        instead = f"Write the test of the report, such as {of.methods[0]}; a number without a test is no evidence."
        yield RecordFinding("record.method", of.name, said(evidence), wrong, instead)
    elif not set(tests) & set(of.methods):
        wrong = f"{tests[0]} does not give the {of.printed}."
        instead = f"It comes from {' or '.join(of.methods)}. Give the record the property that was tested."
        yield RecordFinding("record.method", of.name, said(evidence), wrong, instead)


def _days(evidence: Evidence, of: Property, today: datetime.date, rules: Rules) -> Iterator[RecordFinding]:
    read = said(evidence)
    if evidence.date is not None and evidence.date > today:
        wrong = f"The report is dated {day(evidence.date)}, which is in the future."
        yield RecordFinding("record.future", of.name, read, wrong, "Copy the day from the report.")
    if evidence.expires is None:
        return
    if evidence.date is not None and evidence.expires < evidence.date:
        wrong = f"It expired on {day(evidence.expires)}, before it was made on {day(evidence.date)}."
        yield RecordFinding("record.expired", of.name, read, wrong, "Copy both days from the certificate.")
        return
    left = (evidence.expires - today).days
    soon = rules.limits["expires-soon"]
    if left < 0:
        wrong = f"The certificate expired on {day(evidence.expires)}."
        yield RecordFinding("record.expired", of.name, read, wrong, "Test anew, or leave the record out.")
    elif left <= soon.value:
        wrong = f"The certificate expires on {day(evidence.expires)}, in {_days_left(left)}."
        instead = "Order the next test now."
        yield RecordFinding("record.expires-soon", of.name, read, wrong, instead, "not required, advised", soon.basis())


def _days_left(left: int) -> str:
    return {0: "less than a day", 1: "1 day"}.get(left, f"{left} days")


def _conditions(evidence: Evidence, of: Property, rules: Rules) -> Iterator[RecordFinding]:
    told = evidence.conditions
    for key in of.at:
        if getattr(told, key) in (None, ""):
            wrong = f"It does not say {MEASURED_AS[key]}."
            instead = f"Write conditions.{key}, as the report has it."
            yield RecordFinding(
                "record.conditions", of.name, said(evidence), wrong, instead, "cannot tell", key=f"conditions.{key}"
            )
    same = rules.limits["same-mean"].value
    if of.mean is not None and told.mean is not None and abs(told.mean.si - of.mean) > same + 1e-9:
        wrong = f"It was tested at a mean of {told.mean.typed}, and this is the {of.printed}."
        instead = "Give the record the property of its own temperature; one is never turned into the other."
        yield RecordFinding("record.conditions", of.name, said(evidence), wrong, instead)


def _carried_forward(evidence: Evidence, of: Property, rules: Rules) -> Iterator[RecordFinding]:
    lasted, reaches = evidence.conditions.lasted, evidence.conditions.reaches
    if of.key != "creep" or lasted is None or reaches is None:
        return
    most = rules.limits["carried-forward"]
    if reaches.si > most.value * lasted.si * (1.0 + ROUNDED_DAYS):
        wrong = f"A test of {lasted.typed} is carried forward to {reaches.typed}, and {most.value:g} times is the most."
        instead = "Write the time that the report carries it to, or test for longer."
        yield RecordFinding("record.carried-forward", of.name, said(evidence), wrong, instead, basis=most.basis())


def _statistic(evidence: Evidence, of: Property) -> Iterator[RecordFinding]:
    told = evidence.statistic
    if of.statistic and told is not None and told != of.statistic:
        wrong = f"A declared value is {STATISTICS[of.statistic]}, and this is {STATISTICS[told]}."
        instead = "Copy the declared value from the certificate."
        yield RecordFinding("record.statistic", of.name, said(evidence), wrong, instead)


def _age(evidence: Evidence, of: Property, product: Product, rules: Rules) -> Iterator[RecordFinding]:
    if not of.ages or product.family not in rules.ageing:
        return
    aged, told = rules.limits["aged"], evidence.conditions.age
    instead = f"Write the value at {aged.value:g} days or of 25 years, with its age under conditions.age."
    if told is None:
        wrong = f"{product.family} loses R as its gas leaves, and the record does not say how old the foam was."
        yield RecordFinding("record.age", of.name, said(evidence), wrong, instead, basis=aged.basis())
    elif told.si < aged.value * (unit_of(aged.unit, "time") or 1.0):
        at = "" if told.typed == "fresh" else f", at {told.typed}"
        wrong = f"This is a fresh value{at}; {product.family} is rated aged."
        yield RecordFinding("record.age", of.name, said(evidence), wrong, instead, basis=aged.basis())


def _thicknesses(evidence: Evidence, of: Property, product: Product) -> Iterator[RecordFinding]:
    low, high = evidence.holds_from, evidence.holds_to
    outside = [
        made.thickness.typed
        for made in product.made
        if (low is not None and made.thickness.si < low.si - 1e-6)
        or (high is not None and made.thickness.si > high.si + 1e-6)
    ]
    if outside:
        ends = [f"from {low.typed}" if low else "", f"to {high.typed}" if high else ""]
        wrong = f"The record stands for boards {' '.join(filter(None, ends))}; {', '.join(outside)} is made too."
        instead = "Test those thicknesses, or leave them out of the line."
        yield RecordFinding("record.thickness", of.name, said(evidence), wrong, instead)
    tested = evidence.conditions.thickness
    whole = of.key == "resistance-whole-24C" and tested is not None and product.made
    if tested and whole and all(abs(made.thickness.si - tested.si) > 1e-4 for made in product.made):
        wrong = f"{tested.typed} was tested, which is not made."
        instead = "Test a thickness of the line."
        yield RecordFinding("record.thickness", of.name, said(evidence), wrong, instead)


def _source(evidence: Evidence, of: Property) -> Iterator[RecordFinding]:
    """What every record has to say of the report that it was copied from, one finding a key."""
    for key, (words, write) in OF_THE_REPORT.items():
        if getattr(evidence, key) in (None, "", "not told"):
            instead = f"{write}, as the report has it."
            yield RecordFinding(
                "record.missing", of.name, said(evidence), f"It does not say {words}.", instead, "cannot tell", key=key
            )
