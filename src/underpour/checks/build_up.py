"""What the whole build-up resists, what was wanted of a layer, and what air spaces and thin sheets are worth."""

from __future__ import annotations

from collections.abc import Iterator

from .. import catalogue
from ..findings import Basis, Finding, Sense, Step
from ..measure import say
from ..measure.digits import fixed
from ..measure.table import System
from ..resolve import Resolved, Slice
from .basis import basis
from .by_formula import hardcore_from

AT_LEAST: Sense = "at least"
NANO = 9  # places: a label of R-10 reaches R-10, whatever is lost in turning it into SI
GROUND = "gravel and sand below everything else, which are ground to ISO 13370"


def whole(resolved: Resolved) -> Iterator[Finding]:
    """Resistance of the whole build-up with its film, as labelled and in place.

    Asks
        How much resists between the room's air and the ground, and what of it counts?
    Why
        An R is said of the foam, of all layers, or of all with the ground; figures of different kinds are compared.
    Worked out
        Film of the room side, and every layer down to the gravel. Boards by their label, or as they lie; all else as
        it lies.
    Holds for
        The middle of the floor. Gravel and sand at the bottom are ground; the ground itself is in heat.u-floor.
    Source
        ISO 6946 for the sum and the film.
    """
    rising = resolved.room.mean < resolved.outdoor_mean
    film = catalogue.surface("outdoors" if resolved.outdoors else "floor-up" if rising else "floor-down")
    counted = [layer for layer in resolved.floor[: hardcore_from(resolved)] if layer.thickness > 0.0]
    left = [GROUND] if hardcore_from(resolved) < len(resolved.floor) else []
    left += ["films and foils, too thin to resist"] if any(each.thickness == 0.0 for each in resolved.floor) else []
    said = "A code that asks for an R asks it of the foam alone, as labelled."
    said += f" Not counted: {'; '.join(left)}." if left else ""
    for kind in ("as labelled", "in place"):
        rows = [(layer.words, _labelled(layer) if kind == "as labelled" else layer.resistance) for layer in counted]
        value = film.value + sum(r for _, r in rows)
        paths = [path for layer in counted for path in _leans_on(layer, kind)]
        yield Finding(
            "heat.resistance-total",
            f"Resistance of the whole build-up with its film, foam {kind}",
            value,
            "m²·K/W",
            at={"value": kind},
            within=0.0,
            basis=(basis("iso-6946-2017", "layers and films add up"), film.basis()),
            rests_on=tuple(dict.fromkeys([*paths, film.path])),
            steps=(
                Step("R_si", "film between room and floor", "", f"{fixed(film.value, 3)} m²·K/W"),
                *(Step("R", words, "", f"{fixed(r, 3)} m²·K/W") for words, r in rows),
                Step(
                    "R_T",
                    "film and layers added up",
                    " + ".join(fixed(r, 3) for r in (film.value, *(r for _, r in rows))),
                    f"{fixed(value, 3)} m²·K/W",
                ),
            ),
            words=said if kind == "as labelled" else "",
        )


def _labelled(layer: Slice) -> float:
    return layer.resistance if layer.r_label is None else layer.r_label


def _leans_on(layer: Slice, kind: str) -> tuple[str, ...]:
    return layer.r_label_rests_on if kind == "as labelled" and layer.r_label is not None else layer.rests_on


def wanted(resolved: Resolved) -> Iterator[Finding]:
    """The R-value that was wanted of a layer against what the layer brings.

    Asks
        Does what was chosen, or what was offered, bring the R that is wanted?
    Why
        A figure on a sheet of foil is often that of a system with air spaces; a board is short or over by its steps.
    Worked out
        Boards: the thinnest thickness made whose label reaches it, one layer before several. Sheets and air spaces:
        what they resist where they lie.
    Holds for
        Layers of the floor, and foam at an edge.
    Source
        The record of each board or sheet; ISO 6946 for an air space.
    """
    for n, layer in enumerate(resolved.floor, 1):
        if layer.wanted is not None:
            yield _wanted(layer, {"layer": str(n)}, resolved)
    for edge in resolved.edges:
        for n, piece in enumerate(edge.pieces, 1):
            if piece.board.wanted is not None:
                yield _wanted(piece.board, {"edge": edge.letter, "piece": str(n)}, resolved)


def _wanted(layer: Slice, at: dict[str, str | float], resolved: Resolved) -> Finding:
    assert layer.wanted is not None
    board = layer.record
    value = round(layer.resistance if layer.r_label is None else layer.r_label, NANO)
    if board is not None:
        found = board.r_label_per_metre.basis()
        words = _chosen(layer, value, resolved.system)
        thick = " + ".join(layer.wanted.layers)
        step = Step("R", f"{board.label}, as labelled", thick, f"{fixed(value, 3)} m²·K/W")
    else:
        found = _sheet_basis(layer) if layer.kind == "sheet" else basis("iso-6946-2017", "annex D, air spaces")
        words = f"{layer.wanted.words} is wanted of it. {_worth(layer, resolved)}"
        step = Step("R", f"{layer.label}, where it lies", "", f"{fixed(value, 3)} m²·K/W")
    return Finding(
        "heat.wanted",
        f"{'R as labelled' if board is not None else 'R where it lies'} against the R wanted, {_named(layer)}",
        value,
        "m²·K/W",
        at=at,
        within=0.0,
        limit=round(layer.wanted.r, NANO),
        sense=AT_LEAST,
        basis=(found,),
        rests_on=(layer.wanted.path, *(layer.r_label_rests_on or layer.rests_on)[1:]),
        steps=(step,),
        words=words,
    )


def _named(layer: Slice) -> str:
    return layer.label if layer.record is not None else layer.label[:1].lower() + layer.label[1:]


def _chosen(layer: Slice, value: float, system: System) -> str:
    """What was chosen for a wanted R, and what it gives over it."""
    chosen = layer.wanted
    assert chosen is not None
    thick, got = " + ".join(chosen.layers), say.value(value, "m²·K/W", system)
    several = len(chosen.layers) > 1
    what = (
        f"No single board reaches it; {thick} is the thinnest stack that does"
        if several
        else (f"{thick} is the thinnest made that reaches it")
    )
    lies = say.value(layer.resistance, "m²·K/W", system)
    words = [f"{chosen.words} is wanted. {what}, {got} as labelled and {lies} in place."]
    if chosen.thinner:
        words.append(f"The next thinner, {chosen.thinner}, has {say.value(chosen.thinner_r, 'm²·K/W', system)}.")
    if several:
        words.append("Cross the joints of one layer with the next.")
    if chosen.stack:
        words.append(f"Laid as {chosen.stack}, joints crossed, it would be thinner: write a layer for each.")
    return " ".join(words)


def air_spaces(resolved: Resolved) -> Iterator[Finding]:
    """What an air space under the floor is worth, and why.

    Asks
        How much does still air under a floor resist, with or without a foil beside it?
    Why
        It is taken for much or for nothing. Heat crosses it by radiation, and by air only where that turns over.
    Worked out
        What the air carries, by thickness and the way heat flows, and what radiates between the two faces.
    Holds for
        Level spaces up to 300 mm, closed all round, up to 5 K across.
    Source
        ISO 6946, annex D (from memory); emissivity of foil from the ASHRAE handbook (from memory).
    """
    for n, layer in enumerate(resolved.floor, 1):
        if layer.air is None:
            continue
        air = layer.air
        yield Finding(
            "heat.air-space",
            "What the air space is worth",
            layer.resistance,
            "m²·K/W",
            at={"layer": str(n)},
            within=0.0,
            basis=(basis("iso-6946-2017", "annex D, unventilated air layers"),),
            rests_on=layer.rests_on,
            steps=(
                Step(
                    "h_a",
                    "max(1.95, 0.025/d), heat flowing up"
                    if air.rising
                    else "max(0.12 d^−0.44, 0.025/d), heat flowing down",
                    f"d = {fixed(layer.thickness, 4)} m",
                    f"{fixed(air.convection, 3)} W/(m²·K)",
                ),
                Step(
                    "h_r",
                    "4 σ T³ / (1/ε1 + 1/ε2 − 1)",
                    f"ε = {air.faces[0]:g} and {air.faces[1]:g}, 10 °C",
                    f"{fixed(air.radiation, 3)} W/(m²·K)",
                ),
                Step(
                    "R",
                    "1 / (h_a + h_r)",
                    f"1 / ({fixed(air.convection, 3)} + {fixed(air.radiation, 3)})",
                    f"{fixed(layer.resistance, 3)} m²·K/W",
                ),
            ),
            words=_worth(layer, resolved),
        )


def sheets(resolved: Resolved) -> Iterator[Finding]:
    """What a foil or a bubble sheet in the floor is worth, and why.

    Asks
        How much does the sheet resist where it lies?
    Why
        Sheets are sold for below slabs with figures that belong to still air beside the foil, of which there is none.
    Worked out
        The sheet's thin body. What its foil does for an air space beside it is counted in that space.
    Holds for
        Sheets as the catalogue has them, pressed by what lies on them.
    Source
        The catalogue's record of the sheet. National Bureau of Standards, LC-535 (quoted): foil is of no value in
        contact with solids on both sides. 16 CFR 460.5 (quoted): insulation is tested alone, without any air space.
    """
    for n, layer in enumerate(resolved.floor, 1):
        if layer.kind != "sheet":
            continue
        yield Finding(
            "heat.sheet",
            "What the sheet is worth where it lies",
            layer.thickness / layer.conductivity,
            "m²·K/W",
            at={"layer": str(n)},
            within=0.0,
            basis=(
                _sheet_basis(layer),
                basis("nbs-lc-535", "foil in contact with solids on both sides"),
                basis("ftc-16-cfr-460", "460.5, insulation is tested alone, without any air space"),
            ),
            rests_on=layer.rests_on,
            steps=(
                Step("R", "of its body, solids on both sides", layer.words, f"{fixed(layer.resistance, 3)} m²·K/W"),
            ),
            words=_worth(layer, resolved),
        )


def _sheet_basis(layer: Slice) -> Basis:
    return catalogue.sheet(layer.key).resistance.basis()


def _worth(layer: Slice, resolved: Resolved) -> str:
    """What an air space or a sheet is worth and why, as an adviser says it."""
    return _of_air(layer, resolved.system) if layer.air is not None else _of_a_sheet(layer, resolved)


def _of_air(layer: Slice, system: System) -> str:
    assert layer.air is not None
    air = layer.air
    now, ordinary, clean, dull = (
        say.value(r, "m²·K/W", system) for r in (layer.resistance, air.ordinary, air.clean, air.dull)
    )
    share = round(100.0 * air.radiation / (air.radiation + air.convection))
    if air.rising:
        why = "Heat goes up through it, so the air turns over and carries much of it."
    else:
        why = "Heat goes down through it, and warm air stays on top: the air carries little."
    if air.foil:
        return (
            f"Worth {now} while its foil is clean and dry and the space is closed all round. {why} "
            f"Dulled by damp the foil gives {dull}, and none gives {ordinary}; nobody can look at it again."
        )
    return (
        f"Worth {now}, closed all round. {why} Radiation carries {share} % of the heat, so more thickness adds little. "
        f"With clean foil on one face it would be {clean}, with dulled foil {dull}."
    )


def _of_a_sheet(layer: Slice, resolved: Resolved) -> str:
    n = next(n for n, each in enumerate(resolved.floor) if each is layer)
    beside = [*resolved.floor[max(n - 1, 0) : n], *resolved.floor[n + 1 : n + 2]]
    worth = say.value(layer.resistance, "m²·K/W", resolved.system)
    sheet = catalogue.sheet(layer.key)
    if sheet.emissivity.value >= 0.5:
        return f"Worth {worth}: air in small cells, no more than its thickness."
    if any(each.kind == "air-space" for each in beside):
        body = f"Its body is worth {worth}." if layer.thickness else "Its body is too thin to resist."
        return f"{body} Its foil works in the air space beside it, and is counted there."
    return (
        f"Worth {worth}, what its thin body gives. Solids touch it on both sides, and a foil keeps back heat only "
        "across still air beside it. Claims of R-10 and more are of systems with such air."
    )
