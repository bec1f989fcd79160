"""A product held against what a board is asked for, before anything is solved: class, facing, records, thickness."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from typing import TYPE_CHECKING

from ..catalogue.classes import ProductClass
from ..catalogue.records import Board
from ..conformity import held_product, placed
from ..conformity.claims import meant, shown
from ..conformity.rules import rules
from ..conformity.single import row
from ..measure import System, say
from ..resolve import Slice
from .places import place as place_words
from .records import Exchange, Refusal

if TYPE_CHECKING:
    from ..catalogue.line import Facing
    from ..catalogue.products import Products

OF_ITS_FOAM = ("density", "resistance-24C", "resistance-4C")
SAME = 1e-6  # of a labelled R, beside what is lost in turning inches into metres


def classes_asked(board: Board) -> tuple[ProductClass, ...]:
    """The classes that stand for the board: those its maker claims, or the one that it is itself; no doubtful one."""
    words = board.classes or (board.label.partition(", ")[2],)
    found = (meant(each, rules()) for each in words)
    return tuple(cls for cls in found if cls is not None and not cls.doubtful)


def of_class(key: str, classes: Sequence[ProductClass], products: Products) -> Iterator[Refusal]:
    """Every number of the asked classes that the product's records do not carry.

    Of another foam its density and its R by thickness are not asked: the one says nothing of the use, and the other is
    held at each place.
    """
    product, of = products.product(key), placed(products.line_of(key))
    held = [row(each, product, 0, products.day, rules()) for each in product.evidence]
    for cls in classes:
        lacking = []
        of_another = bool(cls.families) and product.family not in cls.families
        for limit in cls.limits:
            if not limit.firm or (of_another and limit.of.key in OF_ITS_FOAM):
                continue
            found = shown(limit, held)
            if found.row is None:
                lacking.append(f"{limit.of.within} ({found.why})")
            elif not found.holds:
                sense = "at least" if limit.of.better == "more" else "at most"
                wanted = f"{cls.name} asks for {limit.printed:g} {limit.printed_unit} {sense}"
                yield Refusal("class", f"{limit.of.name}: {found.row.read}; {wanted}.", limit.number.basis())
        if lacking:
            listed = "; ".join(lacking)
            yield Refusal("class", f"{cls.name} asks for what the records of {of.file} do not show: {listed}.")


def of_records(key: str, products: Products) -> Iterator[Refusal]:
    """What falls short in the product's own records."""
    held = held_product([placed(of) for of in products.lines], key, products.day, rules())
    for finding in held.findings:
        if finding.verdict == "falls short":
            yield Refusal("records", f"{finding.read}: {finding.wrong}", finding.basis)


def of_facing(asked: Facing | None, board: Board, products: Products) -> Iterator[Refusal]:
    """A facing that is asked for and is not there, or was tested less far."""
    if asked is None:
        return
    own = products.product(board.key).facing
    if own is None:
        yield Refusal(
            "facing", f"The board that is asked for has a facing ({asked.film}, {asked.role}); this has none."
        )
        return
    if asked.faces == "both" and own.faces == "one":
        yield Refusal("facing", "A facing on both faces is asked for; this has it on one.")
    order = ("not tested", "tested in part", "tested")
    if order.index(own.below_slab_film) < order.index(asked.below_slab_film):
        yield Refusal(
            "facing",
            f"As a film below slabs the facing is {own.below_slab_film}, and {asked.below_slab_film} is asked.",
        )


def r_asked(piece: Slice) -> float | None:
    """The R that is asked for at a place: what the brief wants there, else the board's own as labelled. [m²·K/W]"""
    return piece.r_label if piece.wanted is None else piece.wanted.r


def exchanges(places: Sequence[tuple[Slice, str]], board: Board, system: System) -> Iterator[Exchange | Refusal]:
    """For each place, with the thickness typed there, the thinnest thickness made whose labelled R is what is asked."""
    for place, typed in places:
        path = place.path.rpartition(".")[0]
        asked = r_asked(place)
        if asked is None:
            yield Exchange(path, "", "", None, None)
            continue
        made = sorted(board.made, key=lambda each: each.thickness)
        found = next((each for each in made if each.r_label.value >= asked * (1.0 - SAME)), None)
        if found is not None:
            before = typed or say.both(place.thickness, "m", system)
            yield Exchange(path, before, found.typed, place.r_label, found.r_label.value)
            continue
        wanted = say.both(asked, "m²·K/W", system)
        most = (
            f"its thickest, {made[-1].typed}, has {say.both(made[-1].r_label.value, 'm²·K/W', system)}" if made else ""
        )
        yield Refusal(
            "labelled R",
            f"{wanted} as labelled is asked at {place_words(path)}; {most or 'it is made in no thickness'}.",
        )


def of_label(asked: Board, board: Board) -> Iterator[Refusal]:
    """Labelled R of different mean temperatures is never compared."""
    if _mean(asked) != _mean(board):
        words = f"Its R is labelled by {board.label_terms}; {asked.label_terms} is asked."
        yield Refusal("labelled R", f"{words} Neither is turned into the other.")


def _mean(board: Board) -> str:
    """The mean temperature that the label is of, in degrees Celsius, as its terms say it."""
    return "24 °C" if "24 °C" in board.label_terms else board.label_terms
