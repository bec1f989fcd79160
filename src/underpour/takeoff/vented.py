"""The soil-gas pipe with its fittings, fan and labels, and lids for pits."""

from __future__ import annotations

from collections.abc import Iterator
from math import ceil

from ..catalogue.estimating import estimating
from ..catalogue.rough_in import rough_in
from ..measure import say
from ..resolve import Resolved
from ..resolve.soil_gas import VentPipe
from .prices import NO_PRODUCT
from .records import Item, beyond
from .through import LAID

PIPE = "soil-gas.pipe"


def vented(resolved: Resolved) -> Iterator[Item]:
    """Pipe, elbows, pits, cap or outlet, fan, gauge and labels as the brief has them laid.

    Arguments
    ---------
    resolved
        The brief in numbers.
    """
    gas = resolved.soil_gas
    if gas is None or gas.system not in LAID or gas.pipe is None:
        return
    size = gas.pipe.words
    yield _pipe(resolved, gas.pipe)
    if gas.pipe.bends:
        yield _counted(
            gas.pipe.bends,
            "Elbows of the soil-gas pipe",
            PIPE,
            f"elbow{'s' if gas.pipe.bends > 1 else ''} of {size}",
            "As many as the pipe turns.",
        )
    if gas.suctions:
        count = len(gas.suctions)
        why = "One for each pit: a tee, or a length of slotted pipe, held free of the stone."
        yield _counted(count, "Suction", "soil-gas.suction", f"pit{'s' if count > 1 else ''} with a tee of {size}", why)
    if gas.system == "rough-in":
        yield _counted(
            1, "End of the soil-gas pipe", PIPE, f"gas-tight cap of {size}", "The pipe ends closed until a fan is set."
        )
    else:
        yield _counted(1, "Roof flashing", PIPE, f"flashing for {size}", "Where the pipe goes through the roof.")
    if gas.system == "fan":
        why = "On the open part of its way, outside of heated rooms."
        yield _counted(1, "Fan for soil gas", "soil-gas.fan", "fan with two couplings", why)
        yield _counted(
            1, "Gauge of the fan", "soil-gas.fan", "gauge where people see it", "Shows whether the fan draws."
        )
    yield _labels(resolved, gas.pipe)
    pits = sum(each.kind == "pit" for each in resolved.plan.floor.obstacles)
    if pits:
        why = "An open pit lets in what the pipe draws. Gasket and screws, not glue: somebody must get at the pump."
        yield _counted(pits, "Pits in the floor", "plan.obstacle", f"sealed lid{'s' if pits > 1 else ''}", why)


def _pipe(resolved: Resolved, pipe: VentPipe) -> Item:
    stick = estimating("vent", "pipe-us" if resolved.system == "US" else "pipe-si").value
    count = ceil(pipe.length / stick - 1e-9)
    of = f"length{'s' if count > 1 else ''} of {say.both(stick, 'm', resolved.system)}"
    level = "" if pipe.level is None else f", {say.both(pipe.level, 'm', resolved.system)} of it level"
    unknown = " The level part is not told and not counted." if pipe.level is None else ""
    why = f"{say.both(pipe.length, 'm', resolved.system)} of pipe{level}; {count - 1} couplings.{unknown}"
    over = beyond(("left over", count * stick - pipe.length))
    return Item(
        f"Soil-gas pipe, {pipe.words}",
        PIPE,
        "",
        pipe.length,
        "m",
        count,
        of,
        count * stick,
        why,
        "",
        None,
        NO_PRODUCT,
        over,
    )


def _labels(resolved: Resolved, pipe: VentPipe) -> Item:
    apart = [
        item.most.value
        for edition in resolved.held.editions
        for item in rough_in(edition.key)
        if item.what == "label" and item.most is not None
    ]
    every = min(apart, default=estimating("vent", "storey").value)
    length = pipe.length if apart else pipe.rise
    count = max(ceil(length / every - 1e-9), 1)
    how = "of pipe, as the code has it" if apart else "of its rise, one a storey"
    return _counted(
        count,
        "Labels for the pipe",
        PIPE,
        f"label{'s' if count > 1 else ''}",
        f"One every {say.both(every, 'm', resolved.system)} {how}.",
    )


def _counted(count: int, what: str, where: str, of: str, why: str) -> Item:
    return Item(what, where, "", count, "count", count, of, count, why, unpriced=NO_PRODUCT)
