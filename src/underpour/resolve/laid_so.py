"""How the brief wants the floor's boards laid."""

from __future__ import annotations

from dataclasses import dataclass
from math import atan2, degrees

from ..brief.model import Brief
from ..catalogue.products import Products
from ..mistakes import Mistake
from ..outlines.floor import Floor
from .resolved import Slice


@dataclass(frozen=True, slots=True)
class LaidSo:
    """What is typed of it; None where nothing is."""

    angle: float | None = None  # of the rows, degrees from x
    size: tuple[float, float, str] | None = None  # width and length in m, as typed
    stagger: float | None = None  # m
    least: float | None = None  # m
    kerf: float | None = None  # m


def laid_so(brief: Brief, floor: Floor, boards: list[Slice], products: Products, found: list[Mistake]) -> LaidSo:
    """What `[laying]` says, in SI.

    A side that the outline has not, and a size in which none of the floor's products comes, are put among the mistakes.
    """
    typed = brief.laying
    if typed is None:
        return LaidSo()
    size = None
    if typed.size:
        width, length = (each.si for each in typed.size.sizes)
        size = width, length, typed.size.typed
        found += _unmade(size, boards, products)
    return LaidSo(
        _angle(typed.rows, floor, found),
        size,
        typed.stagger.si if typed.stagger else None,
        typed.least.si if typed.least else None,
        typed.kerf.si if typed.kerf else None,
    )


def _angle(rows: str | int | None, floor: Floor, found: list[Mistake]) -> float | None:
    if rows is None or rows in ("x", "y"):
        return {"x": 0.0, "y": 90.0}.get(str(rows))
    sides = floor.outline.sides
    if int(rows) > len(sides):
        wrong = f"The outline has {len(sides)} sides."
        found.append(Mistake("laying.rows", str(rows), wrong, f"Write a number from 1 to {len(sides)}."))
        return None
    side = sides[int(rows) - 1]
    if side.bulge:
        wrong = f"Side {rows} is an arc; rows are straight."
        found.append(Mistake("laying.rows", str(rows), wrong, 'Write "x", "y" or a straight side.'))
        return None
    return degrees(atan2(side.end[1] - side.start[1], side.end[0] - side.start[0])) % 180.0


def comes_in(size: tuple[float, float, str], key: str, products: Products) -> bool:
    """Whether a product is made in a size; one whose record names no size may be."""
    made = products.product(key).sizes if products.has(key) else ()
    return not made or any(abs(each.width - size[0]) + abs(each.length - size[1]) < 1e-3 for each in made)


def _unmade(size: tuple[float, float, str], boards: list[Slice], products: Products) -> list[Mistake]:
    if not boards or any(comes_in(size, each.key, products) for each in boards):
        return []
    sizes = ", ".join(dict.fromkeys(each.typed for board in boards for each in products.product(board.key).sizes))
    wrong = f"No board of this floor comes in {size[2]}."
    return [Mistake("laying.size", size[2], wrong, f"They come in {sizes}.")]
