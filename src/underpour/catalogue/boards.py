"""Foam and mineral boards: the standard classes, and the boards of the invented maker."""

from __future__ import annotations

from collections.abc import Collection
from dataclasses import dataclass, replace
from functools import cache
from typing import TYPE_CHECKING, Any, NoReturn

from ..mistakes import Mistake
from .in_place import Coefficient, InPlace, Measured, Water, in_place
from .properties import Property, properties, record_limits, unit_of
from .read import Entry, absent, cell, quantity, table
from .records import Board, CreepRecord, Made, Quantity, School, Source, Wetting

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
    age = _class_age(row)
    tests = tuple(
        Measured(1.0 / number.value, columns[name]["temperature"]["value"], number.where, age)
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
            age=age,
        ),
        label=row["label"],
        label_terms=f"{row['terms']}, {columns[labelled]['label']}",
        note=row.get("note", ""),
        tested=tuple((columns[name]["name"], number) for name, number in numbers.items()),
    )


def _class_age(row: Entry) -> str:
    """The age that a class asks of foam whose gas leaves it; "" where it does not age."""
    aged = record_limits()["aged"]
    return f"aged {aged.value:.0f} days, as the class asks" if table("foams")[row["family"]].get("ages") else ""


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
    aged = _aged(of_label)
    label_mean = "75 °F (24 °C) mean"
    return _board(
        product.key,
        product.family or "",
        _Tested(
            label=first[by_mean[0]],
            resistances=tuple(
                Measured(
                    1.0 / first[key].value,
                    properties()[key].mean or 0.0,
                    first[key].where,
                    _aged(next(evidence for of, evidence in rows if of.key == key)),
                )
                for key in by_mean
                if key in first
            ),
            water=first["water"],
            water_long=first.get("water-long"),
            declared=first.get("declared-10C"),
            strength=first["strength"] if "strength" in first else first["strength-break"],
            density=first["density"],
            age=aged,
        ),
        label=f"{product.name} (invented)" if line.maker.invented else product.name,
        label_terms=", ".join(filter(None, (of_label.method, aged, label_mean))),
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
    age: str


def _aged(evidence: Evidence) -> str:
    age = evidence.conditions.age
    return f"aged {age.typed.replace(' d', ' days')}" if age else ""


def _board(key: str, family: str, numbers: _Tested, **told: Any) -> Board:
    path = f"catalogue.foam.{key}"
    kind = table("foams")[family]
    long = numbers.water_long or quantity(kind["water-long"], f"catalogue.foam.kind.{family}.water-long")
    found = _in_place(numbers, long, kind)
    return Board(
        key=key,
        material=family,
        hatch=kind["hatch"],
        r_label_per_metre=numbers.label,
        conductivity_in_place=_conductivity_in_place(found, numbers, kind, path),
        in_place_steps=found.steps,
        heat_capacity=_heat_capacity(numbers.density, quantity(kind["specific-heat"], ""), f"{path}.heat-capacity"),
        combustible=kind["combustible"],
        strength=numbers.strength,
        age=numbers.age or ("age not told" if kind.get("ages") else ""),
        wetting=_wetting(found.dry, numbers.water, long, kind, path),
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
    where = evidence.named(of.printed)
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


def _in_place(numbers: _Tested, long: Quantity, kind: Entry) -> InPlace:
    return in_place(
        numbers.resistances,
        Water(numbers.water.value, numbers.water.where),
        Water(long.value, long.where),
        numbers.declared.value if numbers.declared else None,
        table("foams")["reference"]["mean-temperature"]["value"],
        *(Coefficient(*(kind[key][end] for end in ("value", "low", "high"))) for key in ("temperature", "water")),
    )


def _conductivity_in_place(found: InPlace, numbers: _Tested, kind: Entry, path: str) -> Quantity:
    return Quantity(
        value=found.value,
        unit="W/(m·K)",
        low=found.low,
        high=found.high,
        source=quantity(kind["temperature"], "").source,
        where=f"clause 7, from {numbers.label.source.title}",
        seen="derived",
        path=f"{path}.conductivity-in-place",
        note=found.steps,
    )


def _wetting(dry: float, tested: Quantity, long: Quantity, kind: Entry, path: str) -> Wetting | None:
    """How water changes it; None where it does not."""
    per_water = quantity(kind["water"], f"{path}.per-water")
    most = max(tested.value, long.value)
    if per_water.value == 0.0 or most == 0.0:
        return None
    schools = tuple(
        School(row["says"], quantity(row["water"], f"catalogue.foam.kind.school.{n}"))
        for n, row in enumerate(kind.get("school", ()), start=1)
    )
    return Wetting(dry, per_water, replace(tested, low=0.0, high=most), schools)


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
