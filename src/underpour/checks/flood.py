"""After a flood: which layers stay wet, shut in between tight ones, and how long the slab dries."""

from __future__ import annotations

from collections.abc import Iterator
from math import isfinite

from .. import catalogue
from ..findings import Basis, Finding, Step
from ..measure import say
from ..measure.digits import fixed
from ..physics.moisture.drying import DEPTH, diffusivity, drying_time
from ..resolve import Resolved, Slice
from .drying import A_DAY, AIR, KILO, MODEL, OPEN_BELOW
from .order import tight

SHUT, DRIES = "water.flood-shut-in", "water.flood-drying"
HOLDS = ("concrete", "screed", "old-slab", "gravel", "sand", "board", "air-space")
NEVER = 3650.0  # d: what takes longer is told as ten years


def after(resolved: Resolved) -> Iterator[Finding]:
    """What a flood leaves in this floor, where the brief says how high it stands.

    Asks
        Does this floor dry again after a flood, and when?
    Why
        Water gets in at every joint. What lies between two tight layers holds it for years; stone on a film gives it to
        the slab for as long.
    Worked out
        Layers that hold water with a tight layer on both sides, or stone and sand on a film; and the time until the
        slab, soaked, is as dry at four tenths of its thickness as its covering bears, as new concrete dries.
    Holds for
        Water that has gone, coverings taken up on the first day, a room that is heated and aired. Mud, sewage and salts
        are another matter.
    Source
        CEB-FIP Model Code 1990, 2.1.8.3 (from memory) for the time; the layers by common practice, no source.
    """
    if resolved.around.flood is None:
        return
    yield _shut_in(resolved)
    poured = [n for n, layer in enumerate(resolved.floor) if layer.kind in ("concrete", "screed", "old-slab")]
    if poured:
        yield _dries(resolved, poured[0])


def shut_in(resolved: Resolved) -> tuple[Slice, ...]:
    """Layers that a flood wets and that cannot dry: a tight layer on both sides, or loose on a film below a slab."""
    sheets = [n for n in tight(resolved) if resolved.floor[n].covering is None]
    found = []
    for n, layer in enumerate(resolved.floor):
        above, below = any(each < n for each in sheets), any(each > n for each in sheets)
        loose = layer.kind in ("gravel", "sand") and any(each.kind == "concrete" for each in resolved.floor[:n])
        if layer.kind in HOLDS and below and (above or loose):
            found.append(layer)
    return tuple(found)


def _stands(resolved: Resolved) -> str:
    assert resolved.around.flood is not None
    return say.both(resolved.around.flood, "m", resolved.system)


def _shut_in(resolved: Resolved) -> Finding:
    found = shut_in(resolved)
    names = ", ".join(layer.words for layer in found)
    if found:
        words = (
            f"A flood {_stands(resolved)} over the floor leaves water in {names}, shut in between tight layers or on a "
            "film: it does not dry. Keep one tight layer, right below the slab, with foam and draining stone under it."
        )
    else:
        words = f"After a flood {_stands(resolved)} over the floor each layer dries up into the room or drains down."
    covering = resolved.floor[0].covering
    take_up = f" {covering.label} is taken up first." if covering is not None else ""
    return Finding(
        SHUT,
        "Layers that stay wet after a flood",
        float(len(found)),
        "count",
        limit=0.0,
        sense="at most",
        basis=(Basis("common practice, no source", "floors that dry after a flood", "practice"),),
        rests_on=("site.flood-level", *dict.fromkeys(layer.path for layer in resolved.floor)),
        steps=tuple(Step("wet", layer.words, "", "shut in") for layer in found)
        or (Step("n", "layers with a tight one on both sides, or loose on a film", "", "none"),),
        words=words + take_up,
    )


def _dries(resolved: Resolved, n: int) -> Finding:
    """How long the uppermost slab dries once the water has gone."""
    layer, covering = resolved.floor[n], resolved.floor[0].covering
    limit = covering.slab_humidity if covering is not None else catalogue.of_water("dried")
    below = resolved.floor[n + 1] if n + 1 < len(resolved.floor) else None
    both = below is not None and below.kind in OPEN_BELOW
    thickness = layer.thickness / (2.0 if both else 1.0)
    typed, usual = resolved.concrete_strength, catalogue.of_slabs("untested-strength")
    strength = typed if typed is not None else usual.value * KILO
    days = [drying_time(thickness, diffusivity(strength), room, limit.value / 100.0) / A_DAY for room in AIR]
    quick, value, slow = (each if isfinite(each) else NEVER for each in days)
    sides = "to both sides, over stone that drains" if both else "upwards only"
    dries = " A fan and a drier take it down to the shorter time." if slow > 2.0 * quick else ""
    return Finding(
        DRIES,
        "Time until the slab is dry again after a flood",
        value,
        "d",
        at={"layer": layer.path.rpartition(".")[0]},
        basis=(MODEL, limit.basis()),
        rests_on=(
            "site.flood-level",
            layer.path,
            limit.path,
            "floor.concrete-class" if typed is not None else usual.path,
        ),
        steps=(
            Step("L", f"thickness that dries, {sides}", "", f"{fixed(thickness, 3)} m"),
            Step(
                "t",
                f"until the pores at {DEPTH:.1f} L are at {limit.value:.0f} %, room at 40, 50 and 60 %",
                "",
                f"{quick:.0f} d, {value:.0f} d, {slow:.0f} d",
            ),
        ),
        words=f"{layer.words} dries {sides}: {quick:.0f} to {slow:.0f} days, usually {value:.0f}, from the day the "
        f"water has gone and the room is aired and heated. Measure before anything is laid again.{dries}",
    )
