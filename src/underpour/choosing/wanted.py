"""What may vary: foam under the floor, foam at the edges, in which product; each as it would be typed in the brief."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from itertools import combinations_with_replacement

from .. import catalogue
from ..brief import Reading
from ..brief.alternatives import AS_BRIEFED, edge_names
from ..brief.paths import Path, letter
from ..brief.read import altered
from ..brief.tables.layer import Layer
from ..catalogue.products import FLAT
from ..catalogue.records import Board, Made
from ..catalogue.thickness import Laid, made_in
from ..measure import Measure, System, say
from ..mistakes import Mistake, Mistakes
from ..resolve import Resolved, ResolvedEdge, Slice, resolve
from ..resolve.assumptions import Assumptions
from ..resolve.foams import Foams
from ..resolve.layers import layer_slice
from ..sections.build import section
from ..sections.parts import Section
from .details import Piece, details

MOST_LAYERS = 2  # of one product on one another: more is laid nowhere without need
THICKEST_AT_EDGE = 0.11  # m: what a wall's finish and a sill still cover (common practice, no source)
AS_TYPED, NONE = "as typed", "none"


@dataclass(frozen=True)
class FloorFoam:
    """Foam under the floor: none, or one product in one layer or several."""

    board: Board | None
    laid: Laid | None
    words: str
    build_up: tuple[Mapping[str, object], ...]  # the brief's list with it
    slices: tuple[Slice, ...]  # the same in numbers

    @property
    def thickness(self) -> float:
        """[m]"""
        return self.laid.thickness if self.laid else 0.0

    @property
    def r_label(self) -> float:
        """[m²·K/W]"""
        return self.laid.r_label if self.laid else 0.0

    @property
    def r_in_place(self) -> float:
        """[m²·K/W]"""
        return self.board.r_in_place(self.thickness) if self.board else 0.0


@dataclass(frozen=True)
class EdgeFoam:
    """Foam at all edges: by one detail, in one thickness of one product; or as typed; or none."""

    detail: str
    board: Board | None  # None: any product goes with it
    made: Made | None
    words: str
    insulation: tuple[tuple[int, tuple[Piece, ...]], ...]  # number of each edge, and what stands there
    edges: tuple[ResolvedEdge, ...]  # the same in numbers
    volume: float  # m³ of foam, as the sections are cut without foam under the floor

    @property
    def r_in_place(self) -> float:
        """[m²·K/W]"""
        return self.board.r_in_place(self.made.thickness) if self.board and self.made else 0.0


@dataclass(frozen=True)
class Wanted:
    """Every floor's foam and every edge's, each of which can be built by itself."""

    reading: Reading
    resolved: Resolved  # as briefed
    floors: tuple[FloorFoam, ...]  # none first
    edges: tuple[EdgeFoam, ...]  # none first
    kept: tuple[str, ...]  # what varies and what stays, in words

    def changes(self, floor: FloorFoam, edge: EdgeFoam) -> dict[Path, object]:
        """What stands at which path of the brief with these two."""
        made: dict[Path, object] = {("floor", "build-up"): [dict(layer) for layer in floor.build_up]}
        return made | {("edge", n, "insulation"): [dict(piece) for piece in pieces] for n, pieces in edge.insulation}

    def with_these(self, floor: FloorFoam, edge: EdgeFoam) -> Resolved:
        """The brief with these two, in numbers. Raises Mistakes where it cannot be built."""
        reading = altered(self.reading, self.changes(floor, edge))
        return resolve(reading.brief, products=reading.products)

    def parts(self, floor: FloorFoam, edge: EdgeFoam) -> Resolved:
        """The same put together from both parts, fast: what loads and tubes make of the floor is not in it."""
        return replace(self.resolved, floor=floor.slices, edges=edge.edges, support=None)

    def written(self, floor: FloorFoam, edge: EdgeFoam) -> tuple[tuple[str, object], ...]:
        """The same changes as an alternative's ``set`` has them."""
        names = edge_names(self.reading.versions[AS_BRIEFED].tree)
        return tuple(
            (
                ".".join(str(step) for step in path)
                if path[0] != "edge"
                else f"edge.{names[int(path[1])] or letter(int(path[1]))}.insulation",
                value,
            )
            for path, value in self.changes(floor, edge).items()
        )


def wanted(reading: Reading, resolved: Resolved) -> Wanted:
    """Everything that is tried for a brief, each floor and each edge able to be built by itself."""
    boards = tuple(_boards(resolved))
    slices = _Slices(reading, resolved)
    floors = tuple(_floors(reading, resolved, boards, slices))
    edges = tuple(_edges(reading, resolved, boards, floors[0], slices))
    return Wanted(reading, resolved, floors, edges, tuple(_kept(resolved, boards)))


class _Slices:
    """Boards in the thicknesses made, in numbers, each once."""

    def __init__(self, reading: Reading, resolved: Resolved) -> None:
        self._system = resolved.system
        self._foams = Foams(resolved.products, reading.brief.foam, Assumptions(None))
        self._made: dict[tuple[str, str], Slice] = {}

    def of(self, board: Board, made: Made, path: str) -> Slice:
        key = (board.key, made.typed)
        if key not in self._made:
            layer = Layer.model_validate({"board": board.key, "thickness": made.typed})
            self._made[key] = layer_slice(layer, path, self._system, self._foams)
        return replace(self._made[key], path=f"{path}.board")


def _boards(resolved: Resolved) -> Iterator[Board]:
    """Flat boards of the lines that belong below a slab, and what the brief itself names."""
    named = {layer.key for layer in resolved.boards}
    for board in resolved.products.boards():
        flat = resolved.products.has(board.key) and resolved.products.product(board.key).kind in FLAT
        if (flat or board.key in named) and not catalogue.belonging(board).against:
            yield board


def _floors(reading: Reading, resolved: Resolved, boards: Sequence[Board], slices: _Slices) -> Iterator[FloorFoam]:
    typed = [dict(layer) for layer in reading.versions[AS_BRIEFED].tree.plain()["floor"]["build-up"]]
    at = _where(typed)
    rest = [layer for layer in typed if "board" not in layer]
    kept = [layer for layer in resolved.floor if layer.kind != "board"]
    yield FloorFoam(None, None, "no foam", tuple(rest), tuple(kept))
    for board in boards:
        for laid in _laid(board, resolved.system):
            layers = [{"board": board.key, "thickness": made.typed} for made in laid.layers]
            foam = [slices.of(board, made, f"floor.build-up.{at + n}") for n, made in enumerate(laid.layers, 1)]
            words = f"{_thick(laid, resolved.system)} of {board.label}"
            yield FloorFoam(board, laid, words, (*rest[:at], *layers, *rest[at:]), (*kept[:at], *foam, *kept[at:]))


def _where(typed: Sequence[Mapping[str, object]]) -> int:
    """At which place among the layers that are no board foam lies.

    Where the brief has it; else below the concrete and a film that lies on it, above an old slab that stays.
    """
    first = next((n for n, layer in enumerate(typed) if "board" in layer), None)
    if first is not None:
        return first
    old = next((n for n, layer in enumerate(typed) if "old-slab" in layer), len(typed))
    poured = [n for n, layer in enumerate(typed[:old]) if "concrete" in layer]
    at = poured[-1] + 1 if poured else 0
    return at + 1 if at < old and "vapour-retarder" in typed[at] else at


def _laid(board: Board, system: System) -> Iterator[Laid]:
    """Single thicknesses, and stacks that are thicker than any single one."""
    made = made_in(board, system)
    yield from (Laid((each,)) for each in made)
    thickest = made[-1].thickness
    seen: set[int] = set()
    for pair in combinations_with_replacement(sorted(made, key=lambda each: -each.thickness), MOST_LAYERS):
        laid = Laid(pair)
        size = round(1e4 * laid.thickness)
        if laid.thickness > thickest + 1e-6 and size not in seen:
            seen.add(size)
            yield laid


def _thick(laid: Laid, system: System) -> str:
    return say.typed(Measure(laid.thickness, laid.typed), "m", system)


def _edges(
    reading: Reading, resolved: Resolved, boards: Sequence[Board], bare: FloorFoam, slices: _Slices
) -> Iterator[EdgeFoam]:
    edges = reading.brief.edge
    typed = reading.versions[AS_BRIEFED].tree.plain()["edge"]
    outer = [n for n, edge in enumerate(edges) if edge.beside != "heated"]
    without = EdgeFoam(NONE, None, None, "no foam at the edge", tuple((n, ()) for n in outer), (), 0.0)
    first = Wanted(reading, resolved, (bare,), (), ())
    yield from _built(first, without)
    if any(edge.insulation for edge in edges):
        as_typed = tuple((n, tuple(typed[n].get("insulation", ()))) for n in outer)
        yield from _built(first, EdgeFoam(AS_TYPED, None, None, "the edge as briefed", as_typed, (), 0.0))
    for detail in details():
        known: dict[int, EdgeFoam | None] = {}  # by thickness: boards as thick as one another are cut alike
        for board in boards:
            for made in made_in(board, resolved.system):
                if made.thickness > THICKEST_AT_EDGE:
                    continue
                laid = [(n, detail.at(edges[n], board.key, made.typed)) for n in outer]
                there = tuple((n, tuple(pieces)) for n, pieces in laid if pieces is not None)
                if not there:
                    continue
                thick = say.typed(Measure(made.thickness, made.typed), "m", resolved.system)
                each = EdgeFoam(detail.key, board, made, f"{thick} {detail.words}", there, (), 0.0)
                size = round(1e4 * made.thickness)
                if size not in known:
                    known[size] = next(_built(first, each), None)
                like = known[size]
                if like is not None:
                    yield replace(each, edges=_of_board(like.edges, there, board, made, slices), volume=like.volume)


def _of_board(
    edges: Sequence[ResolvedEdge],
    there: Sequence[tuple[int, tuple[Piece, ...]]],
    board: Board,
    made: Made,
    slices: _Slices,
) -> tuple[ResolvedEdge, ...]:
    """Edges that are cut with another board as thick."""
    changed = {letter(n) for n, _ in there}
    return tuple(
        replace(edge, pieces=tuple(replace(p, board=slices.of(board, made, p.board.path[:-6])) for p in edge.pieces))
        if edge.letter in changed
        else edge
        for edge in edges
    )


def _built(wanted: Wanted, edge: EdgeFoam) -> Iterator[EdgeFoam]:
    """An edge in numbers, where it can be built."""
    try:
        resolved = wanted.with_these(wanted.floors[0], edge)
        foam = sum(foam_at_edge(section(resolved, each), each) * each.length for each in resolved.edges)
    except (Mistake, Mistakes):
        return
    yield replace(edge, edges=resolved.edges, volume=foam)


def foam_at_edge(cut: Section, edge: ResolvedEdge) -> float:
    """Pieces of foam in an edge's section. [m²]"""
    return sum(_area(part.outline) for part in cut.parts if part.path.startswith(f"{edge.path}.insulation."))


def _area(outline: Sequence[tuple[float, float]]) -> float:
    pairs = zip(outline, [*outline[1:], outline[0]], strict=True)
    return abs(0.5 * sum(a[0] * b[1] - b[0] * a[1] for a, b in pairs))


def _kept(resolved: Resolved, boards: Sequence[Board]) -> Iterator[str]:
    names = ", ".join(board.label for board in boards)
    yield f"Tried under the floor and at its edges, one product on one job: {names}."
    films = ", ".join(dict.fromkeys(layer.label for layer in resolved.floor if layer.kind == "vapour-retarder"))
    yield f"Kept as briefed: concrete, gravel, walls and footings{', ' + films if films else ''}."
