"""Every number in the catalogue says its unit, source, clause, how it was seen, and how far it may be off."""

import tomllib
from collections.abc import Iterator
from fractions import Fraction
from pathlib import Path
from typing import Any, get_args

import pint
import pytest

from underpour import catalogue
from underpour.catalogue.listing import everything
from underpour.catalogue.records import Board, Quantity
from underpour.findings import UNITS, Seen

FOLDER = Path(catalogue.__file__).parent
SOURCES = tomllib.loads((FOLDER / "sources.toml").read_text(encoding="utf-8"))
ELSEWHERE = {"sources.toml", "regions.toml", "marlpit.toml"}  # words only; each record of the line is validated
CODES = FOLDER / "codes"  # clause by clause, held by test_codes.py
TABLES = sorted(path for path in FOLDER.rglob("*.toml") if path.name not in ELSEWHERE and path.parent != CODES)
CONVERSIONS = {"times"}  # held by the test of printed units below


def is_number(item: object) -> bool:
    return isinstance(item, int | float) and not isinstance(item, bool)


def numbers(table: Any, columns: dict[str, Any], at: tuple[str, ...] = ()) -> Iterator[tuple[str, dict[str, Any]]]:
    """Every number of a table with what is said of it; numbers in rows are said by their column."""
    if isinstance(table, list):
        for n, item in enumerate(table):
            yield from numbers(item, columns, (*at, str(item.get("key", n))))
        return
    for key, item in table.items():
        here = (*at, key)
        told = columns.get(key, {}) if at[:1] == ("row",) else {}
        if is_number(item) and key not in CONVERSIONS:
            yield ".".join(here), told
        elif isinstance(item, dict) and "value" in item:
            column = table if key == "temperature" and at[:1] == ("columns",) else told
            yield ".".join(here), {**column, **item}
        elif isinstance(item, dict | list) and not (isinstance(item, list) and item and isinstance(item[0], str)):
            yield from numbers(item, columns, here)


@pytest.mark.parametrize("path", TABLES, ids=lambda path: path.stem)
def test_each_number_says_unit_source_and_clause(path):
    table = tomllib.loads(path.read_text(encoding="utf-8"))
    bare = table if "value" not in table else {"": table}
    seen = 0
    for at, told in numbers(bare, table.get("columns", {})):
        seen += 1
        assert told.get("unit"), f"{at} has no unit"
        assert told.get("source") in SOURCES, f"{at} names no known source"
        assert told.get("where"), f"{at} names no clause"
        assert told.get("seen", SOURCES[told["source"]]["seen"]) in get_args(Seen), f"{at} does not say how it was seen"
    assert seen


def test_a_number_without_clause_is_found_out():
    row = {"row": [{"key": "x", "density": 1.0}], "columns": {"density": {"unit": "kg/m³", "source": "practice"}}}
    assert [told.get("where") for _, told in numbers(row, row["columns"])] == [None]


@pytest.mark.parametrize("key", SOURCES)
def test_each_source_says_how_it_was_seen(key):
    assert SOURCES[key]["seen"] in get_args(Seen)
    assert SOURCES[key]["title"] and SOURCES[key]["publisher"]


def quantities() -> Iterator[Quantity]:
    for _, record in everything():
        if isinstance(record, Quantity):
            yield record
            continue
        for name in getattr(record, "__dataclass_fields__", ()):
            value = getattr(record, name)
            if isinstance(value, Quantity):
                yield value
        for made in record.made if isinstance(record, Board) else ():
            yield made.r_label


def test_each_number_lies_between_its_low_and_high():
    assert not [q.path for q in quantities() if not q.low <= q.value <= q.high]


def test_what_may_be_assumed_has_a_range():
    assumed = [catalogue.default_ground(), *catalogue.grounds(), *catalogue.materials()]
    numbers = [q for each in assumed for q in (each.conductivity, each.heat_capacity)]
    numbers += [q for each in catalogue.uses() for q in (each.room, each.humidity) if q]
    numbers += [each.conductivity_in_place for each in catalogue.shipped_products().boards()]
    numbers += [*catalogue.surfaces().values(), *catalogue.limits().values()]
    assert not [q.path for q in numbers if not q.low < q.high]


def test_paths_are_all_different():
    paths = [path for path, _ in everything()]
    assert len(set(paths)) == len(paths)
    inner = [q.path for q in quantities()]
    assert len(set(inner)) == len(inner)


def test_units_are_those_of_findings_or_of_materials():
    of_materials = {"J/(m³·K)", "m·K/W", "kg/m³", "µm²", "m²/s", "m/s", "1/m²"}
    of_money = {"MJ/m³", "MJ/kg", "MPa", "h/m²", "h/m", "kgCO2e/kWh", "kgCO2e/kg", "kgCO2e/m³"}
    assert {q.unit for q in quantities()} <= UNITS | of_materials | of_money


PRINTED = {  # the same unit in the words of a general units library
    "h·ft²·°F/(Btu·in)": "hour*foot**2*delta_degF/(Btu*inch)",
    "h·ft²·°F/Btu": "hour*foot**2*delta_degF/Btu",
    "m²·K/W for 25 mm": "m**2*delta_degC/W/(25*mm)",
    "% by volume": "percent",
    "psi": "psi",
    "lb/ft³": "lb/ft**3",
    "m·K/W": "m*delta_degC/W",
    "m²·K/W": "m**2*delta_degC/W",
    "m³/m³": "dimensionless",
    "kPa": "kPa",
    "kg/m³": "kg/m**3",
    "perm": "grain/hour/foot**2/inch_Hg",
    "ng/(Pa·s·m²)": "ng/(Pa*s*m**2)",
    "lb/in": "force_pound/inch",
    "kN/m": "kN/m",
    "g": "gram",
    "kg": "kg",
}


@pytest.mark.parametrize("name", ["foam_classes", "classes"])
def test_printed_units_are_turned_as_a_units_library_turns_them(name):
    units = pint.UnitRegistry()
    columns = tomllib.loads((FOLDER / f"{name}.toml").read_text(encoding="utf-8"))["columns"]
    for column in columns.values():
        if "printed" in column:
            exact = units.parse_expression(PRINTED[column["printed"]]).to(PRINTED[column["unit"]])
            assert column["times"] == pytest.approx(exact.magnitude, rel=2e-6 if column["printed"] == "perm" else 1e-6)


def test_typed_thicknesses_are_the_thicknesses_in_metres():
    units = pint.UnitRegistry()
    for board in catalogue.shipped_products().boards():
        for made in board.made:
            inches = sum(Fraction(part) for part in made.typed.removesuffix(" in").split("-"))
            assert made.thickness == pytest.approx((float(inches) * units.inch).to("m").magnitude, abs=1e-6)


def test_what_an_invented_maker_makes_is_marked_wherever_it_shows():
    made_up = [board for board in catalogue.shipped_products().boards() if board.maker]
    assert made_up
    for board in made_up:
        assert board.invented
        assert "invented" in board.label
        assert "invented" in board.r_label_per_metre.source.title


def test_the_label_of_each_thickness_agrees_with_the_measured_board():
    """A printed R is rounded to 0.1; half of that and 2 % of it between the record and the label."""
    for board in catalogue.shipped_products().boards():
        for made in board.made:
            measured = board.r_label_per_metre.value * made.thickness
            assert made.r_label.value == pytest.approx(measured, rel=0.02, abs=0.05 * 0.1761)
