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
from ..brief.tables.choose import Choose, OnHand
from ..brief.tables.layer import Layer
from ..catalogue.products import FLAT, Products
from ..catalogue.records import Board, Made
from ..catalogue.thickness import Laid, made_in
from ..measure import Measure, System, say
from ..mistakes import Mistake, Mistakes, nearest
from ..resolve import Resolved, ResolvedEdge, Slice, resolve
from ..resolve.assumptions import Assumptions
from ..resolve.foams import Foams
from ..resolve.layers import layer_slice
from ..sections.build import section
from ..sections.parts import Section
from .details import Piece, details, least_strength

MOST_LAYERS = 2  # of one product on one another: more is laid nowhere without need
NAMED = "They are:"  # how the sentence begins that names every board
ROUNDED = 0.1  # kPa: a rounded psi
THICKEST_AT_EDGE = 0.11  # m: what a wall's finish and a sill still cover (common practice, no source)
AS_TYPED, NONE, AS_BRIEFED_KEY = "as typed", "none", "as-briefed"


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
    faces: tuple[tuple[str, float], ...]  # and m² of foam there, as the sections are cut without foam under the floor

    volume: float  # m³ of foam

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
    on_hand: tuple[OnHand, ...] = ()

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
    """Everything that is tried for a brief, each floor and each edge able to be built by itself.

    Raises
    ------
    Mistakes
        A board, a foam or a thickness of [choose] that is not known, or a [choose] that leaves nothing to try.
    """
    asked = reading.brief.choose or Choose()
    unclear = list(_unclear(asked, resolved))
    if unclear:
        raise reading.placed(unclear)
    boards = tuple(_boards(asked, resolved))
    if not boards:
        wrong = "Nothing is left to try: no board of the lines is all of that."
        instead = "Take one of boards, foams and faced out, or name other boards."
        raise reading.placed([Mistake("choose", "", wrong, instead)])
    slices = _Slices(reading, resolved)
    floors = tuple(_floors(reading, resolved, boards, slices))
    edges = tuple(_edges(reading, resolved, boards, floors[0], slices))
    if len(edges) == 0:
        wrong = "No edge of this brief can be built in one of these ways."
        raise reading.placed([Mistake("choose.details", "", wrong, 'Add "none" or "as-briefed".')])
    return Wanted(reading, resolved, floors, edges, tuple(_kept(asked, resolved, boards)), asked.on_hand)


class _Slices:
    """Boards in the thicknesses made, in numbers, each once."""

    def __init__(self, reading: Reading, resolved: Resolved) -> None:
        self._system = resolved.system
        self._foams = Foams(resolved.products, reading.brief.foam, Assumptions(None))
        self._made: dict[tuple[str, str], tuple[str, Slice]] = {}

    def of(self, board: Board, made: Made, path: str) -> Slice:
        key = (board.key, made.typed)
        if key not in self._made:
            layer = Layer.model_validate({"board": board.key, "thickness": made.typed})
            self._made[key] = path, layer_slice(layer, path, self._system, self._foams)
        first, known = self._made[key]
        if first == path:
            return known
        rests, label = (tuple(each.replace(first, path) for each in paths) for paths in _paths(known))
        return replace(known, path=f"{path}.board", rests_on=rests, r_label_rests_on=label)


def _paths(of: Slice) -> tuple[tuple[str, ...], tuple[str, ...]]:
    return of.rests_on, of.r_label_rests_on


def _unclear(asked: Choose, resolved: Resolved) -> Iterator[Mistake]:
    """What [choose] names that is not there, or names against itself."""
    products = resolved.products
    for n, key in enumerate(asked.boards or (), 1):
        yield from _unknown(f"choose.boards.{n}", key, products)
    foams = list(dict.fromkeys(board.material for board in products.boards()))
    for n, foam in enumerate(asked.foams or (), 1):
        if foam not in foams:
            near = nearest(foam, foams)
            hint = f"The nearest is {near[0]}. " if near else ""
            wrong = f"No board of the catalogue is of {foam}."
            yield Mistake(f"choose.foams.{n}", f'"{foam}"', wrong, f"{hint}There are {', '.join(foams)}.")
    for n, each in enumerate(asked.on_hand, 1):
        at = f"choose.on-hand.{n}"
        wrongs = list(_unknown(f"{at}.board", each.board, products))
        yield from wrongs
        if wrongs:
            continue
        board = products.board(each.board)
        if not any(abs(made.thickness - each.thickness.si) < 5e-4 for made in made_in(board, resolved.system)):
            offered = ", ".join(made.typed for made in made_in(board, resolved.system))
            wrong = f"{board.label} is not made {each.thickness.typed} thick."
            yield Mistake(f"{at}.thickness", f'"{each.thickness.typed}"', wrong, f"It is made in {offered}.")
        elif asked.boards is not None and each.board not in asked.boards:
            wrong = f"{each.board} is on hand, and boards does not let it be taken."
            yield Mistake(f"{at}.board", f'"{each.board}"', wrong, "Add it to boards, or take it out here.")


def _unknown(at: str, key: str, products: Products) -> Iterator[Mistake]:
    try:
        products.board(key)
    except Mistake as mistake:
        yield mistake.placed(at=at)


def _boards(asked: Choose, resolved: Resolved) -> Iterator[Board]:
    """Boards that are asked for; else flat ones of the lines that belong below a slab, and what the brief names."""
    named = {layer.key for layer in resolved.boards}
    if asked.boards is not None:
        listed = [resolved.products.board(key) for key in dict.fromkeys(asked.boards)]
    else:
        listed = [
            board
            for board in resolved.products.boards()
            if (board.key in named or _is_flat(board, resolved)) and not catalogue.belonging(board).against
        ]
    for board in listed:
        faced = _faced(board, resolved)
        if (asked.foams is None or board.material in asked.foams) and (asked.faced is None or asked.faced == faced):
            yield board


def _is_flat(board: Board, resolved: Resolved) -> bool:
    return resolved.products.has(board.key) and resolved.products.product(board.key).kind in FLAT


def _faced(board: Board, resolved: Resolved) -> bool:
    return resolved.products.has(board.key) and resolved.products.product(board.key).facing is not None


def _floors(reading: Reading, resolved: Resolved, boards: Sequence[Board], slices: _Slices) -> Iterator[FloorFoam]:
    typed = [dict(layer) for layer in reading.versions[AS_BRIEFED].tree.plain()["floor"]["build-up"]]
    most = (reading.brief.choose or Choose()).layers or MOST_LAYERS
    at = _where(typed)
    rest = [layer for layer in typed if "board" not in layer]
    kept = [layer for layer in resolved.floor if layer.kind != "board"]
    yield FloorFoam(None, None, "no foam", tuple(rest), tuple(kept))
    for board in boards:
        for laid in _laid(board, resolved.system, most):
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


def _laid(board: Board, system: System, most: int) -> Iterator[Laid]:
    """Single thicknesses, and stacks that are thicker than any single one."""
    made = made_in(board, system)
    yield from (Laid((each,)) for each in made)
    if most < MOST_LAYERS:
        return
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
    ways = (reading.brief.choose or Choose()).details
    typed = reading.versions[AS_BRIEFED].tree.plain()["edge"]
    outer = [n for n, edge in enumerate(edges) if edge.beside != "heated"]
    without = EdgeFoam(NONE, None, None, "no foam at the edge", tuple((n, ()) for n in outer), (), (), 0.0)
    first = Wanted(reading, resolved, (bare,), (), ())
    if ways is None or NONE in ways:
        yield from _built(first, without)
    if any(edge.insulation for edge in edges) and (ways is None or AS_BRIEFED_KEY in ways):
        as_typed = tuple((n, tuple(typed[n].get("insulation", ()))) for n in outer)
        yield from _built(first, EdgeFoam(AS_TYPED, None, None, "the edge as briefed", as_typed, (), (), 0.0))
    for detail in details():
        if detail.key not in ways if ways is not None else detail.new_work and resolved.on_old_slab:
            continue
        known: dict[int, EdgeFoam | None] = {}  # by thickness: boards as thick as one another are cut alike
        for board in boards:
            for made in made_in(board, resolved.system):
                if made.thickness > THICKEST_AT_EDGE or _weak(board):
                    continue
                laid = [(n, detail.at(edges[n], board.key, made.typed)) for n in outer]
                there = tuple((n, tuple(pieces)) for n, pieces in laid if pieces is not None)
                if not there:
                    continue
                thick = say.typed(Measure(made.thickness, made.typed), "m", resolved.system)
                each = EdgeFoam(detail.key, board, made, f"{thick} {detail.words}", there, (), (), 0.0)
                size = round(1e4 * made.thickness)
                if size not in known:
                    known[size] = next(_built(first, each), None)
                like = known[size]
                if like is not None:
                    yield replace(
                        each,
                        edges=_of_board(like.edges, there, board, made, slices),
                        faces=like.faces,
                        volume=like.volume,
                    )


def _weak(board: Board) -> bool:
    """Whether a board is too weak to have ground filled against it."""
    return board.strength.value < least_strength() - ROUNDED


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
        foam = [each for edge_of in resolved.edges for each in foam_at_edge(section(resolved, edge_of), edge_of)]
    except (Mistake, Mistakes):
        return
    volume = sum(area * thick for _, area, thick in foam)
    yield replace(edge, edges=resolved.edges, faces=tuple((face, area) for face, area, _ in foam), volume=volume)


def foam_at_edge(cut: Section, edge: ResolvedEdge) -> Iterator[tuple[str, float, float]]:
    """Pieces of foam along an edge: face, area and thickness. [m², m]"""
    for n, piece in enumerate(edge.pieces, 1):
        own = f"{edge.path}.insulation.{n}"
        cuts = sum(_area(part.outline) for part in cut.parts if part.path == own or part.path.startswith(f"{own}."))
        yield piece.face, cuts / piece.board.thickness * edge.length, piece.board.thickness


def _area(outline: Sequence[tuple[float, float]]) -> float:
    pairs = zip(outline, [*outline[1:], outline[0]], strict=True)
    return abs(0.5 * sum(a[0] * b[1] - b[0] * a[1] for a, b in pairs))


def _kept(asked: Choose, resolved: Resolved, boards: Sequence[Board]) -> Iterator[str]:
    names = ", ".join(board.label for board in boards)
    yield f"{len(boards)} boards were tried under the floor and at its edges, one product on one job."
    yield f"{NAMED} {names}."
    if asked.on_hand:
        there = ", ".join(f"{each.area.typed} of {each.thickness.typed} {each.board}" for each in asked.on_hand)
        yield f"On hand, and not paid for again: {there}."
    weak = [board.label for board in boards if _weak(board)]
    if weak:
        least = say.both(least_strength(), "kPa", resolved.system)
        yield f"Not at edges, where at least {least} is laid (common practice, no source): {', '.join(weak)}."
    films = ", ".join(dict.fromkeys(layer.label for layer in resolved.floor if layer.kind == "vapour-retarder"))
    yield f"Kept as briefed: concrete, gravel, walls and footings{', ' + films if films else ''}."
