"""Product data: everything that the build-up and the edges are made of, each once, with the places for its evidence."""

from __future__ import annotations

import tomllib
from collections.abc import Iterator
from dataclasses import dataclass
from functools import cache
from importlib.resources import files
from typing import Any

from .. import catalogue
from ..catalogue.records import Board, Quantity, Retarder
from ..design import long_term
from ..findings import Seen
from ..measure import say
from ..measure.table import System
from ..resolve import Resolved, ResolvedEdge, Slice
from .records import Product, Property
from .where import face_words

KILO = 1000.0  # Pa in a kPa
SEEN_IN_THE_BRIEF: Seen = "document"
OF_CHANNELS = ("m²", "1/m")  # of air in channels: a permeability, no floor area


@dataclass(frozen=True, slots=True)
class _Use:
    """One place where a material lies."""

    of: Slice
    where: str


def products(resolved: Resolved) -> tuple[Product, ...]:
    """Every product and material of a resolved brief once, boards first, then films, then the rest.

    Two uses are of one product where catalogue entry and name are the same; each use is named with its thickness.
    """
    found: dict[tuple[str, str], list[_Use]] = {}
    for use in _uses(resolved):
        found.setdefault((use.of.key or use.of.kind, use.of.label), []).append(use)
    rank = {"board": 0, "vapour-retarder": 1}
    ordered = sorted(found.values(), key=lambda uses: rank.get(uses[0].of.kind, 2))
    return tuple(_product(uses, resolved.system) for uses in ordered)


def size(layer: Slice) -> str:
    """What a slice's words say beyond its label: its thickness as typed; "" where it has none.

    >>> size(Slice("board", "Plain", "Plain, 2 in (51 mm)", 0.0508, 0.04, 3e4, "", "", ()))
    '2 in (51 mm)'
    """
    return layer.words.removeprefix(layer.label).removeprefix(", ")


def _uses(resolved: Resolved) -> Iterator[_Use]:
    for layer in resolved.floor:
        there = resolved.on_old_slab and layer not in resolved.laid
        yield _Use(layer, _placed("There already" if there else "In the floor", size(layer)))
    for edge in resolved.edges:
        yield from _at_the_edge(edge, resolved.system)


def _at_the_edge(edge: ResolvedEdge, system: System) -> Iterator[_Use]:
    at = f"Edge {edge.letter}"
    for piece in edge.pieces:
        yield _Use(piece.board, _placed(f"{at}, {face_words(piece.face)}", size(piece.board)))
    for body in edge.drawn:
        yield _Use(body.slice, f"{at}, as drawn")
    for leaf in edge.wall:
        yield _Use(leaf, _placed(f"{at}, foundation wall", size(leaf)))
    if edge.footing[1]:
        width, height = (say.both(each, "m", system) for each in edge.footing)
        yield _Use(edge.footing_slice, f"{at}, footing, {width} wide and {height} high")
    for leaf in edge.above:
        yield _Use(leaf, _placed(f"{at}, wall above", size(leaf)))


def _placed(where: str, how_thick: str) -> str:
    return f"{where}, {how_thick}" if how_thick else where


def _product(uses: list[_Use], system: System) -> Product:
    first = uses[0].of
    slices = [use.of for use in uses]
    board, film = first.record, first.film
    if board is not None:
        rows = tuple(_board_rows(board, slices, system))
    elif film is not None:
        rows = tuple(_film_rows(film, system))
    elif first.kind == "sheet":
        rows = tuple(_sheet_rows(first.key, system))
    else:
        rows = tuple(_bulk_rows(slices, system))
    return Product(
        name=first.label,
        what=_words()["what"].get(first.kind, first.label),
        cls=(board.classes or (board.label,)) if board else film.classes if film else (),
        where=tuple(dict.fromkeys(use.where for use in uses)),
        rows=rows,
        evidence=tuple(_evidence_wanted(first)),
        maker=board.maker if board else film.maker if film else "",
        invented=board.invented if board else film.invented if film else False,
        rests_on=tuple(dict.fromkeys(each.path for each in slices)),
    )


def _board_rows(board: Board, slices: list[Slice], system: System) -> Iterator[Property]:
    for thick in {round(each.thickness, 5): each for each in slices if each.r_label is not None}.values():
        assert thick.r_label is not None
        made = next(
            (m.r_label for m in board.made if m.r_label.path in thick.r_label_rests_on), board.r_label_per_metre
        )
        yield Property(
            f"R-value as labelled, {size(thick)}",
            say.both(thick.r_label, "m²·K/W", system),
            board.label_terms,
            made.source.title,
            made.seen,
        )
    yield from _in_place(board.conductivity_in_place, slices, system)
    for name, number in board.tested:
        yield _property(name, number, system)
    yield from _for_good(board, system)
    burns = "combustible: it is covered wherever it is used" if board.combustible else "not combustible"
    practice = catalogue.source("practice")
    yield Property("In fire", burns, "", practice.title, practice.seen)
    if board.note:
        origin = board.r_label_per_metre.source
        yield Property("To know", board.note, "", origin.title, origin.seen)


def _for_good(board: Board, system: System) -> Iterator[Property]:
    """What may stand on it for good, by every basis with evidence; the smallest first, for it governs."""
    for n, held in enumerate(long_term(board).told):
        assert held.stress is not None
        value = say.both(held.stress / KILO, "kPa", system)
        governs = ", the smallest of those with evidence" if n == 0 else ""
        first = held.basis[0]
        yield Property(f"May stand for good: {held.title}{governs}", value, held.numbers, first.source, first.seen)


def _in_place(known: Quantity, slices: list[Slice], system: System) -> Iterator[Property]:
    """The catalogue's conductivity, and each other one that the brief puts in its place."""
    for each in dict.fromkeys(s.conductivity for s in slices):
        if each == known.value:
            low, high = (say.value(end, "W/(m·K)", system) for end in (known.low, known.high))
            yield Property(
                "Conductivity in place",
                f"{say.both(each, 'W/(m·K)', system)}, between {low} and {high}",
                known.where,
                known.source.title,
                known.seen,
            )
        else:
            typed = next(s.rests_on for s in slices if s.conductivity == each)
            yield Property(
                "Conductivity, typed in the brief",
                say.both(each, "W/(m·K)", system),
                typed[-1],
                "the brief",
                SEEN_IN_THE_BRIEF,
            )


def _film_rows(film: Retarder, system: System) -> Iterator[Property]:
    origin = film.permeance.source if film.maker else catalogue.source("practice")
    yield Property("Thickness", say.both(film.thickness, "m", system), "nominal", origin.title, origin.seen)
    for name, number in film.tested or (("Permeance", film.permeance),):
        yield _property(name, number, system)


def _sheet_rows(key: str, system: System) -> Iterator[Property]:
    sheet = catalogue.sheet(key)
    origin = catalogue.source("practice")
    yield Property("Thickness", say.both(sheet.thickness, "m", system), "nominal", origin.title, origin.seen)
    yield _property("R-value of its body, solids on both sides", sheet.resistance, system)
    yield Property(
        "Emissivity of its faces",
        f"{sheet.emissivity.value:g}, up to {sheet.emissivity.high:g}",
        sheet.emissivity.where,
        sheet.emissivity.source.title,
        sheet.emissivity.seen,
    )


def _bulk_rows(slices: list[Slice], system: System) -> Iterator[Property]:
    """Conductivity and heat capacity of a bulk material; nothing for what the catalogue does not hold."""
    known = {m.key: m for m in catalogue.materials()}.get(slices[0].key)
    if known is None:
        return
    yield from _in_place(known.conductivity, slices, system)
    yield _property("Heat capacity by volume", known.heat_capacity, system)


def _property(name: str, number: Quantity, system: System) -> Property:
    share = number.unit in ("m³/m³", "1")
    if number.unit in OF_CHANNELS:
        value = f"{number.value:.3g} {number.unit}"
    else:
        value = say.both(100.0 * number.value if share else number.value, "%" if share else number.unit, system)
    return Property(name, value, number.where, number.source.title, number.seen)


def _evidence_wanted(of: Slice) -> Iterator[str]:
    """What must be put in beside the data of a product or a material."""
    if of.record is not None:
        yield from _board_evidence(of.record)
    elif of.film is not None and of.film.maker:
        yield from _film_evidence(of.film)
    else:
        yield from _words()["evidence"].get(of.kind, ())


def _film_evidence(film: Retarder) -> Iterator[str]:
    say_so = _words()["evidence"]
    yield from (say_so["claimed-film"].format(claim=claim) for claim in film.classes)
    for _, number in film.tested:
        yield say_so["tested"].format(report=f"{number.where[:1].upper()}{number.where[1:]}")
    yield say_so["records"]


def _board_evidence(board: Board) -> Iterator[str]:
    say_so = _words()["evidence"]
    for claim in board.classes:
        yield say_so["claimed"].format(claim=claim)
    if not board.maker:
        yield say_so["chosen"]
    for name, number in board.tested:
        report = f"{number.where[:1].upper()}{number.where[1:]}"
        yield say_so["tested" if board.maker else "class"].format(name=name, where=number.where, report=report)
    if board.maker:
        yield say_so["records"]


@cache
def _words() -> dict[str, Any]:
    return tomllib.loads((files(__package__) / "products.toml").read_text(encoding="utf-8"))
