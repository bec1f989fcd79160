"""Foam and mineral boards: the standard classes, and the boards of the invented maker."""

from __future__ import annotations

from collections.abc import Collection
from dataclasses import dataclass
from functools import cache
from typing import TYPE_CHECKING, Any, NoReturn

from ..mistakes import Mistake
from .in_place import Measured, Water, in_place
from .properties import Property, properties, unit_of
from .read import Entry, absent, cell, quantity, table
from .records import Board, CreepRecord, Made, Quantity, Source

if TYPE_CHECKING:
    from .line import Evidence, Product
    from .products import OfMaker

CLASSES = "foam_classes"


@cache
def _classes() -> dict[str, Board]:
    classes = table(CLASSES)
    return {row["key"]: _class(row, classes["columns"]) for row in classes["row"]}


def class_keys() -> list[str]:
    """Keys of the standard classes."""
    return list(_classes())


def class_board(key: str) -> Board | None:
    """A standard class as a board: the least that any board of it has; None where there is no such class.

    >>> class_board("c578-ix").made
    ()
    """
    return _classes().get(key)


def unknown_board(key: str, known: Collection[str]) -> NoReturn:
    """Refuses a key that no board has, with the nearest one."""
    absent(dict.fromkeys(known), key, "board", "boards")


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


def product_board(product: Product, of_maker: OfMaker) -> Board:
    """A product of a line; of several records of one property the first is the one that is worked with.

    Raises
    ------
    Mistake
        A record is missing without which nothing can be worked out.
    """
    path = f"catalogue.foam.{product.key}"
    origin, line = of_maker.source, of_maker.line
    _workable(product, of_maker)
    rows = [(properties()[each.property], each) for each in product.evidence]
    first: dict[str, Quantity] = {}
    tested = []
    crept: dict[str, list[CreepRecord]] = {"creep": [], "creep-reading": []}
    for n, (of, evidence) in enumerate(rows, start=1):
        again = of.key in first
        number = _number(evidence, of, origin, f"{path}.evidence.{n}" if again else f"{path}.{of.key}")
        first.setdefault(of.key, number)
        if of.key in crept:
            crept[of.key].append(_creep(evidence, number))
        if of.key == "creep-reading":
            continue  # many readings are one test; `design` sums them up
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
        one_percent=first.get("strength-1"),
        creep=tuple(crept["creep"]),
        readings=tuple(crept["creep-reading"]),
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
        density=numbers.density,
        **({"made": ()} | told),
    )


def _workable(product: Product, of_maker: OfMaker) -> None:
    """Refuses a product whose records do not say enough, naming what is missing."""
    had = {record.property for record in product.evidence if record.value is not None}
    lacking = [properties()[key].within for key in ("resistance-24C", "water", "density") if key not in had]
    lacking += [] if had & {"strength", "strength-break"} else [properties()["strength"].within]
    lacking += [] if product.family else ["the foam it is made of (family)"]
    if lacking:
        called = product.name or product.key
        wrong = f"{called} cannot be worked with: its record in {of_maker.file} lacks {', '.join(lacking)}."
        raise Mistake("", f'"{product.key}"', wrong, "Add what is missing there; docs/products.md shows how.")


def _number(evidence: Evidence, of: Property, origin: Source, path: str) -> Quantity:
    """The number of a record in the unit of its property."""
    times = unit_of(evidence.unit, of.kind)
    if times is None or evidence.value is None:
        raise Mistake(path, "", "The record has no number with its unit.", "See: underpour catalogue validate")
    where = f"{of.printed}, {evidence.method}, record {evidence.certificate}"
    return _printed(evidence.value * times / of.unit_si, of.unit, origin, where, path)


def _creep(evidence: Evidence, number: Quantity) -> CreepRecord:
    told = evidence.conditions
    return CreepRecord(
        number,
        stress=told.stress.si if told.stress else None,
        share=told.share.si if told.share else None,
        lasted=told.lasted.si if told.lasted else None,
        reaches=told.reaches.si if told.reaches else None,
        typed=", ".join(
            (
                *(each.typed for each in (told.stress, told.lasted) if each),
                *((f"{told.share.typed} of the strength",) if told.share else ()),
                *((f"carried forward to {told.reaches.typed}",) if told.reaches else ()),
            )
        ),
    )


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
