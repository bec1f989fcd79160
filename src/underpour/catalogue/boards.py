"""Foam and mineral boards: the standard classes, and the boards of the invented maker."""

from __future__ import annotations

from functools import cache

from .in_place import Measured, Water, in_place
from .read import Entry, cell, one, quantity, table
from .records import Board, Made, Quantity

CLASSES, PRODUCTS = "foam_classes", "marlpit"


@cache
def _by_key() -> dict[str, Board]:
    tables = (table(PRODUCTS), table(CLASSES))
    return {row["key"]: _read(row, each) for each in tables for row in each["row"]}


def boards() -> tuple[Board, ...]:
    """Every board: products first, then the standard classes."""
    return tuple(_by_key().values())


def board(key: str) -> Board:
    """The board of that key; a key that is not known is a Mistake with the nearest one.

    >>> board("c578-ix").made, round(board("c578-ix").r_label_per_metre.value, 2)  # R 4.2 an inch
    ((), 29.12)
    """
    return one(_by_key(), key, "board", "boards")


def _read(row: Entry, of: Entry) -> Board:
    path = f"catalogue.foam.{row['key']}"
    columns = of["columns"]
    numbers = {
        name: cell(columns, name, row[name], f"{path}.{name}") for name in columns if name in row and name != "label"
    }
    resistances = [name for name in numbers if name.startswith("resistance")]
    labelled = resistances[0]  # columns stand in the order of label first
    kind = table("foams")[row["family"]]
    density = next(number for name, number in numbers.items() if name.startswith("density"))
    maker = of.get("maker", {})
    lies, steps = _conductivity_in_place(columns, resistances, numbers, row["family"], path)
    return Board(
        key=row["key"],
        label=row["label"],
        material=row["family"],
        hatch=kind["hatch"],
        made=tuple(
            Made(
                thickness=each["thickness"],
                typed=each["typed"],
                r_label=cell(columns, "label", each["label"], f"{path}.made.{each['typed']}.r-label"),
            )
            for each in row.get("made", ())
        ),
        r_label_per_metre=numbers[labelled],
        label_terms=f"{row['terms']}, {columns[labelled]['label']}",
        conductivity_in_place=lies,
        in_place_steps=steps,
        heat_capacity=_heat_capacity(density, quantity(kind["specific-heat"], ""), f"{path}.heat-capacity"),
        combustible=kind["combustible"],
        strength=next(number for name, number in numbers.items() if name.startswith("strength")),
        long_term=quantity(kind["long-term"], f"{path}.long-term"),
        note=row.get("note", ""),
        maker=maker.get("name", ""),
        invented=maker.get("invented", False),
        classes=tuple(row.get("classes", ())),
        tested=tuple((columns[name]["name"], number) for name, number in numbers.items()),
    )


def _conductivity_in_place(
    columns: Entry, resistances: list[str], numbers: dict[str, Quantity], family: str, path: str
) -> tuple[Quantity, str]:
    kind = table("foams")[family]
    tests = tuple(
        Measured(1.0 / numbers[name].value, columns[name]["temperature"]["value"], numbers[name].where)
        for name in resistances
    )
    tested = next(number for name, number in numbers.items() if name in ("water", "water-metric"))
    long = numbers.get("water-long") or quantity(kind["water-long"], f"catalogue.foam.kind.{family}.water-long")
    declared = numbers.get("declared-10C")
    found = in_place(
        tests,
        Water(tested.value, tested.where),
        Water(long.value, long.where),
        declared.value if declared else None,
        table("foams")["reference"]["mean-temperature"]["value"],
        kind["temperature"]["value"],
        kind["water"]["value"],
    )
    where = f"clause 7, from {numbers[resistances[0]].source.title}"
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
