"""The thinnest thickness made of a floor's board that brings the U of the whole floor to a wanted value, and back."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from itertools import combinations_with_replacement

from . import measure
from .brief import Reading
from .brief.alternatives import AS_BRIEFED
from .brief.model import Brief
from .catalogue.records import Board, Made
from .catalogue.thickness import Laid, made_in, most_layers
from .checks import heat
from .cut import edges_for_heat, floor_heat_alone
from .measure import Measure, System, say
from .mistakes import Mistake, Mistakes
from .physics.conduction.solve import Gap, Overlap
from .physics.domain import OutOfDomain
from .resolve import resolve
from .sections.build import section

SAME = 5e-4  # m: a typed thickness this near to a made one is that one


@dataclass(frozen=True, slots=True)
class Tried:
    """One thickness of the board, the floor solved anew with it."""

    laid: Laid
    u: float  # W/(m²·K), heat.u-floor
    within: float  # W/(m²·K), its numerical error


@dataclass(frozen=True)
class Sized:
    """What a wanted U of the whole floor takes of one board."""

    board: Board
    system: System
    layer: int  # of the build-up, counted from 1
    wanted: Measure  # W/(m²·K)
    tried: tuple[Tried, ...]  # solved wholly, from thick to thin
    chosen: Tried | None  # None where no thickness that can be built reaches it
    thinner: Tried | None  # the next thinner, which falls short; None where the thinnest made reaches it already


@dataclass(frozen=True, slots=True)
class _Floor:
    """The one board of a floor, or another in its place."""

    reading: Reading
    board: Board
    n: int  # of its layer, counted from nought
    system: System

    def laid(self, laid: Laid) -> Brief:
        """The brief with the board laid so."""
        brief = self.reading.brief
        as_typed = brief.floor.build_up
        old = as_typed[self.n]
        typed = old.conductivity if old.board == self.board.key else None
        named = {"board": self.board.key, "r": None, "conductivity": typed}
        layers = tuple(
            old.model_copy(update={**named, "thickness": Measure(made.thickness, made.typed)}) for made in laid.layers
        )
        build_up = (*as_typed[: self.n], *layers, *as_typed[self.n + 1 :])
        return brief.model_copy(update={"floor": brief.floor.model_copy(update={"build_up": build_up})})

    def solved(self, laid: Laid) -> Tried:
        """Its U as an answer has it."""
        try:
            resolved = resolve(self.laid(laid), products=self.reading.products)
            edges = edges_for_heat(resolved)
        except Mistakes as mistakes:
            raise self.reading.placed(mistakes, AS_BRIEFED) from None
        except Mistake as mistake:
            raise self.reading.placed([mistake], AS_BRIEFED) from None
        found = next(each for each in heat.floor_loss(resolved, edges) if each.id == "heat.u-floor")
        if found.value is None:
            raise Mistake("floor.inside", "", found.words, "Ask for an R in its place: R10.")
        return Tried(laid, found.value, found.within or 0.0)

    def u_by_strips(self, laid: Laid) -> float:
        """Its U by the way that tells heat alone, within a thousandth or so: it leads to what is then solved."""
        resolved = resolve(self.laid(laid), products=self.reading.products)
        apart = resolved.room.mean - resolved.outdoor_mean
        try:
            return floor_heat_alone(resolved).mean / (resolved.area * apart)
        except (Overlap, Gap, OutOfDomain, ZeroDivisionError):
            return self.solved(laid).u  # which tells what is wrong in words, where something is

    def can_be_built(self, laid: Laid) -> bool:
        try:
            resolved = resolve(self.laid(laid), products=self.reading.products)
            for edge in resolved.edges:
                section(resolved, edge)
        except (Mistake, Mistakes):
            return False
        return True


def thickness_for_u(reading: Reading, wanted: str, key: str | None = None) -> Sized:
    """The thinnest of a board that brings the U of the whole floor, ground included, to a wanted value or below.

    The thicknesses made are put in order, single boards and then stacks, and the row is halved again and again by heat
    alone. Where that leads to is solved as an answer is, and its neighbours until one falls short, so what is found is
    what ``answer`` says of it. More foam never makes the U larger.

    Parameters
    ----------
    reading : Reading
        A brief with one board in its floor.
    wanted : str
        "U0.05", "USI 0.28"; a bare U follows the brief's system.
    key : str, optional
        A board to put in the place of the brief's.

    Raises
    ------
    Mistake
        No U, a floor without exactly one board or without a U, a board that is not known.
    Mistakes
        As ``answer`` does, with file and line.
    """
    floor = _floor(reading, key)
    limit = measure.transmittance(wanted, floor.system)
    row = [laid for laid in _row(floor.board, floor.system) if floor.can_be_built(laid)]
    if not row:
        row = _row(floor.board, floor.system)[:1]  # solving it tells why nothing can be built
    tried: dict[int, Tried] = {}

    def meets(place: int) -> bool:
        if place not in tried:
            tried[place] = floor.solved(row[place])
        return tried[place].u <= limit.si

    def sized(chosen: int | None, thinner: int) -> Sized:
        found = tuple(tried[place] for place in sorted(tried, reverse=True))
        reaching = None if chosen is None else tried[chosen]
        return Sized(floor.board, floor.system, floor.n + 1, limit, found, reaching, tried.get(thinner))

    short, reaches = _between(lambda place: floor.u_by_strips(row[place]) <= limit.si, len(row))
    while not meets(reaches):
        short, reaches = reaches, reaches + 1
        if reaches == len(row):
            return sized(None, short)
    while short >= 0 and meets(short):
        short, reaches = short - 1, short
    return sized(reaches, short)


def _between(meets: Callable[[int], bool], count: int) -> tuple[int, int]:
    """Two neighbours in a row, the latter the first that meets; the last two where none does, by halving."""
    short, reaches = -1, count - 1
    while reaches - short > 1:
        middle = (short + reaches) // 2
        short, reaches = (short, middle) if meets(middle) else (middle, reaches)
    return short, reaches


def u_of(reading: Reading, thickness: Measure, key: str | None = None) -> tuple[Tried, Board, System]:
    """The U of the whole floor with its board in one thickness made; with the board and the brief's system.

    Raises as ``thickness_for_u``, and Mistake for a thickness that is not made.
    """
    floor = _floor(reading, key)
    for laid in _row(floor.board, floor.system):
        if abs(laid.thickness - thickness.si) < SAME:
            return floor.solved(laid), floor.board, floor.system
    made = made_in(floor.board, floor.system)
    near = sorted(made, key=lambda each: abs(each.thickness - thickness.si))[:2]
    offered = " and ".join(each.typed for each in sorted(near, key=lambda each: each.thickness))
    wrong = f"{floor.board.label} is not made {thickness.typed} thick."
    raise Mistake("", f'"{thickness.typed}"', wrong, f"The nearest are {offered}.")


def _floor(reading: Reading, key: str | None) -> _Floor:
    resolved = resolve(reading.brief, products=reading.products)
    boards = [n for n, layer in enumerate(reading.brief.floor.build_up) if layer.board is not None]
    if resolved.outdoors:
        raise Mistake("project.use", "", "No room lies over this slab, so it has no U.", "Ask for an R: R10.")
    if not boards:
        instead = 'Write one under the concrete: { board = "plain-15", thickness = "2 in" }.'
        raise Mistake("floor.build-up", "", "There is no board in this floor whose thickness could be found.", instead)
    if boards[1:]:
        wrong = f"{len(boards)} layers of this floor are boards; only one thickness can be found."
        raise Mistake("floor.build-up", "", wrong, "Leave the one whose thickness is to be found.")
    named = key or str(reading.brief.floor.build_up[boards[0]].board)
    return _Floor(reading, reading.products.board(named), boards[0], resolved.system)


def _row(board: Board, system: System) -> list[Laid]:
    """Single boards and then thicker stacks, each thicker than the one before."""
    made = made_in(board, system)
    row = [Laid((each,)) for each in made]
    stacks = _stacks(board.made) if board.made else []
    for laid in sorted(stacks, key=lambda each: (round(each.thickness, 6), len(each.layers), -each.r_label)):
        if laid.thickness > row[-1].thickness + SAME:
            row.append(laid)
    return row


def _stacks(made: Sequence[Made]) -> list[Laid]:
    from_thick = sorted(made, key=lambda each: -each.thickness)
    return [
        Laid(each)
        for layers in range(2, most_layers() + 1)
        for each in combinations_with_replacement(from_thick, layers)
    ]


def words_of(laid: Laid, system: System) -> str:
    """A thickness as it is laid: "3 in + 2 in (127 mm), joints crossed"."""
    said = say.typed(Measure(laid.thickness, laid.typed), "m", system)
    return f"{said}, joints crossed" if laid.layers[1:] else said
