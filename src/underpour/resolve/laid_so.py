"""How the brief wants the floor's boards laid."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from math import atan2, degrees

from ..brief.model import Brief
from ..brief.tables.laying import Laying
from ..catalogue.estimating import estimating
from ..catalogue.products import Products
from ..mistakes import Mistake
from ..outlines.floor import Floor
from ..outlines.side import Point
from .resolved import Slice

WIDEST_CUT = 0.02  # m; a chain saw takes 10 mm


@dataclass(frozen=True, slots=True)
class AsLaid:
    """How far a crew has come with one layer."""

    layer: int  # counted from the ground up, from 1
    rows: int
    panels: int  # taken from the stacks
    left: int | None  # whole ones on the site; None where nobody says
    offcuts: tuple[tuple[float, float, tuple[str, ...], str], ...]  # length, height, sides of the works, as typed; m


@dataclass(frozen=True, slots=True)
class LaidSo:
    """What is typed of it; None where nothing is."""

    angle: float | None = None  # of the rows, degrees from x
    size: tuple[float, float, str] | None = None  # width and length in m, as typed
    stagger: float | None = None  # m
    least: float | None = None  # m
    kerf: float | None = None  # m
    corner: Point | None = None  # of the outline, m, where the crew begins
    bond: str = ""  # chain, half, third
    laid: AsLaid | None = None  # what lies already; None where nothing is typed back


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
    found += _unkept(typed, size, boards, products)
    return LaidSo(
        _angle(typed.rows, floor, found),
        size,
        typed.stagger.si if typed.stagger else None,
        typed.least.si if typed.least else None,
        typed.kerf.si if typed.kerf else None,
        _corner(typed.start, floor, found),
        typed.bond or "",
        _as_laid(typed, boards, found),
    )


def _as_laid(typed: Laying, boards: list[Slice], found: list[Mistake]) -> AsLaid | None:
    laid = typed.laid
    if laid is None:
        return None
    if not 1 <= laid.layer <= len(boards):
        wrong = f"The floor has {len(boards)} layer{'s' if len(boards) != 1 else ''} of panels."
        most = f"Write a number from 1 to {len(boards)}." if len(boards) > 1 else "Write 1, or leave it out."
        instead = most if boards else "Leave the table laid out."
        found.append(Mistake("laying.laid.layer", str(laid.layer), wrong, instead))
    offcuts = tuple((size.sizes[0].si, size.sizes[1].si, sides, size.typed) for size, sides in laid.offcuts)
    return AsLaid(laid.layer, laid.rows, laid.panels, laid.left, offcuts)


def _corner(number: int | None, floor: Floor, found: list[Mistake]) -> Point | None:
    corners = floor.outline.corners
    if number is None or number <= len(corners):
        return corners[number - 1] if number else None
    wrong = f"The outline has {len(corners)} corners."
    found.append(Mistake("laying.start", str(number), wrong, f"Write a number from 1 to {len(corners)}."))
    return None


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


def _unkept(
    typed: Laying, size: tuple[float, float, str] | None, boards: list[Slice], products: Products
) -> Iterator[Mistake]:
    """What no panel of the floor can keep to."""
    named = [product for board in boards if products.has(board.key) for product in [products.product(board.key)]]
    lengths = [(each.length, each.typed) for product in named for each in product.sizes[:1]]
    length, of = (size[1], size[2]) if size else min(lengths, default=(estimating("panel", "sheet-length").value, ""))
    panels = f"panels of {of}" if of else "sheets of 8 ft"
    for name, asked, what in (
        ("stagger", typed.stagger, "joints of neighbouring rows"),
        ("least", typed.least, "the ends of every piece"),
    ):
        if asked is not None and asked.si > length / 2.0 + 1e-6:
            wrong = f"With {panels} {what} cannot be kept {asked.typed} apart."
            yield Mistake(f"laying.{name}", asked.typed, wrong, "Write half the length of a panel, or less.")
    if typed.kerf is not None and typed.kerf.si > WIDEST_CUT:
        wrong = f"No saw takes {typed.kerf.typed}."
        yield Mistake("laying.kerf", typed.kerf.typed, wrong, 'Write what a cut takes away: "3 mm"; 0 for a knife.')
