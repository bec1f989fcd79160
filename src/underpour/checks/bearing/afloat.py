"""Water below a floor: whether it lifts the empty floor, and what holds the boards down before the pour."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from ... import catalogue
from ...findings import Basis, Finding, Step
from ...measure import say
from ...measure.digits import fixed
from ...physics import buoyancy
from ...physics.bearing import GRAVITY
from ...resolve import Resolved, Slice
from .limits import KILO

LIFT = Basis("hydrostatics", "density of water × gravity × height", "derived")
ARCHIMEDES = Basis("Archimedes", "what a body displaces lifts it", "derived")
POUND_PER_SQUARE_FOOT = 47.880259  # Pa, NIST SP 811 appendix B.8
HEAVY = ("concrete", "screed")
UPLIFT, FLOAT = "bearing.uplift", "bearing.float"


def afloat(resolved: Resolved) -> Iterator[Finding]:
    """Both, where the brief says how high the water stands; the boards also where anything stands on the floor."""
    if resolved.water is not None:
        yield uplift(resolved)
    if resolved.boards and (resolved.water is not None or resolved.loads):
        yield boards_afloat(resolved)


def uplift(resolved: Resolved) -> Finding:
    """Lift of the ground water on the empty floor against what its own weight holds down.

    Asks
        Does the ground water lift this floor when nothing stands on it?
    Why
        Foam weighs nothing: a thin slab on thick foam is a raft, and floats as soon as water stands a little above its
        underside.
    Worked out
        Water presses on the underside of the lowest board, or of the slab where there is none. Slab, screed and foam
        above hold it down, their weight over the factor of flotation, or times that of EN 1997-1 where the brief
        names EN 1990. Gravel below hangs on nothing and does not count.
    Holds for
        Still water as high as the brief has it, an empty floor, no help from walls at its edges. Drains that are said
        to keep the water off are believed; what holds without them is said.
    Source
        Hydrostatics; EM 1110-2-2100 or EN 1997-1 for the factor (from memory).
    """
    assert resolved.water is not None
    hangs = _hangs_together(resolved.floor)
    under = sum(layer.thickness for layer in hangs)
    edge = max(resolved.edges, key=lambda each: each.ground)
    above = max(edge.ground - resolved.water.depth + under, 0.0)
    lifts = buoyancy.lift(above)
    weight = _weight(hangs)
    factor = catalogue.of_slabs("held-down-en" if resolved.water.by_en else "held-down")
    holds = weight * factor.value if resolved.water.by_en else weight / factor.value
    value = 0.0 if resolved.water.drained else lifts
    system = resolved.system

    def said(pressure: float) -> str:
        return say.both(pressure / KILO, "kPa", system)

    if above == 0.0:
        words = "The ground water stands below slab and foam and does not lift them."
    else:
        words = (
            f"Water stands {say.both(above, 'm', system)} above the underside of slab and foam at edge {edge.letter}. "
        )
        words += f"It lifts them by {said(lifts)}; they weigh {said(weight)}, of which {said(holds)} counts."
        if resolved.water.drained:
            short = "they would float" if lifts > holds else "they would stay down"
            words += f" Drains are said to keep it off; were they blocked, {short}."
        elif lifts > holds:
            words += " Drain the ground, raise the floor, or have an engineer tie or weigh it down."
    return Finding(
        UPLIFT,
        "Lift of the ground water on the empty floor",
        value / KILO,
        "kPa",
        within=0.0,
        limit=holds / KILO,
        sense="at most",
        basis=(LIFT, factor.basis()),
        rests_on=("site.water-table", f"{edge.path}.ground", *(layer.path for layer in hangs), factor.path),
        steps=(
            Step(
                "u",
                "1000 kg/m³ × 9.80665 m/s² × height above the underside",
                f"{fixed(above, 3)} m" + (", drained" if resolved.water.drained else ""),
                f"{fixed(value / KILO, 2)} kPa",
            ),
            Step(
                "g",
                "weight of slab and foam × factor" if resolved.water.by_en else "weight of slab and foam / factor",
                f"{fixed(weight / KILO, 2)} {'×' if resolved.water.by_en else '/'} {factor.value:g}",
                f"{fixed(holds / KILO, 2)} kPa",
            ),
        ),
        words=words,
    )


def boards_afloat(resolved: Resolved) -> Finding:
    """What must lie on the boards until the slab is poured, so that rain or the pour does not float them.

    Asks
        What keeps the boards down until concrete lies on all of them?
    Why
        Water that runs in below loose boards floats them out of line in minutes; wet concrete that gets below one lifts
        it with more than twice that.
    Worked out
        What the boards displace, less what they weigh, for all layers of them with water up to their top; the same for
        wet concrete.
    Holds for
        Boards that lie loose. Stakes and tape hold them in line, not down.
    Source
        Archimedes.
    """
    boards = resolved.boards
    lifts = wet = 0.0
    for layer in boards:
        density = _density(layer)
        lifts += buoyancy.ballast(layer.thickness, density)
        wet += buoyancy.ballast(layer.thickness, density, _concrete())

    def said(pressure: float) -> str:
        metric, pounds = f"{fixed(pressure / GRAVITY, 0)} kg/m²", f"{fixed(pressure / POUND_PER_SQUARE_FOOT, 0)} lb/ft²"
        return f"{pounds} ({metric})" if resolved.system == "US" else f"{metric} ({pounds})"

    return Finding(
        FLOAT,
        "What holds the boards down until the concrete lies on them",
        lifts / KILO,
        "kPa",
        within=0.0,
        basis=(ARCHIMEDES,),
        rests_on=tuple(layer.path for layer in boards),
        steps=tuple(
            Step(
                f"b_{n}",
                f"(1000 − density) × 9.80665 × thickness of {layer.label}",
                f"(1000 − {fixed(_density(layer), 0)}) × 9.80665 × {fixed(layer.thickness, 4)}",
                f"{fixed(buoyancy.ballast(layer.thickness, _density(layer)) / KILO, 3)} kPa",
            )
            for n, layer in enumerate(boards, start=1)
        ),
        words=f"Should rain or ground water stand round the boards before the pour, {said(lifts)} must lie on them, or "
        f"they float. Wet concrete that gets below a board lifts it with {said(wet)}: pour from the middle of boards "
        "outwards, and let nobody lift an edge.",
    )


def _hangs_together(floor: Sequence[Slice]) -> tuple[Slice, ...]:
    """From the top down to the lowest board that is laid now, or to the slab's underside."""
    old = next((n for n, layer in enumerate(floor) if layer.kind == "old-slab"), len(floor))
    last = max((n for n, layer in enumerate(floor[:old]) if layer.kind in (*HEAVY, "board")), default=-1)
    return tuple(floor[: last + 1])


def _weight(layers: Sequence[Slice]) -> float:
    """[Pa]"""
    masses = (
        layer.thickness * (_concrete() if layer.kind in HEAVY else _density(layer) if layer.kind == "board" else 0.0)
        for layer in layers
    )
    return sum(masses) * GRAVITY


def _concrete() -> float:
    density = catalogue.material("concrete").density
    assert density is not None  # the catalogue's table has it
    return density.value


def _density(layer: Slice) -> float:
    assert layer.record is not None and layer.record.density is not None  # every board's record has it
    return layer.record.density.value
