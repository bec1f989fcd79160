"""The pipe's way from the pit to the open air: what the brief types of it, what is assumed, what nobody says."""

from __future__ import annotations

from ...resolve import Resolved
from ...resolve.soil_gas import ResolvedSoilGas
from .drawn_off import Fact, Way

OPEN = Fact(None, "open")


def way(resolved: Resolved, gas: ResolvedSoilGas) -> Way | None:
    """The way of the pipe; None where no pipe is laid."""
    pipe, typed = gas.pipe, gas.typed
    if pipe is None or gas.system not in ("rough-in", "passive", "fan"):
        return None
    assumed = {each.path for each in resolved.assumed}

    def taken(value: float | str, path: str) -> Fact:
        return Fact(value, "assumed" if f"soil-gas.{path}" in assumed else "typed")

    first = gas.suctions[0] if gas.suctions else None
    return Way(
        system=gas.system,
        pits=len(gas.suctions),
        pit_width=taken(first.width, "suction.1.pit") if first is not None else OPEN,
        pit_depth=_told(typed.pit_depth),
        size=taken(pipe.size, "pipe.size"),
        level=_told(pipe.level),
        rise=taken(pipe.rise, "pipe.rise"),
        bends=taken(pipe.bends, "pipe.bends"),
        falls=_told(typed.falls),
        slope=_told(typed.slope),
        through=taken(pipe.through, "pipe.through"),
        labelled=_told(typed.labelled),
        power=_told(typed.power),
        fan_at=_told(gas.fan.at or None) if gas.fan is not None else OPEN,
        above_roof=_told(typed.above_roof),
        from_openings=_told(typed.from_openings),
        above_openings=_told(typed.above_openings),
    )


def _told(value: float | str | bool | None) -> Fact:
    return OPEN if value is None else Fact(value, "typed")
