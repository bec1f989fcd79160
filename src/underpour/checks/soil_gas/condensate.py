"""Water in the pipe: how much condenses, whether it drains into the ground, and where it would stand."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

from ...catalogue import of_soil_gas
from ...findings import Basis, Finding, Step
from ...measure import say
from ...measure.digits import fixed
from ...physics.soil_gas.draught import condensate, sag_that_holds
from ...resolve import Resolved
from ...resolve.soil_gas import ResolvedSoilGas, VentPipe

ID = "soilgas.condensate"
STRAIGHT = 0.05  # m of level stretches; with less the pipe climbs straight up
DAY = 86400.0  # s
SAGGING = Basis("a parabola between two hangers", "level where it falls by 4 f / L", "derived")


def water(resolved: Resolved, gas: ResolvedSoilGas, flow: float | None) -> Iterator[Finding]:
    """How steeply the pipe falls back to where gas is drawn, beside what keeps water out of its sags.

    Asks
        Does the water that condenses in the pipe drain into the ground, or does it stand and close the pipe?
    Why
        Air from below a slab is damp; the pipe is cold in the attic and above the roof. A litre in a sag stops a fan as
        surely as a cap, and nobody sees it.
    Worked out
        The fall as typed. Beside it: the most that can condense in the coldest month, and the sag between two hangers
        that would hold it.
    Holds for
        Level stretches of plastic pipe on hangers. What climbs straight up drains by itself.
    Source
        Common practice for fall and hangers, no source; water vapour at saturation, ISO 13788's formula.
    """
    if gas.pipe is None or gas.system not in ("rough-in", "passive", "fan"):
        return
    asked, hangers = of_soil_gas("asked.fall"), of_soil_gas("pipe.hangers")
    empty = Finding(
        ID,
        "Fall of the pipe's level stretches, back to where gas is drawn",
        None,
        "%",
        basis=(asked.basis(), SAGGING),
        rests_on=("soil-gas.pipe.falls", "soil-gas.pipe.slope", asked.path, hangers.path),
    )
    if gas.pipe.level is not None and gas.pipe.level < STRAIGHT:
        words = "The pipe climbs straight up from its pit, so its water drains by itself."
        yield replace(empty, no_limit="does not apply", words=words)
        return
    much, condenses = _condenses(resolved, gas.pipe, flow)
    if gas.typed.falls is None:
        words = f"Nothing says which way the level stretches fall.{much} It has to drain back into the ground."
        yield replace(empty, missing="soil-gas.pipe.falls", words=words, steps=condenses)
        return
    if gas.typed.slope is None:
        words = f"Nothing says how steeply they fall.{much} Usual is 1/8 in in each foot (1 %)."
        yield replace(empty, missing="soil-gas.pipe.slope", words=words, steps=condenses)
        return
    slope, units = gas.typed.slope, resolved.system
    sag = sag_that_holds(slope, hangers.value)
    apart, holds = say.both(hangers.value, "m", units), say.both(1e3 * sag, "mm", units)
    where = f"Between hangers {apart} apart a sag of more than {holds} holds it"
    short = 100.0 * slope < asked.value
    words = (
        f"{where}, and what stands there closes the pipe. Hang it steeper, or on closer hangers.{much}"
        if short
        else f"Water drains to where gas is drawn.{much} {where}: look at it with a level before walls are closed."
    )
    steps = (
        Step("s", "as typed, at least", f"{fixed(100.0 * slope, 2)} %", f"{fixed(asked.value, 2)} %"),
        Step("f", "s L / 4, L from hanger to hanger", f"{fixed(slope, 4)} × {fixed(hangers.value, 2)} m / 4", holds),
        *condenses,
    )
    value = round(100.0 * slope, 9)  # a hundredth is one per cent
    yield replace(empty, value=value, limit=asked.value, sense="at least", words=words, steps=steps)


def _condenses(resolved: Resolved, pipe: VentPipe, flow: float | None) -> tuple[str, tuple[Step, ...]]:
    """The most that condenses in a day of the coldest month, in words and as a step; nothing where nothing flows."""
    if flow is None or flow <= 0.0:
        return "", ()
    below, coldest = resolved.outdoor_mean, resolved.outdoor_mean - abs(resolved.outdoor_swing)
    units = resolved.system
    made = condensate(flow, below, coldest) * DAY
    said = say.both(made, "kg", units)
    warm, cold = (say.both(each, "degC", units) for each in (below, coldest))
    words = f" In the coldest month up to {said} of water condense in it each day."
    numbers = f"{fixed(1e3 * flow, 1)} l/s, as damp as air of {warm} can be, down to {cold}"
    return words, (Step("w", "Q (ρ below − ρ at the coldest wall)", numbers, f"{said} a day"),)
