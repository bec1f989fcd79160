"""Foam and mineral boards: the standard classes, and the boards of the invented maker."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cache
from typing import TYPE_CHECKING, Any

from ..mistakes import Mistake
from .in_place import Measured, Water, in_place
from .products import FLAT, products, shipped_line
from .properties import Property, properties, unit_of
from .read import Entry, cell, one, quantity, table
from .records import Board, Made, Quantity, Source
from .sources import source

if TYPE_CHECKING:
    from .line import Evidence, Line, Product

CLASSES = "foam_classes"


@cache
def _by_key() -> dict[str, Board]:
    made = shipped_line()
    of_products = {each.key: _product(each, made) for each in made.product if each.kind in FLAT}
    classes = table(CLASSES)
    return of_products | {row["key"]: _class(row, classes["columns"]) for row in classes["row"]}


def boards() -> tuple[Board, ...]:
    """Every board: products first, then the standard classes."""
    return tuple(_by_key().values())


def board(key: str) -> Board:
    """The board of that key; a key that is not known is a Mistake with the nearest one.

    >>> board("c578-ix").made, round(board("c578-ix").r_label_per_metre.value, 2)  # R 4.2 an inch
    ((), 29.12)
    """
    other = next((each for each in products() if each.key == key and each.kind not in FLAT), None)
    if other is not None:
        wrong = f"{other.name} is no flat board, and a build-up takes flat boards only."
        raise Mistake("", f'"{key}"', wrong, "All of them: underpour catalogue list boards")
    return one(_by_key(), key, "board", "boards")


def _class(row: Entry, columns: Entry) -> Board:
    """A class: the least that any board of it has."""
    path = f"catalogue.foam.{row['key']}"
    numbers = {name: cell(columns, name, row[name], f"{path}.{name}") for name in columns if name in row}
    tests = tuple(
        Measured(1.0 / number.value, columns[name]["temperature"]["value"], number.where)
        for name, number in numbers.items()
        if name.startswith("resistance")
    )
    labelled = next(name for name in numbers if name.startswith("resistance"))  # columns stand label first
    return _board(
        row["key"],
        row["family"],
        _Tested(
            label=numbers[labelled],
            resistances=tests,
            water=next(number for name, number in numbers.items() if name in ("water", "water-metric")),
            water_long=None,
            declared=None,
            strength=next(number for name, number in numbers.items() if name.startswith("strength")),
            density=next(number for name, number in numbers.items() if name.startswith("density")),
        ),
        label=row["label"],
        label_terms=f"{row['terms']}, {columns[labelled]['label']}",
        note=row.get("note", ""),
        tested=tuple((columns[name]["name"], number) for name, number in numbers.items()),
    )


def _product(product: Product, line: Line) -> Board:
    """A product of a line; of several records of one property the first is the one that is worked with."""
    path = f"catalogue.foam.{product.key}"
    origin = source("marlpit")
    rows = [(properties()[each.property], each) for each in product.evidence]
    first: dict[str, Quantity] = {}
    tested = []
    for n, (of, evidence) in enumerate(rows, start=1):
        again = of.key in first
        number = _number(evidence, of, origin, f"{path}.evidence.{n}" if again else f"{path}.{of.key}")
        first.setdefault(of.key, number)
        tested.append((f"{of.name} ({evidence.method})" if again else of.name, number))
    by_mean = ("resistance-24C", "resistance-4C")
    of_label = next(evidence for of, evidence in rows if of.key == by_mean[0])
    age = of_label.conditions.age
    aged = f", aged {age.typed.replace(' d', ' days')}" if age else ""
    label_mean = "75 °F (24 °C) mean"
    return _board(
        product.key,
        product.family or "",
        _Tested(
            label=first[by_mean[0]],
            resistances=tuple(
                Measured(1.0 / first[key].value, properties()[key].mean or 0.0, first[key].where)
                for key in by_mean
                if key in first
            ),
            water=first["water"],
            water_long=first.get("water-long"),
            declared=first.get("declared-10C"),
            strength=first["strength"] if "strength" in first else first["strength-break"],
            density=first["density"],
        ),
        label=f"{product.name} (invented)" if line.maker.invented else product.name,
        label_terms=f"{of_label.method}{aged}, {label_mean}",
        note=product.note,
        maker=line.maker.name,
        invented=line.maker.invented,
        classes=product.claims,
        made=tuple(
            Made(
                thickness=each.thickness.si,
                typed=each.thickness.typed,
                r_label=_printed(
                    each.r_label.si,
                    "m²·K/W",
                    origin,
                    "data sheet, R as labelled at 75 °F mean",
                    f"{path}.made.{each.thickness.typed}.r-label",
                ),
            )
            for each in product.made
            if each.r_label is not None
        ),
        tested=tuple(tested),
    )


@dataclass(frozen=True, slots=True)
class _Tested:
    """What a board's numbers are worked out from."""

    label: Quantity  # resistance by thickness, as labelled
    resistances: tuple[Measured, ...]
    water: Quantity
    water_long: Quantity | None
    declared: Quantity | None
    strength: Quantity
    density: Quantity


def _board(key: str, family: str, numbers: _Tested, **told: Any) -> Board:
    path = f"catalogue.foam.{key}"
    kind = table("foams")[family]
    lies, steps = _conductivity_in_place(numbers, family, path)
    return Board(
        key=key,
        material=family,
        hatch=kind["hatch"],
        r_label_per_metre=numbers.label,
        conductivity_in_place=lies,
        in_place_steps=steps,
        heat_capacity=_heat_capacity(numbers.density, quantity(kind["specific-heat"], ""), f"{path}.heat-capacity"),
        combustible=kind["combustible"],
        strength=numbers.strength,
        long_term=quantity(kind["long-term"], f"{path}.long-term"),
        **({"made": ()} | told),
    )


def _number(evidence: Evidence, of: Property, origin: Source, path: str) -> Quantity:
    """The number of a record in the unit of its property."""
    times = unit_of(evidence.unit, of.kind)
    if times is None or evidence.value is None:
        raise Mistake(path, "", "The record has no number with its unit.", "See: underpour catalogue validate")
    where = f"{of.printed}, {evidence.method}, record {evidence.certificate}"
    return _printed(evidence.value * times / of.unit_si, of.unit, origin, where, path)


def _printed(value: float, unit: str, origin: Source, where: str, path: str) -> Quantity:
    """A printed number; it has no range."""
    return Quantity(value, unit, value, value, origin, where, origin.seen, path)


def _conductivity_in_place(numbers: _Tested, family: str, path: str) -> tuple[Quantity, str]:
    kind = table("foams")[family]
    long = numbers.water_long or quantity(kind["water-long"], f"catalogue.foam.kind.{family}.water-long")
    found = in_place(
        numbers.resistances,
        Water(numbers.water.value, numbers.water.where),
        Water(long.value, long.where),
        numbers.declared.value if numbers.declared else None,
        table("foams")["reference"]["mean-temperature"]["value"],
        kind["temperature"]["value"],
        kind["water"]["value"],
    )
    where = f"clause 7, from {numbers.label.source.title}"
    return (
        Quantity(
            value=found.value,
            unit="W/(m·K)",
            low=found.low,
            high=found.high,
            source=quantity(kind["temperature"], "").source,
            where=where,
            seen="derived",
            path=f"{path}.conductivity-in-place",
            note=found.steps,
        ),
        found.steps,
    )


def _heat_capacity(density: Quantity, specific: Quantity, path: str) -> Quantity:
    return Quantity(
        value=density.value * specific.value,
        unit="J/(m³·K)",
        low=density.low * specific.low,
        high=density.high * specific.high,
        source=specific.source,
        where=f"{density.where}, times specific heat, {specific.where}",
        seen="derived",
        path=path,
        note=f"{density.value:.1f} kg/m³ × {specific.value:g} J/(kg·K)",
    )
