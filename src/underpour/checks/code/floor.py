"""What codes ask of the floor as a whole: foam under it, film, stone, the slab itself, and soil gas."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from dataclasses import replace

from ... import catalogue
from ...catalogue.codes import Edition, Row
from ...findings import Finding, Step
from ...measure import say
from ...measure.digits import fixed
from ...physics import ground
from ...resolve import Resolved, Slice
from ..basis import basis
from ..solved import SolvedEdge
from .reach import below_slab, best, least, paths, reach, stops_at, told, ways
from .rows import Chosen, chosen
from .told import at, held_to, not_told, without_a_row

BY_F = "F-factor"
GRANULAR = ("gravel", "sand")  # what a base course may be made of


def under_slab(resolved: Resolved, edition: Edition) -> Iterator[Finding]:
    """Foam under the whole floor, or its U-value with the ground, against an edition of a code.

    Asks
        Is there as much foam under the floor as the code asks, where no heat is laid in it?
    Why
        Many codes ask for the edge alone; what is not asked under the floor may still be wise.
    Worked out
        Sum of the labelled boards below the concrete; the U-value by ISO 13370 with those boards.
    Holds for
        Foam over the whole floor. Foam at the edge is not counted into the U-value.
    Source
        The catalogue's rows of that edition; ISO 13370 for the U-value.
    """
    title = "Foam under the floor, resistance as labelled"
    by_r = chosen(resolved, edition, "under-slab", None, lambda row: "resistance" in row.asks)
    by_u = chosen(resolved, edition, "under-slab", None, lambda row: "u-factor" in row.asks)
    empty = Finding("code.under-slab", title, None, "m²·K/W", at=at(edition, route="R-value"))
    if by_r is None and by_u is None and "under-slab" in edition.needs:
        yield without_a_row(empty, resolved, edition)
    if by_r is not None:
        yield _resistance(resolved, by_r, empty, "resistance")
    if by_u is not None:
        yield _transmittance(resolved, edition, by_u)


def _resistance(resolved: Resolved, found: Chosen, empty: Finding, ask: str) -> Finding:
    if not found.rows:
        return not_told(empty, resolved, found)
    boards = below_slab(resolved)
    value = sum(board.r_label or 0.0 for board in boards)
    numbers = " + ".join(f"{fixed(b.r_label or 0.0, 3)} ({b.words})" for b in boards) or "no board"
    step = Step(
        "proposed", "sum of labelled boards below the concrete", numbers, say.both(value, "m²·K/W", resolved.system)
    )
    rests = tuple(dict.fromkeys(path for board in boards for path in board.r_label_rests_on))
    return held_to(replace(empty, rests_on=rests, steps=(step,)), resolved, found, found.rows[0], ask, value)


def _transmittance(resolved: Resolved, edition: Edition, found: Chosen) -> Finding:
    title = "Heat lost through the floor, by area and degree"
    empty = Finding("code.under-slab", title, None, "W/(m²·K)", at=at(edition, route="U-value"))
    if not found.rows:
        return not_told(empty, resolved, found)
    value, steps = u_value(resolved)
    boards = [path for layer in resolved.floor for path in (layer.r_label_rests_on or layer.rests_on)]
    grounds = [path for stratum in resolved.strata for path in stratum.slice.rests_on]
    rests = (*dict.fromkeys([*boards, *grounds]), "plan.outline")
    made = replace(empty, rests_on=rests, steps=steps)
    words = "By ISO 13370 with the boards as labelled, at the label's own mean temperature; edges not counted."
    told_ = held_to(made, resolved, found, found.rows[0], "u-factor", value, words=(words,))
    return replace(told_, basis=(*told_.basis, basis("iso-13370-2017", "floors on the ground")))


def u_value(resolved: Resolved) -> tuple[float, tuple[Step, ...]]:
    """U of the floor with the ground by ISO 13370, the boards as labelled. [W/(m²·K)]"""
    films = catalogue.surface("floor-down").value + catalogue.surface("outdoors").value
    layers = [_resisting(layer) for layer in resolved.floor if layer.kind not in GRANULAR and layer.thickness > 0.0]
    resistance = films + sum(layers)
    widths = [sum(leaf.thickness for leaf in (edge.wall or edge.above)) * edge.length for edge in resolved.edges]
    wall = sum(widths) / resolved.perimeter
    deep = sum(max(edge.ground, 0.0) * edge.length for edge in resolved.edges) / resolved.perimeter
    dimension = ground.characteristic_dimension(resolved.area, resolved.perimeter)
    under = deep + resolved.total
    conductivity = resolved.ground_conductivity(under, under + dimension)  # layers: the mean over that depth
    thick = ground.equivalent_thickness(wall, conductivity, resistance)
    value = ground.floor_transmittance(dimension, thick, conductivity, deep)
    listed = " + ".join(fixed(r, 3) for r in (films, *layers))
    half = f"{fixed(resolved.area, 1)} / (0.5 × {fixed(resolved.perimeter, 1)})"
    thicker = f"{fixed(wall, 3)} + {fixed(conductivity, 2)} × {fixed(resistance, 3)}"
    numbers = f"B = {fixed(dimension, 2)} m, d = {fixed(thick, 3)} m, z = {fixed(deep, 2)} m"
    return value, (
        Step("B", "A / (0.5 P)", half, f"{fixed(dimension, 2)} m"),
        Step("R", "films and layers, boards as labelled, gravel as ground", listed, f"{fixed(resistance, 3)} m²·K/W"),
        Step("d", "w + λ R", thicker, f"{fixed(thick, 3)} m"),
        Step("U", "ISO 13370", numbers, f"{fixed(value, 4)} W/(m²·K)"),
    )


def _resisting(layer: Slice) -> float:
    """A layer's resistance: as labelled where it is a board. [m²·K/W]"""
    return layer.resistance if layer.r_label is None else layer.r_label


def heated_slab(resolved: Resolved, edges: Sequence[SolvedEdge], edition: Edition) -> Iterator[Finding]:
    """Foam of a heated slab, under it and at its edge, against an edition of a code.

    Asks
        Is there as much foam as the code asks where heat is laid in the slab?
    Why
        What is warm all winter loses more; codes add to the edge, or ask for foam under all of it, by edition.
    Worked out
        Sum of the labelled boards below the concrete; at the edge its own limit with what is added.
    Holds for
        Slabs with tube in them ([tube] in the brief).
    Source
        The catalogue's rows of that edition, each with its clause and how it was seen.
    """
    title = "Foam under the heated slab, resistance as labelled"
    empty = Finding("code.heated-slab", title, None, "m²·K/W", at=at(edition, asks="under"))
    found = chosen(resolved, edition, "heated-slab")
    if found is None:
        if "heated-slab" in edition.needs and resolved.held.heated:
            yield without_a_row(empty, resolved, edition)
        return
    if not found.rows:
        bare = replace(empty, title="Foam of a heated slab", at=at(edition))
        yield not_told(bare, resolved, found)
        return
    for row in found.rows:
        of_row = replace(found, rows=(row,))
        if row.place == "under":
            yield _resistance(resolved, of_row, empty, "resistance")
        else:
            for edge in edges:
                yield from _added(resolved, edge, edition, of_row)


def _added(resolved: Resolved, solved: SolvedEdge, edition: Edition, found: Chosen) -> Iterator[Finding]:
    """What a heated slab adds to the foam that its edge asks for."""
    row, letter = found.rows[0], solved.edge.letter
    empty = Finding(
        "code.heated-slab",
        "Foam at the heated slab's edge, resistance as labelled",
        None,
        "m²·K/W",
        at=at(edition, edge=letter, asks="edge"),
    )
    base = chosen(resolved, edition, "slab-edge", solved.edge, lambda each: each.route != BY_F)
    if solved.edge.kind == "drawn" or base is None:
        return
    if not base.rows:
        yield not_told(empty, resolved, base)
        return
    of_edge = base.rows[0]
    depth = max(each.asks["depth"].si if "depth" in each.asks else 0.0 for each in (of_edge, row))
    way = best(ways(resolved, solved), depth)
    own, added = of_edge.asks.get("resistance"), row.asks["added"]
    value, limit = least(way, depth), round((own.si if own else 0.0) + added.si, 4)
    both = f"{own.typed if own else 'Nothing'} at the edge and {added.typed} added"
    step = Step("proposed", "labelled resistance along the foam", told(way, resolved.system) or "none", "")
    made = replace(
        empty,
        rests_on=(*paths(way), of_edge.path, f"{solved.edge.path}.ground"),
        steps=(replace(step, result=say.both(value, "m²·K/W", resolved.system)),),
    )
    yield held_to(made, resolved, found, row, "added", value, limit=limit, words=(f"{both}.",))
    if "depth" in row.asks:
        asked = row.asks["depth"].si
        goes = reach(way, min(limit, value))
        yield held_to(
            replace(
                made,
                unit="m",
                title="Foam at the heated slab's edge, how far it reaches",
                at=at(edition, edge=letter, asks="edge-depth"),
                steps=(replace(step, result=say.both(goes, "m", resolved.system)),),
            ),
            resolved, found, row, "depth", goes,
            limit=round(min(asked, stops_at(solved, row.edge_stops)) if row.edge_stops else asked, 4),
        )  # fmt: skip


def film(resolved: Resolved, edition: Edition) -> Iterator[Finding]:
    """Film under the slab, against an edition of a code.

    Asks
        Is there film under the slab, and is it as thick as the code asks?
    Why
        Vapour from the ground comes through concrete all year, and lifts coverings.
    Worked out
        Nominal thickness of the thickest film below the concrete.
    Holds for
        Film anywhere between concrete and ground, above or below the foam. Laps and sealing are seen on site.
    Source
        The catalogue's rows of that edition, each with its clause and how it was seen.
    """
    empty = Finding("code.vapour-retarder", "Film under the slab", None, "mm", at=at(edition))
    films = [layer for layer in _below_concrete(resolved) if layer.kind == "vapour-retarder"]
    thickest = max(films, key=_film_thickness, default=None)
    value = _film_thickness(thickest) * 1000.0 if thickest else 0.0
    step = Step("proposed", "nominal thickness", thickest.words if thickest else "no film", "")
    yield from _of_layer(resolved, edition, "vapour-retarder", "film", empty, value, films, step)


def _film_thickness(layer: Slice) -> float:
    return layer.film.thickness if layer.film is not None else 0.0


def base_course(resolved: Resolved, edition: Edition) -> Iterator[Finding]:
    """Stone below the slab, against an edition of a code.

    Asks
        Is there as much stone below the slab as the code asks?
    Why
        Water does not rise in clean stone, and soil gas can be drawn from it.
    Worked out
        Gravel and sand of the build-up, added.
    Holds for
        Clean stone without fines: the brief does not say how it is graded.
    Source
        The catalogue's rows of that edition, each with its clause and how it was seen.
    """
    empty = Finding("code.base-course", "Stone below the slab", None, "m", at=at(edition))
    stone = [layer for layer in _below_concrete(resolved) if layer.kind in GRANULAR]
    yield from _of_layer(resolved, edition, "base-course", "layer", empty, _thick(stone), stone, _sum(stone))


def slab(resolved: Resolved, edition: Edition) -> Iterator[Finding]:
    """Thickness of the slab, against an edition of a code.

    Asks
        Is the concrete as thick as the code asks at the least?
    Why
        Thinner slabs crack; what stands on them is another question, which an engineer answers.
    Worked out
        Concrete of the build-up that is laid now.
    Holds for
        Slabs on the ground.
    Source
        The catalogue's rows of that edition, each with its clause and how it was seen.
    """
    empty = Finding("code.slab-thickness", "Thickness of the slab", None, "m", at=at(edition))
    poured = [layer for layer in resolved.laid if layer.kind == "concrete"]
    thickest = sorted(poured, key=lambda layer: layer.thickness)[-1:]
    yield from _of_layer(resolved, edition, "slab-thickness", "slab", empty, _thick(thickest), thickest, _sum(thickest))


def soil_gas(resolved: Resolved, edition: Edition) -> Iterator[Finding]:
    """Stone and film against soil gas, against an edition of a code.

    Asks
        Are the layers there that the code asks for against soil gas?
    Why
        Nobody knows the level before the house is closed, and what lies under a slab cannot be added later.
    Worked out
        Gravel of the build-up, added; nominal thickness of the film.
    Holds for
        Layers alone. Sealing, pipe, fan and the level itself are not answered here.
    Source
        The catalogue's rows of that edition, each with its clause and how it was seen.
    """
    stone = [layer for layer in _below_concrete(resolved) if layer.kind == "gravel"]
    films = [layer for layer in _below_concrete(resolved) if layer.kind == "vapour-retarder"]
    thickest = max(films, key=_film_thickness, default=None)
    wanted: list[tuple[str, Finding, float, Sequence[Slice], Step]] = [
        (
            "layer",
            Finding("code.soil-gas", "Stone that lets soil gas through", None, "m", at=at(edition, asks="layer")),
            _thick(stone),
            stone,
            _sum(stone),
        ),
        (
            "film",
            Finding("code.soil-gas", "Film against soil gas", None, "mm", at=at(edition, asks="film")),
            _film_thickness(thickest) * 1000.0 if thickest else 0.0,
            films,
            Step("proposed", "nominal thickness", thickest.words if thickest else "no film", ""),
        ),
    ]
    for ask, empty, value, layers, step in wanted:
        yield from _of_layer(resolved, edition, "soil-gas", ask, empty, value, layers, step, _with(ask))


def _with(ask: str) -> Callable[[Row], bool]:
    return lambda row: ask in row.asks


def _of_layer(
    resolved: Resolved,
    edition: Edition,
    subject: str,
    ask: str,
    empty: Finding,
    value: float,
    layers: Sequence[Slice],
    step: Step,
    among: Callable[[Row], bool] = lambda row: True,
) -> Iterator[Finding]:
    """One finding on the thickness of a layer."""
    found = chosen(resolved, edition, subject, None, among)
    if found is None:
        if subject in edition.needs and subject != "soil-gas":
            yield without_a_row(empty, resolved, edition)
        return
    if not found.rows:
        yield not_told(empty, resolved, found)
        return
    row = found.rows[0]
    rests = tuple(dict.fromkeys(layer.rests_on[0] for layer in layers))
    made = replace(
        empty,
        rests_on=rests,
        steps=(replace(step, result=say.both(value, empty.unit, resolved.system)),),
    )
    yield held_to(made, resolved, found, row, ask, value)


def _below_concrete(resolved: Resolved) -> tuple[Slice, ...]:
    poured = next((n for n, layer in enumerate(resolved.floor) if layer.kind == "concrete"), 0)
    return resolved.floor[poured:]


def _thick(layers: Sequence[Slice]) -> float:
    return sum(layer.thickness for layer in layers)


def _sum(layers: Sequence[Slice]) -> Step:
    return Step("proposed", "sum of the layers", " + ".join(layer.words for layer in layers) or "none", "")
