"""Classes of open standards: what a record must reach to be of one."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cache

from .properties import Property, properties
from .read import Entry, cell, table
from .records import Quantity

TABLES = ("foam_classes", "classes")
CALLED = {"ASTM C578": "type", "CAN/ULC-S701": "type"}  # the other lists say it in their rows


@dataclass(frozen=True, slots=True)
class Limit:
    """One number that a class asks for, of each specimen."""

    of: Property
    number: Quantity  # in the property's unit
    printed: float  # as the standard prints it
    printed_unit: str
    methods: tuple[str, ...]  # tests that the standard takes
    firm: bool  # False where it is not known whether the standard asks for it or only tells it

    def held_by(self, value: float) -> bool:
        """Whether a value keeps it; on the limit holds, whichever factor of six figures turned either of them."""
        off = 1e-6 * abs(self.number.value)
        return value >= self.number.value - off if self.of.better == "more" else value <= self.number.value + off


@dataclass(frozen=True, slots=True)
class ProductClass:
    """One class of one standard."""

    key: str
    standard: str  # "ASTM C578"
    type: str  # "IX"
    name: str  # "ASTM C578 type IX"
    families: tuple[str, ...]  # foams it is for; empty where it does not say
    kinds: tuple[str, ...]  # products it is for; empty where it is any board or panel
    limits: tuple[Limit, ...]
    doubtful: bool  # from memory and not checked: shown, never a reason to refuse


@cache
def product_classes() -> tuple[ProductClass, ...]:
    """Every class, list by list, in the order of the tables."""
    return tuple(_class(row, table(name)["columns"]) for name in TABLES for row in table(name)["row"])


@cache
def service() -> dict[str, tuple[float, float]]:
    """The temperatures that a standard is written for, by its name. [degC]"""
    return {row["terms"]: (row["low"]["value"], row["high"]["value"]) for row in table("classes")["service"].values()}


def _class(row: Entry, columns: Entry) -> ProductClass:
    called = row.get("called", CALLED.get(row["terms"], ""))
    return ProductClass(
        key=row["key"],
        standard=row["terms"],
        type=row["type"],
        name=" ".join(filter(None, (row["terms"], called, row["type"]))),
        families=_families(row),
        kinds=tuple(row.get("kinds", ())),
        limits=tuple(
            _limit(columns, name, row[name], f"catalogue.class.{row['key']}.{name}")
            for name in columns
            if name in row and "property" in columns[name]
        ),
        doubtful=row.get("doubtful", False),
    )


def _families(row: Entry) -> tuple[str, ...]:
    """The foams of a row; where it names one family, graphite beads are moulded foam as well."""
    if "family" not in row:
        return tuple(row.get("families", ()))
    return ("EPS", "EPS, graphite") if row["family"] == "EPS" else (row["family"],)


def _limit(columns: Entry, name: str, written: float | Entry, path: str) -> Limit:
    column = columns[name]
    printed = written if isinstance(written, float | int) else written["value"]
    return Limit(
        of=properties()[column["property"]],
        number=cell(columns, name, written, path),
        printed=float(printed),
        printed_unit=column.get("printed", column["unit"]),
        methods=tuple(column["methods"]),
        firm=column.get("firm", True),
    )
