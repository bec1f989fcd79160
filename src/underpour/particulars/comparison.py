"""Products side by side: one row a characteristic, one cell a product, nothing plain that does not stand."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from ..catalogue.properties import properties
from . import words as said
from .figures import STANDS, Figure
from .shown import Particulars, Thickness

NO_RECORD = "no record"
NOT_MADE = "not made"
NONE = "\N{EN DASH}"
WITH_CONDITIONS = ("creep", "strength-panel", "tape-peel", "pull-out")  # say nothing without what they hold for


@dataclass(frozen=True, slots=True)
class Cell:
    """What one product says to one characteristic."""

    words: str
    standing: str = STANDS
    evidence: str = ""  # record and certificate behind it
    why: str = ""


@dataclass(frozen=True, slots=True)
class Row:
    name: str  # "Compressive strength"
    terms: str  # "ASTM D1621"; "" where none
    cells: tuple[Cell, ...]


@dataclass(frozen=True, slots=True)
class Comparison:
    """Rows in their groups; cells stand in the order of the products."""

    products: tuple[Particulars, ...]
    groups: tuple[tuple[str, tuple[Row, ...]], ...]

    @property
    def notes(self) -> tuple[str, ...]:
        """Why a number does not stand plain, each once, product by product."""
        found = {
            f"{of.product.key}, {row.name[:1].lower() + row.name[1:] if row.terms else row.name}: {cell.why}": None
            for n, of in enumerate(self.products)
            for _, rows in self.groups
            for row in rows
            for cell in [row.cells[n]]
            if cell.why
        }
        return tuple(found)


def comparison(products: Sequence[Particulars]) -> Comparison:
    """The characteristics that at least one of the products has, in the order of reading."""
    of = tuple(products)
    groups = (
        ("What it is", tuple(_identity(of))),
        ("Thicknesses made, and R as labelled at 75 °F mean", tuple(_made(of))),
        ("As tested", tuple(_tested(of))),
        ("What may stand on it for good", tuple(_lasting(of))),
        ("In use", tuple(_use(of))),
    )
    return Comparison(of, tuple((name, rows) for name, rows in groups if rows))


def _identity(of: tuple[Particulars, ...]) -> Iterator[Row]:
    yield Row("Kind", "", tuple(Cell(each.called) for each in of))
    yield Row("Material", "", tuple(Cell(each.product.material or each.product.family or NONE) for each in of))
    yield Row("Made by", "", tuple(Cell(f"{each.maker}{' (invented)' if each.invented else ''}") for each in of))
    yield Row("Classes that the evidence carries", "", tuple(Cell("; ".join(each.carried) or "none") for each in of))
    yield Row("Classes claimed", "", tuple(_claims(each) for each in of))


def _claims(of: Particulars) -> Cell:
    parts = [c.words if c.standing == STANDS else f"{c.standing}: {c.words}" for c in of.claims]
    off = next((c.standing for c in of.claims if c.standing != STANDS), STANDS)
    return Cell("; ".join(parts) or "none", off, why=" ".join(why for c in of.claims for why in c.why))


def _made(of: tuple[Particulars, ...]) -> Iterator[Row]:
    sizes = {made.thickness.typed: made.thickness.si for each in of for made in each.product.made}
    labelled = any(made.r_words for each in of for made in each.made)
    for typed in sorted(sizes, key=lambda each: (sizes[each], each)):
        cells = tuple(_thickness(next((m for m in each.made if m.typed == typed), None), labelled) for each in of)
        words = next(made.words for each in of for made in each.made if made.typed == typed)
        yield Row(words, "", cells)


def _thickness(made: Thickness | None, labelled: bool) -> Cell:
    if made is None:
        return Cell(NOT_MADE)
    high = f", {made.height} high" if made.height else ""
    if not made.r_words:
        return Cell(f"made{high}{', no R labelled' if labelled else ''}")
    return Cell(f"{made.r_shown}{high}", made.standing, f"record {made.record}" if made.record else "", made.why)


def _tested(of: tuple[Particulars, ...]) -> Iterator[Row]:
    """A row for each property by each test; two numbers of two tests never share one."""
    found = {(each.of.key, _test(each)): each.of for product in of for each in product.figures}
    for key in properties():
        for (held, test), prop in found.items():
            if held == key:
                yield Row(prop.name, test, tuple(_figure(each.figures, held, test) for each in of))


def _test(figure: Figure) -> str:
    return " and ".join(figure.tests) or "no test named"


def _figure(figures: Sequence[Figure], key: str, test: str) -> Cell:
    """The record that counts: of several that stand the worst, of none that does the first."""
    here = [each for each in figures if each.of.key == key and _test(each) == test]
    if not here:
        return Cell(NO_RECORD, "missing")
    stand = [each for each in here if each.standing == STANDS and each.value is not None]
    sense = 1.0 if here[0].of.better == "more" else -1.0
    one = min(stand, key=lambda each: sense * (each.value or 0.0)) if stand else here[0]
    more = f", the worst of {len(stand)}" if len(stand) > 1 else ""
    held_for = f", {one.in_short}" if one.in_short and key in WITH_CONDITIONS else ""
    return Cell(f"{one.words}{more}{held_for}", one.standing, f"record {one.record}, {one.certificate}", one.why)


def _lasting(of: tuple[Particulars, ...]) -> Iterator[Row]:
    """The smallest of each product, by the basis that gives it."""
    if any(each.lasting for each in of):
        yield Row("Long-term compressive stress, the smallest with evidence", "", tuple(map(_smallest, of)))


def _smallest(of: Particulars) -> Cell:
    one = next((each for each in of.lasting if each.governs), None)
    if one is None:
        return Cell("not worked out" if of.product.made and of.product.family else NONE, "missing")
    records = ", ".join(f"record {number}" for number in one.records)
    return Cell(f"{one.shown}, {one.title}", one.standing, records, one.why)


def _use(of: tuple[Particulars, ...]) -> Iterator[Row]:
    yield from _where_said("Temperatures of use", [said.service(each.product) for each in of])
    yield from _where_said("Sizes", ["; ".join(said.size(s) for s in each.product.sizes) for each in of])
    yield from _where_said("Edges", ["; ".join(said.edge(e) for e in each.product.edges) for each in of])
    yield from _where_said("Facing", [said.facing(each.product.facing) if each.product.facing else "" for each in of])
    yield from _where_said("Lap", [said.length(each.product.lap) if each.product.lap else "" for each in of])
    yield from _where_said("Attacked by", [", ".join(each.product.attacked_by) for each in of])


def _where_said(name: str, cells: list[str]) -> Iterator[Row]:
    if any(cells):
        yield Row(name, "", tuple(Cell(words or NONE) for words in cells))
