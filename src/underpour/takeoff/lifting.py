"""What panels, bundles and rolls weigh, how many people carry one, and which wind lifts a loose board."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from math import ceil, sqrt

from ..catalogue.estimating import estimating
from ..catalogue.line import Product
from ..resolve import Resolved, Slice
from .layers import size_of
from .records import Takeoff
from .stacked import foam, packed

GRAVITY = 9.80665  # m/s²


@dataclass(frozen=True, slots=True)
class Weight:
    """Of one thing that is carried."""

    what: str  # "Marlpit Plain 15, 2 in (51 mm)"
    each: str  # "panel of 4 ft x 8 ft", "bundle of 12", "roll of 12 ft x 150 ft"
    mass: float  # kg
    people: int  # that carry it, each no more than the limit


@dataclass(frozen=True, slots=True)
class Loose:
    """A board that lies loose, and wind."""

    what: str
    by_area: float  # kg/m²
    lifts: float  # m/s, wind whose pressure is the board's weight
    held: float  # kg, more that holds one board in the wind at which a crew stops
    bags: int  # of sand on each board


def weights(resolved: Resolved, takeoff: Takeoff) -> Iterator[Weight]:
    """Each panel, bundle and roll of the floor whose density is known.

    Arguments
    ---------
    resolved
        The brief in numbers.
    takeoff
        What is ordered for it.
    """
    for board in _boards(resolved):
        by_area = weight_by_area(board, product_of(resolved, board))
        size = size_of(resolved, board)
        if by_area is None:
            continue
        panel = by_area * size.width * size.length
        yield _weight(board.words, f"panel of {size.typed}", panel)
        pack = packed(product_of(resolved, board), board.thickness, 1)
        if pack:
            yield _weight(board.words, f"bundle of {pack.each}", pack.each * panel)
    films = {film.path: film for film in takeoff.films}
    for layer in resolved.floor:
        film = films.get(layer.path)
        if film and layer.film:
            volume = film.width * film.length * layer.film.thickness
            yield _weight(film.words, f"roll of {film.size}", volume * estimating("film", "density").value)


def loose_boards(resolved: Resolved) -> Iterator[Loose]:
    """Each kind of board of the floor against the wind.

    A wind's pressure on what stands in its way is half the air's density times the square of its speed; a board that is
    caught by its edge feels no more. What it weighs less than that in the wind at which a crew stops, bags must hold.
    """
    air, stop, bag = (estimating("wind", name).value for name in ("air", "stop", "bag"))
    for board in resolved.boards:
        by_area = weight_by_area(board, product_of(resolved, board))
        if by_area is None or board not in resolved.laid:
            continue
        size = size_of(resolved, board)
        lacking = max(0.5 * air * stop**2 / GRAVITY - by_area, 0.0) * size.width * size.length
        yield Loose(board.words, by_area, wind_that_lifts(by_area, air), lacking, ceil(lacking / bag - 1e-9))


def wind_that_lifts(by_area: float, air: float) -> float:
    """The wind whose pressure is a board's weight.

    Arguments
    ---------
    by_area
        What the board weighs. [kg/m²]
    air
        Density of the air. [kg/m³]

    >>> round(wind_that_lifts(1.25, 1.25), 2)
    4.43
    """
    return sqrt(2.0 * by_area * GRAVITY / air)


def weight_by_area(board: Slice, product: Product | None) -> float | None:
    """Foam, knobs and feet of a board; None where its density is not known. [kg/m²]"""
    density = board.record.density if board.record else None
    return density.value * foam(board, product) if density else None


def product_of(resolved: Resolved, board: Slice) -> Product | None:
    """The record of a board; None where no product is named."""
    return resolved.products.product(board.key) if resolved.products.has(board.key) else None


def _boards(resolved: Resolved) -> Iterator[Slice]:
    """Boards of floor and edges, each kind and thickness once."""
    seen: set[str] = set()
    for board in (*resolved.boards, *(piece.board for edge in resolved.edges for piece in edge.pieces)):
        if board.words not in seen:
            seen.add(board.words)
            yield board


def _weight(what: str, each: str, mass: float) -> Weight:
    limit = estimating("lift", "one-person").value
    return Weight(what, each, mass, ceil(mass / limit - 1e-9))
